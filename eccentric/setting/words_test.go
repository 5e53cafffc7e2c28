package setting

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// The ways that the sentences name are those in which the bench goes: what makes less
// of the head end's edge, what makes less of the crank end's lead, which rod is made
// longer, and on which side of the crank the sheave stands.
func TestWaysTold(t *testing.T) {
	middle := regexp.MustCompile(`move the valve by so much (towards|away from) the crank`)
	furthest := regexp.MustCompile(`to open the head end's port, ([0-9.]+) deg past that dead centre`)
	split := regexp.MustCompile(`Where it is too large move the valve by half of that (towards|away from) the crank`)
	rod := regexp.MustCompile(`a move of the valve towards the crank the eccentric rod may be made (longer|shorter) by (as much|([0-9.]+) times as much)`)
	stands := regexp.MustCompile(`stands ([0-9.]+) deg (ahead of|behind) the crankpin`)
	sign := map[string]float64{"towards": 1, "away from": -1}
	r := rand.New(rand.NewPCG(14, 5))
	rods := map[string]int{}
	for range 300 {
		g := random(r)
		sheet, err := Setting{Gear: g}.Sheet()
		if err != nil {
			t.Fatal(err)
		}
		text := map[string]string{}
		for _, stage := range sheet.Stages {
			text[stage.Key] = stage.Text
		}
		b := benchOf(g)
		moved := func(way string, read func() float64) float64 {
			was := read()
			b.spindle += 0.1 * sign[way]
			defer func() { b.spindle -= 0.1 * sign[way] }()
			return read() - was
		}
		near(t, "edge of the head end", moved(middle.FindStringSubmatch(text["middle"])[1], func() float64 {
			return b.steam(b.stand(1), eccentric.HeadEnd)
		}), -0.1, 1e-9)
		if g.Valve.LostMotion.IsZero() {
			at := units.Angle(0)
			for d := range 3600 { // tenths of a degree
				if a := units.Angle(d) * units.Degree / 10; b.steam(b.drive(a.Radians()), eccentric.HeadEnd) >
					b.steam(b.drive(at.Radians()), eccentric.HeadEnd) {
					at = a
				}
			}
			var told float64
			if _, err := fmt.Sscanf(furthest.FindStringSubmatch(text["middle"])[1], "%g", &told); err != nil {
				t.Fatal(err)
			}
			near(t, "furthest", told, at.Degrees(), 0.11)
		}
		near(t, "lead of the crank end", moved(split.FindStringSubmatch(text["split"])[1], func() float64 {
			return b.lead(eccentric.CrankEnd)
		}), -0.1, 1e-9)
		if s := stands.FindStringSubmatch(text["sheave"]); (s[2] == "behind") != (b.stands < 0) {
			t.Errorf("%v, and it stands at %g", s, b.stands)
		}
		told := rod.FindStringSubmatch(text["split"])
		if g.EccentricRod.Infinite() {
			if told != nil {
				t.Error("a rod without end is made ", told[1])
			}
			continue
		}
		rods[told[1]]++
		// A rod of another length drives the spindle from further off, by its lever.
		times := 1.0
		if told[3] != "" {
			l, err := units.ParseLength(told[3] + " mm")
			if err != nil {
				t.Fatal(err)
			}
			times = l.MM()
		}
		if told[1] == "shorter" {
			times = -times
		}
		near(t, "rod", -times*b.lever, 1, 0.001)
	}
	if rods["longer"] == 0 || rods["shorter"] == 0 {
		t.Error(rods)
	}
}

// The bar of a lever that reverses and an admission past the inner edges are told, and
// neither of a gear that has none.
func TestLeverTold(t *testing.T) {
	for _, row := range []struct {
		lever  float64
		inside bool
		want   string
	}{
		{0, false, ""}, {1.2, false, ""}, {-1, false, "The lever that reverses the motion is in that"},
		{0, true, "Admission past the inner edges is in that"}, {-0.8, true, "undo each other"},
	} {
		g := demo()
		g.LeverRatio, g.InsideAdmission = row.lever, row.inside
		if row.inside {
			g.Valve = g.Ports.ValveWith(eccentric.Laps{Exhaust: units.MM(1.2)})
		}
		sheet, err := Setting{Gear: g}.Sheet()
		if err != nil {
			t.Fatal(err)
		}
		text, told := sheet.Stages[1].Text, 0
		for _, w := range []string{"The lever that reverses the motion is in that", "Admission past the inner edges is in that", "undo each other"} {
			if strings.Contains(text, w) {
				told++
				if w != row.want {
					t.Errorf("%+v: %s", row, text)
				}
			}
		}
		if (row.want != "") != (told == 1) || told > 1 {
			t.Errorf("%+v: told %d: %s", row, told, text)
		}
	}
}

// What is read when a port is open, shut, or line on line.
func TestOpenTold(t *testing.T) {
	g := demo()
	for _, row := range []struct {
		lead float64
		want string
	}{
		{0.25, "open by 0.25 mm (9.8 thou), having begun to open 5.0 deg before"},
		{0, "line on line, about to open"},
		{-0.25, "shut, its edge 0.25 mm (9.8 thou) short of it, to open 4.8 deg after"},
	} {
		g, err := g.WithLead(units.MM(row.lead), eccentric.HeadEnd)
		if err != nil {
			t.Fatal(err)
		}
		e, err := g.Events()
		if err != nil {
			t.Fatal(err)
		}
		if got := open(e.Head); got != row.want && math.Abs(e.Head.Lead.MM()-row.lead) < 1e-6 {
			t.Errorf("%g: %q, want %q", row.lead, got, row.want)
		}
	}
	g.Travel = units.MM(2.2) // never opens
	e, err := g.Events()
	if err != nil {
		t.Fatal(err)
	}
	if got := open(e.Head); strings.Contains(got, "to open") || !strings.HasPrefix(got, "shut") {
		t.Error(got)
	}
}

func TestTurns(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0 turns", 0.5: "1/2 turn", 1: "1 turn", -1.5: "1 1/2 turns", 2: "2 turns", 1.0 / 3: "1/3 turn", 2 + 2.0/3: "2 2/3 turns",
		0.25: "1/4 turn", 0.75: "3/4 turn", 1.0 / 6: "1/6 turn", -5.0 / 6: "5/6 turn", 0.34: "0.34 turns",
	} {
		if got := turns(v); got != want {
			t.Errorf("%g: %q, want %q", v, got, want)
		}
	}
}

// What is told of two leads, in its order: the sheave, the valve, its nut, the leads
// after that, and the other hand; nothing where nothing can be set.
func TestCorrectionTold(t *testing.T) {
	s := Setting{Gear: demo()}
	const hands = " All this is for ports that open further as the crank goes on from its dead centres. Where they shut, the sheave is on" +
		" the wrong hand, which leads do not tell: turn it by "
	for _, row := range []struct {
		name        string
		head, crank float64
		nut         Nut
		slip        bool
		want        string
	}{
		{"right", 0.272, 0.134, Nut{}, false, "Leave sheave and valve where they are: nothing that can be set is out." + hands +
			"128.0 deg back, against the way the engine runs, and read again."},
		{"slipped", -0.239, -0.397, Nut{}, false, "Turn the sheave on the shaft by 10.0 deg forwards, the way the engine runs." +
			" Both leads then read 0.27 mm (10.7 thou) at the head end and 0.13 mm (5.3 thou) at the crank end. A sheave that is turned" +
			" leaves how far the steam edges run past their ports as it is. Where that is not as drawn it is not the sheave: each steam" +
			" lap is 0.52 mm (20.5 thou) too large, or the travel is another." + hands +
			"138.0 deg back, against the way the engine runs, and read again."},
		{"slip eccentric", -0.239, -0.397, Nut{}, true, "Turn the stop of the sheave on the shaft by 10.0 deg forwards"},
		{"shifted", 0.572, -0.166, Nut{}, false, "Move the valve on its spindle 0.3 mm (11.8 thou) away from the crank. Both leads"},
		{"by a nut", 0.572, -0.166, Nut{units.MM(0.6), 2}, false, "Move the valve on its spindle 0.3 mm (11.8 thou) away from the" +
			" crank: 1/2 turn of the nut. Seen from the crank a nut of a right-hand thread is turned clockwise for that. Both leads"},
		{"by a nut, back", -0.028, 0.434, Nut{units.MM(0.6), 0}, false, "Move the valve on its spindle 0.3 mm (11.8 thou) towards the" +
			" crank: 0.5 turns of the nut. Seen from the crank a nut of a right-hand thread is turned anticlockwise for that."},
		{"too coarse a nut", 0.372, 0.034, Nut{units.MM(1), 2}, false, "no turn is the nearest that it can be set, which leaves all of" +
			" it. Both leads"},
	} {
		s.Nut, s.Slip = row.nut, Slip{}
		if row.slip {
			s.Slip = Slip{Pin: units.MM(3), Radius: units.MM(8)}
		}
		c := correct(t, s, units.MM(row.head), units.MM(row.crank))
		if got := c.String(); !strings.Contains(got, row.want) || strings.HasPrefix(row.want, "Leave") && got != row.want {
			t.Errorf("%s:\n%s\nwant\n%s", row.name, got, row.want)
		}
	}
}
