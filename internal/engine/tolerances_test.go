package engine_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/engine"
)

// gear is a file of an invented engine whose gear lacks nothing.
const drawn = "[cylinder]\nbore = \"20 mm\"\nstroke = \"25 mm\"\n[motion]\nconnecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\"\n" +
	"[ports]\nsteam = \"2 mm\"\nbar = \"2.5 mm\"\nexhaust = \"4 mm\"\nlength = \"10 mm\"\n[valve]\nlength = \"15.4 mm\"\ncavity = \"9 mm\"\n" +
	"[eccentric]\ntravel = \"6.4 mm\"\nadvance = \"26 deg\"\n"

// Tolerances are read with their unit or as a class, and those of sizes that the file
// does not state are refused.
func TestTolerances(t *testing.T) {
	for _, test := range []struct{ name, text, want, wrong string }{
		{"none", drawn, "", ""},
		{"either way", drawn + "[tolerances]\nvalve.length = \"0.05 mm\"\neccentric.advance = \"1 deg\"\n",
			"valve.length -0.05 mm 0.05 mm, eccentric.advance -1 deg 1 deg", ""},
		{"in a table of its own", drawn + "[tolerances.valve]\nlength = \"2 thou\"\n", "valve.length -0.0508 mm 0.0508 mm", ""},
		{"in the unit of the file", "units = \"mm\"\n" + drawn + "[tolerances]\nports.bar = 0.05\n", "ports.bar -0.05 mm 0.05 mm", ""},
		// ISO 286: H10 of 1 to 3 mm is 0 to +40 um, js12 of 50 to 80 mm +/-150 um.
		{"classes", drawn + "[tolerances]\nports.steam = \"H10\"\nmotion.connecting_rod = \"js12\"\n",
			"motion.connecting_rod -0.15 mm 0.15 mm, ports.steam 0 0.04 mm", ""},
		{"of the crank end alone", drawn + "[tolerances]\nports.crank_steam = \"0.1 mm\"\n", "ports.crank_steam -0.1 mm 0.1 mm", ""},
		{"of the place", with(drawn, "advance = \"26", "stands = \"116") + "[tolerances]\neccentric.stands = \"0.5 deg\"\n",
			"eccentric.advance -0.5 deg 0.5 deg", ""},
		{"of the angle that sets the lead", with(drawn, "advance = \"26 deg\"", "lead = \"0.2 mm\"") + "[tolerances]\neccentric.advance = \"0.5 deg\"\n",
			"eccentric.advance -0.5 deg 0.5 deg", ""},
		{"of a lever", with(drawn, "eccentric_rod", "lever_ratio = -1.25\neccentric_rod") + "[tolerances]\nmotion.lever_ratio = 0.01\n",
			"motion.lever_ratio -0.0100 +0.0100", ""},
		{"from the middle", drawn + "[tolerances]\nvalve.offset = \"0.05 mm\"\n", "valve.offset -0.05 mm 0.05 mm", ""},
		{"a class of no size", drawn + "[tolerances]\nvalve.offset = \"h7\"\n", "", "h7 is a class of a part's size"},
		{"not stated", drawn + "[tolerances]\nchest.length = \"0.05 mm\"\n", "",
			"19:16: tolerances.chest.length: the file does not state chest.length itself; accepted: tolerances of sizes that it states, such as length under [chest]"},
		{"another way of setting", drawn + "[tolerances]\neccentric.lead = \"0.05 mm\"\n", "",
			"does not state eccentric.lead itself; accepted: eccentric.advance, which it has"},
		{"an angle twice", with(drawn, "advance = \"26", "stands = \"116") +
			"[tolerances]\neccentric.stands = \"2 deg\"\neccentric.advance = \"1 deg\"\n", "",
			"tolerances.eccentric.stands: it is the same angle as eccentric.advance; accepted: a tolerance of one of them"},
		{"an angle and its lead", with(drawn, "advance = \"26 deg\"", "lead = \"0.2 mm\"") +
			"[tolerances]\neccentric.lead = \"0.1 mm\"\neccentric.advance = \"1 deg\"\n", "",
			"tolerances.eccentric.lead: it is the same angle as eccentric.advance"},
		{"a rod without a length", with(drawn, "\"60 mm\"", "\"infinite\"") + "[tolerances]\nmotion.eccentric_rod = \"0.1 mm\"\n", "",
			"an infinitely long rod has no length to be off"},
		{"below zero", drawn + "[tolerances]\nvalve.length = \"-0.05 mm\"\n", "", "may be off either way, not below zero"},
		{"with both signs", drawn + "[tolerances]\nvalve.length = \"± 0.05 mm\"\n", "",
			"tolerance \"± 0.05 mm\": cannot be read; accepted: how much it may be off either way"},
		{"in words", drawn + "[tolerances]\nvalve.length = \"about 2 thou\"\n", "", "such as \"0.05 mm\"; or a class of ISO 286"},
		{"an angle below zero", drawn + "[tolerances]\neccentric.advance = \"-1 deg\"\n", "", "-1 deg; accepted: plus-minus so much"},
		{"without a unit", drawn + "[tolerances]\nvalve.length = \"0.05\"\n", "", "a number without a unit"},
		{"unknown", drawn + "[tolerances]\nvalve.lenght = \"0.05 mm\"\n", "",
			"tolerances.valve.lenght: unknown key; accepted: cavity, cavity_offset, length, lost_motion, offset"},
		{"no such class", drawn + "[tolerances]\nvalve.length = \"h99\"\n", "", "tolerances.valve.length: tolerance class \"h99\""},
		{"a class beyond its table", with(drawn, "63 mm", "63 m") + "[tolerances]\nmotion.connecting_rod = \"h7\"\n", "", "or plus-minus so much"},
		{"nothing to keep it with", drawn + "[keep]\ncut_off = \"1 %\"\n", "", "keep: there are no tolerances to widen"},
		{"kept to nothing", drawn + "[tolerances]\nvalve.length = \"0.05 mm\"\n[keep]\nlead = \"0 mm\"\nrelease = \"0 %\"\n", "",
			"keep.lead: 0 mm; accepted: a length above zero, such as \"0.05 mm\" either way"},
	} {
		e, err := engine.Parse("a.toml", []byte(test.text))
		gear, ok := e.Gear()
		if !ok {
			t.Fatalf("%s: no gear, %v", test.name, err)
		}
		all, wrong := e.Tolerances(gear)
		err = engine.Join(err, wrong, e.ValidateKeep())
		if test.wrong != "" {
			if err == nil || !strings.Contains(err.Error(), test.wrong) {
				t.Errorf("%s: %v; want %q", test.name, err, test.wrong)
			}
			continue
		}
		var got []string
		for _, a := range all {
			got = append(got, a.Dimension.String()+" "+a.Lower.String()+" "+a.Upper.String())
		}
		if err != nil || strings.Join(got, ", ") != test.want {
			t.Errorf("%s: %v, %v; want %s", test.name, got, err, test.want)
		}
	}
}

// The tolerance of a lead is that of the angle which sets it.
func TestToleranceOfLead(t *testing.T) {
	text := with(drawn, "advance = \"26 deg\"", "lead = \"0.2 mm\"") + "[tolerances]\neccentric.lead = \"0.05 mm\"\n"
	e, err := engine.Parse("a.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	gear, _ := e.Gear()
	gear, err = gear.WithLead(*e.Eccentric.Lead, 0)
	if err != nil {
		t.Fatal(err)
	}
	all, err := e.Tolerances(gear)
	if err != nil || len(all) != 1 {
		t.Fatal(all, err)
	}
	gear.Advance += all[0].Upper.Angle
	if events, err := gear.Events(); err != nil || events.MeanLead().Sub(*e.Eccentric.Lead).MM() < 0.0499999 ||
		events.MeanLead().Sub(*e.Eccentric.Lead).MM() > 0.0500001 {
		t.Errorf("%v, %v", events, err)
	}
}
