package cutting

import (
	"time"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A Cut is one operation at one spindle speed, from which follow the minutes it
// takes and the force that it asks for.
type Cut struct {
	Operation speeds.Operation
	Material  material.Material
	Diameter  units.Length // of the work where the tool cuts, of the drill or the cutter
	Feed      speeds.Feed  // its lower end is the one to start from, and counts
	Spindle   units.RotationalSpeed
	Teeth     int          // of a milling cutter
	Length    units.Length // that is cut; zero: half the diameter in facing and parting, Depth in drilling
	Width     units.Length // of a slot that is wider than the cutter
	Depth     units.Length // of a drilled hole at its full diameter; the point goes deeper by PointLength
	Deep      units.Length // depth of each cut, of turned work on the radius; zero in a slot: that of SlotPassFor
	Stock     units.Length // to take off in such cuts; zero: one cut
}

// handApproach is the way that a hand leaves before the work, by common practice.
func handApproach() units.Length { return units.MM(2) }

// FeedSpeed returns how fast the tool moves along: [FeedSpeed], or [TableFeed] for
// a feed per tooth, which wants the number of teeth.
func (c Cut) FeedSpeed() (units.Speed, error) {
	teeth := 1
	if c.Feed.PerTooth {
		if teeth = c.Teeth; teeth == 0 {
			return 0, fail.Missing("teeth of the cutter", "1 to 100")
		}
	}
	return TableFeed(c.Spindle, c.Feed.Min, teeth)
}

// Path returns the way of the tool: the length of the cut and what is before it,
// the point of a drill, half of a milling cutter, else the 2 mm that a hand leaves
// (common practice). A fly cutter and a face mill sweep clear of the work behind it
// too. In a slot it is from one end to the other, or a lap along both sides where the
// slot is wider than the cutter, without the way down at each pass. A length that is
// neither given nor that of the operation itself is an error, and a slot that is
// shorter than the cutter or over twice as wide.
func (c Cut) Path() (Path, error) {
	p := Path{Length: c.Length, Approach: handApproach()}
	switch {
	case !p.Length.IsZero():
	case c.Operation == speeds.Facing, c.Operation == speeds.Parting:
		p.Length = c.Diameter.Scale(0.5)
	case c.Operation == speeds.Drilling && !c.Depth.IsZero():
		p.Length = c.Depth
	default:
		return Path{}, fail.Missing("length of the cut", "a length above zero")
	}
	var err error
	switch c.Operation {
	case speeds.Drilling:
		p.Approach, err = PointLength(c.Diameter, UsualPoint)
	case speeds.Milling:
		p.Approach = c.Diameter.Scale(0.5)
	case speeds.FaceMilling, speeds.FlyCutting:
		p.Approach, p.Overrun = c.Diameter.Scale(0.5), c.Diameter.Scale(0.5)
	case speeds.SlotMilling:
		p, err = c.slotPath()
	}
	if err == nil && !c.Stock.IsZero() {
		var deep units.Length
		if deep, err = c.pass(); err == nil {
			p.Passes, _, err = Passes(c.Stock, deep)
		}
	}
	if err != nil {
		return Path{}, err
	}
	return p, nil
}

// Time returns how long the tool is on its way; see [Path.Time].
func (c Cut) Time() (time.Duration, error) {
	vf, err := c.FeedSpeed()
	if err != nil {
		return 0, err
	}
	p, err := c.Path()
	if err != nil {
		return 0, err
	}
	return p.Time(vf)
}

// Load returns force, torque and power of the cut: [DrillingLoad] with a usual
// point for a drilled hole, [TurningLoad] with a square edge for what is turned.
// For the other operations there is no method here, and for some materials no
// figure: an error that wraps [units.ErrUnknown].
func (c Cut) Load() (Load, error) {
	k, err := KienzleFor(c.Material)
	switch {
	case err != nil:
		return Load{}, err
	case c.Feed.PerTooth && (c.Operation == speeds.Drilling || c.Operation.TurnsWork()):
		return Load{}, fail.Wrong("feed", c.Feed.Min.String()+" per tooth", "no cutter with teeth", "a feed per turn")
	case c.Operation == speeds.Drilling:
		return DrillingLoad(k, c.Diameter, c.Feed.Min, UsualPoint, c.Spindle)
	case !c.Operation.TurnsWork():
		return Load{}, fail.Unknown("operation", c.Operation, "turning, boring, facing, drilling")
	}
	return TurningLoad(k, c.Diameter, c.Deep, c.Feed.Min, 90*units.Degree, c.Spindle)
}
