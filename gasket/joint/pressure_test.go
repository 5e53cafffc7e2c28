package joint

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// A refusal is an error that a test expects.
type refusal struct {
	name string
	err  error
	kind error
	want string
}

func (r refusal) check(t *testing.T) {
	t.Helper()
	var bad *units.ArgumentError
	if !errors.As(r.err, &bad) || !errors.Is(r.err, r.kind) || !strings.Contains(fmt.Sprint(r.err), r.want) {
		t.Errorf("%s: error %v, want %v with %q", r.name, r.err, r.kind, r.want)
	}
}

func TestEndForceRefuses(t *testing.T) {
	second := func(_ any, err error) error { return err }
	nan := math.NaN()
	for _, test := range []refusal{
		{"pressure", second(EndForce(units.Pressure(nan), 1)), units.ErrNotFinite, "pressure"},
		{"vacuum", second(EndForce(-1, 1)), units.ErrOutOfRange, "pressure"},
		{"area", second(EndForce(1, 0)), units.ErrOutOfRange, "area"},
		{"absurd area", second(EndForce(1, 1e300)), units.ErrOutOfRange, "area under pressure"},
	} {
		test.check(t)
	}
}
