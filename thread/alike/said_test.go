package alike_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/alike"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A paper is a kept text that is being written.
type paper struct{ strings.Builder }

func (p *paper) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// findings writes findings with all that they say.
func (p *paper) findings(list finding.List) {
	for _, f := range list {
		p.line("  %v %s at %q: %s [%v]", f.Severity, f.Code, f.Where, f.Text, f.Refs)
		for _, r := range f.Remedies {
			p.line("    - %s", r)
		}
	}
}

func (p *paper) keep(t *testing.T, name string) {
	t.Helper()
	check.Kept(t, "thread/alike/kept/"+name+".txt", check.Rounded(p.String()))
}

// Every pair of threads that are easily mixed, either way round, and some that are
// not. Kept for the verdicts with their figures; TestLookAlikes has known pairs.
func TestMatingsKept(t *testing.T) {
	var p paper
	for _, pairs := range [][]string{
		{"M6", "0 BA", "1/4 BSF", "1/4-28 UNF", "1/4x26 BSC", "1/4 BSB", "1/4x40 ME", "M6x0.75"},
		{"M3", "6 BA", "4-48 UNF", "1/8 BSW", "1/8x40 ME", "M3x0.35"},
		{"M10", "3/8-16 UNC", "3/8 BSW", "G 1/8", "Tr 10x2", "M10x1"},
	} {
		for _, a := range pairs {
			for _, b := range pairs {
				m, err := alike.Mate(thread.MustParse(a), thread.MustParse(b))
				if err != nil {
					t.Fatal(err)
				}
				code, severity := finding.Code(""), ""
				if len(m.Findings) > 0 {
					code, severity = m.Findings[0].Code, m.Findings[0].Severity.String()
				}
				p.line("%v; %s %s, mix %v, error %v, loosest %.4f, snug %.4f, depth %.4f", m, severity, code, m.Mix(),
					m.PitchError, m.Loosest, m.Snug, m.Depth)
			}
		}
	}
	m, err := alike.Mate(thread.MustParse("M6"), thread.MustParse("1/4 BSF"))
	p.line("%v, %v", m.Refs, err)
	p.findings(m.Findings)
	for _, pair := range [][2]string{{"M6", "M12"}, {"M12", "M6"}, {"M6", "M13x1 special"}, {"M13x1 special", "M6"}, {"M6", "1/8 NPT"}, {"R 1/8", "M6"}} {
		m, err := alike.Mate(thread.MustParse(pair[0]), thread.MustParse(pair[1]))
		p.line("%v: %v, %v", pair, m, err)
	}
	_, err = alike.Mate(thread.Thread{}, thread.MustParse("M6"))
	p.line("no bolt: %v", err)
	_, err = alike.Mate(thread.MustParse("M6"), thread.Thread{})
	p.line("no nut: %v; mix %v", err, alike.Mating{}.Mix())
	p.keep(t, "matings")
}

// How pairs are told apart, by a caliper and better.
func TestTellingsKept(t *testing.T) {
	var p paper
	names := []string{"M6", "0 BA", "1/4 BSF", "1/4-28 UNF", "1/4 BSB", "1/4x26 BSC", "M6x0.75", "Tr 10x2", "1/8 NPT", "M5"}
	for _, off := range [][2]float64{{0.03, 0.01}, {0.005, 0.002}, {0.2, 0}} {
		p.line("diameters off by %g mm, pitches by %g mm", off[0], off[1])
		for i, a := range names {
			for _, b := range append(names[:i:i], names[i+1:]...) {
				text := ""
				for _, how := range alike.Distinguish(thread.MustParse(a), thread.MustParse(b), units.MM(off[0]), units.MM(off[1])) {
					text += "; " + how.String()
				}
				p.line("%s, %s%s", a, b, text)
			}
		}
	}
	p.keep(t, "tellings")
}

// Specimens with their candidates, doubts and how they are told; each bound of what a
// specimen may be, just inside and just outside.
func TestSpecimensKept(t *testing.T) {
	var p paper
	mm := units.MM
	for _, s := range []alike.Specimen{
		{Diameter: mm(5.92), Pitch: mm(1)}, {Diameter: mm(6.4), Pitch: mm(0.98)}, {Diameter: mm(5.3), Pitch: mm(0.97), Internal: true},
		{Diameter: mm(3.1), Pitch: mm(0.53), DiameterMayBeOff: mm(0.2), PitchMayBeOff: mm(0.03)},
		{Pitch: mm(25.4 / 26)}, {Pitch: mm(25.4 / 26), Angle: 55 * units.Degree}, {Pitch: mm(2), Angle: 31 * units.Degree},
		{Pitch: mm(1), Internal: true}, {Diameter: mm(9.6), Pitch: mm(25.4 / 28), DiameterMayBeOff: mm(0.1)},
		{Diameter: mm(6), Pitch: mm(3)}, {Pitch: mm(7)}, {Diameter: mm(20), Pitch: mm(0.1)}, {Diameter: mm(6.35), Pitch: mm(25.4 / 40)},
		{Diameter: mm(4.7), Pitch: mm(0.81), Angle: 47.5 * units.Degree},
		{}, {Pitch: mm(-1)}, {Pitch: mm(50)}, {Pitch: mm(50.001)}, {Diameter: mm(-1), Pitch: mm(1)}, {Diameter: mm(300), Pitch: mm(6)},
		{Diameter: mm(300.001), Pitch: mm(6)}, {Diameter: mm(1), Pitch: mm(1.001)}, {Diameter: mm(1), Pitch: mm(1)},
		{Pitch: mm(1), DiameterMayBeOff: mm(0.1)}, {Diameter: mm(6), Pitch: mm(1), DiameterMayBeOff: mm(-0.1)}, {Pitch: mm(1), PitchMayBeOff: mm(-0.1)},
		{Diameter: mm(6), Pitch: mm(1), DiameterMayBeOff: mm(6)}, {Pitch: mm(1), PitchMayBeOff: mm(1)}, {Pitch: mm(1), Angle: 62.01 * units.Degree},
		{Pitch: mm(1), Angle: 45.49 * units.Degree}, {Pitch: mm(1), Angle: -60 * units.Degree}, {Pitch: mm(1), Angle: 26.9 * units.Degree},
	} {
		found, err := s.Identify()
		p.line("diameter %v (%v), pitch %v (%v), angle %.4g, internal %v: %d, %v; usable: %v", s.Diameter, s.DiameterMayBeOff, s.Pitch, s.PitchMayBeOff,
			s.Angle.Degrees(), s.Internal, len(found), err, s.Validate())
		for _, c := range found[:min(len(found), 12)] {
			text := ""
			for _, how := range c.Tell {
				text += "; " + how.String()
			}
			p.line(" %v, doubt %.3f, %d sources%s", c, c.Doubt, c.Refs.Len(), text)
			p.findings(c.Findings)
		}
	}
	p.keep(t, "specimens")
}

// What takes the place of some threads, with all that follows from each change.
func TestSubstitutesKept(t *testing.T) {
	var p paper
	for _, ask := range []struct {
		old   string
		among []thread.Series
	}{
		{"7 BA", []thread.Series{thread.MetricCoarse, thread.UNC}}, {"1/4x40 ME", nil}, {"1/4 BSF", []thread.Series{thread.BSB, thread.BSC, thread.UNF}},
		{"M2.6", []thread.Series{thread.MetricCoarse}}, {"Tr 10x2", []thread.Series{thread.MetricFine}}, {"G 1/8", []thread.Series{thread.ME}},
		{"M6", []thread.Series{thread.NPT}}, {"M6", []thread.Series{thread.MetricOld}}, {"M6", []thread.Series{thread.Special}},
		{"M6", []thread.Series{thread.Trapezoidal}}, {"M6", []thread.Series{thread.Acme}}, {"M6", []thread.Series{thread.UNS}},
		{"M6", []thread.Series{99}}, {"M64", []thread.Series{thread.BA}}, {"1/8 NPT", nil},
	} {
		found, err := alike.Substitutes(thread.MustParse(ask.old), ask.among...)
		p.line("for %s: %d, %v", ask.old, len(found), err)
		for _, s := range found[:min(len(found), 6)] {
			p.line(" %v; wall %v, hole %v (%v), engaged %v, hexagon %s %v (%v), area %.5f; %v; %v; %d sources", s, s.WallChange, s.Clearance.Hole,
				s.HoleChange, s.Engagement, s.Hexagon.Standard, s.Hexagon.Flats, s.HexagonChange, s.AreaChange, s.OldInNew.Mix(), s.NewInOld.Mix(),
				s.Refs.Len())
			p.findings(s.Findings)
		}
	}
	// A fifth of the diameter, and no more.
	for _, other := range []string{"M12", "M12.001x1 special", "M8", "M7.999x1 special"} {
		found, err := alike.SubstitutesAmong(thread.MustParse("M10"), thread.MustParse(other))
		p.line("for M10 %s: %v, %v", other, found, err)
	}
	found, err := alike.SubstitutesAmong(thread.MustParse("M10"), thread.Thread{})
	p.line("nothing: %v, %v", found, err)
	found, err = alike.SubstitutesAmong(thread.Thread{}, thread.MustParse("M10"))
	p.line("for nothing: %v, %v", found, err)
	for _, c := range alike.Precautions() {
		p.line("%s: %s [%v]", c.Code, c.Text, c.Ref)
	}
	p.keep(t, "substitutes")
}
