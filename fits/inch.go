package fits

import (
	"cmp"
	"slices"
	"sort"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// An InchFit is a class of fit of ANSI B4.1, such as RC4 or FN2. Its zero value
// is none; make one with [ParseInchFit].
type InchFit struct{ number int8 }

// An InchResult is an inch fit at a nominal size: what the limits give, and
// what the standard prints beside them.
type InchResult struct {
	Result
	HoleSymbol, ShaftSymbol string       // classes that the limits go by, "H8" and "f7"; blank where the standard has none
	PrintedMin, PrintedMax  units.Length // the printed clearance; below zero is interference
	Note                    string       // what had to be worked out or recalled in this row
	Ref                     source.Ref
}

// Agrees reports whether the printed clearance is what the limits give. In one
// row of the standard it is not; trust the limits.
func (r InchResult) Agrees() bool {
	return r.PrintedMin == r.MinClearance && r.PrintedMax == r.MaxClearance
}

// At returns the limits of both parts at a nominal size and the fit they make,
// exact in thousandths of an inch. All inch fits are on hole basis. A size on a
// boundary belongs to the range below it.
//
// The tables reach to about 5 in, LC6 and LC7 to 1.97 in, LC8 to LC11 to
// 1.19 in; LT3, LT4 begin over 0.24 in and FN3 over 0.95 in. A size outside is an
// [*units.ArgumentError] that says where the class begins and ends, and so is
// one that would let the shaft be of no size. Source:
// ANSI B4.1-1967; LC1 to LC5 are from memory, and Ref says so. In the edition of
// 1955 RC3 was H6/f6 and RC4 was H7/f7.
func (f InchFit) At(nominal units.Length) (InchResult, error) {
	if f.number <= 0 || int(f.number) >= len(inchNames) {
		return InchResult{}, &units.ArgumentError{Package: "fits", Field: "inch fit", Accepted: "RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5", Err: units.ErrMissing}
	}
	rows := inchOnce.Get(byClass)[f.number]
	i := sort.Search(len(rows), func(i int) bool { return nominal.Cmp(rows[i].upto) <= 0 })
	if i == len(rows) || nominal.Cmp(rows[i].over) <= 0 || nominal.Sign() <= 0 {
		return InchResult{}, &units.ArgumentError{Package: "fits", Field: f.String() + " at", Value: nominal.Text(units.Inches, 4), Problem: "outside the table of the class",
			Accepted: "over " + rows[0].over.Text(units.Inches, 2) + " up to " + rows[len(rows)-1].upto.Text(units.Inches, 2), Err: units.ErrOutOfRange}
	}
	r := &rows[i]
	if nominal.Add(r.shaftLower).Sign() <= 0 {
		return InchResult{}, notUsed(f.String(), nominal, "the shaft reaches down to "+nominal.Add(r.shaftLower).String()+", which is no part", "a larger size or a closer class")
	}
	out := r.result
	out.Result = mate(Limits{nominal, nominal, nominal.Add(r.holeUpper)}, Limits{nominal, nominal.Add(r.shaftLower), nominal.Add(r.shaftUpper)})
	return out, nil
}

// An InchChoice is an inch fit held against the clearance that was wanted.
type InchChoice struct {
	Fit     InchFit
	Result  InchResult
	Outside units.Length // as in [Choice]
}

// ChooseInch ranks the inch fits at a nominal size by how well their clearance
// lies within a wanted band, as [Choose] ranks the preferred ones of ISO 286.
// Classes whose table does not reach the size are left out; when none does, and
// when the band is the wrong way round, it is an [*units.ArgumentError].
func ChooseInch(nominal units.Length, wanted Band) ([]InchChoice, error) {
	if err := wanted.check("wanted clearance"); err != nil {
		return nil, err
	}
	var out []InchChoice
	for _, f := range InchFits() {
		if r, err := f.At(nominal); err == nil {
			out = append(out, InchChoice{f, r, outside(r.Result, wanted)})
		}
	}
	if out == nil {
		largest := units.Length{}
		for _, r := range inchRows.Rows() {
			largest = longest(largest, r.upto)
		}
		return nil, &units.ArgumentError{Package: "fits", Field: "nominal size", Value: nominal.Text(units.Inches, 4), Problem: "no class of ANSI B4.1 is tabled there", Accepted: "over 0 up to " + largest.Text(units.Inches, 2), Err: units.ErrOutOfRange}
	}
	slices.SortStableFunc(out, func(a, b InchChoice) int {
		return cmp.Or(a.Outside.Cmp(b.Outside), offCentre(a.Result.Result, wanted).Cmp(offCentre(b.Result.Result, wanted)))
	})
	return out, nil
}

// Use returns what the class is for, in a few words, from the standard's own
// description as the handbooks give it.
func (f InchFit) Use() string {
	if f.number <= 0 || int(f.number) >= len(inchNames) {
		return ""
	}
	switch name := inchNames[f.number]; name {
	case "RC1":
		return "close sliding: located accurately, no play to be felt"
	case "RC2":
		return "sliding: moves and turns easily, not meant to run freely"
	case "RC3":
		return "precision running: slow and light, no change of temperature"
	case "RC4":
		return "close running: accurate machines at moderate speed and load"
	case "RC5", "RC6":
		return "medium running: higher speeds, heavy journal loads, or both"
	case "RC7":
		return "free running: accuracy does not count, or temperature changes much"
	case "RC8", "RC9":
		return "loose running: wide commercial tolerances, bar as supplied"
	case "FN1":
		return "light drive: light pressure, thin sections, long fits, cast iron"
	case "FN2":
		return "medium drive: ordinary steel parts, shrunk light sections; tightest for cast iron"
	case "FN3":
		return "heavy drive: heavier steel parts, shrunk medium sections"
	case "FN4", "FN5":
		return "force: parts that stand high stress, shrunk where pressing takes too much"
	default:
		switch name[:2] {
		case "LC":
			return "locational clearance: goes together by hand, stands still; the higher the number the looser"
		case "LT":
			return "locational transition: located well, a little clearance or interference"
		}
		return "locational interference: rigid and in line, not to carry load by friction"
	}
}

// String returns "RC4"; blank for the zero value.
func (f InchFit) String() string {
	if f.number < 0 || int(f.number) >= len(inchNames) {
		return "InchFit(?)"
	}
	return inchNames[f.number]
}

// ParseInchFit reads a class of ANSI B4.1: RC4, "RC 4", fn2. Another class is
// an [*units.ArgumentError].
func ParseInchFit(s string) (InchFit, error) {
	text := strings.ToUpper(strings.Join(strings.Fields(s), ""))
	if i := slices.Index(inchNames[:], text); i > 0 {
		return InchFit{int8(i)}, nil
	}
	return InchFit{}, &units.ArgumentError{Package: "fits", Field: "inch fit", Value: quoted(s), Accepted: "RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5", Err: units.ErrUnknown}
}

// MarshalText implements [encoding.TextMarshaler].
func (f InchFit) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseInchFit]; blank
// text is no fit.
func (f *InchFit) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*f = InchFit{}
		return nil
	}
	return unmarshal(f, ParseInchFit, text)
}

// InchFits returns every class of ANSI B4.1, in its order.
func InchFits() []InchFit {
	var out []InchFit
	for i := 1; i < len(inchNames); i++ {
		out = append(out, InchFit{int8(i)})
	}
	return out
}

var inchNames = [...]string{"", "RC1", "RC2", "RC3", "RC4", "RC5", "RC6", "RC7", "RC8", "RC9",
	"LC1", "LC2", "LC3", "LC4", "LC5", "LC6", "LC7", "LC8", "LC9", "LC10", "LC11",
	"LT1", "LT2", "LT3", "LT4", "LT5", "LT6", "LN1", "LN2", "LN3", "FN1", "FN2", "FN3", "FN4", "FN5"}

type inchRow struct {
	fit                               InchFit
	over, upto                        units.Length
	holeUpper, shaftUpper, shaftLower units.Length
	result                            InchResult // all but the limits
}

var (
	inchRows = table.Table[inchRow]{FS: &tables, Name: "tables/ansi_b41.csv", Row: readInchRow}
	inchOnce table.Once[*[len(inchNames)][]inchRow]
)

// byClass puts the rows of each class together, by size.
func byClass() *[len(inchNames)][]inchRow {
	out := &[len(inchNames)][]inchRow{}
	for _, r := range inchRows.Rows() {
		out[r.fit.number] = append(out[r.fit.number], r)
	}
	return out
}

func readInchRow(r *table.Row) inchRow {
	f, err := ParseInchFit(r.Text("class"))
	if err != nil {
		r.Complain("%v", err)
	}
	return inchRow{
		fit: f, over: table.As(r, "over_in", units.Inches.Parse), upto: table.As(r, "upto_in", units.Inches.Parse),
		holeUpper: table.As(r, "hole_upper", units.Thousandths.Parse), shaftUpper: table.As(r, "shaft_upper", units.Thousandths.Parse), shaftLower: table.As(r, "shaft_lower", units.Thousandths.Parse),
		result: InchResult{
			HoleSymbol: r.Optional("hole_symbol"), ShaftSymbol: r.Optional("shaft_symbol"), Note: r.Optional("note"), Ref: r.Ref(),
			PrintedMin: table.As(r, "fit_min", units.Thousandths.Parse), PrintedMax: table.As(r, "fit_max", units.Thousandths.Parse),
		},
	}
}
