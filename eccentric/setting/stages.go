package setting

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Stage is one thing to do and to read.
type Stage struct {
	Key   string // "dead_centres", "sheave", "middle", "lead", "other_end", "split", "prove", "fasten"
	Title string
	Text  string // sentences
}

// stages are the order of work; common practice, with the figures of the sheet.
func (s *Setting) stages(sheet *Sheet) []Stage {
	return []Stage{
		{"dead_centres", "Both dead centres", s.deadCentres(sheet)},
		{"sheave", "The sheave about in its place", s.sheave(sheet)},
		{"middle", "The valve in the middle", s.middle(sheet)},
		{"lead", "The lead at the head end", s.lead(sheet)},
		{"other_end", "The other end", s.otherEnd(sheet)},
		{"split", "Split what is left", s.split(sheet)},
		{"prove", "Prove it", s.prove(sheet)},
		{"fasten", "Fasten it", s.fasten(sheet)},
	}
}

func (s *Setting) deadCentres(sheet *Sheet) string {
	h, c := sheet.Head, sheet.Crank
	apart := "90 deg apart"
	if !h.Arc.IsZero() {
		apart += ", " + mm(h.Arc) + " on a rim of " + mm(s.Wheel)
	}
	return fmt.Sprintf("The eye does not find them: while the piston is within 0.05 mm of the end of its stroke the crank"+
		" turns %s either side at the head end and %s at the crank end, which is %s and %s of lead. Fix a pointer at the rim of"+
		" the wheel. Turn the way the engine runs to about 45 deg before the dead centre, where the piston is %s from the end of"+
		" its stroke at the head end and %s at the crank end, and mark the crosshead on its guide and the rim at the pointer."+
		" Turn on past the dead centre and a little past the same place of the crosshead, and back to it, so that the same faces"+
		" of the bearings press; mark the rim again. Half way between both marks on the rim, which are %s, is the dead"+
		" centre. 0.1 mm at one mark of the crosshead puts it off by %s.",
		deg(h.Blind), deg(c.Blind), mmThou(h.Off), mmThou(c.Off), mm(h.Piston), mm(c.Piston), apart,
		deg(max(h.Tenth, c.Tenth)))
}

func (s *Setting) sheave(sheet *Sheet) string {
	where := "ahead of the crankpin in the direction of rotation"
	if sheet.Stands < 0 {
		where = "behind the crankpin in the direction of rotation"
	}
	text := fmt.Sprintf("Its high point stands %s %s", deg(sheet.Stands), where)
	if !sheet.Arc.IsZero() {
		text += fmt.Sprintf(", %s round a shaft of %s", mm(sheet.Arc), mm(s.Shaft))
	}
	text += "."
	if s.Rotation != 0 {
		round := s.Rotation
		if sheet.Stands < 0 {
			round = round.Opposite()
		}
		text += fmt.Sprintf(" Seen from %s the engine runs %s, and that is %s from the crankpin; seen from the other side it runs"+
			" %s, and that is %s.", s.SeenFrom, s.Rotation, round, s.Rotation.Opposite(), round.Opposite())
	}
	switch g := s.Gear; {
	case g.LeverRatio < 0 && !g.InsideAdmission:
		text += " The lever that reverses the motion is in that: without it the sheave would stand on the other side of the shaft."
	case g.InsideAdmission && !(g.LeverRatio < 0):
		text += " Admission past the inner edges is in that: a slide valve's sheave would stand on the other side of the shaft."
	case g.LeverRatio < 0:
		text += " The lever that reverses the motion and the admission past the inner edges undo each other."
	}
	if s.Slip.IsZero() {
		text += " Tighten its screw so that it can still be turned by hand."
	} else {
		text += " Hold the stop so that it can still be turned by hand, and the sheave against it in the direction of running."
	}
	e, o := sheet.Events, sheet.Opens
	must := fmt.Sprintf("by 10 deg: the port of that end must open, to %s at the head end and %s at the crank end. One that shuts"+
		" instead belongs", mmThou(o.Head.Steam), mmThou(o.Crank.Steam))
	if o.Head.Steam.Cmp(greater(e.Head.Lead)) <= 0 || o.Crank.Steam.Cmp(greater(e.Crank.Lead)) <= 0 {
		must = "a little: the valve must go on the way that opens the port of that end. One that goes back belongs"
	}
	cure := "turn it by " + s.turned(-sheet.Reverse)
	if sheet.Stop != nil {
		cure = "it lies against the wrong end of its slot, or the stop is turned round"
	}
	return text + " Turn the crank on from a dead centre " + must + " to a sheave on the wrong hand, whose leads are right: " +
		cure + "."
}

// greater is a lead, or nothing where the port is still shut.
func greater(lead units.Length) units.Length {
	if lead.Sign() < 0 {
		return units.Length{}
	}
	return lead
}

// edge says how far a steam edge is past its port.
func edge(l units.Length) string {
	if l.IsZero() {
		return "just to its edge"
	}
	if l.Sign() < 0 {
		return mmThou(l.Neg()) + " short of it"
	}
	return mmThou(l) + " past it"
}

func (s *Setting) middle(sheet *Sheet) string {
	e, less, more := sheet.Events, "away from", "towards"
	if s.Gear.InsideAdmission {
		less, more = more, less
	}
	text := fmt.Sprintf("Turn until the valve has gone furthest to open the head end's port, %s past that dead centre, and measure"+
		" how far its steam edge has run past the port: %s. Do the same for the crank end's: %s. Where the head end reads more than that and the crank"+
		" end as much less, move the valve by so much %s the crank, and the other way about %s it. Where both read more, or both"+
		" less, the travel or the length of the valve is not that of the drawing: measure them before you go on.",
		deg(quarter-s.Gear.Advance), edge(e.Head.OverTravel), edge(e.Crank.OverTravel), less, more)
	way := "towards"
	if sheet.Planted.Sign() < 0 {
		way = "away from"
	}
	shows := fmt.Sprintf("a valve that stands %s too far %s the crank shows half a difference of %s",
		mmThou(sheet.Planted.Abs()), way, mmThou(sheet.Misread))
	if sheet.Halved.IsZero() {
		return text + " Halving the difference of the greatest openings is blind here, as a port shows no more than its width: " +
			shows + "."
	}
	return text + fmt.Sprintf(" Half the difference of the greatest openings serves only for a valve that is less than %s off,"+
		" as a port shows no more than its width: %s.", mmThou(sheet.Halved), shows)
}

// open says how far a port is open at its dead centre, and since or until when.
func open(e eccentric.EndEvents) string {
	l, a := e.Lead, e.Admission
	switch l.Sign() {
	case 0:
		return "line on line, about to open"
	case -1:
		text := "shut, its edge " + mmThou(l.Neg()) + " short of it"
		if a.Occurs && a.Crank > 0 {
			text += ", to open " + deg(a.Crank) + " after"
		}
		return text
	}
	if a.Occurs && a.Crank < 0 {
		return "open by " + mmThou(l) + ", having begun to open " + deg(a.Crank) + " before"
	}
	return "open by " + mmThou(l)
}

func (s *Setting) lead(sheet *Sheet) string {
	text := fmt.Sprintf("Bring the crank to the head-end dead centre the way the engine runs, and turn the sheave the same way"+
		" until the port of that end is %s.", open(sheet.Events.Head))
	if sheet.PerLeastMove == 0 {
		return text
	}
	per := "A degree of the sheave"
	if !sheet.DegreeOnArc.IsZero() {
		per += fmt.Sprintf(", %s on the shaft,", mm(sheet.DegreeOnArc))
	}
	return text + fmt.Sprintf(" %s is %s of lead, and 0.05 mm, the thinnest leaf of most feelers, is %s: forwards for more"+
		" lead, back for less. Where you went too far go well back and come up again, so that lost motion lies on the same side.",
		per, mmThou(sheet.PerDegree), deg(sheet.PerLeastMove))
}

func (s *Setting) otherEnd(sheet *Sheet) string {
	return fmt.Sprintf("Turn on, the way the engine runs, to the crank-end dead centre. The port of that end is %s.",
		open(sheet.Events.Crank))
}

func (s *Setting) split(sheet *Sheet) string {
	less, more := "towards", "away from"
	if s.Gear.InsideAdmission {
		less, more = more, less
	}
	text := fmt.Sprintf("Of what the crank end's lead is out one half belongs to the valve and one to the sheave. Where it is too"+
		" large move the valve by half of that %s the crank, where it is too small %s it; both leads are then out alike, by the"+
		" other half, and the sheave takes that out, back where they are too large. Then read both ends again.", less, more)
	switch equal := sheet.Equal; {
	case equal.Abs().Cmp(units.Picometres(kernel.LeastMove)) >= 0:
		text += fmt.Sprintf(" Halving the difference of the leads makes them equal, %s, which is not the drawing: it moves the valve"+
			" %s the crank. Choose one of the two and keep to it.",
			mmThou(sheet.EqualLead), moved(equal))
	default:
		text += fmt.Sprintf(" Halving the difference of the leads comes to the same: equal leads of %s.", mmThou(sheet.EqualLead))
	}
	if n := s.Nut; n.Places > 0 {
		text += fmt.Sprintf(" The nut goes by %s, %s of the valve, and leaves up to %s undone.",
			turns(1/float64(n.Places)), mmThou(n.Step()), mmThou(n.Step().Scale(0.5)))
		turn, err := n.Set(units.Length{})
		if err == nil && !turn.Finer.IsZero() {
			text += fmt.Sprintf(" What it leaves is taken out by turning the spindle in its fork, by a shim behind the nut, or by a"+
				" thread with a pitch of %s or less, %.0f to the inch or more.", mm(turn.Finer), math.Ceil(1/turn.Finer.In(units.Inches)))
		}
	}
	if l, ok := s.Gear.EccentricRod.Length(); ok && !l.IsZero() {
		rod, way, much := moveOfRod(s.Gear, units.MM(1)), "shorter", "as much"
		if rod.Sign() > 0 {
			way = "longer"
		}
		if rod.Abs() != units.MM(1) {
			much = trim(rod.Abs().Decimal(units.Millimetres, 3)) + " times as much"
		}
		text += fmt.Sprintf(" In place of a move of the valve towards the crank the eccentric rod may be made %s by %s.", way, much)
	}
	return text
}

func (s *Setting) prove(sheet *Sheet) string {
	return "Turn the engine by hand the way it runs and read on the rim, from each end's own dead centre, where its port begins to" +
		" open and where it shuts: a strip of thin paper in the port is gripped there. Angles within two degrees of the" +
		" drawing are as good as a rim is read."
}

func (s *Setting) fasten(sheet *Sheet) string {
	var says []string
	if stop := sheet.Stop; stop != nil {
		says = append(says, "Fasten the stop, and read both leads again both ways round, each time with the sheave driven against it.")
		says = append(says, fmt.Sprintf("The pin goes %.1f deg from one place to the other, and its slot is %.1f deg long, end to end.",
			stop.Travel.Degrees(), stop.Slot.Degrees()))
		if made := stop.Made; made != nil {
			says = append(says, s.milled(made))
		}
	} else {
		says = append(says, "Dimple the shaft for the screw of the sheave, scribe both, tighten, lock the nut, and read both leads"+
			" again: a sheave turns while its screw is tightened.")
		says = append(says, fmt.Sprintf("For the other direction the sheave is turned by %s.", s.turned(sheet.Reverse)))
	}
	return strings.Join(append(says, "The first run comes after that: stand clear of wheel and motion, air of a low pressure"+
		" first, steam last."), " ")
}

// milled says what the slot that is there gives.
func (s *Setting) milled(m *Milled) string {
	e := m.Events
	text := fmt.Sprintf("The slot that is milled, %.1f deg, gives an angle of advance of %.1f deg, and leads of %s at the head end"+
		" and %s at the crank end", s.Slip.Slot.Degrees(), m.Gear.Advance.Degrees(), mmThou(e.Head.Lead), mmThou(e.Crank.Lead))
	tenth := units.Angle(kernel.LeastTurn) / 10
	switch {
	case m.Longer > tenth:
		return text + fmt.Sprintf(": it is %.1f deg too short, and is milled on by as much.", m.Longer.Degrees())
	case m.Longer < -tenth:
		return text + fmt.Sprintf(": it is %.1f deg too long, and a packing of %s at one end of it, on the circle of the pin, takes"+
			" that up.", -m.Longer.Degrees(), mm(m.Packing))
	}
	return text + "."
}
