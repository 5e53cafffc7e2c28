package eccentric

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func TestCheckProportions(t *testing.T) {
	for _, test := range []struct {
		name  string
		bore  float64 // mm
		spoil func(*Gear)
		want  string // blank: nothing is odd
		far   bool   // so far out that no engine is built so
	}{
		{"sound", 20, func(*Gear) {}, "", false},
		{"no length of the ports", 20, func(g *Gear) { g.Ports.Length = units.Length{} }, "", false},
		{"a stroke at the limit", 20, func(g *Gear) { g.Stroke = units.MM(80); g.ConnectingRod = InfiniteRod() }, "", false},
		{"a stroke at the limit of the far", 20, func(g *Gear) { g.Stroke = units.MM(400); g.ConnectingRod = InfiniteRod() }, "20 times the bore", false},
		{"a stroke beyond it", 20, func(g *Gear) { g.Stroke = units.MM(401); g.ConnectingRod = InfiniteRod() }, "20 times the bore", true},
		{"bore in inches", 0.787, func(*Gear) {}, "the stroke, 25.00 mm (0.984 in), is 32 times the bore (usual: 0.7 to 4); the steam port's width", true},
		{"crank's radius", 20, func(g *Gear) { g.Stroke = units.MM(12.5) }, "the stroke, 12.50 mm (0.492 in), is 0.62 times the bore", false},
		{"valve in inches", 20, func(g *Gear) { g.Valve.Length = units.Inch(15.4) }, "the valve, 391.16 mm (15.400 in), is 20 times the bore (usual: 0.2 to 3)", true},
		{"ports in inches", 20, func(g *Gear) { g.Ports.Length = units.MM(0.4) }, "the length of the ports, 0.40 mm (0.016 in), is 0.02 times the bore", true},
	} {
		g := demo()
		test.spoil(&g)
		got, err := g.CheckProportions(units.MM(test.bore))
		switch {
		case err != nil:
			t.Errorf("%s: %v", test.name, err)
		case test.want == "" && got != nil:
			t.Errorf("%s: %v", test.name, got)
		case test.want != "" && (len(got) != 1 || got[0].Code != OutOfProportion || got[0].Severity != map[bool]finding.Severity{false: finding.Caution, true: finding.Fails}[test.far] || !got[0].Slip ||
			!strings.Contains(got[0].Text, test.want) || len(got[0].Remedies) == 0):
			t.Errorf("%s: %v, want %q", test.name, got, test.want)
		}
	}
	for _, bore := range []units.Length{{}, units.MM(-20)} {
		if _, err := demo().CheckProportions(bore); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), "cylinder bore") {
			t.Errorf("bore %v: %v", bore, err)
		}
	}
	if _, err := (Gear{}).CheckProportions(units.MM(20)); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no gear: %v", err)
	}
}

// Engines that were built are in proportion; with the bore typed in inches for
// millimetres none is.
func TestProportionsOfLocomotives(t *testing.T) {
	for _, r := range check.Given(t, "eccentric/locomotives.csv") {
		in := func(column string) units.Length { return units.Inch(r.Float(column)) }
		g := simple(in("travel"), in("steam_lap"), units.Length{}, in("port_width"), 30*units.Degree)
		g.Stroke, g.Ports.Length, g.Ports.Exhaust = in("stroke"), in("port_length"), in("exhaust_width")
		g.Valve = g.Ports.ValveWith(Laps{Steam: in("steam_lap")})
		if found, err := g.CheckProportions(in("bore")); err != nil || found != nil {
			t.Errorf("%s: %v, %v", r.ID, found, err)
		}
		found, err := g.CheckProportions(units.MM(r.Float("bore")))
		if err != nil || len(found) != 1 || found[0].Severity != finding.Fails {
			t.Errorf("%s with its bore in millimetres: %v, %v", r.ID, found, err)
		}
	}
}
