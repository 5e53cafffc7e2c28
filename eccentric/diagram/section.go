package diagram

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// A section is the valve over its ports, cut along the travel. Lengths along the travel
// are to scale, heights are not.
type section struct {
	d      *sheet.Drawing
	gear   eccentric.Gear
	scale  float64     // millimetres of the sheet to one of the gear
	middle sheet.Point // of the port face: the middle of the middle port
	low    float64     // X from which the face is drawn
	high   float64     // and up to which
	deep   float64     // of the metal below the face
	tall   float64     // of the valve
	chest  float64     // height of what is above the face

	at   units.Length       // where the middle of the valve stands, positive towards the crank
	open eccentric.Openings // what each cylinder port is open to there
}

// runs returns how far from the middle of the face the valve gets, or the ports do, which
// all sections of one gear make room for.
func runs(g eccentric.Gear) (units.Length, error) {
	furthest := g.Sweep().Ports
	if crank := g.Sweep().CrankPort; crank.Cmp(furthest) > 0 {
		furthest = crank
	}
	for _, quarter := range []units.Angle{math.Pi / 2, -math.Pi / 2} {
		x, err := g.Displacement(quarter - g.Advance)
		if err != nil {
			return x, err
		}
		if end := x.Abs().Add(g.Valve.Length.Scale(0.5)); end.Cmp(furthest) > 0 {
			furthest = end
		}
	}
	return furthest, nil
}

// x returns where a place along the travel is on the sheet.
func (s *section) x(l units.Length) float64 { return s.middle.X + s.scale*l.MM() }

// A portPlace is where a port begins and ends, from the middle of the face.
type portPlace struct{ from, to units.Length }

// places returns the cylinder port of the head end, the middle port and that of the
// crank end.
func places(g eccentric.Gear) [3]portPlace {
	half := g.Ports.Exhaust.Scale(0.5)
	steam, bar := g.Ports.At(eccentric.HeadEnd)
	inner := half.Add(bar).Neg()
	head := portPlace{inner.Sub(steam), inner}
	steam, bar = g.Ports.At(eccentric.CrankEnd)
	inner = half.Add(bar)
	return [3]portPlace{head, {half.Neg(), half}, {inner, inner.Add(steam)}}
}

// A valvePlace is where the edges of the valve are, in order from the head end.
type valvePlace struct{ outerHead, innerHead, innerCrank, outerCrank units.Length }

// valveAt returns the edges of the valve whose middle stands there.
func valveAt(g eccentric.Gear, at units.Length) valvePlace {
	half, cavity := g.Valve.Length.Scale(0.5), g.Valve.Cavity.Scale(0.5)
	middle := at.Add(g.Valve.CavityOffset)
	return valvePlace{at.Sub(half), middle.Sub(cavity), middle.Add(cavity), at.Add(half)}
}

func box(x0, y0, x1, y1 float64) sheet.Box {
	return sheet.Box{Min: sheet.Point{X: x0, Y: y0}, Max: sheet.Point{X: x1, Y: y1}}
}

// draw draws metal, valve, and what fills the ports. Gaps are left free of it.
func (s *section) draw(gaps ...sheet.Box) {
	ports, v, face := places(s.gear), valveAt(s.gear, s.at), s.middle.Y
	bottom, top := face-s.deep, face+s.chest
	roof := face + 0.62*s.tall // of the cavity
	outerHead, innerHead := s.x(v.outerHead), s.x(v.innerHead)
	innerCrank, outerCrank := s.x(v.innerCrank), s.x(v.outerCrank)

	// the metal of the port face, between the ports
	edge := s.low
	for i := range len(ports) + 1 {
		to := s.high
		if i < len(ports) {
			to = s.x(ports[i].from)
		}
		points := []sheet.Point{{X: edge, Y: face}, {X: to, Y: face}, {X: to, Y: bottom}, {X: edge, Y: bottom}}
		if i > 0 {
			s.d.Line(sheet.Edge, points[0], points[3])
		}
		if i < len(ports) {
			s.d.Line(sheet.Edge, points[1], points[2])
		}
		s.d.Line(sheet.Edge, points[0], points[1])
		s.hatch(45*units.Degree, gaps, points...)
		if i < len(ports) {
			edge = s.x(ports[i].to)
		}
	}
	// the valve
	outline := []sheet.Point{
		{X: outerHead, Y: face}, {X: outerHead, Y: face + s.tall},
		{X: outerCrank, Y: face + s.tall}, {X: outerCrank, Y: face},
		{X: innerCrank, Y: face}, {X: innerCrank, Y: roof}, {X: innerHead, Y: roof}, {X: innerHead, Y: face},
	}
	s.d.Loop(sheet.Edge, outline...)
	s.hatch(135*units.Degree, gaps, outline...)

	// what is outside the valve, in its cavity, and in the ports
	outside, inside := sheet.Steam, sheet.Exhaust
	if s.gear.InsideAdmission {
		outside, inside = inside, outside
	}
	around := []sheet.Box{box(s.low, face, outerHead, face+s.tall), box(outerCrank, face, s.high, face+s.tall),
		box(s.low, face+s.tall, s.high, top)}
	s.fill(outside, around, gaps)
	s.fill(inside, []sheet.Box{box(innerHead, face, innerCrank, roof)}, gaps)
	s.fill(inside, []sheet.Box{s.channel(ports[1])}, gaps)
	for i, o := range []eccentric.Opening{s.open.Head, s.open.Crank} {
		channel := []sheet.Box{s.channel(ports[2*i])}
		if o.Steam.Sign() > 0 {
			s.fill(sheet.Steam, channel, gaps)
		}
		if o.Exhaust.Sign() > 0 {
			s.fill(sheet.Exhaust, channel, gaps)
		}
	}
}

func (s *section) channel(p portPlace) sheet.Box {
	return box(s.x(p.from), s.middle.Y-s.deep, s.x(p.to), s.middle.Y)
}

func (s *section) hatch(angle units.Angle, gaps []sheet.Box, points ...sheet.Point) {
	vertices := make([]sheet.Vertex, len(points))
	for i, p := range points {
		vertices[i].Point = p
	}
	s.d.Hatch(sheet.Hatching, sheet.Hatch{Region: [][]sheet.Vertex{vertices}, Angle: angle, Spacing: 1.2, Gaps: gaps})
}

// fill draws rows of dots or strokes in boxes, clear of their edges and of the gaps. The
// rows keep step with the sheet, and every second is shifted.
func (s *section) fill(l sheet.Layer, boxes, gaps []sheet.Box) { fillSpace(s.d, l, boxes, gaps) }

func fillSpace(d *sheet.Drawing, l sheet.Layer, boxes, gaps []sheet.Box) {
	const clear = 0.45
	up, pitch, mark := 1.5, 2.0, 0.5
	if l.Name == sheet.Exhaust.Name {
		up, pitch, mark = 1.3, 4.0, 3.0
	}
	for _, b := range boxes {
		for k := math.Ceil((b.Min.Y + clear) / up); k*up <= b.Max.Y-clear; k++ {
			y, shift := k*up, pitch/2*math.Mod(k, 2)
			for _, span := range spans(b.Min.X+clear, b.Max.X-clear, y, gaps) {
				// begin with a whole mark, and end with one
				from := math.Ceil((span[0]-shift)/pitch)*pitch + shift
				if l.Name == sheet.Exhaust.Name { // strokes may be short
					from = span[0]
				}
				to := span[1]
				if l.Name == sheet.Steam.Name {
					to = from + math.Floor((span[1]-mark-from)/pitch)*pitch + mark
				}
				if to-from >= mark-1e-9 || l.Name == sheet.Exhaust.Name && to-from > 0.4 {
					d.Line(l, sheet.Point{X: from, Y: y}, sheet.Point{X: to, Y: y})
				}
			}
		}
	}
}

// spans returns what the gaps leave of a row; one that ends before it begins is none.
func spans(from, to, y float64, gaps []sheet.Box) [][2]float64 {
	left := [][2]float64{{from, to}}
	for _, g := range gaps {
		if y < g.Min.Y || y > g.Max.Y {
			continue
		}
		var next [][2]float64
		for _, s := range left {
			next = append(next, [2]float64{s[0], min(s[1], g.Min.X)}, [2]float64{max(s[0], g.Max.X), s[1]})
		}
		left = next
	}
	return left
}

// legend draws what hatching, dots and strokes mean, in one line that ends at the right.
func legend(d *sheet.Drawing, right, y float64) {
	names := []struct {
		layer sheet.Layer
		text  string
	}{{sheet.Exhaust, "exhaust"}, {sheet.Steam, "live steam"}}
	for _, n := range names {
		w := sheet.TextWidth(n.text, small)
		words(d, sheet.Point{X: right - w, Y: y}, small, sheet.Start, n.text)
		b := box(right-w-11, y-0.7, right-w-1.5, y+3.2)
		d.Loop(sheet.Measure, b.Min, sheet.Point{X: b.Max.X, Y: b.Min.Y}, b.Max, sheet.Point{X: b.Min.X, Y: b.Max.Y})
		fillSpace(d, n.layer, []sheet.Box{b}, nil)
		right = b.Min.X - 4
	}
}
