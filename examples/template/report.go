package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// report says what is to be said of the part, the worst first, what to punch, and
// how the joint is loaded and tightened. It returns the findings.
func report(w io.Writer, o gasket.Outline, t *template.Template, j job, file string) (finding.List, error) {
	m, err := o.Measure()
	if err != nil {
		return nil, err
	}
	webs, err := o.Webs()
	if err != nil {
		return nil, err
	}
	ofSheet, err := o.Check(j.thickness)
	if err != nil {
		return nil, err
	}
	load, err := loadOf(o, m, j)
	if err != nil {
		return nil, err
	}
	findings := slices.Concat(load.Findings, ofSheet)
	findings.Sort()
	fmt.Fprintf(w, "\n%s, %v thick, on %s of %v\n", shown(o.Name), j.thickness, sheets(t.Pages()), j.options.Paper)
	tell(w, findings)
	fmt.Fprintf(w, "  files     %[1]s.pdf, %[1]s.dxf and %[1]s-1.svg in the folder of -out;\n", file)
	fmt.Fprintf(w, "            print at 100 %%, and measure the bars before anything is cut\n")
	fmt.Fprintf(w, "  area      %.0f mm2 of gasket, %.0f mm2 inside its edge\n", mm2(m.Area), mm2(m.Enclosed))
	if len(webs) > 0 {
		least := webs[0] // they come narrowest first
		fmt.Fprintf(w, "  least web %s, between %s and %s\n", both(least.Width), least.From, least.To)
	}
	for _, h := range t.Holes() {
		punch := "no punch of the rack will do: cut with a knife"
		if !h.Punch.IsZero() {
			punch = "punch " + h.Punch.Text(units.Millimetres, 1)
		}
		fmt.Fprintf(w, "  holes     %d of %s: %s\n", h.Count, both(h.Diameter), punch)
	}
	return findings, reportJoint(w, o, m, load, j)
}

// loadOf reckons with the pressure out to the edge of the gasket, as if it had
// leaked that far.
func loadOf(o gasket.Outline, m gasket.Measures, j job) (joint.StudLoad, error) {
	force, err := joint.EndForce(j.pressure, m.Enclosed)
	if err != nil {
		return joint.StudLoad{}, err
	}
	bolt, err := strength.BoltFor(stud(), studClass)
	if err != nil {
		return joint.StudLoad{}, err
	}
	return joint.Studs{
		Number: len(o.Holes), Diameter: stud().Major(),
		StressArea: bolt.Area, Proof: bolt.Proof, Preload: joint.InCasting,
	}.Load(force)
}

// reportJoint shows how the load of the studs and their torque are worked out.
func reportJoint(w io.Writer, o gasket.Outline, m gasket.Measures, load joint.StudLoad, j job) error {
	bolt, err := strength.BoltFor(stud(), studClass)
	if err != nil {
		return err
	}
	tighten := strength.Tightening{Diameter: stud().Major(), Factor: strength.DryThreads(), Pull: load.Preload}
	nut, err := tighten.Solve()
	if err != nil {
		return err
	}
	order, err := joint.Order(o.Holes)
	if err != nil {
		return err
	}
	n := len(o.Holes)
	numbers := make([]string, n)
	for i, k := range order {
		numbers[i] = fmt.Sprint(k)
	}
	area := mm2(bolt.Area)
	fmt.Fprintf(w, "  load      F = p A = %.3g bar x %.0f mm2 = %.0f N, to the edge of the gasket\n",
		j.pressure.In(units.Bar), mm2(m.Enclosed), load.Total)
	fmt.Fprintf(w, "            on each stud F / n = %.0f / %d = %.1f N,\n", load.Total, n, load.Working)
	fmt.Fprintf(w, "            %.1f MPa in the %.2f mm2 of %v\n", load.Stress.In(units.Megapascal), area, stud())
	margin, _ := load.Margin() // there is pressure: the flag says so
	fmt.Fprintf(w, "  preload   %g x %.0f MPa x %.2f mm2 = %.0f N, %.1f times the load;\n",
		joint.InCasting, bolt.Proof.In(units.Megapascal), area, load.Preload, margin)
	fmt.Fprintf(w, "            class %s, stress area and proof by ISO 898-1, and %g as a thread\n", studClass, joint.InCasting)
	fmt.Fprintln(w, "            tapped in a casting strips first (common practice)")
	fmt.Fprintf(w, "  torque    T = K F d = %g x %.0f N x %v = %.2f N m (%.1f lbf in);\n",
		nut.Factor.K, load.Preload, stud().Major(), nut.Torque, nut.Torque.In(units.PoundForceInch))
	fmt.Fprintf(w, "            K of %s (%v);\n", nut.Factor.Condition, nut.Factor.Refs.First().Kind)
	fmt.Fprintf(w, "            by torque alone each stud has %.0f to %.0f N\n", nut.PullMin, nut.PullMax)
	fmt.Fprintf(w, "  tighten   %s, in three rounds; once more, cold,\n", strings.Join(numbers, " "))
	fmt.Fprintln(w, "            after the first steaming")
	return nil
}

func mm2(a units.Area) float64 { return a.In(units.SquareMillimetre) }

func both(l units.Length) string {
	return l.Text(units.Millimetres, 2) + " (" + l.Text(units.Thousandths, 0) + ")"
}

// warn writes what to mind with every part.
func warn(w io.Writer) {
	fmt.Fprintln(w)
	for _, p := range slices.Concat(template.Precautions(), joint.Precautions()) {
		fmt.Fprint(w, cli.Fit("- "+p.String()+"\n"))
	}
	fmt.Fprintln(w, "- Prove the joint cold with water before steam; boilers go by the code of the")
	fmt.Fprintln(w, "  place and its inspector.")
}

// tell writes findings in lines of at most 78 characters.
func tell(w io.Writer, findings finding.List) {
	for _, f := range findings {
		line := " "
		for _, word := range strings.Fields(f.String()) {
			if len(line)+1+len(word) > 78 {
				fmt.Fprintln(w, line)
				line = "           "
			}
			line += " " + word
		}
		fmt.Fprintln(w, line)
	}
}

// shown returns a name with a mark for what a terminal would act upon.
func shown(name string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return unicode.ReplacementChar
		}
		return r
	}, name)
}

func sheets(n int) string {
	if n == 1 {
		return "1 sheet"
	}
	return fmt.Sprintf("%d sheets", n)
}
