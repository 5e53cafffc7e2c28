package thread_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

func TestNew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		form := rapid.SampledFrom([]thread.Form{thread.FormISO, thread.FormUnified, thread.FormWhitworth,
			thread.FormTrapezoidal, thread.FormAcme}).Draw(t, "form")
		d := units.Thou(float64(rapid.IntRange(10, 11800).Draw(t, "thou")))
		p := units.Inch(1 / (float64(rapid.IntRange(4, 2000).Draw(t, "quarters")) / 4))
		th, err := thread.New(form, d, p)
		if err != nil {
			return
		}
		if th.Form() != form || th.Major() != d || th.Pitch() != p {
			t.Fatalf("New(%v, %v, %v) = %v with %v, %v, %v", form, d, p, th, th.Form(), th.Major(), th.Pitch())
		}
		if th.Minor().Sign() <= 0 || th.Root().Sign() <= 0 {
			t.Fatalf("%v: minor %v, root %v", th, th.Minor(), th.Root())
		}
		if back, err := thread.Parse(th.Designation()); err != nil || back != th {
			t.Fatalf("%v reads back as %v, %v", th, back, err)
		}
	})
}

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
