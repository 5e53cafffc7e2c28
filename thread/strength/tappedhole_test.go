package strength_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

func tappedHole(t *testing.T, designation, metal string, through, blind float64, tap thread.Tap) strength.TappedHole {
	t.Helper()
	m, err := material.Lookup(metal)
	if err != nil {
		t.Fatal(err)
	}
	return strength.TappedHole{
		Thread: thread.MustParse(designation), Material: m, Through: units.MM(through), Blind: units.MM(blind), Tap: tap,
	}
}

// Lengths by hand: the hole less the lead of the tap, 3 pitches of a second and
// 1.5 of a bottoming one, and one pitch for chips; the rule asks for 1.25
// diameters in iron and steel and 2.5 in gunmetal and aluminium.
func TestFullThread(t *testing.T) {
	const ok = finding.Severity(-1)
	for _, tt := range []struct {
		name           string
		hole           strength.TappedHole
		length, asks   float64 // mm
		turns          int
		severity       finding.Severity
		says, remedies string
	}{
		{"blind, long enough", tappedHole(t, "M3", "cast iron", 0, 7, thread.BottomingTap), 5.75, 3.75, 11, ok, "", ""},
		{"through", tappedHole(t, "M3", "cast iron", 6, 0, 0), 6, 3.75, 12, ok, "", ""},
		{"a second tap unless given", tappedHole(t, "M3", "mild steel", 0, 10, 0), 8, 3.75, 16, ok, "", ""},
		{"blind and short", tappedHole(t, "6 BA", "gunmetal", 0, 5, thread.BottomingTap), 3.675, 7, 6, finding.Note,
			"asks for 7.000 mm. Below it the thread may strip", "Drill the hole 8.40 mm (0.331 in) deep, or right through with a nut behind it."}, // 7 + 1.5 x 0.53 + 0.53 = 8.325
		{"less than half", tappedHole(t, "5 BA", "gunmetal", 3, 0, 0), 3, 8, 5, finding.Fails,
			"the rule for studs in other non-ferrous metal", "Make the metal 8.00 mm (0.315 in) thick there, or put a nut behind the hole."},
		{"no thread at all", tappedHole(t, "2-56", "aluminium", 0, 1.8, 0), 0, 5.461, 0, finding.Fails,
			"1.800 mm deep holds no full thread for 2-56 UNC", "Drill the hole 7.30 mm"}, // 2.5 x 2.184 + 4 x 0.4536
		{"a fitting", tappedHole(t, "1/4 x 40 ME", "gunmetal", 4.7625, 0, 0), 4.7625, 15.875, 7, finding.Note, "holds by less", "Make the metal 15.90 mm"},
		{"a pipe thread", tappedHole(t, "G 1/8", "gunmetal", 2, 0, 0), 2, 0, 2, ok, "", ""},
	} {
		full, err := tt.hole.FullThread()
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		asks := full.Rule.Engaged.MM()
		if math.Abs(full.Length.MM()-tt.length) > 1e-9 || math.Abs(asks-tt.asks) > 5e-4 || full.Turns != tt.turns {
			t.Errorf("%s: %v in %d turns, rule %g mm; want %g in %d, %g", tt.name, full.Length, full.Turns, asks, tt.length, tt.turns, tt.asks)
		}
		if math.Abs(full.Diameters-full.Length.Ratio(tt.hole.Thread.Major())) > 1e-12 {
			t.Errorf("%s: %g diameters", tt.name, full.Diameters)
		}
		if full.Blind.Depth != tt.hole.Blind || (full.Rule.Rule == 0) != (asks == 0) || full.Refs.IsZero() != (asks == 0 && tt.hole.Blind.IsZero()) {
			t.Errorf("%s: blind %v, sources %v", tt.name, full.Blind, full.Refs)
		}
		switch {
		case tt.severity == ok:
			if len(full.Findings) > 0 {
				t.Errorf("%s: %v", tt.name, full.Findings)
			}
		case len(full.Findings) != 1:
			t.Errorf("%s: %v", tt.name, full.Findings)
		default:
			f := full.Findings[0]
			if f.Severity != tt.severity || !strings.Contains(f.Text, tt.says) || len(f.Remedies) != 1 || !strings.HasPrefix(f.Remedies[0], tt.remedies) {
				t.Errorf("%s: %v", tt.name, f)
			}
		}
	}
}

func TestFullThreadRefuses(t *testing.T) {
	for name, hole := range map[string]strength.TappedHole{
		"neither":     tappedHole(t, "M3", "steel", 0, 0, 0),
		"both":        tappedHole(t, "M3", "steel", 6, 7, 0),
		"thickness":   tappedHole(t, "M3", "steel", -6, 0, 0),
		"depth":       tappedHole(t, "M3", "steel", 0, -7, 0),
		"no such tap": tappedHole(t, "M3", "steel", 0, 7, 9),
		"no thread":   {Through: units.MM(6)},
	} {
		full, err := hole.FullThread()
		var bad *units.ArgumentError
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v, %v", name, full, err)
		}
	}
}

func ExampleTappedHole_FullThread() {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		fmt.Println(err)
		return
	}
	hole := strength.TappedHole{Thread: thread.MustParse("M3"), Material: iron, Blind: units.MM(4.5), Tap: thread.BottomingTap}
	full, err := hole.FullThread()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(full.Length, "in", full.Turns, "turns; the rule asks for", full.Rule.Engaged)
	fmt.Println(full.Findings[0].Remedies[0])
	// Output:
	// 3.25 mm in 6 turns; the rule asks for 3.75 mm
	// Drill the hole 5.00 mm (0.197 in) deep, or right through with a nut behind it.
}
