package diagnosis_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// asked diagnoses a gear.
func asked(t *testing.T, g eccentric.Gear, rs ...diagnosis.Reading) diagnosis.Diagnosis {
	t.Helper()
	d, err := diagnosis.Case{Gear: g, Readings: rs}.Diagnose()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// leads are those of both dead centres, to 0.05 mm.
func leads(head, crank float64) []diagnosis.Reading {
	return []diagnosis.Reading{
		length(diagnosis.Lead, eccentric.HeadEnd, head), length(diagnosis.Lead, eccentric.CrankEnd, crank),
	}
}

func length(k diagnosis.Kind, end eccentric.End, mm float64) diagnosis.Reading {
	return diagnosis.Reading{Kind: k, End: end, Length: units.MM(mm), Within: spread.Deviation{Length: units.MM(0.05)}}
}

// portsOpen are what both ports do as the crank leaves its dead centres.
func portsOpen(side diagnosis.Side) []diagnosis.Reading {
	return []diagnosis.Reading{
		{Kind: diagnosis.OpensNext, End: eccentric.HeadEnd, Opens: side},
		{Kind: diagnosis.OpensNext, End: eccentric.CrankEnd, Opens: side},
	}
}

// among returns a fault among the first so many suspects.
func among(d diagnosis.Diagnosis, first int, f diagnosis.Fault) (diagnosis.Suspect, bool) {
	for _, s := range d.Suspects[:min(first, len(d.Suspects))] {
		if s.Fault == f && s.Also == nil {
			return s, true
		}
	}
	return diagnosis.Suspect{}, false
}

func says(sentences []string, words string) bool {
	return strings.Contains(strings.Join(sentences, "\n"), words)
}

// EC-03: a sheave of 3 mm, lap 1, lead 0.2. The leads at both dead centres tell half a
// turn, in line and no advance; a mirrored sheave has the right ones, which are not
// told from a gear as it is drawn until one sees what the ports do next.
func TestWhereTheSheaveStands(t *testing.T) {
	g := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)), Travel: units.MM(6),
		EccentricRod: eccentric.InfiniteRod(), Advance: units.Angle(math.Asin(1.2 / 3)),
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)},
	}
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.MM(1), Exhaust: units.MM(0.1)})
	for _, row := range []struct {
		lead float64
		next diagnosis.Side
		want diagnosis.Fault
		turn float64 // degrees from the drawing
	}{
		{0.2, diagnosis.Steam, diagnosis.AsDrawn, 0},
		{0.2, diagnosis.Exhaust, diagnosis.OtherHand, 132.84},
		{-2.2, diagnosis.Exhaust, diagnosis.HalfTurnOut, 180},
		{-2.2, diagnosis.Steam, diagnosis.WrongAdvance, -47.16},
		{-4, 0, diagnosis.InLine, -113.58},
		{-1, diagnosis.Steam, diagnosis.NoAdvance, -23.58},
	} {
		rs := leads(row.lead, row.lead)
		alone := asked(t, g, rs...)
		if row.next != 0 {
			rs = append(rs, portsOpen(row.next)...)
		}
		d := asked(t, g, rs...)
		v := d.Verdict()
		turned := math.Abs(math.Remainder(v.Angle.Degrees()-row.turn, 360))
		if v.Fault != row.want || v.Also != nil || turned > 3 {
			t.Errorf("EC-03 a lead of %v, then %v: %v, want %v", row.lead, row.next, v, row.want)
		}
		told := alone.Verdict().Sure || !says(alone.CannotTell, "mirrored") || !says(alone.CannotTell, "drawn")
		if row.lead == 0.2 && told {
			t.Errorf("EC-03 from leads alone: %q", alone.CannotTell)
		}
	}
}

// The demonstration engine with its sheave mirrored is named from leads and from what
// opens next at both ends, and from leads alone it cannot be told.
func TestMirrored(t *testing.T) {
	rs := leads(0.272, 0.134)
	d := asked(t, demo(), rs...)
	if !says(d.CannotTell, "on the other hand") || !says(d.CannotTell, "towards steam with the first, towards exhaust") {
		t.Errorf("leads alone: %q", d.CannotTell)
	}
	d = asked(t, demo(), append(rs, portsOpen(diagnosis.Exhaust)...)...)
	if v := d.Verdict(); v.Fault != diagnosis.OtherHand || v.Also != nil || v.Probability < 0.8 {
		t.Errorf("with what opens next: %v", v)
	}
}

// The wrong cavity is named first from three exhaust readings.
func TestCavity(t *testing.T) {
	g := demo()
	g.Valve.Cavity = units.MM(9.6)
	e, err := g.Events()
	if err != nil {
		t.Fatal(err)
	}
	within := spread.Deviation{Angle: units.Degree}
	d := asked(t, demo(),
		diagnosis.Reading{Kind: diagnosis.Release, End: eccentric.HeadEnd, Angle: e.Head.Release.Crank, Within: within},
		diagnosis.Reading{
			Kind: diagnosis.Compression, End: eccentric.HeadEnd, Angle: e.Head.Compression.Crank, Within: within,
		},
		diagnosis.Reading{Kind: diagnosis.Release, End: eccentric.CrankEnd, Angle: e.Crank.Release.Crank, Within: within})
	v := d.Verdict()
	if v.Fault != diagnosis.WrongExhaustLap || v.End != eccentric.BothEnds || v.Also != nil {
		t.Errorf("%v", v)
	}
	near(t, "exhaust lap", v.Length.MM(), -0.3, 0.05)
	if !says(d.CannotTell, "steam laps") {
		t.Errorf("what was not read: %q", d.CannotTell)
	}
}

// EC-17: the leads of the demonstration engine with the sheave slipped back by 10
// degrees leave a long valve and a small sheave open, which the greatest openings and
// the travel part; those of the valve 0.3 mm off towards the head do not.
func TestOneEndEarly(t *testing.T) {
	slipped := leads(-0.239, -0.397)
	d := asked(t, demo(), slipped...)
	s, ok := among(d, 4, diagnosis.WrongAdvance)
	if !ok || math.Abs(s.Angle.Degrees()+10) > 1 || d.Verdict().Sure || len(d.CannotTell) < 2 {
		t.Errorf("EC-17 slipped: %v, cannot tell %q", s, d.CannotTell)
	}
	within := spread.Deviation{Angle: units.Degree}
	slipped = append(slipped, length(diagnosis.Travel, eccentric.BothEnds, 6.4),
		length(diagnosis.Opening, eccentric.HeadEnd, 2), length(diagnosis.Opening, eccentric.CrankEnd, 2),
		diagnosis.Reading{
			Kind: diagnosis.CutOff, End: eccentric.HeadEnd, Angle: 143.41 * units.Degree, Within: within,
		})
	v := asked(t, demo(), slipped...).Verdict()
	if v.Fault != diagnosis.WrongAdvance || v.Also != nil || math.Abs(v.Angle.Degrees()+10) > 1.5 {
		t.Errorf("EC-17 slipped, openings and travel as drawn: %v", v)
	}
	v = asked(t, demo(), leads(-0.028, 0.434)...).Verdict()
	if v.Fault != diagnosis.ValveOffCentre || v.Also != nil || math.Abs(v.Length.MM()+0.3) > 0.03 {
		t.Errorf("EC-17 shifted: %v", v)
	}
}

// EC-04: 1/64 in is wanted at both ends and 3/64 found at one. The leads leave open
// whether one edge is wrong, or the valve is short and off centre as well.
func TestUnequalLead(t *testing.T) {
	lead := units.InchFraction(1, 64)
	g, err := straight().WithLead(lead, eccentric.BothEnds)
	if err != nil {
		t.Fatal(err)
	}
	d := asked(t, g, leads(lead.MM(), 3*lead.MM())...)
	if d.Verdict().Sure || !(len(d.CannotTell) > 0) {
		t.Errorf("EC-04: %v, cannot tell %q", d.Verdict(), d.CannotTell)
	}
	s, ok := among(d, 4, diagnosis.WrongSteamLap)
	if !ok || s.End != eccentric.CrankEnd || math.Abs(s.Length.MM()+2*lead.MM()) > 0.1 {
		t.Errorf("EC-04 one edge: %v", s)
	}
}

// straight is an invented gear without any slant, so that both ends are alike.
func straight() eccentric.Gear {
	g := eccentric.Gear{
		Stroke: units.Inch(2), ConnectingRod: eccentric.InfiniteRod(),
		Travel: units.Inch(0.75), EccentricRod: eccentric.InfiniteRod(),
		Ports: eccentric.Ports{Steam: units.Inch(0.25), Bar: units.Inch(0.25), Exhaust: units.Inch(0.5)},
	}
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.Inch(0.15), Exhaust: units.Inch(0.02)})
	return g
}

// Half the difference of the leads is what the valve is off centre: E. L. Ahrons, Steam
// Locomotive Construction and Maintenance, about p. 104, and A. Sinclair, Locomotive
// Engine Running and Management, chapter XIX; the figures are those of
// testdata/eccentric/setting.csv.
func TestHalfTheDifference(t *testing.T) {
	for _, row := range []struct {
		source            string
		head, crank, want float64 // inches
	}{{"Ahrons", 1. / 16, 3. / 16, -1. / 16}, {"Sinclair", 1. / 16, -1. / 16, 1. / 16}} {
		g, err := straight().WithLead(units.Inch((row.head+row.crank)/2), eccentric.BothEnds)
		if err != nil {
			t.Fatal(err)
		}
		v := asked(t, g, leads(25.4*row.head, 25.4*row.crank)...).Verdict()
		if v.Fault != diagnosis.ValveOffCentre || v.Also != nil {
			t.Errorf("%s: %v", row.source, v)
		}
		near(t, row.source, v.Length.Inch(), row.want, 0.001)
	}
}

// Leads, openings and events of thirteen gears with a fault, by a script of another
// hand, name it.
func TestSignaturesAreNamed(t *testing.T) {
	want := map[string]plant{
		"correct": {"as_drawn", "", 0}, "slipped-back": {"advance", "", -10}, "slipped-forward": {"advance", "", 10},
		"shifted":    {"valve_off_centre", "", 0.3},
		"valve-long": {"steam_lap", "both", 0.3}, "valve-short": {"steam_lap", "both", -0.3},
		"cavity-long": {"exhaust_lap", "both", -0.6}, "cavity-short": {"exhaust_lap", "both", 0.4},
		"small-offset": {"travel", "", -0.6},
		"mirrored":     {"eccentric_other_hand", "", 0}, "half-turn": {"eccentric_opposite", "", 0},
		"in-line": {"eccentric_in_line", "", 0}, "square": {"eccentric_no_advance", "", 0},
	}
	for r := range check.Open(t, "eccentric/fault_signatures.csv").Rows() {
		d, _ := signature(r)
		var all []taken
		for _, end := range []string{"head", "crank"} {
			all = append(all,
				taken{kind: "lead", end: end, value: r.Float(end + "_lead"), within: 0.05},
				taken{kind: "opening", end: end, value: r.Float(end + "_open"), within: 0.05},
				taken{kind: "admission", end: end, value: math.Mod(r.Float(end+"_adm")+360, 360), within: 1},
				taken{kind: "cut_off", end: end, value: r.Float(end+"_cut") / 100, share: true, within: 0.01},
				taken{kind: "release", end: end, value: r.Float(end+"_rel") / 100, share: true, within: 0.01},
				taken{kind: "compression", end: end, value: r.Float(end+"_clo") / 100, share: true, within: 0.01})
		}
		var rs []diagnosis.Reading
		for _, one := range all {
			rs = append(rs, one.asReading())
		}
		v := asked(t, d.gear(), rs...).Verdict()
		is, found := want[r.ID], asPart(v.Part)
		if v.Also != nil || !is.is(found) {
			t.Errorf("%s: %v", r.ID, v)
			continue
		}
		if found.has {
			near(t, r.ID, found.amount, is.amount, 3*found.sd)
		}
		e, err := v.Gear.Events() // the gear that is named does what was read
		if err != nil {
			t.Fatal(err)
		}
		r.Within("head_lead", e.Head.Lead.MM(), 0.1)
		r.Within("crank_lead", e.Crank.Lead.MM(), 0.1)
		r.Within("head_open", e.Head.Opening.MM(), 0.1)
		r.Within("crank_open", e.Crank.Opening.MM(), 0.1)
		for _, reading := range rs {
			if on, err := reading.On(v.Gear); err != nil || !on.Agrees(reading) {
				t.Errorf("%s: %s is %s on the gear that is named and was read %s, %v", r.ID, on.Name(), on.Value(),
					reading.Value(), err)
			}
		}
		// The first of its cures brings the leads and openings of the drawing back.
		made := eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true}
		cures, err := diagnosis.Case{Gear: d.gear(), Readings: rs}.Cures(v, made)
		drawn, errDrawn := d.gear().Events()
		if err := errors.Join(err, errDrawn); err != nil {
			t.Fatal(err)
		}
		if is.fault == "as_drawn" { // what is left is to alter the drawing
			continue
		}
		if len(cures) == 0 {
			t.Errorf("%s: no cure", r.ID)
			continue
		}
		cured, err := cures[0].Gear.Events()
		if err != nil {
			t.Fatal(err)
		}
		for _, pair := range [][2]eccentric.EndEvents{{cured.Head, drawn.Head}, {cured.Crank, drawn.Crank}} {
			near(t, r.ID+": lead when it is cured", pair[0].Lead.MM(), pair[1].Lead.MM(), 0.1)
			near(t, r.ID+": opening when it is cured", pair[0].Opening.MM(), pair[1].Opening.MM(), 0.1)
		}
	}
}
