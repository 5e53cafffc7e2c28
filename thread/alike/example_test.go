package alike_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/alike"
	"github.com/valvechest/valvechest/units"
)

// The plans call for 7 BA and the drawer holds metric taps.
func ExampleSubstitutes() {
	found, err := alike.Substitutes(thread.MustParse("7 BA"), thread.MetricCoarse)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := found[0]
	fmt.Println(s)
	fmt.Printf("hexagon %s, %+.2f mm\n", s.Hexagon.Flats.Max.Text(units.Millimetres, 2), s.HexagonChange.MM())
	fmt.Println(s.OldInNew)
	// Output:
	// M2.5x0.45: 0.000 mm on the diameter, pitch -6.2 %
	// hexagon 5.00 mm, +0.62 mm
	// 7 BA in M2.5x0.45: the bolt starts and jams within 1.9 turns, 0.030 mm out at each.
}

func ExampleMate() {
	for _, pair := range [][2]string{{"5/16-18 UNC", "M8"}, {"M6", "1/4 BSF"}, {"0 BA", "M6"}} {
		m, err := alike.Mate(thread.MustParse(pair[0]), thread.MustParse(pair[1]))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(m)
	}
	// Output:
	// 5/16-18 UNC in M8x1.25: the bolt starts and jams within 2.0 turns, 0.161 mm out at each.
	// M6x1 in 1/4 BSF: the bolt runs in but does not belong, on 72 % of the depth of thread, 0.023 mm out at each turn. It may strip under load without warning.
	// 0 BA in M6x1: the bolt runs in but does not belong, on 100 % of the depth of thread, of the same pitch and with flanks of 47.5 degrees in 60. It may strip under load without warning.
}

func ExampleSpecimen_Identify() {
	found, err := alike.Specimen{Diameter: units.MM(5.92), Pitch: units.MM(1)}.Identify()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range found {
		fmt.Println(c)
		for _, how := range c.Tell {
			fmt.Println("  tell it by", how)
		}
	}
	// Output:
	// M6x1: diameter -0.080 mm, pitch 0.0000 mm from it
	// 0 BA: diameter -0.080 mm, pitch 0.0000 mm from it
	//   tell it by the angle, with a gauge against the light: 60 or 47.5 degrees
}

func ExampleDistinguish() {
	for _, how := range alike.Distinguish(thread.MustParse("1/4 BSF"), thread.MustParse("M6"), units.MM(0.02),
		units.MM(0.01)) {
		fmt.Println(how)
	}
	// Output:
	// the length of 5 threads: 4.885 mm or 5.000 mm
	// the angle, with a gauge against the light: 55 or 60 degrees
	// the diameter over the crests of an unworn screw: 6.350 mm or 6.000 mm
	// over wires of 0.551 mm: 6.530 mm or 6.136 mm
}

// What M2.5, 5-40 and 5-44 taps make of 5 BA. (An invented drawer.)
func ExampleSubstitutesAmong() {
	own := []thread.Thread{thread.MustParse("M2.5"), thread.MustParse("5-40"), thread.MustParse("5-44")}
	all, err := alike.SubstitutesAmong(thread.MustParse("5 BA"), own...)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range all {
		fmt.Println(s)
	}
	// Output:
	// 5-44 UNF: -0.025 mm on the diameter, pitch -2.2 %
	// 5-40 UNC: -0.025 mm on the diameter, pitch +7.6 %
}

// A bolt and a nut that belong together, and two that do not.
func ExampleMating_Mix() {
	for _, nut := range []string{"M6", "0 BA"} {
		m, err := alike.Mate(thread.MustParse("M6"), thread.MustParse(nut))
		fmt.Println(nut, m.Mix(), err)
	}
	// Output:
	// M6 true <nil>
	// 0 BA false <nil>
}
