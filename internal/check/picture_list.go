package check

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// List returns everything on a picture in lines of text, to be kept: places in hundredths
// of a millimetre, and of lines of many points and of what fills a space the count, the
// length, the middle and how far it spreads about it.
func (p *Picture) List() string {
	l := lister{}
	l.say("%s: %s x %s", p.Title, place(p.Width), place(p.Height))
	for _, w := range p.Texts {
		head := fmt.Sprintf("%s %s high", w.Layer, place(w.Capital))
		if w.Turn != 0 {
			head += " turned " + place(w.Turn)
		}
		l.put(head, fmt.Sprintf("%s %q", spots(w.Box[0]), w.Value))
	}
	l.strokes("", p.Strokes)
	l.strokes(" filled", p.Fills)
	for i, rounds := range [...][]Round{p.Circles, p.Arcs} {
		for _, c := range rounds {
			text := fmt.Sprintf("%s %s", spots(c.Centre), place(c.Radius))
			if i > 0 {
				text += fmt.Sprintf(" from %s to %s turns %s", spots(c.From), spots(c.To), place(c.Sweep*180/math.Pi))
			}
			l.put([...]string{"circles ", "arcs "}[i]+c.Layer, text)
		}
	}
	l.flush()
	return l.text.String()
}

// Told one by one are up to so many strokes of a layer, each of up to so many points.
const (
	listedStrokes = 80
	listedSpots   = 8
)

// fillings are the layers of what fills a space, of which no stroke counts by itself.
var fillings = []string{"HATCH", "STEAM", "EXHAUST"}

type lister struct {
	text  strings.Builder
	head  string   // of the line that is being filled
	parts []string // and what it has
}

func (l *lister) say(format string, values ...any) {
	l.flush()
	fmt.Fprintf(&l.text, format+"\n", values...)
}

// put adds a thing to the line of its kind, up to four.
func (l *lister) put(head, text string) {
	if head != l.head || len(l.parts) == 4 {
		l.flush()
	}
	l.head, l.parts = head, append(l.parts, text)
}

func (l *lister) flush() {
	if len(l.parts) > 0 {
		fmt.Fprintf(&l.text, "  %s: %s\n", l.head, strings.Join(l.parts, "; "))
	}
	l.parts = nil
}

// strokes tells the strokes of each layer, in the order in which they are drawn.
func (l *lister) strokes(what string, all []Stroke) {
	var layers []string
	for _, s := range all {
		if !slices.Contains(layers, s.Layer) {
			layers = append(layers, s.Layer)
		}
	}
	for _, layer := range layers {
		var on []Stroke
		for _, s := range all {
			if s.Layer == layer {
				on = append(on, s)
			}
		}
		first := on[0]
		head := fmt.Sprintf("%s%s %s wide", layer, what, place(first.Width))
		if first.Dashed {
			head += " broken"
		}
		if len(on) > listedStrokes || slices.Contains(fillings, layer) {
			l.say("  %s: %d, %s", head, len(on), mass(on))
			continue
		}
		for _, s := range on {
			switch {
			case len(s.Spots) > listedSpots:
				l.say("  %s: %d points%s from %s to %s, %s", head, len(s.Spots), closed(s), spots(s.Spots[0]),
					spots(s.Spots[len(s.Spots)-1]), mass([]Stroke{s}))
			default:
				l.put(head, spots(s.Spots...)+closed(s))
			}
		}
	}
	l.flush()
}

func closed(s Stroke) string {
	if s.Closed {
		return " closed"
	}
	return ""
}

// mass tells of strokes their length, their middle, and their root mean square distance
// from it across and up.
func mass(all []Stroke) string {
	var length, x, y, xx, yy float64
	for _, s := range all {
		n := len(s.Spots) - 1
		if s.Closed {
			n++
		}
		for i := range n {
			a, b := s.Spots[i], s.Spots[(i+1)%len(s.Spots)]
			part := math.Hypot(b.X-a.X, b.Y-a.Y)
			length += part
			x, y = x+part*(a.X+b.X)/2, y+part*(a.Y+b.Y)/2
			xx, yy = xx+part*(a.X*a.X+a.X*b.X+b.X*b.X)/3, yy+part*(a.Y*a.Y+a.Y*b.Y+b.Y*b.Y)/3
		}
	}
	x, y = x/length, y/length
	wide, high := math.Sqrt(max(0, xx/length-x*x)), math.Sqrt(max(0, yy/length-y*y))
	return fmt.Sprintf("%s long about %s spread %s", tenth(length), spots(Spot{x, y}), spots(Spot{wide, high}))
}

func spots(all ...Spot) string {
	var texts []string
	for _, s := range all {
		texts = append(texts, place(s.X)+","+place(s.Y))
	}
	return strings.Join(texts, " ")
}

// place writes a length to a hundredth of a millimetre.
func place(v float64) string { return rounded(v, 100) }

// tenth writes a sum of lengths.
func tenth(v float64) string { return rounded(v, 10) }

// rounded writes a number to a part of one, not to the nearest but a little aside: the sizes
// of a drawing have few places and may lie in the middle between two, where the last digit
// of what was computed would decide, and that differs from machine to machine.
func rounded(v, parts float64) string {
	const aside = 0.0371
	return strconv.FormatFloat(math.Floor(v*parts+0.5+aside)/parts+0, 'f', -1, 64)
}
