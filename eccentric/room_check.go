package eccentric

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// mostClearance is the share of the swept volume beyond which the space between
// piston and cover alone is remarked.
const mostClearance = 0.10

var seriesClearance = source.Ref{
	Kind: source.Published, Title: "Machinery's Reference Series, no. 70, Steam Engines", Edition: "1911",
	Locator: "Table I", Note: "4 to 10 per cent of high-speed engines, ports and passages counted",
}

// Check returns what is worth saying of the room of the piston, the worst first. A
// piston that reaches a cover is a danger, and so is named before anything turns.
// One that will when the brasses are worn as stated fails, and less than the least
// clearance is a caution. It does not check the gear; [Gear.Check] does. A room
// that [Room.Validate] refuses has one finding, [NotAGear], with the reasons.
//
// The clearances are geometry; the least that is taken where none is stated, 1/64
// in, is common practice. See the Example of [Room.Clearance].
func (r Room) Check() []Finding {
	if err := r.Validate(); err != nil {
		return []Finding{notAGear(err)}
	}
	var all []Finding
	c := r.clearance()
	for _, ends := range r.struck(c) {
		all = append(all, r.strikes(ends, c))
	}
	for _, end := range []End{HeadEnd, CrankEnd} {
		if left := c.At(end); left.Sign() > 0 && left.Sub(r.Wear).Cmp(r.least()) < 0 {
			all = append(all, r.little(end, left))
		}
	}
	if all == nil && r.toShare() != nil {
		all = append(all, r.unequal(c))
	}
	for _, end := range []End{HeadEnd, CrankEnd} {
		if share := c.At(end).Ratio(r.Gear.Stroke); share > mostClearance {
			all = append(all, large(end, c.At(end), share))
		}
	}
	finding.Sort(all)
	return all
}

// struck returns the ends at which the piston strikes, both as one where it has no
// room at all.
func (r *Room) struck(c Clearance) []End {
	head, crank := c.Head.Sign() <= 0, c.Crank.Sign() <= 0
	switch {
	case head && crank:
		return []End{BothEnds}
	case head:
		return []End{HeadEnd}
	case crank:
		return []End{CrankEnd}
	}
	return nil
}

func (r *Room) strikes(end End, c Clearance) Finding {
	f := Finding{Finding: finding.Finding{Code: PistonStrikes, Severity: finding.Danger}, End: end}
	f.Amount = c.At(end).Neg()
	switch {
	case end == BothEnds:
		f.Amount = c.Total().Neg()
		f.tell("The piston has no room: its length and the stroke are together %s more than the cylinder has between"+
			" its covers, gaskets counted.", both(c.Total().Neg()))
	case f.Amount.IsZero():
		f.tell("The piston touches the cover of the %s end at its dead centre, with no clearance at all.", end)
	default:
		f.tell("The piston strikes the cover of the %s end %s before its dead centre.", end, both(f.Amount))
	}
	f.Text += " Turned over by steam, air or a motor it breaks a cover, the rod or the crank, and what was under" +
		" pressure comes out. Put no steam or air on it: turn it only by hand, slowly, and stop where it binds."
	f.Remedies = r.makeRoom(c)
	return f
}

func (r *Room) little(end End, left units.Length) Finding {
	f := Finding{Finding: finding.Finding{Code: LittleClearance, Severity: finding.Caution}, End: end}
	f.Amount = left
	f.tell("Between the piston and the cover of the %s end there is %s", end, both(left))
	worn := left.Sub(r.Wear)
	switch {
	case worn.Sign() <= 0:
		f.Severity = finding.Fails
		f.tell(": with %s of play in the brasses the piston strikes the cover", both(r.Wear))
	case r.Wear.Sign() > 0:
		f.tell(", and %s when the brasses are worn by %s", both(worn), both(r.Wear))
	}
	if r.Least.IsZero() {
		f.tell("; %s is the least for a small engine.", both(leastClearance()))
		f.Refs = source.Shared(&practice)
	} else {
		f.tell("; %s is the least that is stated.", both(r.Least))
	}
	f.Text += " A little water or a loose big end then does what the drawing did not. Turn the engine by hand through" +
		" two whole turns before anything drives it."
	f.Remedies = r.makeRoom(r.clearance())
	return f
}

func (r *Room) unequal(c Clearance) Finding {
	f := Finding{Finding: finding.Finding{Code: UnequalClearance}}
	f.Amount = c.Head.Sub(c.Crank).Abs()
	f.tell("The clearance is %s at the head end and %s at the crank end. Shared equally it would be %s at each;"+
		" there is enough at both.", both(c.Head), both(c.Crank), both(c.Total().Scale(0.5)))
	f.Remedies = r.share()
	return f
}

func large(end End, left units.Length, share float64) Finding {
	f := Finding{Finding: finding.Finding{Code: LargeClearance, Refs: source.Shared(&seriesClearance)}, End: end}
	f.Amount = left
	f.tell("The %s left at the %s end is %s of the swept volume before the ports and passages are counted. It is filled"+
		" with steam at every stroke, which does no more than expand with the rest.", both(left), end, percent(share))
	f.remedy("Longer spigots on the covers, or a thicker piston, leave less; 10 % with ports and passages is the most that" +
		" one table gives of high-speed engines.")
	return f
}

// makeRoom says how each end comes to the least clearance when worn: by sharing
// what there is, where it is enough, and otherwise by taking off what is missing.
func (r *Room) makeRoom(c Clearance) []string {
	wanted := r.least().Add(r.Wear)
	short := wanted.Scale(2).Sub(c.Total())
	if short.Sign() <= 0 {
		if ways := r.share(); ways != nil {
			return ways
		}
	}
	if short.Sign() <= 0 { // by less than can be shared
		short = wanted.Sub(c.At(BothEnds)).Scale(2)
	}
	ways := []string{fmt.Sprintf("Take %s off the spigot of each cover, or %s in all off the faces of the piston, and share"+
		" what is then left equally: %s at each end.", size(short.Scale(0.5), units.Up), size(short, units.Up), both(wanted))}
	return append(ways, fmt.Sprintf("Or make the gaskets %s thicker at each of two joints, where the studs and the jointing"+
		" allow it, and share the room in the same way.", size(short.Scale(0.5), units.Up)))
}

// share names the ways of sharing the room equally, with what each does to the
// valve; none that brings on a fault of the gear.
func (r *Room) share() []string {
	var texts []string
	c := checking(r.Gear)
	for i, a := range r.toShare() {
		text := r.sayAlteration(a)
		after, err := r.Altered(a)
		if err != nil || len(c.bringsOn(after.Gear)) > 0 {
			continue
		}
		left := after.clearance()
		text += fmt.Sprintf(": %s is then left at the head end and %s at the crank end", mm(left.Head), mm(left.Crank))
		switch moved := after.Gear.Valve.Offset.Sub(r.Gear.Valve.Offset); {
		case !moved.IsZero():
			text += ", and the valve goes with it, " + towards(moved) + " the crank" + after.leadsAre()
		case a.Shims.IsZero():
			text += ", and the valve stays where it is"
		default:
			text += ", with the valve where it was"
		}
		if i > 0 {
			text = "Or " + lowered(text)
		}
		texts = append(texts, text+".")
	}
	return texts
}

// leadsAre says what the leads are.
func (r *Room) leadsAre() string {
	e, err := r.Gear.Events()
	if err != nil {
		return ""
	}
	return fmt.Sprintf(": leads of %s at the head end and %s at the crank end", both(e.Head.Lead), both(e.Crank.Lead))
}

// sayAlteration says what is to be done.
func (r *Room) sayAlteration(a Alteration) string {
	var parts []string
	if s := a.Shims; s.Sign() > 0 {
		parts = append(parts, "Put shims of "+toSet(s)+" under the main bearings")
	} else if s.Sign() < 0 {
		parts = append(parts, "Take shims of "+toSet(s.Neg())+" out from under the main bearings, or pack the cylinder up by as"+
			" much")
	}
	for _, rod := range []struct {
		name string
		by   units.Length
	}{{"connecting", a.ConnectingRod}, {"eccentric", a.EccentricRod}} {
		if rod.by.IsZero() {
			continue
		}
		how := "longer"
		if rod.by.Sign() < 0 {
			how = "shorter"
		}
		text := fmt.Sprintf("Make the %s rod %s %s", rod.name, toSet(rod.by.Abs()), how)
		if parts != nil {
			text = lowered(text)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " and ")
}
