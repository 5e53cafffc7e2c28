package thread

import (
	"math"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

var limitsUnifiedRef = source.Ref{
	Kind: source.FromMemory, Title: "ASME B1.1", Edition: "2003",
	Note: "coefficients of the pitch diameter tolerance, of 3B and of sizes below 1/4 in recalled," +
		" and printed limits agree;" +
		" the calculation read in Machinery's Handbook, 31st edition, unified thread section, Tables 3 to 6",
}

var limitsUnifiedRefs table.Once[source.Refs]

func sharedUnified() source.Refs { return source.Shared(&limitsUnifiedRef) }

// limitsUnified follows the calculation that ASME B1.1-2003 works step by step
// for 1/2-28 UNEF and 19/64-36 UNS (Machinery's Handbook, 31st edition, Tables 3
// to 6): heights and tolerances to six decimals of an inch, limits to four with
// halves to even, each limit from the rounded one before it. The minor diameters
// of nuts from No. 6 up are then rounded to three decimals, save the largest of
// class 3B; so 1.53349 becomes 1.534.
//
//	Td2 = 0.0015 * D^(1/3) + 0.0015 * LE^(1/2) + 0.015 * p^(2/3)    class 2A
//	es  = 0.300 * Td2                                               classes 1A and 2A
//	Td  = 0.060 * p^(2/3), class 1A 0.090 * p^(2/3)
//	TD1 = 0.25 * p - 0.40 * p^2                                     1B and 2B from 1/4 in
//
// D is the basic major diameter, p the pitch and LE the length of engagement in
// inches: D for UNC and UNF, 9 p for the others. The other classes take Td2
// times 1.5 (1A), 0.75 (3A), 1.95 (1B), 1.30 (2B) and 0.975 (3B).
func (t Thread) limitsUnified(class string) (Limits, error) {
	d, p := t.major.Inch(), t.pitch.Inch()
	var factor float64
	external := true
	switch class {
	case "1A":
		factor = 1.5
	case "2A":
		factor = 1
	case "3A":
		factor = 0.75
	case "1B":
		factor, external = 1.95, false
	case "2B":
		factor, external = 1.30, false
	case "3B":
		factor, external = 0.975, false
	default:
		return Limits{}, t.noClass(class, "1A", "2A", "3A", "1B", "2B", "3B")
	}
	if class[0] == '1' && (t.series != UNC && t.series != UNF || t.major.Cmp(units.Inch(0.25)) < 0) {
		return Limits{}, fail.Text("tolerance class", class, "class 1 is for UNC and UNF from 1/4 in", "2A, 3A, 2B, 3B",
			units.ErrUnknown)
	}
	six, four := units.Picometres(25_400), units.Picometres(2_540_000) // of six and four decimals of an inch
	engaged := 9 * p
	if t.series == UNC || t.series == UNF {
		engaged = d
	}
	p23 := math.Cbrt(p * p)
	class2A := sixDecimals(0.0015*math.Cbrt(d) + 0.0015*math.Sqrt(engaged) + 0.015*p23) // ASME B1.1, Td2
	pitchTolerance := round(class2A.Scale(factor), six)
	l := Limits{Class: class, External: external, Refs: limitsUnifiedRefs.Get(sharedUnified)}
	if external {
		top := t.major
		if class != "3A" {
			top = top.Sub(roundEven(class2A.Scale(0.300), four)) // es
		}
		crest := 0.060
		if class == "1A" {
			crest = 0.090
		}
		l.Major = Range{Min: roundEven(top.Sub(sixDecimals(crest*p23)), four), Max: top}
		pitchTop := roundEven(top.Sub(round(t.pitch.Scale(0.64951905), six)), four)
		l.PitchDiameter = Range{Min: roundEven(pitchTop.Sub(pitchTolerance), four), Max: pitchTop}
		l.Minor = Range{Max: roundEven(top.Sub(round(t.pitch.Scale(1.19078493), six)), four)} // UNR, reference
		return l, nil
	}
	least := roundEven(t.major.Sub(round(t.pitch.Scale(1.08253175), six)), four)
	l.Minor = Range{Min: least, Max: roundEven(least.Add(minorToleranceUnified(class, d, p, p23)), four)}
	if t.major.Cmp(screwNumber(6)) >= 0 {
		l.Minor.Min = roundEven(l.Minor.Min, units.Picometres(25_400_000))
		if class != "3B" {
			l.Minor.Max = roundEven(l.Minor.Max, units.Picometres(25_400_000))
		}
	}
	l.PitchDiameter = Range{Min: t.pitchDiameter, Max: roundEven(t.pitchDiameter.Add(pitchTolerance), four)}
	l.Major = Range{Min: t.major}
	return l, nil
}

// minorToleranceUnified returns TD1 to six decimals of an inch; p23 is p^(2/3).
func minorToleranceUnified(class string, d, p, p23 float64) units.Length {
	small := 0.05*p23 + 0.03*p/d - 0.002
	var v float64
	switch {
	case class == "3B":
		least := 0.23*p - 1.5*p*p
		if p > 1/12.5 {
			least = 0.120 * p
		}
		v = min(max(small, least), 0.394*p)
	case d < 0.25:
		v = min(max(small, 0.25*p-0.40*p*p), 0.394*p)
	case p > 0.25:
		v = 0.15 * p
	default:
		v = 0.25*p - 0.40*p*p // ASME B1.1, TD1
	}
	return sixDecimals(v)
}

// sixDecimals returns a tolerance worked out in inches, which is above zero, to
// six decimals of an inch. It goes by way of the picometre, so that a half that
// float64 misses is one.
func sixDecimals(inch float64) units.Length {
	return round(units.Picometres(int64(inch*25.4e9+0.5)), units.Picometres(25_400))
}
