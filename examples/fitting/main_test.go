package main

import (
	"strings"
	"testing"
)

func TestRun(t *testing.T) {
	for _, test := range []struct {
		args []string
		want []string
	}{
		// ISO 286-2 limits of 10 H7 and 10 g6 as every handbook prints them.
		{[]string{"-d", "10 mm", "H7/g6"}, []string{
			"10 mm H7/g6, clearance fit", "sliding", "10.000 to 10.015 mm", "9.986 to 9.995 mm", "393.15 to 393.50 thou",
			"mean                   10.0075 mm                  394.00 thou", "9.9905 mm",
			"393.71 to 394.29 thou", // 10 mm is 393.7008 thou: 393.70 would be below the limit
			"10.000 - 9.995 = 0.005 mm (0.20 thou)", "10.015 - 9.986 = 0.029 mm (1.14 thou)", "go 9.995 mm (393.50 thou), not-go 9.986 mm (393.15 thou)",
			"shaft  9.99 mm and no other, all of 9.0 um lost", "hole   10.00 to 10.01 mm, 5.0 um of 15.0 um lost", "hole   393.8 to 394.2 thou", "10 mm reamer", "a bar of class h8", "Source", "Machine Drawing",
		}},
		{[]string{"\u00d830 H7/p6"}, []string{"30 mm H7/p6, interference fit", "-0.035 mm"}},
		// A crankshaft of 9.5 mm that is to run with half a thou to two: the standard
		// beside the rule of the trade. H8/f7 is 0 to 22 on -13 to -28 um, RC4 in
		// thou 0 to 0.9 on -0.5 to -1.1.
		{[]string{"-d", "9.5 mm", "-least", "0.5 thou", "-most", "2 thou"}, []string{"clearance wanted 0.013 to 0.051 mm (0.50 to 2.00 thou)",
			"H8/f7    0.013 to 0.050 mm (0.51 to 1.97 thou), clearance fit, as wanted\n           close running: ", "RC4      0.013 to 0.051 mm", "limits FROM MEMORY",
			"clearance of a bearing", "a thou per inch: 0.010 mm (0.37 thou)", "Machinery's Handbook", "table 7-9"}},
		{[]string{"-d", "3/4 in", "-least", "-2 thou", "-most", "-0.5 thou"}, []string{"H7/s6    -0.048 to -0.014 mm", "FN2 ", "interference of a press fit", "a thou per inch: 0.019 mm (0.75 thou)"}},
		{[]string{"-d", "10 in", "-least", "0 mm", "-most", "0.1 mm"}, []string{"No fit of ANSI B4.1: fits: nominal size 10.0000 in"}},
		{[]string{"34", "H11/c11"}, []string{"34.000 to 34.160", "33.720 to 33.880", "0.440 mm"}},
		// ANSI B4.1 RC4 at 3/4 in: hole +1.2, shaft -0.8 and -1.6 thou.
		{[]string{"-d", "3/4 in", "RC4"}, []string{"0.7500 in (19.05 mm) RC4", "hole H8", "750.00 to 751.20 thou", "748.40 to 749.20 thou",
			"19.0094 to 19.0296 mm", // 19.00936 to 19.02968
			"750.00 - 749.20 = 0.80 thou (0.02032 mm)", "2.80 thou", "3/4 in reamer"}},
		{[]string{"-d", "1 in", "LC2"}, []string{"Figures behind these limits are from memory. Hold them against the standard before metal is cut.", "from memory: ANSI B4.1"}},
		{[]string{"3150H7/h6"}, []string{"Too large for a reamer"}},
		{[]string{"-d", "0.1 in", "lc8"}, []string{"The standard prints a clearance of 1.00 to 2.00 thou"}},
		{[]string{"-step", "0.1 mm", "10H7/g6"}, []string{"too coarse"}},
		{[]string{"-reamers", "9.5 mm, 10 mm", "-bar", "f7", "10H7/f7"}, []string{"9.972 to 9.987 mm, as it is", "as wanted"}},
		{[]string{"1.5JS01/js01"}, []string{"1.4999 to 1.5001 mm", "1.50015 - 1.49985 = 0.0003 mm"}},
		{[]string{"10H7/zc9"}, []string{"interference fit"}},
		{[]string{"10JS7/h6"}, []string{"9.9925 to 10.0075", "9.9925 - 10.000 = -0.0075 mm"}},
	} {
		var out, complaint strings.Builder
		if status := run(test.args, &out, &complaint); status != 0 || complaint.Len() > 0 {
			t.Errorf("%q: status %d, %s", test.args, status, complaint.String())
		}
		for _, want := range test.want {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%q: no %q in\n%s", test.args, want, out.String())
			}
		}
	}
}

func TestBadUse(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{nil, "usage"},
		{[]string{"H7/g6"}, "no size"},
		{[]string{"RC4"}, "no size"},
		{[]string{"-d", "10", "H7/g6"}, "a number without a unit"},
		{[]string{"-d", "10 mm", "H7/q6"}, "no such letter"},
		{[]string{"-d", "10 mm", "20H7/g6"}, "one size"},
		{[]string{"-d", "4000 mm", "H7/g6"}, "3150 mm"},
		{[]string{"-d", "1 in", "RC99"}, "or an inch fit, RC1 to RC9"},
		{[]string{"-d", "20 in", "RC4"}, "outside the table"},
		{[]string{"-d", "10 mm", "-bar", "H7", "H7/g6"}, "class for shafts"},
		{[]string{"-d", "10 mm", "-step", "-1 mm", "H7/g6"}, "rounding step"},
		{[]string{"-d", "10 mm", "-least", "1 thou"}, "by both -least and -most"},
		{[]string{"-d", "10 mm", "-least", "1 thou", "-most", "2 thou", "H7/g6"}, "a fit, or a wanted clearance"},
		{[]string{"-least", "1 thou", "-most", "2 thou"}, "no size"},
		{[]string{"-d", "10 mm", "-least", "1 thou", "-most", "0 thou"}, "the wrong way round"},
		{[]string{"-d", "4000 mm", "-least", "1 thou", "-most", "2 thou"}, "3150 mm"},
		{[]string{"-d", "10 mm", "-step", "0 mm", "H7/g6"}, "rounding step"},
		{[]string{"25 H19/g6"}, `tolerance class "H19"`},
		{[]string{"25 H7/g6", "extra"}, `"g6 extra"`},
		{[]string{"-reamers", "16 gauge", "10H7/g6"}, "gauge"},
	} {
		var out, complaint strings.Builder
		if status := run(test.args, &out, &complaint); status != 2 || out.Len() > 0 || !strings.Contains(complaint.String(), test.want) {
			t.Errorf("%q: status %d, printed %q, said %q; want %q", test.args, status, out.String(), complaint.String(), test.want)
		}
	}
	var out, complaint strings.Builder
	if status := run([]string{"-h"}, &out, &complaint); status != 0 || !strings.Contains(complaint.String(), "usage: fitting") {
		t.Errorf("-h: status %d, %s", status, complaint.String())
	}
}
