package marking

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A NutSlot is the slot across the back of a slide valve in which the nut of its rod
// sits: it drives the valve along and leaves it free to lift and to wear down.
type NutSlot struct {
	Height units.Length // of the valve, from its face to its back
	Cavity units.Length // depth of the cavity, from the face
	Length units.Length // of the valve, along its travel
	Width  units.Length // of the valve, across its travel

	Rod      units.Length // its diameter
	RodAbove units.Length // the middle of the rod above the port face

	Thick units.Length // the nut along the rod
	High  units.Length // the nut across the rod, square to the face
	Long  units.Length // the nut across the rod, along the slot

	Play units.Length // of the nut in its slot, along the travel
	Lift units.Length // that the valve is to have, for water to get out
	Wear units.Length `json:",omitzero"` // by which the valve may come down with time
}

// A NutSlotSize is how the slot is cut.
type NutSlotSize struct {
	Width units.Length // along the travel
	Depth units.Length // of the slot, from the back of the valve; not below zero
	// Groove is the depth from the back of the groove for the rod, right along the valve;
	// zero where the rod passes above the back.
	Groove units.Length

	Bottom     units.Length // the bottom of the slot above the face of the valve
	OverCavity units.Length // metal between that and the cavity
	Ends       units.Length // metal at each end of the valve beside the slot
	Held       units.Length // height by which the slot holds the nut
	HeldWorn   units.Length // and when the valve has worn down

	// LongMin and LongMax are how long the nut is along the slot: twice its rod, so that
	// it keeps the valve straight, up to the width of the valve.
	LongMin, LongMax units.Length

	Findings finding.List
	Refs     source.Refs
}

var nutSlotRef = source.Ref{
	Kind: source.CommonPractice,
	Note: "a nut free to slide up and down in its slot without play along the valve; held by half its height;" +
		" a block twice as long as the rod is thick; 1 mm of metal over the cavity",
}

func nutSlotRefs() source.Refs { return source.Shared(&geometryRef, &nutSlotRef) }

// Solve finds the slot:
//
//	width  = thick + play
//	depth  = height - (z - high/2 - lift)
//	groove = height - (z - d/2 - lift)
//	held   = min(height, z + high/2) - (z - high/2)
//
//	z  the middle of the rod above the port face
//	d  the rod
//
// Rod and nut stay where gland and guide hold them and the valve moves: it lifts until
// the bottom of the slot comes up to the nut. Lengths are above zero, wear, play and
// cavity zero or above. Source: geometry, and common practice. See the Example.
func (n NutSlot) Solve() (NutSlotSize, error) {
	if err := n.Validate(); err != nil {
		return NutSlotSize{}, err
	}
	under := n.RodAbove.Sub(n.High.Scale(0.5)) // of the nut, above the face
	size := NutSlotSize{Width: n.Thick.Add(n.Play), Bottom: under.Sub(n.Lift), Refs: nutSlotRefs()}
	size.Depth = notBelow(n.Height.Sub(size.Bottom))                                   // height - (z - high/2 - lift)
	size.Groove = notBelow(n.Height.Sub(n.RodAbove.Sub(n.Rod.Scale(0.5))).Add(n.Lift)) // height - (z - d/2 - lift)
	size.OverCavity, size.Ends = size.Bottom.Sub(n.Cavity), n.Length.Sub(size.Width).Scale(0.5)
	size.Held, size.HeldWorn = n.held(n.Height), n.held(n.Height.Sub(n.Wear))
	size.LongMin, size.LongMax = n.Rod.Scale(2), n.Width
	size.Findings = n.check(size)
	return size, nil
}

// held is the height by which the slot holds the nut with the valve so high.
func (n NutSlot) held(height units.Length) units.Length {
	top := n.RodAbove.Add(n.High.Scale(0.5))
	if height.Cmp(top) < 0 {
		top = height
	}
	return notBelow(top.Sub(n.RodAbove.Sub(n.High.Scale(0.5))))
}

func notBelow(l units.Length) units.Length {
	if l.Sign() < 0 {
		return units.Length{}
	}
	return l
}

// Validate returns an error for a length that cannot be.
func (n NutSlot) Validate() error {
	err := fail.Above(fault.Named("height of the valve", n.Height), fault.Named("length of the valve", n.Length),
		fault.Named("width of the valve", n.Width), fault.Named("rod", n.Rod), fault.Named("rod above the face", n.RodAbove),
		fault.Named("nut along the rod", n.Thick), fault.Named("height of the nut", n.High), fault.Named("length of the nut", n.Long),
		fault.Named("lift", n.Lift))
	if err != nil {
		return err
	}
	for _, l := range []struct {
		field string
		units.Length
	}{{"cavity", n.Cavity}, {"play", n.Play}, {"wear", n.Wear}} {
		if l.Sign() < 0 || l.Cmp(n.Height) >= 0 {
			return fail.OutOfRange(l.field, l.Length, "zero or above, below the height of the valve, "+n.Height.String())
		}
	}
	switch {
	case n.Rod.Cmp(n.High) >= 0 || n.Rod.Cmp(n.Long) >= 0:
		return fail.OutOfRange("rod", n.Rod, "thinner than its nut is high and long")
	case n.Thick.Add(n.Play).Cmp(n.Length) >= 0:
		return fail.OutOfRange("nut along the rod", n.Thick, "shorter than the valve, "+n.Length.String())
	}
	return nil
}

// check says what is wrong with the slot.
func (n NutSlot) check(size NutSlotSize) finding.List {
	var found finding.List
	say := func(code finding.Code, severity finding.Severity, text string, remedies ...string) {
		found = append(found, finding.Finding{
			Code: code, Severity: severity, Text: text, Remedies: remedies, Refs: nutSlotRefs(),
		})
	}
	least := units.MM(1)
	switch lack := least.Sub(size.OverCavity); {
	case size.OverCavity.Sign() <= 0:
		say(SlotThin, finding.Fails, fmt.Sprintf("The slot comes down to %s above the face and the cavity up to %s: it breaks into the cavity,"+
			" and live steam blows through.", both(size.Bottom), both(n.Cavity)),
			"Raise the rod, or make the nut less high, by "+both(lack)+".", "Make the cavity shallower.")
	case lack.Sign() > 0:
		say(SlotThin, finding.Caution, fmt.Sprintf("Between slot and cavity %s of metal is left, and 1 mm (39 thou) is usual.",
			both(size.OverCavity)),
			"Raise the rod, or make the nut less high, by "+both(lack)+".")
	}
	switch {
	case size.HeldWorn.Sign() <= 0:
		say(NutLetsGo, finding.Fails, fmt.Sprintf("The slot holds the nut by %s, and by nothing when the valve has worn down by %s: the nut"+
			" passes over it and the valve stands still.", both(size.Held), both(n.Wear)), "Make the valve higher, or lower the rod.")
	case size.HeldWorn.Cmp(n.High.Scale(0.5)) < 0:
		say(NutLetsGo, finding.Caution, fmt.Sprintf("The slot holds the nut by %s when the valve has worn down, less than half of its height, and"+
			" tips the valve as it pushes.", both(size.HeldWorn)), "Make the valve higher, or lower the rod.")
	}
	switch {
	case n.Play.IsZero():
		say(NutBinds, finding.Caution, "The nut has no play in its slot: unless it slides freely up and down, it holds the valve off its face.",
			"Ease the slot until the valve drops on its face by its own weight, with 0.02 to 0.05 mm (1 to 2 thou) of play.")
	case n.Play.Cmp(units.MM(0.1)) > 0:
		say(NutBinds, finding.Note, fmt.Sprintf("The nut has %s of play along the travel: it counts in full as lost motion of the valve, lost_motion"+
			" in the engine file.", both(n.Play)), "Make the nut to its slot, with 0.02 to 0.05 mm (1 to 2 thou).")
	}
	if n.Long.Cmp(size.LongMax) > 0 {
		say(NutThin, finding.Caution, fmt.Sprintf("The nut is %s long and the valve %s wide: it stands out of its slot and can foul the chest.",
			both(n.Long), both(n.Width)), "Make it no longer than the valve is wide.")
	}
	if n.Long.Cmp(size.LongMin) < 0 {
		say(NutThin, finding.Note, fmt.Sprintf("The nut is %s long, and twice its rod, %s, is usual: a short one lets the valve turn on its face.",
			both(n.Long), both(size.LongMin)), "Make the nut longer along the slot.")
	}
	found.Sort()
	return found
}
