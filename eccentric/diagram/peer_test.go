package diagram

import (
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Drawn curves against scipy, which finds each joint as the place on its axis that is a
// rod's length from the pin.
func TestCurvesAgainstScipy(t *testing.T) {
	python := check.LongPeer(t, "python3", "numpy", "scipy")
	var text strings.Builder
	var gears []eccentric.Gear
	var options []Options
	engines(t, 60, func(t testing.TB, g eccentric.Gear, o Options) {
		g.ConnectingRod, g.EccentricRod = eccentric.RodOf(g.Stroke.Scale(2)), eccentric.RodOf(g.Travel.Scale(6))
		g.InsideAdmission, g.LeverRatio, g.Valve.LostMotion = false, 0, units.Length{}
		if g.Validate() != nil {
			return
		}
		gears, options = append(gears, g), append(options, o)
		fmt.Fprintln(&text, g.Stroke.MM()/2, 2*g.Stroke.MM(), g.Travel.MM()/2,
			6*g.Travel.MM(), g.Valve.Offset.MM(), g.Advance.Radians())
	})
	cmd := exec.Command(python, check.Path(t, "eccentric/diagram/curves.py"))
	cmd.Stdin = strings.NewReader(text.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(gears) || len(gears) < 3 {
		t.Fatalf("%d answers for %d gears", len(lines), len(gears))
	}
	for i, g := range gears {
		drawn := curves(t, g, options[i])
		displacement, oval, polar := read(t, drawn[0]), read(t, drawn[1]), read(t, drawn[2])
		unit := 1.0
		if options[i].Inch {
			unit = 1 / 25.4
		}
		along, over := scaleOf(t, displacement, false), scaleOf(t, displacement, true)
		across, up := scaleOf(t, oval, false), scaleOf(t, oval, true)
		c := circlesOf(t, polar, g, options[i])
		fields := strings.Fields(lines[i])
		if len(fields) != 144 {
			t.Fatalf("%d figures", len(fields))
		}
		for k := range 72 {
			piston, okPiston := number(fields[2*k])
			valve, okValve := number(fields[2*k+1])
			if !okPiston || !okValve {
				t.Fatalf("no figures: %q", fields[2*k:2*k+2])
			}
			deg := float64(5 * k)
			for name, off := range map[string]float64{
				"displacement": fromLine(check.Spot{X: along(deg), Y: over(valve * unit)}, displacement.On(sheet.Curve.Name)),
				"oval":         fromLine(check.Spot{X: across(piston * unit), Y: up(valve * unit)}, oval.On(sheet.Curve.Name)),
				"polar":        fromLine(c.at(deg*math.Pi/180, math.Abs(valve)*c.scale), polar.On(sheet.Curve.Name)),
			} {
				if off > within {
					t.Errorf("engine %d: the %s runs %.3f mm from the peer at %v degrees: %+v", i, name, off, deg, g)
				}
			}
		}
	}
}
