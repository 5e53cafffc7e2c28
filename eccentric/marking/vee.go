package marking

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

// A Vee is a round bar that lies in a vee block on a flat plate, and the end of it
// that is marked out.
type Vee struct {
	Bar      units.Length // its diameter as it is taken
	Included units.Angle  // of the vee
	Offset   units.Length // of the sheave
}

// Heights are where the point of the scribing block stands.
type Heights struct {
	Centre units.Length // of the bar's axis; the first line, and the second after a quarter turn
	Offset units.Length // of the line of the offset, in the second place; above the axis
	Top    units.Length // of the bar
}

// Heights returns the heights above the root of the vee, where its sides would meet:
//
//	C = d / (2 * sin(a/2))
//	C + e, C + d/2
//
//	d   bar
//	a   included angle of the vee, 10 to 170 degrees
//	e   offset, below half of the bar
//
// The line of the offset is as well drawn below the axis, at C - e: what counts is that
// the two heights differ by e. Geometry. See the Example.
func (v Vee) Heights() (Heights, error) {
	if err := v.Validate(); err != nil {
		return Heights{}, err
	}
	top, err := setting.VeeHeight(v.Bar, v.Included)
	if err != nil {
		return Heights{}, err
	}
	centre := top.Sub(v.Bar.Scale(0.5)) // C = d/(2 sin(a/2))
	return Heights{Centre: centre, Offset: centre.Add(v.Offset), Top: top}, nil
}

// Over returns the heights where the top of the bar stands at the given one: what the
// height gauge reads with its foot on the bar as it lies. They are then those of the
// gauge, whatever the vee and the block are. A reading of up to 1 km either way. See the
// Example of [Vee.Heights].
func (h Heights) Over(top units.Length) (Heights, error) {
	if err := fail.Within(fault.Named("height of the top of the bar", top)); err != nil {
		return Heights{}, err
	}
	up := top.Sub(h.Top)
	return Heights{Centre: h.Centre.Add(up), Offset: h.Offset.Add(up), Top: top}, nil
}

// Misses returns how far above the axis of a bar the lines stand that are drawn for the
// diameter Bar when it really is another: measured down from its top, and up from the
// root of the vee. Below zero they stand lower.
//
//	top    -(d - is)/2
//	root   (d - is) / (2 * sin(a/2))
//
// A bar of 0.748 in taken for 0.750 has them 1 thou low, or 1.41 thou high in a right
// angle. A line of the axis that is drawn once more after half a turn stands twice that
// from itself, which shows it whatever the bar is. Geometry. See the Example of
// [Vee.Heights].
func (v Vee) Misses(is units.Length) (top, root units.Length, err error) {
	if err := v.Validate(); err != nil {
		return units.Length{}, units.Length{}, err
	}
	if err := fail.Above(fault.Named("diameter that the bar really has", is)); err != nil {
		return units.Length{}, units.Length{}, err
	}
	much := v.Bar.Sub(is)
	return much.Scale(-0.5), much.Scale(1 / (2 * math.Sin(v.Included.Radians()/2))), nil
}

// Validate returns an error for a bar, a vee or an offset that cannot be.
func (v Vee) Validate() error {
	if err := fail.Above(fault.Named("bar", v.Bar)); err != nil {
		return err
	}
	if !(v.Included >= 10*units.Degree && v.Included <= 170*units.Degree) {
		return fail.OutOfRange("angle of the vee", v.Included, "10 to 170 degrees, included")
	}
	if half := v.Bar.Scale(0.5); v.Offset.Sign() < 0 || v.Offset.Cmp(half) >= 0 {
		return fail.OutOfRange("offset", v.Offset, "from zero to below half of the bar, "+half.String())
	}
	return nil
}
