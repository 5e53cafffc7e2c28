package assembly_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A flywheel is glued on its 8 mm shaft, 12 mm long, and skimmed at 90 mm with
// 150 N at the tool, the spokes hitting once in a while. The grub screw alone
// would let it slip. (Invented figures.)
func ExampleHolds() {
	cut := assembly.Cut{Force: 150 * units.Newton, Diameter: units.MM(90), Shock: 2}
	bond, _ := assembly.Bond{
		Diameter: units.MM(8), Length: units.MM(12), Adhesive: assembly.GenericRetainer(), Derating: 0.5,
		Gap: fits.Band{Min: units.MM(0.02), Max: units.MM(0.06)}, Hottest: units.Celsius(40),
	}.Solve()
	screw, _ := assembly.GrubScrew{Screw: units.MM(4), Shaft: units.MM(8), Tightening: 2.2 * units.NewtonMetre}.Solve()
	for _, joint := range []assembly.Range[units.Torque]{bond.Torque, screw.Torque} {
		h, err := assembly.Holds(joint, cut)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("needs %.1f N m, bears %.1f to %.1f: %v\n", h.Needed, h.Available.Min, h.Available.Max, h.Findings)
	}
	// Output:
	// needs 13.5 N m, bears 6.0 to 18.1: [danger: The joint may slip under the tool, and the part then spins or climbs: the cut takes 13.5 N m and the joint bears 6.032 N m at the least. Drive the part by a dog or a bolt, or cut lighter.]
	// needs 13.5 N m, bears 4.5 to 9.0: [danger: The joint may slip under the tool, and the part then spins or climbs: the cut takes 13.5 N m and the joint bears 4.488 N m at the least. Drive the part by a dog or a bolt, or cut lighter.]
}

func TestHolds(t *testing.T) {
	cut := assembly.Cut{Force: 100, Diameter: units.MM(20), Shock: 1} // 1 N m
	for _, test := range []struct {
		torque   units.Torque
		severity finding.Severity
		findings int
	}{{0.5, finding.Danger, 1}, {1.5, finding.Caution, 1}, {3, finding.Note, 0}} {
		h, err := assembly.Holds(assembly.Range[units.Torque]{Min: test.torque, Max: 5}, cut)
		if err != nil || len(h.Findings) != test.findings || test.findings > 0 &&
			h.Findings[0].Severity != test.severity || math.Abs(h.Margin-float64(test.torque)) > 1e-12 {
			t.Error(h, err)
		}
	}
	for name, bad := range map[string]assembly.Cut{
		"no force":    {Diameter: units.MM(1), Shock: 1},
		"no diameter": {Force: 1, Shock: 1},
		"no shock":    {Force: 1, Diameter: units.MM(1)},
		"NaN":         {Force: units.Force(math.NaN()), Diameter: units.MM(1), Shock: 1},
	} {
		if _, err := assembly.Holds(assembly.Range[units.Torque]{Min: 1, Max: 1}, bad); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := assembly.Holds(assembly.Range[units.Torque]{Min: 2, Max: 1}, cut); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
}

// A rim of 90 mm skimmed with 150 N, the tool meeting spokes.
func ExampleCut_Torque() {
	t, err := assembly.Cut{Force: 150 * units.Newton, Diameter: units.MM(90), Shock: 2}.Torque()
	fmt.Println(t, err)
	// Output:
	// 13.5 N·m <nil>
}
