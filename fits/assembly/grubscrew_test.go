package assembly_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// The holding powers published for set screws lie within the spread that the
// formula states, at every size; and by them the torque on a shaft.
func TestGrubScrew(t *testing.T) {
	count := 0
	for _, s := range assembly.SetScrews() {
		if s.Seating <= 0 || s.Refs.First().Title == "" {
			t.Errorf("%+v", s)
		}
		if s.Holding == 0 {
			continue
		}
		count++
		r, err := assembly.GrubScrew{Screw: s.Diameter, Shaft: s.Diameter.Scale(2), Tightening: s.Seating}.Solve()
		if err != nil || s.Holding < r.Axial.Min || s.Holding > r.Axial.Max {
			t.Errorf(
				"%s: holds %.0f lbf, the formula gives %.0f to %.0f (%v)", s.Name, s.Holding/units.PoundForce,
				r.Axial.Min/units.PoundForce, r.Axial.Max/units.PoundForce, err,
			)
		}
	}
	if count == 0 {
		t.Error("no size with a holding power")
	}
	round := assembly.GrubScrew{Screw: units.MM(4), Shaft: units.MM(8), Tightening: 2.2}
	flat := round
	flat.FlatDepth = units.MM(0.5)
	a, errA := round.Solve()
	b, errB := flat.Solve()
	if errA != nil || errB != nil || b.Torque.Min <= a.Torque.Min ||
		!has(a.Findings, finding.Note, "from memory") || !has(a.Findings, finding.Note, "burr") ||
		has(b.Findings, finding.Note, "burr") {
		t.Error(a, b, errA, errB)
	}
	// By hand: clamp 2.2/(0.2 x 0.004) = 2750 N, 0.408 of it at 3.5 mm and all of
	// it at 1 mm: 3.927 + 2.750 N m.
	if math.Abs(float64(b.Clamp)-2750) > 1e-6 || math.Abs(float64(b.Torque.Min)-6.677) > 1e-9 {
		t.Errorf("clamp %v, torque %v", b.Clamp, b.Torque.Min)
	}
	round.Shaft = units.MM(30)
	if a, errA = round.Solve(); errA != nil || !has(a.Findings, finding.Caution, "about a half") {
		t.Error(a, errA)
	}
	for name, bad := range map[string]assembly.GrubScrew{
		"no screw":  {Shaft: units.MM(8), Tightening: 2},
		"no shaft":  {Screw: units.MM(4), Tightening: 2},
		"no torque": {Screw: units.MM(4), Shaft: units.MM(8)},
		"NaN":       {Screw: units.MM(4), Shaft: units.MM(8), Tightening: units.Torque(math.NaN())},
		"deep flat": {Screw: units.MM(4), Shaft: units.MM(8), Tightening: 2, FlatDepth: units.MM(3)},
	} {
		if _, err := bad.Solve(); !errors.Is(err, units.ErrMissing) && !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A hub held on an 8 mm shaft by an M4 grub screw at 2.2 N m, on a flat of half a
// millimetre.
func ExampleGrubScrew_Solve() {
	r, err := assembly.GrubScrew{
		Screw: units.MM(4), Shaft: units.MM(8), FlatDepth: units.MM(0.5), Tightening: 2.2 * units.NewtonMetre,
	}.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N on the point, turns at %.1f to %.1f N m\n", r.Clamp, r.Torque.Min, r.Torque.Max)
	fmt.Println(r.Precautions[0])
	// Output:
	// 2750 N on the point, turns at 6.7 to 10.6 N m
	// A grub screw works loose under a load that changes: allow a factor of 4 to 8, or pin or key what matters, a flywheel above all.
}
