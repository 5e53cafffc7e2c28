package diagram

import (
	"math"
	"strconv"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// A instant is one of the eight events, with the number that it has in every picture of
// curves.
type instant struct {
	eccentric.Event
	number string
	name   string
	end    eccentric.End
	turned float64      // radians of the crank from the head-end dead centre, 0 to a turn
	stands units.Length // of the valve from mid-travel towards the crank
	piston float64      // share of the stroke from the head end
}

// A running gear is what the pictures of its motion are drawn from.
type gearing struct {
	eccentric.Gear
	events   eccentric.Events
	motion   kernel.Motion
	instants []instant
	rule     rule
	options  Options
}

func gearingOf(g eccentric.Gear, o Options) (*gearing, error) {
	events, err := g.Events()
	if err != nil {
		return nil, err
	}
	k := g.Kernel()
	v := &gearing{Gear: g, events: events, motion: k.Motion(), rule: ruleOf(o), options: o}
	for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		of := v.at(end)
		for _, e := range [...]struct {
			name  string
			event eccentric.Event
			edge  units.Length
		}{
			{"admission", of.Admission, v.steamEdge(end)}, {"cut-off", of.CutOff, v.steamEdge(end)},
			{"release", of.Release, v.exhaustEdge(end)}, {"compression", of.Compression, v.exhaustEdge(end)},
		} {
			m := instant{Event: e.event, name: e.name, end: end, number: strconv.Itoa(len(v.instants) + 1)}
			if m.Occurs {
				m.turned, m.piston, m.stands = turned(float64(e.event.Crank)), e.event.Stroke, e.edge
				if end == eccentric.CrankEnd {
					m.turned, m.piston = turned(float64(e.event.Crank)+math.Pi), 1-e.event.Stroke
				}
			}
			v.instants = append(v.instants, m)
		}
	}
	return v, nil
}

// turned returns an angle as one from 0 to a turn.
func turned(t float64) float64 {
	t = math.Mod(t, fullTurn)
	if t < 0 {
		t += fullTurn
	}
	return t
}

func (v *gearing) at(end eccentric.End) eccentric.EndEvents {
	if end == eccentric.CrankEnd {
		return v.events.Crank
	}
	return v.events.Head
}

// out returns the sign that a displacement towards the crank has which opens the port of
// an end to steam.
func (v *gearing) out(end eccentric.End) float64 {
	if v.InsideAdmission == (end == eccentric.HeadEnd) {
		return -1
	}
	return 1
}

// steamEdge returns where the valve stands, towards the crank, as its edge passes the
// port's to steam, and exhaustEdge to exhaust.
func (v *gearing) steamEdge(end eccentric.End) units.Length {
	return v.LapsAt(end).Steam.Scale(v.out(end))
}

func (v *gearing) exhaustEdge(end eccentric.End) units.Length {
	return v.LapsAt(end).Exhaust.Scale(-v.out(end))
}

// valve returns where the valve stands at a crank angle, in millimetres from mid-travel
// towards the crank.
func (v *gearing) valve(t float64) float64 {
	return v.motion.TowardsCrank(v.motion.Valve(t)) * pm
}

// gone returns the share of the stroke that the piston has gone from the head end.
func (v *gearing) gone(t float64) float64 { return v.motion.Piston(t) / v.motion.Stroke }

const pm = 1e-9 // millimetres in the kernel's unit

// reach returns how far the valve goes either way from mid-travel.
func (v *gearing) reach() (low, high float64) {
	half := (v.motion.Reach - v.motion.Late) * pm
	off := v.Valve.Offset.In(units.Millimetres)
	return off - half, off + half
}

// numbers puts the marks of the events where they are.
func (v *gearing) numbers(c chart, at func(instant) sheet.Point) {
	for _, m := range v.instants {
		if m.Occurs {
			c.ring(sheet.Edge, at(m), dot)
		}
	}
	for _, m := range v.instants {
		if m.Occurs {
			c.ringed(at(m), m.number)
		}
	}
}

// table writes the list of the events, the ends side by side, and returns where the
// next line would stand.
func (v *gearing) table(p *plate, y float64, heading string, told func(instant) []string) float64 {
	width, _ := p.Size()
	half := width / 2
	columns := []column{{2, sheet.Start}, {6, sheet.Start}, {44.5, sheet.End}, {half - 1, sheet.End}}
	for i := range 4 {
		columns = append(columns, column{columns[i].x + half - 1, columns[i].anchor})
	}
	p.text(sheet.Point{X: 2, Y: y}, letters, sheet.Start, "head end"+heading)
	p.text(sheet.Point{X: half + 1, Y: y}, letters, sheet.Start, "crank end"+heading)
	y -= listUp
	for i := range 4 {
		var row []string
		for _, m := range [...]instant{v.instants[i], v.instants[i+4]} {
			row = append(row, m.number, m.name)
			if m.Occurs {
				row = append(row, told(m)...)
			} else {
				row = append(row, "", "never")
			}
		}
		y = p.list(y, columns, row)
	}
	return y
}

// tableUp is how high that list is.
const tableUp = 5 * listUp

// degrees writes an angle of the crank.
func inDegrees(a units.Angle) string { return figure(a.In(units.Degree), 2) + "°" }
