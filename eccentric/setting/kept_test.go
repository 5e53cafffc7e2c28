package setting

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// drawnSetting draws a setting, always the same ones: the gear of the demonstration or
// its like, with a nut or none, a shaft, a wheel, a way round and a stop or none.
func drawnSetting(rng *rand.Rand) Setting {
	one := func(of int) bool { return rng.IntN(of) == 0 }
	microns := func(low, high int) units.Length { return units.Micron(float64(low + rng.IntN(high-low))) }
	s := Setting{Gear: demo()}
	g := &s.Gear
	if one(3) {
		g.InsideAdmission, g.Valve.Length, g.Valve.Cavity = true, units.MM(13), units.MM(6.6)
	}
	if one(3) {
		g.LeverRatio = []float64{-1, 1.25, -0.8}[rng.IntN(3)]
	}
	if one(4) {
		g.EccentricRod = eccentric.InfiniteRod()
	}
	if one(4) {
		g.ConnectingRod = eccentric.InfiniteRod()
	}
	if one(3) {
		g.Advance = units.Angle(rng.IntN(60)-10) * units.Degree
	}
	if one(3) {
		g.Travel = microns(4500, 8000)
	}
	if one(3) {
		g.Valve.LostMotion = microns(10, 400)
	}
	if one(3) {
		g.Valve.Offset = microns(-300, 300)
	}
	if one(4) {
		g.Ports.CrankSteam = microns(1700, 2300)
	}
	if one(2) {
		s.Nut = Nut{Pitch: []units.Length{units.MM(0.35), units.MM(0.5), units.MM(0.1), units.Inch(1. / 40)}[rng.IntN(4)],
			Places: []int{0, 1, 2, 4, 6}[rng.IntN(5)]}
	}
	if one(2) {
		s.Shaft = []units.Length{units.MM(6), units.MM(8)}[rng.IntN(2)]
	}
	if one(2) {
		s.Wheel = units.MM(80)
	}
	if one(2) {
		s.Rotation, s.SeenFrom = Rotation(1+rng.IntN(2)), "the flywheel"
	}
	if one(3) {
		s.Slip = Slip{Pin: units.MM(3), Radius: units.MM(9)}
		if one(2) {
			s.Slip.Slot = units.Angle(float64(130+rng.IntN(40))) * units.Degree
		}
	}
	if one(3) {
		s.Step = microns(50, 300)
	}
	return s
}

var (
	figures   = regexp.MustCompile(`-?[\d.]*\d`)
	sentences = regexp.MustCompile(`[.] [A-Z]`)
)

// first returns those sentences of a text that no other before had but for its figures.
func first(had map[string]bool, text string) string {
	var all []string
	from := 0
	for _, at := range append(sentences.FindAllStringIndex(text, -1), []int{len(text) - 1, len(text)}) {
		sentence := text[from : at[0]+1]
		from = min(at[0]+2, len(text))
		if key := figures.ReplaceAllString(sentence, "#"); !had[key] {
			had[key] = true
			all = append(all, sentence)
		}
	}
	return strings.Join(all, " ")
}

// inMM takes less than a nanometre for nothing.
func inMM(l units.Length) string {
	if l.Abs().Cmp(units.Picometres(1000)) < 0 {
		return "0"
	}
	return fmt.Sprintf("%.4g", l.MM())
}

func inDegrees(a units.Angle) string {
	if math.Abs(a.Degrees()) < 1e-9 {
		return "0"
	}
	return fmt.Sprintf("%.4g", a.Degrees())
}

// The sheets of settings of all sorts: their figures, and each sentence once.
func TestSheetsKept(t *testing.T) {
	var text strings.Builder
	had := map[string]bool{}
	rng := rand.New(rand.NewPCG(21, 1))
	for range 70 {
		s := drawnSetting(rng)
		g := s.Gear
		fmt.Fprintf(&text, "travel %v advance %s off %v play %v lever %v inside %v crank port %v nut %v %d shaft %v wheel %v step %v slot %s\n",
			g.Travel, inDegrees(g.Advance), g.Valve.Offset, g.Valve.LostMotion, g.LeverRatio, g.InsideAdmission, g.Ports.CrankSteam,
			s.Nut.Pitch, s.Nut.Places, s.Shaft, s.Wheel, s.Step, inDegrees(s.Slip.Slot))
		sheet, err := s.Sheet()
		if err != nil {
			fmt.Fprintf(&text, "  %v\n", err)
			continue
		}
		for _, d := range []DeadCentre{sheet.Head, sheet.Crank} {
			fmt.Fprintf(&text, "  dead centre: piston %s arc %s blind %s off %s tenth %s;", inMM(d.Piston), inMM(d.Arc), inDegrees(d.Blind),
				inMM(d.Off), inDegrees(d.Tenth))
		}
		fmt.Fprintf(&text, "\n  stands %s arc %s opens %s %s, a degree %s on %s, least %s, equal by %s to %s, halved %s planted %s misread %s, reverse %s\n",
			inDegrees(sheet.Stands), inMM(sheet.Arc), inMM(sheet.Opens.Head.Steam), inMM(sheet.Opens.Crank.Steam), inMM(sheet.PerDegree),
			inMM(sheet.DegreeOnArc), inDegrees(sheet.PerLeastMove), inMM(sheet.Equal), inMM(sheet.EqualLead), inMM(sheet.Halved),
			inMM(sheet.Planted), inMM(sheet.Misread), inDegrees(sheet.Reverse))
		for _, split := range sheet.Splits {
			fmt.Fprintf(&text, "  out %s: turn %s move %s;", inMM(split.Out), inDegrees(split.Turn), inMM(split.Move))
		}
		if stop := sheet.Stop; stop != nil {
			fmt.Fprintf(&text, " stop %s in %s", inDegrees(stop.Travel), inDegrees(stop.Slot))
			if made := stop.Made; made != nil {
				fmt.Fprintf(&text, ", made for %s, longer %s packing %s", inDegrees(made.Gear.Advance), inDegrees(made.Longer), inMM(made.Packing))
			}
		}
		text.WriteString("\n")
		for _, stage := range sheet.Stages {
			if said := first(had, stage.Text); said != "" {
				fmt.Fprintf(&text, "    %s, %s: %s\n", stage.Key, stage.Title, said)
			}
		}
	}
	check.Kept(t, "eccentric/setting/kept/sheets.txt", text.String())
}

// What is turned and moved for leads of all sorts that were read, each sentence once.
func TestCorrectionsKept(t *testing.T) {
	var text strings.Builder
	had := map[string]bool{}
	rng := rand.New(rand.NewPCG(22, 1))
	for range 160 {
		s := drawnSetting(rng)
		e, err := s.Gear.Events()
		if err != nil {
			t.Fatal(err)
		}
		by := func() units.Length {
			return units.Micron(float64(rng.IntN(1200) - 600)).Scale(float64(rng.IntN(4)) / 3)
		}
		read := Leads{e.Head.Lead.Add(by()), e.Crank.Lead.Add(by())}
		if rng.IntN(8) == 0 {
			read.Head = units.MM(float64(rng.IntN(8) - 4))
		}
		c, err := s.Correct(read)
		fmt.Fprintf(&text, "advance %s off %v lever %v inside %v play %v nut %v %d, read %s %s: ", inDegrees(s.Gear.Advance), s.Gear.Valve.Offset,
			s.Gear.LeverRatio, s.Gear.InsideAdmission, s.Gear.Valve.LostMotion, s.Nut.Pitch, s.Nut.Places, inMM(read.Head), inMM(read.Crank))
		if err != nil {
			fmt.Fprintf(&text, "%v\n", err)
			continue
		}
		fmt.Fprintf(&text, "turn %s arc %s or %s, move %s rod %s lap %s, then %s %s", inDegrees(c.Turn), inMM(c.Arc), inDegrees(c.OtherHand),
			inMM(c.Move), inMM(c.Rod), inMM(c.Lap), inMM(c.After.Head), inMM(c.After.Crank))
		if n := c.Nut; n != nil {
			fmt.Fprintf(&text, "; nut %.4g set %.4g moves %s left %s of %s finer %s", n.Turns, n.Set, inMM(n.Moves), inMM(n.Left), inMM(n.MostLeft),
				inMM(n.Finer))
		}
		text.WriteString("\n")
		if said := first(had, c.Text); said != "" {
			fmt.Fprintf(&text, "    %s\n", said)
		}
	}
	check.Kept(t, "eccentric/setting/kept/corrections.txt", text.String())
}

// Settings, nuts, moves and leads at the limits of what is accepted, and a step beyond.
func TestSettingAtItsLimits(t *testing.T) {
	pm := units.Picometres(1)
	usual := Setting{Gear: demo(), Nut: Nut{Pitch: units.MM(0.5), Places: 2}}
	for _, test := range []struct {
		name    string
		in, out func(*Setting)
		says    string
	}{
		{"advance", func(s *Setting) { s.Gear.Advance = units.Angle(math.Nextafter(float64(quarter), 0)) },
			func(s *Setting) { s.Gear.Advance = quarter }, "angle of advance"},
		{"advance back", func(s *Setting) { s.Gear.Advance = -units.Angle(math.Nextafter(float64(quarter), 0)) },
			func(s *Setting) { s.Gear.Advance = -quarter }, "angle of advance"},
		{"pitch", func(s *Setting) { s.Nut.Pitch = units.MM(10) }, func(s *Setting) { s.Nut.Pitch = units.MM(10).Add(pm) }, "pitch of the spindle"},
		{"fine pitch", func(s *Setting) { s.Nut.Pitch = pm }, func(s *Setting) { s.Nut.Pitch = units.Length{} }, "pitch of the spindle"},
		{"places", func(s *Setting) { s.Nut.Places = 24 }, func(s *Setting) { s.Nut.Places = 25 }, "places of the nut"},
		{"no places", func(s *Setting) { s.Nut.Places = 0 }, func(s *Setting) { s.Nut.Places = -1 }, "places of the nut"},
		{"shaft", func(s *Setting) { s.Shaft = units.MM(10_000) }, func(s *Setting) { s.Shaft = units.MM(10_000).Add(pm) }, "shaft diameter"},
		{"no shaft", func(s *Setting) { s.Shaft = units.Length{} }, func(s *Setting) { s.Shaft = pm.Neg() }, "shaft diameter"},
		{"wheel", func(s *Setting) { s.Wheel = units.MM(10_000) }, func(s *Setting) { s.Wheel = units.MM(10_000).Add(pm) }, "flywheel diameter"},
		{"no wheel", func(s *Setting) { s.Wheel = units.Length{} }, func(s *Setting) { s.Wheel = pm.Neg() }, "flywheel diameter"},
		{"rotation", func(s *Setting) { s.Rotation, s.SeenFrom = Anticlockwise, "the wheel" },
			func(s *Setting) { s.Rotation, s.SeenFrom = 3, "the wheel" }, "rotation"},
		{"seen from", func(s *Setting) { s.Rotation, s.SeenFrom = Clockwise, "the wheel" }, func(s *Setting) { s.Rotation = Clockwise },
			"both or neither"},
		{"seen of none", func(*Setting) {}, func(s *Setting) { s.SeenFrom = "the wheel" }, "both or neither"},
		{"slip", func(s *Setting) { s.Slip = Slip{Pin: units.MM(3), Radius: units.MM(3).Add(pm)} },
			func(s *Setting) { s.Slip = Slip{Pin: units.MM(3), Radius: units.MM(3)} }, "pin diameter"},
		{"gear", func(*Setting) {}, func(s *Setting) { s.Gear.Stroke = units.Length{} }, "stroke"},
	} {
		in, out := usual, usual
		test.in(&in)
		test.out(&out)
		if err := in.Validate(); err != nil {
			t.Errorf("%s: %v", test.name, err)
		}
		if err := out.Validate(); err == nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%s: %v, want %s", test.name, err, test.says)
		}
		if _, err := out.Sheet(); err == nil {
			t.Errorf("%s: a sheet", test.name)
		}
	}
	// A lead is less than its port, 2 mm, and below zero not by more than the travel, 6.4 mm.
	e, err := usual.Gear.Events()
	if err != nil {
		t.Fatal(err)
	}
	h, c := e.Head.Lead, e.Crank.Lead
	for _, test := range []struct {
		read Leads
		says string // nothing: accepted
	}{
		{Leads{h, c}, ""}, {Leads{units.MM(2), c}, "lead of the head end"}, {Leads{units.MM(2).Sub(pm), c}, ""},
		{Leads{h, units.MM(2)}, "lead of the crank end"}, {Leads{h, units.MM(2).Sub(pm)}, ""},
		{Leads{units.MM(-6.4).Sub(pm), c}, "lead of the head end"}, {Leads{units.MM(-6.4), c}, ""},
		{Leads{h, units.MM(-6.4).Sub(pm)}, "lead of the crank end"}, {Leads{units.MM(-4.4), units.MM(-4.4)}, "mean of the leads"},
		{Leads{units.MM(-4.39), units.MM(-4.39)}, ""},
	} {
		if _, err := usual.Correct(test.read); (err == nil) != (test.says == "") || err != nil && !strings.Contains(err.Error(), test.says) {
			t.Errorf("%v: %v, want %q", test.read, err, test.says)
		}
	}
	// What is too little to be set is not told: a degree and 0.05 mm are. Of a valve in the middle of endless rods, at
	// no angle of advance, the sum of the leads is the sheave's alone and the difference the valve's.
	plain := usual
	plain.Gear.EccentricRod, plain.Gear.ConnectingRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
	e, err = plain.Gear.Events()
	if err != nil {
		t.Fatal(err)
	}
	least := units.Micron(50)
	for by, want := range map[units.Length]units.Length{
		least: least.Neg(), least.Sub(pm): {}, least.Neg(): least, least.Neg().Add(pm): {},
	} {
		c, err := plain.Correct(Leads{e.Head.Lead.Add(by), e.Crank.Lead.Sub(by)})
		if err != nil || c.Move != want || c.Turn != 0 {
			t.Errorf("leads out by %v each way: move %v turn %v, %v", by, c.Move, c.Turn, err)
		}
	}
	// A move of the nut is up to a metre.
	for move, ok := range map[units.Length]bool{units.MM(1000): true, units.MM(1000).Add(pm): false, units.MM(-1000).Sub(pm): false} {
		if _, err := usual.Nut.Set(move); (err == nil) != ok {
			t.Errorf("move %v: %v", move, err)
		}
	}
	// Half a step of 0.05 mm leaves what nobody can set; a picometre more asks for a finer thread.
	for pitch, finer := range map[units.Length]units.Length{units.MM(0.2): {}, units.MM(0.2).Add(pm.Scale(4)): units.MM(0.2)} {
		turn, err := Nut{Pitch: pitch, Places: 2}.Set(units.MM(0.3))
		if err != nil || turn.Finer != finer {
			t.Errorf("pitch %v: finer %v, %v", pitch, turn.Finer, err)
		}
	}
}

// How lengths, angles and turns are written; worked by hand.
func TestFiguresInSentences(t *testing.T) {
	pm := units.Picometres(1)
	for want, l := range map[string]units.Length{
		"0.1 mm (3.9 thou)": units.Micron(100), "0.099 mm (3.9 thou)": units.Micron(99), "1.23 mm (48.5 thou)": units.Micron(1232),
		"-0.05 mm (-2 thou)": units.Micron(-50), "25.4 mm (1000 thou)": units.Inch(1), "0 mm (0 thou)": pm,
	} {
		if got := mmThou(l); got != want {
			t.Errorf("%v: %s, want %s", l, got, want)
		}
	}
	for turned, want := range map[float64]string{
		0: "0 turns", 0.5: "1/2 turn", -0.5: "1/2 turn", 1: "1 turn", 2: "2 turns", 1.5: "1 1/2 turns", 1. / 3: "1/3 turn", 2. / 3: "2/3 turn",
		0.25: "1/4 turn", -2.75: "2 3/4 turns", 1. / 6: "1/6 turn", 5. / 6: "5/6 turn", 0.4: "0.4 turns",
	} {
		if got := turns(turned); got != want {
			t.Errorf("%v: %s, want %s", turned, got, want)
		}
	}
	for l, want := range map[units.Length]string{
		{}: "just to its edge", pm: "0 mm (0 thou) past it", units.MM(0.2): "0.2 mm (7.9 thou) past it",
		units.MM(-0.2): "0.2 mm (7.9 thou) short of it",
	} {
		if got := edge(l); got != want {
			t.Errorf("%v: %s, want %s", l, got, want)
		}
	}
	for l, want := range map[units.Length]string{
		{}: "0 mm (0 thou) towards", units.MM(0.2): "0.2 mm (7.9 thou) towards", units.MM(-0.2): "0.2 mm (7.9 thou) away from",
	} {
		if got := moved(l); got != want {
			t.Errorf("%v: %s, want %s", l, got, want)
		}
	}
	if got := deg(-26.06 * units.Degree); got != "26.1 deg" {
		t.Error(got)
	}
}
