package diagnosis_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/units"
)

// The cavity of an invented engine was cut too long: both leads are right, and the
// exhaust opens too early and shuts too late.
func ExampleCase_Diagnose() {
	c := diagnosis.Case{Gear: demo()}
	within := map[diagnosis.Kind]string{diagnosis.Lead: "0.05 mm", diagnosis.Release: "1 deg", diagnosis.Compression: "1 deg"}
	for _, r := range []struct {
		kind  diagnosis.Kind
		end   eccentric.End
		value string
	}{
		{diagnosis.Lead, eccentric.HeadEnd, "0.27 mm"},
		{diagnosis.Lead, eccentric.CrankEnd, "0.14 mm"},
		{diagnosis.Release, eccentric.HeadEnd, "150 deg"},
		{diagnosis.Compression, eccentric.HeadEnd, "-22 deg"},
		{diagnosis.Release, eccentric.CrankEnd, "147 deg"},
		{diagnosis.Compression, eccentric.CrankEnd, "-19 deg"},
	} {
		reading, err := r.kind.Read(r.value, within[r.kind])
		if err != nil {
			fmt.Println(err)
			return
		}
		reading.End = r.end
		c.Readings = append(c.Readings, reading)
	}
	d, err := c.Diagnose()
	if err != nil {
		fmt.Println(err)
		return
	}
	v := d.Verdict()
	fmt.Println(v.Fault, v.End, v.Length, v.Sure)
	// Output: exhaust_lap both -0.307 mm true
}

// A lead read on the demonstration engine, and what it would be had the sheave slipped
// back by ten degrees; what it says of the sheave; and how that is told.
func ExampleReading_On() {
	read, err := diagnosis.Lead.Read("0.05 mm", "0.05 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	read.End = eccentric.HeadEnd
	drawn, err := read.On(demo())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %s read, %s as drawn; agrees: %v\n", read.Name(), read.Value(), drawn.Value(), read.Agrees(drawn))
	slipped := demo()
	slipped.Advance -= 10 * units.Degree
	late, err := read.On(slipped)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("slipped by 10 degrees:", late.Value())
	// Output:
	// lead at the head end: 0.05 mm (2 thou) read, 0.27 mm (10.7 thou) as drawn; agrees: false
	// slipped by 10 degrees: -0.24 mm (-9.4 thou)
}

// What the four readings at the dead centres say once the sheave has slipped: a text for
// a heading and a sentence for a page.
func ExampleSuspect_Sentence() {
	slipped := demo()
	slipped.Advance -= 10 * units.Degree
	c := diagnosis.Case{Gear: demo()}
	for _, kind := range []diagnosis.Kind{diagnosis.Lead, diagnosis.CutOff} {
		for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			within := "1 deg"
			value := "0 deg"
			if kind == diagnosis.Lead {
				within, value = "0.02 mm", "0 mm"
			}
			wanted, err := kind.Read(value, within)
			if err != nil {
				fmt.Println(err)
				return
			}
			wanted.End = end
			read, err := wanted.On(slipped)
			if err != nil {
				fmt.Println(err)
				return
			}
			c.Readings = append(c.Readings, read)
		}
	}
	d, err := c.Diagnose()
	if err != nil {
		fmt.Println(err)
		return
	}
	v := d.Verdict()
	fmt.Println(v.Fault.OfSheave(), v.Text())
	fmt.Println(v.Part.Text())
	fmt.Println(v.Sentence())
	// Output:
	// true a sheave 10 degrees behind its place
	// a sheave 10 degrees behind its place
	// The sheave stands 10 deg (give or take 0.4 deg) behind its place on the shaft, in the direction of rotation.
}
