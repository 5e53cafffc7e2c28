package main

import (
	"strings"
	"testing"
)

func TestRun(t *testing.T) {
	for _, test := range []struct {
		name   string
		args   []string
		status int
		want   []string
	}{
		// Two that stuck in the workshop: a bush a thou over in a rod end, and a
		// sleeve in an oven marked in Fahrenheit.
		{"bush", []string{"-d", "3/8 in", "-over", "1 thou", "-clear", "0.3 thou", "-shaft", "phosphor bronze", "-hub-at", "200 degC", "-shaft-at", "-18 degC"}, 1,
			[]string{"fails: The clearance at assembly is 0.001 mm", "0.0201 mm + 0.0064 mm - 0.0254 mm", "Callister"}},
		{"sleeve", []string{"-d", "1 in", "-over", "2 thou", "-clear", "1 thou", "-hub", "aluminium", "-hub-at", "200 degF"}, 1,
			[]string{"fails: The parts do not go together", "23.6 ppm/K"}},
		// Nobody says what clearance assembly needs: a thousandth of the diameter,
		// 20 + (0.0762 - 0)/(23.6e-6 x 25.4) = 147.1 degrees C by hand.
		{"no clearance given", []string{"-d", "1 in", "-over", "2 thou", "-hub", "aluminium", "-hub-at", "200 degF"}, 1,
			[]string{"for a working clearance of 0.0254 mm (1.00 thou)\n", "the hub needs 20 degrees C + (0.0762 mm - 0.0000 mm)/(23.6 ppm/K x 25.4 mm) = 147 degrees C (297 degrees F)",
				"or the shaft 20 degrees C - (0.0762 mm - 0.0440 mm)/(11.7 ppm/K x 25.4 mm) = -88 degrees C (-127 degrees F) with the hub as it is, and colder still"}},
		// The liner that stuck 30 mm short of home.
		{"liner", []string{"-d", "54 mm", "-over", "0.07 mm", "-clear", "0.04 mm", "-hub", "cast iron", "-shaft", "cast iron", "-hub-at", "200 degC", "-shaft-at", "-18 degC"}, 0,
			[]string{"caution: The fit grabs", "it must be home at once"}},
		// 1/2 thou over would have gone in.
		{"half", []string{"-d", "3/8 in", "-over", "0.5 thou", "-clear", "0.3 thou", "-shaft", "phosphor bronze", "-hub-at", "200 degC", "-shaft-at", "-18 degC"}, 0,
			[]string{"it grabs when hub and shaft are"}},
		{"press", []string{"-d", "0.75 in", "-over", "0.000375 in", "-clear", "0.2 thou", "-hub-at", "150 degC", "-outside", "1.5 in", "-length", "0.75 in", "-mu", "0.12"}, 0,
			[]string{"(5629 psi)", "(1194 lbf)", "equation 3-56", "yields from", "Ch = ((D^2 + d^2)/(D^2 - d^2) + nu)/E = ((38.1^2 + 19.05^2)/(38.1^2 - 19.05^2) + 0.293)/207 GPa", "yield strength of mild steel"}},
		{"no oven", []string{"-d", "10 mm", "-over", "0.4 mm", "-hub-at", "200 degC"}, 1, []string{"no heat of the hub is enough", "No hub of mild steel gets there by heat"}},
		{"cold shaft", []string{"-d", "50 mm", "-over", "0.02 mm", "-hub", "cast iron", "-shaft", "aluminium", "-shaft-at", "-60 degC"}, 0, []string{"the hub needs no heat"}},
		{"bush bore", []string{"-d", "54 mm", "-over", "0.04 mm", "-hub", "cast iron", "-shaft", "cast iron", "-hub-at", "200 degC", "-outside", "85 mm", "-bore", "50 mm", "-length", "90 mm", "-mu", "0.1"}, 0,
			[]string{"which closes by 0.03", "cracks or yields from 0.3976 mm", "tensile strength of cast iron, 124 MPa: Callister"}},
	} {
		var out, complaint strings.Builder
		if status := run(test.args, &out, &complaint); status != test.status || complaint.Len() > 0 {
			t.Errorf("%s: status %d, want %d; %s", test.name, status, test.status, complaint.String())
		}
		for _, want := range test.want {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%s: no %q in\n%s", test.name, want, out.String())
			}
		}
	}
}

func TestBadUse(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{nil, "diameter of the joint 0 mm: out of range; accepted: above zero"},
		{[]string{"-d", "1 in"}, "interference 0 mm: out of range"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-hub-at", "200"}, "a number without a unit"},
		{[]string{"-d", "1 in", "-over", "1 in"}, "more than a twentieth of the diameter"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-hub", "red bronze"}, "gunmetal"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "0.5 in", "-length", "1 in", "-mu", "0.1"}, "no wall"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "2 in"}, "length of the joint 0 mm: out of range"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "2 in", "-length", "1 in"}, "friction: missing"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-bore", "0.5 in"}, "outside diameter of the hub 0 mm: out of range"},
		{[]string{"-d", "1 in", "-over", "1 thou", "hot"}, "no such argument"},
	} {
		var out, complaint strings.Builder
		if status := run(test.args, &out, &complaint); status != 2 || out.Len() > 0 || !strings.Contains(complaint.String(), test.want) {
			t.Errorf("%q: status %d, printed %q, said %q; want %q", test.args, status, out.String(), complaint.String(), test.want)
		}
	}
	var out, complaint strings.Builder
	if status := run([]string{"-h"}, &out, &complaint); status != 0 || complaint.Len() == 0 {
		t.Errorf("-h: status %d, %s", status, complaint.String())
	}
}
