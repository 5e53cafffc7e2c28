package screwcut

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

func TestPitchErrorOnDiameter(t *testing.T) {
	for _, tt := range []struct {
		thread string
		factor float64
	}{{"M6", 1.732}, {"1/4 BSW", 1.921}, {"2 BA", 2.273}} {
		got, err := PitchErrorOnDiameter(thread.MustParse(tt.thread), units.Micron(-10))
		if err != nil || math.Abs(got.Micron()-10*tt.factor) > 0.01 {
			t.Errorf("%s: 10 um of pitch is %v on the diameter, %v, want %.2f um", tt.thread, got, err, 10*tt.factor)
		}
	}
	if got, err := PitchErrorOnDiameter(thread.MustParse("2 BA"), units.Picometres(math.MaxInt64)); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("9000 km: %v, %v", got, err)
	}
}

// TH-10: 80/63 in place of 127/100 is 1.25 um out over 10 mm of M6, 2.165 um on the pitch
// diameter, and 6g allows that 112 um (ISO 965-1); a model engineers' thread has no limits.
func TestPitchErrorShare(t *testing.T) {
	for _, tt := range []struct {
		thread       string
		error        float64 // um
		class        string
		share        float64
		binds, known bool
	}{
		{"M6", 1.25, "6g", 0.01933, false, true},
		{"M6", -1.25, "6g", 0.01933, false, true},
		{"M6", 65, "6g", 1.00519, true, true},
		{"1/4x40", 65, "", 0, false, false},
		{"R 1/8", 65, "", 0, false, false},
	} {
		p, err := PitchErrorShare(thread.MustParse(tt.thread), units.Micron(tt.error))
		if err != nil || p.Limits.Class != tt.class || math.Abs(p.Share-tt.share) > 5e-5 || (len(p.Findings) > 0) != tt.binds ||
			p.Tolerance.IsZero() == tt.known || p.Refs.IsZero() == tt.known {
			t.Errorf("%s, %g um: %+v, %v", tt.thread, tt.error, p, err)
		}
	}
	for name, want := range map[string]string{
		"M6": "2.17 um on the pitch diameter, 1.9 % of what class 6g allows", "1/4x40": "2.40 um on the pitch diameter",
	} {
		if p, err := PitchErrorShare(thread.MustParse(name), units.Micron(1.25)); err != nil || p.String() != want {
			t.Errorf("%s: %q, %v, want %q", name, p, err, want)
		}
	}
	if _, err := PitchErrorShare(thread.Thread{}, units.Micron(1)); err == nil {
		t.Error("no thread")
	}
	if _, err := PitchErrorShare(thread.MustParse("M6"), units.Picometres(math.MaxInt64)); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("9000 km: %v", err)
	}
}
