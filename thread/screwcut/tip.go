package screwcut

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A ToolTip is the point of a screwcutting tool. The zero value is sharp; give
// a flat or a radius, not both.
type ToolTip struct {
	Flat   units.Length // width of a flat across the point
	Radius units.Length // of a rounded point, tangent to both flanks
}

const tipAccepted = `"sharp", "flat 0.1 mm" or "radius 0.1 mm", above zero up to 25 mm`

// ParseToolTip reads "sharp", "flat 0.1 mm" or "radius 4 thou", in capitals or
// not. A width or a radius is above zero and at most 25 mm.
func ParseToolTip(s string) (ToolTip, error) {
	text := strings.ToLower(strings.TrimSpace(s))
	if text == "sharp" {
		return ToolTip{}, nil
	}
	kind, size, _ := strings.Cut(text, " ")
	if kind != "flat" && kind != "radius" {
		return ToolTip{}, fail.Unreadable("tip of the tool", s, "neither sharp nor a flat or a radius", tipAccepted)
	}
	width, err := units.ParseLength(size)
	switch {
	case err != nil:
		return ToolTip{}, fail.Unreadable("tip of the tool", s, "the size cannot be read", tipAccepted)
	case width.Sign() <= 0 || width.Cmp(units.MM(25)) > 0:
		return ToolTip{}, fail.Text("tip of the tool", s, "", tipAccepted, units.ErrOutOfRange)
	case kind == "flat":
		return ToolTip{Flat: width}, nil
	}
	return ToolTip{Radius: width}, nil
}

// String returns the tip as [ParseToolTip] reads it; both sizes of one that has
// two, which is no tip.
func (tip ToolTip) String() string {
	switch {
	case tip == ToolTip{}:
		return "sharp"
	case tip.Radius.IsZero():
		return "flat " + tip.Flat.String()
	case tip.Flat.IsZero():
		return "radius " + tip.Radius.String()
	}
	return "flat " + tip.Flat.String() + ", radius " + tip.Radius.String()
}

// MarshalText implements [encoding.TextMarshaler].
func (tip ToolTip) MarshalText() ([]byte, error) { return []byte(tip.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseToolTip].
func (tip *ToolTip) UnmarshalText(text []byte) error {
	v, err := ParseToolTip(string(text))
	if err == nil {
		*tip = v
	}
	return err
}

// A GroundTip is a tip that people grind for a thread.
type GroundTip struct {
	Name string // how it is ground: "sharp", "flat of P/8", "radius of the form"
	Tip  ToolTip
}

// GroundTips returns the tips that people grind for a thread, the one that goes
// deepest first: sharp, with a flat of an eighth of the pitch, and as the root of
// the form. How deep the tool goes hangs on which it is, and by a quarter and more.
//
//	r = c * P
//
//	r  radius of the root
//	P  pitch
//	c  0.14434 ISO metric, 0.16238 Unified (UNR), 0.13733 Whitworth, 0.18083 BA, 0.16667 Cycle
//
// The flat roots of NPT, trapezoidal and Acme follow from the depth of the form; an
// eighth of the pitch is too blunt for the first, and the others have no other tip.
// See the Example.
func GroundTips(t thread.Thread) ([]GroundTip, error) {
	if err := t.Validate(); err != nil {
		return nil, err
	}
	sharp := GroundTip{"sharp", ToolTip{}}
	eighth := GroundTip{"flat of P/8", ToolTip{Flat: t.Pitch().Scale(1.0 / 8)}}
	form := GroundTip{"radius of the form", ToolTip{Radius: t.Pitch().Scale(rootRadius[t.Form()])}}
	if form.Tip.Radius.IsZero() {
		sin, cos := math.Sincos(t.Form().Angle().Radians() / 2)
		bottom := t.Pitch().MM()*(crestHeight[t.Form()]+cos/sin/4) - t.Depth().MM()
		flat, err := units.Millimetres.Of(2 * bottom * sin / cos)
		if err != nil {
			return nil, err
		}
		form = GroundTip{"flat of the form", ToolTip{Flat: flat}}
	}
	switch t.Form() {
	case thread.FormTrapezoidal, thread.FormAcme:
		return []GroundTip{form}, nil
	case thread.FormNPT: // an eighth of the pitch is too blunt for its depth
		return []GroundTip{sharp, form}, nil
	}
	return []GroundTip{sharp, eighth, form}, nil
}

// rootRadius is the radius at the root of the forms that have one, over the
// pitch: H/6 of ISO 68-1, 3H/16 of Unified, which is tangent to the flanks at the
// depth of 11H/16 of ASME B1.1, and those of BS 84, BS 93 and BS 811.
var rootRadius = [...]float64{
	thread.FormISO: 0.1443376, thread.FormUnified: 0.1623798, thread.FormWhitworth: 0.137329,
	thread.FormBA: 0.1808346, thread.FormCycle: 1.0 / 6, thread.FormAcme: 0,
}

// ShallowGroove is the finding of [ToolTip.DepthFor]: the crest of a nut at its
// minor diameter meets the bottom of the groove.
const ShallowGroove finding.Code = "shallow-groove"

// A CutDepth is how deep a tool goes for the pitch diameter to come right.
type CutDepth struct {
	Depth    units.Length // from the major diameter to the point of the tool, square to the work
	Design   units.Length // the same with the root that the standard's form has
	Findings finding.List
	Refs     source.Refs
}

// DepthFor returns how deep a tool must go to leave the basic pitch diameter, if
// its point is not that of the standard. What fits is the flanks: a sharp tool
// has to go deeper, a blunt one less deep.
//
//	depth = c + P/4 * cot A - w/2 * cot A           flat w
//	depth = c + P/4 * cot A - r * (1/sin A - 1)     radius r
//
//	c  height of the crest over the pitch line, by the form and not rounded
//	P  pitch
//	A  half the angle of thread
//
// The work is at its basic major diameter; take half of what it is under from
// the depth. With the standard's own radius the depth is [thread.Thread.Depth]. A
// flat below half the pitch, or a radius that does not reach the pitch line, is
// required. Source: geometry.
func (tip ToolTip) DepthFor(t thread.Thread) (CutDepth, error) {
	if err := t.Validate(); err != nil {
		return CutDepth{}, err
	}
	if tip.Flat.Sign() < 0 || tip.Radius.Sign() < 0 || tip.Flat.Sign() > 0 && tip.Radius.Sign() > 0 {
		return CutDepth{}, fail.OutOfRange("tip of the tool", tip, "a flat or a radius, or neither for a sharp tool")
	}
	sin, cos := math.Sincos(t.Form().Angle().Radians() / 2)
	below := t.Pitch().MM() / 4 * cos / sin // from the pitch line to the sharp V
	lost := max(tip.Flat.MM()/2*cos/sin, tip.Radius.MM()*(1/sin-1))
	if lost >= below {
		return CutDepth{}, fail.OutOfRange("tip of the tool", tip,
			"one that reaches below the pitch line of "+t.Designation())
	}
	depth, err := units.Millimetres.Of(crestHeight[t.Form()]*t.Pitch().MM() + below - lost)
	if err != nil {
		return CutDepth{}, err
	}
	c := CutDepth{Depth: depth, Design: t.Depth(), Refs: t.Refs()}
	if depth.Scale(2).Add(units.Micron(6)).Cmp(t.Major().Sub(t.Minor())) < 0 { // basic sizes are rounded to less
		c.Findings = finding.List{{
			Code: ShallowGroove, Severity: finding.Fails,
			Text:     "The groove is too shallow for the crest of a nut at its minor diameter, and the nut does not go on.",
			Remedies: []string{"Grind a smaller flat or radius on the tool.", "Bore the nut larger."},
		}}
	}
	return c, nil
}

// crestHeight is the height of the screw's crest over its pitch line, over the
// pitch: 3H/8 of ISO 68-1 and ASME B1.1, half the depth of BS 84, BS 93 and BS 811,
// half the height of ASME B1.20.1, and a quarter of ISO 2901 and ASME B1.5.
var crestHeight = [...]float64{
	thread.FormISO: 0.3247595264, thread.FormUnified: 0.3247595264, thread.FormWhitworth: 0.3201635, thread.FormBA: 0.3,
	thread.FormCycle: 0.266325, thread.FormNPT: 0.4, thread.FormTrapezoidal: 0.25, thread.FormAcme: 0.25,
}
