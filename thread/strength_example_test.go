package thread_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// Shigley, Mechanical Engineering Design, 8th edition, chapter 8, the example on
// torque (recalled): 3/4-16 UNF, preload 25 000 lbf, friction 0.15 in thread and
// collar, collar 1.25 d: 3551 lbf in; with K = 0.20, 3750 lbf in.
func ExampleThread_TorqueForPull_shigley() {
	t := thread.MustParse("3/4-16 UNF")
	k, err := t.NutFactorFromFriction(0.15, 0.15, t.Major().Scale(1.25))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, factor := range []thread.NutFactor{k, thread.DryThreads()} {
		tight, err := t.TorqueForPull(25000*units.PoundForce, factor)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("K %.3f: %.0f lbf in\n", factor.K, float64(tight.Torque/units.PoundForceInch))
	}
	// Output:
	// K 0.189: 3551 lbf in
	// K 0.200: 3750 lbf in
}

// An invented cover: M4 studs of mild steel in a cylinder of gunmetal. The rule
// of thumb is shown beside the calculation.
func ExampleJoint_Engagement() {
	t := thread.MustParse("M4")
	joint := thread.Joint{Thread: t, Stud: 430 * units.Megapascal, Nut: 270 * units.Megapascal}
	e, err := joint.Engagement()
	if err != nil {
		fmt.Println(err)
		return
	}
	rule, err := t.EngagementByRule(thread.OtherNonFerrous)
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

func ExampleThread_BoltStrength() {
	s, err := thread.MustParse("M6").BoltStrength("8.8")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f mm2, proof load %.1f kN, breaks above %.1f kN\n", float64(s.Area/units.SquareMillimetre), float64(s.ProofLoad/units.Kilonewton), float64(s.Breaking/units.Kilonewton))
	fmt.Println(s.Ref)
	// Output:
	// 20.1 mm2, proof load 11.7 kN, breaks above 16.1 kN
	// EN ISO 898-1, Mechanical properties of fasteners, part 1, 2013, rows 1 and 5 (read in a distributor's reprint)
}
