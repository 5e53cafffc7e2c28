package engine

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// Alteration returns what has been altered since the sizes of the file were drawn
// or measured.
func (e *Engine) Alteration() eccentric.Alteration {
	size := func(l *units.Length) units.Length {
		if l == nil {
			return units.Length{}
		}
		return *l
	}
	m := &e.File.Motion
	return eccentric.Alteration{
		Shims: size(m.Shims), ConnectingRod: size(m.ConnectingRodLonger), EccentricRod: size(m.EccentricRodLonger),
	}
}

// Room returns the room of the piston with the given gear, before anything was
// altered; false where the file does not have the sizes. It is not checked.
func (e *Engine) Room(drawn eccentric.Gear) (eccentric.Room, bool) {
	c := &e.File.Cylinder
	if c.Length == nil || c.Piston == nil {
		return eccentric.Room{}, false
	}
	room := eccentric.Room{Gear: drawn, Length: *c.Length, Piston: *c.Piston}
	room.Gaskets, _ = e.Gaskets()
	if c.Wear != nil {
		room.Wear = *c.Wear
	}
	if c.LeastClearance != nil {
		room.Least = *c.LeastClearance
	}
	return room, true
}

// cylinderCover is the name of the covers whose gaskets lie between the piston's
// two ends.
const cylinderCover = "cylinder cover"

// Gaskets returns the thickness of the gaskets under both cylinder covers together,
// and the key that says so: that of the cylinder, or for two alike that of the
// cover; blank where there is none.
func (e *Engine) Gaskets() (thickness units.Length, key string) {
	if g := e.File.Cylinder.Gaskets; g != nil {
		return *g, "cylinder.gaskets"
	}
	for i, c := range e.File.Covers {
		if placeName(c.Where) == cylinderCover && sound(c.Thickness) && c.Thickness.Cmp(mostGasket) < 0 {
			return c.Thickness.Scale(2), fmt.Sprintf("covers[%d].gasket_thickness", i)
		}
	}
	return units.Length{}, ""
}

// mostGasket is more than any gasket is thick; what is beyond is refused elsewhere.
var mostGasket = units.Picometres(1e14) // 100 m

// gaskets compares the thickness of all the gaskets of the cylinder with that of
// the gasket of its cover: it is that of one or of two.
func (e *Engine) gaskets() error {
	all := e.File.Cylinder.Gaskets
	if all == nil || all.Sign() < 0 {
		return nil
	}
	for i, c := range e.File.Covers {
		if placeName(c.Where) != cylinderCover || !sound(c.Thickness) || c.Thickness.Cmp(mostGasket) >= 0 {
			continue
		}
		if one, two := *c.Thickness, c.Thickness.Scale(2); *all != one && *all != two {
			return e.Contradicts("cylinder.gaskets", all.String(), fmt.Sprintf("covers[%d].gasket_thickness", i), one.String(),
				fmt.Sprintf("both covers together, %v, or %v where one end has no joint", two, one))
		}
	}
	return nil
}

// room complains of what is said of the room of the piston and does not go
// together.
func (t *entry) room(e *Engine) {
	c := &e.File.Cylinder
	t.above("length", c.Length, aboveZero)
	t.above("piston", c.Piston, aboveZero)
	t.together("length", "piston")
	for _, may := range []struct {
		key  string
		size *units.Length
	}{{"gaskets", c.Gaskets}, {"least_clearance", c.LeastClearance}, {"wear", c.Wear}} {
		if may.size != nil && may.size.Sign() < 0 {
			t.complain(may.key, "%v; accepted: zero or more", *may.size)
		}
	}
	if c.LeastClearance != nil && c.LeastClearance.IsZero() {
		t.complain("least_clearance", "%v; accepted: "+aboveZero+"; left out, 1/64 in", *c.LeastClearance)
	}
	for _, key := range []string{"gaskets", "head_clearance", "least_clearance", "wear"} {
		if t.has(key) && !t.has("length") && !t.has("piston") {
			t.complain(key, "the room itself is missing; accepted: beside length and piston")
		}
	}
}

// alterations complains of what nobody alters by so much.
func (t *entry) alterations(e *Engine) {
	stroke := e.File.Cylinder.Stroke
	if !sound(stroke) {
		return
	}
	for _, a := range []struct {
		key  string
		size *units.Length
	}{
		{"shims", e.File.Motion.Shims}, {"connecting_rod_longer", e.File.Motion.ConnectingRodLonger},
		{"eccentric_rod_longer", e.File.Motion.EccentricRodLonger},
	} {
		if a.size == nil {
			continue
		}
		if half := stroke.Scale(0.5); a.size.Cmp(half) > 0 || a.size.Cmp(half.Neg()) < 0 {
			t.complain(a.key, "%v; accepted: how much is put in, or made longer, from -%v to %v, half the stroke", *a.size, half, half)
		}
	}
}
