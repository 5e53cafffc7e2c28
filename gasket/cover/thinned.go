package cover

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
)

// A Thinned cover is one that was cut too thin, compared with the one drawn.
type Thinned struct {
	Stress       float64      // times the stress of the cover as drawn, (t/(t-c))^2
	Deflection   float64      // times its deflection, (t/(t-c))^3
	Strength     float64      // share of the pressure that it now stands
	Projection   units.Length // how much further the studs stand out
	EndClearance units.Length // how much more room the piston has at that end; zero unless the spigot was cut
	Saved        []string     // what can be done
	Lost         []string     // what cannot
}

// CutThin says what has changed when a cover of a thickness was machined thinner
// by a cut, on its outside face or, with spigot, on the face of the spigot that
// enters the bore.
//
// Stress goes with 1/t^2 and deflection with 1/t^3 for any flat plate; the
// remedies are common practice. The cut is above zero and less than the
// thickness.
func CutThin(thickness, cut units.Length, spigot bool) (Thinned, error) {
	if err := first(positive("thickness of the cover", thickness.MM(), thickness.String()), positive("cut", cut.MM(), cut.String())); err != nil {
		return Thinned{}, err
	}
	if cut.Cmp(thickness) >= 0 {
		return Thinned{}, bad("cut", cut.String(), "less than the thickness, "+thickness.String())
	}
	ratio := thickness.Ratio(thickness.Sub(cut))
	t := Thinned{Stress: ratio * ratio, Deflection: ratio * ratio * ratio, Strength: 1 / (ratio * ratio)}
	if spigot {
		t.EndClearance = cut
		t.Saved = []string{
			fmt.Sprintf("A thinner gasket, or a disc of %s fixed to the spigot, restores the clearance of the piston.", cut.Text(units.Millimetres, 2)),
			"The flange is as strong as before if only the spigot was cut.",
		}
		t.Lost = []string{"A thick gasket does not help here: it adds to the clearance."}
		return t, nil
	}
	t.Projection = cut
	t.Saved = []string{
		fmt.Sprintf("A plate of %s under the nuts, washers, or shorter studs, take up the projection.", cut.Text(units.Millimetres, 2)),
		"A backing plate carried by the studs takes its share of the bending.",
	}
	t.Lost = []string{"A thick gasket restores no strength: the cover stays thin, and the gasket is easier to blow out."}
	return t, nil
}
