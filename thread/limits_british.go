package thread

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

var (
	limitsBARef = source.Ref{
		Kind: source.Published, Title: "Machinery's Handbook", Edition: "31st edition", Locator: "p. 2115, BS 93:1951",
		Note: "tolerances rounded to a micrometre here",
	}
	limitsWhitworthRef = source.Ref{
		Kind: source.FromMemory, Title: "BS 84", Edition: "1956",
		Note: "formulas recalled, the shares of the classes read in a tap maker's catalogue;" +
			" length of engagement equal to the diameter; no allowance",
	}
)

// limitsBA follows BS 93:1951 as Machinery's Handbook reprints it (31st edition,
// p. 2115), p the pitch in millimetres:
//
//	                 major    effective        minor
//	close, 0 to 10   0.15 p   0.08 p + 0.02    0.16 p + 0.04
//	normal, 0 to 10  0.20 p   0.10 p + 0.025   0.20 p + 0.05
//	normal, 11 to 16 0.25 p   0.10 p + 0.025   0.20 p + 0.05
//	nut                       0.12 p + 0.03    0.375 p
//
// Normal bolts 0 to 10 lie 0.025 mm below the basic size. Tolerances are rounded
// to a micrometre here; the standard's own tables were not seen.
func (t Thread) limitsBA(class string) (Limits, error) {
	n := t.number
	if n > 16 {
		return Limits{}, fail.Wrong("limits of "+t.name, "", "BS 93 gives tolerances for 0 to 16 BA only", "0 BA to 16 BA")
	}
	p := t.pitch.MM()
	tolerance := func(ofPitch, fixed float64) units.Length {
		return round(units.MM(ofPitch*p+fixed), units.Micron(1))
	}
	l := Limits{Class: class, External: true, Refs: source.Shared(&limitsBARef)}
	var allowance units.Length
	switch {
	case class == "close" && n <= 10:
		l.Major = below(t.major, tolerance(0.15, 0)) // BS 93, Machinery's Handbook, 31st edition, p. 2115
		l.PitchDiameter = below(t.pitchDiameter, tolerance(0.08, 0.02))
		l.Minor = below(t.minor, tolerance(0.16, 0.04))
	case class == "normal":
		major := 0.25
		if n <= 10 {
			major, allowance = 0.20, units.MM(0.025)
		}
		l.Major = below(t.major.Sub(allowance), tolerance(major, 0))
		l.PitchDiameter = below(t.pitchDiameter.Sub(allowance), tolerance(0.10, 0.025))
		l.Minor = below(t.minor.Sub(allowance), tolerance(0.20, 0.05))
	case class == "nut":
		l.External = false
		l.Major = Range{Min: t.major}
		l.PitchDiameter = above(t.pitchDiameter, tolerance(0.12, 0.03))
		l.Minor = above(t.minor, tolerance(0.375, 0))
	case n > 10:
		return Limits{}, t.noClass(class, "normal", "nut")
	default:
		return Limits{}, t.noClass(class, "close", "normal", "nut")
	}
	return l, nil
}

// limitsWhitworth follows BS 84 from memory, all in inches, with the length of
// engagement L taken as the diameter D:
//
//	T = 0.002 * D^(1/3) + 0.003 * L^(1/2) + 0.005 * p^(1/2)
//
// The effective tolerance is 2T/3 (close), T (medium), 3T/2 (free) for bolts and
// T (medium nut), 3T/2 (normal nut) for nuts, to four decimals; the major
// tolerance of a bolt adds 0.01 p^(1/2) to it and the minor one 0.013 p^(1/2).
// The minor tolerance of a nut is 0.2 p and 0.004 in for 26 to the inch and
// finer, 0.005 in for 24 and 22, 0.007 in for 20 and coarser. The allowance
// that the 1956 edition gives some bolts is left out, as no source was found.
func (t Thread) limitsWhitworth(class string) (Limits, error) {
	d, p := t.major.Inch(), t.pitch.Inch()
	var share float64
	external := true
	switch class {
	case "close":
		share = 2.0 / 3
	case "medium":
		share = 1
	case "free":
		share = 1.5
	case "medium nut":
		share, external = 1, false
	case "normal nut":
		share, external = 1.5, false
	default:
		return Limits{}, t.noClass(class, "close", "medium", "free", "medium nut", "normal nut")
	}
	four := units.Thou(0.1)
	effective := round(units.Inch(share*(0.002*math.Cbrt(d)+0.003*math.Sqrt(d)+0.005*math.Sqrt(p))), four) // BS 84
	l := Limits{Class: class, External: external, Refs: source.Shared(&limitsWhitworthRef)}
	if external {
		l.Major = below(t.major, round(effective.Add(units.Inch(0.01*math.Sqrt(p))), four))
		l.PitchDiameter = below(t.pitchDiameter, effective)
		l.Minor = below(t.minor, round(effective.Add(units.Inch(0.013*math.Sqrt(p))), four))
		return l, nil
	}
	fixed := 0.007
	switch {
	case t.tpi >= 26:
		fixed = 0.004
	case t.tpi >= 22:
		fixed = 0.005
	}
	l.Major = Range{Min: t.major}
	l.PitchDiameter = above(t.pitchDiameter, effective)
	l.Minor = above(t.minor, round(units.Inch(0.2*p+fixed), four))
	return l, nil
}
