package pages

import (
	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units"
)

// eventValues are what the valve does, at both ends: its moments, and how far the
// ports open. Their keys are those under events in every program.
func eventValues(g eccentric.Gear, events eccentric.Events) (moments, openings []book.Value) {
	h, c := events.Head, events.Crank
	for _, e := range []struct {
		key, label  string
		head, crank eccentric.Event
	}{
		{"admission", "admission", h.Admission, c.Admission}, {"cut_off", "cut-off", h.CutOff, c.CutOff},
		{"release", "release", h.Release, c.Release}, {"compression", "compression", h.Compression, c.Compression},
	} {
		moments = append(moments, moment(g, "head", e.key, e.label, e.head)...)
		moments = append(moments, moment(g, "crank", e.key, e.label, e.crank)...)
	}
	for _, o := range []struct {
		key, label  string
		head, crank units.Length
	}{
		{"lead", "lead", h.Lead, c.Lead},
		{"opening", "greatest opening to steam", h.Opening, c.Opening},
		{"steam_edge_past_port", "steam edge past the port", h.OverTravel, c.OverTravel},
		{"exhaust_opening", "greatest opening to exhaust", h.ExhaustOpening, c.ExhaustOpening},
	} {
		openings = append(openings,
			book.Value{Key: "head." + o.key, Label: o.label, Column: "head end", What: book.Length(o.head, 3)},
			book.Value{Key: "crank." + o.key, Label: o.label, Column: "crank end", What: book.Length(o.crank, 3)})
	}
	return moments, openings
}

// moment is one event at one end: crank, share of the stroke, place of the piston.
func moment(g eccentric.Gear, end, key, label string, v eccentric.Event) []book.Value {
	crank, stroke := book.Angle(v.Crank, 2), book.Share(v.Stroke, 2)
	piston := book.Length(g.Stroke.Scale(v.Stroke), 2).Millimetres()
	if !v.Occurs {
		crank, stroke, piston = book.Never(crank, "never"), book.Never(stroke, ""), book.Never(piston, "")
	}
	path := end + "." + key + "."
	return []book.Value{
		{Key: path + "crank", Label: label, Column: end + " end", What: crank},
		{Key: path + "stroke", Label: label, Column: "stroke", What: stroke},
		{Key: path + "piston", Label: label, Column: "piston", What: piston},
	}
}

// gearValues are the sizes of a gear that may have been altered or chosen; of the
// crank end only where they differ. Their keys are those under gear in every program.
func gearValues(g eccentric.Gear) []book.Value {
	values := []book.Value{
		sized("steam", "steam ports", g.Ports.Steam, ""),
		sized("bar", "bars", g.Ports.Bar, ""),
	}
	if !g.Ports.CrankSteam.IsZero() {
		values = append(values, sized("crank_steam", "steam port, crank end", g.Ports.CrankSteam, ""))
	}
	if !g.Ports.CrankBar.IsZero() {
		values = append(values, sized("crank_bar", "bar, crank end", g.Ports.CrankBar, ""))
	}
	values = append(values,
		sized("exhaust", middlePort(g), g.Ports.Exhaust, ""),
		sized("valve", "valve", g.Valve.Length, ""),
		sized("cavity", innerEdges(g), g.Valve.Cavity, ""))
	if !g.Valve.CavityOffset.IsZero() {
		values = append(values, offCentre("cavity_offset", innerEdges(g)+" off its middle", g.Valve.CavityOffset))
	}
	return append(values, offCentre("valve_offset", "valve off centre", g.Valve.Offset),
		sized("travel", "travel", g.Travel, ""),
		book.Value{Key: "advance", Label: "angle of advance", What: book.Angle(g.Advance, 2)})
}

// builtValues are all that a cure may alter: those of gearValues, and each that they
// leave out where it is nothing, so that what is left out is never to be guessed.
func builtValues(g eccentric.Gear) []book.Value {
	steam, bar := g.Ports.At(eccentric.CrankEnd)
	g.Ports.CrankSteam, g.Ports.CrankBar = steam, bar
	values := gearValues(g)
	if g.Valve.CavityOffset.IsZero() {
		values = append(values, offCentre("cavity_offset", "", g.Valve.CavityOffset))
	}
	values = append(values, sized("lost_motion", "", g.Valve.LostMotion, ""))
	if l, ok := g.EccentricRod.Length(); ok {
		values = append(values, sized("eccentric_rod", "", l, ""))
	}
	if !g.Chest.IsZero() {
		values = append(values, sized("chest", "", g.Chest, ""))
	}
	return values
}

// under puts the keys of values under another.
func under(path string, values []book.Value) []book.Value {
	for i := range values {
		values[i].Key = path + "." + values[i].Key
	}
	return values
}

// unprinted leaves values out of the text, which says them elsewhere.
func unprinted(values []book.Value) []book.Value {
	for i := range values {
		values[i].Label, values[i].Column, values[i].Remark = "", "", ""
	}
	return values
}
