package thread_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

func TestNewRefuses(t *testing.T) {
	mm := units.MM
	for _, test := range []struct {
		name         string
		form         thread.Form
		major, pitch units.Length
		want         error
		says         string
	}{
		{"no form", 0, mm(5), mm(0.8), units.ErrUnknown, "accepted: ISO metric"},
		{"a form of fixed sizes", thread.FormBA, mm(5), mm(0.8), units.ErrUnknown, "any size"},
		{"no diameter", thread.FormISO, mm(0), mm(0.8), units.ErrOutOfRange, "0.25 mm to 300 mm"},
		{"negative diameter", thread.FormISO, mm(-5), mm(0.8), units.ErrOutOfRange, "0.25 mm to 300 mm"},
		{"a slip of the unit", thread.FormISO, mm(5000), mm(0.8), units.ErrOutOfRange, "0.25 mm to 300 mm"},
		{"no pitch", thread.FormISO, mm(5), mm(0), units.ErrOutOfRange, "0.05 mm to 1.250 mm"},
		{"too coarse", thread.FormISO, mm(5), mm(1.3), units.ErrOutOfRange, "0.05 mm to 1.250 mm"},
		{"metric pitch", thread.FormWhitworth, units.Inch(0.25), mm(1), units.ErrOutOfRange, "threads to the inch"},
		{"metric diameter", thread.FormUnified, mm(5), units.Inch(1.0 / 40), units.ErrOutOfRange, "64ths"},
		{"no core", thread.FormTrapezoidal, mm(0.5), mm(0.25), units.ErrOutOfRange, "no core"},
	} {
		if _, err := thread.New(test.form, test.major, test.pitch); !errors.Is(err,
			test.want) || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%s: %v; want %v saying %q", test.name, err, test.want, test.says)
		}
	}
}

// The zero values answer, and do not fall over.
func TestZeroValues(t *testing.T) {
	var th thread.Thread
	if th.TPI() != 0 || th.LeadAngle() != 0 || th.Form() != 0 || th.String() != "" || !th.Refs().IsZero() ||
		th.Series() != thread.Special {
		t.Errorf("no thread: %v %v %v", th.TPI(), th.LeadAngle(), th.Form())
	}
	if _, taper := th.Taper(); taper {
		t.Error("no thread has a taper")
	}
	for name, call := range map[string]func() error{
		"hole":     func() error { _, err := th.ClearanceFor(thread.MediumISO273); return err },
		"room":     func() error { _, err := th.ClearanceOf(units.MM(3)); return err },
		"forming":  func() error { _, err := th.FormingHole(0.65); return err },
		"blind":    func() error { _, err := th.BlindHole(units.MM(3), thread.SecondTap); return err },
		"in blind": func() error { _, err := th.ThreadInBlindHole(units.MM(3), thread.SecondTap); return err },
		"drills":   func() error { _, err := th.TappingDrills(gauge.Metric(), 0.7, thread.FullDepth); return err },
	} {
		if err := call(); !errors.Is(err, units.ErrMissing) {
			t.Errorf("%s of no thread: %v", name, err)
		}
	}
	var form thread.Form
	var basis thread.Basis
	if form.Angle() != 0 || !form.FundamentalHeight(units.MM(1)).IsZero() {
		t.Error("no form has an angle")
	}
	if text, err := th.MarshalText(); err != nil || len(text) > 0 || th.UnmarshalText(text) != nil ||
		th != (thread.Thread{}) {
		t.Errorf("no thread: text %q, %v", text, err)
	}
	if text, err := json.Marshal(basis); err != nil || string(text) != `""` {
		t.Errorf("no basis: %s, %v", text, err)
	}
	if _, err := thread.Series(-1).MarshalText(); err == nil {
		t.Error("no series has text")
	}
	defer func() {
		if recover() == nil {
			t.Error("MustParse of nonsense does not panic")
		}
	}()
	thread.MustParse("nonsense")
}

// The helix of M6x1: p / (pi d2) = 1 / (pi x 5.350), 3.41 degrees.
func TestLeadAngle(t *testing.T) {
	if got := thread.MustParse("M6").LeadAngle().Degrees(); math.Abs(got-3.405) > 0.001 {
		t.Errorf("M6: %.4f degrees", got)
	}
}

// R 1/8 with its gauge length of 4.0 mm: the pitch diameter falls by 4/16 mm to
// the small end.
func TestTaper(t *testing.T) {
	taper, ok := thread.MustParse("R 1/8").Taper()
	if !ok || taper.GaugeLength != units.MM(4) || taper.SmallEnd != units.MM(9.147-0.25) {
		t.Errorf("%v, %v", taper, ok)
	}
	if _, ok := thread.MustParse("G 1/8").Taper(); ok {
		t.Error("G is parallel")
	}
}
