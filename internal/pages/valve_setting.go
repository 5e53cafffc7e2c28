package pages

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// settingOf says how the sheave is made and where it stands.
func settingOf(g eccentric.Gear, events eccentric.Events) book.Section {
	offset := g.EccentricOffset()
	formula, by := "travel / 2", " / 2"
	if g.LeverRatio != 0 {
		formula, by = formula+" / lever ratio", by+" / "+ratio(math.Abs(g.LeverRatio))
	}
	item := book.Item{
		Values: []book.Value{
			{Key: "offset", Label: "offset of the sheave", What: book.Length(offset, 3)},
			{Key: "dial_reading", Label: "dial reading over one turn", What: book.Length(offset.Scale(2), 3)},
			stood("leads_crank", "high point of the sheave", g),
			{Key: "advance", Label: "angle of advance d", What: book.Angle(g.Advance, 2)},
			toReverse(g),
			{Key: "mean_lead", Label: "mean lead", What: book.Length(events.MeanLead(), 3)},
		},
		Formulas: []book.Formula{
			worked(source.Refs{}, func(r ruler) string {
				return fmt.Sprintf("offset = %s = %s = %s %s; a dial on the turning sheave shows twice its offset",
					formula, r.plain(g.Travel)+by, r.plain(offset), r.unit())
			}),
			worked(source.Refs{}, func(r ruler) string { return meanLead(g, events, r) }),
		},
	}
	item.Notes = append(item.Notes, book.Note{Text: "Ahead and behind are in the direction of rotation. A slip eccentric" +
		" turns between its stops by as much as one is turned on the shaft to reverse: the cutter of its slot, of the size" +
		" of the stop pin, is fed through that angle, and the slot is longer, end to end, by 2 asin(pin / (2 x radius of" +
		" the pin's circle))."})
	h, c := shows(g, eccentric.HeadEnd, events.Head), shows(g, eccentric.CrankEnd, events.Crank)
	if h.Sign() > 0 && c.Sign() > 0 {
		item.Notes = append(item.Notes, book.Note{Text: fmt.Sprintf("To prove it: at the head-end dead centre the head port"+
			" shows %s (%s), at the other the crank port %s (%s).",
			h.Text(units.Millimetres, 2), h.Text(units.Thousandths, 1),
			c.Text(units.Millimetres, 2), c.Text(units.Thousandths, 1))})
	}
	if move, err := g.MoveForEqualLead(); err == nil && !move.IsZero() {
		equal := g.Valve.Offset.Add(move)
		item.Values = append(item.Values, book.Value{Key: "valve_offset_for_equal_lead", What: book.Length(equal, 3)})
		item.Notes = append(item.Notes, book.Note{Text: movedTo(g, move, equal)})
	}
	return book.Section{Key: "eccentric", Title: "THE ECCENTRIC, its offset and its place", Items: []book.Item{item}}
}

func meanLead(g eccentric.Gear, events eccentric.Events, r ruler) string {
	lap, mean := g.Laps().Steam, r.plain(events.MeanLead())
	text := fmt.Sprintf("mean lead = half travel x sin d - S = %s x sin %s - %s = %s %s",
		r.plain(g.Travel.Scale(0.5)), hundredths(g.Advance), r.plain(lap), mean, r.unit())
	if lost := g.Valve.LostMotion; !lost.IsZero() {
		// On the way back the valve is as much further out, and near its turns it rests.
		text = "mean lead = " + mean + " " + r.unit() + ", with the lost motion"
		if reached := g.Travel.Scale(math.Sin(float64(g.Advance)) / 2).Sub(lap).Sub(lost.Scale(0.5)); reached.Sub(
			events.MeanLead()).Abs().Cmp(units.Picometres(2)) <= 0 {
			text = fmt.Sprintf("mean lead = half travel x sin d - S - half the lost motion = %s x sin %s - %s - %s / 2 = %s %s",
				r.plain(g.Travel.Scale(0.5)), hundredths(g.Advance), r.plain(lap), r.plain(lost), mean, r.unit())
		}
	}
	var causes []string
	if !g.EccentricRod.Infinite() {
		causes = append(causes, "the slant of the eccentric rod")
	}
	if g.LapsAt(eccentric.HeadEnd).Steam != g.LapsAt(eccentric.CrankEnd).Steam {
		causes = append(causes, "the steam laps that differ")
	}
	if !g.Valve.Offset.IsZero() {
		causes = append(causes, "the valve off centre")
	}
	because := ""
	switch n := len(causes); n {
	case 0:
		return text
	case 1:
		because = causes[0] + " makes it"
		if causes[0] == "the steam laps that differ" {
			because = causes[0] + " make it"
		}
	default:
		because = strings.Join(causes[:n-1], ", ") + " and " + causes[n-1] + " make it"
	}
	return fmt.Sprintf("%s; %s %s at the head end and %s at the crank end", text, because,
		r.plain(events.Head.Lead), r.plain(events.Crank.Lead))
}

// toReverse says how far to turn the sheave on the shaft for the other direction.
func toReverse(g eccentric.Gear) book.Value {
	turn, way := g.TurnToReverse(), "the way it runs now"
	if turn < 0 {
		way = "against the way it runs now"
	}
	return book.Value{Key: "turn_to_reverse", Label: "to reverse, turn it by",
		What: book.Angle(turn, 2).Shown(degrees(max(turn, -turn))), Remark: way}
}

// shows is how far a port is open at its dead centre, which is no further than it
// is wide.
func shows(g eccentric.Gear, end eccentric.End, e eccentric.EndEvents) units.Length {
	if port, _ := g.Ports.At(end); e.Lead.Cmp(port) > 0 {
		return port
	}
	return e.Lead
}

// stood is where the high point of the sheave stands, ahead of the crank or behind.
func stood(key, label string, g eccentric.Gear) book.Value {
	lead, way := g.EccentricLead(), "ahead of the crank"
	if lead < 0 {
		way = "behind the crank"
	}
	return book.Value{Key: key, Label: label, What: book.Angle(lead, 2).Shown(degrees(max(lead, -lead))), Remark: way}
}

// movedTo says by how much to move the valve for equal leads.
func movedTo(g eccentric.Gear, move, equal units.Length) string {
	by, way := move.Abs(), "towards"
	if move.Sign() < 0 {
		way = "away from"
	}
	moved := "set"
	if !g.Valve.Offset.IsZero() {
		moved = "moved"
	}
	text := fmt.Sprintf("With the valve %s %s (%s) %s the crank", moved,
		by.Text(units.Millimetres, 2), by.Text(units.Thousandths, 1), way)
	if equal.IsZero() {
		text += ", to its centre"
	}
	return text + ", both ends have that mean lead."
}
