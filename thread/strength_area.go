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
//	Unified      pi/4 (d - 0.9743 P)^2
//	any other    pi/4 ((d2 + dk)/2)^2
//
// with d the major, d2 the pitch and d3 the rounded root diameter, P the pitch
// and dk the diameter at the bottom of the groove. For Whitworth, BA and the
// rest no standard states an area; theirs is derived, by the rule of ISO with
// their own core.
//
// Source: ISO 898-1 and ASME B1.1 appendix B; the third line is derived. Checked
// to the three or four figures that tables print.
func (t Thread) StressArea() StressArea {
	d, p := t.Major().Metres(), t.Pitch().Metres()
	circle := func(d float64) units.Area { return units.Area(math.Pi / 4 * d * d) }
	switch t.Form() {
	case FormISO:
		return StressArea{circle(d - 0.938194*p), source.Ref{Kind: source.Published, Title: "ISO 898-1", Locator: "nominal stress area", Note: "pi/4 (d - 0.938194 P)^2"}}
	case FormUnified:
		return StressArea{circle(d - 0.9743*p), source.Ref{Kind: source.FromMemory, Title: "ASME B1.1", Locator: "tensile stress area", Note: "pi/4 (d - 0.9743 P)^2; published tables agree"}}
	}
	return StressArea{circle((t.PitchDiameter().Metres() + t.Root().Metres()) / 2), source.Ref{Kind: source.Derived, Note: "pi/4 ((d2 + dk)/2)^2, the rule of ISO 898-1 with this thread's own core"}}
}
