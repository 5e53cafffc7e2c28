package diagram

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Valve draws the valve over the middle of its ports, in section along the travel, with
// every length that the events hang on: ports, bars, valve, cavity, laps, travel, and how
// far it is set off centre. It fails only where [eccentric.Gear.Validate] does. See the
// Example.
func Valve(g eccentric.Gear, o Options) (Picture, error) {
	if err := g.Validate(); err != nil {
		return Picture{}, err
	}
	half, err := runs(g)
	if err != nil {
		return Picture{}, err
	}
	const (
		foot  = 7.0 // of the legend
		deep  = 13.0
		tall  = 17.0
		chest = 22.0
	)
	notes := notesOn(g, o)
	face := rim + foot + rowUp*float64(len(notes)) + 16 + deep
	rows := 5.8 * 3
	offset := !g.Valve.Offset.IsZero()
	if offset {
		rows += 5.8
	}
	own := sharesSpan(g) // the laps of the cavity need rows of their own
	if own {
		rows += 2 * 5.8
	}
	high := face + chest + 2.5 + rows + 16 + 11 + rim
	s := &section{d: sheet.New(wide, high), gear: g, scale: (wide/2 - rim - 6) / half.MM(),
		middle: sheet.Point{X: wide / 2, Y: face},
		low:    rim, high: wide - rim, deep: deep, tall: tall, chest: chest}
	s.open = eccentric.Openings{Head: openingOf(g, eccentric.HeadEnd), Crank: openingOf(g, eccentric.CrankEnd)}
	d := s.d
	top := high - rim - large
	words(d, sheet.Point{X: rim, Y: top}, large, sheet.Start, "Valve over the middle of its ports")
	words(d, sheet.Point{X: wide - rim, Y: top}, small, sheet.End, o.note())
	words(d, sheet.Point{X: rim + 6.5, Y: top - 5}, small, sheet.Start, "head end")
	words(d, sheet.Point{X: wide - rim - 6.5, Y: top - 5}, small, sheet.End, "crank end")
	pointer(d, sheet.Point{X: rim, Y: top - 3.8}, -5)
	pointer(d, sheet.Point{X: wide - rim, Y: top - 3.8}, 5)
	s.draw()

	ports, v := places(g), valveAt(g, s.at)
	below := row{face - deep - 3, true, rim, wide - rim}
	below.dimensions(d, s.portLabels(o))
	for _, p := range ports {
		for _, x := range []units.Length{p.from, p.to} {
			d.Line(sheet.Measure, sheet.Point{X: s.x(x), Y: face - deep}, sheet.Point{X: s.x(x), Y: below.line - 1})
		}
	}

	// rows of dimensions above: what a row has, and the lines that run on to those above it
	l := &ladder{d: d}
	line := face + chest + 2.5
	laps := []float64{s.x(ports[0].from), s.x(ports[0].to), s.x(ports[2].from), s.x(ports[2].to)}
	edges := []float64{s.x(v.outerHead), s.x(v.innerHead), s.x(v.innerCrank), s.x(v.outerCrank)}
	centre := s.x(g.Valve.Offset)
	outward := slices.Concat(laps, edges)
	passing := append([]float64{s.middle.X, centre}, outward...)
	l.dimension(line, edges[1], edges[2], "cavity "+o.length(g.Valve.Cavity), passing)
	line += 5.8
	l.dimension(line, edges[0], edges[3], "valve "+o.length(g.Valve.Length), passing)
	line += 5.8
	if offset {
		l.dimension(line, min(s.middle.X, centre), max(s.middle.X, centre), "set off "+o.length(g.Valve.Offset.Abs()), passing)
		line += 5.8
	}
	// the middle of the valve goes half the travel each way
	reach := s.scale * g.Travel.MM() / 2
	l.dimension(line, centre-reach, centre+reach, "travel "+o.length(g.Travel), outward)
	l.upright(sheet.Centre, s.middle.X, face-deep-1.5, line)
	if offset {
		l.upright(sheet.Centre, centre, face+tall+1, line)
	}
	labels := s.lapLabels(o)
	if own {
		var kept []label
		for _, one := range labels {
			if !one.inner {
				kept = append(kept, one)
				continue
			}
			line += 5.8
			l.dimension(line, one.from, one.to, strings.Join(one.lines, " "), outward)
		}
		labels = kept
	}
	line += 6
	row{line, false, rim, wide - rim}.dimensions(d, labels)
	for _, x := range laps {
		l.upright(sheet.Measure, x, face+0.4, line+0.8)
	}
	for _, x := range edges {
		l.upright(sheet.Measure, x, face+tall, line+0.8)
	}
	for i, note := range notes {
		words(d, sheet.Point{X: rim, Y: rim + foot - 0.5 + rowUp*float64(len(notes)-1-i)}, small, sheet.Start, note)
	}
	legend(d, wide-rim, rim+1)
	if err := d.Err(); err != nil {
		return Picture{}, err
	}
	return Picture{Name: "valve-over-its-ports", Title: "The valve over the middle of its ports, in section along its travel",
		Alt: s.told(o), Caption: "Lengths along the travel are to one scale, heights are not. Head end to the left.", drawing: d}, nil
}

// pointer draws an arrow that starts there and runs so far to the right.
func pointer(d *sheet.Drawing, from sheet.Point, far float64) {
	tip := from
	tail := from.At(-far, 0)
	d.Line(sheet.Measure, tail, tip)
	arrow(d, tip, far, 0)
}

// openingOf returns what the port of an end is open to while the valve stands over the
// middle of the ports.
func openingOf(g eccentric.Gear, end eccentric.End) eccentric.Opening {
	laps := g.LapsAt(end)
	steam, _ := g.Ports.At(end)
	open := func(lap units.Length) units.Length {
		switch {
		case lap.Sign() >= 0:
			return units.Length{}
		case lap.Neg().Cmp(steam) > 0:
			return steam
		}
		return lap.Neg()
	}
	return eccentric.Opening{Steam: open(laps.Steam), Exhaust: open(laps.Exhaust)}
}

// side names the end towards which the valve is moved by a length.
func side(l units.Length) string {
	if l.Sign() < 0 {
		return "head end"
	}
	return "crank"
}

func (s *section) portLabels(o Options) []label {
	ports := places(s.gear)
	head, headBar := s.gear.Ports.At(eccentric.HeadEnd)
	crank, crankBar := s.gear.Ports.At(eccentric.CrankEnd)
	cylinder, middle := "steam port", "exhaust port"
	if s.gear.InsideAdmission {
		cylinder, middle = "port", "steam port"
	}
	of := func(name string, size, from, to units.Length) label {
		return label{from: s.x(from), to: s.x(to), lines: []string{name, o.length(size)}}
	}
	return []label{
		of(cylinder, head, ports[0].from, ports[0].to),
		of("bar", headBar, ports[0].to, ports[1].from),
		of(middle, s.gear.Ports.Exhaust, ports[1].from, ports[1].to),
		of("bar", crankBar, ports[1].to, ports[2].from),
		of(cylinder, crank, ports[2].from, ports[2].to),
	}
}

// sharesSpan reports whether an edge of the cavity stands past the outer edge of its port,
// or an outer edge of the valve past the inner one: then the two laps of that port lie
// over one another.
func sharesSpan(g eccentric.Gear) bool {
	ports, v := places(g), valveAt(g, units.Length{})
	return v.innerHead.Cmp(ports[0].from) < 0 || v.outerHead.Cmp(ports[0].to) > 0 ||
		v.innerCrank.Cmp(ports[2].to) > 0 || v.outerCrank.Cmp(ports[2].from) < 0
}

// lapLabels returns the four laps in order from the head end.
func (s *section) lapLabels(o Options) []label {
	ports, v := places(s.gear), valveAt(s.gear, units.Length{})
	outer, inner := "steam lap", "exhaust lap"
	if s.gear.InsideAdmission {
		outer, inner = inner, outer
	}
	var labels []label
	of := func(name string, size, edge, port units.Length) {
		within := name == inner
		switch { // a lap below zero is open
		case size.Sign() < 0 && name == "exhaust lap":
			name, size = "clearance", size.Neg()
		case size.Sign() < 0:
			name, size = "open by", size.Neg()
		}
		from, to := s.x(edge), s.x(port)
		labels = append(labels, label{min(from, to), max(from, to), []string{name, o.length(size)}, false, within})
	}
	head, crank := s.gear.LapsAt(eccentric.HeadEnd), s.gear.LapsAt(eccentric.CrankEnd)
	laps := [4]units.Length{head.Steam, head.Exhaust, crank.Exhaust, crank.Steam}
	if s.gear.InsideAdmission {
		laps = [4]units.Length{head.Exhaust, head.Steam, crank.Steam, crank.Exhaust}
	}
	of(outer, laps[0], v.outerHead, ports[0].from)
	of(inner, laps[1], v.innerHead, ports[0].to)
	of(inner, laps[2], v.innerCrank, ports[2].from)
	of(outer, laps[3], v.outerCrank, ports[2].to)
	slices.SortStableFunc(labels, func(a, b label) int {
		switch {
		case a.middle() < b.middle():
			return -1
		case a.middle() > b.middle():
			return 1
		}
		return 0
	})
	return labels
}

// dimension draws one dimension with its text above it, near its middle and where it can
// be clear of the lines that run on upwards.
func (l *ladder) dimension(line, from, to float64, text string, passing []float64) {
	row{line: line}.arrows(l.d, label{from: from, to: to})
	at := clearOf(passing, (from+to)/2, sheet.TextWidth(text, small), from, to)
	l.text(sheet.Point{X: at, Y: line + 1.2}, text)
}

// clearOf returns the middle, as near as may be to where it is wanted, of a text of that
// width that no line runs through; where there is none, where it is wanted.
func clearOf(lines []float64, want, width, low, high float64) float64 {
	const beside = 0.7
	reach := width/2 + beside
	free := func(x float64) bool {
		if x-width/2 < low || x+width/2 > high {
			return false
		}
		return !slices.ContainsFunc(lines, func(l float64) bool { return math.Abs(l-x) < reach-1e-9 })
	}
	best, found := want, free(want)
	for _, l := range lines {
		for _, x := range []float64{l - reach, l + reach} {
			if free(x) && (!found || math.Abs(x-want) < math.Abs(best-want)) {
				best, found = x, true
			}
		}
	}
	return best
}

// notesOn says what of the gear has no dimension on the picture.
func notesOn(g eccentric.Gear, o Options) []string {
	var notes []string
	if !g.Valve.CavityOffset.IsZero() {
		notes = append(notes, "middle of the cavity "+o.said(g.Valve.CavityOffset.Abs())+" towards the "+side(g.Valve.CavityOffset))
	}
	if !g.Valve.LostMotion.IsZero() {
		notes = append(notes, "lost motion of "+o.said(g.Valve.LostMotion)+" takes as much off the travel")
	}
	if g.InsideAdmission {
		notes = append(notes, "admits past its inner edges; of a piston valve this is one side")
	}
	return notes
}

// told says what there is to see.
func (s *section) told(o Options) string {
	g := s.gear
	var b strings.Builder
	head, headBar := g.Ports.At(eccentric.HeadEnd)
	crank, crankBar := g.Ports.At(eccentric.CrankEnd)
	fmt.Fprintf(&b, "Section of the valve, %s long with a cavity of %s, over the port face. From the head end: port %s, bar %s, middle port %s, bar %s, port %s.",
		o.said(g.Valve.Length), o.said(g.Valve.Cavity),
		o.said(head), o.said(headBar), o.said(g.Ports.Exhaust), o.said(crankBar), o.said(crank))
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		laps := g.LapsAt(end)
		fmt.Fprintf(&b, " At the %s end the steam lap is %s and the exhaust lap %s.", end, o.said(laps.Steam), o.said(laps.Exhaust))
	}
	fmt.Fprintf(&b, " The travel is %s", o.said(g.Travel))
	if !g.Valve.Offset.IsZero() {
		fmt.Fprintf(&b, ", its middle %s towards the %s", o.said(g.Valve.Offset.Abs()), side(g.Valve.Offset))
	}
	b.WriteString(".")
	return b.String()
}
