package cutting

import (
	"fmt"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What [Cut.Check] finds.
const (
	CutterTooWide  finding.Code = "cutter-too-wide"   // Fails: it does not go into the slot, across or along
	CutTooDeep     finding.Code = "cut-too-deep"      // Fails above half the cutter, else Caution
	CutterAsTheCut finding.Code = "cutter-as-the-cut" // Caution: as wide as the slot, which comes out wider
)

// A SlotPass is how deep a slot drill goes at a time with its whole diameter buried.
type SlotPass struct {
	Start units.Length // to begin with
	Most  units.Length // that a light machine and a sharp cutter stand
	Refs  source.Refs
}

// SlotPassFor returns the depth of a pass for a slot drill: an eighth of the diameter
// to begin with and a fifth at most up to 3 mm, which is 0.25 and 0.4 mm at 2 mm; a
// quarter and a half above. Common practice of light machines in iron and steel; brass
// and aluminium stand more. Cutters up to 25 mm. See the Example.
func SlotPassFor(cutter units.Length) (SlotPass, error) {
	if cutter.Sign() <= 0 || cutter.Cmp(units.MM(25)) > 0 {
		return SlotPass{}, fail.OutOfRange("cutter", cutter, "above zero, up to 25 mm")
	}
	p := SlotPass{Start: cutter.Scale(0.125), Most: cutter.Scale(0.2), Refs: source.Of(source.Practice())}
	if cutter.Cmp(units.MM(3)) > 0 {
		p.Start, p.Most = cutter.Scale(0.25), cutter.Scale(0.5)
	}
	return p, nil
}

// slotPath is the way of a slot drill in a slot that is closed at both ends: along it,
// or a lap along both sides where the slot is wider, once for each pass in depth.
func (c Cut) slotPath() (Path, error) {
	if c.Width.Sign() < 0 {
		return Path{}, fail.OutOfRange("width of the slot", c.Width, "above zero, or zero for that of the cutter")
	}
	if c.Length.Cmp(c.Diameter) <= 0 {
		return Path{}, fail.OutOfRange("length of the slot", c.Length, "more than the cutter, "+c.Diameter.String())
	}
	p := Path{Length: c.Length.Sub(c.Diameter)} // from centre to centre
	if side := c.side(); side.Sign() > 0 {
		if side.Cmp(c.Diameter) > 0 {
			return Path{}, fail.OutOfRange("width of the slot", c.Width, "up to twice the cutter, "+c.Diameter.Scale(2).String()+
				"; a larger cutter for a wider one")
		}
		p.Length = p.Length.Scale(2).Add(side.Scale(2)) // the lap: 2 (L - d) + 2 (w - d)
	}
	return p, nil
}

// side is how much wider than the cutter the slot is; below zero it does not go in.
func (c Cut) side() units.Length {
	if c.Width.IsZero() {
		return units.Length{}
	}
	return c.Width.Sub(c.Diameter)
}

// pass is how deep each cut goes: the depth given, for a slot else that of
// [SlotPassFor].
func (c Cut) pass() (units.Length, error) {
	if c.Operation != speeds.SlotMilling || !c.Deep.IsZero() {
		return c.Deep, nil
	}
	p, err := SlotPassFor(c.Diameter)
	return p.Start, err
}

// Check says whether a slot drill goes into its slot, makes its width and stands the
// depth of a pass; of other cuts it says nothing. Errors are those of [SlotPassFor].
// See the Example of SlotPassFor.
func (c Cut) Check() (finding.List, error) {
	if c.Operation != speeds.SlotMilling {
		return nil, nil
	}
	limit, err := SlotPassFor(c.Diameter)
	if err != nil {
		return nil, err
	}
	var all finding.List
	add := func(code finding.Code, s finding.Severity, text string, remedies ...string) {
		all = append(all, finding.Finding{Code: code, Severity: s, Text: text, Remedies: remedies, Refs: limit.Refs})
	}
	smaller := fmt.Sprintf("Take a cutter of three quarters of the width, %.2g mm, and make the width with a lap along both sides.", 0.75*c.Width.MM())
	switch side := c.side(); {
	case !c.Length.IsZero() && c.Length.Cmp(c.Diameter) <= 0:
		add(CutterTooWide, finding.Fails, fmt.Sprintf("The cutter of %v does not go into a slot %v long.", c.Diameter, c.Length),
			"Take a cutter well below the length, or drill a hole.")
	case side.Sign() < 0:
		add(CutterTooWide, finding.Fails, fmt.Sprintf("The cutter of %v does not go into a slot %v wide.", c.Diameter, c.Width), smaller)
	case side.IsZero() && !c.Width.IsZero():
		add(CutterAsTheCut, finding.Caution,
			fmt.Sprintf("The cutter of %v is as wide as the slot: it runs out and bends, and the slot comes out wider.", c.Diameter), smaller)
	}
	if c.Deep.Cmp(limit.Most) > 0 {
		severity := finding.Caution
		if c.Deep.Cmp(c.Diameter.Scale(0.5)) > 0 {
			severity = finding.Fails
		}
		add(CutTooDeep, severity, fmt.Sprintf("A pass of %v is too deep for a slot drill of %v, which breaks without complaining first.", c.Deep, c.Diameter),
			fmt.Sprintf("Take %.2g mm a pass to begin with, %.2g mm at most.", limit.Start.MM(), limit.Most.MM()),
			"Drill a chain of holes along the slot first.")
	}
	all.Sort()
	return all, nil
}
