package keys_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits/keys"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// A wheel on a shaft of 8 mm.
func ExampleFor() {
	found, err := keys.For(units.MM(8))
	k := found[0]
	fmt.Println(k.Standard, k.Width, k.Height, "deep", k.ShaftDepth, k.HubDepth, "over", k.ShaftOver, k.HubOver, err)
	// Output: DIN 6885-1 2 mm 2 mm deep 1.2 mm 1 mm over 6.8 mm 9 mm <nil>
}

// A collar of 14 mm on a shaft of 6 mm.
func ExamplePinsFor() {
	pins, err := keys.PinsFor(units.MM(6), units.MM(14))
	for _, p := range pins {
		fmt.Println(p.Name, p.Small.Text(units.Millimetres, 3), p.Large.Text(units.Millimetres, 3), p.Drill.Name)
	}
	fmt.Println(err)
	// Output:
	// 1.5 x 14 1.500 mm 1.780 mm 1.5 mm
	// #7/0 x 1/2 in 1.323 mm 1.588 mm #55
	// <nil>
}

// The pin for a crank that is in the drawer already, and the drill for its hole.
func ExamplePinFor() {
	p, err := keys.PinFor("2", units.MM(20))
	fmt.Println(p.Name, p.Small, p.Large, p.Drill.Name, err)
	// Output: 2 x 20 2 mm 2.4 mm 2 mm <nil>
}

// The grub screw of a wheel on a shaft of 6 mm.
func ExampleDimpleFor() {
	d, err := keys.DimpleFor("M3", units.MM(6))
	fmt.Println(d.Point, d.Tip.Text(units.Millimetres, 2), d.Flat.Text(units.Millimetres, 2), err)
	// Output: 1.4 mm 0.50 mm 0.40 mm <nil>
}

func TestTables(t *testing.T) { check.Tables(t, keys.Files, "tables/*.csv") }

// Keys against other charts, and what is measured over the far side against the
// printed values of the standard. A row that says from over which shaft it is begins there.
func TestKeys(t *testing.T) {
	for r := range check.Open(t, "fits/keys/keys.csv").Rows() {
		unit, err := units.ParseLengthUnit(r.Text("unit"))
		if err != nil {
			t.Fatal(err)
		}
		upto, err := unit.Parse(r.Text("shaft"))
		if err != nil {
			t.Fatal(err)
		}
		shafts := []units.Length{upto}
		if r.Has("over") {
			over, err := unit.Parse(r.Text("over"))
			if err != nil {
				t.Fatal(err)
			}
			shafts = append(shafts, over.Add(units.Picometres(1)))
		}
		for _, shaft := range shafts {
			k, ok := of(shaft, r.Text("standard"))
			if !ok {
				t.Errorf("%s: no key for %v", r.ID, shaft)
				continue
			}
			for column, got := range map[string]units.Length{"width": k.Width, "height": k.Height, "t1": k.ShaftDepth,
				"t2": k.HubDepth, "shaft_over": k.ShaftOver, "hub_over": k.HubOver} {
				if r.Has(column) {
					r.Compare(column, got.In(unit))
				}
			}
		}
	}
}

// of returns the key that a standard has for a shaft.
func of(shaft units.Length, standard string) (keys.Key, bool) {
	found, _ := keys.For(shaft)
	i := slices.IndexFunc(found, func(k keys.Key) bool { return k.Standard == standard })
	if i < 0 {
		return keys.Key{}, false
	}
	return found[i], true
}

// The rows of each standard join without a gap, and nothing is said beyond.
func TestKeyRange(t *testing.T) {
	for mm := 5.0; mm < 23; mm += 0.01 {
		found, err := keys.For(units.MM(mm))
		metric, inch := mm > 6+1e-9 && mm < 22+1e-9, mm > 25.4*5/16 && mm <= 25.4*7/8
		want := 0
		for _, has := range []bool{metric, inch} {
			if has {
				want++
			}
		}
		if len(found) != want || (err == nil) != (want > 0) {
			t.Fatalf("%.2f mm: %v, %v; want %d", mm, found, err, want)
		}
		for _, k := range found {
			// A key goes into its seats: room over it, and a side that still bears in both.
			if room := k.HubOver.Sub(k.ShaftOver).Sub(k.Height); room.MM() < 0.1 || room.MM() > 0.4 {
				t.Errorf("%.2f mm: %v leaves %v over the key", mm, k, room)
			}
		}
	}
	_, err := keys.For(units.MM(6))
	check.Refuses(t, "6 mm", err, units.ErrOutOfRange, "over 6 up to 22 mm")
	_, err = keys.For(units.Length{})
	check.Refuses(t, "none", err, units.ErrOutOfRange, "shaft")
}

// The printed drill is a standard one near the small end, for the pins and lengths of
// the manual; it goes by the nearest drill, at most 3 thou off.
func TestPinDrills(t *testing.T) {
	drills, err := gauge.Number().With(gauge.Fraction(), gauge.Letter())
	if err != nil {
		t.Fatal(err)
	}
	for r := range check.Open(t, "fits/keys/pin_drills.csv").Rows() {
		length, err := units.ParseLength(r.Text("length"))
		if err != nil {
			t.Fatal(err)
		}
		pin, err := keys.PinFor(r.Text("pin"), length)
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		printed, err := drills.Lookup(r.Text("drill"))
		if err != nil {
			t.Fatal(err)
		}
		// A drill that is 3 thou off the small end is not what the table goes by.
		drill, err := drills.Nearest(pin.Small)
		if err != nil {
			t.Fatal(err)
		}
		if off := printed.Diameter.Sub(pin.Small).Inch(); math.Abs(off) <= 0.003 {
			drill = printed
		}
		r.Equal("drill", drill.Name)
		if pin.Drill.Diameter.Cmp(pin.Small) > 0 || pin.Small.Sub(pin.Drill.Diameter).Inch() > 0.01 {
			t.Errorf("%s: drill %v for a small end of %v", r.ID, pin.Drill, pin.Small)
		}
	}
}

// The sizes lie within the printed limits of commercial pins, and are fractions of an inch
// to the thousandth.
func TestPins(t *testing.T) {
	for r := range check.Open(t, "fits/keys/pins.csv").Rows() {
		pin, err := keys.PinFor(r.Text("pin"), units.Inch(1))
		if err != nil {
			t.Fatal(err)
		}
		if fine := pin.Large.Ratio(units.Thou(0.5)); math.Abs(fine-math.Round(fine)) > 1e-9 {
			t.Errorf("%s: %v is no half thousandth", r.ID, pin.Large)
		}
		if r.Has("fraction") {
			fraction, err := units.ParseLength(r.Text("fraction") + " in")
			if err != nil {
				t.Fatal(err)
			}
			if off := pin.Large.Sub(fraction).Abs(); off.Cmp(units.Thou(0.5)) > 0 {
				t.Errorf("%s: %v, which is not %s in to the thousandth", r.ID, pin.Large, r.Text("fraction"))
			}
			r.Equal("pin", strings.Fields(pin.Name)[0])
			continue
		}
		// The size lies between the limits: neither is as far off as they are apart.
		half := (r.Float("max") - r.Float("min")) / 2
		r.Within("max", pin.Large.Inch()+half, half)
		r.Within("min", pin.Large.Inch()-half, half)
	}
}

// The metric pins are the most rounded preferred numbers R"10 (ISO 497, from memory), and
// a pin is as thick at its small end as it is called.
func TestMetricPins(t *testing.T) {
	for _, name := range []string{"0.6", "0.8", "1", "1.2", "1.5", "2", "2.5", "3", "4", "5", "6"} {
		size, err := units.ParseLength(name + " mm")
		if err != nil {
			t.Fatal(err)
		}
		pin, err := keys.PinFor(name, units.MM(20))
		if err != nil || pin.Small != size || pin.Large != size.Add(units.MM(0.4)) {
			t.Errorf("%s: %v, %v", name, pin, err)
		}
	}
}

// Of all shafts and hubs the pin is near a quarter of its shaft, stays inside the hub
// and has the taper of its standard.
func TestPinsFor(t *testing.T) {
	for mm := 4.0; mm <= 25; mm += 0.25 {
		for _, hub := range []float64{1.2, 1.8, 2.5} {
			pins, err := keys.PinsFor(units.MM(mm), units.MM(mm*hub))
			if err != nil {
				if mm*hub >= 6 {
					t.Errorf("%.2f mm in %.2f: %v", mm, mm*hub, err)
				}
				continue
			}
			for _, p := range pins {
				middle := (p.Small.MM() + p.Large.MM()) / 2 / mm
				taper := (p.Large.MM() - p.Small.MM()) / p.Length.MM()
				if middle > 0.34 || middle < 0.19 || p.Length.MM() > mm*hub+1e-9 || math.Abs(taper-p.PerLength) > 1e-9 {
					t.Errorf("%.2f mm in %.2f: %v, %.3f of the shaft", mm, mm*hub, p, middle)
				}
			}
		}
	}
	for name, tt := range map[string]struct{ shaft, hub float64 }{
		"thin shaft": {3.9, 10}, "thick shaft": {26, 60}, "no hub": {6, 7}, "wide hub": {6, 81}, "short hub": {4, 5},
	} {
		_, err := keys.PinsFor(units.MM(tt.shaft), units.MM(tt.hub))
		check.Refuses(t, name, err, units.ErrOutOfRange, "accepted")
	}
	_, err := keys.PinFor("no pin", units.MM(20))
	check.Refuses(t, "name", err, units.ErrUnknown, "#7/0")
	_, err = keys.PinFor("3", units.MM(2))
	check.Refuses(t, "length", err, units.ErrOutOfRange, "twice its thickness")
}

// Cup points by another print; and the cone of the drill is as wide as the cup where
// the round of the shaft is lowest under its rim.
func TestDimples(t *testing.T) {
	for r := range check.Open(t, "fits/keys/cup_points.csv").Rows() {
		d, err := keys.DimpleFor(strings.ToLower(r.Text("screw")), units.MM(25))
		if err != nil {
			t.Fatal(err)
		}
		r.Within("point", d.Point.MM(), 0) // a size of a standard, exact however many places are printed
		// The flat is as wide as the screw, whose diameter is its name.
		size, err := units.ParseLength(strings.TrimPrefix(r.Text("screw"), "M") + " mm")
		chord := 2 * math.Sqrt(d.Flat.MM()*(25-d.Flat.MM()))
		if err != nil || math.Abs(chord-size.MM()) > 1e-6 {
			t.Errorf("%s: the flat is %v wide (%v)", r.ID, chord, err)
		}
	}
	for _, shaft := range []float64{6, 8, 12, 40} {
		d, err := keys.DimpleFor("M3", units.MM(shaft))
		if err != nil {
			t.Fatal(err)
		}
		// Walk down the cone: at the depth of the rim's lowest place it has the cup's radius.
		lowest := shaft/2 - math.Sqrt(shaft*shaft/4-d.Point.MM()*d.Point.MM()/4)
		if radius := (d.Tip.MM() - lowest) * math.Tan(59*math.Pi/180); math.Abs(2*radius-d.Point.MM()) > 1e-8 {
			t.Errorf("%v mm: the cone is %v wide, the cup %v", shaft, 2*radius, d.Point)
		}
		if chord := 2 * math.Sqrt(d.Flat.MM()*(shaft-d.Flat.MM())); math.Abs(chord-3) > 1e-6 {
			t.Errorf("%v mm: the flat is %v wide", shaft, chord)
		}
	}
	_, err := keys.DimpleFor("M3", units.MM(5))
	check.Refuses(t, "thin shaft", err, units.ErrOutOfRange, "twice the screw")
	_, err = keys.DimpleFor("4 BA", units.MM(6))
	check.Refuses(t, "unknown screw", err, units.ErrUnknown, "M1.6")
}
