package joint

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Studs are the studs or screws of one joint.
type Studs struct {
	Number     int
	Diameter   units.Length   // nominal, to check the stress area by; zero: not checked
	StressArea units.Area     // of one, from package thread
	Proof      units.Pressure // proof strength of the material; 0.85 of yield where none is listed
	Preload    float64        // share of the proof strength to tighten to; zero takes 0.75
}

const mostStuds = 1000

// reusable is the preload of a joint that comes apart again, as a share of the
// proof load: Shigley's Mechanical Engineering Design, 9th edition, eq. 8-31.
const reusable = 0.75

// A StudLoad is what one stud of a joint carries.
type StudLoad struct {
	Working  units.Force    // share of the load of the joint
	Stress   units.Pressure // of that load in the stress area
	Preload  units.Force    // to tighten to
	Margin   float64        // preload over working load; +Inf where there is no load
	Relaxed  units.Force    // preload left when the joint has relaxed by a fifth
	Findings finding.List
}

// Load shares the load of a joint out among its studs.
//
//	working = F/n     stress = working/A     preload = share * proof * A
//
// A joint stays shut while the preload exceeds the working load; a builder's
// rule is twice. Joints relax: 10 to 20 percent of the preload goes (Moss,
// p. 62). The load is zero or more; the rest of the numbers are above zero, the
// share up to 1. The stress area is 0.4 to 1 of the circle of the diameter, where
// that is given: threads leave 0.6 to 0.9.
//
// The shared load is even only when the studs are: the same size, evenly
// spaced, tightened alike. Mechanics. Anything else is an
// [*units.ArgumentError].
func (s Studs) Load(total units.Force) (StudLoad, error) {
	share := s.Preload
	if share == 0 {
		share = reusable
	}
	err := accept(number{"load of the joint", float64(total), total.String(), false}, number{"stress area", float64(s.StressArea), s.StressArea.String(), true},
		number{"proof strength", float64(s.Proof), s.Proof.String(), true}, number{"preload as a share of the proof strength", share, fmt.Sprint(share), true})
	if err != nil {
		return StudLoad{}, err
	}
	if s.Number < 1 || s.Number > mostStuds {
		return StudLoad{}, bad("number of studs", fmt.Sprint(s.Number), "1 to 1000")
	}
	if !s.Diameter.IsZero() {
		d := s.Diameter.Metres()
		circle := units.Area(math.Pi / 4 * d * d)
		if d < 0 || s.StressArea > circle || s.StressArea < 0.4*circle {
			return StudLoad{}, bad("stress area", s.StressArea.String(), fmt.Sprintf("0.4 to 1 of the circle of the diameter, %s", s.Diameter))
		}
	}
	if share > 1 {
		return StudLoad{}, bad("preload as a share of the proof strength", fmt.Sprint(share), "up to 1; 0.75 for a joint that comes apart again, 0.90 for one that stays")
	}
	l := StudLoad{Working: total / units.Force(s.Number)}
	l.Stress = units.Pressure(float64(l.Working) / float64(s.StressArea))
	l.Preload = units.Force(share * float64(s.Proof) * float64(s.StressArea))
	l.Relaxed = l.Preload * 0.8
	l.Margin = math.Inf(1)
	if l.Working > 0 {
		l.Margin = float64(l.Preload / l.Working)
	}
	moss := source.Ref{Kind: source.Published, Title: "Moss, Pressure Vessel Design Manual", Locator: "p. 62", Note: "joints relax by 10 to 20 percent"}
	switch {
	case l.Relaxed <= l.Working:
		l.Findings = append(l.Findings, finding.Finding{
			Severity: finding.Danger,
			Text:     fmt.Sprintf("Each stud must hold %.0f N, and a preload of %.0f N leaves %.0f N when the joint has relaxed: the cover lifts.", l.Working, l.Preload, l.Relaxed),
			Remedies: []string{moreStuds(total, l.Preload) + ", larger ones, or a stronger material."},
			Refs:     source.Of(moss),
		})
	case l.Margin < 2:
		l.Findings = append(l.Findings, finding.Finding{
			Severity: finding.Caution,
			Text:     fmt.Sprintf("The preload is %.2f times the working load; a builder's rule is twice.", l.Margin),
			Remedies: []string{moreStuds(total, l.Preload) + " or larger ones, and look at the nuts again after the first steaming."},
			Refs:     source.Of(source.Practice()),
		})
	}
	return l, nil
}

// RequiredArea returns the stress area that all studs together need.
//
//	Am = max(Wm1/Sb, Wm2/Sa)
//
// Sb is the stress allowed in the studs at working temperature, Sa that when
// cold. Source: ASME VIII-1, appendix 2, as given in Moss, p. 42. Stresses that
// are not above zero, and loads that are negative, are an
// [*units.ArgumentError].
func RequiredArea(l Loads, hot, cold units.Pressure) (units.Area, error) {
	if err := accept(number{"operating load", float64(l.Operating), l.Operating.String(), false}, number{"seating load", float64(l.Seating), l.Seating.String(), false}, number{"stress allowed when hot", float64(hot), hot.String(), true}, number{"stress allowed when cold", float64(cold), cold.String(), true}); err != nil {
		return 0, err
	}
	return units.Area(max(float64(l.Operating)/float64(hot), float64(l.Seating)/float64(cold))), nil
}

// StudsNeeded returns how many studs carry a load at a stress that the load may
// cause in each.
//
//	n = F/(A S), rounded up
//
// F is the load of the joint, A the area of one stud and S the stress, all above
// zero; more than 1000 studs are an error. Source: as the solved problems of
// textbooks have it, which take the core of the thread or its stress area.
func StudsNeeded(total units.Force, area units.Area, stress units.Pressure) (int, error) {
	if err := accept(number{"load of the joint", float64(total), total.String(), true}, number{"area of a stud", float64(area), area.String(), true}, number{"stress allowed", float64(stress), stress.String(), true}); err != nil {
		return 0, err
	}
	n := math.Ceil(float64(total)/(float64(area)*float64(stress)) - 1e-12)
	if n > 1000 {
		return 0, bad("number of studs", fmt.Sprintf("%.0f", n), "up to 1000: larger studs or a lower load")
	}
	return max(int(n), 1), nil
}

// StressOnGasket returns the mean stress that the studs put on a gasket.
//
//	s = F/A
//
// A is the area of contact, [gasket.Measures] of the outline, above zero, and F the
// force of all studs less what the pressure takes off, zero or more; anything else
// is an error. A full-face gasket is far from evenly loaded: most of it is near
// the studs. Mechanics.
func StressOnGasket(force units.Force, area units.Area) (units.Pressure, error) {
	if err := accept(number{"force on the gasket", float64(force), force.String(), false}, number{"area of the gasket", float64(area), area.String(), true}); err != nil {
		return 0, err
	}
	return units.Pressure(float64(force) / float64(area)), nil
}

// moreStuds says how many studs of a preload hold a load by the builder's rule of
// twice, where that many can stand.
func moreStuds(total, preload units.Force) string {
	if n := math.Ceil(2 * float64(total) / float64(preload)); n <= mostStuds {
		return fmt.Sprintf("%.0f such studs", n)
	}
	return "More studs"
}
