package pages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
)

const (
	builtRods  = "connecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\""
	noSlant    = "connecting_rod = \"infinite\"\neccentric_rod = \"infinite\""
	builtPorts = "length = \"10 mm\"\n\n[valve]"
	builtBody  = "cavity = \"9 mm\""
	byAdvance  = "advance = \"26 deg\""
)

// A gear as it was cut: with endless rods the figures follow by hand from the sines.
// S = 7.7 - (2 + 2.5 + 2) at the head end and 7.7 - (2 + 2.6 + 1.8) at the crank
// end, E = 4.5 - 4.5 - 0.15 and 4.6 - 4.5 + 0.15; half the lost motion is 0.1 mm.
func TestValveAsBuilt(t *testing.T) {
	text, data := changed(t, builtRods, noSlant,
		builtPorts, "length = \"10 mm\"\ncrank_steam = \"1.8 mm\"\ncrank_bar = \"2.6 mm\"\n\n[valve]",
		builtBody, builtBody+"\ncavity_offset = \"-0.15 mm\"\nlost_motion = \"0.2 mm\"")
	for path, want := range map[string]float64{
		"laps.head.steam_mm": 1.2, "laps.crank.steam_mm": 1.3, "laps.steam_mm": 1.25,
		"laps.head.exhaust_mm": -0.15, "laps.crank.exhaust_mm": 0.25, "laps.exhaust_mm": 0.05,
		"dimensions.crank_steam_port_mm": 1.8, "dimensions.crank_bar_mm": 2.6,
		"dimensions.cavity_offset_mm": -0.15, "dimensions.lost_motion_mm": 0.2,
		"sweep.ports_end_mm": 6.5, "sweep.crank_port_end_mm": 6.4, "sweep.chest_mm": 15.4 + 6.4 - 0.2,
		"events.head.opening_mm": 3.1 - 1.2, "events.crank.opening_mm": 1.8, "events.crank.exhaust_opening_mm": 1.8,
		"eccentric.mean_lead_mm": 3.2*math.Sin(26*math.Pi/180) - 1.25 - 0.1,
	} {
		near(t, at(data, path), want, 1e-8)
	}
	sine := func(x float64) float64 { return math.Asin(x/3.2) * 180 / math.Pi }
	for path, want := range map[string]float64{
		"head.admission": sine(1.2+0.1) - 26, "head.cut_off": 180 - sine(1.2-0.1) - 26,
		"head.release": 180 - sine(0.15-0.1) - 26, "head.compression": 360 + sine(0.15+0.1) - 26,
		"crank.admission": sine(1.3+0.1) - 26, "crank.cut_off": 180 - sine(1.3-0.1) - 26,
		"crank.release": 180 - sine(-0.25-0.1) - 26, "crank.compression": 360 + sine(-0.25+0.1) - 26,
	} {
		near(t, at(data, "events."+path+".crank_deg"), want, 1e-6)
	}
	mustShow(t, text,
		"steam port, crank end 1.800 mm", "bar, crank end 2.600 mm", "cavity off its middle 0.150 mm 0.0059 in away from crank",
		"lost motion, in all 0.200 mm", "head end crank end steam lap 1.200 mm 0.0472 in 1.300 mm 0.0512 in",
		"crank end: S = 15.4 / 2 - (4 / 2 + 2.6 + 1.8) = 1.3 mm; E = 4 / 2 + 2.6 - 9 / 2 + 0.15 = 0.25 mm",
		"that of the crank end at 6.400 mm", "S - half the lost motion = 3.2 x sin 26.00 - 1.25 - 0.2 / 2 = 0.053 mm",
		"the steam laps that differ make it 0.103 at the head end and 0.003 at the crank end")
	if strings.Contains(text, "With endless rods") {
		t.Error("both ends are said to be alike")
	}
	// The laps of each end are told beside the old keys where both are the same, too.
	_, data = valve(t, demo(t, "", ""))
	near(t, at(data, "laps.head.steam_mm"), 1.2, 0)
	near(t, at(data, "laps.crank.exhaust_mm"), 0, 0)
	near(t, at(data, "dimensions.crank_bar_mm"), 2.5, 0)
}

// Where the eccentric stands is a third way beside the advance and the lead, with
// lever and admission taken into account.
func TestValveStands(t *testing.T) {
	for _, test := range []struct {
		stands, lever, admission string
		advance                  float64
	}{
		{"116 deg", "", "", 26}, {"-64 deg", "\nlever_ratio = -1", "", 26}, {"-64 deg", "", "\nadmission = \"inside\"", 26},
		{"116 deg", "\nlever_ratio = -1", "\nadmission = \"inside\"", 26}, {"116 deg", "\nlever_ratio = 1.25", "", 26},
		{"-116 deg", "", "", 154}, {"-180 deg", "", "", 90}, {"0 deg", "", "", -90},
	} {
		_, data := changed(t, builtRods, builtRods+test.lever, builtBody, builtBody+test.admission,
			byAdvance, `stands = "`+test.stands+`"`)
		near(t, at(data, "eccentric.advance_deg"), test.advance, 1e-9)
		near(t, at(data, "dimensions.advance_deg"), test.advance, 1e-9)
		if test.advance == 26 {
			near(t, at(data, "dimensions.stands_deg"), at(data, "eccentric.leads_crank_deg").(float64), 0)
		}
	}
	// What was meant is told in the terms of the file, as EC-22 is of one that has the advance.
	for _, test := range []struct{ name, stands, want, remedy string }{
		{"the angle of advance", "26 deg", "An eccentric 26.0 deg ahead of the crank in the direction of rotation looks like one" +
			" whose angle of advance was given for its place", "turn nothing and give its place as 116.0 deg"},
		{"the wrong sign", "-116 deg", "looks to be given with the wrong sign: 116.0 deg ahead of the crank",
			"turn nothing and give its place as 116.0 deg"},
	} {
		text, data := changed(t, byAdvance, `stands = "`+test.stands+`"`)
		mustShow(t, text, test.want, test.remedy)
		first := data["findings"].([]any)[0].(map[string]any)
		if first["slip"] != true || strings.Contains(text, "state the advance as") {
			t.Errorf("%s: %v first in\n%s", test.name, first, text)
		}
	}
	if text, _ := changed(t, byAdvance, `stands = "116 deg"`); strings.Contains(text, "LOOKS LIKE A SLIP") {
		t.Error("a slip where there is none")
	}
}

func TestValveAsBuiltComplaints(t *testing.T) {
	for _, test := range []struct{ name, old, replacement, want string }{
		{"stands and advance", byAdvance, byAdvance + "\nstands = \"116 deg\"",
			"eccentric.stands: advance is given too, and fixes where the eccentric stands; accepted: one of the two"},
		{"stands and lead", byAdvance, "lead = \"0.2 mm\"\nstands = \"116 deg\"", "eccentric.stands: lead is given too"},
		{"stands beyond", byAdvance, `stands = "181 deg"`,
			"eccentric.stands: place of the eccentric 181 deg: out of range; accepted: from -180 to 180 degrees ahead of the crank"},
		{"neither", byAdvance, "", `or stands, such as "116 deg" ahead of the crank, but one alone`},
		{"negative lost motion", builtBody, builtBody + "\nlost_motion = \"-0.1 mm\"",
			"valve.lost_motion: lost motion -0.1 mm: out of range; accepted: a length of zero or more"},
		{"lost motion as long as the travel", builtBody, builtBody + "\nlost_motion = \"6.4 mm\"",
			"valve.lost_motion: lost motion 6.4 mm: out of range; accepted: less than the travel, 6.4 mm, or the valve does not move"},
		{"no land left", builtBody, builtBody + "\ncavity_offset = \"-3.2 mm\"",
			"valve.cavity_offset: cavity offset -3.2 mm: out of range; accepted: less than 3.2 mm either way, which leaves a land"},
		{"crank port of nothing", builtPorts, "crank_steam = \"0 mm\"\n" + builtPorts,
			"ports.crank_steam: 0 mm; accepted: a length above zero; leave the key out where it is as at the head end"},
		{"crank bar below nothing", builtPorts, "crank_bar = \"-1 mm\"\n" + builtPorts, "ports.crank_bar: -1 mm; accepted: a length above zero"},
	} {
		_, err := pageOf(demo(t, test.old, test.replacement), pages.Valve)
		if err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v\nwant %s", test.name, err, test.want)
		}
	}
}
