package joint

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Six studs of 340 N on 633 mm2 are 3.22 MPa by hand, and 2.58 with 407 N of
// pressure on them; on half of the width they seat 6.45 MPa. 7.6 MPa takes
// 7.6 * 633 / 2 = 2405 N, 401 N a stud or 8 such studs, or 536 mm2.
func TestPress(t *testing.T) {
	l := StudLoad{Number: 6, Preload: 340, Total: 407}
	for _, test := range []struct {
		name             string
		softest, hardest units.Pressure
		hold             units.Pressure
		seated           bool
		severity         finding.Severity // of the one finding
		text             string           // blank: nothing to say
		remedies         int
	}{
		{"no figure", 0, 0, 0, true, 0, "", 0},
		{"soft", 3 * units.Megapascal, 6.4 * units.Megapascal, 2.5 * units.Megapascal, true, 0, "", 0},
		{"the softest alone", 6.4 * units.Megapascal, 12 * units.Megapascal, 0, true, finding.Note, "seat a gasket of up to 6.4 MPa", 1},
		{"not seated", 7.6 * units.Megapascal, 7.6 * units.Megapascal, 0, false, finding.Fails, "press it with 3.2 MPa, and its softest grade takes 3.8 MPa", 4},
		{"seated, not held", 3 * units.Megapascal, 3 * units.Megapascal, 2.6 * units.Megapascal, false, finding.Fails, "The pressure leaves 2.6 MPa on the gasket", 1},
	} {
		p, err := l.Press(633*units.SquareMillimetre, Seating{
			Min: test.softest, Max: test.hardest, Hold: test.hold, Softer: []string{"oiled paper"}, Refs: source.Of(source.Practice()),
		})
		if err != nil || math.Abs(p.Bolted.In(units.Megapascal)-3.223) > 0.001 || math.Abs(p.Left.In(units.Megapascal)-2.580) > 0.001 ||
			math.Abs(p.Seats.In(units.Megapascal)-6.445) > 0.001 || p.Seated != test.seated {
			t.Errorf("%s: %+v, %v", test.name, p, err)
		}
		switch {
		case test.text == "":
			if p.Findings != nil {
				t.Errorf("%s: %v", test.name, p.Findings)
			}
		case len(p.Findings) != 1 || p.Findings[0].Code != GasketStress || p.Findings[0].Severity != test.severity || p.Findings[0].Refs.IsZero() ||
			!strings.Contains(p.Findings[0].Text, test.text) || len(p.Findings[0].Remedies) != test.remedies:
			t.Errorf("%s: %v", test.name, p.Findings)
		}
		if test.name != "not seated" {
			continue
		}
		if math.Abs(float64(p.Needed)-2405.4) > 0.1 {
			t.Errorf("needed %v", p.Needed)
		}
		for i, want := range []string{"oiled paper", "liquid jointing", "seat 536 mm2 of it, and it has 633", "Take 8 such studs, or stronger ones that bear 401 N each in place of 340"} {
			if got := p.Findings[0].Remedies[i]; !strings.Contains(got, want) {
				t.Errorf("remedy %d %q, want %q", i+1, got, want)
			}
		}
		// each cure that has a figure does what it says
		for _, cured := range []struct {
			studs StudLoad
			area  float64
		}{{StudLoad{Number: 8, Preload: 340}, 633}, {StudLoad{Number: 6, Preload: 401}, 633}, {l, 536}} {
			if p, err := cured.studs.Press(units.Area(cured.area)*units.SquareMillimetre, Seating{Min: 7.6 * units.Megapascal}); err != nil || !p.Seated {
				t.Errorf("%+v does not cure it", cured)
			}
		}
	}
	// where the cover lifts nothing presses the gasket
	l.Total = 3000
	if p, err := l.Press(1e-4, Seating{}); err != nil || p.Left != 0 || p.Bolted != 2040e4 {
		t.Errorf("%+v, %v", p, err)
	}
	if p, err := l.Press(1e-4, Seating{Hold: 1}); err != nil || p.Seated || p.Findings != nil { // Load says that it lifts
		t.Errorf("%+v, %v", p, err)
	}
	// 2379.1 N on 626.9 mm2
	s, err := StressOnGasket(2379.1, 626.9*units.SquareMillimetre)
	if err != nil || math.Abs(s.In(units.Megapascal)-3.795) > 0.001 {
		t.Errorf("%v, %v", s, err)
	}
}

func TestPressRefuses(t *testing.T) {
	second := check.Only
	check.Refuses(t, "gasket area", second(StressOnGasket(1, 0)), units.ErrOutOfRange, "area of the gasket")
	check.Refuses(t, "force", second(StressOnGasket(units.Force(math.NaN()), 1)), units.ErrNotFinite, "force on the gasket")
	check.Refuses(t, "area", second(StudLoad{}.Press(0, Seating{})), units.ErrOutOfRange, "area of the gasket")
	check.Refuses(t, "hardest", second(StudLoad{}.Press(1, Seating{Max: units.Pressure(math.Inf(1))})), units.ErrNotFinite, "stress that seats")
	check.Refuses(t, "hold", second(StudLoad{}.Press(1, Seating{Hold: -1})), units.ErrOutOfRange, "keeps the gasket tight")
	check.Refuses(t, "no studs", second(StudLoad{}.Press(1, Seating{Min: 1})), units.ErrOutOfRange, "number of studs")
	check.Refuses(t, "torque", second(SpannerPull(-1, units.MM(50))), units.ErrOutOfRange, "torque")
	check.Refuses(t, "spanner", second(SpannerPull(1, units.Length{})), units.ErrOutOfRange, "length of the spanner")
	check.Refuses(t, "seat", second(StudLoad{}.Press(1, Seating{Min: -1})), units.ErrOutOfRange, "stress that seats")
}

// What Press wants of the studs is the seating load that Gasket.Loads gives for the
// ring of that width, up to 1/2 in; of a wider one it wants more.
func TestPressAgreesWithLoads(t *testing.T) {
	for _, ring := range []struct {
		outside, inside float64
		same            bool
	}{{38, 25.4, true}, {36, 20.5, true}, {50.8, 25.4, true}, {120, 60, false}} {
		g := Gasket{Outside: units.MM(ring.outside), Inside: units.MM(ring.inside), Y: 1100 * units.PSI}
		loads, err := g.Loads(0)
		if err != nil {
			t.Fatal(err)
		}
		area := units.Area(math.Pi/4*(ring.outside*ring.outside-ring.inside*ring.inside)) * units.SquareMillimetre
		p, err := StudLoad{Number: 6, Preload: 1}.Press(area, Seating{Min: g.Y, Max: g.Y})
		if err != nil {
			t.Fatal(err)
		}
		if more := float64(p.Needed/loads.Seating) - 1; ring.same && math.Abs(more) > 1e-9 || !ring.same && more < 0.01 {
			t.Errorf("%v: %.1f N and %.1f N", ring, float64(p.Needed), float64(loads.Seating))
		}
	}
}
