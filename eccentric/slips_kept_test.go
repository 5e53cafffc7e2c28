package eccentric

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// Which slips are suspected of gears that were sound, or nearly, before they were stated
// amiss in each way; and how often, among gears of a pool.
func TestSlipsKept(t *testing.T) {
	kept, counts := shelf{had: map[string]bool{}}, map[string]int{}
	p := newPool(6)
	ways := []string{"as it is", "counted from the crank", "of the other sign", "offset for travel", "travel for offset", "advance for place",
		"place of the other sign", "mirrored", "half round"}
	for i := range 1800 {
		g := demo()
		if p.one(3) {
			g.InsideAdmission, g.Valve = true, Valve{Length: units.MM(13), Cavity: units.MM(6.6)}
		}
		if p.one(3) {
			g.LeverRatio = []float64{-1, 1.25, -0.8, 0.4}[p.IntN(4)]
		}
		g.Travel = p.mm(5, 7.5)
		if set, err := g.WithLead(p.mm(-0.2, 0.7), BothEnds); err == nil {
			g = set
		}
		if p.one(4) {
			p.spoil(&g)
		}
		way, placed := i%len(ways), p.one(2)
		stands, err := g.EccentricLead(), error(nil)
		switch ways[way] {
		case "counted from the crank":
			g.Advance = stands
		case "of the other sign":
			g.Advance = -g.Advance
		case "offset for travel":
			g.Travel = g.EccentricOffset()
		case "travel for offset":
			g.Travel = g.Travel.Scale(2 * g.leverage())
		case "advance for place":
			g, err = g.WithEccentricAt(inTurn(g.Advance))
		case "place of the other sign":
			g, err = g.WithEccentricAt(-stands)
		case "mirrored":
			g = mirrored(g)
		case "half round":
			g = opposite(g)
		}
		if err != nil || g.Validate() != nil {
			continue
		}
		var found []string
		for _, f := range g.check(placed) {
			if f.Slip {
				found = append(found, fmt.Sprint(f.Code, " ", f.Severity))
			}
		}
		counts[fmt.Sprintf("%s, placed %v: %s", ways[way], placed, strings.Join(found, ", "))]++
	}
	kept.counted(counts)
	check.Kept(t, "eccentric/kept/slips.txt", kept.String())
}
