package strength_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// Shigley, Mechanical Engineering Design, 8th edition, chapter 8, the example on
// torque (recalled): 3/4-16 UNF, preload 25 000 lbf, friction 0.15 in thread and
// collar, collar 1.25 d: 3551 lbf in; with K = 0.20, 3750 lbf in.
func ExampleTightening_Solve_shigley() {
	t := thread.MustParse("3/4-16 UNF")
	k, err := strength.Friction{Thread: t, InThread: 0.15, OnFace: 0.15, FaceDiameter: t.Major().Scale(1.25)}.NutFactor()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, factor := range []strength.NutFactor{k, strength.DryThreads()} {
		tight, err := strength.Tightening{Diameter: t.Major(), Factor: factor, Pull: 25000 * units.PoundForce}.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("K %.3f: %.0f lbf in\n", factor.K, tight.Torque.In(units.PoundForceInch))
	}
	// Output:
	// K 0.189: 3551 lbf in
	// K 0.200: 3750 lbf in
}

// What the pull of one torque may be, by the condition of the thread.
func ExampleNutFactors() {
	for _, factor := range strength.NutFactors() {
		if factor.Condition != "lubricated" {
			continue
		}
		tight, err := strength.Tightening{Diameter: units.MM(4), Factor: factor, Torque: 1 * units.NewtonMetre}.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v; %s\n", tight, factor.Refs.First().Title)
	}
	// Output:
	// 1 N·m for 1389 N (1042 to 1736 N); Budynas and Nisbett, Shigley's Mechanical Engineering Design
	// 1 N·m for 2222 N (1667 to 3333 N); Moss, Pressure Vessel Design Manual
}

// An invented cover: M4 studs of mild steel in a cylinder of gunmetal. The rule
// of thumb is shown beside the calculation.
func ExampleJoint_Solve() {
	t := thread.MustParse("M4")
	joint := strength.Joint{Thread: t, Stud: 430 * units.Megapascal, Nut: 270 * units.Megapascal}
	e, err := joint.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	rule, err := strength.StudLengthFor(t, strength.OtherNonFerrous)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("calculated (%s): %s, %d turns\n", e.Limits, e.Length.Text(units.Millimetres, 2), e.Turns)
	fmt.Printf("rule of thumb: %s, %d turns\n", rule.Engaged.Text(units.Millimetres, 2), rule.Turns)
	// Output:
	// calculated (6g in 6H): 3.60 mm, 6 turns
	// rule of thumb: 10.00 mm, 15 turns
}

func ExampleBoltFor() {
	s, err := strength.BoltFor(thread.MustParse("M6"), "8.8")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f mm2, proof load %.1f kN, breaks above %.1f kN\n",
		s.Area.In(units.SquareMillimetre), s.ProofLoad.In(units.Kilonewton), s.Breaking.In(units.Kilonewton))
	fmt.Println(s.Refs.First())
	// Output:
	// 20.1 mm2, proof load 11.7 kN, breaks above 16.1 kN
	// EN ISO 898-1, Mechanical properties of fasteners, part 1, 2013, rows 1 and 5 (read in a distributor's reprint)
}

// A stud turned from bar, by the weakest condition that a source gives.
func ExampleBoltOf() {
	steel, err := material.Lookup("mild steel")
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := strength.BoltOf(thread.MustParse("M3"), steel)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s yields at %.0f N\n", s.Material, s.ProofLoad.In(units.Newton))
	// Output: mild steel yields at 1056 N
}

func ExampleStressAreaOf() {
	a := strength.StressAreaOf(thread.MustParse("2 BA"))
	fmt.Printf("%.2f mm2\n", a.Area.In(units.SquareMillimetre))
	fmt.Println(a.Refs)
	// Output:
	// 12.39 mm2
	// derived (pi/4 ((d2 + dk)/2)^2, the rule of ISO 898-1 with this thread's own core)
}

func ExampleTapping_Torque() {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, hole := range []float64{2.5, 2.6} {
		t, err := strength.Tapping{Thread: thread.MustParse("M3"), Hole: units.MM(hole), Tap: thread.SecondTap,
			Material: iron}.Torque()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f mm: %.2f N·m (%.2f to %.2f) in %s\n", hole, t.Torque.In(units.NewtonMetre),
			t.Min.In(units.NewtonMetre), t.Max.In(units.NewtonMetre), t.Grades[0])
	}
	// Output:
	// 2.5 mm: 0.17 N·m (0.09 to 0.35) in cast iron GG-25, 193 HB
	// 2.6 mm: 0.11 N·m (0.06 to 0.23) in cast iron GG-25, 193 HB
}

func ExampleStudLength_Check() {
	gunmetal, err := material.Lookup("gunmetal")
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := strength.StudLengthFor(thread.MustParse("M3"), strength.RuleFor(gunmetal))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range s.Check(units.MM(5)) {
		fmt.Println(f.Severity, f.Text)
	}
	// Output: note There is 5.000 mm of full thread for M3x0.5; the rule for studs in other non-ferrous metal asks for 7.500 mm. Below it the thread may strip before the screw breaks.
}

// What a dirty thread and a dry washer amount to.
func ExampleFriction_NutFactor() {
	t := thread.MustParse("M4")
	k, err := strength.Friction{Thread: t, InThread: 0.20, OnFace: 0.20, FaceDiameter: t.Major().Scale(1.25)}.NutFactor()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("K %.2f\n", k.K)
	// Output: K 0.26
}

func ExampleBrokenTap() {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range strength.BrokenTap(iron)[1:2] {
		fmt.Println(p.Text)
	}
	// Output: An alum bath is for aluminium, brass and bronze only: it would dissolve a steel or iron part with the tap.
}

// A stud of 2 BA in gunmetal by the trade's rule: two and a half diameters.
func ExampleStudLengthFor() {
	gunmetal, err := material.Lookup("gunmetal")
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := strength.StudLengthFor(thread.MustParse("2 BA"), strength.RuleFor(gunmetal))
	fmt.Println(s.Rule, s.Engaged, s.Threaded, s.Turns, err)
	// Output: other non-ferrous metal 11.75 mm 12.925 mm 15 <nil>
}

// Common practice for steel dry as it comes, and with oil on it.
func ExampleDryThreads() {
	dry, oiled := strength.DryThreads(), strength.OiledThreads()
	fmt.Println(dry.K, dry.Scatter, oiled.K, oiled.Scatter)
	// Output: 0.2 0.35 0.15 0.25
}
