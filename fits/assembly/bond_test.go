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

// FI-07: the torque of a bonded joint at 10 N/mm2, within 2 per cent.
func TestBondTorque(t *testing.T) {
	for _, test := range []struct {
		size units.Length
		want float64
	}{{units.MM(6), 3.4}, {units.Inch(0.25), 4.0}, {units.MM(10), 15.7}} {
		r, err := assembly.Bond{
			Adhesive: assembly.GenericRetainer(), Derating: 1, Gap: fits.Band{Min: units.MM(0.03), Max: units.MM(0.08)},
			Hottest: units.Celsius(60), Diameter: test.size, Length: test.size,
		}.Solve()
		if err != nil || math.Abs(float64(r.Torque.Min)/test.want-1) > 0.02 {
			t.Errorf("FI-07, %v: %v, %v", test.size, r.Torque, err)
		}
	}
}

// Bonded joints of three sizes. (Invented figures.)
func ExampleBond_Solve() {
	joint := assembly.Bond{
		Adhesive: assembly.GenericRetainer(), Derating: 1, Gap: fits.Band{Min: units.MM(0.03), Max: units.MM(0.08)},
		Hottest: units.Celsius(60),
	}
	for _, size := range []units.Length{units.MM(5), units.Inch(0.3125), units.MM(12)} {
		joint.Diameter, joint.Length = size, size
		r, err := joint.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s x %s: %.1f N m, %.0f N\n", size, size, r.Torque.Min, r.Axial.Min)
	}
	fmt.Println(joint.Adhesive.Refs)
	gaps, _ := fits.RulesFor("bond gap")
	for _, rule := range gaps {
		span, _ := rule.Allowance(joint.Diameter)
		fmt.Printf("%s: %.1f to %.1f thou\n", rule.Name, span.Min.Thou(), span.Max.Thou())
	}
	// Output:
	// 5 mm x 5 mm: 2.0 N m, 785 N
	// 7.9375 mm x 7.9375 mm: 7.9 N m, 1979 N
	// 12 mm x 12 mm: 27.1 N m, 4524 N
	// from memory: retaining compounds as a sort (take the data sheet of the grade in hand)
	// retaining compound at its full strength: 2.0 to 5.0 thou
	// retaining compound, the least that is of use: 0.4 to 0.4 thou
}

func TestBond(t *testing.T) {
	good := assembly.Bond{
		Diameter: units.MM(10), Length: units.MM(20), Adhesive: assembly.GenericRetainer(), Derating: 0.5,
		Gap: fits.Band{Min: units.MM(0.01), Max: units.MM(0.2)}, Hottest: units.Celsius(160),
	}
	r, err := good.Solve()
	if err != nil || !has(r.Findings, finding.Caution, "starved") ||
		!has(r.Findings, finding.Fails, "may not cure") || !has(r.Findings, finding.Fails, "above the limit") ||
		!warned(r.Precautions, "250 degrees C (482 degrees F) and pull it hot, with good air: the fumes") ||
		!has(r.Findings, finding.Note, "diameters") || !has(r.Findings, finding.Caution, "from memory") {
		t.Error(r.Findings, err)
	}
	good.Adhesive.Release = 0
	if r, err = good.Solve(); err != nil ||
		!warned(r.Precautions, "the release temperature of the data sheet") || !warned(r.Precautions, "fumes") {
		t.Error("a sheet without a release temperature drops the caution on heat", r.Findings, err)
	}
	for name, change := range map[string]func(*assembly.Bond){
		"no diameter":   func(b *assembly.Bond) { b.Diameter = units.Length{} },
		"no length":     func(b *assembly.Bond) { b.Length = units.Length{} },
		"no strength":   func(b *assembly.Bond) { b.Adhesive.Shear = assembly.Range[units.Pressure]{} },
		"no gap range":  func(b *assembly.Bond) { b.Adhesive.Gap.Max = units.Length{} },
		"gap turned":    func(b *assembly.Bond) { b.Gap = fits.Band{Min: units.MM(1)} },
		"release":       func(b *assembly.Bond) { b.Adhesive.Release = units.Temperature(math.NaN()) },
		"no derating":   func(b *assembly.Bond) { b.Derating = 0 },
		"derating":      func(b *assembly.Bond) { b.Derating = 2 },
		"NaN":           func(b *assembly.Bond) { b.Derating = math.NaN() },
		"no heat":       func(b *assembly.Bond) { b.Hottest = 0 },
		"sheet is bare": func(b *assembly.Bond) { b.Adhesive.Service = 0 },
	} {
		b := good
		change(&b)
		if _, err := b.Solve(); !errors.Is(err, units.ErrMissing) && !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
