package indicator

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

func containsAny(text string, all ...string) bool {
	for _, part := range all {
		if strings.Contains(text, part) {
			return true
		}
	}
	return false
}

// Whatever the numbers, an engine is refused or all its answers are numbers.
func FuzzRunning(f *testing.F) {
	f.Add(int64(20e9), int64(5e9), int64(25e9), int64(63e9), int64(6.4e9), int64(15.4e9), int64(9e9), 0.45, 2e5, 0.0, 0.08, 1.2, 30.0, 0.05, 1.57, int64(0))
	f.Add(int64(1), int64(0), int64(1), int64(1), int64(1), int64(13e9), int64(1), -3.0, 39e5, -1e5, 0.001, 1.4, 1e4, 1e6, -6.0, int64(1))
	f.Fuzz(func(t *testing.T, bore, rod, stroke, connecting, travel, valve, cavity int64,
		advance, chest, back, clearance, index, speed, mass, crank float64, lost int64) {
		r := demo()
		pm := func(n int64) units.Length { return units.Picometres(n % 2e15) }
		r.Bore, r.PistonRod = pm(bore), pm(rod)
		r.Gear.Stroke, r.Gear.ConnectingRod, r.Gear.Travel = pm(stroke), eccentric.RodOf(pm(connecting)), pm(travel)
		r.Gear.Valve = eccentric.Valve{Length: pm(valve), Cavity: pm(cavity), LostMotion: pm(lost)}
		r.Gear.Advance, r.Chest, r.Back = units.Angle(advance), units.Pressure(chest), units.Pressure(back)
		r.Clearance, r.Index, r.Speed, r.Moving = Both(clearance), index, units.RotationalSpeed(speed), units.Mass(mass)
		if crank != 0 {
			r.Cranks = []units.Angle{units.Angle(crank)}
		}
		if r.Validate() != nil {
			if _, err := r.Cycle(); err == nil {
				t.Fatal("what Validate refuses has a cycle")
			}
			return
		}
		numbers(t, r)
	})
}
