package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// valvePage is the main page: the valve gear.
func valvePage(in *input) (*page, error) {
	gear, err := in.gear()
	if err != nil {
		return nil, err
	}
	events, err := gear.Events()
	if err != nil {
		return nil, err
	}
	laps := gear.Laps()
	p := &page{data: map[string]any{
		"laps": map[string]any{"steam_mm": laps.Steam.MM(), "exhaust_mm": laps.Exhaust.MM()},
		"events": map[string]any{
			"head":  endData(events.Head),
			"crank": endData(events.Crank),
		},
		"eccentric": map[string]any{
			"offset_mm":       gear.EccentricOffset().MM(),
			"dial_reading_mm": gear.EccentricOffset().Scale(2).MM(),
			"advance_deg":     gear.Advance.Degrees(),
			"leads_crank_deg": gear.EccentricLead().Degrees(),
		},
	}}
	for _, f := range gear.Check() {
		p.findings = append(p.findings, finding{Kind: f.Kind.String(), Severity: f.Severity, End: f.End.String(), Text: f.Text, Remedy: f.Remedy})
	}
	p.write = func(pr *printer) {
		writeDimensions(pr, in, gear)
		writeEvents(pr, gear, events)
		writeEccentric(pr, gear, events)
	}
	return p, nil
}

// gear returns the valve gear of the file.
func (in *input) gear() (eccentric.Gear, error) {
	const length = `a length with its unit, such as "20 mm" or "3/4 in"`
	missing := errors.Join(
		in.missing(length, "cylinder.bore", "cylinder.stroke"),
		in.missing(length+`, or "infinite"`, "motion.connecting_rod", "motion.eccentric_rod"),
		in.missing(length, "ports.steam", "ports.bar", "ports.exhaust", "ports.length", "valve.length", "valve.cavity", "eccentric.travel"),
	)
	e := in.engine
	switch {
	case e.Eccentric.Advance == nil && e.Eccentric.Lead == nil:
		missing = errors.Join(missing, in.errorAt("eccentric.advance", `missing; accepted: advance, such as "26 deg", or lead, such as "0.2 mm", but not both`))
	case e.Eccentric.Advance != nil && e.Eccentric.Lead != nil:
		missing = errors.Join(missing, in.errorAt("eccentric.lead", "advance is given too, and fixes the lead; accepted: one of the two"))
	}
	if missing != nil {
		return eccentric.Gear{}, missing
	}
	if e.Cylinder.Bore.Sign() <= 0 {
		return eccentric.Gear{}, in.errorAt("cylinder.bore", "%v; accepted: a length above zero", *e.Cylinder.Bore)
	}
	gear := eccentric.Gear{
		Stroke:        *e.Cylinder.Stroke,
		ConnectingRod: units.Length(*e.Motion.ConnectingRod),
		Travel:        *e.Eccentric.Travel,
		EccentricRod:  units.Length(*e.Motion.EccentricRod),
		Ports:         eccentric.Ports{Steam: *e.Ports.Steam, Bar: *e.Ports.Bar, Exhaust: *e.Ports.Exhaust, Length: *e.Ports.Length},
		Valve:         eccentric.Valve{Length: *e.Valve.Length, Cavity: *e.Valve.Cavity},
	}
	if e.Valve.Offset != nil {
		gear.Valve.Offset = *e.Valve.Offset
	}
	if _, given := in.at["chest"]; given && e.Chest.Length == nil {
		return eccentric.Gear{}, in.missing(length+", or no chest at all", "chest.length")
	}
	if e.Chest.Length != nil {
		gear.Chest = *e.Chest.Length
		if gear.Chest.IsZero() {
			return eccentric.Gear{}, in.errorAt("chest.length", "0 mm; accepted: a length above zero, or no chest at all")
		}
	}
	if gear.Ports.Length.IsZero() {
		return eccentric.Gear{}, in.errorAt("ports.length", "0 mm; accepted: a length above zero")
	}
	if e.Motion.LeverRatio != nil {
		gear.LeverRatio = *e.Motion.LeverRatio
		if gear.LeverRatio == 0 {
			return eccentric.Gear{}, in.errorAt("motion.lever_ratio", "0; accepted: the movement of the valve for one of the eccentric rod, negative for a lever that reverses it; leave the key out where there is no lever")
		}
	}
	switch strings.ToLower(e.Valve.Admission) {
	case "", "outside":
	case "inside":
		gear.InsideAdmission = true
	default:
		return eccentric.Gear{}, in.errorAt("valve.admission", `%q; accepted: "outside" for a slide valve, "inside" for a piston valve that admits past its inner edges`, e.Valve.Admission)
	}
	if e.Eccentric.Advance != nil {
		gear.Advance = *e.Eccentric.Advance
	}
	if err := gear.Validate(); err != nil {
		return eccentric.Gear{}, in.place(err)
	}
	if e.Eccentric.Lead != nil {
		set, err := gear.WithLead(*e.Eccentric.Lead, eccentric.BothEnds)
		if err != nil {
			return eccentric.Gear{}, in.place(err)
		}
		gear = set
	}
	return gear, nil
}

// place names the keys that an error of package eccentric is about.
func (in *input) place(err error) error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, e := range joined.Unwrap() {
			all = append(all, in.place(e))
		}
		return errors.Join(all...)
	}
	var bad *units.ArgumentError
	if !errors.As(err, &bad) {
		return err
	}
	key := map[string]string{
		"stroke": "cylinder.stroke", "connecting rod": "motion.connecting_rod", "eccentric rod": "motion.eccentric_rod",
		"lever ratio": "motion.lever_ratio", "steam port width": "ports.steam", "bar width": "ports.bar",
		"exhaust port width": "ports.exhaust", "port length": "ports.length", "valve length": "valve.length",
		"valve cavity": "valve.cavity", "valve travel": "eccentric.travel", "angle of advance": "eccentric.advance",
		"lead": "eccentric.lead", "chest length": "chest.length",
	}[bad.Field]
	return in.errorAt(key, "%v", bad)
}

func endData(e eccentric.EndEvents) map[string]any {
	event := func(v eccentric.Event) map[string]any {
		if !v.Occurs {
			return map[string]any{"crank_deg": nil, "stroke": nil}
		}
		return map[string]any{"crank_deg": v.Crank.Degrees(), "stroke": v.Stroke}
	}
	return map[string]any{
		"admission": event(e.Admission), "cut_off": event(e.CutOff), "release": event(e.Release), "compression": event(e.Compression),
		"lead_mm": e.Lead.MM(), "opening_mm": e.Opening.MM(), "exhaust_opening_mm": e.ExhaustOpening.MM(),
	}
}

func writeDimensions(pr *printer, in *input, g eccentric.Gear) {
	rodRow := func(what string, l units.Length, half units.Length) []string {
		if l.IsZero() {
			return []string{what, "infinite", "infinite"}
		}
		return row(what, l, fmt.Sprintf("%.2f cranks", l.Ratio(half)))
	}
	pr.heading("DIMENSIONS AS GIVEN")
	rows := [][]string{
		row("cylinder bore", *in.engine.Cylinder.Bore),
		row("stroke", g.Stroke),
		rodRow("connecting rod", g.ConnectingRod, g.Stroke.Scale(0.5)),
		rodRow("eccentric rod", g.EccentricRod, g.EccentricOffset()),
		row("steam ports", g.Ports.Steam),
		row("bars", g.Ports.Bar),
		row("exhaust port", g.Ports.Exhaust),
		row("length of the ports", g.Ports.Length),
		row("valve", g.Valve.Length),
		row("cavity", g.Valve.Cavity),
	}
	if !g.Valve.Offset.IsZero() {
		rows = append(rows, row("valve off centre, towards crank", g.Valve.Offset))
	}
	rows = append(rows, row("travel", g.Travel))
	if !g.Chest.IsZero() {
		rows = append(rows, row("chest, inside", g.Chest))
	}
	pr.table(rows)

	laps := g.Laps()
	pr.heading("LAPS")
	exhaust := row("exhaust lap", laps.Exhaust)
	if laps.Exhaust.Sign() < 0 {
		exhaust = append(exhaust, "clearance")
	}
	pr.table([][]string{row("steam lap", laps.Steam), exhaust})
	if g.InsideAdmission {
		pr.para("Steam lap = (2 bars + middle port - between inner edges) / 2; exhaust lap = (valve - 2 steam ports - 2 bars - middle port) / 2.")
	} else {
		pr.para("Steam lap = (valve - 2 steam ports - 2 bars - exhaust port) / 2; exhaust lap = (2 bars + exhaust port - cavity) / 2.")
	}
}

func writeEvents(pr *printer, g eccentric.Gear, events eccentric.Events) {
	pr.heading("WHAT THE VALVE DOES")
	pr.para("Crank angles are from that end's own dead centre in the direction of rotation. The piston is counted from that end, as a share of the stroke and in millimetres; compression is where the exhaust shuts on the way back.")
	event := func(v eccentric.Event) []string {
		if !v.Occurs {
			return []string{"never", "", ""}
		}
		return []string{fmt.Sprintf("%.2f deg", v.Crank.Degrees()), fmt.Sprintf("%.2f %%", 100*v.Stroke), g.Stroke.Scale(v.Stroke).Text(units.Millimetres, 2)}
	}
	h, c := events.Head, events.Crank
	rows := [][]string{{"", "head end", "stroke", "piston", "crank end", "stroke", "piston"}}
	for _, e := range []struct {
		name        string
		head, crank eccentric.Event
	}{
		{"admission", h.Admission, c.Admission}, {"cut-off", h.CutOff, c.CutOff},
		{"release", h.Release, c.Release}, {"compression", h.Compression, c.Compression},
	} {
		rows = append(rows, append(append([]string{e.name}, event(e.head)...), event(e.crank)...))
	}
	pr.table(rows)
	pr.blank()
	openings := [][]string{{"", "head end", "", "crank end", ""}}
	for _, o := range []struct {
		name        string
		head, crank units.Length
	}{
		{"lead", h.Lead, c.Lead}, {"greatest opening to steam", h.Opening, c.Opening},
		{"edge past the port", h.OverTravel, c.OverTravel}, {"greatest opening to exhaust", h.ExhaustOpening, c.ExhaustOpening},
	} {
		openings = append(openings, []string{o.name, mm(o.head), inch(o.head), mm(o.crank), inch(o.crank)})
	}
	pr.table(openings)
	pr.para("By geometry, exact, with both rods at their true length; a negative lead is a port still shut at dead centre, a negative edge a port not fully opened. Definitions: T. Bevan, The Theory of Machines, chapter 5.")
}

func writeEccentric(pr *printer, g eccentric.Gear, events eccentric.Events) {
	offset := g.EccentricOffset()
	pr.heading("MAKING AND SETTING THE ECCENTRIC")
	pr.table([][]string{
		row("offset of the sheave", offset),
		row("dial reading over one turn", offset.Scale(2)),
	})
	lead, way := g.EccentricLead(), "ahead of"
	if lead < 0 {
		lead, way = -lead, "behind"
	}
	pr.para(fmt.Sprintf("The high point of the sheave stands %.2f deg %s the crank in the direction of rotation; the angle of advance is %.2f deg. A dial on the turning sheave shows twice its offset.", lead.Degrees(), way, g.Advance.Degrees()))
	if events.Head.Lead.Sign() > 0 && events.Crank.Lead.Sign() > 0 {
		pr.para(fmt.Sprintf("To prove it: at the head-end dead centre the head port shows %s, at the other the crank port %s.", events.Head.Lead.Text(units.Millimetres, 2), events.Crank.Lead.Text(units.Millimetres, 2)))
	}
	if equal, err := g.OffsetForEqualLead(); err == nil && !equal.IsZero() {
		way := "towards"
		if equal.Sign() < 0 {
			way = "away from"
		}
		pr.para(fmt.Sprintf("Set off centre by %s (%s) %s the crank, the valve gives both ends the same lead.", equal.Abs().Text(units.Millimetres, 2), equal.Abs().Text(units.Thousandths, 1), way))
	}
}
