package setting

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// Leads are the leads of both ends as they were read, each at its dead centre; below
// zero the port is still shut by so much.
type Leads struct{ Head, Crank units.Length }

// A Correction is what to turn and to move after two leads were read.
type Correction struct {
	Turn units.Angle  // of the sheave on the shaft, forwards in the direction of rotation
	Arc  units.Length // of that on the shaft; zero where it was not told

	// OtherHand is the turn in place of it where the ports shut as the crank goes on from
	// its dead centres, and the sheave is on the wrong hand: leads do not tell that.
	OtherHand units.Angle

	Move units.Length // of the valve on its spindle, towards the crank
	Nut  *NutTurn     // for that; nil where there is no nut
	Rod  units.Length // by which the eccentric rod would be made longer in place of it

	// Lap is by how much the steam lap of each end would be made more, if the sheave
	// stands right and stays: a slide valve longer by twice that. Negative: less.
	Lap units.Length

	After Leads // with the sheave turned, and the valve moved as its nut allows

	Text string // what is done, in sentences
}

// Correct returns what to turn and to move when the given leads are read and the gear
// is to have those of the drawing. The sum of the leads tells the sheave, by
// [eccentric.Gear.WithLead], and half their difference the valve:
//
//	sin(d) = (S + (head + crank)/2) / r
//	move   = ((head - crank) - (head' - crank')) / 2
//
//	head, crank     leads of the drawing, and with ' those that were read
//	d, S, r         angle of advance, steam lap and half the travel
//
// for a valve that opens the head end's port as it goes towards the crank; what the
// slant of the eccentric rod and lost motion make of both is in it. A turn below a
// degree and a move below 0.05 mm are not told, as nobody can set them. A reading that
// the travel does not reach, or wider than its port, is an [*units.ArgumentError]. The
// sheave is taken to stand near its place: one that is mirrored or half a turn out
// reads leads too. It is geometry; half the difference is Ahrons' and Sinclair's. See
// the Example.
func (s Setting) Correct(read Leads) (Correction, error) {
	if err := s.Validate(); err != nil {
		return Correction{}, err
	}
	g := s.Gear
	for _, lead := range []struct {
		field string
		value units.Length
		end   eccentric.End
	}{{"lead of the head end", read.Head, eccentric.HeadEnd}, {"lead of the crank end", read.Crank, eccentric.CrankEnd}} {
		if port, _ := g.Ports.At(lead.end); lead.value.Cmp(port) >= 0 {
			return Correction{}, fail.OutOfRange(lead.field, lead.value,
				"less than the width of the port, "+port.String()+", which one that is wide open shows whatever its lead is")
		}
		if lead.value.Cmp(g.Travel.Neg()) < 0 {
			return Correction{}, fail.OutOfRange(lead.field, lead.value,
				"not below zero by more than the travel, "+g.Travel.String())
		}
	}
	k := g.Kernel()
	m := k.Motion()
	advance, shift, ok := m.Stood(count(read.Head), count(read.Crank))
	if !ok {
		reach, lap := m.Reach-m.Late, m.Steam[kernel.Both]
		return Correction{}, fail.OutOfRange("mean of the leads", read.Head.Add(read.Crank).Scale(0.5),
			"what the travel reaches, between "+length(-reach-lap).String()+" and "+length(reach-lap).String())
	}
	is, err := g.Events()
	if err != nil {
		return Correction{}, err
	}
	c := Correction{
		Turn: g.Advance - units.Angle(advance),
		Move: g.Valve.Offset.Sub(length(m.TowardsCrank(shift))),
		Lap:  read.Head.Add(read.Crank).Scale(0.5).Sub(is.MeanLead()),
	}
	if math.Abs(float64(c.Turn)) < kernel.LeastTurn {
		c.Turn = 0
	}
	c.OtherHand = otherHand(m, read, g.Advance)
	left := c.Move
	if math.Abs(count(c.Move)) < kernel.LeastMove {
		c.Move = units.Length{}
	}
	c.Arc = arc(s.Shaft, c.Turn)
	moved := c.Move
	if !s.Nut.IsZero() && !c.Move.IsZero() {
		turn, err := s.Nut.Set(c.Move)
		if err != nil {
			return Correction{}, err
		}
		c.Nut, moved = &turn, turn.Moves
	}
	c.Rod = moveOfRod(g, c.Move)
	after := g
	after.Advance = units.Angle(advance) + c.Turn
	after.Valve.Offset = g.Valve.Offset.Sub(left.Sub(moved))
	then, err := after.Events()
	if err != nil {
		return Correction{}, err
	}
	c.After = Leads{then.Head.Lead, then.Crank.Lead}
	c.Text = s.told(c)
	return c, nil
}

// otherHand returns the turn of a sheave that has the same leads on the other hand,
// 180 degrees less the angle of advance, where lost motion lies on the other side.
func otherHand(m kernel.Motion, read Leads, to units.Angle) units.Angle {
	mean := (count(read.Head) + count(read.Crank)) / 2
	advance, ok := m.AdvanceFor(mean-2*m.Late, kernel.Both)
	if !ok {
		advance = math.Copysign(math.Pi/2, mean)
	}
	return units.Angle(math.Remainder(float64(to)-(math.Pi-advance), 2*math.Pi))
}

// moveOfRod returns by how much the eccentric rod is made longer to move the valve
// towards the crank.
func moveOfRod(g eccentric.Gear, move units.Length) units.Length {
	if g.LeverRatio == 0 {
		return move.Neg()
	}
	return move.Scale(-1 / g.LeverRatio)
}

// told says in sentences what a correction asks for.
func (s *Setting) told(c Correction) string {
	var says []string
	part := "sheave"
	if !s.Slip.IsZero() {
		part = "stop of the sheave"
	}
	if c.Turn != 0 {
		says = append(says, "Turn the "+part+" on the shaft by "+s.turned(c.Turn)+".")
	}
	if !c.Move.IsZero() {
		text := "Move the valve on its spindle " + moved(c.Move) + " the crank"
		if c.Nut != nil {
			text += ": " + c.Nut.String()
			if c.Nut.Set != 0 {
				text += ". Seen from the crank a nut of a right-hand thread is turned " + nutGoes(c.Move).String() + " for that"
			}
		}
		says = append(says, text+".")
	}
	if len(says) == 0 {
		says = append(says, "Leave sheave and valve where they are: nothing that can be set is out.")
	} else {
		says = append(says, "Both leads then read "+mmThou(c.After.Head)+" at the head end and "+mmThou(c.After.Crank)+
			" at the crank end.")
	}
	if c.Turn != 0 {
		lap := "large"
		if c.Lap.Sign() > 0 {
			lap = "small"
		}
		says = append(says, "A sheave that is turned leaves how far the steam edges run past their ports as it is. Where that is not as"+
			" drawn it is not the sheave: each steam lap is "+mmThou(c.Lap.Abs())+" too "+lap+", or the travel is another.")
	}
	return strings.Join(append(says, "All this is for ports that open further as the crank goes on from its dead centres. Where they"+
		" shut, the sheave is on the wrong hand, which leads do not tell: turn it by "+s.turned(c.OtherHand)+", and read again."), " ")
}

// nutGoes says which way round a nut of a right-hand thread goes, seen from the crank,
// for a move of the valve.
func nutGoes(move units.Length) Rotation {
	if move.Sign() > 0 {
		return Anticlockwise
	}
	return Clockwise
}

// turned says how far the sheave is turned, which way round.
func (s *Setting) turned(a units.Angle) string {
	way, round := "forwards, the way the engine runs", s.Rotation
	if a < 0 {
		way, round = "back, against the way the engine runs", round.Opposite()
	}
	text := deg(a) + " " + way
	if round != 0 {
		text += " (" + round.String() + " seen from " + s.SeenFrom + ")"
	}
	if !s.Shaft.IsZero() {
		text += ", " + mmThou(arc(s.Shaft, a)) + " on a shaft of " + mm(s.Shaft)
	}
	return text
}
