package strength

import (
	"math"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A StressArea is the area of the plain rod that is as strong as a thread.
type StressArea struct {
	Area units.Area
	Refs source.Refs // with the formula in the note
}

var (
	areaISO = source.Ref{
		Kind: source.Published, Title: "ISO 898-1", Locator: "nominal stress area", Note: "pi/4 (d - 0.938194 P)^2",
	}
	areaUnified = source.Ref{
		Kind: source.FromMemory, Title: "ASME B1.1", Locator: "tensile stress area",
		Note: "pi (E/2 - 3H/16)^2; published tables agree",
	}
	areaOther = source.Ref{
		Kind: source.Derived, Note: "pi/4 ((d2 + dk)/2)^2, the rule of ISO 898-1 with this thread's own core",
	}
)

// StressAreaOf returns the stress area of an external thread; it is zero for no
// thread.
//
//	ISO metric   pi/4 * (d - 0.938194 * P)^2 = pi/4 * ((d2 + d3)/2)^2
//	Unified      pi * (E/2 - 3*H/16)^2, near pi/4 * (d - 0.9743 * P)^2
//	any other    pi/4 * ((d2 + dk)/2)^2
//
//	d      major diameter
//	d2, E  pitch diameter, E as ASME B1.1 rounds it, which small sizes show in the third figure
//	d3     rounded root diameter
//	dk     diameter at the bottom of the groove
//	P      pitch
//	H      height of the sharp triangle
//
// For Whitworth, BA and the rest no standard states an area; theirs is derived,
// by the rule of ISO with their own core. Source: ISO 898-1; ASME B1.1, recalled.
func StressAreaOf(t thread.Thread) StressArea {
	d, p := t.Major().Metres(), t.Pitch().Metres()
	circle := func(d float64) units.Area { return units.Area(math.Pi / 4 * d * d) }
	switch t.Form() {
	case 0:
		return StressArea{}
	case thread.FormISO:
		return StressArea{circle(d - 0.938194*p), source.Shared(&areaISO)} // ISO 898-1, nominal stress area
	case thread.FormUnified:
		h := t.Form().FundamentalHeight(t.Pitch()).Metres()
		return StressArea{circle(t.PitchDiameter().Metres() - 3*h/8), source.Shared(&areaUnified)} // ASME B1.1
	}
	return StressArea{circle((t.PitchDiameter().Metres() + t.Root().Metres()) / 2), source.Shared(&areaOther)}
}
