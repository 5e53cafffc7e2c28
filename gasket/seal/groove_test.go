package seal

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The printed squeeze is that of the printed depth with the section at its
// limits, to the percent it is printed in and one more for its own rounding.
func TestGrooveSqueeze(t *testing.T) {
	tolerance := map[units.Length]units.Length{units.Inch(0.139): units.Thou(4), units.Inch(0.210): units.Thou(5)}
	for _, g := range Grooves() {
		tol, ok := tolerance[g.Section]
		if !ok {
			tol = units.Thou(3)
		}
		least := 1 - g.DepthMax.Ratio(g.Section.Sub(tol))
		most := 1 - g.DepthMin.Ratio(g.Section.Add(tol))
		if math.Abs(least-g.SqueezeMin) > 0.015 || math.Abs(most-g.SqueezeMax) > 0.015 {
			t.Errorf("%v %v: squeeze %.3f to %.3f, printed %.2f to %.2f", g.Section, g.Duty, least, most, g.SqueezeMin, g.SqueezeMax)
		}
		// a face groove has no clearance; a moving ring has no less than a still one
		if (g.ClearanceMax.Sign() > 0) != (g.Duty != Face) || (g.RunoutMax.Sign() > 0) != (g.Duty != Face) || g.CornerMin.Sign() <= 0 || g.CornerMax.Cmp(g.CornerMin) < 0 {
			t.Errorf("%v %v: clearance %v, runout %v, corner %v to %v", g.Section, g.Duty, g.ClearanceMax, g.RunoutMax, g.CornerMin, g.CornerMax)
		}
		if g.ClearanceMax.Cmp(g.DepthMin.Scale(0.2)) > 0 {
			t.Errorf("%v %v: a clearance of %v in a gland of %v", g.Section, g.Duty, g.ClearanceMax, g.DepthMin)
		}
	}
	// In inches the guide prints it exactly, for the tolerances that the rings have.
	f := check.Open(t, "gasket/seal/groove_squeeze.csv")
	for r := range f.Rows() {
		var duty Duty
		if err := duty.UnmarshalText([]byte(r.Text("duty"))); err != nil {
			t.Fatal(err)
		}
		g, err := GrooveFor(units.Inch(r.Float("section_in")), duty)
		if err != nil {
			t.Fatal(err)
		}
		tol, ok := tolerance[g.Section]
		if !ok {
			tol = units.Thou(3)
		}
		r.Compare("squeezed_least_in", g.Section.Sub(tol).Sub(g.DepthMax).Inch())
		r.Compare("squeezed_most_in", g.Section.Add(tol).Sub(g.DepthMin).Inch())
	}
	for _, r := range Rings() {
		want := units.Thou(3)
		if tol, ok := tolerance[r.Section]; ok {
			want = tol
		}
		if r.SectionTolerance != want {
			t.Errorf("%s: tolerance of the section %v", r.Size, r.SectionTolerance)
		}
	}
}

// A second table agrees with the first within 3 thou but for two grooves of
// moving rings, which it makes shallower; the first is used.
func TestGrooveWitness(t *testing.T) {
	f := check.Open(t, "gasket/seal/oring_groove.csv")
	for r := range f.Rows() {
		duty := Dynamic
		if r.Text("duty") == "face" {
			duty = Face
		}
		g, err := GrooveFor(units.Inch(r.Float("section_in")), duty)
		if err != nil {
			t.Fatal(err)
		}
		if r.ID == "web-0.139-dynamic" || r.ID == "web-0.103-dynamic" {
			if g.DepthMin.Inch() <= r.Float("depth_most_in") {
				t.Errorf("%s: the tables were known to disagree", r.ID)
			}
			r.Skip("the two tables disagree by 0.004 in and more")
			continue
		}
		r.Within("depth_least_in", g.DepthMin.Inch(), 0.0015)
		r.Within("depth_most_in", g.DepthMax.Inch(), 0.0035)
		if w := g.Width.Inch(); w < r.Float("width_least_in")-0.006 || w > r.Float("width_most_in")+0.006 {
			t.Errorf("%s: width %g", r.ID, w)
		}
	}
}

// Both grooves of a section say what to mind; a face has no clearance.
func TestGrooveAdvice(t *testing.T) {
	for _, test := range []struct {
		duty      Duty
		want, not string
	}{
		{Dynamic, "clearance on the diameter is 0.13 mm (5 thou) at most", "faces"},
		{Static, "0.8 um", "slides"},
		{Face, "metal to metal", "clearance"},
	} {
		g, err := GrooveFor(units.Inch(0.103), test.duty)
		if err != nil {
			t.Fatal(err)
		}
		if text := fmt.Sprint(g.Advice()); !strings.Contains(text, test.want) || strings.Contains(text, test.not) || !strings.Contains(text, "0.13 to 0.51 mm (5 to 20 thou)") {
			t.Errorf("%v: %s", test.duty, text)
		}
	}
}

func TestGrooveRefuses(t *testing.T) {
	_, err := GrooveFor(units.MM(2), Dynamic)
	check.Refuses(t, "section", err, units.ErrUnknown, "0.070")
	_, err = GrooveFor(units.Inch(0.07), 0)
	check.Refuses(t, "no duty", err, units.ErrUnknown, "dynamic, static or face")
}
