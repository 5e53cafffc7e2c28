package thread_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

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
