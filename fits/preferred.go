package fits

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/source"
)

// A PreferredFit is a fit that the standards recommend, so that fewer reamers
// and gauges are needed, with what it is for.
type PreferredFit struct {
	Fit  Fit
	Name string      // as in ANSI B4.2: "close running"
	Use  string      // in our words
	Refs source.Refs `json:",omitzero"` // of the recommendation
}

// PreferredFits returns the preferred fits on one basis, from loose to tight.
func PreferredFits(b Basis) ([]PreferredFit, error) {
	if !bases.Known(int(b)) {
		return nil, bases.Unknown(int(b))
	}
	var out []PreferredFit
	for _, row := range preferred.Rows() {
		out = append(out, row[b])
	}
	return out, nil
}

// Preferred returns what a fit is for if it is a preferred one on either basis;
// false for others.
func (f Fit) Preferred() (PreferredFit, bool) {
	for _, row := range preferred.Rows() {
		for _, p := range row {
			if p.Fit == f {
				return p, true
			}
		}
	}
	return PreferredFit{}, false
}

// preferred holds each fit on hole basis and on shaft basis.
var preferred = table.Table[[2]PreferredFit]{FS: &tables, Name: "tables/preferred.csv", Row: readPreferred}

func readPreferred(r *table.Row) [2]PreferredFit {
	var out [2]PreferredFit
	for b, column := range []string{"hole_basis", "shaft_basis"} {
		out[b] = PreferredFit{
			Fit: table.As(r, column, ParseFit), Name: r.Text("name"), Use: r.Text("use"), Refs: source.Of(r.Ref()),
		}
	}
	return out
}
