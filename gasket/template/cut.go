package template

import (
	"io"
	"strings"

	"github.com/valvechest/valvechest/internal/sheet"
)

// The layers of a file for a machine that cuts, in the order in which it should cut
// them: what lies inside first, so that the part stays held until it is finished.
var (
	cutHoles    = sheet.Layer{Name: "HOLES", Width: 0.1, Colour: 1}
	cutOpenings = sheet.Layer{Name: "OPENINGS", Width: 0.1, Colour: 3}
	cutOutside  = sheet.Layer{Name: "OUTSIDE", Width: 0.1, Colour: 5}
)

// aroundCut is left round the part in a file for a machine, so that no line lies on
// the edge of the sheet.
const aroundCut = 1.0 // mm

// cutOnly draws the edges of the part and nothing else, at a corner of a sheet that is
// just large enough.
func (t *Template) cutOnly(atCorner bool) (*sheet.Drawing, error) {
	o := t.part.Outline
	if len(o.Outside) == 0 {
		return nil, fail.Missing("outside of the face", "a marking with one")
	}
	box := sheet.BoundsOf(vertices(o.Outside))
	var by sheet.Point
	if atCorner {
		by = sheet.Point{X: aroundCut - box.Min.X, Y: aroundCut - box.Min.Y}
	}
	size := extent(box)
	d := sheet.New(size.X+2*aroundCut, size.Y+2*aroundCut)
	for _, h := range o.Holes {
		d.Circle(cutHoles, place(h.At).At(by.X, by.Y), h.Diameter.MM()/2)
	}
	for _, c := range o.Cutouts {
		cutLoop(d, cutOpenings, vertices(c), by)
	}
	cutLoop(d, cutOutside, vertices(o.Outside), by)
	return d, d.Err()
}

// cutLoop draws a closed line moved by some way, a circle as one.
func cutLoop(d *sheet.Drawing, layer sheet.Layer, v []sheet.Vertex, by sheet.Point) {
	for i := range v {
		v[i].Point = v[i].At(by.X, by.Y)
	}
	if len(v) == 2 && v[0].Bulge == v[1].Bulge && (v[0].Bulge == 1 || v[0].Bulge == -1) {
		box := sheet.BoundsOf(v)
		middle := sheet.Point{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}
		d.Circle(layer, middle, (box.Max.X-box.Min.X)/2)
		return
	}
	d.Polyline(layer, true, v...)
}

// WriteCutSVG writes the edges of the part and nothing else as SVG at true size, for a
// machine that cuts what it is given: no bars, text, hatching, centre lines or
// correction. The groups HOLES, OPENINGS and OUTSIDE are in the order of cutting. The
// sheet is the part with 1 mm all round. A machine reads no warning: those of the part
// are in the title of the file alone, for a person who looks. See the example.
func (t *Template) WriteCutSVG(w io.Writer) error {
	d, err := t.cutOnly(true)
	if err != nil {
		return err
	}
	title := t.part.Outline.Name
	if len(t.part.Warnings) > 0 {
		title += ". DO NOT CUT BY THIS: " + strings.Join(t.part.Warnings, " ")
	}
	return sheet.WriteBareSVG(w, title, d)
}

// WriteCutDXF writes the same as DXF release 12 in millimetres, in the axes of the
// outline, on layers of those names. Check the size of the part once it is read in, as
// the release does not record its unit. See the example of [Template.WriteCutSVG].
func (t *Template) WriteCutDXF(w io.Writer) error {
	d, err := t.cutOnly(false)
	if err != nil {
		return err
	}
	return sheet.WriteDXF(w, d)
}
