package thread

import (
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The union on the steam pipe of a small engine, 5/32 in outside.
func ExampleSeries_UnionFor() {
	for _, s := range []Series{ME, MetricFine} {
		t, err := s.UnionFor(units.InchFraction(5, 32))
		fmt.Println(t, err)
	}
	// Output:
	// 1/4x40 ME <nil>
	// M7x0.5 <nil>
}

// What is usual on model steam pipes, recalled: the rule comes to it.
func TestUnionsInUse(t *testing.T) {
	for r := range check.Open(t, "thread/unions.csv").Rows() {
		tube, err := units.ParseLength(r.Text("tube_in") + " in")
		if err != nil {
			t.Fatal(err)
		}
		got, err := ME.UnionFor(tube)
		if err != nil {
			t.Fatal(err)
		}
		r.Equal("thread", got.Designation())
	}
}

// The collar passes, and through no smaller size of the series.
func TestUnionPasses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]Series{ME, MetricFine, MetricCoarse, UNF, BSF, BSB}).Draw(t, "series")
		tube := units.MM(rapid.Float64Range(1, 25).Draw(t, "tube"))
		got, err := s.UnionFor(tube)
		for other := range s.All() {
			passes := other.Minor().MM() >= tube.MM()+1.5
			if err != nil && passes || err == nil && passes && other.Major().Cmp(got.Major()) < 0 {
				t.Fatalf("%v on %v: %v, %v; %v passes", s, tube, got, err, other)
			}
		}
		if err == nil && got.Minor().MM() < tube.MM()+1.5-1e-9 {
			t.Fatalf("%v on %v", got, tube)
		}
	})
}

func TestUnionRefuses(t *testing.T) {
	for name, call := range map[string]func() error{
		"no tube":       func() error { _, err := ME.UnionFor(units.Length{}); return err },
		"a hair":        func() error { _, err := ME.UnionFor(units.MM(0.5)); return err },
		"a main":        func() error { _, err := MetricFine.UnionFor(units.MM(50)); return err },
		"none so large": func() error { _, err := ME.UnionFor(units.MM(20)); return err },
		"pipe thread":   func() error { _, err := NPT.UnionFor(units.MM(5)); return err },
		"no series":     func() error { _, err := Special.UnionFor(units.MM(5)); return err },
		"unknown":       func() error { _, err := Series(99).UnionFor(units.MM(5)); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
