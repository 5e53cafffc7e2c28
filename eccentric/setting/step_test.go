package setting_test

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/units"
)

// A valve that stands 0.3 mm towards the crank on a spindle of M3, whose flat nut seats
// every half turn.
func ExampleSetting_Done() {
	drawn := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
	stands := drawn
	stands.Valve.Offset = units.MM(0.3)
	cures, err := stands.Restored(drawn, eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	s := setting.Setting{Gear: drawn, Nut: setting.Nut{Pitch: units.MM(0.5), Places: 2}}
	text, err := s.Done(cures[0].Steps[0])
	fmt.Println(cures[0], text, err)
	// Output:
	// Move the valve 0.3 mm (11.8 thou) away from the crank on its rod, to the centre. That is 0.6 turns of the nut; the nearest that it can be set is 1/2 turn, which leaves it 0.05 mm (2 thou) short. <nil>
}

// A turn is an arc on the shaft that was told; what is neither, or not told, is blank. The
// moves of EC-05 are those of its two openings, 1/16 and 1/32 in: 2/3 of a turn of 5 BA.
func TestDone(t *testing.T) {
	s := setting.Setting{Shaft: units.MM(8), Nut: setting.Nut{Pitch: units.MM(0.59), Places: 2}}
	move := eccentric.Step{Part: "valve", Change: "moved on its rod", Amount: units.Inch(1.0 / 64)}
	for _, test := range []struct {
		of   setting.Setting
		step eccentric.Step
		want string
	}{
		{s, eccentric.Step{Part: "eccentric", Turn: -10 * units.Degree}, "On this shaft of 8 mm that is an arc of 0.7 mm (27.5 thou)."},
		{s, move, "That is 0.673 turns of the nut; the nearest that it can be set is 1/2 turn, which leaves it 0.1 mm (4 thou) short."},
		{s, eccentric.Step{Part: "valve", Change: "metal off the ends", Amount: units.MM(1)}, ""},
		{setting.Setting{}, move, ""}, {setting.Setting{}, eccentric.Step{Turn: 1}, ""},
	} {
		if got, err := test.of.Done(test.step); err != nil || got != test.want {
			t.Errorf("%v: %q, %v", test.step, got, err)
		}
	}
}
