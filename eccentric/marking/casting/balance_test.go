package casting

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// What textbooks and catalogues print of balance.
func TestBalanceInPrint(t *testing.T) {
	f := check.Open(t, "eccentric/marking/casting/balance.csv")
	for r := range f.Rows() {
		in := func(column string) float64 { return r.Float(column) }
		switch quantity := r.Text("quantity"); quantity {
		case "weight", "line":
			var weights []Weight
			masses, radii, angles := numbers(t, r.Text("mass_lb")), numbers(t, r.Text("radius_in")), numbers(t, r.Text("angle_deg"))
			for i := range masses {
				weights = append(weights, Weight{units.Mass(masses[i]) * units.Pound, units.Inch(radii[i]), units.Angle(angles[i]) * units.Degree})
			}
			w, err := Balance(units.Inch(in("at_in")), weights...)
			if err != nil {
				t.Fatal(r.ID, err)
			}
			if quantity == "weight" {
				r.Compare("printed", w.Mass.In(units.Pound))
			} else { // the line of the resultant, opposite the weight
				r.Compare("printed", w.At.Degrees()-180)
			}
		case "offset":
			e, err := BalanceGrade(units.Speed(in("grade_mm_s"))/1000, units.RotationalSpeed(in("rev_min"))*units.RevPerMinute)
			if err != nil {
				t.Fatal(r.ID, err)
			}
			r.Compare("printed", e.Micron()*in("mass_kg")) // micrometres for 1 kg, g mm for more
		}
	}
}

// A hollow off the axis, cut into little pieces: the moment of the metal that is left.
func TestHollowOff(t *testing.T) {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		t.Fatal(err)
	}
	const inside, width, off, at = 0.080, 0.012, 0.0005, 0.7
	hollow, err := HollowOff(iron, units.MM(1000*inside), units.MM(1000*width), units.MM(1000*off), at)
	if err != nil {
		t.Fatal(err)
	}
	balance, err := Balance(units.MM(45), hollow)
	if err != nil {
		t.Fatal(err)
	}
	var x, y float64 // kg m of the rim of 100 mm that is left, ring piece by ring piece from the hollow's edge out
	const pieces = 20000
	for k := range pieces {
		a := (float64(k) + 0.5) * 2 * math.Pi / pieces
		// the edge of the hollow seen from the axis
		along := off * math.Cos(a-at)
		edge := along + math.Sqrt(inside*inside/4-off*off+along*along)
		wedge := float64(iron.Density.Value) * width * (0.05*0.05*0.05 - edge*edge*edge) / 3 * 2 * math.Pi / pieces
		x, y = x+wedge*math.Cos(a), y+wedge*math.Sin(a)
	}
	sin, cos := math.Sincos(float64(balance.At))
	moment := float64(balance.Mass) * balance.Radius.Metres()
	if math.Hypot(x+moment*cos, y+moment*sin) > 1e-6*moment {
		t.Errorf("%v leaves %v, %v of %v kg m", balance, x+moment*cos, y+moment*sin, moment)
	}
	work, err := hollow.Of(0.5 * units.Kilogram)
	if err != nil || math.Abs(float64(work.Mass)*work.Offset.Metres()-moment) > 1e-9*moment {
		t.Errorf("%v, %v", work, err)
	}
}

// Weights all round balance each other.
func TestBalanced(t *testing.T) {
	w := Weight{Mass: 0.1, Radius: units.MM(40)}
	across := w
	across.At = math.Pi
	got, err := Balance(units.MM(30), w, across)
	if err != nil || got.Mass != 0 || got.At != 0 {
		t.Errorf("%v, %v", got, err)
	}
	if got, err = Balance(units.MM(20), w); err != nil || math.Abs(float64(got.Mass)-0.2) > 1e-12 || math.Abs(float64(got.At)-math.Pi) > 1e-12 {
		t.Errorf("%v, %v", got, err)
	}
}

func TestBalanceRefused(t *testing.T) {
	w := Weight{Mass: 0.1, Radius: units.MM(40)}
	_, err := Balance(units.Length{}, w)
	check.Refuses(t, "radius", err, units.ErrOutOfRange, "above zero")
	_, err = Balance(units.MM(10), Weight{Mass: -1})
	check.Refuses(t, "mass", err, units.ErrOutOfRange, "from zero")
	_, err = Balance(units.MM(10), Weight{At: units.Angle(math.Inf(1))})
	check.Refuses(t, "angle", err, units.ErrNotFinite, "angle")
	_, err = Balance(units.MM(10), Weight{Radius: units.MM(-1)})
	check.Refuses(t, "radius of a weight", err, units.ErrOutOfRange, "100 m")
	_, err = w.Of(1e-9)
	check.Refuses(t, "wheel", err, units.ErrOutOfRange, "100 m off")
	_, err = w.Of(0)
	check.Refuses(t, "no wheel", err, units.ErrOutOfRange, "mass of the wheel")
	_, err = Weight{Mass: 1}.Of(1)
	check.Refuses(t, "in the middle", err, units.ErrOutOfRange, "offset")
	_, err = HollowOff(material.Material{}, units.MM(80), units.MM(12), units.MM(1), 0)
	check.Refuses(t, "no metal", err, units.ErrMissing, "density")
	iron, _ := material.Lookup("cast iron")
	_, err = HollowOff(iron, units.MM(80), units.MM(12), units.MM(40), 0)
	check.Refuses(t, "beyond", err, units.ErrOutOfRange, "half of its diameter")
	_, err = HollowOff(iron, units.Length{}, units.MM(12), units.MM(40), 0)
	check.Refuses(t, "no inside", err, units.ErrOutOfRange, "inside of the rim")
	_, err = BalanceGrade(0, 100)
	check.Refuses(t, "grade", err, units.ErrOutOfRange, "grade")
	_, err = BalanceGrade(6300, 100)
	check.Refuses(t, "grade of metres", err, units.ErrOutOfRange, "metre")
	_, err = BalanceGrade(1, 0)
	check.Refuses(t, "speed", err, units.ErrOutOfRange, "speed")
	if text := (Weight{Mass: 0.1, Radius: units.MM(40)}).String(); !strings.Contains(text, "radius 40 mm") {
		t.Error(text)
	}
}
