package pages

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// A tappedPicture is a tapped hole in section, drilled on the left and tapped on the right.
type tappedPicture struct {
	key, where string
	thread     thread.Thread
	drill      gauge.Size
	blind      *thread.BlindHole // nil: it goes through
	through    *units.Length     // so much metal; nil: as much as there is
	metal      *units.Length     // below a blind hole, from its mouth; nil: not known
	left       units.Length      // of the metal, below the tip of the drill
	inch       bool
}

// Places on the sheet of a tapped hole: the block, and its two holes.
const (
	blockLeft, blockRight  = 40.0, 76.0
	drilledAt, tappedAt    = 49.0, 67.0
	besideLeft             = 36.0 // the dimension line
	besideRight            = 79.0
	tappedFace, toolsAbove = 13.0, 6.0 // below the top of the sheet; above the face
	holeWidest             = 12.0
	holeDeepest            = 58.0
	leftBelow              = 6.0 // for the line on what is left below a blind hole
)

// picture draws it, its thread as ISO 6410-1 has it in a section: the edge of the hole
// wide, the outside of the thread narrow, the end of the full thread wide across.
func (p tappedPicture) picture() (book.Figure, error) {
	depth, tip := p.thread.Major().Scale(2), units.Length{}
	switch {
	case p.blind != nil:
		var err error
		if tip, err = p.blind.Tip(p.drill.Diameter, 0); err != nil {
			return book.Figure{}, err
		}
		depth = p.blind.Depth
	case p.through != nil:
		depth = *p.through
	}
	deepest := max(depth.MM(), tip.MM())
	lowest := deepest
	if p.blind != nil && p.metal != nil {
		lowest = p.metal.MM()
		deepest = max(deepest, lowest)
	} else if p.blind != nil {
		lowest += p.drill.Diameter.MM() / 2
		deepest = lowest
	}
	by := min(holeWidest/p.thread.Major().MM(), holeDeepest/deepest)
	high := math.Max(22, deepest*by) + tappedFace + 5
	if p.metal != nil {
		high += leftBelow
	}
	b := newBoard(high, p.inch)
	face := high - tappedFace
	v := scaledView{sheet.Point{Y: face}, by}
	t := tappedSketch{tappedPicture: p, board: b, v: v, face: face, bottom: face - lowest*by,
		deep: face - depth.MM()*by, tip: face - tip.MM()*by}
	t.block()
	t.drilled()
	t.tapped()
	if p.blind != nil {
		t.blindMarks(tip)
	} else {
		t.throughMarks()
	}
	key, title := p.key, "Tapped hole for "+p.thread.String()
	if p.where != "" {
		title = p.where + ": tapped hole for " + p.thread.String()
	}
	caption := "Drilled on the left, tapped on the right."
	if p.blind != nil {
		caption += " Depths are from the face; the drill's point is one of 118°."
	}
	return b.figure(key, title, p.alt(tip), caption)
}

// A tappedSketch is one while it is drawn.
type tappedSketch struct {
	tappedPicture
	*board
	v                       scaledView
	face, bottom, deep, tip float64 // heights on the sheet
}

// block is the metal, its holes left open.
func (t tappedSketch) block() {
	r, core := t.thread.Major().MM()/2*t.v.by, t.drill.Diameter.MM()/2*t.v.by
	region := [][]sheet.Vertex{nil}
	add := func(x, y float64) { // a hole that comes through ends with the metal
		region[0] = append(region[0], sheet.Vertex{Point: sheet.Point{X: x, Y: max(y, t.bottom)}})
	}
	add(blockLeft, t.face)
	for _, x := range []float64{drilledAt, tappedAt} {
		add(x-core, t.face)
		add(x-core, t.deep)
		if t.blind != nil {
			add(x, t.tip)
		}
		add(x+core, t.deep)
		add(x+core, t.face)
	}
	add(blockRight, t.face)
	add(blockRight, t.bottom)
	add(blockLeft, t.bottom)
	t.Hatch(sheet.Hatching, sheet.Hatch{Region: region, Angle: 45 * units.Degree, Spacing: 1.6})
	open := core // half the width in which the hole comes through
	if t.blind != nil {
		open = min(core, core*(t.bottom-t.tip)/(t.deep-t.tip))
	}
	for _, side := range []struct {
		half float64
		line func(from, to float64)
	}{
		{core, func(from, to float64) {
			t.Line(sheet.Edge, sheet.Point{X: from, Y: t.face}, sheet.Point{X: to, Y: t.face})
		}}, {max(0, open), t.under},
	} {
		if side.half == 0 {
			side.line(blockLeft, blockRight)
			continue
		}
		side.line(blockLeft, drilledAt-side.half)
		side.line(drilledAt+side.half, tappedAt-side.half)
		side.line(tappedAt+side.half, blockRight)
	}
	for _, x := range []float64{drilledAt, tappedAt} {
		t.Line(sheet.Centre, sheet.Point{X: x, Y: t.face + toolsAbove + 1}, sheet.Point{X: x, Y: t.bottom - 2})
		for _, side := range []float64{-1, 1} {
			t.Line(sheet.Edge, sheet.Point{X: x + side*core, Y: t.face}, sheet.Point{X: x + side*core, Y: t.deep})
		}
		if t.blind != nil {
			t.Line(sheet.Edge, sheet.Point{X: x - core, Y: t.deep}, sheet.Point{X: x, Y: t.tip})
			t.Line(sheet.Edge, sheet.Point{X: x, Y: t.tip}, sheet.Point{X: x + core, Y: t.deep})
		}
		tool := core
		if x == tappedAt {
			tool = r
		}
		for _, side := range []float64{-1, 1} {
			foot := sheet.Point{X: x + side*tool, Y: t.face + 0.6}
			t.Line(sheet.Hidden, foot, foot.At(0, toolsAbove-0.6))
		}
	}
}

// under is the lower side of the metal, where it is known, or where the drawing breaks off.
func (t tappedSketch) under(from, to float64) {
	if t.metal != nil || t.through != nil {
		t.Line(sheet.Edge, sheet.Point{X: from, Y: t.bottom}, sheet.Point{X: to, Y: t.bottom})
		return
	}
	t.Line(sheet.Measure, sheet.Point{X: from, Y: t.bottom}, sheet.Point{X: to, Y: t.bottom})
}

// drilled names the drill.
func (t tappedSketch) drilled() {
	text := "drill " + t.drill.Name
	if t.drill.Name == "" {
		text = "hole " + t.size(t.drill.Diameter)
	}
	t.name(sheet.Point{X: (drilledAt+tappedAt)/2 - 2, Y: t.face + toolsAbove + 2.5}, sheet.End, text)
}

// tapped is the thread, and names it.
func (t tappedSketch) tapped() {
	t.name(sheet.Point{X: (drilledAt+tappedAt)/2 + 2, Y: t.face + toolsAbove + 2.5}, sheet.Start, "tap "+t.thread.String())
	r, core := t.thread.Major().MM()/2*t.v.by, t.drill.Diameter.MM()/2*t.v.by
	full, end := t.deep, t.deep
	if t.blind != nil {
		full = t.face - t.blind.Thread.MM()*t.v.by
		end = full - t.blind.Lead.MM()*t.v.by
		if t.blind.Thread.IsZero() {
			return
		}
		t.Line(sheet.Edge, sheet.Point{X: tappedAt - r, Y: full}, sheet.Point{X: tappedAt + r, Y: full})
		t.Line(sheet.Hidden, sheet.Point{X: tappedAt - core, Y: end}, sheet.Point{X: tappedAt + core, Y: end})
	}
	for _, side := range []float64{-1, 1} {
		t.Line(sheet.Measure, sheet.Point{X: tappedAt + side*r, Y: t.face}, sheet.Point{X: tappedAt + side*r, Y: full})
		if t.blind != nil {
			t.Line(sheet.Measure, sheet.Point{X: tappedAt + side*r, Y: full}, sheet.Point{X: tappedAt + side*core, Y: end})
		}
	}
}

func (t tappedSketch) blindMarks(tip units.Length) {
	left := []mark{
		{from: sheet.Point{X: drilledAt - t.drill.Diameter.MM()/2*t.v.by, Y: t.deep}, text: "hole " + t.size(t.blind.Depth)},
		{from: sheet.Point{X: drilledAt, Y: t.tip}, text: "drill's tip " + t.size(tip)},
	}
	if sheet.TextWidth(left[1].text, lettersHigh) > besideLeft-4 {
		left[1].text = "tip " + t.size(tip)
	}
	if t.metal != nil {
		at := sheet.Point{X: blockLeft, Y: t.face - t.metal.MM()*t.v.by}
		left = append(left, mark{from: at, text: "metal " + t.size(*t.metal)})
		said := "left to the port or bore below: " + t.size(t.left)
		if t.left.Sign() < 0 {
			said = "IT COMES THROUGH, by " + t.size(t.left.Neg())
		}
		t.word(sheet.Point{X: (blockLeft + blockRight) / 2, Y: 2}, sheet.Middle, said)
	}
	low := 1.0
	if t.metal != nil {
		low += leftBelow
	}
	t.climb(ladder{line: besideLeft, text: besideLeft - 3, datum: t.face, low: low, high: t.face + 4}, left)
	h := t.blind
	if h.Thread.IsZero() {
		t.climb(ladder{line: besideRight, text: besideRight + 3, datum: t.face, plain: true, low: low, high: t.face + 4},
			[]mark{{from: sheet.Point{X: tappedAt, Y: (t.face + t.deep) / 2}, text: "no full thread"}})
		return
	}
	r := t.thread.Major().MM() / 2 * t.v.by
	at := func(l units.Length) float64 { return t.face - l.MM()*t.v.by }
	end := h.Thread.Add(h.Lead)
	t.climb(ladder{line: besideRight, text: besideRight + 3, datum: t.face, low: low, high: t.face + 4}, []mark{
		{from: sheet.Point{X: tappedAt + r, Y: at(h.Thread)}, text: "full thread " + t.size(h.Thread)},
		{from: sheet.Point{X: tappedAt, Y: at(h.Thread.Add(h.Lead.Scale(0.5)))}, text: "tap's lead " + t.size(h.Lead), name: true},
		{from: sheet.Point{X: tappedAt, Y: at(end)}, text: "tap's end " + t.size(end)},
		{from: sheet.Point{X: tappedAt, Y: at(end.Add(h.ChipRoom.Scale(0.5)))}, text: "for chips " + t.size(h.ChipRoom), name: true},
	})
}

func (t tappedSketch) throughMarks() {
	if t.through == nil {
		return
	}
	t.climb(ladder{line: besideLeft, text: besideLeft - 3, datum: t.face, low: 1, high: t.face + 4},
		[]mark{{from: sheet.Point{X: blockLeft, Y: t.bottom}, text: "through " + t.size(*t.through)}})
}

// alt says what there is to see.
func (p tappedPicture) alt(tip units.Length) string {
	size := func(l units.Length) string { return sizeText(l, p.inch) }
	hole := "hole of " + size(p.drill.Diameter)
	if p.drill.Name != "" {
		hole = "drill " + p.drill.Name
	}
	switch {
	case p.blind == nil && p.through != nil:
		return fmt.Sprintf("Section of a hole through %s of metal: %s, tapped %v.", size(*p.through), hole, p.thread)
	case p.blind == nil:
		return fmt.Sprintf("Section of a hole right through: %s, tapped %v.", hole, p.thread)
	}
	text := fmt.Sprintf("Section of a blind hole: %s, %s deep and %s to the tip of the drill; tapped %v by a %v tap with %s of full thread.",
		hole, size(p.blind.Depth), size(tip), p.thread, p.blind.Tap, size(p.blind.Thread))
	if p.metal != nil {
		left := size(p.left) + " is left to the port or bore below"
		if p.left.Sign() < 0 {
			left = "It comes through to the port or bore below by " + size(p.left.Neg())
		}
		text += " " + left + "."
	}
	return text
}
