package setting_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// Answers just inside what is accepted and refusals just outside, on both sides: kept.
// TestTriangles and the check files hold the figures.
func TestAnswersKept(t *testing.T) {
	var all strings.Builder
	line := func(name string, v any, err error) {
		said := fmt.Sprint(v)
		switch v := v.(type) {
		case units.Length:
			said = fmt.Sprintf("%.6g mm", v.MM())
		case units.Angle:
			said = fmt.Sprintf("%.6g deg", v.Degrees())
		case setting.Flats:
			said = fmt.Sprintf("%.6g deep, %.6g over corners %v", v.Depth.MM(), v.Corners.MM(), v.Findings)
		case float64:
			said = fmt.Sprintf("%.6g", v)
		}
		if err != nil {
			if said = err.Error(); v != nil && !reflect.ValueOf(v).IsZero() && reflect.TypeOf(v).Kind() != reflect.String {
				said += fmt.Sprintf(" BESIDE %v", v)
			}
		}
		fmt.Fprintf(&all, "%s: %s\n", name, said)
	}
	mm, deg, hair, none := units.MM, units.Degree, units.Picometres(1000), units.Length{}
	over := mm(1e6).Add(hair)
	nan := units.Angle(math.NaN())

	for _, tt := range [][3]units.Length{
		{mm(20), mm(10), mm(30)}, {mm(20), mm(10), mm(5)}, {mm(20), mm(10), mm(5).Add(hair)}, {mm(10), mm(10), mm(5)}, {mm(10).Add(hair), mm(10), mm(5)}, {mm(20), none, mm(5)},
		{mm(20), mm(10), none}, {none, none, none},
	} {
		v, err := setting.BoreTaper(tt[0], tt[1], tt[2])
		line(fmt.Sprint("bore taper ", tt), v, err)
	}
	for _, tt := range [][4]units.Length{
		{mm(20), mm(10), mm(1), mm(30)}, {mm(20), mm(10), mm(-3), mm(30)}, {mm(20), mm(10), mm(1), mm(6)}, {mm(20), mm(10), mm(1), mm(6).Add(hair)}, {none, mm(10), mm(1), mm(30)},
		{mm(20), none, mm(1), mm(30)}, {mm(20), mm(10), over, mm(30)}, {mm(20), mm(10), mm(1), over}, {mm(20), mm(10), over.Neg(), mm(1)},
	} {
		v, err := setting.BallCentres(tt[0], tt[1], tt[2], tt[3])
		line(fmt.Sprint("ball centres ", tt), v, err)
	}
	for _, tt := range []struct {
		ball, depth units.Length
		a           units.Angle
	}{
		{mm(10), mm(2), 60 * deg}, {mm(10), mm(-7.5).Add(hair), 60 * deg}, {mm(10), mm(-7.5).Sub(hair), 60 * deg}, {none, mm(2), 60 * deg}, {mm(10), over, 60 * deg}, {mm(10), mm(2), 0},
		{mm(10), mm(2), 1e-9}, {mm(10), mm(2), 179 * deg}, {mm(10), mm(2), 180 * deg}, {mm(10), mm(2), nan},
	} {
		v, err := setting.BoreMouth(tt.ball, tt.depth, tt.a)
		line(fmt.Sprintf("bore mouth %v, %v, %.6g", tt.ball, tt.depth, tt.a.Degrees()), v, err)
	}
	for _, n := range []int{1, 2, 3, 6, 10000, 10001} {
		v, err := setting.Chord(mm(100), n)
		line(fmt.Sprint("chord of ", n), v, err)
	}
	for _, k := range []int{0, 1, 3, 6, 7} {
		v, err := setting.ChordAcross(mm(100), 7, k)
		line(fmt.Sprint("chord across ", k, " of 7"), v, err)
	}
	v, err := setting.Chord(none, 7)
	line("chord of no circle", v, err)
	for _, n := range []int{3, 4, 5, 6, 7, 8, 100, 101, 102} {
		v, err := setting.FlatsOn(mm(12), mm(10), n)
		line(fmt.Sprint("flats ", n), v, err)
	}
	for _, tt := range [][2]units.Length{
		{mm(10), mm(10)}, {mm(10).Add(hair), mm(10)}, {mm(11.5470053), mm(10)}, {mm(11.547006), mm(10)}, {mm(12), mm(10)}, {mm(9), mm(10)}, {none, mm(1)}, {mm(1), none},
	} {
		v, err := setting.FlatsOn(tt[0], tt[1], 6)
		line(fmt.Sprint("hexagon ", tt), v, err)
	}
	for _, tt := range [][3]units.Length{
		{mm(30), mm(34), mm(20)}, {mm(30), mm(30), mm(20)}, {mm(30), mm(30).Add(hair), mm(20)}, {none, mm(30), mm(20)}, {mm(30), none, mm(20)}, {mm(30), mm(34), none},
	} {
		v, err := setting.PlugTaper(tt[0], tt[1], tt[2])
		line(fmt.Sprint("plug taper ", tt), v, err)
	}
	for _, tt := range []struct {
		laid, roller units.Length
		a            units.Angle
	}{
		{mm(30), mm(6), 10 * deg}, {mm(30), mm(6), 0}, {mm(30), mm(6), 1e-9}, {mm(30), mm(6), 170 * deg}, {mm(30), mm(0.01), 179 * deg}, {mm(30), mm(6), 180 * deg}, {mm(30), mm(6), nan},
		{none, mm(6), 10 * deg}, {mm(30), none, 10 * deg}, {mm(12), mm(6), 1e-9}, {mm(12.001), mm(6), 1e-9},
	} {
		v, err := setting.PlugEnd(tt.laid, tt.roller, tt.a)
		line(fmt.Sprintf("plug end %v, %v, %.6g", tt.laid, tt.roller, tt.a.Degrees()), v, err)
	}
	for _, a := range []units.Angle{-0.01 * deg, 0, 30 * deg, 60 * deg, 60.0001 * deg, nan} {
		v, err := setting.SineBar(mm(100), a)
		line(fmt.Sprintf("sine bar %.6g", a.Degrees()), v, err)
	}
	v, err = setting.SineBar(none, 0)
	line("no sine bar", v, err)
	for _, s := range []units.Length{hair.Neg(), none, mm(50), mm(86.602540378), mm(86.60255), mm(100)} {
		v, err := setting.SineBarAngle(mm(100), s)
		line(fmt.Sprint("stack ", s), v, err)
	}
	angle, err := setting.SineBarAngle(none, mm(1))
	line("stack of no bar", angle, err)
	for _, tt := range []struct {
		a             units.Angle
		large, length units.Length
	}{
		{10 * deg, mm(20), mm(30)}, {0, mm(20), mm(30)}, {180 * deg, mm(20), mm(30)}, {nan, mm(20), mm(30)}, {90 * deg, mm(20), mm(10)}, {90 * deg, mm(20), mm(10.001)}, {10 * deg, none, mm(30)},
		{10 * deg, mm(20), none}, {1e-15, mm(20), mm(30)},
	} {
		v, err := setting.TaperOfAngle(tt.a, tt.large, tt.length)
		line(fmt.Sprintf("taper of %.6g, %v, %v", tt.a.Degrees(), tt.large, tt.length), fmt.Sprintf("%.6g %.6g %.6g", v.Large.MM(), v.Small.MM(), v.Length.MM()), err)
	}
	for _, taper := range []setting.Taper{
		{mm(20), mm(18), mm(40)}, {mm(20), mm(20), mm(40)}, {mm(20), mm(20).Sub(hair), mm(40)}, {mm(20), none, mm(40)}, {mm(20), hair.Neg(), mm(40)}, {none, none, mm(40)}, {mm(20), mm(18), none},
		{mm(20), mm(16), mm(40)}, {mm(20), mm(16).Sub(hair), mm(40)}, {over, mm(16), mm(40)},
	} {
		name := fmt.Sprintf("taper %v %v %v", taper.Large, taper.Small, taper.Length)
		rate, err := taper.Rate()
		line(name+" rate", rate, err)
		included, err := taper.Included()
		line(name+" included", included, err)
		slide, err := taper.Topslide()
		line(name+" topslide", slide, err)
		for _, between := range []units.Length{mm(40).Sub(hair), mm(40), mm(100)} {
			v, err := taper.SetOver(between)
			line(fmt.Sprint(name, " set over between ", between), v, err)
		}
	}
	for _, a := range []units.Angle{9.999 * deg, 10 * deg, 60 * deg, 90 * deg, 170 * deg, 170.001 * deg, nan} {
		v, err := setting.VeeHeight(mm(10), a)
		line(fmt.Sprintf("vee %.6g", a.Degrees()), v, err)
	}
	v, err = setting.VeeHeight(none, 90*deg)
	line("vee without a roller", v, err)
	for _, tt := range []struct{ roller, mouth units.Length }{
		{mm(10), mm(12)}, {mm(10), mm(7.0711)}, {mm(10), mm(7.07)}, {mm(10), none}, {none, mm(10)}, {mm(10), mm(24.14)}, {mm(10), mm(24.15)}, {mm(10), over},
	} {
		v, err := setting.VeeHeightAboveFace(tt.roller, 90*deg, tt.mouth)
		line(fmt.Sprint("vee above face ", tt), v, err)
	}
	for _, tt := range [][4]units.Length{
		{mm(20), mm(10), mm(50), mm(38)}, {mm(20), mm(10), mm(50), mm(40)}, {mm(20), mm(10), mm(50), mm(40).Sub(hair)}, {mm(20), mm(10), mm(50), mm(46)}, {mm(10), mm(10), mm(50), mm(38)},
		{mm(10).Add(hair), mm(10), mm(50), mm(38)}, {none, mm(10), mm(50), mm(38)}, {mm(20), none, mm(50), mm(38)}, {mm(20), mm(10), over, mm(38)}, {mm(20), mm(10), mm(50), over},
		{mm(20), mm(10), mm(-3), mm(-20)}, {mm(20), mm(10), mm(45), mm(40)},
	} {
		v, err := setting.VeeAngle(tt[0], tt[1], tt[2], tt[3])
		line(fmt.Sprint("vee angle ", tt), v, err)
	}
	for _, v := range []fmt.Stringer{setting.Taper{Large: mm(20), Small: mm(18), Length: mm(40)}, setting.Flats{Depth: mm(1), Corners: mm(2)}} {
		line("print", fmt.Sprintf("%T %v", v, v), nil)
	}
	check.Kept(t, "speeds/setting/kept/answers.txt", all.String())
}

// The triangles behind the formulas, worked with coordinates: what touches what.
func TestTriangles(t *testing.T) {
	near := func(t *rapid.T, name string, got, want float64) {
		if math.Abs(got-want) > 1e-6 {
			t.Fatalf("%s: %v, want %v", name, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		mm := units.MM
		between := func(name string, a, b float64) float64 {
			return math.Round(rapid.Float64Range(a, b).Draw(t, name)*1e4) / 1e4
		}
		a := between("included", 4, 150)
		half := a / 2 * math.Pi / 180
		included := units.Angle(2 * half)

		// A ball of a cone with its point at the origin has its centre r/sin(a/2) up.
		r1, r2 := between("ball", 3, 10), 0.0
		r2 = r1 + between("larger", 0.5, 10)
		face := r2/math.Sin(half) + between("below", 0, 20) // the face of the bore, above the point
		tops := func(r float64) units.Length { return must(units.Millimetres.Of(face - r/math.Sin(half) - r)) }
		centres := must(setting.BallCentres(mm(2*r2), mm(2*r1), tops(r2), tops(r1)))
		near(t, "centres", centres.MM(), (r2-r1)/math.Sin(half))
		near(t, "bore", must(setting.BoreTaper(mm(2*r2), mm(2*r1), centres)).Degrees(), a)
		near(t, "mouth", must(setting.BoreMouth(mm(2*r1), tops(r1), included)).MM(), 2*face*math.Tan(half))

		// A roller beside a plug that stands on a plate touches both: its centre is r from
		// each, and its outside r more from the axis.
		d, h := between("end", 5, 40), between("blocks", 5, 40)
		outside := func(up float64) float64 { return 2 * (d/2 + (r1+up)*math.Tan(half) + r1/math.Cos(half) + r1) }
		laid, raised := must(units.Millimetres.Of(outside(0))), must(units.Millimetres.Of(outside(h)))
		near(t, "plug", must(setting.PlugTaper(laid, raised, mm(h))).Degrees(), a)
		near(t, "plug end", must(setting.PlugEnd(laid, mm(2*r1), included)).MM(), d)

		// Points on a circle, by their coordinates.
		n := rapid.IntRange(2, 60).Draw(t, "n")
		k := rapid.IntRange(1, n-1).Draw(t, "k")
		at := 2 * math.Pi * float64(k) / float64(n)
		near(t, "chord", must(setting.ChordAcross(mm(d), n, k)).MM(), d/2*math.Hypot(1-math.Cos(at), math.Sin(at)))

		// Flats: a corner is half a side out from the middle of a flat.
		flats := 2 * rapid.IntRange(2, 50).Draw(t, "flats")
		across := d * 0.8
		f := must(setting.FlatsOn(mm(d), mm(across), flats))
		side := across * math.Tan(math.Pi/float64(flats))
		near(t, "corners", f.Corners.MM(), 2*math.Hypot(across/2, side/2))
		near(t, "depth", f.Depth.MM(), d/2-across/2)
		if (len(f.Findings) > 0) != (f.Corners.Cmp(mm(d)) > 0) {
			t.Fatalf("%v", f)
		}

		// A sine bar and back, and a taper by both its measures.
		lift := between("angle", 0, 60)
		stack := must(setting.SineBar(mm(100), units.Angle(lift)*units.Degree))
		near(t, "stack", stack.MM(), 100*math.Cos(math.Pi/2-lift*math.Pi/180))
		if lift < 59.99 {
			if back := must(setting.SineBarAngle(mm(100), stack)).Degrees(); math.Abs(back-lift) > 1e-5 {
				t.Fatalf("back to %v from %v", back, lift)
			}
		}
		length := between("length", 1, 0.9*d/2/math.Tan(half)+1)
		if small := d - 2*length*math.Tan(half); small > 0.01 {
			taper := must(setting.TaperOfAngle(included, mm(d), mm(length)))
			near(t, "small end", taper.Small.MM(), small)
			near(t, "included", must(taper.Included()).Degrees(), a)
			near(t, "topslide", must(taper.Topslide()).Degrees(), a/2)
			near(t, "rate", must(taper.Rate()), 2*math.Tan(half))
			over, err := taper.SetOver(mm(length + 50))
			switch rate := 2 * math.Tan(half); {
			case rate < 0.0999:
				near(t, "set over", over.MM(), (length+50)*rate/2)
			case rate > 0.1001 && err == nil:
				t.Fatalf("set over by %v", over)
			}
		}

		// A roller in a vee: its centre is r/sin(a/2) above the root.
		if a > 10.01 {
			top := func(r float64) float64 { return r/math.Sin(half) + r }
			near(t, "vee", must(setting.VeeHeight(mm(2*r1), included)).MM(), top(r1))
			near(t, "vee angle", must(setting.VeeAngle(mm(2*r2), mm(2*r1), must(units.Millimetres.Of(top(r2))), must(units.Millimetres.Of(top(r1))))).Degrees(), a)
			mouth := between("mouth", 5, 40)
			root := mouth / 2 / math.Tan(half) // below the face
			height, err := setting.VeeHeightAboveFace(mm(2*r1), included, mm(mouth))
			touch := r1 / math.Tan(half) * math.Cos(half) // height over the root at which it touches
			switch {
			case touch < root-1e-6 && top(r1) > root+1e-6:
				near(t, "above the face", must(height, err).MM(), top(r1)-root)
			case (touch > root+1e-6 || top(r1) < root-1e-6) && err == nil:
				t.Fatalf("a roller of %v in %v of %v is %v high", 2*r1, mouth, a, height)
			}
		}
	})
}

// must returns a value; its error ends the test.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
