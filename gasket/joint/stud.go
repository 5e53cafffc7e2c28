package joint

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Studs are the studs or screws of one joint.
type Studs struct {
	Number     int
	Diameter   units.Length   // nominal, to check the stress area by; zero: not checked
	StressArea units.Area     // of one: thread/strength
	Proof      units.Pressure // proof strength of the material; 0.85 of yield where none is listed
	Preload    float64        // share of the proof strength to tighten to, up to 1: InCasting, Reusable or Permanent
}

// Shares of the proof strength to tighten studs to. The first is common practice,
// the others are those of Shigley's Mechanical Engineering Design, 9th edition,
// eq. 8-31.
const (
	InCasting = 0.30 // in a casting, where the tapped thread strips before the stud breaks
	Reusable  = 0.75 // a joint of steel that comes apart again
	Permanent = 0.90 // one that stays
)

// What the findings of studs are about.
const (
	StudOverloaded finding.Code = "stud-overloaded" // the load alone is more than the stud stands
	CoverLifts     finding.Code = "cover-lifts"     // the load is more than the preload left
	LittlePreload  finding.Code = "little-preload"  // the preload is less than a builder wants
)

const mostStuds = 1000

// A StudLoad is what one stud of a joint carries.
type StudLoad struct {
	Number   int
	Total    units.Force    // load of the joint
	Working  units.Force    // share of one stud
	Stress   units.Pressure // of that in the stress area
	Needed   units.Force    // preload that a builder wants: twice the working load
	Preload  units.Force    // to tighten to
	Proof    units.Force    // that one stud bears without stretching for good
	Relaxed  units.Force    // preload left when the joint has relaxed by a fifth
	Findings finding.List
	Refs     source.Refs
}

// Margin returns how many times the working load the preload is; false where
// there is no load.
func (l StudLoad) Margin() (times float64, loaded bool) {
	if l.Working <= 0 {
		return 0, false
	}
	return float64(l.Preload / l.Working), true
}

var (
	relaxing = source.Ref{
		Kind: source.Published, Title: "Moss, Pressure Vessel Design Manual", Locator: "p. 62",
		Note: "joints relax by 10 to 20 percent",
	}
	preloading = source.Ref{
		Kind: source.Published, Title: "Budynas and Nisbett, Shigley's Mechanical Engineering Design",
		Edition: "9th edition, 2009", Locator: "chapter 8",
	}
	practice = source.Ref{Kind: source.CommonPractice}
)

// Load shares the load of a joint out among its studs.
//
//	working = F / n
//	stress  = working / A
//	preload = share * proof * A
//	needed  = 2 * working
//
//	F  the load of the joint, zero or more
//	n  the number of studs, up to 1000
//	A  the stress area of one
//
// A joint stays shut while the preload exceeds the working load; a builder's
// rule is twice. Joints relax: 10 to 20 percent of the preload goes (Moss, p.
// 62). The findings say when the studs are overloaded, when the cover lifts and
// when the preload is below the rule. The stress area is 0.4 to 1 of the circle
// of the diameter, where that is given: threads leave 0.6 to 0.9.
//
// The shared load is even only when the studs are: the same size, evenly spaced,
// tightened alike. Source: mechanics. See the example.
func (s Studs) Load(total units.Force) (StudLoad, error) {
	if err := cmp.Or(zeroOrMore("load of the joint", total), s.check()); err != nil {
		return StudLoad{}, err
	}
	l := StudLoad{Number: s.Number, Total: total, Working: total / units.Force(s.Number)}
	l.Refs = source.Shared(&preloading, &relaxing)
	l.Stress = units.Pressure(float64(l.Working) / float64(s.StressArea))
	l.Needed = 2 * l.Working
	l.Proof = units.Force(float64(s.Proof) * float64(s.StressArea))
	l.Preload = units.Force(s.Preload) * l.Proof // Shigley, eq. 8-31
	l.Relaxed = l.Preload * 0.8                  // Moss, p. 62
	l.judge(s)
	return l, nil
}

func (s Studs) check() error {
	if s.Number < 1 || s.Number > mostStuds {
		return fail.OutOfRange("number of studs", s.Number, "1 to 1000")
	}
	err := cmp.Or(fault.Positive(fail, "stress area", s.StressArea), fault.Positive(fail, "proof strength", s.Proof),
		fault.Finite(fail, "preload as a share of the proof strength", s.Preload),
		fail.Within(fault.Named("diameter of the studs", s.Diameter)))
	if err != nil {
		return err
	}
	if !s.Diameter.IsZero() {
		d := s.Diameter.Metres()
		circle := units.Area(math.Pi / 4 * d * d)
		if d < 0 || s.StressArea > circle || s.StressArea < 0.4*circle {
			accepted := "0.4 to 1 of the circle of the diameter, " + s.Diameter.String()
			return fail.OutOfRange("stress area", s.StressArea, accepted)
		}
	}
	const shares = "above 0 and up to 1; 0.3 in a casting, 0.75 for a joint that comes apart again, 0.90 for one that stays"
	switch {
	case s.Preload == 0:
		return fail.Missing("preload as a share of the proof strength", shares)
	case s.Preload < 0 || s.Preload > 1:
		return fail.OutOfRange("preload as a share of the proof strength", s.Preload, shares)
	}
	return nil
}

// judge says what is wrong with studs, the fault before what follows from it.
func (l *StudLoad) judge(s Studs) {
	remedies := l.remedies()
	if l.Stress > s.Proof {
		l.Findings = append(l.Findings, finding.Finding{
			Code: StudOverloaded, Severity: finding.Danger,
			Text: fmt.Sprintf("The pressure stresses each stud to %.1f MPa, above its proof strength of %.1f MPa: it stretches for good and may break.",
				l.Stress.In(units.Megapascal), s.Proof.In(units.Megapascal)),
			Remedies: slices.Clone(remedies), Refs: source.Shared(&preloading),
		})
	}
	switch times, loaded := l.Margin(); {
	case !loaded:
	case l.Relaxed <= l.Working:
		l.Findings = append(l.Findings, finding.Finding{
			Code: CoverLifts, Severity: finding.Danger,
			Text: fmt.Sprintf("Each stud must hold %.0f N, and a preload of %.0f N leaves %.0f N when the joint has relaxed: the cover lifts and lets steam out.",
				l.Working, l.Preload, l.Relaxed),
			Remedies: remedies, Refs: source.Shared(&relaxing),
		})
	case times < 2:
		l.Findings = append(l.Findings, finding.Finding{
			Code: LittlePreload, Severity: finding.Caution,
			Text:     fmt.Sprintf("The preload is %.2f times the working load; a builder's rule is twice.", times),
			Remedies: append(remedies, "Look at the nuts again, cold, after the first steaming."), Refs: source.Shared(&practice),
		})
	}
}

// remedies says how many such studs hold the load by the builder's rule, where
// that many can stand, and which preload does if the studs bear it.
func (l StudLoad) remedies() []string {
	more := "more studs"
	if n := math.Ceil(2 * float64(l.Total) / float64(l.Preload)); n <= mostStuds {
		more = fmt.Sprintf("%.0f such studs", n)
	}
	remedies := []string{"Take " + more + ", larger ones, or a stronger material."}
	return append(remedies, l.harder(l.Needed)...)
}

// harder says to tighten the same studs to a force, where they bear that.
func (l StudLoad) harder(force units.Force) []string {
	if force <= l.Preload || force > Reusable*l.Proof {
		return nil
	}
	return []string{fmt.Sprintf("Or tighten each to %.0f N, %.0f percent of its proof load, if the tapped thread bears that.",
		float64(force), math.Ceil(100*float64(force/l.Proof)))}
}

// RequiredArea returns the stress area that all studs together need.
//
//	Am = max(Wm1 / Sb, Wm2 / Sa)
//
//	Sb  the stress allowed in the studs at working temperature
//	Sa  the stress allowed in them when cold
//
// Source: ASME VIII-1, appendix 2, as given in Moss, Pressure Vessel Design
// Manual, p. 42. See the example.
func RequiredArea(l Loads, hot, cold units.Pressure) (units.Area, error) {
	err := cmp.Or(zeroOrMore("operating load", l.Operating), zeroOrMore("seating load", l.Seating),
		fault.Positive(fail, "stress allowed when hot", hot), fault.Positive(fail, "stress allowed when cold", cold))
	if err != nil {
		return 0, err
	}
	return units.Area(max(float64(l.Operating)/float64(hot), float64(l.Seating)/float64(cold))), nil // Moss, p. 42
}

// StudsNeeded returns how many studs carry a load at a stress that the load may
// cause in each.
//
//	n = F / (A * S), rounded up
//
//	F  the load of the joint
//	A  the area of one stud
//	S  the stress
//
// More than 1000 studs are an error. Source: as the solved problems of textbooks
// have it, which take the core of the thread or its stress area. See the example.
func StudsNeeded(total units.Force, area units.Area, stress units.Pressure) (int, error) {
	err := cmp.Or(fault.Positive(fail, "load of the joint", total), fault.Positive(fail, "area of a stud", area),
		fault.Positive(fail, "stress allowed", stress))
	if err != nil {
		return 0, err
	}
	n := math.Ceil(float64(total)/(float64(area)*float64(stress)) - 1e-12)
	if n > mostStuds {
		return 0, fail.OutOfRange("number of studs", fmt.Sprintf("%.0f", n), "up to 1000: larger studs or a lower load")
	}
	return max(int(n), 1), nil
}
