package marking

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// An EyeEnd is the end of a part beyond its pin, flat, with two corners rounded off.
type EyeEnd struct {
	Width  units.Length // across the part
	Beyond units.Length // from the middle of the pin to the end
	Corner units.Length // radius of both corners: zero sharp, half the width a full round
}

// Reach returns how far the end comes from the pin, in the line of the other part,
// while it swings up to an angle either way:
//
//	reach = (b - r)*cos a + (w/2 - r)*sin a + r
//	a     = min(swing, atan((w/2 - r)/(b - r)))
//
//	b  from the middle of the pin to the end
//	w  width
//	r  radius of the corners
//
// A swing from 0 to 90 degrees, and corners that the end has room for. Geometry. See
// the Example of [Clevis.Solve].
func (e EyeEnd) Reach(swing units.Angle) (units.Length, error) {
	if err := e.validate("end", swing); err != nil {
		return units.Length{}, err
	}
	return units.Picometres(int64(math.Ceil(e.reach(e.Corner, swing)))), nil
}

func (e EyeEnd) reach(corner units.Length, swing units.Angle) float64 {
	r := count(corner)
	along, across := count(e.Beyond)-r, count(e.Width)/2-r
	a := min(swing.Radians(), math.Atan2(across, along))
	return along*math.Cos(a) + across*math.Sin(a) + r // reach = (b - r) cos a + (w/2 - r) sin a + r
}

// full is the largest radius that its corners have room for.
func (e EyeEnd) full() units.Length {
	half := e.Width.Scale(0.5)
	if e.Beyond.Cmp(half) < 0 {
		return e.Beyond
	}
	return half
}

// cornerFor returns the least radius of the corners with which the end stays within a
// depth; false if none does.
func (e EyeEnd) cornerFor(depth units.Length, swing units.Angle) (units.Length, bool) {
	low, high := units.Length{}, e.full()
	if e.reach(high, swing) > count(depth) {
		return units.Length{}, false
	}
	if e.reach(low, swing) <= count(depth) {
		return low, true
	}
	for range 60 { // the reach falls as the radius grows
		if middle := low.Add(high).Scale(0.5); e.reach(middle, swing) > count(depth) {
			low = middle
		} else {
			high = middle
		}
	}
	return high, true
}

func (e EyeEnd) validate(part string, swing units.Angle) error {
	err := fail.Above(fault.Named("width of the "+part, e.Width), fault.Named(part+" beyond the pin", e.Beyond))
	switch {
	case err != nil:
		return err
	case e.Corner.Sign() < 0 || e.Corner.Cmp(e.full()) > 0:
		return fail.OutOfRange("corners of the "+part, e.Corner, "from zero to what the end has room for, "+e.full().String())
	case !(swing >= 0 && swing <= 90*units.Degree):
		return fail.OutOfRange("swing", swing, "from 0 to 90 degrees")
	}
	return nil
}

// A Clevis is a fork with an eye between its cheeks on a pin: a valve spindle and its
// rod, a rod and a lever.
type Clevis struct {
	Pin  units.Length // its diameter
	Eye  EyeEnd       // swings towards the bottom of the slot
	Fork EyeEnd       // of the cheeks; swings towards the shoulder of the eye, where it has one
	// Swing is how far the eye swings either way, [RodSwing] for an eccentric rod, with a
	// little more to put the joint together.
	Swing units.Angle

	Slot     units.Length // from the middle of the pin to the bottom of the slot; zero: to be found
	Shoulder units.Length // from the middle of the pin to the shoulder of the eye; zero: to be found

	Thickness, Gap units.Length // of the eye, and between the cheeks; both, or neither
}

// RodSwing returns how far the eccentric rod of a gear swings either way from the line
// of its travel:
//
//	swing = asin(offset / rod)
//
// It is zero for an infinite rod. A gear that [eccentric.Gear.Validate] takes.
func RodSwing(g eccentric.Gear) (units.Angle, error) {
	if err := g.Validate(); err != nil {
		return 0, err
	}
	length, finite := g.EccentricRod.Length()
	if !finite {
		return 0, nil
	}
	return units.Angle(math.Asin(g.EccentricOffset().Ratio(length))), nil // swing = asin(offset/rod)
}

// slotRoom is what is left between an eye and the bottom of its slot: common practice.
func slotRoom() units.Length { return units.MM(0.2) }

// A ClevisSize is what a clevis needs so that it swings without binding.
type ClevisSize struct {
	Slot     units.Length // from the middle of the pin to the bottom of the slot, at the least
	Shoulder units.Length // from the middle of the pin to the shoulder of the eye, at the least
	Float    units.Length // end float of the eye between the cheeks; zero where it was not given

	// Corner is the least radius of the eye's corners that clears the slot there is, and
	// ForkCorner that of the cheeks for the shoulder there is; both are those given where
	// slot and shoulder are to be found. CornerDoes and ForkCornerDoes are false where no
	// radius is enough: the end is too long beyond the pin.
	Corner, ForkCorner         units.Length
	CornerDoes, ForkCornerDoes bool

	Findings finding.List // that it binds, and what cures it
	Refs     source.Refs
}

// The codes of the findings of [Clevis.Solve] and [NutSlot.Solve].
const (
	ClevisBinds finding.Code = "clevis-binds"
	EndFloat    finding.Code = "end-float"
	ThinEye     finding.Code = "thin-eye"
	NutBinds    finding.Code = "nut-binds"
	NutLetsGo   finding.Code = "nut-lets-go"
	NutThin     finding.Code = "nut-block-short"
	SlotThin    finding.Code = "slot-over-cavity"
)

// The sources of both: geometry, and what is usual.
var (
	geometryRef = source.Ref{Kind: source.Derived, Note: "geometry"}
	clevisRef   = source.Ref{
		Kind: source.CommonPractice,
		Note: "0.2 mm of room behind a swinging end; end float of 0.05 to 0.25 mm; an eye twice its pin",
	}
)

func clevisRefs() source.Refs { return source.Shared(&geometryRef, &clevisRef) }

// Solve finds what the clevis needs, or whether what there is will do:
//
//	slot     = reach of the eye  + 0.2 mm
//	shoulder = reach of the fork + 0.2 mm
//	float    = gap - thickness
//
// The first two and the corners are rounded up to 0.01 mm.
// Widths above the pin. Source: geometry; the room, the end float and the wall of the
// eye are common practice. See the Example.
func (c Clevis) Solve() (ClevisSize, error) {
	if err := c.Validate(); err != nil {
		return ClevisSize{}, err
	}
	size := ClevisSize{
		Corner: c.Eye.Corner, ForkCorner: c.Fork.Corner, CornerDoes: true, ForkCornerDoes: true, Refs: clevisRefs(),
	}
	for _, side := range []struct {
		end, wall, move string
		part            EyeEnd
		there           units.Length
		needs, corner   *units.Length
		does            *bool
	}{
		{"eye", "bottom of the slot", "Cut the slot deeper, to", c.Eye, c.Slot, &size.Slot, &size.Corner, &size.CornerDoes},
		{"cheeks", "shoulder of the eye", "Cut the shoulder back, to", c.Fork, c.Shoulder, &size.Shoulder, &size.ForkCorner, &size.ForkCornerDoes},
	} {
		reach, err := side.part.Reach(c.Swing)
		if err != nil {
			return ClevisSize{}, err
		}
		*side.needs = up(reach.Add(slotRoom()))
		if side.there.IsZero() {
			continue
		}
		corner, does := side.part.cornerFor(side.there.Sub(slotRoom()), c.Swing)
		if !does { // as round as it goes, with less room than is usual
			_, does = side.part.cornerFor(side.there, c.Swing)
			corner = side.part.full()
		}
		if *side.does = does; does {
			*side.corner = within(up(corner), side.part.full())
		}
		size.Findings = append(size.Findings, binds(side.end, side.wall, side.move, side.part, side.there, reach, c.Swing)...)
	}
	if !c.Gap.IsZero() {
		size.Float = c.Gap.Sub(c.Thickness)
		size.Findings = append(size.Findings, floats(size.Float)...)
	}
	if wall := c.thinnest(); wall.Cmp(c.Pin.Scale(0.5)) < 0 {
		size.Findings = append(size.Findings, finding.Finding{
			Code: ThinEye, Severity: finding.Caution, Refs: clevisRefs(),
			Text: fmt.Sprintf("The eye has %s of metal beside or behind its hole, and half of the pin, %s, is usual.",
				both(wall), both(c.Pin.Scale(0.5))),
			Remedies: []string{"Make the eye twice as wide as its pin, and as long beyond its middle as the pin is thick."},
		})
	}
	size.Findings.Sort()
	return size, nil
}

// Validate returns an error for a clevis that cannot be.
func (c Clevis) Validate() error {
	if err := c.Eye.validate("eye", c.Swing); err != nil {
		return err
	}
	if err := c.Fork.validate("fork", c.Swing); err != nil {
		return err
	}
	if err := fail.Above(fault.Named("pin", c.Pin)); err != nil {
		return err
	}
	for _, l := range []struct {
		field string
		units.Length
	}{{"slot", c.Slot}, {"shoulder", c.Shoulder}, {"thickness of the eye", c.Thickness}, {"gap", c.Gap}} {
		if l.Sign() < 0 || l.Cmp(units.MM(1000)) > 0 {
			return fail.OutOfRange(l.field, l.Length, "zero or above, up to 1 m")
		}
	}
	for _, e := range []struct {
		part string
		end  EyeEnd
	}{{"eye", c.Eye}, {"fork", c.Fork}} {
		if e.end.Width.Cmp(c.Pin) <= 0 || e.end.Beyond.Cmp(c.Pin.Scale(0.5)) <= 0 {
			return fail.OutOfRange("pin", c.Pin, "one that leaves metal round it in the "+e.part)
		}
	}
	if c.Gap.IsZero() != c.Thickness.IsZero() {
		return fail.Missing("thickness of the eye or gap", "both, for the end float, or neither")
	}
	return nil
}

// thinnest is the thinnest metal round the pin in the eye.
func (c Clevis) thinnest() units.Length {
	least := c.Eye.Width.Scale(0.5)
	if c.Eye.Beyond.Cmp(least) < 0 {
		least = c.Eye.Beyond
	}
	return least.Sub(c.Pin.Scale(0.5))
}

// binds says whether an end fouls the wall that is there.
func binds(end, wall, move string, part EyeEnd, there, reach units.Length, swing units.Angle) finding.List {
	room := there.Sub(reach)
	if room.Cmp(slotRoom()) >= 0 {
		return nil
	}
	cures := []string{move + " " + both(up(reach.Add(slotRoom()))) + " from the middle of the pin."}
	if r, does := part.cornerFor(there.Sub(slotRoom()), swing); does {
		cures = append(cures, fmt.Sprintf("Or round the corners of the %s off with %s.", end, both(within(up(r), part.full()))))
	} else if _, does := part.cornerFor(there, swing); does {
		full := part.full()
		left := there.Sub(units.Picometres(int64(math.Ceil(part.reach(full, swing)))))
		if left.Cmp(room) > 0 { // it gains something
			cures = append(cures, fmt.Sprintf("Or round the corners of the %s off as far as they go, with %s, which leaves %s.",
				end, both(full), both(left)))
		}
	} else {
		cures = append(cures, fmt.Sprintf("Rounding its corners is not enough: shorten the %s beyond the pin too.", end))
	}
	if room.Sign() < 0 {
		return finding.List{{
			Code: ClevisBinds, Severity: finding.Fails, Refs: clevisRefs(), Remedies: cures,
			Text: fmt.Sprintf("Swung to %.3g degrees the %s %s and the %s is %s from the pin: the joint binds.",
				swing.Degrees(), does(end, "need"), both(reach), wall, both(there)),
		}}
	}
	return finding.List{{
		Code: ClevisBinds, Severity: finding.Note, Refs: clevisRefs(), Remedies: cures,
		Text: fmt.Sprintf("The %s the %s by %s, and 0.2 mm (8 thou) is usual.", does(end, "clear"), wall, both(room)),
	}}
}

// does says what the eye or the cheeks do.
func does(end, verb string) string {
	if end == "eye" {
		verb += "s"
	}
	return end + " " + verb
}

// floats judges the end float of an eye.
func floats(float units.Length) finding.List {
	f := finding.Finding{Code: EndFloat, Refs: clevisRefs()}
	switch {
	case float.Sign() <= 0:
		f.Severity = finding.Fails
		f.Text = fmt.Sprintf("The eye has no end float between the cheeks, %s: the joint does not go together or binds.", both(float))
		f.Remedies = []string{"Thin the eye until it has 0.05 to 0.25 mm (2 to 10 thou) between the cheeks."}
	case float.Cmp(units.MM(0.25)) > 0:
		f.Severity = finding.Note
		f.Text = fmt.Sprintf("The eye has %s of end float between the cheeks, and 0.05 to 0.25 mm (2 to 10 thou) is usual.", both(float))
		f.Remedies = []string{"Fill it with a washer; it does no harm to the events."}
	case float.Cmp(units.MM(0.05)) < 0:
		f.Severity = finding.Note
		f.Text = fmt.Sprintf("The eye has %s of end float between the cheeks: oil and dirt take up as much.", both(float))
		f.Remedies = []string{"Thin the eye to leave 0.05 to 0.25 mm (2 to 10 thou)."}
	default:
		return nil
	}
	return finding.List{f}
}

// up rounds a length up to 0.01 mm, the safe side of what must clear.
func up(l units.Length) units.Length {
	rounded, err := l.Round(units.MM(0.01), units.Up)
	if err != nil {
		return l
	}
	return rounded
}

// within is a length, or what it is not to pass.
func within(l, most units.Length) units.Length {
	if l.Cmp(most) > 0 {
		return most
	}
	return l
}

// both is a length in millimetres and in thou.
func both(l units.Length) string {
	return fmt.Sprintf("%s mm (%s thou)", fault.Decimal(l.MM(), 2), fault.Decimal(l.Thou(), 0))
}
