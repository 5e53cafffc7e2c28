package gauge_test

import (
	"bytes"
	"encoding/gob"
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// The number drill before a reamer of 5 mm, which wants 0.1 mm to cut.
func ExampleNumber() {
	fmt.Println(gauge.Number().AtMost(units.MM(4.9)))
	// Output: #11 <nil>
}

func ExampleLetter() {
	f, err := gauge.Letter().Lookup("F")
	fmt.Println(f.Diameter, err)
	// Output: 6.5278 mm <nil>
}

func ExampleFraction() {
	fmt.Println(gauge.Fraction().Nearest(units.MM(7)))
	// Output: 9/32 in <nil>
}

func ExampleMetric() {
	fmt.Println(gauge.Metric().Between(units.MM(2.95), units.MM(3.2)))
	// Output: [2.95 mm 3 mm 3.1 mm 3.2 mm] <nil>
}

// The reamers in the drawer.
func ExampleNewSet() {
	reamers, err := gauge.NewSet(
		gauge.Size{Name: "3/16 reamer", Diameter: units.InchFraction(3, 16)},
		gauge.Size{Name: "5 mm reamer", Diameter: units.MM(5)})
	fmt.Println(reamers, err)
	// Output: 3/16 reamer, 5 mm reamer <nil>
}

func ExampleSet_Len() {
	fmt.Println(gauge.Letter().Len())
	// Output: 26
}

func ExampleSet_All() {
	for s := range gauge.Letter().All() {
		fmt.Println(s, s.Diameter.Text(units.Millimetres, 3))
		break
	}
	// Output: A 5.944 mm
}

// The drills of two boxes.
func ExampleSet_With() {
	metric, err := gauge.ParseSet("6-7x0.5 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	letters, err := gauge.ParseSet("E-G")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(metric.With(letters))
	// Output: 6 mm, E, 6.5 mm, F, G, 7 mm <nil>
}

// A hole that a stud of 5 mm must pass.
func ExampleSet_AtLeast() {
	fmt.Println(gauge.Fraction().AtLeast(units.MM(5)))
	// Output: 13/64 in <nil>
}

// A hole that a reamer of 6 mm must clean up.
func ExampleSet_AtMost() {
	fmt.Println(gauge.Metric().AtMost(units.MM(5.8)))
	// Output: 5.8 mm <nil>
}

func ExampleSet_Lookup() {
	own, err := gauge.ParseSet("1-6x0.5 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	_, err = own.Lookup("4.2 mm")
	fmt.Println(err)
	// Output: gauge: size 4.2 mm: not in the set; accepted: 11 sizes from 1 mm to 6 mm
}

func ExampleSet_GobEncode() {
	own, err := gauge.ParseSet("A-C")
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	var back gauge.Set
	if err = gob.NewEncoder(&file).Encode(own); err == nil {
		err = gob.NewDecoder(&file).Decode(&back)
	}
	fmt.Println(back, err)
	// Output: A, B, C <nil>
}

func ExampleSet_GobDecode() {
	var own gauge.Set
	err := own.GobDecode([]byte("#1-#3"))
	fmt.Println(own, err)
	// Output: #3, #2, #1 <nil>
}

func ExampleSystems() {
	fmt.Println(gauge.Systems())
	// Output: [SWG AWG BWG MSG screw]
}

func ExampleParseSystem() {
	s, err := gauge.ParseSystem("B&S")
	fmt.Println(s, err)
	// Output: AWG <nil>
}

// The thinnest and the thickest wire of the Standard Wire Gauge.
func ExampleSystem_Set() {
	sizes := slices.Collect(gauge.SWG.Set().All())
	fmt.Println(sizes[0], sizes[0].Diameter, "to", sizes[len(sizes)-1], sizes[len(sizes)-1].Diameter)
	// Output: 50 SWG 0.0254 mm to 7/0 SWG 12.7 mm
}
