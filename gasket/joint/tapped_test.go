package joint

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// By hand: the least major diameter of M3 6g is 2.874 mm and the largest pitch diameter
// of 6H 2.775 mm (ISO 965-2), so that the thread of the part shears in pi * 2.874 *
// (0.5 + 0.57735 * 0.099 / 0.5) = 5.547 mm2 to the millimetre.
func TestGrip(t *testing.T) {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		t.Fatal(err)
	}
	s := iron.Tensile.Min.In(units.Megapascal)
	perMM := s / 2 * 5.547
	m3 := thread.MustParse("M3")
	proof := units.Force(580 * 5.031)
	for _, test := range []struct {
		name                   string
		preload, most, working units.Force
		engaged                units.Length
		severity               finding.Severity
		text                   string // blank: nothing to say
	}{
		{"by the rule", 875, 1182, 80, units.Length{}, 0, ""},
		{"as deep", 875, 1182, 80, units.MM(3.75), 0, ""},
		{"by torque", 875, 1182, 80, units.MM(1000 / perMM), finding.Caution, "By torque alone a stud may come to 1262 N"},
		{"by preload", 875, 0, 80, units.MM(955 / perMM), finding.Fails, "comes to 955 N, tightened and with the pressure on"},
		{"by pressure", 875, 0, 300, units.MM(299 / perMM), finding.Danger, "The pressure pulls each stud with 300 N"},
	} {
		l := StudLoad{Number: 6, Preload: test.preload, Working: test.working, Proof: proof}
		g, err := l.Grip(Tapped{Thread: m3, Material: iron, Engaged: test.engaged, Most: test.most})
		length := test.engaged.MM()
		if test.engaged.IsZero() {
			length = 1.25 * 3
		}
		if err != nil || math.Abs(float64(g.Strips)/(perMM*length)-1) > 0.001 || math.Abs(g.Engaged.MM()-length) > 1e-9 ||
			math.Abs(g.Strength.In(units.Megapascal)-s) > 1e-6 || g.Pull != max(test.preload, test.most)+test.working ||
			math.Abs(g.Needed.MM()*perMM/float64(g.Pull)-1) > 0.001 || g.Refs.IsZero() {
			t.Errorf("%s: %+v, %v", test.name, g, err)
		}
		switch {
		case test.text == "":
			if g.Findings != nil {
				t.Errorf("%s: %v", test.name, g.Findings)
			}
		case len(g.Findings) != 1 || g.Findings[0].Code != ThreadStrips || g.Findings[0].Severity != test.severity ||
			!strings.Contains(g.Findings[0].Text, test.text) || len(g.Findings[0].Remedies) != 2:
			t.Errorf("%s: %v", test.name, g.Findings)
		default: // the cure cures
			deeper := units.MM(math.Ceil(g.Needed.MM()*10+1e-9) / 10)
			if g, err := l.Grip(Tapped{Thread: m3, Material: iron, Engaged: deeper, Most: test.most}); err != nil || g.Findings != nil {
				t.Errorf("%s: %v engaged does not cure it: %v, %v", test.name, deeper, g.Findings, err)
			}
		}
	}
	// a soft stud strips its own thread: 20 MPa of proof is less than the iron has
	soft := StudLoad{Number: 6, Proof: units.Force(20 * 5.031)}
	g, err := soft.Grip(Tapped{Thread: m3, Material: iron})
	if err != nil || float64(g.Strips) > 0.2*perMM*3.75 || g.Strips <= 0 {
		t.Errorf("soft stud: %v, %v", g.Strips, err)
	}
}

func TestGripRefuses(t *testing.T) {
	iron, _ := material.Lookup("cast iron")
	cork, err := material.Lookup("cork")
	if err != nil {
		t.Fatal(err)
	}
	l, m3 := StudLoad{Proof: 1}, thread.MustParse("M3")
	second := check.Only
	check.Refuses(t, "no thread", second(l.Grip(Tapped{Material: iron})), units.ErrMissing, "thread")
	check.Refuses(t, "no figure", second(l.Grip(Tapped{Thread: m3, Material: cork})), units.ErrUnknown, "material")
	check.Refuses(t, "no material", second(l.Grip(Tapped{Thread: m3})), units.ErrMissing, "material")
	check.Refuses(t, "no proof", second(StudLoad{}.Grip(Tapped{Thread: m3, Material: iron})), units.ErrOutOfRange, "proof load of a stud")
	check.Refuses(t, "engaged", second(l.Grip(Tapped{Thread: m3, Material: iron, Engaged: units.MM(-1)})), units.ErrOutOfRange, "length engaged")
	check.Refuses(t, "most", second(l.Grip(Tapped{Thread: m3, Material: iron, Most: -1})), units.ErrOutOfRange, "tightening")
}
