package gasket_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

func TestTexts(t *testing.T) {
	for _, v := range gasket.Actions() {
		text, err := v.MarshalText()
		var back gasket.Action
		if err != nil || back.UnmarshalText(text) != nil || back != v {
			t.Errorf("%v came back as %v, %v", v, back, err)
		}
	}
	if v, err := gasket.ParseAction("Plug"); err != nil || v != gasket.Plug {
		t.Errorf("Plug is %v, %v", v, err)
	}
	var unreadable *units.ParseError
	if _, err := gasket.ParseAction("weld"); !errors.As(err, &unreadable) || !errors.Is(err, units.ErrUnknown) {
		t.Errorf("weld: %v", err)
	}
	if (gasket.Work{Do: 9}).String() != "Action(9)" {
		t.Error("values without a name")
	}
}

// A hole that is missing, one too many, and one in the wrong place.
func TestMatchWork(t *testing.T) {
	chest, err := gasket.Rectangle(4, 3, units.MM(48), units.MM(30))
	if err != nil {
		t.Fatal(err)
	}
	cover := chest.Drilled(units.MM(3.4))
	o := gasket.MatchOptions{Stud: units.MM(3)}
	wrong := append(gasket.Pattern{}, cover...)
	wrong[4].At.Y = wrong[4].At.Y.Add(units.MM(1.25))
	two := append(gasket.Pattern{}, wrong...)
	two[0].At.X = two[0].At.X.Sub(units.MM(0.5))
	far := append(gasket.Pattern{}, cover...)
	far[4].At = mm(12, 6)
	// Without hole 2 the rest no longer has the symmetry of the chest.
	asymmetric := append(append(gasket.Pattern{}, chest[0]), chest[2:]...)
	for _, test := range []struct {
		name  string
		a, b  gasket.Pattern
		goes  bool
		works []string
	}{
		{"as drawn", cover, chest, true, nil},
		{"one stud more than holes", append(cover[:3:3], cover[4:]...), chest, false, []string{"drill a hole of 3.400 mm at (24.000, -15.000) mm for stud 4"}},
		{"one hole more than studs", cover, asymmetric, true, []string{"hole 2 at (-8.000, -15.000) mm has no stud: plug it, or leave it if nothing can leak there"}},
		{"one hole in the wrong place altogether", far, chest, false, []string{
			"drill a hole of 3.400 mm at (24.000, 0.000) mm for stud 5",
			"hole 5 at (12.000, 6.000) mm has no stud: plug it, or leave it if nothing can leak there",
		}},
		{"one hole 1.25 mm out", wrong, chest, false, []string{"open hole 5 at (24.000, 1.250) mm to 5.500 mm for stud 5, or plug it and drill it afresh at (24.000, 0.000) mm"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			m, err := gasket.Match(t.Context(), test.a, test.b, o)
			if err != nil {
				t.Fatal(err)
			}
			var works []string
			for _, w := range m.Work {
				works = append(works, strings.ReplaceAll(w.String(), "-0.000", "0.000"))
			}
			if m.Goes != test.goes || strings.Join(works, "; ") != strings.Join(test.works, "; ") {
				t.Errorf("goes %v, work %q; want %v, %q", m.Goes, works, test.goes, test.works)
			}
		})
	}
	m, err := gasket.Match(t.Context(), two, chest, o)
	if err != nil || len(m.Work) != 2 || m.Work[0].Hole != "1" || m.Work[1].Hole != "5" {
		t.Errorf("two holes wrong: %v, %v", m.Work, err)
	}
}

// Up to five wrong holes are found again, whichever they are: they alone are
// opened, and every other hole has room.
func TestMatchFewest(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	for k := range 60 {
		a := scattered(r, 14, 12)
		b := append(gasket.Pattern{}, a...)
		wrong := r.Perm(len(b))[:1+k%5]
		for _, i := range wrong {
			sin, cos := math.Sincos(2 * math.Pi * r.Float64())
			size := 0.6 + r.Float64()
			b[i].At = b[i].At.Add(gasket.Point{X: units.MM(size * cos), Y: units.MM(size * sin)})
		}
		m, err := gasket.Match(t.Context(), a.Drilled(units.MM(3.4)), b.Turned(1).Moved(mm(5, 6)), gasket.MatchOptions{Stud: units.MM(3)})
		if err != nil || m.Goes {
			t.Fatalf("%d: goes %v, %v", k, m.Goes, err)
		}
		if len(m.Work) > len(wrong) {
			t.Errorf("%d: %d holes were wrong, and %d are to be opened: %v", k, len(wrong), len(m.Work), m.Work)
		}
		// With what it says done, it goes.
		opened := a.Drilled(units.MM(3.4))
		for _, w := range m.Work {
			for i := range opened {
				if opened[i].Name == w.Hole {
					opened[i].Diameter = w.Diameter
				}
			}
		}
		again, err := gasket.Match(t.Context(), opened, b.Turned(1).Moved(mm(5, 6)), gasket.MatchOptions{Stud: units.MM(3)})
		if err != nil || !again.Goes {
			t.Errorf("%d: with the work done it does not go: %v, %v", k, again.Work, err)
		}
	}
}

// Where opening one hole is enough and there is a choice of holes, it is the one
// that is opened least: found again by leaving out each in turn.
func TestMatchLeastOpening(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	o := gasket.MatchOptions{Stud: units.MM(3), Ordered: true}
	choices := 0
	for k := range 400 {
		a := scattered(r, 5, 12).Drilled(units.MM(3.4))
		b := append(gasket.Pattern{}, a...)
		for i := range b {
			sin, cos := math.Sincos(2 * math.Pi * r.Float64())
			size := 0.4 * r.Float64()
			b[i].At = b[i].At.Add(gasket.Point{X: units.MM(size * cos), Y: units.MM(size * sin)})
		}
		m, err := gasket.Match(t.Context(), a, b, o)
		if err != nil {
			t.Fatal(err)
		}
		if m.Goes || m.Mirrored {
			continue
		}
		least, enough := math.Inf(1), 0
		for i := range a {
			rest, err := gasket.Match(t.Context(), slices.Concat(a[:i], a[i+1:]), slices.Concat(b[:i], b[i+1:]), o)
			if err != nil {
				t.Fatal(err)
			}
			if rest.Goes {
				enough++
				placed, err := rest.Positions[0].Place(a[i].At)
				if err != nil {
					t.Fatal(err)
				}
				least = min(least, 3+2*placed.Distance(b[i].At).MM())
			}
		}
		if enough == 0 {
			continue
		}
		if enough > 1 {
			choices++
		}
		if len(m.Work) != 1 || math.Abs(m.Work[0].Diameter.MM()-least) > 1e-6 {
			t.Errorf("%d: %v, want one hole of %.6f mm", k, m.Work, least)
		}
	}
	if choices < 20 {
		t.Errorf("only %d patterns leave a choice", choices)
	}
}

// A hole is opened to whole micrometres, no smaller than it must be but for the
// nanometre by which a pair goes, and by less than a micrometre larger.
func TestSizeOfWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := units.Picometres(rapid.Int64Range(1_000_000, 50_000_000_000).Draw(t, "diameter"))
		got := gasket.Work{Do: gasket.Open, Diameter: d}.Size()
		more := got.Sub(d).Picometres()
		if got.Picometres()%1_000_000 != 0 || more < -1000 || more >= 1_000_000-1000 {
			t.Fatalf("%v is opened to %v", d, got)
		}
	})
	if got := (gasket.Work{Do: gasket.Plug}).Size(); !got.IsZero() {
		t.Errorf("a plug of %v", got)
	}
}
