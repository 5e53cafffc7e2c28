package setting_test

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

func TestBenchGeometry(t *testing.T) {
	f := check.Open(t, "speeds/setting/bench_geometry.csv")
	for r := range f.Rows() {
		unit := r.Text("unit")
		length := func(column string) units.Length { return units.MustLength(r.Text(column) + " " + unit) }
		degrees := func(column string) units.Angle { return units.Angle(r.Float(column)) * units.Degree }
		got := math.NaN()
		set := func(v float64, err error) {
			if err != nil {
				t.Errorf("%s: %v", r.ID, err)
			}
			got = v
		}
		in := func(l units.Length, err error) { set(l.Ratio(units.MustLength("1 "+unit)), err) }
		angle := func(a units.Angle, err error) { set(a.Degrees(), err) }
		switch kind := r.Text("kind"); kind {
		case "setover":
			in(setting.Taper{Large: length("a"), Small: length("b"), Length: length("c")}.SetOver(length("d")))
		case "topslide":
			angle(setting.Taper{Large: length("a"), Small: length("b"), Length: length("c")}.Topslide())
		case "sine":
			in(setting.SineBar(length("a"), degrees("b")))
			back, err := setting.SineBarAngle(length("a"), length("value"))
			// What the stack as printed is rounded by.
			off := check.HalfLastPlace(r.Text("value")) / (r.Float("a") * math.Cos(degrees("b").Radians()))
			if err != nil || math.Abs(back.Radians()-degrees("b").Radians()) > off+1e-9 {
				t.Errorf("%s: the printed stack gives %v, %v", r.ID, back, err)
			}
		case "balls":
			c, err := setting.BallCentres(length("a"), length("b"), length("c"), length("d"))
			if err != nil {
				t.Fatal(err)
			}
			angle(setting.BoreTaper(length("a"), length("b"), c))
		case "rollers":
			a, err := setting.VeeAngle(length("a"), length("b"), length("c"), length("d"))
			set(a.Degrees(), err)
			r.Within("value", got, 5e-5) // heights to five places
			continue
		case "plug":
			angle(setting.PlugTaper(length("a"), length("b"), length("c")))
		case "plugend":
			in(setting.PlugEnd(length("a"), length("b"), degrees("c")))
		case "mouth":
			in(setting.BoreMouth(length("a"), length("b"), degrees("c")))
		case "vee":
			in(setting.VeeHeight(length("a"), degrees("b")))
		case "face":
			in(setting.VeeHeightAboveFace(length("a"), degrees("b"), length("c")))
		default:
			t.Fatalf("%s: kind %q", r.ID, kind)
		}
		r.Compare("value", got)
	}
}

func TestErrata(t *testing.T) {
	taper, err := setting.TaperOfAngle(4*units.Degree, units.Inch(2), units.Inch(1))
	if err != nil {
		t.Fatal(err)
	}
	rate, err := taper.Rate()
	if err != nil {
		t.Fatal(err)
	}
	vee, err := setting.VeeAngle(units.MM(20), units.MM(10), units.MM(30), units.MM(15))
	if err != nil {
		t.Fatal(err)
	}
	chord, err := setting.Chord(units.MM(1), 15)
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "speeds/setting", map[string]float64{
		"chord-15":     chord.MM(),
		"taper-4-inch": rate,
		"taper-4-foot": 12 * rate,
		"vee-key":      vee.Degrees(),
	})
}

func TestInverses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := units.Angle(rapid.Float64Range(0.01, 59.9).Draw(t, "angle")) * units.Degree
		h, err := setting.SineBar(units.MM(100), a)
		if err != nil {
			t.Fatal(err)
		}
		back, err := setting.SineBarAngle(units.MM(100), h)
		if err != nil || math.Abs((back-a).Degrees()) > 1e-7 {
			t.Fatalf("%v and back %v, %v", a, back, err)
		}
		taper, err := setting.TaperOfAngle(a, units.MM(200), units.MM(50))
		if err != nil {
			t.Fatal(err)
		}
		included, err := taper.Included()
		if err != nil || math.Abs((included-a).Degrees()) > 1e-7 {
			t.Fatalf("%v and back %v, %v", a, included, err)
		}
		half, err := taper.Topslide()
		if err != nil || half*2 != included {
			t.Fatalf("half of %v is %v, %v", included, half, err)
		}
		vee := units.Angle(rapid.Float64Range(20, 160).Draw(t, "vee")) * units.Degree
		high, err1 := setting.VeeHeight(units.MM(25), vee)
		low, err2 := setting.VeeHeight(units.MM(10), vee)
		got, err := setting.VeeAngle(units.MM(25), units.MM(10), high, low)
		if errors.Join(err, err1, err2) != nil || math.Abs((got-vee).Degrees()) > 1e-5 {
			t.Fatalf("%v and back %v, %v", vee, got, errors.Join(err, err1, err2))
		}
		// Chords to the k-th place on and back round the other way are one.
		n := rapid.IntRange(3, 60).Draw(t, "n")
		k := rapid.IntRange(1, n-1).Draw(t, "k")
		there, err1 := setting.ChordAcross(units.MM(100), n, k)
		round, err2 := setting.ChordAcross(units.MM(100), n, n-k)
		if errors.Join(err1, err2) != nil || there.Sub(round).Abs().Cmp(units.Picometres(2)) > 0 {
			t.Fatalf("%v and %v", there, round)
		}
	})
}

func TestRefuses(t *testing.T) {
	mm := units.MM
	good := setting.Taper{Large: mm(20), Small: mm(18), Length: mm(40)}
	for name, call := range map[string]func() error{
		"no length":  func() error { _, err := setting.Taper{Large: mm(2), Small: mm(1)}.Rate(); return err },
		"a cylinder": func() error { _, err := setting.Taper{Large: mm(2), Small: mm(2), Length: mm(1)}.Rate(); return err },
		"small end negative": func() error {
			_, err := setting.Taper{Large: mm(2), Small: mm(-1), Length: mm(1)}.Included()
			return err
		},
		"past the point":      func() error { _, err := setting.TaperOfAngle(60*units.Degree, mm(10), mm(10)); return err },
		"flat":                func() error { _, err := setting.TaperOfAngle(180*units.Degree, mm(10), mm(1)); return err },
		"angle not a number":  func() error { _, err := setting.TaperOfAngle(units.Angle(math.NaN()), mm(10), mm(1)); return err },
		"work short of taper": func() error { _, err := good.SetOver(mm(39)); return err },
		"steep for setting": func() error {
			_, err := setting.Taper{Large: mm(20), Small: mm(10), Length: mm(40)}.SetOver(mm(40))
			return err
		},
		"steep beyond measure": func() error {
			_, err := setting.Taper{Large: mm(10), Length: units.Picometres(1)}.SetOver(mm(10))
			return err
		},
		"no sine bar":         func() error { _, err := setting.SineBar(mm(0), 1); return err },
		"steep sine bar":      func() error { _, err := setting.SineBar(mm(100), 61*units.Degree); return err },
		"stack over the bar":  func() error { _, err := setting.SineBarAngle(mm(100), mm(101)); return err },
		"stack below":         func() error { _, err := setting.SineBarAngle(mm(100), mm(-1)); return err },
		"no bar":              func() error { _, err := setting.SineBarAngle(mm(0), mm(1)); return err },
		"one point":           func() error { _, err := setting.Chord(mm(10), 1); return err },
		"no circle":           func() error { _, err := setting.Chord(mm(0), 5); return err },
		"all the way round":   func() error { _, err := setting.ChordAcross(mm(10), 5, 5); return err },
		"no roller":           func() error { _, err := setting.VeeHeight(mm(0), 90*units.Degree); return err },
		"no vee":              func() error { _, err := setting.VeeHeight(mm(10), 175*units.Degree); return err },
		"no mouth":            func() error { _, err := setting.VeeHeightAboveFace(mm(10), 90*units.Degree, mm(0)); return err },
		"roller on the edges": func() error { _, err := setting.VeeHeightAboveFace(mm(50), 90*units.Degree, mm(30)); return err },
		"roller below":        func() error { _, err := setting.VeeHeightAboveFace(mm(5), 90*units.Degree, mm(30)); return err },
		"rollers alike":       func() error { _, err := setting.VeeAngle(mm(10), mm(10), mm(20), mm(10)); return err },
		"heights alike":       func() error { _, err := setting.VeeAngle(mm(20), mm(10), mm(20), mm(20)); return err },
		"balls swapped":       func() error { _, err := setting.BoreTaper(mm(10), mm(20), mm(50)); return err },
		"balls side by side":  func() error { _, err := setting.BoreTaper(mm(20), mm(10), mm(5)); return err },
		"beyond all workshops": func() error {
			_, err := setting.BallCentres(mm(20), mm(10), units.Picometres(math.MinInt64), units.Picometres(math.MaxInt64))
			return err
		},
		"heights of nobody": func() error {
			_, err := setting.VeeAngle(mm(20), mm(10), units.Picometres(math.MinInt64), units.Picometres(math.MaxInt64))
			return err
		},
		"nearly flat":         func() error { _, err := setting.TaperOfAngle(179.999999*units.Degree, mm(10), mm(1e6)); return err },
		"balls of nothing":    func() error { _, err := setting.BallCentres(mm(0), mm(0), mm(5), mm(50)); return err },
		"small ball above":    func() error { _, err := setting.BallCentres(mm(20), mm(10), mm(50), mm(5)); return err },
		"plug upside down":    func() error { _, err := setting.PlugTaper(mm(40), mm(30), mm(20)); return err },
		"plug without blocks": func() error { _, err := setting.PlugTaper(mm(40), mm(50), mm(0)); return err },
		"rollers alone":       func() error { _, err := setting.PlugEnd(mm(20), mm(10), 5*units.Degree); return err },
		"plug without angle":  func() error { _, err := setting.PlugEnd(mm(40), mm(10), 0); return err },
		"ball on the edge":    func() error { _, err := setting.BoreMouth(mm(10), mm(-6), 10*units.Degree); return err },
		"high on the edge":    func() error { _, err := setting.BoreMouth(mm(10), mm(-9), 90*units.Degree); return err },
		"bore not a number":   func() error { _, err := setting.BoreMouth(mm(10), mm(1), units.Angle(math.NaN())); return err },
		"no ball":             func() error { _, err := setting.BoreMouth(mm(0), mm(1), 10*units.Degree); return err },
		"ball out of reach": func() error {
			_, err := setting.BoreMouth(mm(10), units.Picometres(math.MaxInt64), 10*units.Degree)
			return err
		},
		"taper without a body": func() error { _, err := setting.Taper{}.Topslide(); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
