package diagram

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// A moment is one crank angle at which the gear is drawn.
type moment struct {
	name  string        // "Admission, head end"
	lines []string      // what happens, and when
	crank units.Angle   // from the head end's dead centre
	still bool          // it does not come to it; drawn where it comes nearest
	lead  eccentric.End // whose lead is seen then
	ahead units.Length  // and which that is
}

// Positions draws the valve where it turns round at both ends of its travel and at both
// dead centres, and at the moment of each event, a picture for each end of the cylinder.
// Ports are filled with what they carry and their openings dimensioned; an arrow shows
// which way the valve goes. An event that the gear has not is drawn where the valve comes
// nearest to it, and says so. It fails only where [eccentric.Gear.Validate] does. See the Example.
func Positions(g eccentric.Gear, o Options) ([]Picture, error) {
	return series{
		names: [3]string{"valve-at-its-extremes", "valve-at-the-events-head", "valve-at-the-events-crank"},
		titles: [3]string{
			"The valve at both ends of its travel and at both dead centres",
			"The valve at the events of the head end",
			"The valve at the events of the crank end",
		},
		caption: "Lengths along the travel are to one scale, heights are not. Head end to the left.",
		first: func(e eccentric.Events, extremes [2]moment) []moment {
			return append(extremes[:], deadCentres(e)...)
		},
		draw: func(moments []moment, _ bool) (Picture, error) { return cells(g, o, moments) },
	}.of(g)
}

// A series is three pictures: one of moments of its own, and one of the events of each
// end.
type series struct {
	names, titles [3]string
	caption       string
	first         func(e eccentric.Events, extremes [2]moment) []moment
	draw          func(moments []moment, first bool) (Picture, error)
}

func (s series) of(g eccentric.Gear) ([]Picture, error) {
	e, err := g.Events()
	if err != nil {
		return nil, err
	}
	extremes, err := extremesOf(g)
	if err != nil {
		return nil, err
	}
	var pictures []Picture
	for i, moments := range [...][]moment{
		s.first(e, extremes),
		momentsOf(g, e.Head, eccentric.HeadEnd, extremes),
		momentsOf(g, e.Crank, eccentric.CrankEnd, extremes),
	} {
		p, err := s.draw(moments, i == 0)
		if err != nil {
			return nil, err
		}
		p.Name, p.Title, p.Caption = s.names[i], s.titles[i], s.caption
		pictures = append(pictures, p)
	}
	return pictures, nil
}

func deadCentres(e eccentric.Events) []moment {
	return []moment{
		{name: "Head-end dead centre", lead: eccentric.HeadEnd, ahead: e.Head.Lead},
		{name: "Crank-end dead centre", crank: math.Pi, lead: eccentric.CrankEnd, ahead: e.Crank.Lead},
	}
}

// extremesOf returns where the valve is furthest towards the head end and towards the crank.
func extremesOf(g eccentric.Gear) ([2]moment, error) {
	var m [2]moment
	one, other := math.Pi/2-g.Advance, -math.Pi/2-g.Advance
	x, err := g.Displacement(one)
	if err != nil {
		return m, err
	}
	y, err := g.Displacement(other)
	if err != nil {
		return m, err
	}
	if x.Cmp(y) > 0 {
		one, other = other, one
	}
	for i, t := range []units.Angle{one, other} {
		t = units.Angle(math.Mod(float64(t)+4*math.Pi, 2*math.Pi))
		m[i] = moment{name: [...]string{"Furthest to the head end", "Furthest to the crank"}[i],
			lines: []string{"crank at " + degrees(t)}, crank: t}
	}
	return m, nil
}

// momentsOf returns the events of one end in order.
func momentsOf(g eccentric.Gear, e eccentric.EndEvents, end eccentric.End, extremes [2]moment) []moment {
	from := units.Angle(0)
	opens := 1 // the extreme that is furthest open to steam
	if end == eccentric.CrankEnd {
		from, opens = math.Pi, 0
	}
	if g.InsideAdmission {
		opens = 1 - opens
	}
	var all []moment
	for _, event := range []struct {
		name, does string
		what       eccentric.Event
		steam      bool
		state      eccentric.PortState
	}{
		{"Admission", "opens to steam", e.Admission, true, e.Steam},
		{"Cut-off", "closes to steam", e.CutOff, true, e.Steam},
		{"Release", "opens to exhaust", e.Release, false, e.Exhaust},
		{"Compression", "closes to exhaust", e.Compression, false, e.Exhaust},
	} {
		m := moment{name: fmt.Sprintf("%s, %s end", event.name, end)}
		if event.what.Occurs {
			m.crank = event.what.Crank + from
			m.lines = []string{"port " + event.does, when(event.what.Crank) + ", piston " + percent(event.what.Stroke)}
		} else {
			m.still = true
			near := opens
			if event.state == eccentric.NeverCloses { // nearest to closing at the other extreme
				near = 1 - opens
			}
			if !event.steam {
				near = 1 - near
			}
			m.crank = extremes[near].crank
			to := "exhaust"
			if event.steam {
				to = "steam"
			}
			m.lines = []string{"does not happen: the port", event.state.String() + " to " + to}
		}
		all = append(all, m)
	}
	return all
}

// when says where the crank is, from the dead centre of the end that an event is of.
func when(t units.Angle) string {
	text := degrees(t)
	if before, ok := strings.CutPrefix(text, "-"); ok {
		return before + " before centre"
	}
	return "crank " + text
}

const (
	cellWide = 56.0
	cellHigh = 57.0
)

// cells draws the valve at four moments, two beside two.
func cells(g eccentric.Gear, o Options, moments []moment) (Picture, error) {
	half, err := runs(g)
	if err != nil {
		return Picture{}, err
	}
	rows := float64((len(moments) + 1) / 2)
	high := 2*rim + rows*cellHigh + 6
	d := sheet.New(wide, high)
	var told []string
	for i, m := range moments {
		left := rim + float64(i%2)*(wide-2*rim-cellWide)
		top := high - rim - float64(i/2)*cellHigh
		text, err := cell(d, g, o, m, half, sheet.Point{X: left, Y: top})
		if err != nil {
			return Picture{}, err
		}
		told = append(told, text)
	}
	words(d, sheet.Point{X: rim, Y: rim + 0.7}, small, sheet.Start, o.note())
	legend(d, wide-rim, rim+0.7)
	return Picture{Alt: strings.Join(told, " "), drawing: d}, d.Err()
}

// cell draws the valve at one moment, below and to the right of a corner, and says what
// there is to see.
func cell(
	d *sheet.Drawing, g eccentric.Gear, o Options, m moment, half units.Length, corner sheet.Point,
) (string, error) {
	const (
		deep  = 7.0
		tall  = 9.0
		chest = 11.5
	)
	at, err := g.Displacement(m.crank)
	if err != nil {
		return "", err
	}
	open, err := g.OpeningsAt(m.crank)
	if err != nil {
		return "", err
	}
	open = openings(open)
	moves, err := heading(g, m.crank)
	if err != nil {
		return "", err
	}
	if len(m.lines) < 2 {
		m.lines = append([]string{"valve " + o.said(at.Abs()) + " off the middle"}, m.lines...)
	}
	words(d, corner.At(0, -large), large, sheet.Start, m.name)
	for i, line := range m.lines {
		words(d, corner.At(0, -large-rowUp*float64(i+1)-0.3), small, sheet.Start, line)
	}
	face := corner.Y - large - 2*rowUp - 5.5 - chest
	s := &section{d: d, gear: g, scale: (cellWide/2 - 1.5) / half.MM(),
		middle: sheet.Point{X: corner.X + cellWide/2, Y: face},
		low:    corner.X, high: corner.X + cellWide, deep: deep, tall: tall, chest: chest, at: at, open: open}
	s.draw()
	if moves != 0 && !m.still {
		tip := sheet.Point{X: s.x(at) + 5*moves, Y: face + chest + 2.2}
		d.Line(sheet.Edge, tip.At(-10*moves, 0), tip.At(-moves, 0))
		arrowHead(d, tip, moves, 0)
	}
	ports := places(g)
	labels := []label{
		s.openingLabel(o, "head", open.Head, ports[0], m.lead == eccentric.HeadEnd, m.ahead),
		s.openingLabel(o, "crank", open.Crank, ports[2], m.lead == eccentric.CrankEnd, m.ahead),
	}
	r := row{face - deep - 3, true, corner.X, corner.X + cellWide}
	for _, l := range labels {
		if l.bare {
			continue
		}
		for _, x := range []float64{l.from, l.to} {
			d.Line(sheet.Measure, sheet.Point{X: x, Y: face - 0.4}, sheet.Point{X: x, Y: r.line - 0.8})
		}
	}
	said := [2]string{strings.Join(labels[0].lines[1:], ", "), strings.Join(labels[1].lines[1:], ", ")}
	if _, fits := sideBySide(labels, r.low, r.high); !fits {
		for i, l := range labels {
			if what, size, ok := strings.Cut(l.lines[1], " "); ok && len(l.lines) == 2 {
				labels[i].lines = []string{l.lines[0], what, size}
			}
		}
	}
	r.dimensions(d, labels)
	told := fmt.Sprintf("%s: %s. Valve %s towards the %s;", m.name, strings.Join(m.lines, ", "), o.said(at.Abs()), side(at))
	return told + fmt.Sprintf(" head port %s, crank port %s.", said[0], said[1]), nil
}

// heading returns 1 where the valve moves towards the crank, -1 where away from it, and 0
// where it turns round or stands.
func heading(g eccentric.Gear, t units.Angle) (float64, error) {
	const step = 1e-4
	before, err := g.Displacement(t - step)
	if err != nil {
		return 0, err
	}
	after, err := g.Displacement(t + step)
	if err != nil {
		return 0, err
	}
	// less than a thousandth of what the travel makes in a step is turning round
	if move := after.Sub(before); move.Abs().Cmp(g.Travel.Scale(step/1000)) > 0 {
		return float64(move.Sign()), nil
	}
	return 0, nil
}

// openingLabel returns how far a cylinder port is open, and from where to where.
func (s *section) openingLabel(
	o Options, end string, open eccentric.Opening, p portPlace, lead bool, ahead units.Length,
) label {
	v := valveAt(s.gear, s.at)
	from, to := p.from, p.to
	outer, inner := open.Steam, open.Exhaust
	if s.gear.InsideAdmission {
		outer, inner = inner, outer
	}
	head := end == "head"
	switch {
	case outer.Sign() > 0 && head:
		to = least(v.outerHead, p.to)
	case outer.Sign() > 0:
		from = most(v.outerCrank, p.from)
	case inner.Sign() > 0 && head:
		from = most(v.innerHead, p.from)
	case inner.Sign() > 0:
		to = least(v.innerCrank, p.to)
	}
	l := label{from: s.x(from), to: s.x(to), lines: []string{end + " port"}}
	say := "steam "
	if lead {
		say = "lead "
	}
	switch {
	case open.Steam.Sign() > 0 && open.Exhaust.Sign() > 0:
		l.lines = append(l.lines, say+o.length(open.Steam), "exhaust "+o.length(open.Exhaust))
	case open.Steam.Sign() > 0:
		l.lines = append(l.lines, say+o.length(open.Steam))
	case open.Exhaust.Sign() > 0:
		l.lines = append(l.lines, "exhaust "+o.length(open.Exhaust))
	case lead && ahead.Sign() < 0:
		l.lines, l.bare = append(l.lines, "shut by "+o.length(ahead.Neg())), true
	default:
		l.lines, l.bare = append(l.lines, "shut"), true
	}
	return l
}

// openings takes for shut what is open by less than a thousandth of a millimetre: at the
// moment of an event the edges are in line, but for the rounding of the angle.
func openings(o eccentric.Openings) eccentric.Openings {
	for _, l := range []*units.Length{&o.Head.Steam, &o.Head.Exhaust, &o.Crank.Steam, &o.Crank.Exhaust} {
		if l.Cmp(units.Micron(1)) < 0 {
			*l = units.Length{}
		}
	}
	return o
}

func least(a, b units.Length) units.Length {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}

func most(a, b units.Length) units.Length { return least(a.Neg(), b.Neg()).Neg() }

// arrowHead draws a filled arrowhead for a movement, with its tip at a point.
func arrowHead(d *sheet.Drawing, tip sheet.Point, x, y float64) {
	const long, half = 2.6, 0.9
	r := math.Hypot(x, y)
	x, y = x/r, y/r
	base := tip.At(-x*long, -y*long)
	d.Fill(sheet.Edge, tip, base.At(-y*half, x*half), base.At(y*half, -x*half))
}
