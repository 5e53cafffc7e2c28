package hole_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

func told(all finding.List) string {
	var texts []string
	for _, f := range all {
		texts = append(texts, fmt.Sprintf("%v %s: %s %q [%d]", f.Severity, f.Code, f.Text, f.Remedies, f.Refs.Len()))
	}
	return strings.Join(texts, " | ")
}

// Answers just inside what is accepted and refusals just outside, and what is said
// where a set has no drill: kept. The figures of rules are checked against their
// sources in TestReamingStock and TestBench.
func TestAnswersKept(t *testing.T) {
	var all strings.Builder
	line := func(name string, v any, err error) {
		said := fmt.Sprint(v)
		if err != nil {
			if said = err.Error(); v != nil && !reflect.ValueOf(v).IsZero() && reflect.TypeOf(v).Kind() != reflect.String {
				said += fmt.Sprintf(" BESIDE %v", v)
			}
		}
		fmt.Fprintf(&all, "%s: %s\n", name, said)
	}
	mm, deg, hair, none := units.MM, units.Degree, units.Picometres(1000), units.Length{}
	for _, w := range []units.Length{none, hair.Neg(), mm(6)} {
		v, err := hole.ChainDrill(w)
		line(fmt.Sprint("chain drill ", w), v, err)
	}
	for _, tt := range [][3]units.Length{
		{mm(30), mm(6), mm(5)}, {mm(30), mm(6), mm(5.4)}, {mm(30), mm(6), mm(5.4).Add(hair)}, {mm(30), mm(6), none}, {mm(6), mm(6), mm(5)}, {mm(6).Sub(hair), mm(6), mm(5)}, {mm(30), none, mm(5)},
		{mm(11.5), mm(6), mm(5)}, {mm(11.5).Sub(mm(0.001)), mm(6), mm(5)}, {mm(17), mm(6), mm(5)}, {mm(1104.9), mm(6), mm(1)}, {mm(1106), mm(6), mm(1)},
	} {
		v, err := hole.ChainFor(tt[0], tt[1], tt[2])
		if len(v.Centres) > 10 {
			v.Centres = v.Centres[len(v.Centres)-2:]
		}
		line(fmt.Sprint("chain ", tt), fmt.Sprintf("%v by %.6g mm at %v [%v]", v.Drill, v.Pitch.MM(), v.Centres, v.Refs), err)
	}
	for _, d := range []string{"0.0134999 in", "0.0135 in", "1/8 in", "1/8 in+", "1/4 in", "1/2 in", "1 in", "2 in", "2 in+", "0 in"} {
		text, more := strings.CutSuffix(d, "+")
		drill := units.MustLength(text)
		if more {
			drill = drill.Add(hair)
		}
		v, err := hole.DrilledFor(drill)
		line("drilled "+d, fmt.Sprintf("%.6g to %.6g in %v", v.Min.Sub(drill).Inch(), v.Max.Sub(drill).Inch(), v.Refs.First().Locator), err)
	}
	for _, m := range append(material.All(), material.Material{}) {
		v, err := hole.PointFor(m)
		line("point for "+m.Name, fmt.Sprintf("%s %.6g, %.6g to %.6g, %s", v.Material, v.Angle.Degrees(), v.ClearanceMin.Degrees(), v.ClearanceMax.Degrees(), v.Helix), err)
	}
	for _, d := range []units.Length{
		mm(1).Sub(hair), mm(1), mm(5), mm(5).Add(hair), mm(10), mm(20), mm(20).Add(hair), mm(50), mm(50).Add(hair), mm(100), mm(100).Add(hair), units.Inch(0.25), units.Inch(1), units.Inch(2),
	} {
		for _, name := range []string{"mild steel", "aluminium"} {
			v, err := hole.ReamingFor(d, metal(name))
			if err != nil {
				line(fmt.Sprint("reaming ", d, " in ", name), nil, err)
				continue
			}
			for _, rule := range v {
				line(fmt.Sprint("reaming ", d, " in ", name), fmt.Sprintf("%s %v to %v, never below %v %s [%d] %v %v", rule.Rule, rule.Min, rule.Max, rule.NeverBelow, rule.Note, rule.Refs.Len(),
					rule.Contains(rule.Min) && rule.Contains(rule.Max), rule.Contains(rule.Min.Sub(hair)) || rule.Contains(rule.Max.Add(hair))), nil)
			}
		}
	}
	for _, m := range []material.Material{{}, {Name: "cheese"}, metal("cork"), metal("nitrile rubber"), metal("plastic")} {
		v, err := hole.ReamingFor(mm(6), m)
		line("reaming in "+m.Name, len(v), err)
	}
	for _, tt := range []struct {
		clearance, tapping units.Length
		point              units.Angle
	}{
		{mm(5.5), mm(4.2), 0}, {mm(5.5), mm(4.2), 118 * deg}, {mm(5.5), mm(4.2), 60 * deg}, {mm(5.5), mm(4.2), 59.999 * deg}, {mm(5.5), mm(4.2), 179.9 * deg}, {mm(5.5), mm(4.2), 180 * deg},
		{mm(5.5), mm(5.5), 0}, {mm(5.5), mm(5.5).Sub(hair), 0}, {none, mm(5), 0}, {mm(5), none, 0}, {mm(100), mm(5), 0}, {mm(100).Add(hair), mm(5), 0}, {mm(5.5), mm(4.2), units.Angle(math.NaN())},
	} {
		v, err := hole.SpotThrough(tt.clearance, tt.tapping, tt.point)
		line(fmt.Sprintf("spot %v %v %.6g", tt.clearance, tt.tapping, tt.point.Degrees()), fmt.Sprintf("%v %.6g %.6g %v [%v]", v.Transfer, v.Tip.MM(), v.Most.MM(), v.Tapping, v.Refs), err)
	}
	halves, err := gauge.ParseSet("1-13x0.5 mm")
	if err != nil {
		t.Fatal(err)
	}
	letters, few := gauge.Letter(), must(gauge.ParseSet("3 mm, 9.2 mm, 9.25 mm"))
	for _, set := range []gauge.Set{{}, halves, letters, few, gauge.Fraction()} {
		name := fmt.Sprintf("%d drills", set.Len())
		for _, d := range []units.Length{none, mm(-1), mm(0.7), mm(0.75), mm(3), mm(3.1), mm(3.4), mm(6.35), mm(13.25), mm(13.3), mm(40)} {
			v, err := hole.DrillsFor(d, set)
			line(fmt.Sprint(name, " for ", d), fmt.Sprint(v.Sizes, " ", told(v.Findings)), err)
		}
		for _, d := range []float64{0.5, 3, 6, 6.35, 8, 9.525, 10, 12, 30} {
			v, err := hole.ReamingDrillFor(mm(d), metal("mild steel"), set)
			line(fmt.Sprint(name, " before a reamer of ", d), fmt.Sprint(v, " ", told(v.Findings)), err)
		}
	}
	backwards := hole.Reaming{Min: mm(2), Max: mm(1)}
	_, err = backwards.Drills(halves)
	line("a rule backwards", nil, err)
	_, err = hole.ReamingDrillFor(mm(6), material.Material{}, halves)
	line("no metal", nil, err)
	for _, v := range []fmt.Stringer{must(hole.ChainFor(mm(20), mm(6), mm(5))), must(hole.DrilledFor(mm(5))), must(hole.DrillsFor(mm(3), halves)), must(hole.PointFor(metal("brass"))), must(hole.ReamingFor(mm(6), metal("brass")))[0], must(hole.SpotThrough(mm(5.5), mm(5), 90*deg))} {
		line("print", fmt.Sprintf("%T %v", v, v), nil)
	}
	check.Kept(t, "speeds/hole/kept/answers.txt", all.String())
}

// A chain has as many holes as go in with a tenth of a drill between them: one more is
// too many, and the last stands at the centre of the end.
func TestChainByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		micron := func(name string, a, b int) units.Length {
			return units.Micron(float64(rapid.IntRange(a, b).Draw(t, name)))
		}
		width := micron("width", 1000, 20000)
		length := width.Add(micron("longer", 0, 100000))
		drill := width.Scale(rapid.Float64Range(0.3, 0.9).Draw(t, "share"))
		c, err := hole.ChainFor(length, width, drill)
		if err != nil {
			t.Fatal(err)
		}
		span, apart := length.Sub(width).MM(), 1.1*drill.MM()
		n := len(c.Centres)
		if n == 1 {
			if span >= apart || c.Centres[0] != length.Scale(0.5) || !c.Pitch.IsZero() {
				t.Fatalf("%v in %v by %v: %v", drill, length, width, c)
			}
			return
		}
		if c.Pitch.MM() < apart-1e-6 || span/float64(n) >= apart+1e-6 || c.Centres[0] != width.Scale(0.5) ||
			math.Abs(c.Centres[n-1].MM()-(length.MM()-width.MM()/2)) > 1e-6 {
			t.Fatalf("%v in %v by %v: %v", drill, length, width, c)
		}
		for i := 1; i < n; i++ {
			if math.Abs(c.Centres[i].Sub(c.Centres[i-1]).MM()-c.Pitch.MM()) > 1e-6 {
				t.Fatalf("%v: hole %d", c, i)
			}
		}
	})
}

// The drill before a reamer is of those inside the first rule the nearest to its
// middle, of two as near the larger, found by looking at every drill.
func TestReamingDrillByScan(t *testing.T) {
	set := must(gauge.Metric().With(gauge.Number(), gauge.Letter(), gauge.Fraction()))
	for tenth := 10; tenth <= 250; tenth++ {
		reamer := units.MM(float64(tenth) / 10)
		got, err := hole.ReamingDrillFor(reamer, metal("gunmetal"), set)
		if err != nil {
			t.Fatal(err)
		}
		rules := must(hole.ReamingFor(reamer, metal("gunmetal")))
		var want gauge.Size
		best := units.MM(1000)
		for s := range set.All() {
			off := s.Diameter.Scale(2).Sub(rules[0].Min).Sub(rules[0].Max).Abs()
			if s.Diameter.Cmp(rules[0].Min) >= 0 && s.Diameter.Cmp(rules[0].Max) <= 0 && off.Cmp(best) <= 0 {
				want, best = s, off
			}
		}
		if want.Name != "" && (got.Drill.Diameter != want.Diameter || got.By.Rule != rules[0].Rule || len(got.Findings) > 0) {
			t.Errorf("%v: %v, want %v", reamer, got, want)
		}
		if want.Name == "" && (len(got.Findings) != 1 || got.Drill.Name != "" && !got.By.Contains(got.Drill.Diameter)) {
			t.Errorf("%v: %v, %v", reamer, got, got.Findings)
		}
	}
}

// must returns a value; its error ends the test.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
