package pages_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/finding"
)

// changed returns the valve page of the demonstration engine with texts in place
// of others.
func changed(t *testing.T, oldNew ...string) (text string, data map[string]any) {
	t.Helper()
	file := demo(t, "", "")
	for i := 0; i < len(oldNew); i += 2 {
		if !strings.Contains(file, oldNew[i]) {
			t.Fatalf("no %q in the demonstration", oldNew[i])
		}
		file = strings.Replace(file, oldNew[i], oldNew[i+1], 1)
	}
	return valve(t, file)
}

// Questions that builders ask, answered by the engine book; see testdata/cases.csv.
// The figures are worked out in the tests of package eccentric.
func TestValveCases(t *testing.T) {
	const (
		rods    = "connecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\""
		endless = "connecting_rod = \"50 mm\"\neccentric_rod = \"infinite\"" // four cranks
		ports   = "steam = \"2 mm\"\nbar = \"2.5 mm\"\nexhaust = \"4 mm\""
		bodies  = "length = \"15.4 mm\"\ncavity = \"9 mm\""
		travel  = "travel = \"6.4 mm\""
		advance = "advance = \"26 deg\""
	)
	t.Run("EC-01", func(t *testing.T) { // lap half of the offset, no lead: 30 degrees
		_, data := changed(t, rods, endless, bodies, "length = \"16.2 mm\"\ncavity = \"9 mm\"", advance, "lead = \"0 mm\"")
		near(t, at(data, "eccentric.advance_deg"), 30, 1e-4)
		near(t, at(data, "events.head.cut_off.crank_deg"), 120, 1e-4)
		near(t, at(data, "events.head.cut_off.stroke"), 0.797, 0.0005)
		near(t, at(data, "events.crank.cut_off.stroke"), 0.703, 0.0005)
	})
	t.Run("EC-02", func(t *testing.T) {
		text, data := changed(t, advance, `advance = "30 deg"`)
		near(t, at(data, "eccentric.turn_to_reverse_deg"), 120, 1e-9)
		mustShow(t, text, "to reverse, turn it by 120.00 deg the way it runs now")
		text, data = changed(t, advance, `advance = "-30 deg"`)
		near(t, at(data, "eccentric.turn_to_reverse_deg"), -120, 1e-9)
		mustShow(t, text, "to reverse, turn it by 120.00 deg against the way it runs now")
	})
	t.Run("EC-06", func(t *testing.T) {
		text, data := changed(t, travel, `travel = "0.625 in"`)
		near(t, at(data, "eccentric.offset_mm"), 0.3125*25.4, 1e-9)
		near(t, at(data, "eccentric.dial_reading_mm"), 0.625*25.4, 1e-9)
		mustShow(t, text, "travel 15.875 mm 0.6250 in 5/8 in", "offset of the sheave 7.938 mm 0.3125 in", "dial reading over one turn 15.875 mm 0.6250 in")
		if _, err := engine.Parse("engine.toml", []byte(demo(t, travel, `throw = "5 in"`))); err == nil || !strings.Contains(err.Error(), "twice that, to others") {
			t.Errorf("the word of two meanings: %v", err)
		}
	})
	t.Run("EC-10", func(t *testing.T) {
		wide := "steam = \"3 mm\"\nbar = \"3 mm\"\nexhaust = \"6 mm\""
		_, data := changed(t, ports, wide, bodies, "length = \"20 mm\"\ncavity = \"12 mm\"")
		near(t, at(data, "laps.exhaust_mm"), 0, 0)
		near(t, at(data, "laps.steam_mm"), 1, 0)
		// An inside lap of 1/8 in at 1:29 is 4.3 thou: a cavity of 12 mm less 2 x 0.1095 mm.
		text, data := changed(t, ports, wide, bodies, "length = \"20 mm\"\ncavity = \"11.781 mm\"")
		near(t, at(data, "laps.exhaust_mm"), 0.1095, 1e-9)
		mustShow(t, text, "The exhaust lap is 0.11 mm (4.3 thou). That is less than the 0.127 mm (5 thou)",
			"Make the cavity 12 mm (0.472 in) long, line on line with the ports.")
		// Half a travel of 1/8 in: 5 thou are 2.3 degrees.
		_, data = changed(t, ports, wide, bodies, "length = \"20 mm\"\ncavity = \"12 mm\"", travel, `travel = "1/4 in"`)
		near(t, at(data, "laps.exhaust_thou_moves_deg"), 0.458, 0.0005)
	})
	t.Run("EC-11", func(t *testing.T) {
		wide := "steam = \"3 mm\"\nbar = \"3 mm\"\nexhaust = \"6 mm\""
		text, data := changed(t, ports, wide, bodies, "length = \"20 mm\"\ncavity = \"12 mm\"", travel, `travel = "6 mm"`)
		near(t, at(data, "sweep.inner_mm"), 7, 0)
		near(t, at(data, "sweep.outer_mm"), 13, 0)
		near(t, at(data, "sweep.ports_end_mm"), 9, 0)
		near(t, at(data, "events.head.opening_mm"), 2, 0)
		mustShow(t, text, "of its 3 mm to steam, 67 %", "A relief groove")
	})
	t.Run("EC-12", func(t *testing.T) {
		text, _ := changed(t)
		mustShow(t, text, "Cut-off comes at 87.0 % of the stroke at the head end and 79.6 % at the crank end."+
			" That is the slant of the rods and normal, not a fault; equal lead and equal cut-off cannot both be had.")
	})
	t.Run("EC-15", func(t *testing.T) {
		text, data := changed(t, advance, `advance = "30 deg"`)
		near(t, at(data, "eccentric.turn_to_reverse_deg"), 120, 1e-9)
		mustShow(t, text, "A slip eccentric turns between its stops by as much")
	})
	t.Run("EC-21", func(t *testing.T) {
		text, _ := changed(t, bodies, "length = \"17.4 mm\"\ncavity = \"9 mm\"")
		mustShow(t, text, "Take 0.8 mm (31.4 thou) off each end of the valve", "an advance of 43.4 deg", "58.7 % of the stroke at the head end and 46.8 % at the crank end")
		text, _ = changed(t, bodies, "length = \"13.4 mm\"\ncavity = \"9 mm\"")
		mustShow(t, text, "Make a valve 15.8 mm (0.622 in) long", "an advance of 3.6 deg", "99.8 % of the stroke at the head end and 99.3 % at the crank end")
	})
	t.Run("EC-22", func(t *testing.T) {
		b, err := pageOf(demo(t, advance, `advance = "116 deg"`), pages.Valve)
		if err != nil {
			t.Fatal(err)
		}
		if f := b.All()[0]; b.OK() || f.Code != eccentric.AngleFromCrank || f.Severity != finding.Fails || !f.Slip {
			t.Errorf("%v", f)
		}
		text, _ := views(t, b)
		mustShow(t, text, "WHAT IS WRONG ------------------------------------------------------------------------------ LOOKS LIKE A SLIP: SEE TO IT FIRST - An advance of 116.0 deg",
			"turn nothing and state the advance as 26.0 deg.")
		if strings.Contains(text, "stands 154") {
			t.Error(text)
		}
		text, _ = changed(t, travel, `travel = "3.2 mm"`)
		mustShow(t, text, "LOOKS LIKE A SLIP: SEE TO IT FIRST - A travel of 3.2 mm (0.126 in) looks like the offset of the eccentric")
	})
}

// A sheave in line with the crank does not run, and the book says so.
func TestValveInLine(t *testing.T) {
	for _, advance := range []string{"90 deg", "-90 deg"} {
		b, err := pageOf(demo(t, `advance = "26 deg"`, `advance = "`+advance+`"`), pages.Valve)
		if err != nil {
			t.Fatal(err)
		}
		if f := b.All()[0]; b.OK() || f.Code != eccentric.LittleWork || f.Severity != finding.Fails || len(f.Remedies) != 1 {
			t.Errorf("%s: %v", advance, f)
		}
		for _, f := range b.All() {
			if f.Code == eccentric.LargeLead || f.Code == eccentric.LateSteam || f.Code == eccentric.BlindArc {
				t.Errorf("%s: %v", advance, f)
			}
		}
	}
}

// What cures a lead of both ends is told once with the finding, where the valve is
// set and among the cures, and a move has one figure on the whole page; the port shows
// no more than its width.
func TestValveMoveAndLead(t *testing.T) {
	text, _ := changed(t, `cavity = "9 mm"`, "cavity = \"9 mm\"\noffset = \"0.57 mm\"")
	moves := regexp.MustCompile(`(?:[Mm]ove the valve|valve moved|valve set) ([\d.]+) mm \(([\d.]+) thou\) away from`).FindAllStringSubmatch(text, -1)
	if len(moves) != 3 {
		t.Errorf("moves %q in\n%s", moves, text)
	}
	for _, m := range moves {
		if m[1] != "0.64" || m[2] != "25.2" {
			t.Errorf("a move of %q", m)
		}
	}
	text, _ = changed(t, `advance = "26 deg"`, `advance = "85 deg"`, `length = "15.4 mm"`, `length = "13.2 mm"`)
	mustShow(t, text, "the head port shows 2.00 mm (78.7 thou)")
	if strings.Contains(text, "shows 3.") {
		t.Error(text)
	}
}

// Nothing is shown as a zero with a sign, in either view.
func TestValveHasNoNegativeZero(t *testing.T) {
	zero := regexp.MustCompile(`(^|[^\d.])-0(\.0+)?([^\d.]|$)`)
	for _, advance := range []string{"-0.001", "-0.004", "0", "0.001", "-0.0001", "90.001", "89.999", "-90.001", "179.999", "-179.999"} {
		for _, length := range []string{"13", "13.0001", "12.9999", "15.4"} {
			for _, rods := range []string{"", "infinite"} {
				file := strings.Replace(demo(t, `advance = "26 deg"`, `advance = "`+advance+` deg"`), `length = "15.4 mm"`, `length = "`+length+` mm"`, 1)
				if rods != "" {
					file = strings.NewReplacer(`"63 mm"`, `"infinite"`, `eccentric_rod = "60 mm"`, `eccentric_rod = "infinite"`).Replace(file)
				}
				b, err := pageOf(file, pages.Valve)
				if err != nil {
					t.Fatal(err)
				}
				var out bytes.Buffer
				if err := b.WriteText(&out); err != nil {
					t.Fatal(err)
				}
				if err := b.WriteJSON(&out); err != nil {
					t.Fatal(err)
				}
				for line := range strings.Lines(out.String()) {
					if zero.MatchString(strings.TrimSuffix(line, "\n")) {
						t.Errorf("advance %s, valve %s, rods %q: %s", advance, length, rods, line)
					}
				}
			}
		}
	}
}
