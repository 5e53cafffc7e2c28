package pages

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Valve is the main page of the engine book: the valve gear.
func Valve(e *engine.Engine) (*Page, error) {
	gear, err := gearOf(e)
	if err != nil {
		return nil, err
	}
	events, err := gear.Events()
	if err != nil {
		return nil, err
	}
	odd, err := gear.CheckProportions(*e.Cylinder.Bore)
	if err != nil {
		return nil, e.Errorf("cylinder.bore", "%v", err)
	}
	found := finding.ListOf(checked(e, gear))
	saved, err := cures(e, gear, found)
	if err != nil {
		return nil, err
	}
	setting := settingOf(gear, events)
	setting.Page = eccentricPage
	return &Page{
		Sections: append(append([]book.Section{
			dimensions(e, gear), lapsOf(gear), whatTheValveDoes(gear, events), sweepOf(gear),
		}, saved...), setting),
		Findings:    append(finding.ListOf(odd), found...),
		Precautions: eccentric.Precautions(),
	}, nil
}

// checked is what is to be said of the gear, in the terms in which the file states
// where its eccentric is.
func checked(e *engine.Engine, g eccentric.Gear) []eccentric.Finding {
	if e.Eccentric.Stands != nil {
		return g.CheckPlaced()
	}
	return g.Check()
}

// bevan has the definitions of what the valve does.
var bevan = source.Ref{
	Kind: source.Published, Title: "The Theory of Machines, by T. Bevan", Edition: "edition not known",
	Locator: "chapter 5", Note: "definitions",
}

func dimensions(e *engine.Engine, g eccentric.Gear) book.Section {
	values := []book.Value{
		sized("bore", "cylinder bore", *e.Cylinder.Bore, ""),
		sized("stroke", "stroke", g.Stroke, fmt.Sprintf("%.2f bores", g.Stroke.Ratio(*e.Cylinder.Bore))),
		rod("connecting_rod", "connecting rod", g.ConnectingRod, g.Stroke.Scale(0.5), "cranks"),
		rod("eccentric_rod", "eccentric rod", g.EccentricRod, g.EccentricOffset(), "offsets"),
		sized("steam_port", "steam ports", g.Ports.Steam, ""),
		sized("bar", "bars", g.Ports.Bar, ""),
		sized("exhaust_port", middlePort(g), g.Ports.Exhaust, ""),
		sized("port_length", "length of the ports", g.Ports.Length, ""),
		sized("valve", "valve", g.Valve.Length, ""),
		sized("cavity", innerEdges(g), g.Valve.Cavity, ""),
		offCentre("valve_offset", "valve off centre", g.Valve.Offset),
		offCentre("cavity_offset", innerEdges(g)+" off its middle", g.Valve.CavityOffset),
		{Key: "inside_admission", What: book.Answer(g.InsideAdmission)},
	}
	if g.InsideAdmission {
		values[len(values)-1].Label = "admission past the inner edges"
	}
	values = append(values, ofCrankEnd(g)...)
	values = append(values, alterationOf(e.Alteration())...)
	values = append(values, sized("travel", "travel", g.Travel, ""))
	advance := book.Value{Key: "advance", What: book.Angle(g.Advance, 2)}
	if lead := e.Eccentric.Lead; lead != nil {
		values = append(values, sized("lead", "lead", *lead, "mean of both ends"))
	} else {
		advance.Label = "angle of advance"
	}
	if stands := e.Eccentric.Stands; stands != nil {
		advance.Label = ""
		values = append(values, stood("stands", "eccentric stands", g))
	}
	values = append(values, advance, lostMotion(g))
	if g.LeverRatio != 0 {
		values = append(values, book.Value{Key: "lever_ratio", Label: "lever ratio",
			What: book.Number(g.LeverRatio, 0, "", "").Shown(ratio(g.LeverRatio))})
	}
	if !g.Chest.IsZero() {
		values = append(values, sized("chest", "chest, inside", g.Chest, ""))
	}
	return book.Section{Key: "dimensions", Title: "DIMENSIONS AS GIVEN", Items: []book.Item{{Values: values}}}
}

// ratio prints a ratio with the digits that it was given.
func ratio(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// sized is a length with the fraction of an inch that it exactly is, if it is one.
func sized(key, label string, l units.Length, remark string) book.Value {
	if f, err := l.NearestFraction(64); err == nil && f.Rest.IsZero() && f.Den > 1 {
		remark = strings.TrimSuffix(f.String()+", "+remark, ", ")
	}
	return book.Value{Key: key, Label: label, What: book.Length(l, 3), Remark: remark}
}

func rod(key, label string, r eccentric.Rod, half units.Length, name string) book.Value {
	l, ok := r.Length()
	if !ok {
		return book.Value{Key: key, Label: label, What: book.Never(book.Length(l, 3), r.String())}
	}
	return sized(key, label, l, fmt.Sprintf("%.2f %s", l.Ratio(half), name))
}

// ofCrankEnd is what is cut at the crank end; printed only where it differs.
func ofCrankEnd(g eccentric.Gear) []book.Value {
	port, bar := g.Ports.At(eccentric.CrankEnd)
	values := []book.Value{
		{Key: "crank_steam_port", What: book.Length(port, 3)}, {Key: "crank_bar", What: book.Length(bar, 3)},
	}
	if port != g.Ports.Steam {
		values[0] = sized("crank_steam_port", "steam port, crank end", port, "")
	}
	if bar != g.Ports.Bar {
		values[1] = sized("crank_bar", "bar, crank end", bar, "")
	}
	return values
}

func lostMotion(g eccentric.Gear) book.Value {
	if g.Valve.LostMotion.IsZero() {
		return book.Value{Key: "lost_motion", What: book.Length(g.Valve.LostMotion, 3)}
	}
	return sized("lost_motion", "lost motion, in all", g.Valve.LostMotion, "at the valve")
}

func offCentre(key, label string, offset units.Length) book.Value {
	v := book.Value{Key: key, What: book.Length(offset, 3)}
	way := "towards crank"
	switch offset.Sign() {
	case 0:
		return v
	case -1:
		way = "away from crank"
	}
	v.Label, v.Remark = label, way
	v.What = v.What.Shown(offset.Abs().Text(units.Millimetres, 3)).And(book.Length(offset.Abs(), 3).Inches())
	return v
}

func middlePort(g eccentric.Gear) string {
	if g.InsideAdmission {
		return "middle port"
	}
	return "exhaust port"
}

func innerEdges(g eccentric.Gear) string {
	if g.InsideAdmission {
		return "between inner edges"
	}
	return "cavity"
}

// thouOfExhaustLap says what a thou on the exhaust lap does; nothing of a gear that
// does not release.
func thouOfExhaustLap(g eccentric.Gear) []book.Value {
	moved, err := g.MovedByExhaustLap(units.Thou(1))
	if err != nil {
		return nil
	}
	return []book.Value{{Key: "exhaust_thou_moves", Label: "1 thou more", What: book.Angle(moved, 2),
		Remark: "release later, compression earlier"}}
}

// plain prints millimetres for a formula, to a micron and without noughts at
// the end.
func plain(l units.Length) string {
	return strings.TrimSuffix(strings.TrimRight(l.Decimal(units.Millimetres, 3), "0"), ".")
}

func degrees(a units.Angle) string { return hundredths(a) + " deg" }

// hundredths writes the degrees of an angle to two places, nothing without a sign.
func hundredths(a units.Angle) string {
	return fmt.Sprintf("%.2f", math.Round(100*a.In(units.Degree))/100+0)
}

func whatTheValveDoes(g eccentric.Gear, events eccentric.Events) book.Section {
	moments, openings := eventValues(g, events)
	s := book.Section{
		Key: "events", Title: "WHAT THE VALVE DOES",
		Intro: []string{"Crank angles are from that end's own dead centre in the direction of rotation. The piston is" +
			" counted from that end, as a share of the stroke and in millimetres; compression is where the exhaust shuts" +
			" on the way back."},
		Items: []book.Item{
			{Values: moments},
			{Values: openings, Notes: []book.Note{
				{Text: "A negative lead is a port still shut at dead centre, a negative edge a port not fully opened."},
				{Text: "The figures are exact geometry, with both rods at their true length.", Refs: source.Of(bevan)},
			}},
		},
	}
	late := func(e eccentric.EndEvents) bool { return e.Compression.Occurs && !e.Compresses() }
	if late(events.Head) || late(events.Crank) {
		s.Intro = append(s.Intro,
			"A compression past 360 deg is none: the exhaust shuts when the piston is already on its way out again.")
	}
	if alike(g, ruler{}) != "" {
		s.Items[1].Notes = append(s.Items[1].Notes, noted(source.Refs{}, func(r ruler) string { return alike(g, r) }))
	}
	return s
}

// alike says what both ends would do with endless rods; nothing of a gear whose
// ends would differ still.
func alike(g eccentric.Gear, r ruler) string {
	endless := g
	endless.ConnectingRod, endless.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
	events, err := endless.Events()
	if err != nil || !events.Head.Admission.Occurs || !g.Valve.Offset.IsZero() ||
		!endsAlike(g) || !g.Valve.LostMotion.IsZero() {
		return ""
	}
	a, d := events.Head.Admission.Crank+g.Advance, hundredths(g.Advance)
	if strings.HasPrefix(d, "-") {
		d = "(" + d + ")"
	}
	with, why := "With endless rods both ends would be alike", " The slant of the rods makes the difference."
	if endless == g {
		with, why = "With endless rods both ends are alike", ""
	}
	return fmt.Sprintf("%s: sin(t + d) = S / half travel = %s / %s, the sine"+
		" of %s, for admission at t = %s - %s = %s and cut-off at t = 180 - %s - %s = %s; d is the angle of advance.%s",
		with, r.plain(g.Laps().Steam), r.plain(g.Travel.Scale(0.5)), degrees(a),
		hundredths(a), d, degrees(a-g.Advance), hundredths(a), d, degrees(math.Pi-a-g.Advance), why)
}

func sweepOf(g eccentric.Gear) book.Section {
	sweep := g.Sweep()
	s := book.Section{Key: "sweep", Items: []book.Item{{
		Title: "Along the port face, from its middle",
		Values: []book.Value{
			{Key: "inner", Label: "the valve's end comes in to", What: book.Length(sweep.Min, 3)},
			{Key: "outer", Label: "and goes out to", What: book.Length(sweep.Max, 3)},
			{Key: "ports_end", Label: "the ports end at", What: book.Length(sweep.Ports, 3)},
			{Key: "crank_port_end", What: book.Length(sweep.CrankPort, 3)},
			{Key: "chest", Label: "chest inside, more than", What: book.Length(sweep.Chest, 3), Remark: "end to end"},
		},
	}}}
	if sweep.CrankPort != sweep.Ports {
		s.Items[0].Values[2].Label = "the head end's port ends at"
		s.Items[0].Values[3].Label = "that of the crank end at"
	}
	if !g.InsideAdmission {
		s.Items[0].Notes = []book.Note{{Text: "A relief groove, if there is one, starts beyond the port and a land that" +
			" seals, and short of where the valve's end goes out to: the valve then runs over its edge and wears no ridge.",
			Refs: source.Of(source.Practice())}}
	}
	return s
}
