package thread

import (
	"math"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// trapezoidalCell holds the tolerances of a range of diameters and a pitch; a
// screw has es, td and td3, a nut td1.
type trapezoidalCell struct {
	over, to, pitch       units.Length
	es, td, td1, td2, td3 units.Length
	ref                   source.Ref
}

var (
	trapezoidalScrews = table.Table[trapezoidalCell]{
		FS: &tables, Name: "tables/iso2903_external.csv",
		Row: func(r *table.Row) trapezoidalCell {
			c := readTrapezoidal(r)
			c.es, c.td, c.td3 = micron(r.Int("es")), micron(r.Int("td")), micron(r.Int("td3"))
			return c
		},
	}
	trapezoidalNuts = table.Table[trapezoidalCell]{
		FS: &tables, Name: "tables/iso2903_internal.csv",
		Row: func(r *table.Row) trapezoidalCell {
			c := readTrapezoidal(r)
			c.td1 = micron(r.Int("td1"))
			return c
		},
	}
)

func readTrapezoidal(r *table.Row) trapezoidalCell {
	mm := func(column string) units.Length { return table.As(r, column, units.Millimetres.Parse) }
	return trapezoidalCell{over: mm("over"), to: mm("to"), pitch: mm("pitch"), td2: micron(r.Int("td2")), ref: r.Ref()}
}

// limitsTrapezoidal gives class 7e of the screw and 7H of the nut (ISO 2903) for
// pitches of 1.5 to 4 mm. The screw's major diameter goes from its basic size
// down by Td, its pitch diameter from es below its basic size down by Td2, its
// minor diameter from its basic size down by Td3, which is 1.25 Td2 + |es| in
// whole micrometres, where the standard makes 279.5 into 279 and 308.5 into 309.
// The nut's pitch and minor diameters go from their basic sizes up, and its major
// diameter has none but a least size, twice the clearance above the screw's.
func (t Thread) limitsTrapezoidal(class string) (Limits, error) {
	var cells []trapezoidalCell
	switch class {
	case "7e":
		cells = trapezoidalScrews.Rows()
	case "7H":
		cells = trapezoidalNuts.Rows()
	default:
		return Limits{}, t.noClass(class, "7e", "7H")
	}
	for i := range cells {
		c := &cells[i]
		if c.pitch != t.pitch || t.major.Cmp(c.over) <= 0 || t.major.Cmp(c.to) > 0 {
			continue
		}
		l := Limits{Class: class, External: class == "7e", Refs: source.Shared(&c.ref)}
		if l.External {
			l.Major = below(t.major, c.td)
			l.PitchDiameter = below(t.pitchDiameter.Sub(c.es), c.td2)
			l.Minor = below(t.root, c.td3)
			return l, nil
		}
		l.Major = Range{Min: t.major.Add(trapezoidalClearance(t.pitch).Scale(2))}
		l.PitchDiameter = above(t.pitchDiameter, c.td2)
		l.Minor = above(t.minor, c.td1)
		return l, nil
	}
	return Limits{}, fail.Wrong("limits of "+t.name, "", "we have no tolerance for this diameter and pitch",
		"Tr 8x1.5 to Tr 20x4")
}

type acmeAllowance struct {
	over, to, allowance units.Length
}

var acmeAllowances = table.Table[acmeAllowance]{FS: &tables, Name: "tables/acme_allowance.csv",
	Row: func(r *table.Row) acmeAllowance {
		inch := func(column string) units.Length { return table.As(r, column, units.Inches.Parse) }
		return acmeAllowance{inch("over"), inch("to"), inch("allowance")}
	}}

var limitsAcmeRef = source.Ref{
	Kind: source.FromMemory, Title: "ASME B1.5",
	Note: "formulas recalled; a screw maker's limits and a data sheet agree at the standard pitches;" +
		" allowances as in Machinery's Handbook, 27th edition, p. 1841",
}

// limitsAcme gives class 2G of the screw and the nut (ASME B1.5), p the pitch
// and D the diameter in inches:
//
//	pitch diameter tolerance, both       0.030 * p^(1/2) + 0.006 * D^(1/2)
//	major of the screw, minor of the nut 0.05 * p, at least 0.005
//	minor of the screw                   1.5 times that of the pitch diameter
//	major of the nut                     as its allowance
//
// The screw's pitch diameter lies below its basic size by an allowance that the
// standard lists by ranges of diameter, the nut's major diameter above its basic
// size by 0.020 up to 10 threads to the inch and by 0.010 beyond.
func (t Thread) limitsAcme(class string) (Limits, error) {
	const screw, nut = "2G", "2G nut"
	if class != screw && class != nut {
		return Limits{}, t.noClass(class, screw, nut)
	}
	d, p := t.major.Inch(), t.pitch.Inch()
	four := units.Thou(0.1)
	tolerance := round(units.Inch(0.030*math.Sqrt(p)+0.006*math.Sqrt(d)), four) // ASME B1.5
	crest := round(units.Inch(max(0.05*p, 0.005)), four)
	l := Limits{Class: class, External: class == screw, Refs: source.Shared(&limitsAcmeRef)}
	if class == nut {
		allowance := t.minor.Sub(t.root) // the same at the screw's root
		l.Major = above(t.major.Add(allowance), allowance)
		l.PitchDiameter = above(t.pitchDiameter, tolerance)
		l.Minor = above(t.minor, crest)
		return l, nil
	}
	for _, a := range acmeAllowances.Rows() {
		if t.major.Cmp(a.over) > 0 && t.major.Cmp(a.to) <= 0 {
			l.Major = below(t.major, crest)
			l.PitchDiameter = below(t.pitchDiameter.Sub(a.allowance), tolerance)
			l.Minor = below(t.root, round(units.Inch(1.5*(0.030*math.Sqrt(p)+0.006*math.Sqrt(d))), four))
			return l, nil
		}
	}
	return Limits{}, fail.Wrong("limits of "+t.name, "", "we have no allowance for this diameter",
		"Acme threads up to 4 3/4 in")
}
