package thread

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A StressArea is the area of the plain rod that is as strong as a thread.
type StressArea struct {
	Area units.Area
	Ref  source.Ref // with the formula in its note
}

// StressArea returns the stress area of an external thread.
//
//	ISO metric   pi/4 (d - 0.938194 P)^2 = pi/4 ((d2 + d3)/2)^2
//	Unified      pi (E/2 - 3H/16)^2, near pi/4 (d - 0.9743 P)^2
//	any other    pi/4 ((d2 + dk)/2)^2
//
// with d the major, d2 or E the pitch and d3 the rounded root diameter, P the
// pitch, H the height of the sharp triangle and dk the diameter at the bottom of
// the groove. E is the basic pitch diameter as B1.1 rounds it, which small
// sizes show in the third figure. For Whitworth, BA and the
// rest no standard states an area; theirs is derived, by the rule of ISO with
// their own core.
//
// Source: ISO 898-1; ASME B1.1 (recalled); the third line is derived. Checked to
// the last figure that tables print: 20 metric areas and 20 of UNF as read, 8 of
// UNC as recalled.
func (t Thread) StressArea() StressArea {
	d, p := t.Major().Metres(), t.Pitch().Metres()
	circle := func(d float64) units.Area { return units.Area(math.Pi / 4 * d * d) }
	switch t.Form() {
	case FormISO:
		return StressArea{circle(d - 0.938194*p), source.Ref{Kind: source.Published, Title: "ISO 898-1", Locator: "nominal stress area", Note: "pi/4 (d - 0.938194 P)^2"}}
	case FormUnified:
		h := t.Form().FundamentalHeight(t.Pitch()).Metres()
		return StressArea{circle(t.PitchDiameter().Metres() - 3*h/8), source.Ref{Kind: source.FromMemory, Title: "ASME B1.1", Locator: "tensile stress area", Note: "pi (E/2 - 3H/16)^2; published tables agree"}}
	}
	return StressArea{circle((t.PitchDiameter().Metres() + t.Root().Metres()) / 2), source.Ref{Kind: source.Derived, Note: "pi/4 ((d2 + dk)/2)^2, the rule of ISO 898-1 with this thread's own core"}}
}
