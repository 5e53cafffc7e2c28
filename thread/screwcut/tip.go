package screwcut

import (
	"math"

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
//	depth = (d - d2)/2 + P/4 * cot A - w/2 * cot A           flat w
//	depth = (d - d2)/2 + P/4 * cot A - r * (1/sin A - 1)     radius r
//
//	d   major diameter
//	d2  pitch diameter
//	P   pitch
//	A   half the angle of thread
//
// The work is at its basic major diameter; take half of what it is under from
// the depth. With the standard's own radius the depth is [thread.Thread.Depth]. A
// flat below half the pitch, or a radius that does not reach the pitch line, is
// required. Source: geometry.
func (tip ToolTip) DepthFor(t thread.Thread) (CutDepth, error) {
	if err := t.Validate(); err != nil {
		return CutDepth{}, err
	}
	given := "flat " + tip.Flat.String() + ", radius " + tip.Radius.String()
	if tip.Flat.Sign() < 0 || tip.Radius.Sign() < 0 || tip.Flat.Sign() > 0 && tip.Radius.Sign() > 0 {
		return CutDepth{}, fail.OutOfRange("tip of the tool", given, "a flat or a radius, or neither for a sharp tool")
	}
	sin, cos := math.Sincos(t.Form().Angle().Radians() / 2)
	below := t.Pitch().MM() / 4 * cos / sin // from the pitch line to the sharp V
	lost := max(tip.Flat.MM()/2*cos/sin, tip.Radius.MM()*(1/sin-1))
	if lost >= below {
		return CutDepth{}, fail.OutOfRange("tip of the tool", given,
			"one that reaches below the pitch line of "+t.Designation())
	}
	depth, err := units.Millimetres.Of((t.Major().MM()-t.PitchDiameter().MM())/2 + below - lost)
	if err != nil {
		return CutDepth{}, err
	}
	c := CutDepth{Depth: depth, Design: t.Depth(), Refs: t.Refs()}
	if depth.Scale(2).Add(units.Micron(1)).Cmp(t.Major().Sub(t.Minor())) < 0 { // basic sizes are rounded to less
		c.Findings = finding.List{{
			Code: ShallowGroove, Severity: finding.Fails,
			Text:     "The groove is too shallow for the crest of a nut at its minor diameter, and the nut does not go on.",
			Remedies: []string{"Grind a smaller flat or radius on the tool.", "Bore the nut larger."},
		}}
	}
	return c, nil
}
