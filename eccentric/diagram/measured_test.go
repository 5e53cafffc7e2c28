package diagram

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// within is how true a drawn length of the gear is, in millimetres of the gear and of the
// sheet.
const within = 0.01

// A drawnSection is one valve on its ports as the reader of SVG finds it, by X from left to
// right.
type drawnSection struct {
	face   float64
	valve  [4]float64 // outer head, inner head, inner crank, outer crank
	walls  [6]float64 // of the ports
	scale  float64
	middle float64 // of the face
}

// sections finds the valves of a picture, from the top and then from the left.
func sections(t testing.TB, p *check.Picture, g eccentric.Gear) []drawnSection {
	t.Helper()
	var all []drawnSection
	edges := p.On("EDGES")
	for _, s := range edges {
		if !s.Closed || len(s.Spots) != 8 {
			continue
		}
		face := s.Spots[0].Y
		one := drawnSection{face: face}
		var at []float64
		for _, spot := range s.Spots {
			if math.Abs(spot.Y-face) < 1e-3 {
				at = append(at, spot.X)
			}
		}
		if len(at) != 4 {
			t.Fatalf("%d corners of a valve on its face", len(at))
		}
		slices.Sort(at)
		copy(one.valve[:], at)
		one.scale = (at[3] - at[0]) / g.Valve.Length.MM()
		all = append(all, one)
	}
	// a wall of a port goes down from the face
	for i := range all {
		var walls []float64
		left := all[i].valve[0] < 60
		for _, s := range edges {
			for k := 1; k < len(s.Spots); k++ {
				a, b := s.Spots[k-1], s.Spots[k]
				down := math.Abs(a.X-b.X) < 1e-3 && math.Max(a.Y, b.Y) < all[i].face+1e-3 && math.Abs(math.Max(a.Y, b.Y)-all[i].face) < 1e-3
				if down && (len(all) < 4 || (a.X < 60) == left) {
					walls = append(walls, a.X)
				}
			}
		}
		slices.Sort(walls)
		walls = slices.CompactFunc(walls, func(a, b float64) bool { return math.Abs(b-a) < 1e-3 })
		if len(walls) != 6 {
			t.Fatalf("%d walls of ports at %+v: %v", len(walls), all[i], walls)
		}
		copy(all[i].walls[:], walls)
		all[i].middle = (walls[2] + walls[3]) / 2
	}
	slices.SortFunc(all, func(a, b drawnSection) int {
		if math.Abs(a.face-b.face) > 1 {
			return cmp.Compare(b.face, a.face)
		}
		return cmp.Compare(a.valve[0], b.valve[0])
	})
	return all
}

// measure compares a drawn length with one of the gear.
func (s drawnSection) measure(t testing.TB, what string, drawn float64, want units.Length) {
	t.Helper()
	if off := math.Abs(drawn - s.scale*want.MM()); off > within*min(1, s.scale) {
		t.Errorf("%s is drawn %.4f mm long, want %.4f (%v at %.3f to 1)", what, drawn, s.scale*want.MM(), want, s.scale)
	}
}

// measurePorts compares ports and valve, whatever it stands over.
func (s drawnSection) measurePorts(t testing.TB, g eccentric.Gear) {
	t.Helper()
	head, headBar := g.Ports.At(eccentric.HeadEnd)
	crank, crankBar := g.Ports.At(eccentric.CrankEnd)
	for i, w := range []struct {
		what string
		want units.Length
	}{{"head port", head}, {"head bar", headBar}, {"middle port", g.Ports.Exhaust}, {"crank bar", crankBar}, {"crank port", crank}} {
		s.measure(t, w.what, s.walls[i+1]-s.walls[i], w.want)
	}
	s.measure(t, "cavity", s.valve[2]-s.valve[1], g.Valve.Cavity)
	s.measure(t, "cavity's offset", (s.valve[1]+s.valve[2]-s.valve[0]-s.valve[3])/2, g.Valve.CavityOffset)
}

// at returns where the middle of the valve is drawn, from the middle of the face.
func (s drawnSection) at() float64 { return (s.valve[0]+s.valve[3])/2 - s.middle }

// The picture of valve and ports, measured: ports, bars, cavity, laps at both ends, travel,
// and how far it is set off.
func TestValveMeasured(t *testing.T) {
	travels := 0
	engines(t, 200, func(t testing.TB, g eccentric.Gear, o Options) {
		picture, err := Valve(g, o)
		if err != nil {
			t.Fatal(err)
		}
		p := read(t, picture)
		all := sections(t, p, g)
		if len(all) != 1 {
			t.Fatalf("%d valves", len(all))
		}
		s := all[0]
		s.measurePorts(t, g)
		if math.Abs(s.at()) > 1e-3 {
			t.Errorf("the valve is drawn %.4f off the middle of its ports", s.at())
		}
		head, crank := g.LapsAt(eccentric.HeadEnd), g.LapsAt(eccentric.CrankEnd)
		outer := [2]units.Length{head.Steam, crank.Steam}
		inner := [2]units.Length{head.Exhaust, crank.Exhaust}
		if g.InsideAdmission {
			outer, inner = inner, outer
		}
		s.measure(t, "outer lap, head", s.walls[0]-s.valve[0], outer[0])
		s.measure(t, "outer lap, crank", s.valve[3]-s.walls[5], outer[1])
		s.measure(t, "inner lap, head", s.valve[1]-s.walls[1], inner[0])
		s.measure(t, "inner lap, crank", s.walls[4]-s.valve[2], inner[1])
		// the travel is the topmost dimension line but those of the laps; where it is long
		// enough for its arrows to be inside, its ends are those of the travel
		var travel *check.Stroke
		for _, line := range p.On("DIMENSIONS") {
			a, b := line.Spots[0], line.Spots[len(line.Spots)-1]
			middle := (a.X+b.X)/2 - s.middle
			long := math.Abs(math.Abs(b.X-a.X)-s.scale*g.Travel.MM()) < within
			if a.Y == b.Y && long && math.Abs(middle-s.scale*g.Valve.Offset.MM()) < within {
				travel = &line
			}
		}
		if s.scale*g.Travel.MM() > 3.3 {
			travels++
			if travel == nil {
				t.Errorf("no dimension line of the travel, %v about %v", g.Travel, g.Valve.Offset)
			}
		}
		for _, text := range []string{"travel " + o.length(g.Travel), "valve " + o.length(g.Valve.Length), "cavity " + o.length(g.Valve.Cavity)} {
			if !p.Says(text) {
				t.Errorf("%q is not written", text)
			}
		}
	})
	if travels < 20 {
		t.Errorf("the travel of %d engines was measured", travels)
	}
}

// The valve at every moment, measured: where it stands, how far each port is open, edges in
// line at each event, and which way the arrow points.
func TestPositionsMeasured(t *testing.T) {
	inLine, opened := 0, 0
	engines(t, 120, func(t testing.TB, g eccentric.Gear, o Options) {
		pictures, err := Positions(g, o)
		if err != nil {
			t.Fatal(err)
		}
		e, err := g.Events()
		if err != nil {
			t.Fatal(err)
		}
		for page, end := range []eccentric.EndEvents{1: e.Head, 2: e.Crank} {
			p := read(t, pictures[page])
			all := sections(t, p, g)
			if len(all) != 4 {
				t.Fatalf("%d valves", len(all))
			}
			var turn units.Angle
			if page == 2 {
				turn = math.Pi
			}
			events := []eccentric.Event{end.Admission, end.CutOff, end.Release, end.Compression}
			arrows := arrowheads(p)
			for i, s := range all {
				s.measurePorts(t, g)
				crank := turn
				switch {
				case page == 0 && i < 2:
					furthest(t, g, s, i)
					continue
				case page == 0 && i == 3:
					crank = math.Pi
				case page > 0 && !events[i].Occurs:
					continue
				case page > 0:
					crank += events[i].Crank
				}
				want, err := g.Displacement(crank)
				if err != nil {
					t.Fatal(err)
				}
				s.measure(t, "valve off the middle", s.at(), want)
				opened += s.measureOpenings(t, g, p, o, crank)
				if page > 0 {
					inLine++
					s.measureInLine(t, g, page, i)
					later, _ := g.Displacement(crank + 1e-3)
					way := math.Copysign(1, later.Sub(want).MM())
					found := false
					for _, a := range arrows {
						found = found || a.Y > s.face && a.Y < s.face+20 && math.Abs(a.X-s.middle) < 28 && a.way == way
					}
					if !found {
						t.Errorf("no arrow shows that the valve moves by %v", later.Sub(want))
					}
				}
			}
		}
	})
	if !testing.Short() && (inLine < 600 || opened < 600) {
		t.Errorf("only %d events and %d openings were measured", inLine, opened)
	}
}

// furthest checks a valve that is drawn at an end of its travel.
func furthest(t testing.TB, g eccentric.Gear, s drawnSection, i int) {
	t.Helper()
	reach := g.Travel.Sub(g.Valve.LostMotion).Scale(0.5)
	if i == 0 {
		reach = reach.Neg()
	}
	s.measure(t, "furthest", s.at(), g.Valve.Offset.Add(reach))
}

type arrowhead struct{ X, Y, way float64 }

// arrowheads returns the large ones, and whether they point to the right.
func arrowheads(p *check.Picture) []arrowhead {
	var all []arrowhead
	for _, f := range p.Fills {
		if f.Layer == "EDGES" {
			all = append(all, arrowhead{f.Spots[0].X, f.Spots[0].Y, math.Copysign(1, f.Spots[0].X-f.Spots[1].X)})
		}
	}
	return all
}

// measureOpenings compares how far each cylinder port is uncovered with what the gear says,
// wants the figure written, and returns how many are open.
func (s drawnSection) measureOpenings(t testing.TB, g eccentric.Gear, p *check.Picture, o Options, crank units.Angle) int {
	t.Helper()
	open, err := g.OpeningsAt(crank)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for i, end := range []eccentric.Opening{open.Head, open.Crank} {
		from, to := s.walls[0], s.walls[1]
		outer, inner := max(0, min(s.valve[0], to)-from), max(0, to-max(s.valve[1], from))
		if i == 1 {
			from, to = s.walls[4], s.walls[5]
			outer, inner = max(0, to-max(s.valve[3], from)), max(0, min(s.valve[2], to)-from)
		}
		if g.InsideAdmission {
			outer, inner = inner, outer
		}
		s.measure(t, "opening to steam", outer, end.Steam)
		s.measure(t, "opening to exhaust", inner, end.Exhaust)
		// the two lines of its dimension hang from the face that far apart
		if larger := max(outer, inner); larger > 0.01 && min(outer, inner) < 1e-3 {
			var hang []float64
			for _, line := range p.On("DIMENSIONS") {
				a, b := line.Spots[0], line.Spots[len(line.Spots)-1]
				if a.X == b.X && math.Abs(a.Y-s.face+0.4) < 1e-3 && a.X > from-1e-3 && a.X < to+1e-3 {
					hang = append(hang, a.X)
				}
			}
			if len(hang) != 2 || math.Abs(math.Abs(hang[0]-hang[1])-larger) > 1e-3 {
				t.Errorf("an opening of %.4f mm is dimensioned at %v", larger, hang)
			}
		}
		for _, l := range []units.Length{end.Steam, end.Exhaust} {
			if l.Cmp(units.Micron(1)) > 0 {
				n++
				size := o.length(l)
				if !p.Says("steam "+size) && !p.Says("exhaust "+size) && !p.Says("lead "+size) && !p.Says(size) {
					t.Errorf("opening of %s is not written", size)
				}
			}
		}
	}
	return n
}

// measureInLine wants the edge of the valve that makes an event in line with that of the
// port.
func (s drawnSection) measureInLine(t testing.TB, g eccentric.Gear, page, event int) {
	t.Helper()
	outer := (event < 2) != g.InsideAdmission
	edge, wall := s.valve[0], s.walls[0]
	switch {
	case page == 1 && !outer:
		edge, wall = s.valve[1], s.walls[1]
	case page == 2 && outer:
		edge, wall = s.valve[3], s.walls[5]
	case page == 2:
		edge, wall = s.valve[2], s.walls[4]
	}
	if math.Abs(edge-wall) > within*min(1, s.scale) {
		t.Errorf("event %d of end %d: the edges are %.4f apart", event, page, edge-wall)
	}
}
