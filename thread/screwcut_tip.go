package thread

import (
	"math"

	"github.com/valvechest/valvechest/units"
)

// A ToolTip is the point of a screwcutting tool. The zero value is sharp; give
// a flat or a radius, not both.
type ToolTip struct {
	Flat   units.Length // width of a flat across the point
	Radius units.Length // of a rounded point, tangent to both flanks
}

// A CutDepth is how deep a tool goes for the pitch diameter to come right.
type CutDepth struct {
	Depth  units.Length // from the major diameter to the point of the tool, square to the work
	Design units.Length // the same with the root that the standard's form has
	Clears bool         // whether the groove is deep enough for the crest of a nut at its minor diameter
}

// CutDepth returns how deep a tool must go to leave the basic pitch diameter,
// if its point is not that of the standard. What fits is the flanks: a sharp
// tool has to go deeper, a blunt one less deep.
//
//	depth = (d - d2)/2 + P/4 cot A - w/2 cot A           flat w
//	depth = (d - d2)/2 + P/4 cot A - r (1/sin A - 1)     radius r
//
// with d the major and d2 the pitch diameter, P the pitch and A half the angle
// of thread. The work is at its basic major diameter; take half of what it is
// under from the depth. With the standard's own radius the depth is
// [Thread.Depth]. A flat below half the pitch, or a radius that does not reach
// the pitch line, is required. The source is geometry. Other tips are an
// [*units.ArgumentError].
func (t Thread) CutDepth(tip ToolTip) (CutDepth, error) {
	if tip.Flat.Sign() < 0 || tip.Radius.Sign() < 0 || tip.Flat.Sign() > 0 && tip.Radius.Sign() > 0 {
		return CutDepth{}, argument("tip of the tool", "flat "+tip.Flat.String()+", radius "+tip.Radius.String(), "a flat or a radius, or neither for a sharp tool", units.ErrOutOfRange)
	}
	if t.Form() == 0 {
		return CutDepth{}, noThread()
	}
	sin, cos := math.Sincos(t.halfAngle())
	below := t.Pitch().MM() / 4 * cos / sin // from the pitch line to the sharp V
	lost := max(tip.Flat.MM()/2*cos/sin, tip.Radius.MM()*(1/sin-1))
	if lost >= below {
		return CutDepth{}, argument("tip of the tool", "flat "+tip.Flat.String()+", radius "+tip.Radius.String(), "one that reaches below the pitch line of "+t.Designation(), units.ErrOutOfRange)
	}
	depth := mm((t.Major().MM()-t.PitchDiameter().MM())/2 + below - lost)
	return CutDepth{
		Depth: depth, Design: t.Depth(),
		Clears: depth.Scale(2).Add(units.Micron(1)).Cmp(t.Major().Sub(t.Minor())) >= 0, // basic sizes are rounded to less
	}, nil
}

// Lead returns the lead of the thread, exact where it is so many threads to the
// inch; no lead for no thread.
func (t Thread) Lead() Lead {
	if t.tpi != 0 && perInch(t.tpi) == t.Pitch() {
		for inches := 1; inches <= 4; inches++ { // threads to the inch come in halves and quarters
			turns := float64(inches) * t.tpi
			if turns != math.Trunc(turns) {
				continue
			}
			if l, err := NewLead(units.Inch(float64(inches)), int(turns)); err == nil {
				return l
			}
		}
	}
	l, err := NewLead(t.Pitch(), 1)
	if err != nil {
		return Lead{}
	}
	return l
}
