package eccentric

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func TestRod(t *testing.T) {
	for text, want := range map[string]Rod{
		"63 mm": RodOf(units.MM(63)), "2 1/2 in": RodOf(units.Inch(2.5)), "infinite": InfiniteRod(), " Infinite ": InfiniteRod(),
	} {
		got, err := ParseRod(text)
		back, again := ParseRod(got.String())
		if err != nil || got != want || again != nil || back != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for text, kind := range map[string]error{
		"": units.ErrSyntax, "none": units.ErrSyntax, "0 mm": units.ErrOutOfRange, "-63 mm": units.ErrOutOfRange, "63": units.ErrUnknownUnit,
	} {
		var bad *units.ParseError
		_, err := ParseRod(text)
		if !errors.As(err, &bad) || !errors.Is(err, kind) || !strings.Contains(err.Error(), `"infinite"`) {
			t.Errorf("%q: %v", text, err)
		}
	}
	if l, ok := RodOf(units.MM(63)).Length(); l != units.MM(63) || !ok {
		t.Error(l, ok)
	}
	if l, ok := InfiniteRod().Length(); ok || !InfiniteRod().Infinite() || InfiniteRod().IsZero() {
		t.Error(l, ok)
	}
	if r := (Rod{}); !r.IsZero() || r.String() != "none" || RodOf(units.Length{}) != r {
		t.Error("a rod of no length is none")
	}
}

// A rod that was left out is never taken for an infinite one: with rods of 63 and
// 60 mm the cut-offs of the demonstration engine are 87.0 and 79.6 per cent, with
// infinite ones 83.4 at both ends.
func TestRodMustBeAskedFor(t *testing.T) {
	for name, leaveOut := range map[string]func(*Gear){
		"connecting rod": func(g *Gear) { g.ConnectingRod = Rod{} },
		"eccentric rod":  func(g *Gear) { g.EccentricRod = Rod{} },
	} {
		g := demo()
		leaveOut(&g)
		_, err := g.Events()
		want := "eccentric: " + name + `: missing; accepted: a length above zero, or "infinite"`
		if err == nil || err.Error() != want || !errors.Is(err, units.ErrMissing) {
			t.Errorf("%v; want %s", err, want)
		}
	}
	g := demo()
	g.ConnectingRod, g.EccentricRod = InfiniteRod(), InfiniteRod()
	e := events(t, g)
	near(t, "head cut-off", e.Head.CutOff.Stroke, 0.834, 0.0005)
	near(t, "crank cut-off", e.Crank.CutOff.Stroke, e.Head.CutOff.Stroke, 1e-12)
}

func FuzzParseRod(f *testing.F) {
	for _, text := range []string{"63 mm", "infinite", "0 in", "-1 mm", "", "inf"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rod, err := ParseRod(text)
		if err != nil {
			var bad *units.ParseError
			if rod != (Rod{}) || !errors.As(err, &bad) {
				t.Fatalf("%q: %v, %v", text, rod, err)
			}
			return
		}
		if back, err := ParseRod(rod.String()); err != nil || back != rod || rod.IsZero() {
			t.Fatalf("%q reads as %v, that as %v, %v", text, rod, back, err)
		}
	})
}
