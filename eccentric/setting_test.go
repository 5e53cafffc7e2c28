package eccentric

import (
	"testing"

	"github.com/valvechest/valvechest/units"
)

func withLead(t testing.TB, g Gear, lead units.Length) Gear {
	t.Helper()
	g, err := g.WithLead(lead, BothEnds)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// Leads of 1/64 and 3/64 in where 1/64 is wanted at both: make the valve 1/32
// longer and shift it 1/64.
func TestUnequalLeads(t *testing.T) {
	inch := units.InchFraction
	g := simple(inch(1, 2), inch(7, 64), units.Length{}, inch(1, 8), 0)
	g = withLead(t, g, inch(1, 32))
	g.Valve.Offset = inch(-1, 64)
	e := events(t, g)
	near(t, "head lead", e.Head.Lead.Inch(), 1.0/64, 1e-9)
	near(t, "crank lead", e.Crank.Lead.Inch(), 3.0/64, 1e-9)
	g.Valve.Length = g.Valve.Length.Add(inch(1, 32))
	g.Valve.Offset = g.Valve.Offset.Add(inch(1, 64))
	e = events(t, g)
	near(t, "head lead after", e.Head.Lead.Inch(), 1.0/64, 1e-9)
	near(t, "crank lead after", e.Crank.Lead.Inch(), 1.0/64, 1e-9)
}
