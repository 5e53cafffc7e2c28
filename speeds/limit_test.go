package speeds_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

func ExampleLimit_Check() {
	mark := speeds.Limit{Speed: 2500 * units.RevPerMinute, Reason: "the speed marked on the chuck"}
	findings, err := mark.Check(3000 * units.RevPerMinute)
	for _, f := range findings {
		fmt.Println(f.Severity, f.Text, err)
	}
	// Output: danger Do not run it. 3000 rev/min is above the limit of 2500 rev/min (the speed marked on the chuck). <nil>
}

func TestLimit(t *testing.T) {
	mark := speeds.Limit{Speed: 100, Reason: "?"}
	if got, err := mark.Check(100); got != nil || err != nil {
		t.Errorf("at the limit: %v, %v", got, err)
	}
	for _, tt := range []struct{ limit, n units.RotationalSpeed }{{0, 1}, {100, 0},
		{units.RotationalSpeed(math.NaN()), 1}, {100, units.RotationalSpeed(math.Inf(1))}} {
		var bad *units.ArgumentError
		if _, err := (speeds.Limit{Speed: tt.limit}).Check(tt.n); !errors.As(err, &bad) || bad.Accepted == "" {
			t.Errorf("%v at %v: %v", tt.limit, tt.n, err)
		}
	}
}
