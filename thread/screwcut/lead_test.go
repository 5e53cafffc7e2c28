package screwcut

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

func TestLead(t *testing.T) {
	for _, tt := range []struct {
		in, out string
		mm      float64
	}{
		{"8 tpi", "8 tpi", 3.175},
		{"11 1/2 tpi", "11.5 tpi", 25.4 / 11.5},
		{"11.5tpi", "11.5 tpi", 25.4 / 11.5},
		{"6 TPI", "6 tpi", 25.4 / 6},
		{"1.5 mm", "1.5 mm", 1.5},
		{"0.8 mm", "0.8 mm", 0.8},
		{"1.6mm", "1.6 mm", 1.6},
		{"1/8 in", "8 tpi", 3.175},
		{"0.43 mm", "0.43 mm", 0.43},
		{"10 mm in 3 turns", "10 mm in 3 turns", 10.0 / 3},
		{"1 in in 8 turns", "8 tpi", 3.175},
		{"3 mm in 2 turns", "1.5 mm", 1.5},
	} {
		l, err := ParseLead(tt.in)
		if err != nil || l.String() != tt.out || math.Abs(l.Length().MM()-tt.mm) > 1e-9 {
			t.Errorf("ParseLead(%q) = %v (%v), %v; want %s", tt.in, l, l.Length(), err, tt.out)
		}
		if back, err := ParseLead(l.String()); err != nil || back != l {
			t.Errorf("ParseLead(%q) does not read back: %v, %v", l, back, err)
		}
	}
	for _, bad := range []string{"", "8", "tpi", "0 tpi", "-8 tpi", "8 mm/rev", "0 mm", "-1 mm", "1e9 mm", "200 mm",
		"1/0 tpi", "0.000000001 tpi", "0.123456789 tpi", "1000000 tpi", "3 turns", "mm in 3 turns", "10 mm in 3.5 turns", "10 mm in 0 turns"} {
		if l, err := ParseLead(bad); err == nil {
			t.Errorf("ParseLead(%q) = %v", bad, l)
		}
	}
}

func TestLeadText(t *testing.T) {
	for _, s := range []string{"8 tpi", "1.5 mm", "10 mm in 3 turns"} {
		var l Lead
		if err := l.UnmarshalText([]byte(s)); err != nil {
			t.Fatal(err)
		}
		if text, err := l.MarshalText(); err != nil || string(text) != s {
			t.Errorf("%s comes back as %s, %v", s, text, err)
		}
	}
	l := mustLead(t, "8 tpi")
	if err := l.UnmarshalText([]byte("eight")); err == nil || l != mustLead(t, "8 tpi") {
		t.Errorf("a bad text leaves %v, %v", l, err)
	}
	none := l
	if text, err := (Lead{}).MarshalText(); err != nil || len(text) > 0 || none.UnmarshalText(text) != nil ||
		none != (Lead{}) {
		t.Errorf("no lead: %q, %v, back %v", text, err, none)
	}
	if l := (Lead{}); l.TPI() != 0 || !l.Length().IsZero() {
		t.Errorf("no lead: %v tpi, %v", l.TPI(), l.Length())
	}
	for _, turns := range []int{0, -1, 2_000_000} {
		if l, err := NewLead(units.MM(1), turns); err == nil {
			t.Errorf("1 mm in %d turns: %v", turns, l)
		}
	}
}

func FuzzParseLead(f *testing.F) {
	for _, s := range []string{"8 tpi", "11 1/2 tpi", "1.5 mm", "1/8 in", "0.0001 tpi", "0.000000001 tpi", "1/3 tpi",
		".27001tpi"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := ParseLead(s)
		if err != nil {
			return
		}
		if mm := l.Length().MM(); !(mm >= 0.0099 && mm <= 100.1) {
			t.Errorf("ParseLead(%q) = %v mm", s, mm)
		}
		if text, err := l.MarshalText(); err == nil {
			if back, err := ParseLead(string(text)); err != nil || back != l {
				t.Errorf("%q: %s reads back as %v, %v", s, text, back, err)
			}
		}
	})
}

func TestLeadOf(t *testing.T) {
	for _, tt := range []struct{ thread, want string }{
		{"M8", "1.25 mm"}, {"1/4-20 UNC", "20 tpi"}, {"1/8-27 NPT", "27 tpi"}, {"1/2 NPT", "14 tpi"},
		{"1 NPT", "11.5 tpi"}, {"2 BA", "0.81 mm"}, {"1/4x40 ME", "40 tpi"}, {"Tr 10x2", "2 mm"},
	} {
		if got := LeadOf(thread.MustParse(tt.thread)); got.String() != tt.want {
			t.Errorf("%s: lead %v, want %s", tt.thread, got, tt.want)
		}
	}
	if got := LeadOf(thread.Thread{}); got != (Lead{}) {
		t.Errorf("no thread: %v", got)
	}
}

// What cannot be read is one type of error, whichever text it was.
func TestUnreadable(t *testing.T) {
	for _, text := range []string{"", "8", "0 mm", "200 mm", "1000000 tpi", "3 turns"} {
		_, err := ParseLead(text)
		var bad *units.ParseError
		if !errors.As(err, &bad) || bad.Text != text || bad.Accepted == "" {
			t.Errorf("%q: %v", text, err)
		}
	}
	_, err := ParseWheels("20, 30x")
	var bad *units.ParseError
	if !errors.As(err, &bad) || bad.Text != "30x" {
		t.Errorf("wheels: %v", err)
	}
}
