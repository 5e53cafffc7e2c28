package speeds_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

func TestLadders(t *testing.T) {
	f := check.Open(t, "speeds/ladders.csv")
	for r := range f.Rows() {
		l, err := speeds.ParseLadder(r.Text("ladder"))
		if err != nil {
			t.Fatal(err)
		}
		steps := l.Steps()
		i := int(r.Float("step")) - 1
		if i >= len(steps) {
			t.Fatalf("%s: %d steps", r.ID, len(steps))
		}
		r.Compare("rpm", float64(steps[i].Speed/units.RevPerMinute))
		if i == 0 {
			r.Compare("rpm", float64(l.Slowest().Speed/units.RevPerMinute))
		}
		if i == len(steps)-1 {
			r.Compare("rpm", float64(l.Fastest().Speed/units.RevPerMinute))
		}
		// The steps in any order make the ladder.
		again, err := speeds.NewLadder(append(slices.Clone(steps[i:]), steps[:i]...)...)
		if err != nil {
			t.Fatal(r.ID, err)
		}
		r.Compare("rpm", float64(again.Steps()[i].Speed/units.RevPerMinute))
	}
}

func TestParseLadder(t *testing.T) {
	for _, tt := range []struct {
		text       string
		steps      int
		slow, fast float64
		want, gets float64 // choose want, get gets; gets 0: too fast
		above      float64 // the step above; 0: none
		atTop      bool
	}{
		{"60 110 200 360 rev/min", 4, 60, 360, 200, 200, 360, false},
		{"360, 60, 200, 110 rpm", 4, 60, 360, 199.9, 110, 200, false},
		{"60 110 200 360", 4, 60, 360, 5000, 360, 0, true},
		{"60 110 200 360", 4, 60, 360, 59.9, 0, 0, false},
		{"50-2500", 2, 50, 2500, 333, 330, 0, false},
		{"50-2500", 2, 50, 2500, 99.9, 99, 0, false},
		{"50-2500", 2, 50, 2500, 100, 100, 0, false},
		{"50-2500", 2, 50, 2500, 999, 995, 0, false},
		{"50-5000", 2, 50, 5000, 4774.6, 4770, 0, false},
		{"52.5-2475", 2, 52.5, 2475, 2474, 2470, 0, false},
		{"52.5-2475", 2, 52.5, 2475, 2475, 2475, 0, false}, // its ends are set as they are
		{"52.5-2475", 2, 52.5, 2475, 2600, 2475, 0, true},
		{"52.5-2475", 2, 52.5, 2475, 52.9, 52.5, 0, false},
		{"low 50-1098, high 100-2500", 4, 50, 2500, 1099, 1098, 0, false},
		{"50-2500", 2, 50, 2500, 2600, 2500, 0, true},
		{"50-2500", 2, 50, 2500, 49, 0, 0, false},
		{"low 50-1100, high 1500-2500", 4, 50, 2500, 1300, 1100, 1500, false},
		{"low 50-1100, high 100-2500 rpm", 4, 50, 2500, 90, 90, 100, false},
		{"cone 720 450 280 175", 4, 175, 720, 400, 280, 450, false},
		{"CONE 720,450,280,175, back gear 6.5", 8, 175 / 6.5, 720, 40, 175 / 6.5, 280 / 6.5, false},
		{"R20/3 31.5-2000", 13, 31.5, 2000, 100, 90, 125, false},
		{"r10 31.5 to 2000", 19, 31.5, 2000, 100, 100, 125, false},
		{"450", 1, 450, 450, 450, 450, 0, false},
		{"50\u20132500", 2, 50, 2500, 333, 330, 0, false}, // an en dash, as ranges are printed
		{"60\u00a0110\u2009200", 3, 60, 200, 150, 110, 200, false},
		{"60,110,200", 3, 60, 200, 150, 110, 200, false},
	} {
		l, err := speeds.ParseLadder(tt.text)
		if err != nil {
			t.Errorf("%q: %v", tt.text, err)
			continue
		}
		in := func(n units.RotationalSpeed) float64 { return float64(n / units.RevPerMinute) }
		if len(l.Steps()) != tt.steps || math.Abs(in(l.Slowest().Speed)-tt.slow) > 1e-9 ||
			math.Abs(in(l.Fastest().Speed)-tt.fast) > 1e-9 {
			t.Errorf("%q: %v", tt.text, l.Steps())
		}
		c, err := l.Choose(units.RotationalSpeed(tt.want) * units.RevPerMinute)
		var fast *speeds.TooFastError
		switch {
		case tt.gets == 0:
			if !errors.Is(err, speeds.ErrTooFast) || !errors.Is(err, units.ErrOutOfRange) || !errors.As(err, &fast) ||
				fast.Slowest != l.Slowest() || c.Step.Speed != 0 {
				t.Errorf("%q at %v: %v, %v", tt.text, tt.want, c, err)
			}
		case err != nil || math.Abs(in(c.Step.Speed)-tt.gets) > 1e-9 || math.Abs(in(c.Above.Speed)-tt.above) > 1e-9 ||
			(c.Findings != nil) != tt.atTop:
			t.Errorf("%q at %v: %+v, %v", tt.text, tt.want, c, err)
		}
	}
}

func TestParseLadderRefuses(t *testing.T) {
	for _, text := range []string{
		"", "rev/min", "fast", "60 110 abc", "0 100", "-5", "100 100", "2500-50", "50-2500-", "50 - ", "cone", "cone 600 355, back gear",
		"cone 600 355, back gear 1:1", "cone 600 355, back gear 6:2", "R7 31.5-2000", "R10 30-2000", "R10 2000-31.5", "R10/0 31.5-2000", "R10",
		"1e3", "NaN", "200000", "low 50-1100, fast", strings.Repeat("1 ", 600), "60.5.5 100",
		"31,5 63 125", "60,110, 200", "31,5-2000",
	} {
		l, err := speeds.ParseLadder(text)
		if err == nil {
			t.Errorf("%q: %v", text, l.Steps())
			continue
		}
		var bad *units.ParseError
		if !errors.As(err, &bad) || bad.Accepted == "" || bad.Text != text {
			t.Errorf("%q: %v", text, err)
		}
	}
	if _, err := (speeds.Ladder{}).Choose(1); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no machine: %v", err)
	}
	l, _ := speeds.ParseLadder("50-2500")
	for _, n := range []units.RotationalSpeed{0, -1, units.RotationalSpeed(math.NaN()),
		units.RotationalSpeed(math.Inf(1))} {
		if _, err := l.Choose(n); err == nil {
			t.Errorf("chose for %v", n)
		}
	}
	var u speeds.Ladder
	if err := u.UnmarshalText([]byte("50 100")); err != nil || len(u.Steps()) != 2 {
		t.Errorf("%v, %v", u, err)
	}
	if err := u.UnmarshalText([]byte("x")); err == nil || len(u.Steps()) != 2 {
		t.Errorf("%v, %v", u, err)
	}
}

func FuzzParseLadder(f *testing.F) {
	for _, s := range []string{"60 110 200", "50-2500", "low 50-1100, high 100-2500", "cone 720 450 280 175, back gear 6.5:1",
		"R20/3 31.5-2000", "R40/ -", "cone back gear :"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := speeds.ParseLadder(s)
		if err != nil {
			return
		}
		if len(l.Steps()) == 0 || l.Slowest().Speed <= 0 || l.Fastest().Speed > 100_001*units.RevPerMinute {
			t.Fatalf("%q: %v", s, l.Steps())
		}
	})
}

// What ParseLadder reads comes back from the text of the ladder, and steps with
// names that no text has are refused and not lost.
func TestLadderText(t *testing.T) {
	for text, want := range map[string]string{
		"650 60 110 200 360":                  "60 110 200 360 650 rev/min",
		"50-2500 rpm":                         "50-2500 rev/min",
		"low 50-1100, high 100-2500":          "low 50-1100, high 100-2500 rev/min",
		"cone 720 450 280 175":                "cone 720 450 280 175 rev/min",
		"cone 720 450 280 175, back gear 6.5": "cone 720 450 280 175, back gear 6.5:1 rev/min",
		"R20/3 31.5-500":                      "31.5 45 63 90 125 180 250 355 500 rev/min",
		"":                                    "",
	} {
		var l, back speeds.Ladder
		if err := l.UnmarshalText([]byte(text)); err != nil {
			t.Fatal(err)
		}
		if l.String() != want {
			t.Errorf("%q prints as %q, want %q", text, l, want)
		}
		marshalled, err := l.MarshalText()
		if err != nil || back.UnmarshalText(marshalled) != nil || !slices.Equal(back.Steps(), l.Steps()) {
			t.Errorf("%q came back as %v, %v", text, back, err)
		}
	}
	named, err := speeds.NewLadder(speeds.Step{Speed: 60 * units.RevPerMinute, Name: "slow"})
	if err != nil {
		t.Fatal(err)
	}
	if text, err := named.MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("a step of its own name has text %q, %v", text, err)
	}
	third, err := speeds.NewLadder(speeds.Step{Speed: 355 * units.RevPerMinute / 6})
	if err != nil {
		t.Fatal(err)
	}
	if text, err := third.MarshalText(); err != nil || string(text) != "59.1666666667 rev/min" {
		t.Errorf("a sixth of 355 rev/min has text %q, %v", text, err)
	}
}
