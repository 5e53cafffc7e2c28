package fits_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
)

// Where the rules of a class change: the sizes themselves belong to the range below
// (ISO 286-1: P6 has delta up to 500 mm and none over, N9 has ES 0 over 3 mm and -4 um
// up to it; M6 over 250 up to 315 mm has -9 um).
func TestClassAtBoundaries(t *testing.T) {
	one := units.Picometres(1)
	for _, tt := range []struct {
		class string
		at    units.Length
		upper float64 // um
	}{
		{"N9", units.MM(3), -4}, {"N9", units.MM(3).Add(one), 0},
		{"N9", units.MM(500), 0}, {"N9", units.MM(500).Add(one), -44},
		{"P7", units.MM(3), -6}, {"P7", units.MM(3).Add(one), -8},
		{"P8", units.MM(3).Add(one), -12}, {"P8", units.MM(10), -15}, // no delta from IT8
		{"M8", units.MM(10), 1}, {"M9", units.MM(10), -6}, // delta up to IT8
		{"M6", units.MM(250), -8}, {"M6", units.MM(250).Add(one), -9},
		{"M6", units.MM(315), -9}, {"M6", units.MM(315).Add(one), -10},
		{"P6", units.MM(500), -55}, {"P6", units.MM(500).Add(one), -78},
	} {
		l, err := class(t, tt.class).LimitsFor(tt.at)
		if err != nil || l.Upper() != units.Micron(tt.upper) {
			t.Errorf("%s at %v: %v, want %g um (%v)", tt.class, tt.at, l.Upper(), tt.upper, err)
		}
	}
	for _, tt := range []struct {
		class string
		at    units.Length
		ok    bool
	}{
		{"a9", units.MM(1), false}, {"a9", units.MM(1).Add(one), true}, {"b9", units.MM(1), false},
		{"c9", units.MM(1), true},
		{"N9", units.MM(1), false}, {"N8", units.MM(1), true}, {"N9", units.MM(1).Add(one), true},
		{"H14", units.MM(1), false}, {"H13", units.MM(1), true}, {"H14", units.MM(1).Add(one), true},
		{"K9", units.MM(3), true}, {"K9", units.MM(3).Add(one), false},
		{"K9", units.MM(500), false}, {"K9", units.MM(500).Add(one), true},
		{"P2", units.MM(3), true}, {"P2", units.MM(3).Add(one), false}, {"P3", units.MM(3).Add(one), true},
		{"P5", units.MM(500), true}, {"P5", units.MM(500).Add(one), false}, {"P6", units.MM(500).Add(one), true},
		{"j4", units.MM(10), false}, {"j5", units.MM(10), true}, {"j8", units.MM(3), true}, {"j9", units.MM(3), false},
		{"J5", units.MM(10), false}, {"J6", units.MM(10), true}, {"J8", units.MM(10), true}, {"J9", units.MM(10), false},
		{"H7", units.MM(3150), true}, {"H7", units.MM(3150).Add(one), false}, {"H7", one, true},
		{"h0", units.MM(500), true}, {"h0", units.MM(500).Add(one), false},
	} {
		if _, err := class(t, tt.class).LimitsFor(tt.at); (err == nil) != tt.ok {
			t.Errorf("%s at %v: %v", tt.class, tt.at, err)
		}
	}
	// k has its deviation in grades 4 to 7.
	for g, want := range map[string]float64{"k3": 0, "k4": 1, "k7": 1, "k8": 0} {
		if l, err := class(t, g).LimitsFor(units.MM(10)); err != nil || l.Lower() != units.Micron(want) {
			t.Errorf("%s: %v, %v", g, l.Lower(), err)
		}
	}
}

// A fit is a clearance fit from none on, an interference fit down to none, and between
// the two a transition fit.
func TestKindEdges(t *testing.T) {
	hole := fits.Limits{Nominal: units.MM(10), Min: units.MM(10), Max: units.MM(10.02)}
	one := units.Picometres(1)
	for name, tt := range map[string]struct {
		min, max units.Length
		kind     fits.Kind
	}{
		"touches":          {units.MM(9.9), units.MM(10), fits.Clearance},
		"just not":         {units.MM(9.9), units.MM(10).Add(one), fits.Transition},
		"may touch":        {units.MM(10.02), units.MM(10.1), fits.Interference},
		"may be just free": {units.MM(10.02).Sub(one), units.MM(10.1), fits.Transition},
	} {
		r, err := fits.Mate(hole, fits.Limits{Nominal: units.MM(10), Min: tt.min, Max: tt.max})
		if err != nil || r.Kind != tt.kind {
			t.Errorf("%s: %v, %v", name, r.Kind, err)
		}
	}
}

// Two measured parts at the ends of the rules for press fits, and what is wanted at its
// ends.
func TestMeasuredEdges(t *testing.T) {
	one := units.Picometres(1)
	press, _, err := fits.RuleSpan("press", units.Inch(1))
	if err != nil {
		t.Fatal(err)
	}
	for name, tt := range map[string]struct {
		over units.Length
		code finding.Code
	}{
		"none":            {units.Length{}, ""},
		"just something":  {one, fits.LocatesOnly},
		"below the least": {press.Min.Sub(one), fits.LocatesOnly},
		"the least":       {press.Min, fits.PressFit},
		"the most":        {press.Max, fits.PressFit},
		"more":            {press.Max.Add(one), fits.BeyondPressRules},
	} {
		r, err := fits.Measured(units.Inch(1), units.Inch(1).Add(tt.over))
		if err != nil || (tt.code == "") != (len(r.Findings) == 0) || tt.code != "" && r.Findings[0].Code != tt.code {
			t.Errorf("%s: %v, %v", name, r.Findings, err)
		}
		if want := -tt.over.Inch(); r.Share > want+1e-9 || r.Share < want-1e-9 {
			t.Errorf("%s: share %g", name, r.Share)
		}
	}
	r, err := fits.Measured(units.MM(10.05), units.MM(10))
	if err != nil {
		t.Fatal(err)
	}
	wanted := fits.Band{Min: units.MM(0.05), Max: units.MM(0.05)}
	if said := r.CheckWanted(wanted); len(said) != 0 {
		t.Error(said)
	}
	for name, tt := range map[string]struct {
		band fits.Band
		text string
	}{
		"tight": {fits.Band{Min: units.MM(0.05).Add(one), Max: units.MM(0.06)}, "too big"},
		"loose": {fits.Band{Min: units.MM(0.04), Max: units.MM(0.05).Sub(one)}, "too small"},
	} {
		said := r.CheckWanted(tt.band)
		if len(said) != 1 || said[0].Severity != finding.Fails || !strings.Contains(said[0].Text, tt.text) {
			t.Errorf("%s: %v", name, said)
		}
	}
}

// Reamers are for holes up to 100 mm, and a fraction to the 64th is called by it.
func TestReamerEdges(t *testing.T) {
	for at, ok := range map[units.Length]bool{
		units.MM(100): true, units.MM(100).Add(units.Picometres(1)): false, units.Picometres(1): true, {}: false,
	} {
		if _, err := fits.ReamerFor(at); (err == nil) != ok {
			t.Errorf("%v: %v", at, err)
		}
	}
	for at, name := range map[units.Length]string{
		units.InchFraction(17, 64): "17/64 in", units.Inch(0.2): "5.08 mm", units.MM(6): "6 mm",
	} {
		if r, err := fits.ReamerFor(at); err != nil || r.Name != name || r.Diameter != at {
			t.Errorf("%v: %v, %v", at, r, err)
		}
	}
	bad := fits.Reaming{Reamers: gauge.Metric(), Shaft: fits.Exact(units.MM(6)), Hole: class(t, "h7")}
	if _, err := bad.Choose(); err == nil {
		t.Error("a hole of class h7")
	}
}

// A rule's share of the diameter is between minus one and one, the least first.
func TestRuleEdges(t *testing.T) {
	for name, tt := range map[string]struct {
		min, max float64
		ok       bool
	}{
		"ends": {-1, 1, true}, "one": {1, 1, true}, "below": {-1.01, 1, false},
		"above": {-1, 1.01, false}, "turned": {0.5, 0.4, false},
	} {
		a, err := fits.Rule{ShareMin: tt.min, ShareMax: tt.max}.Allowance(units.MM(10))
		if (err == nil) != tt.ok || tt.ok && (a.Min != units.MM(10).Scale(tt.min) || a.Max != units.MM(10).Scale(tt.max)) {
			t.Errorf("%s: %v, %v", name, a, err)
		}
	}
	for _, topic := range fits.RuleTopics() {
		span, refs, err := fits.RuleSpan(topic, units.Inch(2))
		list, errList := fits.RulesFor(topic)
		if err != nil || errList != nil || refs.IsZero() {
			t.Fatal(err, errList)
		}
		var ends []units.Length
		for _, r := range list {
			a, err := r.Allowance(units.Inch(2))
			if err != nil || !span.Contains(a.Min) || !span.Contains(a.Max) {
				t.Errorf("%s, %s: %v outside %v (%v)", topic, r.Name, a, span, err)
			}
			ends = append(ends, a.Min, a.Max)
		}
		if !slices.Contains(ends, span.Min) || !slices.Contains(ends, span.Max) {
			t.Errorf("%s: %v is nobody's", topic, span)
		}
	}
}

// Places behind the point are 0 to 6.
func TestTextEdges(t *testing.T) {
	l := fits.Exact(units.MM(10))
	for places, ok := range map[int]bool{-1: false, 0: true, 6: true, 7: false} {
		func() {
			defer func() {
				if refused := recover() != nil; refused == ok {
					t.Errorf("%d places: refused %v", places, refused)
				}
			}()
			l.Text(units.Millimetres, places)
		}()
	}
}

// A part that varies by as much as its clearance may leaves one size for its mate.
func TestMakeMateEdges(t *testing.T) {
	band := fits.Band{Min: units.MM(0.01), Max: units.MM(0.03)}
	for _, part := range fits.Features() {
		for width, ok := range map[units.Length]bool{units.MM(0.02): true, units.MM(0.02).Add(units.Picometres(1)): false} {
			made := fits.Limits{Nominal: units.MM(10), Min: units.MM(10), Max: units.MM(10).Add(width)}
			r, err := made.MakeMate(part, band)
			if (err == nil) != ok {
				t.Errorf("%v, %v: %v", part, width, err)
			}
			if ok && (r.Clearance != band || !slices.Contains(fits.Kinds(), r.Kind)) {
				t.Errorf("%v: %v", part, r)
			}
		}
	}
}

// What has no text, and what no text is made of.
func TestBlankTexts(t *testing.T) {
	h7 := class(t, "H7")
	for name, got := range map[string]string{
		"fit": fits.Fit{}.String(), "sized fit": fits.SizedFit{}.String(), "sized class": fits.SizedClass{}.String(), "class": fits.Class{}.String(),
	} {
		if got != "" {
			t.Errorf("no %s is called %q", name, got)
		}
	}
	for name, marshal := range map[string]func() ([]byte, error){
		"a size without a fit":   fits.SizedFit{Nominal: units.MM(5)}.MarshalText,
		"a size without a class": fits.SizedClass{Nominal: units.MM(5)}.MarshalText,
		"two holes":              fits.SizedFit{Nominal: units.MM(5), Fit: fits.Fit{Hole: h7, Shaft: h7}}.MarshalText,
	} {
		if text, err := marshal(); err == nil {
			t.Errorf("%s: %q", name, text)
		}
	}
	if text, err := (fits.SizedFit{}).MarshalText(); err != nil || len(text) != 0 {
		t.Errorf("%q, %v", text, err)
	}
}

// What is asked for what there is not.
func TestUnknowns(t *testing.T) {
	l := fits.Exact(units.MM(10))
	for name, ask := range map[string]func() error{
		"a mate of neither part": func() error { _, err := l.MakeMate(0, fits.Band{}); return err },
		"a gauge of neither":     func() error { _, err := l.Gauges(3); return err },
		"a rule at no diameter":  func() error { _, _, err := fits.RuleSpan("press", units.Length{}); return err },
		"a grade at no size":     func() error { _, err := fits.Grade(7).ToleranceFor(units.Length{}); return err },
		"a part of no size":      func() error { return fits.Limits{}.Validate() },
		"a part below none":      func() error { return fits.Limits{Min: units.MM(-1), Max: units.MM(1)}.Validate() },
		"measured parts of none": func() error { _, err := fits.Measured(units.Length{}, units.MM(1)); return err },
	} {
		if ask() == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if p, ok := (fits.Fit{Hole: class(t, "H5"), Shaft: class(t, "g4")}).Preferred(); ok || p.Name != "" {
		t.Errorf("H5/g4 is preferred: %v", p)
	}
}

// By how much a fit lies outside what is wanted is told to a tenth of a micrometre where
// it is less than one: H7/g6 at 10 mm is 5 to 29 um.
func TestOutsideByLittle(t *testing.T) {
	for least, text := range map[float64]string{5.5: "it may lie 0.0005 mm (0.02 thou) outside", 6: "it may lie 0.001 mm (0.04 thou) outside"} {
		list, err := fits.Choose(units.MM(10), fits.Band{Min: units.Micron(least), Max: units.Micron(29)}, fits.HoleBasis)
		if err != nil || len(list) == 0 {
			t.Fatal(list, err)
		}
		best := list[0]
		if best.Fit.String() != "H7/g6" || len(best.Findings) != 1 || !strings.Contains(best.Findings[0].Text, text) {
			t.Errorf("%g um: %v, %v", least, best.Fit, best.Findings)
		}
	}
}
