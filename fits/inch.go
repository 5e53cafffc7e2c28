package fits

import (
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

// InchLimits are an inch fit at a nominal size. The Note of a Ref says what had to
// be worked out or recalled.
type InchLimits struct {
	FitLimits
	HoleSymbol, ShaftSymbol string // classes that the limits go by, "H8" and "f7"; blank where the standard has none
}

// LimitsFor returns the limits of both parts at a nominal size and the fit they
// make, exact in thousandths of an inch. All inch fits are on hole basis, and the
// clearance is computed, hole less shaft. A size on a boundary belongs to the range
// below it.
//
// The tables reach to about 5 in, LC6 and LC7 to 1.97 in, LC8 to LC11 to
// 1.19 in; LT3, LT4 begin over 0.24 in and FN3 over 0.95 in. The error for a
// size outside says where the class begins and ends; a size that would let the
// shaft be of no size is refused. Source: ANSI B4.1-1967; LC1 to LC5 are from
// memory. In the edition of 1955 RC3 was H6/f6 and RC4 was H7/f7.
// See the Example.
func (f InchFit) LimitsFor(nominal units.Length) (InchLimits, error) {
	if f.number <= 0 || int(f.number) >= len(inchNames) {
		return InchLimits{}, fail.Missing("inch fit", acceptedInch)
	}
	rows := inchOnce.Get(byClass)[f.number]
	i := sort.Search(len(rows), func(i int) bool { return nominal.Cmp(rows[i].upto) <= 0 })
	if i == len(rows) || nominal.Cmp(rows[i].over) <= 0 || nominal.Sign() <= 0 {
		first, last := rows[0].over, rows[len(rows)-1].upto
		return InchLimits{}, fail.Wrong(f.String()+" at", nominal.Text(units.Inches, 4), "outside the table of the class",
			"over "+first.Text(units.Inches, 2)+" up to "+last.Text(units.Inches, 2))
	}
	r := &rows[i]
	least := nominal.Add(r.shaftLower)
	if least.Sign() <= 0 {
		return InchLimits{}, notUsed(f.String(), nominal,
			"the shaft reaches down to "+least.String()+", which is no part", "a larger size or a closer class")
	}
	out := r.result
	out.Hole = Limits{nominal, nominal, nominal.Add(r.holeUpper), out.Refs}
	out.Shaft = Limits{nominal, least, nominal.Add(r.shaftUpper), out.Refs}
	out.clear()
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

// ParseInchFit reads a class of ANSI B4.1: RC4, "RC 4", fn2.
func ParseInchFit(s string) (InchFit, error) {
	text := strings.ToUpper(strings.Join(strings.Fields(s), ""))
	if i := slices.Index(inchNames[:], text); i > 0 {
		return InchFit{int8(i)}, nil
	}
	var near []string
	for _, name := range inchNames[1:] {
		if len(text) > 2 && name[:2] == text[:2] {
			near = append(near, name)
		}
	}
	return InchFit{}, fail.UnknownName("inch fit", s, acceptedInch, near...)
}

const acceptedInch = "RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5"

// MarshalText implements [encoding.TextMarshaler].
func (f InchFit) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseInchFit]; blank
// text is no fit.
func (f *InchFit) UnmarshalText(text []byte) error { return unmarshal(f, ParseInchFit, text) }

// GobEncode implements [gob.GobEncoder] with [InchFit.MarshalText].
func (f InchFit) GobEncode() ([]byte, error) { return f.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [InchFit.UnmarshalText].
func (f *InchFit) GobDecode(text []byte) error { return f.UnmarshalText(text) }

// InchFits returns every class of ANSI B4.1, in its order.
func InchFits() []InchFit {
	var out []InchFit
	for i := 1; i < len(inchNames); i++ {
		out = append(out, InchFit{int8(i)})
	}
	return out
}

var inchNames = [...]string{
	"", "RC1", "RC2", "RC3", "RC4", "RC5", "RC6", "RC7", "RC8", "RC9",
	"LC1", "LC2", "LC3", "LC4", "LC5", "LC6", "LC7", "LC8", "LC9", "LC10", "LC11",
	"LT1", "LT2", "LT3", "LT4", "LT5", "LT6", "LN1", "LN2", "LN3", "FN1", "FN2", "FN3", "FN4", "FN5",
}

type inchRow struct {
	fit                               InchFit
	over, upto                        units.Length
	holeUpper, shaftUpper, shaftLower units.Length
	result                            InchLimits // all but the limits
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
	thou := func(column string) units.Length { return table.As(r, column, units.Thousandths.Parse) }
	row := inchRow{
		fit:  table.As(r, "class", ParseInchFit),
		over: table.As(r, "over_in", units.Inches.Parse), upto: table.As(r, "upto_in", units.Inches.Parse),
		holeUpper: thou("hole_upper"), shaftUpper: thou("shaft_upper"), shaftLower: thou("shaft_lower"),
		result: InchLimits{HoleSymbol: r.Optional("hole_symbol"), ShaftSymbol: r.Optional("shaft_symbol")},
	}
	ref := r.Ref()
	if note := r.Optional("note"); note != "" {
		ref.Note = strings.TrimPrefix(ref.Note+"; "+note, "; ")
	}
	row.result.Refs = source.Of(ref)
	return row
}
