package strength_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// GA-08: a stud of M3 through a cover of 3 mm and a gasket of 0.25 mm, 4.5 mm in
// the hole, with the nut of ISO 4032, 2.4 mm: 3 + 0.25 + 2.4 + 0.75 + 4.5 = 10.9 mm.
// By the rule it goes 7.5 mm into gunmetal and 3.75 mm into iron.
func TestStud(t *testing.T) {
	gunmetal, err1 := material.Lookup("gunmetal")
	iron, err2 := material.Lookup("cast iron")
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	m3 := thread.MustParse("M3")
	given := strength.Stud{Thread: m3, Cover: units.MM(3), Gasket: units.MM(0.25), Engaged: units.MM(4.5)}
	for _, tt := range []struct {
		name     string
		change   func(*strength.Stud)
		length   float64 // mm
		turns    int
		findings int
	}{
		{"GA-08", func(*strength.Stud) {}, 10.9, 9, 0},
		{"by the rule in gunmetal", func(s *strength.Stud) { s.Engaged, s.Material = units.Length{}, gunmetal }, 13.9, 15, 0},
		{"by the rule in iron", func(s *strength.Stud) { s.Engaged, s.Material = units.Length{}, iron }, 10.15, 7, 0},
		{"too short for gunmetal", func(s *strength.Stud) { s.Material = gunmetal }, 10.9, 9, 1},
		{"without a gasket", func(s *strength.Stud) { s.Gasket = units.Length{} }, 10.65, 9, 0},
		{"a thin nut", func(s *strength.Stud) { s.Nut = units.MM(1.8) }, 10.3, 9, 0},
		{"8 BA with a nut of 2 mm", func(s *strength.Stud) { s.Thread, s.Nut = thread.MustParse("8 BA"), units.MM(2) }, 4.5 + 0.25 + 3 + 2 + 1.5*0.43, 10, 0},
	} {
		stud := given
		tt.change(&stud)
		cut, err := stud.Length()
		if err != nil || math.Abs(cut.Length.MM()-tt.length) > 1e-6 || cut.Turns != tt.turns || len(cut.Findings) != tt.findings ||
			cut.Refs.IsZero() || cut.Outer != cut.Nut.Add(cut.Beyond) {
			t.Errorf("%s: %+v, %v", tt.name, cut, err)
		}
	}
}

func TestStudRefuses(t *testing.T) {
	good := strength.Stud{Thread: thread.MustParse("M3"), Cover: units.MM(3), Engaged: units.MM(4.5)}
	for name, tt := range map[string]struct {
		change func(*strength.Stud)
		kind   error
		says   string
	}{
		"no thread":       {func(s *strength.Stud) { s.Thread = thread.Thread{} }, units.ErrMissing, "thread"},
		"no cover":        {func(s *strength.Stud) { s.Cover = units.Length{} }, units.ErrOutOfRange, "thickness of the cover"},
		"long cover":      {func(s *strength.Stud) { s.Cover = units.MM(1001) }, units.ErrOutOfRange, "up to 1 m"},
		"negative gasket": {func(s *strength.Stud) { s.Gasket = units.MM(-1) }, units.ErrOutOfRange, "thickness of the gasket"},
		"negative nut":    {func(s *strength.Stud) { s.Nut = units.MM(-1) }, units.ErrOutOfRange, "height of the nut"},
		"negative length": {func(s *strength.Stud) { s.Engaged = units.MM(-1) }, units.ErrOutOfRange, "length engaged"},
		"neither":         {func(s *strength.Stud) { s.Engaged = units.Length{} }, units.ErrMissing, "material"},
		"no nut":          {func(s *strength.Stud) { s.Thread = thread.MustParse("2 BA") }, units.ErrUnknown, "nut of 2 BA"},
	} {
		stud := good
		tt.change(&stud)
		_, err := stud.Length()
		check.Refuses(t, name, err, tt.kind, tt.says)
		if !errors.Is(err, tt.kind) || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func ExampleStud_Length() {
	cut, err := strength.Stud{
		Thread: thread.MustParse("M3"), Cover: units.MM(3), Gasket: units.MM(0.25), Engaged: units.MM(4.5),
	}.Length()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(cut.Length, "with", cut.Outer, "of thread for the nut")
	// Output: 10.9 mm with 3.15 mm of thread for the nut
}

// GA-08: a hole of 3.5 mm of full thread takes no stud of 4.5 mm, and the rule of 2.5
// diameters for gunmetal goes no farther than the hole.
func TestStudInItsHole(t *testing.T) {
	gunmetal, err := material.Lookup("gunmetal")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name          string
		stud          strength.Stud
		engaged       float64
		first         finding.Code
		worst         finding.Severity
		saysSomething bool
	}{
		{"deep enough", strength.Stud{Engaged: units.MM(4.5), Hole: units.MM(4.5)}, 4.5, "", 0, false},
		{"too shallow", strength.Stud{Engaged: units.MM(4.5), Hole: units.MM(3.5)}, 4.5, strength.StudTooLong, finding.Fails, true},
		{"not known", strength.Stud{Engaged: units.MM(4.5)}, 4.5, "", 0, false},
		{"by rule, deep enough", strength.Stud{Material: gunmetal, Hole: units.MM(8)}, 7.5, "", 0, false},
	} {
		tt.stud.Thread, tt.stud.Cover = thread.MustParse("M3"), units.MM(3)
		cut, err := tt.stud.Length()
		worst, some := cut.Findings.Worst()
		if err != nil || math.Abs(cut.Engaged.MM()-tt.engaged) > 1e-9 || some != tt.saysSomething ||
			some && (cut.Findings[0].Code != tt.first || worst != tt.worst) {
			t.Errorf("%s: %+v, %v", tt.name, cut, err)
		}
	}
	cut, err := strength.Stud{Thread: thread.MustParse("M3"), Cover: units.MM(3), Material: gunmetal, Hole: units.MM(6)}.Length()
	if err != nil || cut.Engaged != units.MM(6) || len(cut.Findings) != 1 || cut.Findings[0].Code == strength.StudTooLong {
		t.Errorf("by rule, too shallow: %+v, %v", cut, err)
	}
	if _, err := (strength.Stud{Thread: thread.MustParse("M3"), Cover: units.MM(3), Engaged: units.MM(4), Hole: units.MM(-1)}).Length(); err == nil {
		t.Error("a hole below zero")
	}
}
