package fits_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// What FN2 gives at an eighth of an inch is four times what the trade calls the
// most: the tolerances alone are as large as that.
func ExampleCheckInterference() {
	list, err := fits.CheckInterference(units.InchFraction(1, 8), units.Thou(1))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range list {
		fmt.Println(f.Code, f.Severity)
		fmt.Println(f.Text)
		fmt.Println(strings.Join(f.Remedies, "\n"))
	}
	// Output:
	// beyond-press-rules caution
	// The interference is 0.025 mm (1.00 thou), 8.0 thou per inch, above the rules of the trade, 0.5 to 2.0 thou per inch. At this size H7/s6 of ISO 286 and FN2 of ANSI B4.1 allow as much, because tolerances weigh more on a small part. A steel hub that bears it is pressed home cold, as the heat that frees it softens or colours it; iron and soft metal bear less.
	// Measure the hole and make the shaft 0.002 to 0.006 mm (0.06 to 0.25 thou) larger, a press fit by the rules of the trade.
	// In mild steel stay below 0.003 mm (0.13 thou), from where a bore on a solid shaft gives.
}

// A fit and the interference that its tightest parts have are judged alike: no
// class may be called fit for use by one and stopped by the other without a word.
func TestOneJudgementOfInterference(t *testing.T) {
	type fit struct {
		name   string
		limits fits.FitLimits
		said   finding.List
	}
	var all []fit
	for _, mm := range []float64{1, 2, 3, 3.175, 6, 10, 12.7, 20, 25.4, 50, 100} {
		d := units.MM(mm)
		preferred, err := fits.PreferredFits(fits.HoleBasis)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range preferred {
			if r, err := p.Fit.LimitsFor(d); err == nil {
				all = append(all, fit{p.Fit.String(), r, r.Check()})
			}
		}
		for _, f := range fits.InchFits() {
			if r, err := f.LimitsFor(d); err == nil {
				all = append(all, fit{f.String(), r.FitLimits, r.Check()})
			}
		}
	}
	code := func(list finding.List) finding.Code {
		for _, f := range list {
			if f.Code == fits.BeyondPress || f.Code == fits.BeyondPressRules {
				return f.Code
			}
		}
		return ""
	}
	beyond := 0
	for _, f := range all {
		over := f.limits.Clearance.Min.Neg()
		if over.Sign() <= 0 {
			if code(f.said) != "" {
				t.Errorf("%s: %v", f.name, f.said)
			}
			continue
		}
		alone, err := fits.CheckInterference(f.limits.Hole.Min, over)
		if err != nil {
			t.Fatal(err)
		}
		measured, err := fits.Measured(f.limits.Hole.Min, f.limits.Shaft.Max)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := code(f.said), code(alone); got != want || code(measured.Findings) != want || want == fits.BeyondPress {
			t.Errorf("%s at %v: %q, the interference alone %q, the parts measured %v", f.name, f.limits.Hole.Nominal, got, want, measured.Findings)
		}
		if !alone.OK() || !measured.Findings.OK() || !f.said.OK() {
			t.Errorf("%s at %v: a fit of a standard is stopped: %v", f.name, f.limits.Hole.Nominal, measured.Findings)
		}
		if code(alone) != "" {
			beyond++
		}
	}
	if beyond < 20 {
		t.Errorf("only %d fits above the rules", beyond)
	}
}

// The bore of a hub on a solid shaft of the same steel is stressed to E delta/d:
// 210 MPa, 207 GPa and 25.4 mm give 0.0258 mm, 1.01 thou. FN2 at an inch goes to
// 1.9 thou.
func TestGivesAtBore(t *testing.T) {
	fn2, err := fits.ParseInchFit("FN2")
	if err != nil {
		t.Fatal(err)
	}
	r, err := fn2.LimitsFor(units.Inch(1))
	if err != nil {
		t.Fatal(err)
	}
	list := r.Check()
	from := fmt.Sprintf("from %.3f mm (%.2f thou)", 25.4*210/207e3, 1000*210/207e3)
	if math.Abs(r.Clearance.Min.Thou()+1.9) > 1e-9 || len(list) != 1 || list[0].Code != fits.GivesAtBore ||
		list[0].Severity != finding.Note || !strings.Contains(list[0].Text, from) || list[0].Refs.IsZero() {
		t.Errorf("%v: %+v, want %q", r.Clearance, list, from)
	}
	h, err := fits.ParseFit("H7/p6")
	if err != nil {
		t.Fatal(err)
	}
	if r, err := h.LimitsFor(units.MM(100)); err != nil || len(r.Check()) != 0 { // 59 um of 101
		t.Error(r.Check(), err)
	}
}

func TestCheckInterference(t *testing.T) {
	for _, tt := range []struct {
		over float64
		code finding.Code
	}{{0, ""}, {0.02, ""}, {0.0201, fits.BeyondPressRules}, {0.05, fits.BeyondPressRules}, {0.052, fits.BeyondPress}} {
		list, err := fits.CheckInterference(units.MM(10), units.MM(tt.over))
		if err != nil || (tt.code == "") != (len(list) == 0) || len(list) > 0 && (list[0].Code != tt.code || list[0].Refs.IsZero()) {
			t.Errorf("%g mm: %v, %v", tt.over, list, err)
		}
	}
	for _, bad := range [][2]float64{{0, 0.01}, {-1, 0.01}, {10, -0.01}} {
		if _, err := fits.CheckInterference(units.MM(bad[0]), units.MM(bad[1])); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", bad, err)
		}
	}
}
