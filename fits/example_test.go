package fits_test

import (
	"bytes"
	"encoding/gob"
	"fmt"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
)

// Which part is made to the size: the reamed hole, or the bought bar.
func ExampleBases() {
	for _, b := range fits.Bases() {
		list, err := fits.PreferredFits(b)
		fmt.Println(b, list[0].Fit, err)
	}
	// Output:
	// hole basis H11/c11 <nil>
	// shaft basis C11/h11 <nil>
}

func ExampleParseBasis() {
	b, err := fits.ParseBasis("Shaft basis")
	fmt.Println(b, err)
	_, err = fits.ParseBasis("bar")
	fmt.Println(err)
	// Output:
	// shaft basis <nil>
	// fits: basis "bar": unknown; accepted: hole basis, shaft basis
}

// Capitals are for holes.
func ExampleClass_Feature() {
	for _, s := range []string{"H7", "h6"} {
		c, err := fits.ParseClass(s)
		fmt.Println(c, c.Feature(), err)
	}
	// Output:
	// H7 hole <nil>
	// h6 shaft <nil>
}

// How wide the tolerance of a class is, at a size.
func ExampleClass_Grade() {
	c, err := fits.ParseClass("f7")
	if err != nil {
		fmt.Println(err)
		return
	}
	t, err := c.Grade().ToleranceFor(units.MM(10))
	fmt.Println(c.Grade(), t.Width, err)
	// Output:
	// IT7 0.015 mm <nil>
}

// A class as it stands on a drawing, and one that is half a hole and half a shaft.
func ExampleParseClass() {
	c, err := fits.ParseClass("js6")
	fmt.Println(c, err)
	_, err = fits.ParseClass("Js6")
	fmt.Println(err)
	// Output:
	// js6 <nil>
	// fits: tolerance class "Js6": a capital and a small letter: hole or shaft?; near it: JS6, js6
}

// saved writes a value as gob and reads it back into another.
func saved(from, to any) error {
	var file bytes.Buffer
	if err := gob.NewEncoder(&file).Encode(from); err != nil {
		return err
	}
	return gob.NewDecoder(&file).Decode(to)
}

// A class goes into a file as its text.
func ExampleClass_GobEncode() {
	c, _ := fits.ParseClass("H7")
	text, err := c.GobEncode()
	fmt.Printf("%s %v\n", text, err)
	// Output:
	// H7 <nil>
}

func ExampleClass_GobDecode() {
	c, _ := fits.ParseClass("H7")
	var back fits.Class
	err := saved(c, &back)
	fmt.Println(back, err)
	// Output:
	// H7 <nil>
}

func ExampleFeatures() {
	fmt.Println(fits.Features())
	// Output:
	// [hole shaft]
}

func ExampleParseFeature() {
	f, err := fits.ParseFeature("shaft")
	fmt.Println(f, err)
	// Output:
	// shaft <nil>
}

// A bush bored 12 H8 and its spindle, f7.
func ExampleFit_LimitsFor() {
	fit, err := fits.ParseFit("H8/f7")
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := fit.LimitsFor(units.MM(12))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("bush", r.Hole.Text(units.Millimetres, 3))
	fmt.Println("spindle", r.Shaft.Text(units.Millimetres, 3))
	fmt.Printf("%v, %.0f to %.0f um\n", r.Kind, r.Clearance.Min.Micron(), r.Clearance.Max.Micron())
	// Output:
	// bush 12.000 to 12.027 mm
	// spindle 11.966 to 11.984 mm
	// clearance, 16 to 61 um
}

// What the parts have when each comes out in the middle of its limits.
func ExampleFitLimits_MeanClearance() {
	fit, err := fits.ParseSizedFit("12 H8/f7")
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := fit.Limits()
	fmt.Println(r.MeanClearance(), err)
	// Output:
	// 0.0385 mm <nil>
}

// The hole stands in front of the shaft.
func ExampleParseFit() {
	fit, err := fits.ParseFit("H7 / g6")
	fmt.Println(fit, err)
	_, err = fits.ParseFit("g6/H7")
	fmt.Println(err)
	// Output:
	// H7/g6 <nil>
	// fits: fit "g6/H7": not a hole and a shaft; near it: H7/g6
}

func ExampleFit_GobEncode() {
	fit, _ := fits.ParseFit("H7/g6")
	text, err := fit.GobEncode()
	fmt.Printf("%s %v\n", text, err)
	// Output:
	// H7/g6 <nil>
}

func ExampleFit_GobDecode() {
	fit, _ := fits.ParseFit("H7/g6")
	var back fits.Fit
	err := saved(fit, &back)
	fmt.Println(back, err)
	// Output:
	// H7/g6 <nil>
}

// The finest grades, and the coarsest.
func ExampleGrades() {
	all := fits.Grades()
	fmt.Println(all[:3], all[len(all)-1])
	// Output:
	// [IT01 IT0 IT1] IT18
}

func ExampleParseGrade() {
	g, err := fits.ParseGrade("it7")
	fmt.Println(g, err)
	_, err = fits.ParseGrade("7")
	fmt.Println(err)
	// Output:
	// IT7 <nil>
	// fits: grade "7": unknown; near it: IT7
}

// What two classes are for.
func ExampleInchFit_Use() {
	for _, s := range []string{"RC4", "FN2"} {
		fit, err := fits.ParseInchFit(s)
		fmt.Printf("%v: %s (%v)\n", fit, fit.Use(), err)
	}
	// Output:
	// RC4: close running: accurate machines at moderate speed and load (<nil>)
	// FN2: medium drive: ordinary steel parts, shrunk light sections; tightest for cast iron (<nil>)
}

func ExampleParseInchFit() {
	fit, err := fits.ParseInchFit("rc 4")
	fmt.Println(fit, err)
	_, err = fits.ParseInchFit("LN4")
	fmt.Println(err)
	// Output:
	// RC4 <nil>
	// fits: inch fit "LN4": unknown; near it: LN1, LN2, LN3
}

func ExampleInchFit_GobEncode() {
	fit, _ := fits.ParseInchFit("RC4")
	text, err := fit.GobEncode()
	fmt.Printf("%s %v\n", text, err)
	// Output:
	// RC4 <nil>
}

func ExampleInchFit_GobDecode() {
	fit, _ := fits.ParseInchFit("RC4")
	var back fits.InchFit
	err := saved(fit, &back)
	fmt.Println(back, err)
	// Output:
	// RC4 <nil>
}

// Which inch fits always have clearance on a pin of half an inch.
func ExampleInchFits() {
	for _, fit := range fits.InchFits() {
		r, err := fit.LimitsFor(units.Inch(0.5))
		if err == nil && r.Clearance.Min.Sign() > 0 {
			fmt.Print(fit, " ")
		}
	}
	// Output:
	// RC1 RC2 RC3 RC4 RC5 RC6 RC7 RC8 RC9 LC5 LC6 LC7 LC8 LC9 LC10 LC11
}

func ExampleKinds() {
	fmt.Println(fits.Kinds())
	// Output:
	// [clearance transition interference]
}

func ExampleParseKind() {
	k, err := fits.ParseKind("transition")
	fmt.Println(k, err)
	// Output:
	// transition <nil>
}

// spindle is 8f7, which the next examples ask about.
func spindle() fits.Limits {
	c, err := fits.ParseSizedClass("8f7")
	if err != nil {
		panic(err)
	}
	l, err := c.Limits()
	if err != nil {
		panic(err)
	}
	return l
}

// By how much a spindle of 8f7 is smaller than 8 mm at the least.
func ExampleLimits_Upper() {
	fmt.Println(spindle().Upper())
	// Output:
	// -0.013 mm
}

// By how much a spindle of 8f7 may be smaller than 8 mm.
func ExampleLimits_Lower() {
	fmt.Println(spindle().Lower())
	// Output:
	// -0.028 mm
}

func ExampleLimits_Tolerance() {
	fmt.Println(spindle().Tolerance())
	// Output:
	// 0.015 mm
}

// The size to aim at.
func ExampleLimits_Mean() {
	fmt.Println(spindle().Mean())
	// Output:
	// 7.9795 mm
}

// A bush that measures 12.01 mm, for a spindle of 12f7.
func ExampleExact() {
	c, err := fits.ParseSizedClass("12f7")
	if err != nil {
		fmt.Println(err)
		return
	}
	shaft, err := c.Limits()
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := fits.Mate(fits.Exact(units.MM(12.01)), shaft)
	fmt.Println(r.Clearance.Min, r.Clearance.Max, err)
	// Output:
	// 0.026 mm 0.044 mm <nil>
}

// For a micrometer in millimetres and for one in inches, rounded inward.
func ExampleLimits_Text() {
	l := spindle()
	fmt.Println(l.Text(units.Millimetres, 3))
	fmt.Println(l.Text(units.Inches, 4))
	// Output:
	// 7.972 to 7.987 mm
	// 0.3139 to 0.3144 in
}

// A bush of 10.02 mm and a shaft of 10 mm, where 0.03 to 0.05 mm was wanted.
func ExampleAsCut_CheckWanted() {
	r, err := fits.Measured(units.MM(10.02), units.MM(10))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range r.CheckWanted(fits.Band{Min: units.MM(0.03), Max: units.MM(0.05)}) {
		fmt.Println(f.Severity, f.Text)
		fmt.Println(f.Remedies[0])
	}
	// Output:
	// fails The clearance is 0.020 mm (0.79 thou), and 0.030 to 0.050 mm (1.18 to 1.97 thou) is wanted: the shaft is too big by 0.010 mm (0.39 thou).
	// Take 0.010 to 0.030 mm (0.39 to 1.18 thou) off the shaft: turning it is easier, and truer, than opening the hole.
}

// The fits that are for turning, on a reamed hole of 8 mm.
func ExamplePreferredFits() {
	list, err := fits.PreferredFits(fits.HoleBasis)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range list {
		if r, err := p.Fit.LimitsFor(units.MM(8)); err == nil && r.Clearance.Min.Sign() > 0 {
			fmt.Printf("%v, %s: %.0f to %.0f um\n", p.Fit, p.Name, r.Clearance.Min.Micron(), r.Clearance.Max.Micron())
		}
	}
	// Output:
	// H11/c11, loose running: 80 to 260 um
	// H9/d9, free running: 40 to 112 um
	// H8/f7, close running: 13 to 50 um
	// H7/g6, sliding: 5 to 29 um
}

// What there are rules of thumb on.
func ExampleRuleTopics() {
	fmt.Println(fits.RuleTopics())
	// Output:
	// [bearing piston ring gap gland press bond gap]
}

// What a piston rod of 4 mm may have in its gland.
func ExampleRulesFor() {
	list, err := fits.RulesFor("gland")
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := list[0].Allowance(units.MM(4))
	fmt.Printf("%s: %.3f to %.3f mm, %v\n", list[0].Name, a.Min.MM(), a.Max.MM(), err)
	// Output:
	// valve spindle or piston rod in its gland: 0.025 to 0.051 mm, <nil>
}

// As a drawing has it, in millimetres unless it says inches.
func ExampleParseSizedFit() {
	for _, s := range []string{"\u230025H7/g6", "1/2 in H8-f7"} {
		fit, err := fits.ParseSizedFit(s)
		fmt.Println(fit, err)
	}
	// Output:
	// 25 mm H7/g6 <nil>
	// 12.7 mm H8/f7 <nil>
}

// Shigley's Mechanical Engineering Design, 9th edition, example 7-7, p. 398: a loose
// running fit of 34 mm is 34.000 to 34.160 mm and 33.720 to 33.880 mm.
func ExampleSizedFit_Limits_shigley() {
	fit, err := fits.ParseSizedFit("34H11/c11")
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := fit.Limits()
	fmt.Println(r.Hole.Text(units.Millimetres, 3), r.Shaft.Text(units.Millimetres, 3), err)
	// Output:
	// 34.000 to 34.160 mm 33.720 to 33.880 mm <nil>
}

func ExampleParseSizedClass() {
	c, err := fits.ParseSizedClass("8 h9")
	fmt.Println(c, err)
	// Output:
	// 8 mm h9 <nil>
}

// Bright bar of 8 mm as it is sold.
func ExampleSizedClass_Limits() {
	c, err := fits.ParseSizedClass("8h9")
	if err != nil {
		fmt.Println(err)
		return
	}
	l, err := c.Limits()
	fmt.Println(l.Text(units.Millimetres, 3), err)
	// Output:
	// 7.964 to 8.000 mm <nil>
}
