package main

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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
	sweep := gear.Sweep()
	p := &page{data: map[string]any{
		"laps": map[string]any{"steam_mm": laps.Steam.MM(), "exhaust_mm": laps.Exhaust.MM()},
		"events": map[string]any{
			"head":  endData(gear, events.Head),
			"crank": endData(gear, events.Crank),
		},
		"dimensions": in.dimensionData(gear),
		"sweep": map[string]any{
			"inner_mm": sweep.Min.MM(), "outer_mm": sweep.Max.MM(), "ports_end_mm": sweep.Ports.MM(),
		},
		"eccentric": map[string]any{
			"offset_mm":       gear.EccentricOffset().MM(),
			"dial_reading_mm": gear.EccentricOffset().Scale(2).MM(),
			"advance_deg":     gear.Advance.Degrees(),
			"leads_crank_deg": gear.EccentricLead().Degrees(),
			"mean_lead_mm":    events.MeanLead().MM(),
		},
	}}
	if equal, ok := otherOffset(gear); ok {
		p.data["eccentric"].(map[string]any)["valve_offset_for_equal_lead_mm"] = equal.MM()
	}
	odd, err := gear.CheckProportions(*in.File.Cylinder.Bore)
	if err != nil {
		return nil, in.Errorf("cylinder.bore", "%v", err)
	}
	p.findings = finding.ListOf(append(odd, gear.Check()...))
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
		in.Missing(length, "cylinder.bore", "cylinder.stroke"),
		in.Missing(length+`, or "infinite"`, "motion.connecting_rod", "motion.eccentric_rod"),
		in.Missing(length, "ports.steam", "ports.bar", "ports.exhaust", "ports.length",
			"valve.length", "valve.cavity", "eccentric.travel"),
	)
	e := in.File
	switch {
	case e.Eccentric.Advance == nil && e.Eccentric.Lead == nil:
		missing = errors.Join(missing, in.Errorf("eccentric.advance", `missing; accepted: advance, such as "26 deg", or`+
			` lead, such as "0.2 mm", but not both`))
	case e.Eccentric.Advance != nil && e.Eccentric.Lead != nil:
		missing = errors.Join(missing, in.Errorf("eccentric.lead", "advance is given too, and fixes the lead; accepted:"+
			" one of the two"))
	}
	if missing != nil {
		return eccentric.Gear{}, missing
	}
	if e.Cylinder.Bore.Sign() <= 0 {
		return eccentric.Gear{}, in.Errorf("cylinder.bore", "%v; accepted: a length above zero", *e.Cylinder.Bore)
	}
	gear := eccentric.Gear{
		Stroke:        *e.Cylinder.Stroke,
		ConnectingRod: *e.Motion.ConnectingRod,
		Travel:        *e.Eccentric.Travel,
		EccentricRod:  *e.Motion.EccentricRod,
		Ports: eccentric.Ports{
			Steam: *e.Ports.Steam, Bar: *e.Ports.Bar, Exhaust: *e.Ports.Exhaust, Length: *e.Ports.Length,
		},
		Valve: eccentric.Valve{Length: *e.Valve.Length, Cavity: *e.Valve.Cavity},
	}
	if e.Valve.Offset != nil {
		gear.Valve.Offset = *e.Valve.Offset
	}
	if given := in.Has("chest"); given && e.Chest.Length == nil {
		return eccentric.Gear{}, in.Missing(length+", or no chest at all", "chest.length")
	}
	if e.Chest.Length != nil {
		gear.Chest = *e.Chest.Length
		if gear.Chest.IsZero() {
			return eccentric.Gear{}, in.Errorf("chest.length", "0 mm; accepted: a length above zero, or no chest at all")
		}
	}
	if gear.Ports.Length.IsZero() {
		return eccentric.Gear{}, in.Errorf("ports.length", "0 mm; accepted: a length above zero")
	}
	if e.Motion.LeverRatio != nil {
		gear.LeverRatio = *e.Motion.LeverRatio
		if gear.LeverRatio == 0 {
			return eccentric.Gear{}, in.Errorf("motion.lever_ratio", "0; accepted: the movement of the valve for one of the"+
				" eccentric rod, negative for a lever that reverses it; leave the key out where there is no lever")
		}
	}
	switch strings.ToLower(e.Valve.Admission) {
	case "", "outside":
	case "inside":
		gear.InsideAdmission = true
	default:
		return eccentric.Gear{}, in.Errorf("valve.admission", `%q; accepted: "outside" for a slide valve, "inside" for a`+
			` piston valve that admits past its inner edges`,
			e.Valve.Admission)
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
	return in.Errorf(key, "%v", bad)
}

// dimensionData is what the file gives, with a lead worked out where it gives an
// advance and the other way round.
func (in *input) dimensionData(g eccentric.Gear) map[string]any {
	e := in.File
	rod := func(r eccentric.Rod) any {
		l, ok := r.Length()
		if !ok {
			return nil // infinite
		}
		return l.MM()
	}
	d := map[string]any{
		"bore_mm": e.Cylinder.Bore.MM(), "stroke_mm": g.Stroke.MM(),
		"connecting_rod_mm": rod(g.ConnectingRod), "eccentric_rod_mm": rod(g.EccentricRod),
		"steam_port_mm": g.Ports.Steam.MM(), "bar_mm": g.Ports.Bar.MM(),
		"exhaust_port_mm": g.Ports.Exhaust.MM(), "port_length_mm": g.Ports.Length.MM(),
		"valve_mm": g.Valve.Length.MM(), "cavity_mm": g.Valve.Cavity.MM(), "valve_offset_mm": g.Valve.Offset.MM(),
		"inside_admission": g.InsideAdmission, "travel_mm": g.Travel.MM(), "advance_deg": g.Advance.Degrees(),
	}
	if e.Eccentric.Lead != nil {
		d["lead_mm"] = e.Eccentric.Lead.MM()
	}
	if g.LeverRatio != 0 {
		d["lever_ratio"] = g.LeverRatio
	}
	if !g.Chest.IsZero() {
		d["chest_mm"] = g.Chest.MM()
	}
	return d
}

func endData(g eccentric.Gear, e eccentric.EndEvents) map[string]any {
	event := func(v eccentric.Event) map[string]any {
		if !v.Occurs {
			return map[string]any{"crank_deg": nil, "stroke": nil, "piston_mm": nil}
		}
		return map[string]any{"crank_deg": v.Crank.Degrees(), "stroke": v.Stroke, "piston_mm": g.Stroke.Scale(v.Stroke).MM()}
	}
	return map[string]any{
		"admission": event(e.Admission), "cut_off": event(e.CutOff),
		"release": event(e.Release), "compression": event(e.Compression),
		"lead_mm": e.Lead.MM(), "opening_mm": e.Opening.MM(), "exhaust_opening_mm": e.ExhaustOpening.MM(),
		"steam_edge_past_port_mm": e.OverTravel.MM(),
	}
}

func writeDimensions(pr *printer, in *input, g eccentric.Gear) {
	rodRow := func(what string, r eccentric.Rod, half units.Length, name string) []string {
		l, ok := r.Length()
		if !ok {
			return []string{what, r.String(), r.String()}
		}
		return dimension(what, l, fmt.Sprintf("%.2f %s", l.Ratio(half), name))
	}
	pr.heading("DIMENSIONS AS GIVEN")
	rows := [][]string{
		dimension("cylinder bore", *in.File.Cylinder.Bore),
		dimension("stroke", g.Stroke, fmt.Sprintf("%.2f bores", g.Stroke.Ratio(*in.File.Cylinder.Bore))),
		rodRow("connecting rod", g.ConnectingRod, g.Stroke.Scale(0.5), "cranks"),
		rodRow("eccentric rod", g.EccentricRod, g.EccentricOffset(), "offsets"),
		dimension("steam ports", g.Ports.Steam),
		dimension("bars", g.Ports.Bar),
		dimension(middlePort(g), g.Ports.Exhaust),
		dimension("length of the ports", g.Ports.Length),
		dimension("valve", g.Valve.Length),
		dimension(innerEdges(g), g.Valve.Cavity),
	}
	switch g.Valve.Offset.Sign() {
	case 1:
		rows = append(rows, dimension("valve off centre", g.Valve.Offset, "towards crank"))
	case -1:
		rows = append(rows, dimension("valve off centre", g.Valve.Offset.Neg(), "away from crank"))
	}
	if g.InsideAdmission {
		rows = append(rows, []string{"admission", "inside"})
	}
	rows = append(rows, dimension("travel", g.Travel))
	if lead := in.File.Eccentric.Lead; lead != nil {
		rows = append(rows, dimension("lead", *lead, "mean of both ends"))
	} else {
		rows = append(rows, []string{"angle of advance", degrees(g.Advance)})
	}
	if g.LeverRatio != 0 {
		rows = append(rows, []string{"lever ratio", strconv.FormatFloat(g.LeverRatio, 'g', -1, 64)})
	}
	if !g.Chest.IsZero() {
		rows = append(rows, dimension("chest, inside", g.Chest))
	}
	pr.table(rows)

	laps := g.Laps()
	pr.heading("LAPS")
	exhaust := row("exhaust lap", laps.Exhaust)
	if laps.Exhaust.Sign() < 0 {
		exhaust = append(exhaust, "clearance")
	}
	pr.table([][]string{row("steam lap", laps.Steam), exhaust})
	outer := fmt.Sprintf("(valve - 2 steam ports - 2 bars - %s) / 2 = (%s - 2 x %s - 2 x %s - %s) / 2", middlePort(g),
		plain(g.Valve.Length), plain(g.Ports.Steam), plain(g.Ports.Bar), plain(g.Ports.Exhaust))
	inner := fmt.Sprintf("(2 bars + %s - %s) / 2 = (2 x %s + %s - %s) / 2", middlePort(g), innerEdges(g),
		plain(g.Ports.Bar), plain(g.Ports.Exhaust), plain(g.Valve.Cavity))
	if g.InsideAdmission {
		outer, inner = inner, outer
	}
	pr.para(fmt.Sprintf("Steam lap S = %s = %s mm.", outer, plain(laps.Steam)))
	pr.para(fmt.Sprintf("Exhaust lap E = %s = %s mm.", inner, plain(laps.Exhaust)))
}

// dimension is a row with the fraction of an inch that the length exactly is, if
// it is one.
func dimension(what string, l units.Length, remarks ...string) []string {
	if f, err := l.NearestFraction(64); err == nil && f.Rest.IsZero() && f.Den > 1 {
		remarks = append([]string{f.String()}, remarks...)
	}
	return row(what, l, strings.Join(remarks, ", "))
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

// plain prints millimetres for a formula, to a micron and without noughts at
// the end.
func plain(l units.Length) string {
	return strings.TrimSuffix(strings.TrimRight(l.Decimal(units.Millimetres, 3), "0"), ".")
}

func degrees(a units.Angle) string { return fmt.Sprintf("%.2f deg", a.Degrees()) }

func writeEvents(pr *printer, g eccentric.Gear, events eccentric.Events) {
	pr.heading("WHAT THE VALVE DOES")
	pr.para("Crank angles are from that end's own dead centre in the direction of rotation. The piston is counted from" +
		" that end, as a share of the stroke and in millimetres; compression is where the exhaust shuts on the way back.")
	late := func(e eccentric.Event) bool { return e.Occurs && e.Crank > 2*math.Pi }
	if late(events.Head.Compression) || late(events.Crank.Compression) {
		pr.para("A compression past 360 deg is none: the exhaust shuts when the piston is already on its way out again.")
	}
	event := func(v eccentric.Event) []string {
		if !v.Occurs {
			return []string{"never", "", ""}
		}
		piston := g.Stroke.Scale(v.Stroke)
		return []string{degrees(v.Crank), fmt.Sprintf("%.2f %%", 100*v.Stroke), piston.Text(units.Millimetres, 2)}
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
		{"steam edge past the port", h.OverTravel, c.OverTravel},
		{"greatest opening to exhaust", h.ExhaustOpening, c.ExhaustOpening},
	} {
		openings = append(openings, []string{o.name, mm(o.head), inch(o.head), mm(o.crank), inch(o.crank)})
	}
	pr.table(openings)
	pr.para("A negative lead is a port still shut at dead centre, a negative edge a port not fully opened.")
	sweep := g.Sweep()
	text := fmt.Sprintf("The ends of the valve sweep from %s to %s mm from the middle of the port face; the ports end"+
		" at %s.",
		plain(sweep.Min), plain(sweep.Max), plain(sweep.Ports))
	if !g.InsideAdmission {
		text += " A relief groove, if there is one, starts beyond the port and a land that seals, and short of the outer" +
			" figure: the valve then runs over its edge and wears no ridge."
	}
	pr.para(text)
	laps := g.Laps()
	if share := laps.Steam.Ratio(g.Travel) * 2; math.Abs(share) < 1 && g.Valve.Offset.IsZero() {
		a, d := units.Angle(math.Asin(share)), fmt.Sprintf("%.2f", g.Advance.Degrees())
		if g.Advance < 0 {
			d = "(" + d + ")"
		}
		pr.para(fmt.Sprintf("With endless rods both ends would be alike: sin(t + d) = S / half travel = %s / %s, the sine"+
			" of %s, for admission at %.2f - %s = %s and cut-off at 180 - %.2f - %s = %s. The slant of the rods makes the"+
			" difference.",
			plain(laps.Steam), plain(g.Travel.Scale(0.5)), degrees(a), a.Degrees(), d, degrees(a-g.Advance),
			a.Degrees(), d, degrees(math.Pi-a-g.Advance)))
	}
	pr.para("Definitions: T. Bevan, The Theory of Machines, chapter 5. The figures are exact geometry, with both rods" +
		" at their true length.")
}

// otherOffset returns where the valve must stand for equal leads, if that is not
// where it stands.
func otherOffset(g eccentric.Gear) (units.Length, bool) {
	equal, err := g.OffsetForEqualLead()
	return equal, err == nil && equal.Sub(g.Valve.Offset).Abs().Cmp(units.Micron(5)) > 0
}

func writeEccentric(pr *printer, g eccentric.Gear, events eccentric.Events) {
	offset := g.EccentricOffset()
	pr.heading("MAKING AND SETTING THE ECCENTRIC")
	pr.table([][]string{
		row("offset of the sheave", offset),
		row("dial reading over one turn", offset.Scale(2)),
	})
	formula, made := "travel / 2", plain(g.Travel)+" / 2"
	if g.LeverRatio != 0 {
		formula, made = formula+" / lever ratio", made+" / "+strconv.FormatFloat(math.Abs(g.LeverRatio), 'g', -1, 64)
	}
	pr.para(fmt.Sprintf("Offset = %s = %s = %s mm; a dial on the turning sheave shows twice its offset.",
		formula, made, plain(offset)))
	lead, way := g.EccentricLead(), "ahead of"
	if lead < 0 {
		lead, way = -lead, "behind"
	}
	pr.para(fmt.Sprintf("The high point of the sheave stands %s %s the crank in the direction of rotation; the angle of"+
		" advance d is %s.",
		degrees(lead), way, degrees(g.Advance)))
	h, c := events.Head.Lead, events.Crank.Lead
	mean := events.MeanLead()
	text := fmt.Sprintf("Mean lead = half travel x sin d - S = %s x sin %.2f - %s = %s mm",
		plain(g.Travel.Scale(0.5)), g.Advance.Degrees(), plain(g.Laps().Steam), plain(mean))
	switch slant, off := !g.EccentricRod.Infinite(), !g.Valve.Offset.IsZero(); {
	case slant && off:
		text += fmt.Sprintf("; the slant of the eccentric rod and the valve off centre make it %s at the head end and %s"+
			" at the crank end",
			plain(h), plain(c))
	case slant:
		text += fmt.Sprintf("; the slant of the eccentric rod makes it %s at the head end and %s at the crank end",
			plain(h), plain(c))
	case off:
		text += fmt.Sprintf("; the valve off centre makes it %s at the head end and %s at the crank end", plain(h), plain(c))
	}
	pr.para(text + ".")
	if h.Sign() > 0 && c.Sign() > 0 {
		pr.para(fmt.Sprintf("To prove it: at the head-end dead centre the head port shows %s (%s), at the other the crank"+
			" port %s (%s).",
			h.Text(units.Millimetres, 2), h.Text(units.Thousandths, 1),
			c.Text(units.Millimetres, 2), c.Text(units.Thousandths, 1)))
	}
	if equal, ok := otherOffset(g); ok {
		way := "towards"
		if equal.Sign() < 0 {
			way = "away from"
		}
		where := fmt.Sprintf("%s (%s) %s the crank",
			equal.Abs().Text(units.Millimetres, 2), equal.Abs().Text(units.Thousandths, 1), way)
		if equal.IsZero() {
			where = "on its centre"
		}
		pr.para(fmt.Sprintf("With the valve set %s, both ends have that mean lead.", where))
	}
}
