package cover

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// What decides a finding does so at its very figure.
func TestFindingsAtTheLimits(t *testing.T) {
	const mpa = units.Megapascal
	pm := units.Picometres(1)
	look := func(name string) material.Material {
		m, err := material.Lookup(name)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	judged := func(thickness, bulge, across units.Length) string {
		p := Plate{Thickness: thickness, Supported: Bending{Deflection: bulge}}
		p.judge(across)
		return codes(p.Findings)
	}
	stressed := func(stress units.Pressure, of string) string {
		return codes(Plate{Thickness: units.MM(2), Supported: Bending{Stress: stress}}.Check(look(of)))
	}
	steel := look("mild steel").Yield.Value
	more := func(p units.Pressure) units.Pressure { return units.Pressure(math.Nextafter(float64(p), math.Inf(1))) }
	for _, test := range []struct{ name, got, want string }{
		{"bulges by half", judged(units.MM(2), units.MM(1), units.MM(8)), ""},
		{"and more", judged(units.MM(2), units.MM(1).Add(pm), units.MM(8)), "danger cover-bulges"},
		{"thicker than a quarter", judged(units.MM(2).Add(pm), units.MM(1), units.MM(8)), "note thick-plate"},
		// Lobben's rule ends at 2500 and 6000 lb/in2, the other at 50 MPa.
		{"iron at the first rule", stressed(2500*units.PSI, "cast iron"), ""},
		{"iron above the first", stressed(more(2500*units.PSI), "cast iron"), "caution cover-stress"},
		{"iron at both", stressed(50*mpa, "cast iron"), "caution cover-stress"},
		{"iron above both", stressed(more(50*mpa), "cast iron"), "danger cover-stress"},
		{"wrought iron at its rule", stressed(6000*units.PSI, "wrought iron"), ""},
		{"wrought iron above", stressed(more(6000*units.PSI), "wrought iron"), "danger cover-stress"},
		{"half the yield", stressed(steel/2, "mild steel"), ""},
		{"above half", stressed(more(steel/2), "mild steel"), "fails cover-stress"},
		{"the yield", stressed(steel, "mild steel"), "fails cover-stress"},
		{"above it", stressed(more(steel), "mild steel"), "danger cover-stress"},
		{"no figure", stressed(1, "zinc alloy"), "caution cover-stress"},
	} {
		if test.got != test.want {
			t.Errorf("%s: %q, want %q", test.name, test.got, test.want)
		}
	}
}

func codes(fs finding.List) string {
	var all []string
	for _, f := range fs {
		all = append(all, f.Severity.String()+" "+string(f.Code))
	}
	return strings.Join(all, ", ")
}

// The ends of what is accepted, and the next figure.
func TestAcceptedAtTheLimits(t *testing.T) {
	wall := Wall{Bore: units.MM(20), Thickness: units.MM(2)}
	lame := func(p, outside units.Pressure, r units.Length) error { return check.Only(wall.Lame(p, outside, r)) }
	round := func(v float64) error {
		return check.Only(Round{Diameter: units.MM(40), Thickness: units.MM(2), Elastic: 2e11, Poisson: v}.Under(1e5))
	}
	rect := func(long units.Length) error {
		return check.Only(Rectangular{Short: units.MM(20), Long: long, Thickness: units.MM(2), Elastic: 1e11}.Under(1e5))
	}
	tested := func(ratio float64) error { return check.Only(TestPractice{Ratio: ratio}.Pressure(1e5)) }
	pm := units.Picometres(1)
	for name, test := range map[string][2]error{
		"pressure inside":  {lame(1e12, 0, units.MM(11)), lame(units.Pressure(math.Nextafter(1e12, 2e12)), 0, units.MM(11))},
		"pressure outside": {lame(0, 1e12, units.MM(11)), lame(0, 1.1e12, units.MM(11))},
		"no pressure":      {lame(0, 0, units.MM(11)), lame(-1e-9, 0, units.MM(11))},
		"inner radius":     {lame(1, 0, units.MM(10)), lame(1, 0, units.MM(10).Sub(pm.Scale(3)))},
		"outer radius":     {lame(1, 0, units.MM(12)), lame(1, 0, units.MM(12).Add(pm.Scale(3)))},
		"Poisson's ratio":  {round(0.5), round(0.5000001)},
		"and below":        {round(1e-9), round(0)},
		"long side":        {rect(units.MM(20)), rect(units.MM(20).Sub(pm))},
		"stress":           {check.Only(wall.Solve(1e5, 1.01e5)), check.Only(wall.Solve(1e5, 1e5))},
		"ratio":            {tested(1e-9), tested(0)},
		"ratio, upper":     {tested(math.Nextafter(100, 0)), tested(100)},
		"cut": {check.Only(CutThin(units.MM(4), units.MM(4).Sub(pm), JointFace)),
			check.Only(CutThin(units.MM(4), units.MM(4), JointFace))},
	} {
		if test[0] != nil || test[1] == nil {
			t.Errorf("%s: %v, %v", name, test[0], test[1])
		}
	}
	const head = "# title: t\n# edition: 1\n# unit: ratio\n# held: as typed\n# errata: none\n# source trade | common practice | |\n" +
		"case,ratio,medium,note,source,locator\nx,%s,water,n,trade,\n"
	for ratio, good := range map[string]bool{"1": true, "3": true, "0.999": false, "3.001": false} {
		files := fstest.MapFS{"t.csv": {Data: []byte(fmt.Sprintf(head, ratio))}}
		if _, _, err := table.Read(files, "t.csv", practices.Row); (err == nil) != good {
			t.Errorf("a ratio of %s: %v", ratio, err)
		}
	}
}

// What prints of each result, and the findings with their figures and remedies.
func TestAnswersAsTheyRead(t *testing.T) {
	var said strings.Builder
	tell := func(v any, err error) {
		text, _, _ := strings.Cut(fmt.Sprint(v), ", findings ")
		fmt.Fprintln(&said, text, err)
	}
	list := func(fs finding.List) {
		for _, f := range fs {
			fmt.Fprintf(&said, "  %s %s: %s | %s\n", f.Code, f.Severity, f.Text, strings.Join(f.Remedies, " | "))
		}
	}
	iron, err := material.Lookup("cast iron")
	if err != nil {
		t.Fatal(err)
	}
	steel, err := material.Lookup("mild steel")
	if err != nil {
		t.Fatal(err)
	}
	zinc, err := material.Lookup("zinc alloy")
	if err != nil {
		t.Fatal(err)
	}
	for _, thickness := range []float64{0.3, 0.8, 1.6, 3, 9} {
		round, err := Round{Diameter: units.MM(32), Thickness: units.MM(thickness), Elastic: 1e11,
			Poisson: 0.26}.Under(7 * units.Bar)
		tell(round, err)
		list(round.Findings)
		rect, err := Rectangular{Short: units.MM(34), Long: units.MM(51), Thickness: units.MM(thickness),
			Elastic: 2e11}.Under(7 * units.Bar)
		tell(rect, err)
		list(rect.Findings)
		for _, m := range []material.Material{iron, steel, zinc} {
			list(round.Check(m))
			list(rect.Check(m))
		}
	}
	for _, face := range Faces() {
		for _, cut := range []float64{0.1, 0.9, 1.5} {
			c, err := CutThin(units.MM(3), units.MM(cut), face)
			tell(c, err)
			list(c.Findings)
		}
	}
	wall := Wall{Bore: units.MM(25), Thickness: units.MM(3)}
	for _, p := range []units.Pressure{7 * units.Bar, 40 * units.Megapascal} {
		hoop, err := wall.Hoop(p)
		tell(hoop, err)
		lame, err := wall.Lame(p, 1*units.Bar, units.MM(14))
		tell(lame, err)
		walls, err := wall.Solve(p, 60*units.Megapascal)
		tell(walls, err)
		rules, err := HeadRules(units.MM(32), p, 15*units.Megapascal)
		tell(rules, err)
	}
	for _, h := range HeadStresses() {
		tell(h, nil)
	}
	for _, l := range ThinLimits() {
		tell(l, nil)
	}
	for _, p := range TestPractices() {
		pressure, err := p.Pressure(5 * units.Bar)
		tell(p, err)
		tell(pressure, err)
	}
	check.Kept(t, "gasket/cover/kept/answers.txt", check.Rounded(said.String()))
}
