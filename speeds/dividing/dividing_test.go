package dividing_test

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/units"
)

func TestRefuses(t *testing.T) {
	h := head(t)
	for name, call := range map[string]func() error{
		"no ratio":          func() error { _, err := dividing.NewHead(0, 20); return err },
		"a circle of one":   func() error { _, err := dividing.NewHead(40, 1); return err },
		"a thousand holes":  func() error { _, err := dividing.NewHead(40, 1000); return err },
		"plates upon plate": func() error { _, err := dividing.NewHead(40, make([]int, 201)...); return err },
		"no head":           func() error { _, err := (dividing.Head{}).Divide(5); return err },
		"no divisions":      func() error { _, err := h.Divide(0); return err },
		"too many":          func() error { _, err := h.Nearest(10_001); return err },
		"no angle":          func() error { _, _, err := h.Angle(0); return err },
		"not an angle":      func() error { _, _, err := h.Angle(units.Angle(math.NaN())); return err },
		"no table":          func() error { _, err := dividing.TablePositions(0, 5); return err },
		"table, none":       func() error { _, err := dividing.TablePositions(90, 0); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
