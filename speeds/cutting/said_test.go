package cutting_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"pgregory.net/rapid"
)

// said is an answer to six digits, or the refusal.
func said(v any, err error) string {
	if err != nil {
		if !reflect.ValueOf(v).IsZero() {
			return fmt.Sprintf("%v BESIDE %v", v, err)
		}
		return err.Error()
	}
	switch v := v.(type) {
	case units.Length:
		return fmt.Sprintf("%.6g mm", v.MM())
	case units.Speed:
		return fmt.Sprintf("%.6g mm/min", v.In(units.MillimetrePerMinute))
	case units.VolumeFlow:
		return fmt.Sprintf("%.6g cm3/min", v.In(units.CubicCentimetrePerMinute))
	case units.Pressure:
		return fmt.Sprintf("%.6g MPa", v.In(units.Megapascal))
	case units.Power:
		return fmt.Sprintf("%.6g W", float64(v))
	case time.Duration:
		return fmt.Sprintf("%.6g s", v.Seconds())
	case cutting.Load:
		return fmt.Sprintf("%.6g N, %.6g N m, %.6g W [%d]", float64(v.Force), float64(v.Torque), float64(v.Power), v.Refs.Len())
	case cutting.Kienzle:
		return fmt.Sprintf("%.6g %v %s %s", v.KC11.In(units.Megapascal), v.Exponent, v.Group, v.Material)
	case cutting.UnitPower:
		return fmt.Sprintf("%.6g GW %s", v.PerFlow/1e9, v.Material)
	case cutting.Finish:
		return fmt.Sprintf("%.6g, %.6g, %.6g um", v.Peak.Micron(), v.Rule.Micron(), v.Average.Micron())
	case cutting.Path:
		return fmt.Sprintf("%.6g mm, before %.6g, after %.6g, %d passes", v.Length.MM(), v.Approach.MM(), v.Overrun.MM(), v.Passes)
	case cutting.SlotPass:
		return fmt.Sprintf("%.6g to %.6g mm [%v]", v.Start.MM(), v.Most.MM(), v.Refs)
	case cutting.MotorCheck:
		return fmt.Sprintf("%.6g W, %.6g; %s", float64(v.Needed), v.Share, told(v.Findings))
	case finding.List:
		return told(v)
	}
	return fmt.Sprint(v)
}

func told(all finding.List) string {
	var texts []string
	for _, f := range all {
		texts = append(texts, fmt.Sprintf("%v %s: %s %q [%d]", f.Severity, f.Code, f.Text, f.Remedies, f.Refs.Len()))
	}
	return strings.Join(texts, " | ")
}

// Each answer just inside what is accepted, and the refusal just outside, on both
// sides: kept. The formulas are checked in TestFormulas and against the check files.
func TestAnswersKept(t *testing.T) {
	var all strings.Builder
	line := func(v any, err error) string { return said(v, err) }
	write := func(name, text string) { fmt.Fprintf(&all, "%s: %s\n", name, text) }
	k, err := cutting.KienzleFor(metal("mild steel"))
	if err != nil {
		t.Fatal(err)
	}
	mm, n, hair := units.MM, 300*units.RevPerMinute, units.Picometres(1000)
	none, km := units.Length{}, units.MM(1e6)
	over := km.Add(hair)
	deg := units.Degree

	for _, tt := range []struct {
		drill units.Length
		point units.Angle
	}{{mm(10), 30 * deg}, {mm(10), 29.99 * deg}, {mm(10), 180 * deg}, {mm(10), 180.01 * deg}, {mm(10), 118 * deg}, {none, 118 * deg}, {over, 118 * deg}} {
		write(fmt.Sprintf("point %v, %.6g", tt.drill, tt.point.Degrees()), line(cutting.PointLength(tt.drill, tt.point)))
	}
	for _, tt := range [][2]units.Length{{mm(20), mm(10)}, {mm(20), mm(10).Add(hair)}, {mm(20), mm(0.5)}, {none, mm(1)}, {mm(20), none}, {km, mm(1)}} {
		write(fmt.Sprint("slab approach ", tt), line(cutting.SlabApproach(tt[0], tt[1])))
	}
	for _, tt := range [][2]units.Length{{mm(20), mm(20)}, {mm(20), mm(20).Add(hair)}, {mm(20), mm(12)}, {none, mm(1)}, {mm(20), none}} {
		write(fmt.Sprint("face approach ", tt), line(cutting.FaceApproach(tt[0], tt[1])))
	}
	for _, tt := range [][3]units.Length{
		{mm(0.1), mm(2), mm(20)}, {mm(0.1), mm(10), mm(20)}, {mm(0.1), mm(9.9), mm(20)}, {mm(0.1), mm(10.1), mm(20)}, {mm(0.1), mm(20), mm(20)},
		{mm(0.1), mm(20).Add(hair), mm(20)}, {none, mm(2), mm(20)}, {mm(0.1), none, mm(20)}, {mm(0.1), mm(2), none},
	} {
		write(fmt.Sprint("greatest chip ", tt), line(cutting.GreatestChip(tt[0], tt[1], tt[2])))
		write(fmt.Sprint("mean chip ", tt), line(cutting.MeanChip(tt[0], tt[1], tt[2])))
		write(fmt.Sprint("feed for chip ", tt), line(cutting.FeedForChip(tt[0], tt[1], tt[2])))
	}
	for _, a := range []units.Angle{0, 1e-6, 45 * deg, 90 * deg, 90.001 * deg, units.Angle(math.NaN())} {
		write(fmt.Sprintf("chip at %.6g", a.Degrees()), line(cutting.ChipThickness(mm(0.2), a)))
	}
	write("chip of no feed", line(cutting.ChipThickness(none, 1)))
	for _, z := range []int{0, 1, 3, 100, 101} {
		write(fmt.Sprint("table feed, teeth ", z), line(cutting.TableFeed(n, mm(0.05), z)))
		write(fmt.Sprint("per tooth, teeth ", z), line(cutting.FeedPerTooth(0.01, n, z)))
	}
	write("feed of nothing", line(cutting.FeedSpeed(n, none)))
	write("feed, standing", line(cutting.FeedSpeed(0, mm(0.1))))
	write("table feed, standing", line(cutting.TableFeed(0, mm(0.1), 2)))
	write("per tooth, standing", line(cutting.FeedPerTooth(0.01, 0, 2)))
	write("per tooth, no feed", line(cutting.FeedPerTooth(0, n, 2)))
	for _, tt := range [][2]units.Length{{mm(0.8), mm(0.4)}, {mm(0.8).Add(hair), mm(0.4)}, {mm(0.2), mm(0.4)}, {none, mm(0.4)}, {mm(0.1), none}} {
		write(fmt.Sprint("finish ", tt), line(cutting.TurnedFinish(tt[0], tt[1])))
	}
	for _, h := range []units.Length{units.Micron(5), units.Micron(5).Sub(hair), mm(1), mm(3), mm(3).Add(hair)} {
		write(fmt.Sprint("force at a chip of ", h), line(k.At(h)))
	}
	for _, e := range []float64{0, -0.01, 0.99, 1, math.NaN()} {
		write(fmt.Sprint("exponent ", e), line(cutting.Kienzle{KC11: 1e9, Exponent: e}.At(mm(0.5))))
	}
	write("no force", line(cutting.Kienzle{}.At(mm(0.5))))
	for _, tt := range []struct{ d, a, f units.Length }{
		{mm(20), mm(10), mm(0.2)}, {mm(20), mm(10).Add(hair), mm(0.2)}, {mm(20), mm(1), mm(0.2)}, {none, mm(1), mm(0.2)}, {mm(20), none, mm(0.2)}, {mm(20), mm(1), none},
	} {
		name := fmt.Sprint(" ", tt.d, ", ", tt.a, ", ", tt.f)
		write("turning"+name, line(cutting.TurningRemoval(tt.d, tt.a, tt.f, n)))
		write("turning outside"+name, line(cutting.TurningRemovalOutside(tt.d, tt.a, tt.f, n)))
		write("turning load"+name, line(cutting.TurningLoad(k, tt.d, tt.a, tt.f, 60*deg, n)))
		write("drilling"+name, line(cutting.DrillingRemoval(tt.d, tt.f, n)))
		write("drilling load"+name, line(cutting.DrillingLoad(k, tt.d, tt.f, 118*deg, n)))
		write("milling"+name, line(cutting.MillingRemoval(tt.a, tt.f, 0.01)))
		write("milling load"+name, line(cutting.MillingLoad(k, tt.d, tt.a, tt.d.Scale(0.3), tt.f, 4, n)))
	}
	write("turning, standing", line(cutting.TurningRemoval(mm(20), mm(1), mm(0.1), 0)))
	write("turning outside, standing", line(cutting.TurningRemovalOutside(mm(20), mm(1), mm(0.1), 0)))
	write("drilling, standing", line(cutting.DrillingRemoval(mm(20), mm(0.1), 0)))
	write("milling, standing", line(cutting.MillingRemoval(mm(20), mm(0.1), 0)))
	write("drilling load, point", line(cutting.DrillingLoad(k, mm(20), mm(0.1), 20*deg, n)))
	write("drilling load, chip", line(cutting.DrillingLoad(k, mm(20), mm(0.01), 118*deg, n)))
	write("turning load, edge", line(cutting.TurningLoad(k, mm(20), mm(1), mm(0.1), 0, n)))
	write("turning load, chip", line(cutting.TurningLoad(k, mm(20), mm(1), mm(4), 90*deg, n)))
	write("milling load, chip", line(cutting.MillingLoad(k, mm(20), mm(1), mm(1), mm(0.01), 4, n)))
	write("milling load, teeth", line(cutting.MillingLoad(k, mm(20), mm(1), mm(10), mm(0.1), 0, n)))
	write("milling load, standing", line(cutting.MillingLoad(k, mm(20), mm(1), mm(10), mm(0.1), 4, 0)))
	for _, u := range []float64{0, -1, 1e9, 9.99e14, 1e15, math.NaN()} {
		write(fmt.Sprint("power of ", u), line(cutting.UnitPower{PerFlow: u}.Power(1e-6)))
	}
	write("power of no removal", line(cutting.UnitPower{PerFlow: 1e9}.Power(0)))
	for _, tt := range []struct{ load, motor, efficiency float64 }{
		{200, 250, 0.8}, {200, 249, 0.8}, {200, 324, 0.8}, {100, 130, 1}, {200, 326, 0.8}, {100, 1000, 0.3}, {100, 1000, 0.299}, {100, 1000, 1}, {100, 1000, 1.001},
		{0, 100, 0.8}, {100, 0, 0.8}, {100, 1000, math.NaN()},
	} {
		write(fmt.Sprint("motor ", tt), line(cutting.CheckMotor(cutting.Load{Power: units.Power(tt.load), Refs: k.Refs}, units.Power(tt.motor), tt.efficiency)))
	}
	for _, p := range []cutting.Path{
		{Length: mm(100)}, {Length: mm(100), Approach: mm(2), Overrun: mm(3), Passes: 4}, {}, {Length: mm(1), Approach: hair.Neg()}, {Length: mm(1), Overrun: hair.Neg()},
		{Length: mm(1), Passes: -1}, {Length: mm(1), Passes: 10000}, {Length: mm(1), Passes: 10001}, {Length: mm(1), Passes: 1}, {Length: over},
	} {
		write(fmt.Sprint("time ", said(p, nil)), line(p.Time(0.01)))
	}
	write("a year", line(cutting.Path{Length: mm(31622.4)}.Time(1e-6)))
	write("more than a year", line(cutting.Path{Length: mm(31622.4).Add(hair)}.Time(1e-6)))
	write("time, standing", line(cutting.Path{Length: mm(1000)}.Time(0)))
	for _, tt := range [][2]units.Length{
		{mm(5), mm(2)}, {mm(4), mm(2)}, {mm(4).Add(units.Picometres(1000)), mm(2)}, {mm(4).Add(units.Picometres(3000)), mm(2)}, {mm(1), mm(2)}, {mm(0.000001), mm(2)},
		{mm(1000), mm(0.1)}, {mm(1000.1), mm(0.1)}, {none, mm(1)}, {mm(1), none},
	} {
		passes, each, err := cutting.Passes(tt[0], tt[1])
		write(fmt.Sprint("passes ", tt), fmt.Sprint(passes, " of ")+line(each, err))
	}
	for _, d := range []units.Length{none, hair, mm(2), mm(3), mm(3).Add(hair), mm(10), mm(25), mm(25).Add(hair)} {
		write(fmt.Sprint("slot pass ", d), line(cutting.SlotPassFor(d)))
	}
	for _, name := range []string{"cork", "brass", "plastic", "mild steel"} {
		kc, err := cutting.KienzleFor(metal(name))
		write("Kienzle of "+name, line(kc, err))
		forces, err := cutting.ForcesFor(metal(name))
		write("forces of "+name, line(len(forces), err))
		power, err := cutting.UnitPowerFor(metal(name))
		write("power of "+name, line(power, err))
	}
	write("power of little", line(cutting.UnitPower{PerFlow: 0.5}.Power(1)))
	write("our own", fmt.Sprintf("scatter %v, belt drive %v, usual point %v", cutting.Scatter, cutting.BeltDrive, cutting.UsualPoint))
	forces, _ := cutting.ForcesFor(metal("cast iron"))
	power, _ := cutting.UnitPowerFor(metal("brass"))
	motor, _ := cutting.CheckMotor(cutting.Load{Power: 100}, 1000, 0.8)
	finish, _ := cutting.TurnedFinish(mm(0.4), mm(0.2))
	pass, _ := cutting.SlotPassFor(mm(2))
	for _, v := range []fmt.Stringer{forces[0], cutting.Kienzle{KC11: 1e9, Exponent: 0.25, Group: "1"}, cutting.Load{Force: 1, Torque: 2, Power: 3}, power, motor, finish, pass,
		cutting.Path{Length: mm(2), Passes: 3}} {
		write("print", fmt.Sprintf("%T %v", v, v))
	}
	check.Kept(t, "speeds/cutting/kept/answers.txt", all.String())
}

// Cuts of every operation: the way, the minutes, the load and what is found of them.
func TestCutsKept(t *testing.T) {
	var all strings.Builder
	mm, hair := units.MM, units.Picometres(1000)
	for _, op := range speeds.Operations() {
		for _, c := range []cutting.Cut{
			{}, {Length: mm(40)}, {Length: mm(40), Depth: mm(12), Deep: mm(0.5), Stock: mm(2)}, {Depth: mm(12), Teeth: 2, Feed: speeds.Feed{Min: mm(0.05), PerTooth: true}},
		} {
			c.Operation, c.Material, c.Diameter, c.Spindle = op, metal("mild steel"), mm(10), 300*units.RevPerMinute
			if c.Feed.Min.IsZero() {
				c.Feed = speeds.Feed{Min: mm(0.1), Max: mm(0.2)}
			}
			fmt.Fprintf(&all, "%v: way %s; feed %s; time %s; load %s; %s\n", op, said(c.Path()), said(c.FeedSpeed()), said(c.Time()), said(c.Load()), said(c.Check()))
		}
	}
	slot := cutting.Cut{Operation: speeds.SlotMilling, Material: metal("mild steel"), Diameter: mm(4), Spindle: 900 * units.RevPerMinute,
		Feed: speeds.Feed{Min: mm(0.02), PerTooth: true}, Teeth: 2, Length: mm(20)}
	for _, change := range []func(*cutting.Cut){
		func(c *cutting.Cut) {}, func(c *cutting.Cut) { c.Teeth = 0 }, func(c *cutting.Cut) { c.Teeth = 101 }, func(c *cutting.Cut) { c.Width = mm(-1) },
		func(c *cutting.Cut) { c.Width = mm(4) }, func(c *cutting.Cut) { c.Width = mm(3.9) }, func(c *cutting.Cut) { c.Width = mm(4.1) },
		func(c *cutting.Cut) { c.Width = mm(8) }, func(c *cutting.Cut) { c.Width = mm(8).Add(hair) }, func(c *cutting.Cut) { c.Length = mm(4) },
		func(c *cutting.Cut) { c.Length = mm(4).Add(hair) }, func(c *cutting.Cut) { c.Length = mm(3) }, func(c *cutting.Cut) { c.Stock = mm(3) },
		func(c *cutting.Cut) { c.Stock, c.Deep = mm(3), mm(2) }, func(c *cutting.Cut) { c.Deep = mm(2).Add(hair) }, func(c *cutting.Cut) { c.Deep = mm(4) },
		func(c *cutting.Cut) { c.Deep = mm(4).Add(hair) }, func(c *cutting.Cut) { c.Diameter, c.Deep = mm(2), mm(0.4) },
		func(c *cutting.Cut) { c.Diameter, c.Deep = mm(2), mm(0.4).Add(hair) }, func(c *cutting.Cut) { c.Diameter, c.Deep = mm(2), mm(1).Add(hair) },
		func(c *cutting.Cut) { c.Diameter, c.Deep = mm(2), mm(1) }, func(c *cutting.Cut) { c.Diameter, c.Length = mm(26), mm(60) },
		func(c *cutting.Cut) { c.Stock, c.Diameter, c.Length = mm(3), mm(26), mm(60) }, func(c *cutting.Cut) { c.Material = metal("cork") },
		func(c *cutting.Cut) { c.Operation, c.Stock = speeds.Turning, mm(3) }, func(c *cutting.Cut) { c.Operation, c.Feed.PerTooth, c.Deep = speeds.Turning, false, mm(1) },
		func(c *cutting.Cut) { c.Operation, c.Feed.PerTooth = speeds.Drilling, false }, func(c *cutting.Cut) { c.Width, c.Length, c.Deep = mm(3), mm(3), mm(9) },
	} {
		c := slot
		change(&c)
		fmt.Fprintf(&all, "%v %v x %v, %v deep: way %s; feed %s; time %s; load %s; %s\n", c.Operation, c.Width, c.Length, c.Deep, said(c.Path()), said(c.FeedSpeed()),
			said(c.Time()), said(c.Load()), said(c.Check()))
	}
	check.Kept(t, "speeds/cutting/kept/cuts.txt", all.String())
}

// The formulas of the handbooks, worked again in millimetres, minutes and newtons.
func TestFormulas(t *testing.T) {
	near := func(t *rapid.T, name string, got, want float64) {
		if math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Fatalf("%s: %v, want %v", name, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		between := func(name string, a, b float64) float64 {
			return math.Round(rapid.Float64Range(a, b).Draw(t, name)*1e4) / 1e4
		}
		d, rpm := between("d", 5, 200), between("rpm", 20, 3000)
		a, f, edge := min(between("a", 0.01, d/2), d/2), between("f", 0.02, 2.5), between("edge", 20, 90)
		w, z := min(between("w", 0.1, d), d), rapid.IntRange(1, 12).Draw(t, "z")
		n, mm, deg := units.RotationalSpeed(rpm)*units.RevPerMinute, units.MM, math.Pi/180
		k := cutting.Kienzle{KC11: units.Pressure(between("kc11", 500, 3000)) * units.Megapascal, Exponent: between("m", 0, 0.4)}
		kc := func(h float64) float64 { return k.KC11.In(units.Megapascal) / math.Pow(h, k.Exponent) } // N/mm2
		cm3 := func(q units.VolumeFlow, err error) float64 { return must(t, q, err).In(units.CubicCentimetrePerMinute) }

		near(t, "turning", cm3(cutting.TurningRemoval(mm(d), mm(a), mm(f), n)), math.Pi/4*(d*d-(d-2*a)*(d-2*a))*f*rpm/1000) // the ring
		near(t, "turning outside", cm3(cutting.TurningRemovalOutside(mm(d), mm(a), mm(f), n)), math.Pi*d*rpm*a*f/1000)
		near(t, "drilling", cm3(cutting.DrillingRemoval(mm(d), mm(f), n)), math.Pi*d*d/4*f*rpm/1000)
		vf, err := cutting.TableFeed(n, mm(f), z)
		near(t, "table feed", must(t, vf, err).In(units.MillimetrePerMinute), f*float64(z)*rpm)
		near(t, "milling", cm3(cutting.MillingRemoval(mm(a), mm(w), vf)), a*w*f*float64(z)*rpm/1000)

		turning, err := cutting.TurningLoad(k, mm(d), mm(a), mm(f), units.Angle(edge*deg), n)
		if h := f * math.Sin(edge*deg); h >= 0.0051 && h < 2.99 {
			force := kc(h) * a * f
			near(t, "turning force", float64(must(t, turning, err).Force), force)
			near(t, "turning torque", float64(turning.Torque), force*d/2000)
			near(t, "turning power", float64(turning.Power), force*math.Pi*d*rpm/60000) // F v
		}
		drilling, err := cutting.DrillingLoad(k, mm(d), mm(f), 118*units.Degree, n)
		if h := f / 2 * math.Sin(59*deg); h >= 0.0051 {
			near(t, "drilling torque", float64(must(t, drilling, err).Torque), kc(h)*f*d*d/8000)
			near(t, "a lip", float64(drilling.Force), kc(h)*d/2*f/2)
			near(t, "drilling power", float64(drilling.Power), kc(h)*math.Pi*d*d/4*f*rpm/60000) // kc Q
		}
		milling, err := cutting.MillingLoad(k, mm(d), mm(a), mm(w), mm(f), z, n)
		if h := f * math.Sqrt(math.Min(w/d, 0.5)); h >= 0.0051 && h < 2.99 {
			power := kc(h) * a * w * f * float64(z) * rpm / 60000
			near(t, "milling power", float64(must(t, milling, err).Power), power)
			near(t, "milling force", float64(milling.Force), power/(math.Pi*d*rpm/60000)) // P / v
		}
		// The thickest chip is where the tooth leaves a cut narrower than half the cutter:
		// fz sin(phi) with cos(phi) = 1 - 2 w/d.
		phi := math.Min(math.Acos(1-2*w/d), math.Pi/2)
		chip, err := cutting.GreatestChip(mm(f), mm(w), mm(d))
		near(t, "chip", must(t, chip, err).MM()+1, f*math.Sin(phi)+1)
		back, err := cutting.FeedForChip(chip, mm(w), mm(d))
		near(t, "feed for the chip", must(t, back, err).MM()+1, f+1)
		// A cutter that has come so far meets the depth or the width: Pythagoras.
		slab, err := cutting.SlabApproach(mm(d), mm(a))
		near(t, "slab", math.Hypot(must(t, slab, err).MM(), d/2-a), d/2)
		face, err := cutting.FaceApproach(mm(d), mm(w))
		near(t, "face", math.Hypot(d/2-must(t, face, err).MM(), w/2), d/2)
		// The nose leaves a peak where two circles meet, a feed apart.
		finish, err := cutting.TurnedFinish(mm(f), mm(2*f))
		near(t, "peak", must(t, finish, err).Peak.MM()+1, 2*f-math.Sqrt(4*f*f-f*f/4)+1)
		passes, each, err := cutting.Passes(mm(d), mm(a))
		if d/a > 9999 {
			return
		}
		if err != nil || passes != int(math.Ceil(d/a-1e-6)) || math.Abs(each.MM()*float64(passes)-d) > 1e-6*d {
			t.Fatalf("%v by %v: %d of %v, %v", d, a, passes, each, err)
		}
	})
}

func must[T any](t *rapid.T, v T, err error) T {
	if err != nil {
		t.Fatal(err)
	}
	return v
}
