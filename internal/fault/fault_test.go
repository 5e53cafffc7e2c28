package fault_test

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("demo")

func TestErrors(t *testing.T) {
	for _, test := range []struct {
		err  error
		want string
		kind error
	}{
		{fail.OutOfRange("bore", units.MM(-3), "above zero"), "demo: bore -3 mm: out of range; accepted: above zero", units.ErrOutOfRange},
		{fail.Wrong("bore", units.MM(3), "below the rod", "above 5 mm"), "demo: bore 3 mm: below the rod; accepted: above 5 mm", units.ErrOutOfRange},
		{fail.NotFinite("share", math.NaN()), "demo: share NaN: not a finite number; accepted: finite numbers", units.ErrNotFinite},
		{fail.Missing("rod", `a length, or "infinite"`), `demo: rod: missing; accepted: a length, or "infinite"`, units.ErrMissing},
		{fail.Unknown("count", 7, "5, 6"), "demo: count 7: unknown; accepted: 5, 6", units.ErrUnknown},
		{fail.Argument("a", 1.5, "b", "c", units.ErrMissing), "demo: a 1.5: b; accepted: c", units.ErrMissing},
		{fail.Unreadable("size", "x\u202ey", "no number", "3 mm"), `demo: size "x\u202ey": no number; accepted: 3 mm`, units.ErrSyntax},
		{fail.UnknownName("material", "bronce", "brass, bronze"), `demo: material "bronce": unknown; accepted: brass, bronze`, units.ErrUnknown},
		{fail.UnknownName("material", "bronce", "brass, bronze", "bronze"), `demo: material "bronce": unknown; near it: bronze`, units.ErrUnknown},
		{fault.Positive(fail, "speed", units.Speed(0)), "demo: speed 0 m/min: out of range; accepted: above zero", units.ErrOutOfRange},
		{fault.Positive(fail, "speed", units.Speed(math.Inf(1))), "demo: speed +Inf: not a finite number; accepted: a finite number above zero", units.ErrNotFinite},
		{fault.Positive(fail, "speed", units.Speed(1e16)), "demo: speed 1e+16 in SI units: out of range; accepted: 1e-15 to 1e15", units.ErrOutOfRange},
		{fault.Finite(fail, "turn", units.Angle(math.Inf(-1))), "demo: turn -Inf: not a finite number; accepted: finite numbers", units.ErrNotFinite},
		{fail.Above(fault.Named("bore", units.MM(1)), fault.Named("rod", units.Length{})), "demo: rod 0 mm: out of range; accepted: above zero", units.ErrOutOfRange},
		{fail.Above(fault.Named("bore", units.MM(1e6).Add(units.MM(1)))), "demo: bore 1000001 mm: out of range; accepted: up to 1 km", units.ErrOutOfRange},
		{fail.Within(fault.Named("shift", units.MM(-1e6).Sub(units.MM(1)))), "demo: shift -1000001 mm: out of range; accepted: from -1 km to 1 km", units.ErrOutOfRange},
		{fault.Of("cover", fail.Missing("rod", "a length")), "demo: cover, rod: missing; accepted: a length", units.ErrMissing},
	} {
		if test.err == nil || test.err.Error() != test.want || !errors.Is(test.err, test.kind) {
			t.Errorf("%v; want %s (%v)", test.err, test.want, test.kind)
		}
	}
	for _, err := range []error{
		fault.Positive(fail, "speed", units.Speed(1)), fault.Finite(fail, "turn", units.Angle(-1)),
		fail.Above(fault.Named("bore", units.MM(1))), fail.Within(fault.Named("shift", units.MM(-1))),
	} {
		if err != nil {
			t.Error(err)
		}
	}
	if other := errors.New("other"); fault.Of("cover", other) != other {
		t.Error("another error must stay as it is")
	}
}
