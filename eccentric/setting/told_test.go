package setting

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// plain is the demonstration with endless rods: both leads are r*sin(d) - S.
func plain() Setting {
	s := Setting{Gear: demo()}
	s.Gear.ConnectingRod, s.Gear.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
	return s
}

func sheetOf(t *testing.T, s Setting) Sheet {
	t.Helper()
	sheet, err := s.Sheet()
	if err != nil {
		t.Fatal(err)
	}
	return sheet
}

// How a port stands at its dead centre, by events that are given: what does not happen,
// or happened at another time, is not told.
func TestOpenAtTheDeadCentre(t *testing.T) {
	event := func(occurs bool, degrees float64) eccentric.Event {
		return eccentric.Event{Occurs: occurs, Crank: units.Angle(degrees) * units.Degree}
	}
	for _, test := range []struct {
		lead units.Length
		at   eccentric.Event
		want string
	}{
		{units.MM(0.2), event(true, -5), "open by 0.2 mm (7.9 thou), having begun to open 5.0 deg before"},
		{units.MM(0.2), event(true, 0), "open by 0.2 mm (7.9 thou)"}, {units.MM(0.2), event(true, 5), "open by 0.2 mm (7.9 thou)"},
		{units.MM(0.2), event(false, -5), "open by 0.2 mm (7.9 thou)"}, {units.Length{}, event(true, 0), "line on line, about to open"},
		{units.MM(-0.2), event(true, 5), "shut, its edge 0.2 mm (7.9 thou) short of it, to open 5.0 deg after"},
		{units.MM(-0.2), event(true, 0), "shut, its edge 0.2 mm (7.9 thou) short of it"},
		{units.MM(-0.2), event(true, -5), "shut, its edge 0.2 mm (7.9 thou) short of it"},
		{units.MM(-0.2), event(false, 5), "shut, its edge 0.2 mm (7.9 thou) short of it"},
	} {
		if got := open(eccentric.EndEvents{Lead: test.lead, Admission: test.at}); got != test.want {
			t.Errorf("%v %v: %s, want %s", test.lead, test.at, got, test.want)
		}
	}
}

// Where a port opens no further in ten degrees than it does at the dead centre, or is
// still shut then, they are not what tells the hand of the sheave: at one end or at both.
func TestHandIsToldByLittle(t *testing.T) {
	for _, test := range []struct {
		name    string
		advance units.Angle
		off     float64 // mm
		ten     bool
	}{
		{"usual", 26, 0, true}, {"head end still shut", 26, -1, false}, {"crank end still shut", 26, 1, false},
		{"past its widest", 86, 0, false},
	} {
		s := plain()
		s.Gear.Travel = units.MM(5) // so that no port is fully open: 2.5 - 1.2 mm
		s.Gear.Advance, s.Gear.Valve.Offset = test.advance*units.Degree, units.MM(test.off)
		text := sheetOf(t, s).Stages[1].Text
		if got := strings.Contains(text, "by 10 deg: the port of that end must open"); got != test.ten {
			t.Errorf("%s: %s", test.name, text)
		}
	}
}

// Of a valve at rest at the dead centre a degree of the sheave makes no lead.
func TestLeadOfAValveAtRest(t *testing.T) {
	s := plain()
	s.Gear.Advance, s.Gear.Valve.LostMotion = -80*units.Degree, units.MM(1)
	sheet := sheetOf(t, s)
	if !sheet.PerDegree.IsZero() || sheet.PerLeastMove != 0 || strings.Contains(sheet.Stages[3].Text, "A degree of the sheave") {
		t.Errorf("%v %v: %s", sheet.PerDegree, sheet.PerLeastMove, sheet.Stages[3].Text)
	}
	// And one that follows: r*(sin(26.5) - sin(25.5)), and the turn for 0.05 mm of it.
	sheet = sheetOf(t, plain())
	per := 3.2 * (math.Sin(26.5*math.Pi/180) - math.Sin(25.5*math.Pi/180))
	near(t, "a degree", sheet.PerDegree.MM(), per, 1e-9)
	near(t, "for 0.05 mm", sheet.PerLeastMove.Degrees(), 0.05/per, 1e-6)
}

// A stroke that is shorter than what the crosshead is brought to within is blind all the
// way round.
func TestBlindStroke(t *testing.T) {
	s := plain()
	s.Gear.Stroke = units.Micron(40)
	sheet := sheetOf(t, s)
	for _, d := range []DeadCentre{sheet.Head, sheet.Crank} {
		near(t, "blind", d.Blind.Degrees(), 180, 1e-9)
		near(t, "a tenth", d.Tenth.Degrees(), (180-45)/2., 1e-9)
	}
}

// A valve that is 0.05 mm from equal leads is worth halving, one a picometre nearer not.
func TestHalvingIsToldFromWhatCanBeSet(t *testing.T) {
	for off, want := range map[units.Length]string{
		units.Micron(-50): "it moves the valve 0.05 mm (2 thou) towards the crank", units.Micron(50): "0.05 mm (2 thou) away from the crank",
		units.Micron(-50).Add(units.Picometres(1)): "comes to the same: equal leads of 0.2 mm (8 thou).",
	} {
		s := plain()
		s.Gear.Valve.Offset = off
		if text := sheetOf(t, s).Stages[5].Text; !strings.Contains(text, want) {
			t.Errorf("%v off: %s", off, text)
		}
	}
}

// A slot is right to a tenth of a degree.
func TestMilledToATenth(t *testing.T) {
	tenth := units.Angle(kernel.LeastTurn) / 10
	s := Setting{Slip: Slip{Slot: 147 * units.Degree}}
	for longer, want := range map[units.Angle]string{
		tenth: ".", -tenth: ".", 0: ".", units.Angle(math.Nextafter(float64(tenth), 1)): ": it is 0.1 deg too short, and is milled on by as much.",
		-units.Angle(math.Nextafter(float64(tenth), 1)): ": it is 0.1 deg too long, and a packing of 0.2 mm at one end of it, on the circle of" +
			" the pin, takes that up.",
	} {
		got := s.milled(&Milled{Gear: demo(), Longer: longer, Packing: units.MM(0.2)})
		start := "The slot that is milled, 147.0 deg, gives an angle of advance of 26.0 deg, and leads of 0 mm (0 thou) at the head end and" +
			" 0 mm (0 thou) at the crank end"
		if got != start+want {
			t.Errorf("longer by %v: %s", float64(longer), got)
		}
	}
}

// Leads that the travel does not reach are told with those that it does: half the travel
// less half the lost motion, either way, less the lap.
func TestLeadsOutOfReachAreTold(t *testing.T) {
	s := plain()
	s.Gear.Valve.LostMotion = units.MM(0.4)
	_, err := s.Correct(Leads{units.MM(-4.5), units.MM(-4.5)})
	if err == nil || !strings.Contains(err.Error(), "between -4.2 mm and 1.8 mm") {
		t.Error(err)
	}
	if got := s.turned(0); got != "0.0 deg forwards, the way the engine runs" {
		t.Error(got)
	}
}

// What is printed has its figures.
func TestPrinted(t *testing.T) {
	s := plain()
	s.Slip = Slip{Pin: units.MM(3), Radius: units.MM(9)}
	sheet := sheetOf(t, s)
	for want, got := range map[string]string{
		"0.25 mm": Leads{units.MM(0.25), units.MM(0.5)}.String(), "116": sheet.String(), "128": sheet.Stop.String(),
		"0.7 mm": Nut{Pitch: units.MM(0.7), Places: 4}.String(), "9 mm": s.Slip.String(), "6.4 mm": s.String(),
		"0.9 mm": DeadCentre{Piston: units.MM(0.9)}.String(), "45": Milled{Longer: 45 * units.Degree}.String(),
		"Both dead centres: The eye": sheet.Stages[0].String(), "nothing": Correction{Text: "nothing"}.String(),
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in %s", want, got)
		}
	}
	if all := Rotations(); len(all) != 2 || all[0] != Clockwise || all[1] != Anticlockwise || all[0].Opposite() != all[1] ||
		all[1].Opposite() != all[0] || Rotation(0).Opposite() != 0 {
		t.Errorf("%v", all)
	}
}

// A way round is read and written by its name, in capitals or not.
func TestRotationsAreRead(t *testing.T) {
	for text, want := range map[string]Rotation{"clockwise": Clockwise, "Anticlockwise": Anticlockwise, "counterclockwise": Anticlockwise} {
		got, err := ParseRotation(text)
		var again Rotation
		if err != nil || got != want || again.UnmarshalText([]byte(text)) != nil || again != want {
			t.Errorf("%s: %v %v, %v", text, got, again, err)
		}
		if written, err := want.MarshalText(); err != nil || string(written) != want.String() || len(written) == 0 {
			t.Errorf("%v is written as %q, %v", want, written, err)
		}
	}
	var r Rotation
	if _, err := ParseRotation("sideways"); err == nil || r.UnmarshalText([]byte("sideways")) == nil {
		t.Error("sideways is a way round")
	}
}
