package template

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// mostRadii is how many radii of a loop are noted; more would cover the part.
const mostRadii = 4

// A rounding is the corners of a loop that have one radius.
type rounding struct {
	radius units.Length
	arcs   []gasket.Edge
}

// roundings returns the corners of a loop that stand out from it, by radius, to a
// hundredth of a millimetre; none for a circle.
func roundings(l gasket.Loop) []rounding {
	if _, _, ok := l.Circle(); ok {
		return nil
	}
	edges, err := l.Edges()
	if err != nil { // Validate has taken the outline
		return nil
	}
	points, twice := sheet.Corners(vertices(l)), 0.0
	for i, a := range points {
		b := points[(i+1)%len(points)]
		twice += a.X*b.Y - a.Y*b.X
	}
	var all []rounding
	for _, e := range edges {
		if e.Straight() || e.Sweep.Radians()*twice <= 0 {
			continue
		}
		at := -1
		for i, r := range all {
			if math.Abs(r.radius.Sub(e.Radius).MM()) < 0.01 {
				at = i
			}
		}
		if at < 0 {
			all, at = append(all, rounding{radius: e.Radius}), len(all)
		}
		all[at].arcs = append(all[at].arcs, e)
	}
	return all
}

// radii notes the radius of the corners of a loop at the one of them where the note
// stands clear of most.
func (p *plan) radii(l gasket.Loop) {
	all := roundings(l)
	for _, r := range all[:min(mostRadii, len(all))] {
		note := "R" + p.unit.size(r.radius)
		if len(r.arcs) > 1 {
			note = fmt.Sprintf("%d × %s", len(r.arcs), note)
		}
		var best sheet.Leader
		room := math.Inf(-1)
		for _, arc := range r.arcs {
			centre, from, to := place(arc.Centre), place(arc.From), place(arc.To)
			middle := math.Atan2(from.Y-centre.Y, from.X-centre.X) + arc.Sweep.Radians()/2
			most := min(40, math.Abs(arc.Sweep.Degrees())/2)
			leader, clear := p.bestLeader(centre, arc.Radius.MM(), middle*180/math.Pi, most, note)
			if clear > room && from != to {
				best, room = leader, clear
			}
		}
		if !math.IsInf(room, -1) {
			p.note(best)
		}
	}
}
