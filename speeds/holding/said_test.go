package holding_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// Answers just inside what is accepted and refusals just outside, and what is said of
// wheels and of work that swings: kept. TestMechanics works the figures again.
func TestAnswersKept(t *testing.T) {
	var all strings.Builder
	told := func(list finding.List) string {
		var texts []string
		for _, f := range list {
			texts = append(texts, fmt.Sprintf("%v %s: %s %q [%d]", f.Severity, f.Code, f.Text, f.Remedies, f.Refs.Len()))
		}
		return strings.Join(texts, " | ")
	}
	line := func(name string, v any, err error) {
		said := fmt.Sprint(v)
		switch v := v.(type) {
		case speeds.Limit:
			said = fmt.Sprintf("%.6g rev/min: %s; %s [%v]", v.Speed.In(units.RevPerMinute), v.Reason, v.Cure, v.Ref)
		case units.RotationalSpeed:
			said = fmt.Sprintf("%.6g rev/min", v.In(units.RevPerMinute))
		case units.Force, units.Energy, units.Mass, units.Pressure:
			said = fmt.Sprintf("%.6g", v)
		case finding.List:
			said = told(v)
		}
		if err != nil {
			if said = err.Error(); v != nil && !reflect.ValueOf(v).IsZero() && reflect.TypeOf(v).Kind() != reflect.String {
				said += fmt.Sprintf(" BESIDE %v", v)
			}
		}
		fmt.Fprintf(&all, "%s: %s\n", name, said)
	}
	rpm, mm, hair, nan := units.RevPerMinute, units.MM, units.Picometres(1000), math.NaN()
	good := holding.Chuck{Marked: 3000 * rpm, Grip: 30000, Moment: 0.5}
	for name, change := range map[string]func(*holding.Chuck){
		"1 good": func(*holding.Chuck) {}, "2 no mark": func(c *holding.Chuck) { c.Marked = 0 }, "3 no grip": func(c *holding.Chuck) { c.Grip = 0 },
	} {
		c := good
		change(&c)
		if err := c.Validate(); (err == nil) != (name == "1 good") {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, moment := range []float64{0, -1, 1e-9, 0.5, 999, 1000, nan} {
		c := good
		c.Moment = moment
		v, err := c.Speed(5000, 2)
		line(fmt.Sprint("chuck, moment ", moment), v, err)
	}
	for _, marked := range []float64{0, 500, 1909.8, 1910, 3000} {
		c := good
		c.Marked = units.RotationalSpeed(marked) * rpm
		v, err := c.Speed(5000, 2)
		line(fmt.Sprint("chuck marked ", marked), v, err)
	}
	for _, tt := range [][2]float64{{5000, 1.49}, {5000, 1.5}, {2999, 10}, {3000, 10}, {2000, 10.01}, {0, 2}, {15000, 2}, {14999, 2}, {5000, nan}} {
		v, err := good.Speed(units.Force(tt[0]), tt[1])
		line(fmt.Sprint("chuck, grip needed and safety ", tt), v, err)
	}
	v, err := holding.MarkedChuck(0)
	line("no mark", v, err)
	for _, d := range []units.Length{mm(40).Sub(hair), mm(40), mm(100), mm(1000), mm(1000).Add(hair)} {
		v, err := holding.UnmarkedChuck(d)
		line(fmt.Sprint("unmarked chuck ", d), v, err)
	}
	for _, limit := range holding.RimLimits() {
		line("rim limit", fmt.Sprintf("%s %.6g ft/min [%v]", limit.Name, limit.Speed.In(units.FootPerMinute), limit.Refs.First().Kind), nil)
	}
	for _, m := range append(material.All(), material.Material{}) {
		v, err := holding.RimLimitFor(m)
		line("rim limit of "+m.Name, fmt.Sprintf("%s %.6g ft/min [%d]", v.Name, v.Speed.In(units.FootPerMinute), v.Refs.Len()), err)
	}
	iron := metal("cast iron")
	edge, err := holding.CheckRim(iron, mm(200), 100*rpm)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []units.RotationalSpeed{0, 1000 * rpm, edge.Max * (1 - 1e-9), edge.Max * (1 + 1e-9), 6000 * rpm} {
		for _, name := range []string{"cast iron", "brass", "mild steel"} {
			c, err := holding.CheckRim(metal(name), mm(200), n)
			line(fmt.Sprintf("wheel of %s at %.6g", name, n.In(rpm)), fmt.Sprintf("%.6g m/s, %.6g MPa, most %.6g %s [%d]; %s", float64(c.Speed), c.Stress.In(units.Megapascal),
				c.Max.In(rpm), c.Limit.Name, c.Refs.Len(), told(c.Findings)), err)
		}
	}
	_, err = holding.CheckRim(iron, units.Length{}, 1)
	line("no wheel", nil, err)
	_, err = holding.CheckRim(metal("cork"), mm(200), 1)
	line("a wheel of cork", nil, err)
	line("to mind of a wheel", edge.Precautions, nil)
	for _, p := range edge.Precautions {
		line("code", p.Code, nil)
	}
	for _, tt := range []struct{ density, v, poisson float64 }{{7200, 24, 0}, {7200, 24, 0.5}, {7200, 24, 0.501}, {7200, 24, -0.001}, {7200, 24, 0.27}, {0, 24, 0.3}, {7200, 0, 0.3}, {7200, 24, nan}} {
		ring, err := holding.RingStress(units.Density(tt.density), units.Speed(tt.v))
		line(fmt.Sprint("ring ", tt), ring, err)
		disc, err := holding.DiscStress(units.Density(tt.density), units.Speed(tt.v), tt.poisson)
		line(fmt.Sprint("disc ", tt), disc, err)
	}
	wheel := holding.Wheel{Mass: 2, Gyration: mm(100)}
	for _, w := range []holding.Wheel{wheel, {Gyration: mm(100)}, {Mass: 2}, {Mass: 2, Gyration: mm(-1)}} {
		for _, n := range []units.RotationalSpeed{0, 30} {
			e, err := w.Energy(n)
			line(fmt.Sprint("energy ", w.Mass, w.Gyration, float64(n)), e, err)
			s, err := w.SpeedSwing(1, n)
			line(fmt.Sprint("swing ", w.Mass, w.Gyration, float64(n)), s, err)
		}
	}
	for _, e := range []units.Energy{0, 5.9999, 6.0001} { // m k^2 w^2 / 3 = 0.02 * 900 / 3
		s, err := wheel.SpeedSwing(e, 30)
		line(fmt.Sprint("swing of ", float64(e)), s, err)
	}
	work := holding.Work{Mass: 3, Offset: mm(20)}
	for _, w := range []holding.Work{work, {Offset: mm(20)}, {Mass: 3}, {Mass: 3, Offset: mm(-1)}} {
		name := fmt.Sprint(" of ", w.Mass, ", ", w.Offset)
		limit, err := w.Limit()
		line("limit"+name, limit, err)
		steady, err := w.Steady()
		line("steady"+name, steady, err)
		for _, f := range []units.Force{0, 100} {
			n, err := w.Speed(f)
			line(fmt.Sprint("speed at ", float64(f), " N", name), n, err)
		}
		for _, r := range []units.Length{{}, mm(-1), mm(60)} {
			m, err := w.Counterweight(r)
			line(fmt.Sprint("counterweight at ", r, name), m, err)
		}
		for _, n := range []units.RotationalSpeed{0, limit.Speed, steady.Speed * (1 - 1e-9), steady.Speed * (1 + 1e-9), 1000 * rpm} {
			f, err := w.Force(n)
			line(fmt.Sprintf("force at %.6g%s", n.In(rpm), name), f, err)
			found, err := w.Check(n)
			line(fmt.Sprintf("check at %.6g%s", n.In(rpm), name), found, err)
		}
	}
	for _, p := range work.Precautions() {
		line(string(p.Code), p, nil)
	}
	for _, v := range []fmt.Stringer{holding.RimLimits()[0], holding.RimCheck{Speed: 1, Stress: 2}} {
		line("print", fmt.Sprintf("%T %v", v, v), nil)
	}
	check.Kept(t, "speeds/holding/kept/answers.txt", all.String())
}

// A rim that runs at its limit just is within it, and a metal as strong for its weight
// as iron is not brought down.
func TestJustWithin(t *testing.T) {
	iron := metal("cast iron")
	limit := must(holding.RimLimitFor(iron))
	c := must(holding.CheckRim(iron, units.MM(2000), units.RotationalSpeed(limit.Speed))) // 2 m: v = n
	if c.Speed != limit.Speed || c.Findings[0].Code != holding.RimWithinLimit {
		t.Errorf("%v", c)
	}
	same := metal("brass")
	same.Yield.Value, same.Density.Value = iron.Tensile.Value, holding.CastIronDensity
	if got := must(holding.RimLimitFor(same)); got.Speed != limit.Speed || strings.Contains(got.Name, "brought down") {
		t.Errorf("%v", got)
	}
}

// Mechanics, worked again in kilograms, metres and seconds.
func TestMechanics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		near := func(name string, got, want float64) {
			if math.Abs(got-want) > 1e-9*math.Abs(want) {
				t.Fatalf("%s: %v, want %v", name, got, want)
			}
		}
		between := func(name string, a, b float64) float64 { return rapid.Float64Range(a, b).Draw(t, name) }
		turns, mass := between("turns a second", 0.1, 50), between("mass", 0.01, 50)
		n, w := units.RotationalSpeed(turns)*units.RevPerSecond, 2*math.Pi*turns
		mm := math.Round(between("mm", 1, 500)*1e3) / 1e3
		r := mm / 1000
		wheel := holding.Wheel{Mass: units.Mass(mass), Gyration: units.MM(mm)}
		near("energy", float64(must(wheel.Energy(n))), mass*math.Pow(w*r, 2)/2) // m v^2 / 2
		// The energies at the two speeds are the fluctuation apart.
		energy := between("share", 0.001, 0.3) * mass * w * w * r * r
		swing := float64(must(wheel.SpeedSwing(units.Energy(energy), n)))
		high, low := w+swing/2, w-swing/2
		near("swing", mass*r*r*(high*high-low*low)/2, energy)

		work := holding.Work{Mass: units.Mass(mass), Offset: units.MM(mm)}
		force := float64(must(work.Force(n)))
		near("force", force, mass*math.Pow(w*r, 2)/r) // m v^2 / r
		near("speed", float64(must(work.Speed(units.Force(force)))), w)
		near("ten weights", float64(must(work.Force(must(work.Limit()).Speed))), 10*mass*9.80665)
		near("its weight", float64(must(work.Force(must(work.Steady()).Speed))), mass*9.80665)
		near("counterweight", float64(must(work.Counterweight(units.MM(2*mm)))), mass/2)
		if found := must(work.Check(n)); (len(found) > 0) != (force > mass*9.80665) {
			t.Fatalf("%v N on %v kg: %v", force, mass, found)
		}
		// Jaws let go where what flies outwards is all of the grip that is left.
		grip, needed, safety := between("grip", 1e3, 1e5), between("needed", 10, 300), between("safety", 1.5, 3)
		c := holding.Chuck{Marked: 1e6, Grip: units.Force(grip), Moment: between("moment", 0.01, 10)}
		at := float64(must(c.Speed(units.Force(needed), safety)).Speed)
		near("jaws", c.Moment*at*at+safety*needed, grip)
		ring := float64(must(holding.RingStress(units.Density(7200), units.Speed(w*r))))
		near("ring", ring, 7200*w*w*r*r)
		near("disc", float64(must(holding.DiscStress(units.Density(7200), units.Speed(w*r), 0.25))), ring*3.25/8)
	})
}

// must returns a value; its error ends the test.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
