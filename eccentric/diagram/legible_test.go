package diagram

import (
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
)

// pictures returns every picture of a gear.
func pictures(t testing.TB, g eccentric.Gear, o Options) []Picture {
	t.Helper()
	valve, err := Valve(g, o)
	if err != nil {
		t.Fatal(err)
	}
	positions, err := Positions(g, o)
	if err != nil {
		t.Fatal(err)
	}
	drive, err := Drive(g, o)
	if err != nil {
		t.Fatal(err)
	}
	return append(append([]Picture{valve}, positions...), drive...)
}

// Whatever the engine, everything written on its pictures can be read.
func TestLegible(t *testing.T) {
	engines(t, 80, func(t testing.TB, g eccentric.Gear, o Options) {
		for _, p := range pictures(t, g, o) {
			check.Legible(t, read(t, p))
		}
	})
}
