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

// A taperPicture is a hole for a taper pipe thread in section: drilled, and reamed where
// it is, on the left and tapped on the right, its cone at the true taper.
type taperPicture struct {
	thread thread.Thread
	hole   thread.PipeHole
	drill  gauge.Size   // without a name where none makes the hole: the largest hole
	whole  units.Length // that the drill leaves of the thread, from the face
	inch   bool
}

// taperPerMM is what a radius loses in a millimetre of depth: 1 in 16 on the diameter,
// ISO 7-1 and ASME B1.20.1.
const taperPerMM = 1.0 / 32

// Places on its sheet, beside those of a tapped hole.
const (
	underTaper   = 18.0 // for three lines on what is measured at the face
	taperBelow   = 1.25 // of the whole thread that is drawn
	taperDeepest = 40.0
)

// taperedHole is the picture of one of the holes for a taper pipe, and of the drill there is.
func taperedHole(t thread.Thread, c thread.PipeChoice, inch bool) (book.Figure, error) {
	p := taperPicture{thread: t, hole: c.PipeHole, drill: gauge.Size{Diameter: c.Max}, whole: c.Length, inch: inch}
	if c.Choice.Suits() {
		p.drill, p.whole = c.Choice.Drill, c.Choice.Whole
	}
	return p.picture()
}

func (p taperPicture) picture() (book.Figure, error) {
	deepest := taperBelow * max(p.hole.Length.MM(), p.whole.MM())
	by := min(holeWidest/p.thread.Major().MM(), taperDeepest/deepest)
	high := math.Max(22, deepest*by) + tappedFace + underTaper
	b := newBoard(high, p.inch)
	face := high - tappedFace
	bottom := face - deepest*by
	mouth, core := p.hole.Mouth.MM()/2*by, p.drill.Diameter.MM()/2*by
	meets := face - p.whole.MM()*by // where the cone is down to the drill
	if p.drill.Name == "" {
		meets = face - (mouth-core)/taperPerMM
	}
	type wall struct{ at, mouth float64 }
	walls := []wall{{drilledAt, core}, {tappedAt, mouth}}
	if p.hole.Kind == thread.ReamedTaper {
		walls[0].mouth = mouth
	}
	region := []sheet.Vertex{{Point: sheet.Point{X: blockLeft, Y: face}}}
	for _, w := range walls {
		side := func(sign float64) []sheet.Point {
			inner := w.at + sign*core
			return []sheet.Point{{X: w.at + sign*w.mouth, Y: face}, {X: inner, Y: meets}, {X: inner, Y: bottom}}
		}
		left, right := side(-1), side(1)
		for _, edge := range [][]sheet.Point{left, right} {
			b.Line(sheet.Edge, edge[0], edge[1])
			b.Line(sheet.Edge, edge[1], edge[2])
		}
		for _, at := range []sheet.Point{left[0], left[1], left[2], right[2], right[1], right[0]} {
			region = append(region, sheet.Vertex{Point: at})
		}
		b.Line(sheet.Centre, sheet.Point{X: w.at, Y: face + 3}, sheet.Point{X: w.at, Y: bottom - 2})
	}
	for _, at := range []sheet.Point{{X: blockRight, Y: face}, {X: blockRight, Y: bottom}, {X: blockLeft, Y: bottom}} {
		region = append(region, sheet.Vertex{Point: at})
	}
	b.Hatch(sheet.Hatching, sheet.Hatch{Region: [][]sheet.Vertex{region}, Angle: 45 * units.Degree, Spacing: 1.6})
	for _, of := range []struct {
		layer       sheet.Layer
		y           float64
		left, right float64 // half the openings
	}{{sheet.Edge, face, walls[0].mouth, walls[1].mouth}, {sheet.Measure, bottom, core, core}} {
		for _, span := range [][2]float64{
			{blockLeft, drilledAt - of.left}, {drilledAt + of.left, tappedAt - of.right}, {tappedAt + of.right, blockRight},
		} {
			b.Line(of.layer, sheet.Point{X: span[0], Y: of.y}, sheet.Point{X: span[1], Y: of.y})
		}
	}
	p.threaded(b, face, by)
	p.told(b, face, meets, by)
	return b.figure("tapered-"+p.hole.Kind.String(), "Hole for "+p.hole.Internal+", "+pipeHoleLabels[p.hole.Kind], p.alt(),
		"Drilled on the left, tapped on the right; the cone is drawn at its true taper. The face is the gauge plane.")
}

// threaded is the outside of the thread, as far as it is wanted whole.
func (p taperPicture) threaded(b *board, face, by float64) {
	major, end := p.thread.Major().MM()/2*by, p.hole.Length.MM()*by
	low := major - end*taperPerMM
	for _, side := range []float64{-1, 1} {
		foot := sheet.Point{X: tappedAt + side*low, Y: face - end}
		b.Line(sheet.Measure, sheet.Point{X: tappedAt + side*major, Y: face}, foot)
	}
	b.Line(sheet.Edge, sheet.Point{X: tappedAt - low, Y: face - end}, sheet.Point{X: tappedAt + low, Y: face - end})
}

// told is what is said on the picture.
func (p taperPicture) told(b *board, face, meets, by float64) {
	middle := (drilledAt + tappedAt) / 2
	b.name(sheet.Point{X: middle - 2, Y: face + toolsAbove + 1}, sheet.End, p.drilled())
	b.name(sheet.Point{X: middle + 2, Y: face + toolsAbove + 1}, sheet.Start, "tap "+p.hole.Internal)
	end := p.hole.Length.MM()
	low := p.thread.Major().MM()/2 - end*taperPerMM
	marks := []mark{
		{from: sheet.Point{X: blockRight, Y: face}, text: "gauge plane", name: true},
		{from: sheet.Point{X: tappedAt + low*by, Y: face - end*by}, text: "thread " + b.size(p.hole.Length)},
	}
	if p.drill.Name != "" {
		marks = append(marks, mark{from: sheet.Point{X: tappedAt + p.drill.Diameter.MM()/2*by, Y: meets},
			text: "drill leaves " + b.size(p.whole)})
	}
	b.climb(ladder{line: besideRight, text: besideRight + 3, datum: face, low: underTaper - 4, high: face + 4}, marks)
	for i, line := range p.atFace() {
		b.word(sheet.Point{X: pictureWide / 2, Y: 11 - float64(i)*rowsApart}, sheet.Middle, line)
	}
}

func (p taperPicture) drilled() string {
	if p.drill.Name == "" {
		return "hole " + sizeText(p.drill.Diameter, p.inch)
	}
	return "drill " + p.drill.Name
}

// atFace are the lines on what is measured at the face.
func (p taperPicture) atFace() []string {
	lines := []string{
		fmt.Sprintf("at the gauge plane: minor %s, outside of the thread %s",
			sizeText(p.hole.Mouth, p.inch), sizeText(p.thread.Major(), p.inch)),
		"taper 1 in 16 on the diameter",
	}
	if p.hole.Kind == thread.ReamedTaper {
		lines = append(lines, "reamed, 1 in 16, to "+sizeText(p.hole.Mouth, p.inch)+" at the face")
	}
	return lines
}

func (p taperPicture) alt() string {
	reamed := ""
	if p.hole.Kind == thread.ReamedTaper {
		reamed = ", reamed 1 in 16 to " + sizeText(p.hole.Mouth, p.inch) + " at the face"
	}
	return fmt.Sprintf("Section of a hole for %s: %s%s, tapped with a taper of 1 in 16; %s of whole thread are wanted from the gauge plane at the face.",
		p.hole.Internal, p.drilled(), reamed, sizeText(p.hole.Length, p.inch))
}
