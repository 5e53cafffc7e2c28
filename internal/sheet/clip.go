package sheet

import (
	"math"
	"slices"
)

// A part is what is left of a shape inside a box.
type part struct {
	form any
	from float64 // how far along the whole it begins
}

// cut returns what is left of a shape inside the box: of lines, circles and arcs the
// parts inside, of a polyline the parts of its sides. What is filled, and texts, are
// left whole when they touch the box.
func (b Box) cut(form any) []part {
	switch f := form.(type) {
	case line:
		if from, to, ok := b.clip(f.a, f.b); ok {
			return []part{{line{f.a.toward(f.b, from), f.a.toward(f.b, to)}, from * f.b.sub(f.a).abs()}}
		}
		return nil
	case circle:
		whole := arc{f.centre, f.radius, 0, fullTurn}
		parts := b.cutArc(whole)
		if len(parts) == 1 && parts[0].form == any(whole) {
			return []part{{f, 0}}
		}
		return parts
	case arc:
		return b.cutArc(f)
	case polyline:
		return b.cutPolyline(f)
	}
	return []part{{form, 0}}
}

// cutArc cuts an arc where it meets the edges of the box, and keeps what lies inside.
func (b Box) cutArc(a arc) []part {
	shares := []float64{0, 1}
	meet := func(cosine float64, angles func(float64) [2]float64) {
		if math.Abs(cosine) > 1 {
			return
		}
		for _, angle := range angles(cosine) {
			// the angle as a share of the sweep, from zero to a turn along it
			turn := math.Mod((angle-a.start)*math.Copysign(1, a.sweep), fullTurn)
			if turn < 0 {
				turn += fullTurn
			}
			if share := turn / math.Abs(a.sweep); share < 1 {
				shares = append(shares, share)
			}
		}
	}
	across := func(c float64) [2]float64 { return [2]float64{math.Acos(c), -math.Acos(c)} }
	up := func(c float64) [2]float64 { return [2]float64{math.Asin(c), math.Pi - math.Asin(c)} }
	meet((b.Min.X-a.centre.X)/a.radius, across)
	meet((b.Max.X-a.centre.X)/a.radius, across)
	meet((b.Min.Y-a.centre.Y)/a.radius, up)
	meet((b.Max.Y-a.centre.Y)/a.radius, up)
	slices.Sort(shares)
	var parts []part
	begin, inside := 0.0, false
	end := func(at float64) {
		if inside && at > begin {
			parts = append(parts, part{arc{a.centre, a.radius, a.start + begin*a.sweep, (at - begin) * a.sweep},
				begin * math.Abs(a.sweep) * a.radius})
		}
		inside = false
	}
	for i := 1; i < len(shares); i++ {
		from, to := shares[i-1], shares[i]
		if to-from < 1e-12 {
			continue
		}
		middle := a.at((from + to) / 2)
		switch in := middle == middle.max(b.Min).min(b.Max); {
		case in && !inside:
			begin, inside = from, true
		case !in:
			end(from)
		}
	}
	if inside && begin == 0 {
		return []part{{a, 0}}
	}
	end(1)
	return parts
}

// cutPolyline cuts the sides of a polyline, unless all of it is inside.
func (b Box) cutPolyline(p polyline) []part {
	whole, along := true, 0.0
	var parts []part
	for s := range p.sides() {
		low, high := s.bounds()
		whole = whole && low == low.max(b.Min) && high == high.min(b.Max)
		var form any = line{s.from, s.to}
		length := s.to.sub(s.from).abs()
		if s.curved() {
			a := s.arc()
			form, length = a, a.radius*math.Abs(a.sweep)
		}
		for _, inner := range b.cut(form) {
			parts = append(parts, part{inner.form, along + inner.from})
		}
		along += length
	}
	if whole {
		return []part{{p, 0}}
	}
	return parts
}
