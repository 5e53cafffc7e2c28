package fits_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
)

// What prints of each kind of result, and what is said beside it.
func TestAnswersAsTheyRead(t *testing.T) {
	var said strings.Builder
	tell := func(name string, v any, fs finding.List, err error) {
		text, _, _ := strings.Cut(fmt.Sprint(v), ", findings ")
		text, _, _ = strings.Cut(text, ", from ")
		fmt.Fprintf(&said, "%s: %s %v\n", name, text, err)
		for _, f := range fs {
			fmt.Fprintf(&said, "  %s %s: %s | %s\n", f.Code, f.Severity, f.Text, strings.Join(f.Remedies, " | "))
		}
	}
	mm := units.MM
	wanted := fits.Band{Min: mm(0.01), Max: mm(0.04)}
	tell("band", wanted, nil, nil)
	choices, err := fits.Choose(mm(12), wanted, fits.HoleBasis)
	for _, c := range choices {
		tell("choice", c, c.Findings, err)
	}
	inch, err := fits.ChooseInch(units.Inch(0.5), fits.Band{Min: units.Thou(0.2), Max: units.Thou(1)})
	for _, c := range inch[:8] {
		tell("inch choice", c, c.Findings, err)
	}
	none, err := fits.ChooseInch(units.Inch(21.98765), wanted)
	tell("inch choice of none", none, nil, err)
	for _, text := range []string{"H7/f7", "H7/p6", "H7/s6", "H11/c11", "K7/h6", "H7/u6"} {
		f, err := fits.ParseFit(text)
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range []float64{3, 12, 60} {
			r, err := f.LimitsFor(mm(size))
			tell(fmt.Sprintf("%g mm %s", size, text), r, nil, err)
			tell("  hole", r.Hole, nil, nil)
			g, err := r.Shaft.Gauges(fits.Shaft)
			tell("  gauges", g, nil, err)
			m, err := r.Hole.RoundInward(units.Thou(0.1))
			tell("  measurable", m, nil, err)
			said.WriteString("  as text: " + r.Hole.Text(units.Inches, 4) + ", " + r.Shaft.Text(units.Millimetres, 2) + "\n")
		}
	}
	for _, f := range fits.InchFits() {
		r, err := f.LimitsFor(units.Inch(0.999))
		tell("0.999 in "+f.String(), r, nil, err)
		if far, err := f.LimitsFor(units.Inch(12.34567)); err != nil {
			said.WriteString("  " + err.Error() + "\n")
		} else {
			tell("  far", far.Clearance, nil, nil)
		}
		said.WriteString("  " + f.Use() + "\n")
	}
	for _, cut := range [][2]float64{{12.01, 11.99}, {12, 12}, {11.99, 12.01}, {11.98, 12.03}, {11.5, 12}} {
		m, err := fits.Measured(mm(cut[0]), mm(cut[1]))
		tell(fmt.Sprint("measured ", cut), m, nil, err)
	}
	for _, basis := range []fits.Basis{fits.HoleBasis, fits.ShaftBasis} {
		all, err := fits.PreferredFits(basis)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range all {
			tell("preferred", p, nil, nil)
		}
	}
	for _, topic := range fits.RuleTopics() {
		rules, err := fits.RulesFor(topic)
		for _, r := range rules {
			tell("rule", r, nil, err)
			band, err := r.Allowance(mm(25))
			tell("  at 25 mm", band, nil, err)
		}
	}
	stack, err := fits.Stack([]fits.Link{
		{Name: "cylinder", Size: fits.Limits{Nominal: mm(50), Min: mm(50), Max: mm(50.1)}},
		{Name: "piston", Size: fits.Limits{Nominal: mm(12), Min: mm(11.95), Max: mm(12)}, Subtract: true},
		{Size: fits.Exact(mm(30)), Subtract: true},
	})
	tell("stack", stack, nil, err)
	for _, links := range [][]fits.Link{
		nil, {{Size: fits.Exact(mm(1))}, {Name: "rod", Size: fits.Limits{Min: mm(2), Max: mm(1)}}},
		{{}, {}, {Size: fits.Exact(units.MM(1e6).Scale(2))}},
	} {
		bad, err := fits.Stack(links)
		tell("stack refused", bad, nil, err)
	}
	reamers, err := gauge.NewSet(gauge.Size{Name: "6", Diameter: mm(6)}, gauge.Size{Name: "6.02", Diameter: mm(6.02)})
	if err == nil {
		choices, err := fits.Reaming{Reamers: reamers, Shaft: fits.Exact(mm(5.99)), Clearance: wanted}.Choose()
		for _, c := range choices {
			tell("reamer", c, c.Findings, err)
		}
	}
	for _, g := range []fits.Grade{fits.IT01, 0, 1, 7, 18, 19, -2} {
		text, err := g.MarshalText()
		tell("grade "+g.String(), string(text), nil, err)
	}
	check.Kept(t, "fits/kept/answers.txt", check.Rounded(said.String()))
}

// What is said of classes that the standard does not have at a size: of every letter, hole
// and shaft, at sizes on both sides of those at which a rule changes.
func TestClassesNotUsed(t *testing.T) {
	var said strings.Builder
	for _, letter := range fits.Letters {
		for _, name := range []string{strings.ToUpper(letter), letter} {
			var line []string // what is said of a grade, and of those after it alike
			last := ""
			for _, grade := range []string{"1", "2", "3", "5", "6", "8", "9"} {
				text := ""
				for _, size := range []float64{1, 1.1, 3, 3.1, 10.1, 500, 501, 3150} {
					c, err := fits.ParseClass(name + grade)
					if err == nil {
						_, err = c.LimitsFor(units.MM(size))
					}
					if err == nil {
						continue
					}
					_, problem, _ := strings.Cut(err.Error(), ": ")
					_, problem, _ = strings.Cut(problem, ": ")
					if problem = fmt.Sprintf("%.34s", problem); strings.HasSuffix(text, problem) {
						text = strings.TrimSuffix(text, ": "+problem)
					}
					text += fmt.Sprintf(" %g: %s", size, problem)
				}
				if text != last || line == nil {
					line = append(line, "IT"+grade+text)
				}
				last = text
			}
			fmt.Fprintf(&said, "%s: %s\n", name, strings.Join(line, "; "))
		}
	}
	for _, text := range []string{"", "7", "H", "h", "Hh7", "i6", "H19", "H01", "h0", "CD7", "cD7", "zc11", "jS6", "js6", "H 7", "h07"} {
		c, err := fits.ParseClass(text)
		fmt.Fprintf(&said, "%q: %v, %v\n", text, c, err)
	}
	for _, text := range []string{"IT7", "it01", "7", "01", "ITX", "IT", "I7", "IT19", "IT-1", ""} {
		g, err := fits.ParseGrade(text)
		fmt.Fprintf(&said, "%q: %v, %v\n", text, g, err)
	}
	for _, text := range []string{"RC4", "rc 4", "RC10", "RC", "FN", "LC99", "L", "ZZ1", ""} {
		f, err := fits.ParseInchFit(text)
		fmt.Fprintf(&said, "%q: %v, %v\n", text, f, err)
	}
	for _, text := range []string{"12 H7/f7", "12H7/f7", "12 mm Z7/f7", "12 a", "12 z", "12 A9", "12 Z99", "12 3", "12 [x", "0.5 in H7/g6", "x", "ø12 H7/g6", strings.Repeat(" ", 70) + "12 H7"} {
		f, err := fits.ParseSizedFit(text)
		fmt.Fprintf(&said, "%q: %v, %v\n", text, f, err)
	}
	check.Kept(t, "fits/kept/not_used.txt", said.String())
}

// The ends of a band are within it, and a picometre beyond is not.
func TestBandContains(t *testing.T) {
	b := fits.Band{Min: units.MM(1), Max: units.MM(2)}
	pm := units.Picometres(1)
	for size, want := range map[units.Length]bool{
		b.Min: true, b.Min.Sub(pm): false, b.Max: true, b.Max.Add(pm): false, units.MM(1.5): true, units.MM(9): false,
		{}: false,
	} {
		if b.Contains(size) != want {
			t.Errorf("%v: %v", size, !want)
		}
	}
}
