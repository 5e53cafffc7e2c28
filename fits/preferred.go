package fits

import (
	"cmp"
	"slices"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Basis says which of the two parts is made to the size itself, so that one
// reamer, or one bar, serves for many fits.
type Basis int

// The bases. Hole basis, the zero value, is the usual one: the hole is reamed H
// and the shaft turned to suit. Shaft basis is for bright and ground bar.
const (
	HoleBasis Basis = iota
	ShaftBasis
)

var bases = names.Set{Package: "fits", Type: "Basis", Field: "basis", Texts: []string{"hole basis", "shaft basis"}}

// String returns "hole basis" or "shaft basis".
func (b Basis) String() string { return bases.Text(int(b)) }

// ParseBasis returns the basis of that name. Another text is an
// [*units.ArgumentError] that lists the accepted ones.
func ParseBasis(s string) (Basis, error) {
	v, err := bases.Value(s)
	return Basis(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (b Basis) MarshalText() ([]byte, error) { return bases.Marshal(int(b)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (b *Basis) UnmarshalText(text []byte) error { return unmarshal(b, ParseBasis, text) }

// A PreferredFit is a fit that the standards recommend, so that fewer reamers
// and gauges are needed, with what it is for.
type PreferredFit struct {
	Fit  Fit
	Name string // as in ANSI B4.2: "close running"
	Use  string
	Ref  source.Ref
}

// PreferredFits returns the preferred fits on one basis, from loose to tight.
// Another basis is an [*units.ArgumentError].
func PreferredFits(b Basis) ([]PreferredFit, error) {
	if b != HoleBasis && b != ShaftBasis {
		return nil, bases.Unknown(int(b))
	}
	var out []PreferredFit
	for _, row := range preferred.Rows() {
		out = append(out, row[b])
	}
	return out, nil
}

// A Choice is a preferred fit held against the clearance that was wanted.
type Choice struct {
	PreferredFit
	Result  Result
	Outside units.Length // how far its clearance may lie outside the wanted band, at the worse end; zero suits
}

// Choose ranks the preferred fits on one basis at a nominal size by how well
// their clearance lies within a wanted band, best first; interference is
// clearance below zero. Fits that stay inside come first, the one nearest the
// middle of the band in front. Fits that the standard does not define at the
// size are left out. A band the wrong way round, or a size outside [Class.At],
// is an [*units.ArgumentError].
func Choose(nominal units.Length, wanted Band, b Basis) ([]Choice, error) {
	if err := wanted.check("wanted clearance"); err != nil {
		return nil, err
	}
	if _, err := rangeOf(nominal); err != nil {
		return nil, err
	}
	fits, err := PreferredFits(b)
	if err != nil {
		return nil, err
	}
	var out []Choice
	for _, p := range fits {
		if r, err := p.Fit.At(nominal); err == nil {
			out = append(out, Choice{p, r, outside(r, wanted)})
		}
	}
	slices.SortStableFunc(out, func(a, b Choice) int {
		return cmp.Or(a.Outside.Cmp(b.Outside), offCentre(a.Result, wanted).Cmp(offCentre(b.Result, wanted)))
	})
	return out, nil
}

// preferred holds each fit on hole basis and on shaft basis.
var preferred = table.Table[[2]PreferredFit]{FS: &tables, Name: "tables/preferred.csv", Row: readPreferred}

func readPreferred(r *table.Row) [2]PreferredFit {
	var out [2]PreferredFit
	for b, column := range []string{"hole_basis", "shaft_basis"} {
		f, err := ParseFit(r.Text(column))
		if err != nil {
			r.Complain("%v", err)
		}
		out[b] = PreferredFit{Fit: f, Name: r.Text("name"), Use: r.Text("use"), Ref: r.Ref()}
	}
	return out
}
