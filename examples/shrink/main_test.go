package main

import (
	"bytes"
	"encoding/json"
	"math"
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
		name   string
		args   []string
		status int
		want   []string
	}{
		// A bush a thou over in a rod end, and a sleeve in an oven marked in Fahrenheit.
		{"FI-01, 1 thou", []string{"-d", "3/8 in", "-over", "1 thou", "-clear", "0.3 thou", "-shaft", "phosphor bronze", "-hub-at", "200 degC", "-shaft-at", "-18 degC"}, 1,
			[]string{"WILL NOT WORK - The clearance at assembly is 0.001 mm", "they go together no clearance then 0.0011 mm 0.04 thou", "0.0201 mm + 0.0064 mm - 0.0254 mm", "Callister", "MIND"}},
		{"FI-03, sleeve", []string{"-d", "1 in", "-over", "2 thou", "-clear", "1 thou", "-hub", "aluminium", "-hub-at", "200 degF"}, 1,
			[]string{"WILL NOT WORK - The parts do not go together", "23.6 ppm/K"}},
		// Nobody says what clearance assembly needs: a thousandth of the diameter,
		// 20 + (0.0762 - 0)/(23.6e-6 x 25.4) = 147.1 degrees C by hand.
		{"FI-03, how hot", []string{"-d", "1 in", "-over", "2 thou", "-hub", "aluminium", "-hub-at", "200 degF"}, 1,
			[]string{"clearance wanted 0.0254 mm 1.00 thou", "the hub needs 147 deg C 297 deg F with the shaft as it is",
				"hub needed = 20 degrees C + (0.0762 mm - 0.0000 mm) / (23.6 ppm/K x 25.4 mm) = 147 degrees C (297 degrees F)",
				// 0.0322 mm of 25.4 mm: by the mean expansion -88 degrees C, and as steel
				// contracts less in the cold -105.
				"or the shaft -105 deg C -157 deg F with the hub as it is",
				"shaft needed, where chilled steel has shrunk by 0.0762 mm - 0.0440 mm = -105 degrees C (-157 degrees F)"}},
		{"FI-02, liner", []string{"-d", "54 mm", "-over", "0.07 mm", "-clear", "0.04 mm", "-hub", "cast iron", "-shaft", "cast iron", "-hub-at", "200 degC", "-shaft-at", "-18 degC"}, 0,
			[]string{"COSTS POWER OR LIFE - The fit grabs", "it must be home at once", "they go together yes"}},
		{"FI-01, half a thou", []string{"-d", "3/8 in", "-over", "0.5 thou", "-clear", "0.3 thou", "-shaft", "phosphor bronze", "-hub-at", "200 degC", "-shaft-at", "-18 degC"}, 0,
			[]string{"they go together yes", "K between hub and shaft; they start 218 K apart"}},
		{"FI-04, press", []string{"-d", "0.75 in", "-over", "0.000375 in", "-clear", "0.2 thou", "-hub-at", "150 degC", "-outside", "1.5 in", "-seat", "0.75 in", "-mu", "0.12"}, 0,
			[]string{"5629 psi", "1194 lbf", "equation 3-56", "yields from", "Ch = ((D^2 + d^2)/(D^2 - d^2) + nu) / E = ((38.1^2 + 19.05^2)/(38.1^2 - 19.05^2) + 0.293) / 207 GPa", "yield strength, mild steel"}},
		{"no oven", []string{"-d", "10 mm", "-over", "0.4 mm", "-hub-at", "200 degC"}, 1, []string{"the hub needs no heat is enough", "No hub of mild steel gets there by heat"}},
		{"cold shaft", []string{"-d", "50 mm", "-over", "0.02 mm", "-hub", "cast iron", "-shaft", "aluminium", "-shaft-at", "-60 degC"}, 0, []string{"the hub needs no heat"}},
		{"bush bore", []string{"-d", "54 mm", "-over", "0.04 mm", "-hub", "cast iron", "-shaft", "cast iron", "-hub-at", "200 degC", "-outside", "85 mm", "-bore", "50 mm", "-seat", "90 mm", "-mu", "0.1"}, 0,
			[]string{"its bore closes by 0.03", "cracks or yields from 0.3976 mm", "tensile strength, cast iron 124 MPa [", "Callister"}},
		// What a fit of a standard allows is not stopped without a word about it:
		// FN2 at 1/8 in, H7/s6 at 6 mm.
		{"FN2", []string{"-d", "1/8 in", "-over", "1 thou", "-hub-at", "200 degC"}, 1, []string{"8.0 thou per inch, above the rules of the trade", "FN2 of ANSI B4.1 allow as much", "pressed home cold"}},
		{"H7/s6", []string{"-d", "6 mm", "-over", "27 um"}, 0, []string{"they go together yes, pressed home cold", "4.5 thou per inch", "H7/s6 of ISO 286", "pressed home cold"}},
		{"H7/s6 and its hub", []string{"-d", "6 mm", "-over", "27 um", "-outside", "40 mm", "-seat", "10 mm", "-mu", "0.1"}, 0, []string{"The hub yields at its bore", "Fits of the standards allow as much, and count on a tougher metal", "H7/s6 of ISO 286",
			"to press it home 8582 N 1929 lbf", "slides at 1935 N 435 lbf", "stand clear of the line of the press"}},
		// FN2 at 1/8 in goes to 1 thou: 1656 MPa at the bore as if it were elastic, 776 between
		// the parts of a hub of 1/2 in. FI-11: five times that is no press fit.
		{"FI-11, FN2", []string{"-d", "1/8 in", "-over", "1 thou", "-outside", "1/2 in", "-seat", "1/4 in", "-mu", "0.12"}, 0,
			[]string{"pressure 776.2 MPa", "The hub yields at its bore: it is stressed to 1656 MPa where mild steel bears 210 MPa", "FN2 of ANSI B4.1 allow as much", "In mild steel stay below 0.003 mm (0.13 thou)",
				// 5900 N on a section of 7.917 mm2.
				"to press it home 5900 N", "Pressed home by its end, the shaft is stressed to 745 MPa along, where mild steel bears 210 MPa: it swells in the hole, or bends"}},
		{"FI-11, 5 thou", []string{"-d", "1/8 in", "-over", "5 thou", "-outside", "1/2 in", "-seat", "1/4 in", "-mu", "0.12"}, 1,
			[]string{"CAN HURT SOMEBODY - The hub yields through its whole wall", "The parts do not press together", "they go together no"}},
		// What goes together and breaks does not go together.
		{"a thin hub", []string{"-d", "6 mm", "-over", "27 um", "-outside", "12 mm", "-seat", "6 mm", "-mu", "0.12"}, 1,
			[]string{"CAN HURT SOMEBODY - The hub yields through its whole wall", "they go together no, a part does not bear it"}},
		{"a hub of iron", []string{"-d", "10 mm", "-over", "24 um", "-hub", "cast iron", "-outside", "20 mm", "-seat", "10 mm", "-mu", "0.12"}, 1,
			[]string{"CAN HURT SOMEBODY - The hub cracks", "they go together no, a part does not bear it", "iron and soft metal bear less", "Grey iron cracks without warning: press slowly"}},
		{"and hot", []string{"-d", "10 mm", "-over", "24 um", "-hub", "cast iron", "-hub-at", "300 degC", "-shaft-at", "-60 degC", "-outside", "20 mm", "-seat", "10 mm", "-mu", "0.12"}, 1,
			[]string{"CAN HURT SOMEBODY - The hub cracks", "they go together yes, but a part does not bear it"}},
		// 189 degrees C are enough, and more than aged aluminium stands.
		{"melts, and softens before", []string{"-d", "10 mm", "-over", "30 um", "-hub", "aluminium", "-hub-at", "600 degC"}, 1,
			[]string{"begins to melt", "Bring the interference down. At 189 degrees C (373 degrees F) the parts drop together, but aged aluminium alloys soften"}},
		// A press fit that nobody heats is a way of assembly, with its force.
		{"pressed", []string{"-d", "20 mm", "-over", "0.02 mm", "-outside", "40 mm", "-seat", "20 mm", "-mu", "0.12"}, 0,
			[]string{"they go together yes, pressed home cold", "to press it home 11706 N 2632 lbf", "Neither part is heated or chilled", "Or heat the hub to 191 degrees C"}},
		{"melts", []string{"-d", "20 mm", "-over", "0.02 mm", "-hub", "aluminium", "-hub-at", "950 degC"}, 1,
			[]string{"CAN HURT SOMEBODY - The hub of aluminium is to be at 950 degrees C (1742 degrees F) and begins to melt at 582 degrees C", "Heat it to 105 degrees C",
				"they go together no clearance then not known", "[1] (unreviewed)"}},
		{"too hot to know", []string{"-d", "20 mm", "-over", "0.02 mm", "-hub-at", "600 degC"}, 1, []string{"How far the hub of mild steel goes at 600 degrees C", "fluorocarbon rubber", "zinc or cadmium"}},
		{"help", []string{"-h"}, 0, []string{"usage: shrink [flags]", "-seat LENGTH", "(required)"}},
	} {
		status, out, errs := do(test.args...)
		if status != test.status || errs != "" {
			t.Errorf("%s: status %d, want %d; %s", test.name, status, test.status, errs)
		}
		for _, want := range test.want {
			if !strings.Contains(out, want) {
				t.Errorf("%s: no %q in\n%s", test.name, want, out)
			}
		}
	}
}

// The answer stands in the first lines: the title, the findings, and then at once
// whether the parts go together.
func TestAnswerFirst(t *testing.T) {
	var out, errs bytes.Buffer
	program().Do([]string{"-d", "20 mm", "-over", "0.02 mm", "-hub-at", "392 degF", "-outside", "60 mm", "-seat", "20 mm", "-mu", "0.12"}, &out, &errs)
	lines := strings.Split(out.String(), "\n")
	at := 0
	for i, line := range lines {
		if strings.Contains(line, "they go together") {
			at = i
		}
		if len([]rune(line)) > 78 {
			t.Errorf("%d characters: %s", len([]rune(line)), line)
		}
	}
	if at == 0 || at > 10 {
		t.Errorf("the answer stands in line %d of\n%s", at+1, out.String())
	}
}

// What the shrinking and the pressing of one joint both say stands once.
func TestOneJudgementStandsOnce(t *testing.T) {
	_, out, _ := do("-d", "6 mm", "-over", "27 um", "-outside", "40 mm", "-seat", "10 mm", "-mu", "0.1")
	if got := strings.Count(out, "4.5 thou per inch"); got != 1 {
		t.Errorf("%d times in\n%s", got, out)
	}
}

func TestJSON(t *testing.T) {
	var answer struct {
		Assembly struct {
			Go        bool     `json:"go_together"`
			Clearance float64  `json:"clearance_at_assembly_mm"`
			Hub       *float64 `json:"hub_needed_degc"`
			Grabs     float64  `json:"grabs_at_difference_k"`
		}
		Joint *struct {
			Slides float64 `json:"slides_at_n"`
		}
		Findings []struct{ Code, Severity string }
	}
	for _, tt := range []struct {
		args   []string
		status int
		goes   bool
		hub    float64 // NaN: null
	}{
		{[]string{"-d", "20 mm", "-over", "0.02 mm", "-hub-at", "392 degF"}, 0, true, 190.9402},
		{[]string{"-d", "10 mm", "-over", "0.4 mm", "-hub-at", "200 degC"}, 1, false, math.NaN()},
		{[]string{"-d", "20 mm", "-over", "0.02 mm", "-hub-at", "392 degF", "-outside", "60 mm", "-seat", "20 mm", "-mu", "0.12"}, 0, true, 190.9402},
	} {
		answer.Joint = nil
		status, out, errs := do(append([]string{"-json"}, tt.args...)...)
		if err := json.Unmarshal([]byte(out), &answer); err != nil || status != tt.status || errs != "" {
			t.Errorf("%q: status %d, %s, %v", tt.args, status, errs, err)
			continue
		}
		a := answer.Assembly
		if a.Go != tt.goes || math.IsNaN(tt.hub) != (a.Hub == nil) || a.Hub != nil && math.Abs(*a.Hub-tt.hub) > 1e-3 {
			t.Errorf("%q: %+v", tt.args, a)
		}
		if (answer.Joint != nil) != (len(tt.args) > 8) || answer.Joint != nil && answer.Joint.Slides < 10000 {
			t.Errorf("%q: %+v", tt.args, answer.Joint)
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{nil, "-d DIAMETER: missing"},
		{[]string{"-d", "1 in"}, "-over INTERFERENCE: missing"},
		{[]string{"-d", "0 mm", "-over", "1 thou"}, "-d: diameter of the joint 0 mm: out of range; accepted: above zero"},
		{[]string{"-d", "1 in", "-over", "0 mm"}, "-over: interference 0 mm: out of range"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-clear", "-1 thou"}, "-clear: working clearance"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-hub-at", "200"}, "-hub-at: temperature \"200\": a number without a unit"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-hub-at", "-20 degC"}, "-hub-at: temperature of the hub"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-shaft-at", "2000 degC"}, "-shaft-at: temperature of the shaft"},
		{[]string{"-d", "1 in", "-over", "1 in"}, "more than a twentieth of the diameter"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-hub", "red bronze"}, "gunmetal"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "0.5 in", "-seat", "1 in", "-mu", "0.1"}, "-outside: outside diameter of the hub 12.7 mm: the hub has no wall"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "2 in", "-seat", "0 mm", "-mu", "0.1"}, "-seat: length of the joint 0 mm: out of range"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "2 in", "-mu", "0.1"}, "-seat: missing; for what the joint bears"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "2 in", "-seat", "1 in"}, "-mu: missing; for what the joint bears: a coefficient of friction"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "2 in", "-seat", "1 in", "-mu", "1.5"}, "-mu: friction 1.5 to 1.5: out of range"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "2 in", "-seat", "1 in", "-mu", "NaN"}, "-mu: friction NaN to NaN: out of range"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-seat", "1 in", "-mu", "0.1", "-bore", "0.5 in"}, "-outside: missing; for what the joint bears"},
		{[]string{"-d", "1 in", "-over", "1 thou", "-outside", "2 in", "-seat", "1 in", "-mu", "0.1", "-bore", "1 in"}, "-bore: bore of the shaft"},
		{[]string{"-d", "1 in", "-over", "1 thou", "hot"}, "no such argument"},
		{[]string{"-d", "1 in", "-over", "1 thou", "\u202ehot"}, `"\u202ehot": no such argument`},
		{[]string{"-d", "1 in", "-over", "1 thou", "-hub", ""}, "-hub: "},
		{[]string{"-d", "1 in", "-over", "1 thou", "-length", "1 in"}, "-length: no such flag"},
	} {
		status, out, errs := do(test.args...)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%q: status %d, printed %q, said %q; want %q", test.args, status, out, errs, test.want)
		}
	}
	// Each mistake has its line.
	if _, _, errs := do("-d", "1 in", "-over", "1 thou", "-outside", "2 in"); strings.Count(errs, "\n") != 2 {
		t.Error(errs)
	}
}

// A joint that is shrunk together is not pushed, and nothing is said of the push.
func TestShrunkIsNotPushed(t *testing.T) {
	joint := []string{"-d", "6 mm", "-over", "6 um", "-outside", "20 mm", "-seat", "24 mm", "-mu", "0.15"}
	for _, test := range []struct {
		more []string
		want bool
	}{{nil, true}, {[]string{"-hub-at", "230 degC"}, false}} {
		status, out, errs := do(append(joint, test.more...)...)
		if status != 0 || errs != "" || strings.Contains(out, "Pressed home by its end") != test.want {
			t.Errorf("%q: %d %s %s", test.more, status, out, errs)
		}
	}
}
