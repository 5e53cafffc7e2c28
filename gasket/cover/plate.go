package cover

import (
	"cmp"
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("cover")

// Where the theory of thin plates ends, and what the findings say of it.
const (
	CoverBulges finding.Code = "cover-bulges" // by more than half its thickness
	ThickPlate  finding.Code = "thick-plate"  // above a quarter of its span
)

// A Bending is what a pressure does to a flat cover that is held in one way.
type Bending struct {
	Stress     units.Pressure // greatest bending stress
	AtCentre   bool           // that is where it is; otherwise at the rim, in the middle of the long side
	Deflection units.Length   // of the middle
}

// A Plate is a cover under pressure: the true stress and deflection lie between
// the two.
type Plate struct {
	Thickness units.Length
	Supported Bending // the rim may tilt: the safe assumption for a round cover
	Clamped   Bending // the rim is held level
	Findings  finding.List
	Refs      source.Refs
}

// Stress returns the greater of the two stresses, which is that of the supported
// rim for a round cover but not for every rectangular one.
func (p Plate) Stress() units.Pressure { return max(p.Supported.Stress, p.Clamped.Stress) }

// A Round cover is a flat disc.
type Round struct {
	Diameter  units.Length // at which it is held: the stud circle, to be safe
	Thickness units.Length
	Elastic   units.Pressure // modulus of elasticity
	Poisson   float64        // Poisson's ratio, above 0 to 0.5; 0.25 to 0.35 for metals
}

var (
	carvillRound = source.Ref{
		Kind: source.Published, Title: "Carvill, Mechanical Engineer's Data Handbook", Locator: "1.10.1, p. 53",
	}
	carvillRect = source.Ref{
		Kind: source.Published, Title: "Carvill, Mechanical Engineer's Data Handbook", Locator: "1.10.2, p. 54",
		Note: "a fit for a Poisson's ratio of 0.3; also Machinery's Handbook, 31st edition, p. 289",
	}
	roark = source.Ref{
		Kind: source.Published, Title: "Roark's Formulas for Stress and Strain", Edition: "7th edition", Locator: "chapter 11",
	}
)

// Under returns the stress and deflection of a round cover under an even
// pressure.
//
//	supported at the centre  s = 3 * (3 + v) * p * r^2 / (8 * t^2)
//	                         y = (5 + v) * p * r^4 / (64 * (1 + v) * D)
//	clamped at the rim       s = 3 * p * r^2 / (4 * t^2)
//	                         y = p * r^4 / (64 * D)
//	                         D = E * t^3 / (12 * (1 - v^2))
//
//	p  the pressure above that outside
//	r  half the diameter
//	t  the thickness
//	E  the modulus of elasticity
//	v  Poisson's ratio
//
// The theory is that of thin plates: the findings say when the thickness is
// above a quarter of the diameter or the deflection above half the thickness.
// Source: Carvill, 1.10.1, p. 53. See the example.
func (c Round) Under(pressure units.Pressure) (Plate, error) {
	err := cmp.Or(fault.Positive(fail, "pressure", pressure), fail.Above(fault.Named("diameter of the cover", c.Diameter)),
		checkPlate(c.Thickness, c.Elastic), c.checkPoisson())
	if err != nil {
		return Plate{}, err
	}
	p, r, t, v := float64(pressure), c.Diameter.Metres()/2, c.Thickness.Metres(), c.Poisson
	d := float64(c.Elastic) * t * t * t / (12 * (1 - v*v))
	q := p * r * r / (t * t)
	y := p * r * r * r * r / (64 * d)
	plate := Plate{Thickness: c.Thickness, Refs: source.Shared(&carvillRound)}
	plate.Supported, err = bending(3*(3+v)/8*q, true, (5+v)/(1+v)*y) // 1.10.1, p. 53
	if err == nil {
		plate.Clamped, err = bending(0.75*q, false, y) // 1.10.1, p. 53
	}
	if err != nil {
		return Plate{}, err
	}
	plate.judge(c.Diameter)
	return plate, nil
}

// Solve returns the thickness at which a pressure brings a round cover to a
// stress, supported and clamped; that of the cover itself is not used.
//
//	supported  t = r * sqrt(3 * (3 + v) * p / (8 * s))
//	clamped    t = r * sqrt(3 * p / (4 * s))
//
//	r  half the diameter
//	v  Poisson's ratio
//	p  the pressure above that outside
//	s  the stress
//
// Source: as [Round.Under], turned round. See the example.
func (c Round) Solve(pressure, stress units.Pressure) (supported, clamped units.Length, err error) {
	err = cmp.Or(fault.Positive(fail, "pressure", pressure), fault.Positive(fail, "stress allowed", stress),
		fail.Above(fault.Named("diameter of the cover", c.Diameter)), c.checkPoisson())
	if err != nil {
		return supported, clamped, err
	}
	ratio, r := float64(pressure)/float64(stress), c.Diameter.MM()/2
	supported, err = thickness(r * math.Sqrt(3*(3+c.Poisson)/8*ratio)) // 1.10.1, p. 53
	if err != nil {
		return supported, clamped, err
	}
	clamped, err = thickness(r * math.Sqrt(0.75*ratio)) // 1.10.1, p. 53
	return supported, clamped, err
}

func (c Round) checkPoisson() error {
	if err := fault.Finite(fail, "Poisson's ratio", c.Poisson); err != nil {
		return err
	}
	if c.Poisson <= 0 || c.Poisson > 0.5 {
		return fail.OutOfRange("Poisson's ratio", c.Poisson, "above 0 to 0.5, 0.25 to 0.35 for metals")
	}
	return nil
}

// A Rectangular cover is a flat rectangle.
type Rectangular struct {
	Short, Long units.Length // between the lines on which it is held: the rows of studs, to be safe
	Thickness   units.Length
	Elastic     units.Pressure // modulus of elasticity
}

// Under returns the stress and deflection of a rectangular cover under an even
// pressure.
//
//	supported at the centre   s = 0.75 * p * a^2 / (t^2 * (1.61 * c^3 + 1))
//	                          y = 0.142 * p * a^4 / (E * t^3 * (2.21 * c^3 + 1))
//	clamped at the long side  s = p * a^2 / (2 * t^2 * (0.623 * c^6 + 1))
//	                          y = 0.0284 * p * a^4 / (E * t^3 * (1.056 * c^5 + 1))
//
//	p  the pressure above that outside
//	a  the short side
//	b  the long side, at least the short one
//	c  a / b
//	t  the thickness
//	E  the modulus of elasticity; Poisson's ratio is 0.3
//
// The formulas are fits: against the table of Roark the stress of a supported
// plate comes out 4.3 percent high at b = 1.4 a and 1.3 percent low at b = 4 a,
// and against a series that of a clamped one 8 percent high at b = 1.2 a. Limits
// as for a round cover. Source: Carvill, 1.10.2, p. 54. See the example.
func (c Rectangular) Under(pressure units.Pressure) (Plate, error) {
	err := cmp.Or(fault.Positive(fail, "pressure", pressure),
		fail.Above(fault.Named("short side of the cover", c.Short), fault.Named("long side of the cover", c.Long)),
		checkPlate(c.Thickness, c.Elastic))
	if err != nil {
		return Plate{}, err
	}
	if c.Long.Cmp(c.Short) < 0 {
		return Plate{}, fail.OutOfRange("long side of the cover", c.Long, "at least the short side, "+c.Short.String())
	}
	p, a, t, e := float64(pressure), c.Short.Metres(), c.Thickness.Metres(), float64(c.Elastic)
	ratio := c.Short.Ratio(c.Long)
	q := p * a * a / (t * t)
	y := p * a * a * a * a / (e * t * t * t)
	plate := Plate{Thickness: c.Thickness, Refs: source.Shared(&carvillRect)}
	cubed, fifth := ratio*ratio*ratio, math.Pow(ratio, 5)
	plate.Supported, err = bending(0.75*q/(1.61*cubed+1), true, 0.142*y/(2.21*cubed+1)) // 1.10.2, p. 54
	if err == nil {
		plate.Clamped, err = bending(q/(2*(0.623*fifth*ratio+1)), false, 0.0284*y/(1.056*fifth+1)) // 1.10.2, p. 54
	}
	if err != nil {
		return Plate{}, err
	}
	plate.judge(c.Short)
	return plate, nil
}

func checkPlate(thickness units.Length, elastic units.Pressure) error {
	return cmp.Or(fail.Above(fault.Named("thickness of the cover", thickness)),
		fault.Positive(fail, "modulus of elasticity", elastic))
}

// bending makes a Bending of a stress in pascals and a deflection in metres.
func bending(stress float64, centre bool, deflection float64) (Bending, error) {
	y, err := units.Millimetres.Of(deflection * 1000)
	if err != nil {
		return Bending{}, fail.OutOfRange("deflection", fmt.Sprintf("%.3g m", deflection), "a thicker cover or a lower pressure")
	}
	return Bending{Stress: units.Pressure(stress), AtCentre: centre, Deflection: y}, nil
}

// thickness returns a thickness in millimetres that was worked out.
func thickness(mm float64) (units.Length, error) {
	l, err := units.Millimetres.Of(mm)
	if err != nil {
		return l, fail.OutOfRange("thickness that the stress asks for", fmt.Sprintf("%.3g mm", mm), "a higher stress or a lower pressure")
	}
	return l, nil
}

// judge adds the findings where the theory of thin plates ends.
func (p *Plate) judge(across units.Length) {
	if p.Supported.Deflection.Cmp(p.Thickness.Scale(0.5)) > 0 {
		p.Findings = append(p.Findings, finding.Finding{
			Code: CoverBulges, Severity: finding.Danger,
			Text: fmt.Sprintf("The cover would bulge by %s, more than half its thickness: the theory of thin plates does not hold, and no cover should.",
				p.Supported.Deflection.Text(units.Millimetres, 2)),
			Remedies: []string{"Make the cover thicker."}, Refs: source.Shared(&roark),
		})
	}
	if p.Thickness.Cmp(across.Scale(0.25)) > 0 {
		p.Findings = append(p.Findings, finding.Finding{
			Code: ThickPlate, Severity: finding.Note,
			Text: fmt.Sprintf("The cover is thicker than a quarter of the %s that it spans; the theory of thin plates then says too little about the deflection.",
				across.Text(units.Millimetres, 1)),
			Refs: source.Shared(&roark),
		})
	}
}
