package sheet

import (
	"bufio"
	"io"
	"math"
	"strconv"
	"strings"
)

// WriteSVG writes the drawing as SVG 1.1 with one user unit to the millimetre,
// on white paper. The width and height of the whole are in millimetres, all else is in
// plain numbers, which every reader knows. The lines of one layer are a group whose class is the name of
// the layer. Texts name their length, which most readers keep to whatever font
// they have.
func WriteSVG(w io.Writer, title string, d *Drawing) error {
	return writeSVG(w, svg{height: d.height}, title, "", d, true)
}

// WriteBareSVG writes the same without the paper, of which a machine that cuts would
// cut the edge.
func WriteBareSVG(w io.Writer, title string, d *Drawing) error {
	return writeSVG(w, svg{height: d.height}, title, "", d, false)
}

// WriteInlineSVG writes the same as an element of a page of HTML, a picture for who
// sees it, and title and alt for who does not, as large as [Drawing.Trimmed]. Every id
// in it begins with that of the element, which no other of the page may begin with.
func WriteInlineSVG(w io.Writer, id, title, alt string, d *Drawing) error {
	return writeSVG(w, svg{height: d.height, id: id}, title, alt, d, true)
}

func writeSVG(w io.Writer, s svg, title, alt string, d *Drawing, paper bool) error {
	if d.err != nil {
		return d.err
	}
	s.w = bufio.NewWriter(w)
	if s.id == "" {
		s.text(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	}
	s.text(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1"`)
	if s.id != "" {
		s.text(` id="` + s.id + `" role="img" aria-labelledby="` + s.id + `-title ` + s.id + `-alt"`)
	}
	sheet := Box{Max: Point{d.width, d.height}}
	if s.id != "" {
		sheet = d.Trimmed()
	}
	corner := Point{sheet.Min.X * d.scaleX, (d.height - sheet.Max.Y) * d.scaleY}
	size := Point{(sheet.Max.X - sheet.Min.X) * d.scaleX, (sheet.Max.Y - sheet.Min.Y) * d.scaleY}
	s.attr("width", size.X, "mm")
	s.attr("height", size.Y, "mm")
	s.text(` viewBox="`)
	for i, v := range [...]float64{corner.X, corner.Y, size.X, size.Y} {
		if i > 0 {
			s.text(" ")
		}
		s.number(v)
	}
	s.text("\">\n")
	if s.id == "" {
		s.text("<title>" + escapeXML(printable(title)) + "</title>\n")
	} else {
		s.text(`<title id="` + s.id + `-title">` + escapeXML(printable(title)) + "</title>\n")
		s.text(`<desc id="` + s.id + `-alt">` + escapeXML(printable(alt)) + "</desc>\n")
	}
	if paper {
		s.text(`<rect class="PAPER"`)
		if corner != (Point{}) {
			s.attr("x", corner.X, "")
			s.attr("y", corner.Y, "")
		}
		s.attr("width", size.X, "")
		s.attr("height", size.Y, "")
		s.text(` fill="#fff"/>` + "\n")
	}
	if d.scaleX != 1 || d.scaleY != 1 {
		s.text(`<g transform="scale(` + exact(d.scaleX) + " " + exact(d.scaleY) + ")\">\n")
	}
	for i := range d.layers {
		s.layer(d, i, d.own(i))
	}
	for _, shape := range d.shapes {
		if v, ok := shape.form.(View); ok {
			s.view(v)
		}
	}
	if d.scaleX != 1 || d.scaleY != 1 {
		s.text("</g>\n")
	}
	s.text("</svg>\n")
	return s.w.Flush()
}

// own yields the shapes on a layer of the drawing itself.
func (d *Drawing) own(layer int) func(yield func(shape) bool) {
	return func(yield func(shape) bool) {
		for _, s := range d.shapes {
			if s.layer == layer && !yield(s) {
				return
			}
		}
	}
}

// An svg is the file while it is written. Errors of the writer stay in w.
type svg struct {
	w      *bufio.Writer
	id     string // of the element in a page; blank in a file of its own
	height float64
	shift  Point // of what is drawn now, from its own drawing to the sheet
	views  int
	window *Box    // of the view that is drawn now and clips; nil: none
	dashed bool    // its lines are broken
	dashes float64 // how far along the whole line the part that is drawn now begins, if broken
	buffer []byte
}

// view draws what a view shows. It is clipped only where something runs out of its
// box, as many a reader draws what clips as a black rectangle; for those that do even
// then, it is not filled, which clips just as well. Lines are cut off at the box too,
// for readers that know no clipping.
func (s *svg) view(v View) {
	if v.whole() {
		s.shown(v)
		return
	}
	s.views++
	id := "view" + strconv.Itoa(s.views)
	if s.id != "" {
		id = s.id + "-" + id
	}
	s.text(`<clipPath id="` + id + `"><rect fill="none"`)
	corner := s.point(Point{v.Box.Min.X, v.Box.Max.Y})
	s.attr("x", corner.X, "")
	s.attr("y", corner.Y, "")
	s.attr("width", v.Box.Max.X-v.Box.Min.X, "")
	s.attr("height", v.Box.Max.Y-v.Box.Min.Y, "")
	s.text("/></clipPath>\n" + `<g clip-path="url(#` + id + ")\">\n")
	window := v.window()
	s.window = &window
	s.shown(v)
	s.window = nil
	s.text("</g>\n")
}

func (s *svg) shown(v View) {
	s.shift = v.Box.Min.sub(v.From)
	for i := range v.Of.layers {
		s.dashed = v.Of.layers[i].Pattern.lengths() != nil
		s.layer(v.Of, i, v.shown(i))
	}
	s.shift = Point{}
}

func (s *svg) layer(d *Drawing, layer int, shapes func(func(shape) bool)) {
	l := d.layers[layer]
	open := false
	for shape := range shapes {
		if !open {
			open = true
			s.text(`<g class="` + l.Name + `" fill="none" stroke="#000" stroke-linejoin="round"`)
			s.attr("stroke-width", l.Width, "")
			if s.window != nil && !s.dashed { // the sides of a line that is cut still meet in its corners
				s.text(` stroke-linecap="round"`)
			}
			if dashes := l.Pattern.lengths(); dashes != nil {
				s.text(` stroke-dasharray="`)
				for i, v := range dashes {
					if i > 0 {
						s.text(" ")
					}
					s.number(v)
				}
				s.text(`"`)
			}
			s.text(">\n")
		}
		if s.window == nil {
			s.form(shape.form)
			continue
		}
		for _, part := range s.window.cut(shape.form) {
			s.dashes = 0
			if s.dashed {
				s.dashes = part.from
			}
			s.form(part.form)
		}
		s.dashes = 0
	}
	if open {
		s.text("</g>\n")
	}
}

func (s *svg) form(form any) {
	switch f := form.(type) {
	case line:
		a, b := s.point(f.a), s.point(f.b)
		s.text("<line")
		s.attr("x1", a.X, "")
		s.attr("y1", a.Y, "")
		s.attr("x2", b.X, "")
		s.attr("y2", b.Y, "")
		s.offset()
		s.text("/>\n")
	case circle:
		c := s.point(f.centre)
		s.text("<circle")
		s.attr("cx", c.X, "")
		s.attr("cy", c.Y, "")
		s.attr("r", f.radius, "")
		s.text("/>\n")
	case arc:
		s.text(`<path d="M`)
		s.pair(s.point(f.at(0)))
		middle := side{f.at(0), f.at(0.5), math.Tan(f.sweep / 8)}
		s.arcTo(middle)
		s.arcTo(side{f.at(0.5), f.at(1), middle.bulge})
		s.text(`"`)
		s.offset()
		s.text("/>\n")
	case polyline:
		s.text(`<path d="M`)
		s.pair(s.point(f.vertices[0].Point))
		for side := range f.sides() {
			if side.curved() {
				s.arcTo(side)
				continue
			}
			s.text("L")
			s.pair(s.point(side.to))
		}
		if f.closed {
			s.text("Z")
		}
		s.text("\"/>\n")
	case fill:
		s.text(`<path fill="#000" stroke="none" d="`)
		for i, c := range f.corners {
			s.text([]string{"M", "L"}[min(i, 1)])
			s.pair(s.point(c))
		}
		s.text("Z\"/>\n")
	case Text:
		at := s.point(f.At)
		s.text(`<text fill="#000" stroke="none" font-family="Liberation Sans, Arial, Helvetica, sans-serif"`)
		s.attr("font-size", f.Height/capHeight, "")
		s.attr("x", at.X, "")
		s.attr("y", at.Y, "")
		s.attr("textLength", TextWidth(f.Value, f.Height), "")
		s.text(` lengthAdjust="spacingAndGlyphs"`)
		if f.Anchor != Start {
			s.text(` text-anchor="` + [...]string{Middle: "middle", End: "end"}[f.Anchor] + `"`)
		}
		if f.Rotation != 0 {
			s.text(` transform="rotate(`)
			s.number(-f.Rotation.Degrees())
			s.text(" ")
			s.pair(at)
			s.text(`)"`)
		}
		s.text(">" + escapeXML(f.Value) + "</text>\n")
	}
}

// offset says where in its dashes a line begins that was cut off.
func (s *svg) offset() {
	if s.dashes != 0 {
		s.attr("stroke-dashoffset", s.dashes, "")
	}
}

// arcTo writes the rest of an arc command to the end of a side that bulges. The
// sheet of SVG has Y down, which turns anticlockwise into its sweep flag 0.
func (s *svg) arcTo(to side) {
	radius := to.arc().radius
	s.text("A")
	s.number(radius)
	s.text(" ")
	s.number(radius)
	s.text(" 0 ")
	s.text([]string{"0", "1"}[b2i(math.Abs(to.bulge) > 1)])
	s.text(" ")
	s.text([]string{"0", "1"}[b2i(to.bulge < 0)])
	s.text(" ")
	s.pair(s.point(to.to))
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// point returns the place of p on a sheet with Y down.
func (s *svg) point(p Point) Point {
	p = p.add(s.shift)
	return Point{p.X, s.height - p.Y}
}

func (s *svg) text(text string) { s.w.WriteString(text) }

func (s *svg) attr(name string, v float64, unit string) {
	s.w.WriteString(" " + name + `="`)
	s.number(v)
	s.w.WriteString(unit + `"`)
}

func (s *svg) pair(p Point) {
	s.number(p.X)
	s.text(" ")
	s.number(p.Y)
}

// number writes v to a tenth of a micrometre.
func (s *svg) number(v float64) {
	s.buffer = appendRounded(s.buffer[:0], v, 4)
	s.w.Write(s.buffer)
}

// appendRounded appends v with at most the given places and no trailing zeros.
func appendRounded(b []byte, v float64, places int) []byte {
	start := len(b)
	b = strconv.AppendFloat(b, v, 'f', places, 64)
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	if b[len(b)-1] == '.' {
		b = b[:len(b)-1]
	}
	if string(b[start:]) == "-0" {
		b = append(b[:start], '0')
	}
	return b
}

// exact returns v with the fewest digits that mean v.
func exact(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// escapeXML escapes printable text for use between tags.
func escapeXML(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;").Replace(s)
}
