package gasket

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Web is the material left between two edges of an outline.
type Web struct {
	From, To     string // what it lies between: "hole 3", "opening 1", "the outside"
	Width        units.Length
	AtFrom, AtTo Point // where it is narrowest
}

// Webs returns the material left between each hole or opening and the outside,
// the nearest opening and the nearest hole, the narrowest first. An outline that
// Valid refuses is an error.
func (o Outline) Webs() ([]Web, error) {
	s, err := o.shape()
	if err != nil {
		return nil, err
	}
	var webs []Web
	add := func(from, to string, p, q vec, width float64) {
		webs = append(webs, Web{From: from, To: to, Width: lengthOf(width), AtFrom: p.point(), AtTo: q.point()})
	}
	// between openings, and from them to the outside
	for i := 1; i < len(s.loops); i++ {
		nearest, width := -1, math.Inf(1)
		var p, q vec
		for j := range s.loops {
			if j == i {
				continue
			}
			a, b := closestLoops(s.loops[i], s.loops[j])
			w := a.sub(b).abs()
			switch {
			case j == 0:
				add(s.names[i], s.names[0], a, b, w)
			case w < width:
				nearest, width, p, q = j, w, a, b
			}
		}
		// Each two openings once, unless their nearest are others.
		if nearest > 0 && !slices.ContainsFunc(webs, func(w Web) bool { return w.From == s.names[nearest] && w.To == s.names[i] }) {
			add(s.names[i], s.names[nearest], p, q, width)
		}
	}
	// from holes to the outside and the nearest opening
	for i, h := range s.holes {
		best, width := -1, math.Inf(1)
		var at vec
		for j, l := range s.loops {
			p := nearestOn(l, h.at)
			w := p.sub(h.at).abs() - h.r
			if j == 0 {
				add(o.holeName(i), s.names[0], h.at.add(unit(p.sub(h.at)).scale(h.r)), p, w)
			} else if w < width {
				best, width, at = j, w, p
			}
		}
		if best > 0 {
			add(o.holeName(i), s.names[best], h.at.add(unit(at.sub(h.at)).scale(h.r)), at, width)
		}
	}
	for _, pair := range nearestHoles(s.holes) {
		a, b := s.holes[pair[0]], s.holes[pair[1]]
		d := unit(b.at.sub(a.at))
		add(o.holeName(pair[0]), o.holeName(pair[1]), a.at.add(d.scale(a.r)), b.at.sub(d.scale(b.r)), b.at.sub(a.at).abs()-a.r-b.r)
	}
	slices.SortStableFunc(webs, func(a, b Web) int { return a.Width.Cmp(b.Width) })
	return webs, nil
}

func unit(v vec) vec { return v.scale(1 / v.abs()) }

func nearestOn(l []curve, p vec) vec {
	best, distance := vec{}, math.Inf(1)
	for _, c := range l {
		if q := c.nearest(p); q.sub(p).abs() < distance {
			best, distance = q, q.sub(p).abs()
		}
	}
	return best
}

// closestLoops returns the points of two loops that lie nearest to each other.
func closestLoops(a, b []curve) (p, q vec) {
	best := math.Inf(1)
	type boxed struct{ low, high vec }
	boxes := make([]boxed, len(b))
	for j, d := range b {
		boxes[j].low, boxes[j].high = d.box()
	}
	for _, c := range a {
		low, high := c.box()
		for j, d := range b {
			gap := vec{max(boxes[j].low.x-high.x, low.x-boxes[j].high.x, 0), max(boxes[j].low.y-high.y, low.y-boxes[j].high.y, 0)}
			if gap.abs() >= best {
				continue
			}
			if x, y := closest(c, d); x.sub(y).abs() < best {
				best, p, q = x.sub(y).abs(), x, y
			}
		}
	}
	return p, q
}

// nearestHoles returns for each hole the pair with the hole whose edge is
// nearest, each pair once, the lower index first.
func nearestHoles(holes []disc) [][2]int {
	order := make([]int, len(holes))
	largest := 0.0
	for i, h := range holes {
		order[i], largest = i, max(largest, h.r)
	}
	slices.SortFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(holes[i].at.x, holes[j].at.x), cmp.Compare(i, j))
	})
	seen := map[[2]int]bool{}
	var pairs [][2]int
	for k, i := range order {
		best, width := -1, math.Inf(1)
		look := func(j int) bool { // whether to go on
			if math.Abs(holes[j].at.x-holes[i].at.x)-holes[i].r-largest > width {
				return false
			}
			if w := holes[j].at.sub(holes[i].at).abs() - holes[i].r - holes[j].r; w < width || w == width && j < best {
				best, width = j, w
			}
			return true
		}
		for n := k + 1; n < len(order) && look(order[n]); n++ {
		}
		for n := k - 1; n >= 0 && look(order[n]); n-- {
		}
		if pair := [2]int{min(i, best), max(i, best)}; best >= 0 && !seen[pair] {
			seen[pair] = true
			pairs = append(pairs, pair)
		}
	}
	slices.SortFunc(pairs, func(p, q [2]int) int { return cmp.Or(cmp.Compare(p[0], q[0]), cmp.Compare(p[1], q[1])) })
	return pairs
}

// Limits of a gasket that can be cut, beside which Check measures.
var (
	ruleWeb  = source.Ref{Kind: source.FromMemory, Title: "rule of thumb for cut gaskets", Note: "at least the sheet's thickness and 1.5 mm, 1/16 in; no published figure was found"}
	ruleHole = source.Ref{Kind: source.Published, Title: "Gasket maker's catalogue, design tips", Locator: "page C-48", Note: "of die-cut gaskets; punched by hand, smaller holes go"}
)

// Check returns what is worth saying about cutting the outline from sheet of the
// given thickness, the narrowest webs first: webs below 1.5 mm or the sheet's
// thickness, and holes below 3/32 in, those that are alike in one finding. Both are rules of thumb. A thickness that
// is not above zero, and an outline that Valid refuses, are errors.
func (o Outline) Check(thickness units.Length) (finding.List, error) {
	if thickness.Sign() <= 0 {
		return nil, outOfRange("thickness of the sheet", thickness.String(), "above zero")
	}
	webs, err := o.Webs()
	if err != nil {
		return nil, err
	}
	var fs finding.List
	least := units.MM(1.5)
	if thickness.Cmp(least) > 0 {
		least = thickness
	}
	// Webs that differ in nothing but the hole that they are at are one finding.
	type web struct{ width, to string }
	var narrow []web
	from := map[web][]string{}
	for _, w := range webs {
		if w.Width.Cmp(least) < 0 {
			alike := web{w.Width.Text(units.Millimetres, 2), w.To}
			if from[alike] == nil {
				narrow = append(narrow, alike)
			}
			from[alike] = append(from[alike], w.From)
		}
	}
	for _, w := range narrow {
		fs = append(fs, finding.Finding{
			Severity: finding.Caution,
			Text:     fmt.Sprintf("Only %s is left between %s and %s; it tears when it is cut or pulled down.", w.width, eachOf(from[w]), w.to),
			Remedies: []string{fmt.Sprintf("Leave %s: move the hole, make it smaller, or cut an open notch there.", least.Text(units.Millimetres, 2))},
			Refs:     source.Of(ruleWeb),
		})
	}
	var small []units.Length
	named := map[units.Length][]string{}
	for i, h := range o.Holes {
		if h.Diameter.Cmp(units.InchFraction(3, 32)) < 0 {
			if named[h.Diameter] == nil {
				small = append(small, h.Diameter)
			}
			named[h.Diameter] = append(named[h.Diameter], o.holeName(i))
		}
	}
	for _, d := range small {
		is := " is "
		if len(named[d]) > 1 {
			is = " are each "
		}
		fs = append(fs, finding.Finding{
			Severity: finding.Note,
			Text:     fmt.Sprintf("%s%s%s; below 3/32 in (2.38 mm) a hole is hard to punch clean.", capital(list(named[d])), is, d.Text(units.Millimetres, 2)),
			Remedies: []string{"Punch it on end grain with a sharp punch, or pierce it through the part."},
			Refs:     source.Of(ruleHole),
		})
	}
	return fs, nil
}

// orOf names one of several things.
func eachOf(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return "each of " + list(names)
}

// list joins names with commas and an "and".
func list(names []string) string {
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
