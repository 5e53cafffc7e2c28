package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

// do runs the program; the output comes in one line.
func do(args ...string) (status int, out, errs string) {
	var stdout, stderr bytes.Buffer
	status = program().Do(args, &stdout, &stderr)
	return status, strings.Join(strings.Fields(stdout.String()), " "), stderr.String()
}

func TestAnswers(t *testing.T) {
	for _, test := range []struct {
		args []string
		want []string
	}{
		// ISO 286-2 limits of 10 H7 and 10 g6 as every handbook prints them.
		{[]string{"-d", "10 mm", "H7/g6"}, []string{
			"10 mm H7/g6, clearance fit hole H7", "sliding: slides", "hole H7 10.000 to 10.015 mm 393.71 to 394.29 thou [1]",
			"shaft g6 9.986 to 9.995 mm 393.15 to 393.50 thou", "mean, to aim at 10.0075 mm 394.00 thou", "9.9905 mm 393.33 thou",
			"393.71 to 394.29 thou", // 10 mm is 393.7008 thou: 393.70 would be below the limit
			"clearance 0.005 to 0.029 mm 0.20 to 1.14 thou", "least = 10.000 - 9.995 = 0.005 mm (0.20 thou)",
			"most = 10.015 - 9.986 = 0.029 mm (1.14 thou)", "9.995 mm 393.50 thou 9.986 mm 393.15 thou",
			"one that shows 0.01 mm hole 10.00 to 10.01 mm 5.0 of 15.0 um lost shaft 9.99 mm only 9.0 of 9.0 um lost",
			"one that shows 0.1 thou hole 393.8 to 394.2 thou 4.8 of 15.0 um lost shaft 393.2 to 393.5 thou 1.4 of 9.0 um lost",
			"reamer 10 mm", "on a bar of class h8, 9.978 to 10.000 mm, as it is", "clearance 0.000 to 0.037 mm 0.00 to 1.46 thou",
			"outside what is wanted 8.0 um 0.31 thou", "SOURCES", "Machine Drawing",
		}},
		{[]string{"\u00d830 H7/p6"}, []string{"30 mm H7/p6, interference fit", "interference 0.001 to 0.035 mm", "-0.035 mm"}},
		// A crankshaft of 9.5 mm that is to run with half a thou to two: the standard
		// beside the rule of the trade. H8/f7 is 0 to 22 on -13 to -28 um, RC4 in
		// thou 0 to 0.9 on -0.5 to -1.1.
		{[]string{"-d", "9.5 mm", "-least", "0.5 thou", "-most", "2 thou"}, []string{
			"clearance wanted 0.013 to 0.051 mm (0.50 to 2.00 thou)",
			"H8/f7, clearance fit, as wanted clearance 0.013 to 0.050 mm 0.51 to 1.97 thou [1, 2] use close running: ",
			"RC4, clearance fit, as wanted clearance 0.013 to 0.051 mm", "(from memory)", "7.7 um (0.30 thou) outside",
			"clearance of a bearing", "0.010 mm 0.37 thou a thou per inch", "Machinery's Handbook", "table 7-9"}},
		{[]string{"-d", "3/4 in", "-least", "-2 thou", "-most", "-0.5 thou"}, []string{"H7/s6, interference fit, as wanted clearance -0.048 to -0.014 mm",
			"FN2, ", "interference of a press fit", "0.019 mm 0.75 thou a thou per inch"}},
		{[]string{"-d", "10 in", "-least", "0 mm", "-most", "0.1 mm"}, []string{"FITS OF ANSI B4.1", "None: nominal size 10.0000 in"}},
		{[]string{"34", "H11/c11"}, []string{"34.000 to 34.160", "33.720 to 33.880", "0.440 mm"}},
		// ANSI B4.1 RC4 at 3/4 in: hole +1.2, shaft -0.8 and -1.6 thou.
		{[]string{"-d", "3/4 in", "RC4"}, []string{"0.7500 in (19.05 mm) RC4", "hole H8", "750.00 to 751.20 thou", "748.40 to 749.20 thou",
			"19.0094 to 19.0296 mm", // 19.00936 to 19.02968
			"750.00 - 749.20 = 0.80 thou (0.02032 mm)", "2.80 thou", "reamer 3/4 in"}},
		{[]string{"-d", "1 in", "LC2"}, []string{"Figures behind these limits are from memory.", "Hold them against the standard before metal is cut.", "from memory: ANSI B4.1"}},
		{[]string{"3150H7/h6"}, []string{"too large for a reamer", "bore the hole, and turn the shaft to suit"}},
		{[]string{"-d", "0.1 in", "lc8"}, []string{"most = 101.60 - 98.00 = 3.60 thou"}},
		{[]string{"-step", "0.1 mm", "10H7/g6"}, []string{"shaft too coarse for 9.0 um"}},
		{[]string{"-own", "9.5 mm, 10 mm", "-bar", "f7", "10H7/f7"}, []string{"9.972 to 9.987 mm, as it is", "that is as wanted"}},
		{[]string{"10H7/f7", "-own", "9.5 mm"}, []string{"reamer 9.5 mm", "The 9.5 mm reamer does not stay within the wanted"}},
		{[]string{"1.5JS01/js01"}, []string{"1.4999 to 1.5001 mm", "1.50015 - 1.49985 = 0.0003 mm"}},
		{[]string{"10H7/zc9"}, []string{"interference fit", "far above any press fit"}},
		{[]string{"10JS7/h6"}, []string{"9.9925 to 10.0075", "9.9925 - 10.000 = -0.0075 mm", "below zero it grips"}},
		// What the standard allows on a small part is above the rules of the trade,
		// and shrink says the same of it.
		{[]string{"-d", "1/8 in", "FN2"}, []string{"COSTS POWER OR LIFE", "1.00 thou), 8.0 thou per inch, above the rules of the trade", "H7/s6 of ISO 286 and FN2 of ANSI B4.1 allow as much"}},
		{[]string{"-d", "6 mm", "H7/s6"}, []string{"0.027 mm (1.06 thou), 4.5 thou per inch, above the rules of the trade", "In mild steel stay below 0.006 mm"}},
		// FI-08: a thou per inch is 0.375 thou at 3/8 in; H7/f7 takes 13 to 43 um.
		{[]string{"-d", "9.5 mm", "H7/f7"}, []string{"clearance 0.013 to 0.043 mm 0.51 to 1.69 thou"}},
		// FI-12: a bore of 20.03 mm, clearance 0.05 to 0.08 mm.
		{[]string{"-hole", "20.03 mm", "-least", "0.05 mm", "-most", "0.08 mm"}, []string{"hole of 20.03 mm as it came out",
			"shaft 19.950 to 19.980 mm", "shaft 19.95 to 19.98 mm 0.0 of 30.0 um lost"}},
		{[]string{"-d", "20 mm", "-hole", "20.03 mm", "H9/d9"}, []string{"shaft 19.861 to 19.965 mm"}},
		{[]string{"-hole", "20.03 mm", "-packing", "soft packing"}, []string{"shaft 19.9284 to 19.9792 mm", "soft packed or with an O-ring"}},
		{[]string{"-d", "20 mm", "-packing", "metal rings"}, []string{"shaft 19.960 to 19.980 mm", "(from memory)"}},
		// Ground bar as it is bought: shaft basis.
		{[]string{"-d", "6 mm", "-bar", "h6", "H8/f7"}, []string{"SHAFT BASIS, where the shaft is bar of h6 as it is bought",
			"fit F8/h6 hole F8 6.010 to 6.028 mm", "clearance 0.010 to 0.036 mm"}},
		// Holes for bought bar come first, as the book has them; H8/f7 is still there for a
		// shaft that is turned. F8 at 6 mm is 10 to 28 um, h6 0 to 8 below.
		{[]string{"-d", "6 mm", "-bar", "h6", "-least", "0.01 mm", "-most", "0.03 mm"}, []string{
			"HOLES for a bar of h6 as it is bought, best first ---", "F8/h6, clearance fit, 6.0 um (0.24 thou) outside hole F8 6.010 to 6.028 mm",
			"bar h6 5.992 to 6.000 mm", "H8/f7", "F8/h6 does not stay within the wanted"}},
		{[]string{"-d", "1/4 in", "-own", "1/4 in", "-least", "0.5 thou", "-most", "2 thou"}, []string{"BY REAMER", "on a bar of class h8"}},
		{[]string{"-shaft", "6.01 mm", "-own", "6 mm, 6.02 mm", "-least", "0.01 mm", "-most", "0.04 mm"}, []string{
			"hole 6.020 to 6.050 mm", "on the shaft as it is", "reamer 6.02 mm"}},
		// Both parts made, and what was wanted of them.
		{[]string{"-d", "20 mm", "-hole", "20.03 mm", "-shaft", "20 mm", "H7/f7"}, []string{"they go together yes", "clearance wanted 0.020 to 0.062 mm"}},
		// A part made to its mate for a fit is as tight as the fit.
		{[]string{"-d", "1/8 in", "-hole", "0.1255 in", "FN2"}, []string{"hole of 0.1255 in (3.1877 mm) as it came out", "shaft 3.1928 to 3.2131 mm",
			"interference 0.005 to 0.025 mm", "8.0 thou per inch, above the rules of the trade", "Measure, and try a mate, only with the spindle stopped"}},
		{[]string{"-d", "6 mm", "-least", "0.01 mm", "-most", "0.03 mm"}, []string{"RC3 does not stay within the wanted 0.010 to 0.030 mm (0.39 to 1.18 thou): it may lie 0.0005 mm (0.02 thou) outside"}},
		// FI-09, after the bush was turned: 0.5 thou on 5/16.
		{[]string{"-hole", "5/16 in", "-shaft", "0.313 in"}, []string{"they go together yes interference 0.0127 mm 0.50 thou 0.0016 of the diameter"}},
		{[]string{"-h"}, []string{"usage: fitting [flags] FIT", "-own REAMERS"}},
	} {
		status, out, errs := do(test.args...)
		if status != 0 || errs != "" {
			t.Errorf("%q: status %d, %s", test.args, status, errs)
		}
		for _, want := range test.want {
			if !strings.Contains(out, want) {
				t.Errorf("%q: no %q in\n%s", test.args, want, out)
			}
		}
	}
}

// FI-09 and FI-10: a bush of 0.315 in for a hole of 5/16, a shaft of 16 mm for one
// of 5/8 in. The shaft is turned, as that beats opening the hole.
func TestDoesNotGo(t *testing.T) {
	for _, test := range []struct{ name, hole, shaft, want string }{
		{"FI-09", "5/16 in", "0.315 in", "interference 0.0635 mm 2.50 thou 0.0080 of the diameter, 8.0 thou per inch"},
		{"FI-10", "5/8 in", "16 mm", "interference 0.125 mm 4.92 thou"},
	} {
		status, out, errs := do("-hole", test.hole, "-shaft", test.shaft)
		if status != 1 || errs != "" || !strings.Contains(out, test.want) || !strings.Contains(out, "they go together no") ||
			!strings.Contains(out, "Turning the shaft is easier, and truer, than opening the hole.") {
			t.Errorf("%s: %d, %s, %s", test.name, status, out, errs)
		}
	}
}

// Two parts that go together are not yet the fit that was wanted.
func TestNotAsWanted(t *testing.T) {
	for _, test := range []struct{ shaft, want string }{
		{"20 mm", "WILL NOT WORK - The clearance is 0.030 mm (1.18 thou), and 0.010 to 0.020 mm (0.39 to 0.79 thou) is wanted: the shaft is too small by " +
			"0.010 mm (0.39 thou). > Make a shaft larger by 0.010 to 0.020 mm (0.39 to 0.79 thou), or bush the hole."},
		{"20.025 mm", "the shaft is too big by 0.005 mm (0.20 thou). > Take 0.005 to 0.015 mm (0.20 to 0.59 thou) off the shaft"},
	} {
		status, out, errs := do("-hole", "20.03 mm", "-shaft", test.shaft, "-least", "0.01 mm", "-most", "0.02 mm")
		if status != 1 || errs != "" || !strings.Contains(out, test.want) || !strings.Contains(out, "they go together yes") {
			t.Errorf("%s: %d, %s, %s", test.shaft, status, out, errs)
		}
	}
	if status, _, _ := do("-hole", "20.03 mm", "-shaft", "20.015 mm", "-least", "0.01 mm", "-most", "0.02 mm"); status != 0 {
		t.Errorf("as wanted: %d", status)
	}
}

// Nothing runs over the edge of a page of 78 characters.
func TestWidth(t *testing.T) {
	for _, args := range [][]string{
		{"-d", "10 mm", "H7/g6"}, {"-d", "3/4 in", "RC4"}, {"3150H7/h6"}, {"-d", "9.5 mm", "-least", "0.5 thou", "-most", "2 thou"},
		{"1.5JS01/js01"}, {"-h"}, {"-d", "100 mm", "-least", "-0.1 mm", "-most", "-0.01 mm"}, {"-d", "1 in", "LC2"},
		{"-d", "6 mm", "-bar", "h6", "-own", "6 mm", "-least", "0.01 mm", "-most", "0.03 mm"}, {"-hole", "1.003 in", "-shaft", "1.0012 in"},
	} {
		var out, errs bytes.Buffer
		program().Do(args, &out, &errs)
		for line := range strings.Lines(out.String()) {
			if len([]rune(line)) > 79 {
				t.Errorf("%q: %d characters: %s", args, len([]rune(line)), line)
			}
		}
	}
}

func TestJSON(t *testing.T) {
	type ends struct{ Min, Max float64 }
	type made struct {
		Reamer  string
		Outside float64 `json:"outside_wanted_um"`
	}
	var fit struct {
		Limits struct {
			Fit, Kind, Use string
			Nominal        float64 `json:"nominal_mm"`
			Hole           ends    `json:"hole_mm"`
			Shaft          ends    `json:"shaft_mm"`
			Clearance      ends    `json:"clearance_mm"`
		}
		Micrometers []struct {
			Shaft *ends   `json:"shaft_on_steps_mm"`
			Lost  float64 `json:"shaft_lost_um"`
		}
		Gauges  struct{ Hole, Shaft map[string]float64 }
		Reaming struct {
			Turned made `json:"shaft_turned"`
			Bar    made `json:"bar_as_it_is"`
		}
		Findings, Sources []any
	}
	status, out, errs := do("-json", "-d", "10 mm", "H7/s6")
	if err := json.Unmarshal([]byte(out), &fit); err != nil || status != 0 || errs != "" {
		t.Fatal(status, err, errs)
	}
	if l := fit.Limits; l.Fit != "H7/s6" || l.Kind != "interference" || l.Nominal != 10 || l.Hole != (ends{10, 10.015}) ||
		l.Shaft != (ends{10.023, 10.032}) || l.Clearance != (ends{-0.032, -0.008}) || !strings.HasPrefix(l.Use, "medium drive") {
		t.Errorf("%+v", l)
	}
	if m := fit.Micrometers; len(m) != 2 || m[0].Shaft == nil || *m[0].Shaft != (ends{10.03, 10.03}) || m[0].Lost != 9 {
		t.Errorf("%+v", m)
	}
	if g := fit.Gauges; g.Hole["go_mm"] != 10 || g.Shaft["not_go_mm"] != 10.023 {
		t.Errorf("%+v", g)
	}
	if r := fit.Reaming; r.Turned.Reamer != "10 mm" || r.Turned.Outside != 0 || r.Bar.Outside != 45 {
		t.Errorf("%+v", r)
	}
	if len(fit.Findings) == 0 || len(fit.Sources) == 0 {
		t.Error(out)
	}
	var choice struct {
		ISO   []struct{ Fit, Kind string } `json:"iso_286"`
		Inch  []struct{ Fit string }       `json:"ansi_b4_1"`
		Rules map[string]any
	}
	status, out, errs = do("-json", "-d", "9.5 mm", "-least", "0.5 thou", "-most", "2 thou")
	if err := json.Unmarshal([]byte(out), &choice); err != nil || status != 0 || errs != "" {
		t.Fatal(status, err, errs)
	}
	if len(choice.ISO) != 3 || choice.ISO[0].Fit != "H8/f7" || choice.Inch[0].Fit != "RC4" || choice.Rules["a_thou_per_inch_mm"] == nil {
		t.Errorf("%+v", choice)
	}
	if status, out, _ := do("-json", "-step", "0.1 mm", "10H7/g6"); status != 0 || !strings.Contains(out, `"shaft_on_steps_mm": null`) {
		t.Errorf("a micrometer that is too coarse: %s", out)
	}
}

func TestRefuses(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{nil, "fit: missing"},
		{[]string{"H7/g6"}, "-d: no size"},
		{[]string{"RC4"}, "-d: no size"},
		{[]string{"-d", "10", "H7/g6"}, "-d: length \"10\": a number without a unit"},
		{[]string{"-d", "10 mm", "H7/q6"}, "fit: tolerance class \"q6\": the standard has no such letter"},
		{[]string{"-d", "10 mm", "20H7/g6"}, "one size"},
		{[]string{"-d", "4000 mm", "H7/g6"}, "3150 mm"},
		{[]string{"-d", "0 mm", "H7/g6"}, "-d: nominal size 0 mm: out of range"},
		{[]string{"-d", "1 in", "RC99"}, "or an inch fit, RC1 to RC9"},
		{[]string{"-d", "20 in", "RC4"}, "outside the table"},
		{[]string{"-d", "10 mm", "-bar", "H7", "H7/g6"}, "-bar: H7 is a class for holes; accepted: a class for shafts"},
		{[]string{"-d", "10 mm", "-step", "-1 mm", "H7/g6"}, "-step: rounding step"},
		{[]string{"-d", "10 mm", "-least", "1 thou"}, "by both -least and -most"},
		{[]string{"-d", "10 mm", "-least", "1 thou", "-most", "2 thou", "H7/g6"}, "a fit, or a wanted clearance"},
		{[]string{"-least", "1 thou", "-most", "2 thou"}, "-d: no size"},
		{[]string{"-d", "10 mm", "-least", "1 thou", "-most", "0 thou"}, "the wrong way round"},
		{[]string{"-d", "4000 mm", "-least", "1 thou", "-most", "2 thou"}, "3150 mm"},
		{[]string{"-d", "10 mm", "-step", "0 mm", "H7/g6"}, "-step: rounding step"},
		{[]string{"25 H19/g6"}, `fit: tolerance class "H19"`},
		{[]string{"25 H7/g6", "extra"}, `"g6 extra"`},
		{[]string{"-own", "16 gauge", "10H7/g6"}, "-own: size \"16 gauge\": the gauge is not named"},
		{[]string{"-own", "", "10H7/g6"}, "-own: no reamers"},
		{[]string{"-bar", "", "10H7/g6"}, "-bar: no class"},
		{[]string{"10H7/\u202eg6"}, `fit: tolerance class "\u202eg6"`},
		{[]string{"-hole", "20 mm"}, "a part that is made, and no clearance"},
		{[]string{"-hole", "0 mm", "-shaft", "5 mm"}, "-hole: hole 0 mm: out of range"},
		{[]string{"-hole", "20 mm", "-least", "2 mm", "-most", "1 mm"}, "-least: band 2 mm to 1 mm: the wrong way round"},
		{[]string{"-packing", "soft packing"}, "-d: no bore"},
		{[]string{"-d", "20 mm", "-packing", "string"}, "-packing: packing \"string\": unknown"},
		{[]string{"-d", "20 mm", "-packing", "O-ring", "H7/g6"}, "-packing: beside a fit"},
		{[]string{"-d", "20 mm", "-packing", "metal rings", "-piston", "mild steel"}, "-packing: metal of a piston"},
		{[]string{"-hole", "0.02 mm", "-least", "0.05 mm", "-most", "0.08 mm"}, "-hole: size of its mate"},
		{[]string{"-d", "20 mm", "-piston", "brass", "H7/f7"}, "-piston: of no use here; accepted: it with -packing"},
		{[]string{"-hole", "20 mm", "-bar", "h6", "-least", "1 thou", "-most", "2 thou"}, "-bar: of no use here"},
		{[]string{"-hole", "20 mm", "-own", "20 mm", "-least", "1 thou", "-most", "2 thou"}, "-own: of no use here"},
		{[]string{"-d", "20 mm", "-step", "0.01 mm", "-least", "1 thou", "-most", "2 thou"}, "-step: of no use here"},
		{[]string{"-hole", "20 mm", "-shaft", "20 mm", "-step", "0.01 mm"}, "-step: of no use here"},
		{[]string{"-d", "25 mm", "-hole", "20.03 mm", "-least", "1 thou", "-most", "2 thou"}, "-hole: 20.03 mm, and -d says 25 mm"},
		{[]string{"-d", "6 mm", "-bar", "f7", "-least", "1 thou", "-most", "2 thou"}, "-bar: class of the bar f7"},
		{[]string{"-reamers", "6 mm", "10H7/g6"}, "-reamers: no such flag"},
	} {
		status, out, errs := do(test.args...)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%q: status %d, printed %q, said %q; want %q", test.args, status, out, errs, test.want)
		}
	}
}
