package sheet

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// maxPages is the largest number of pages in one PDF.
const maxPages = 200

// WritePDF writes the drawings as the pages of a PDF, each page the size of its
// sheet. The print scaling of the file is none, which asks print dialogs not to
// offer to fit it to the paper; not all of them listen.
func WritePDF(w io.Writer, title string, pages ...*Drawing) error {
	if len(pages) < 1 || len(pages) > maxPages {
		return fail.OutOfRange("pages", len(pages), fmt.Sprintf("1 to %d", maxPages))
	}
	for _, d := range pages {
		if d.err != nil {
			return d.err
		}
	}
	f := newPDF(pages[0].width*pages[0].scaleX, pages[0].height*pages[0].scaleY)
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetCatalogSort(true)
	// A mitre would stick out where a tangent side meets a rounded corner.
	f.SetLineJoinStyle("round")
	day := time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC) // any, as long as it stays
	f.SetCreationDate(day)
	f.SetModificationDate(day)
	f.SetProducer("Valvechest", true)
	f.SetTitle(printable(title), true)
	for _, d := range pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: d.width * d.scaleX, Ht: d.height * d.scaleY})
		p := pdf{f: f, height: d.height}
		p.page(d)
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return fmt.Errorf("sheet: PDF: %w", err)
	}
	out, err := unscaled(b.Bytes())
	if err != nil {
		return err
	}
	_, err = w.Write(out)
	return err
}

// unscaled returns the file with its print scaling set to none, which PDF knows
// since version 1.6. The catalog is the last object of the file, so that nothing
// that the cross references point at moves but the references themselves.
func unscaled(file []byte) ([]byte, error) {
	const (
		header  = "%PDF-1."
		version = header + "7"
		catalog = "/Type /Catalog\n"
		entry   = "/ViewerPreferences <</PrintScaling /None>>\n"
		start   = "startxref\n"
	)
	at, xref := bytes.LastIndex(file, []byte(catalog)), bytes.LastIndex(file, []byte(start))
	if at < 0 || xref < at || !bytes.HasPrefix(file, []byte(header)) {
		return nil, fmt.Errorf("sheet: PDF: catalog or cross references not found")
	}
	tail := file[xref+len(start):]
	digits := bytes.IndexByte(tail, '\n')
	offset, err := strconv.Atoi(string(tail[:max(digits, 0)]))
	if err != nil || offset < at || offset > xref || bytes.Contains(file[at:offset], []byte(" obj\n")) {
		return nil, fmt.Errorf("sheet: PDF: the catalog is not the last object")
	}
	at += len(catalog)
	var b bytes.Buffer
	b.WriteString(version)
	b.Write(file[len(version):at])
	b.WriteString(entry)
	b.Write(file[at : xref+len(start)])
	b.WriteString(strconv.Itoa(offset + len(entry)))
	b.Write(tail[digits:])
	return b.Bytes(), nil
}

// A pdf is a page while it is drawn. Errors stay in f.
type pdf struct {
	f      *fpdf.Fpdf
	height float64
	shift  Point
}

func (p *pdf) page(d *Drawing) {
	stretched := d.scaleX != 1 || d.scaleY != 1
	if stretched { // about the upper left corner, where Y down begins
		p.f.TransformBegin()
		p.f.TransformScale(100*d.scaleX, 100*d.scaleY, 0, 0)
	}
	for i := range d.layers {
		p.layer(d.layers[i], d.own(i))
	}
	for _, shape := range d.shapes {
		if v, ok := shape.form.(View); ok {
			corner := p.point(Point{v.Box.Min.X, v.Box.Max.Y})
			p.f.ClipRect(corner.X, corner.Y, v.Box.Max.X-v.Box.Min.X, v.Box.Max.Y-v.Box.Min.Y, false)
			p.shift = v.Box.Min.sub(v.From)
			for i := range v.Of.layers {
				p.layer(v.Of.layers[i], v.shown(i))
			}
			p.shift = Point{}
			p.f.ClipEnd()
		}
	}
	if stretched {
		p.f.TransformEnd()
	}
}

func (p *pdf) layer(l Layer, shapes func(func(shape) bool)) {
	p.f.SetLineWidth(l.Width)
	p.f.SetDashPattern(l.Pattern.lengths(), 0)
	for shape := range shapes {
		p.form(shape.form)
	}
}

func (p *pdf) form(form any) {
	switch f := form.(type) {
	case line:
		a, b := p.point(f.a), p.point(f.b)
		p.f.Line(a.X, a.Y, b.X, b.Y)
	case circle:
		whole := arc{f.centre, f.radius, 0, fullTurn}
		p.moveTo(whole.at(0))
		p.curve(whole)
		p.f.ClosePath()
		p.f.DrawPath("D")
	case arc:
		p.moveTo(f.at(0))
		p.curve(f)
		p.f.DrawPath("D")
	case polyline:
		p.moveTo(f.vertices[0].Point)
		for side := range f.sides() {
			if side.curved() {
				p.curve(side.arc())
				continue
			}
			to := p.point(side.to)
			p.f.LineTo(to.X, to.Y)
		}
		if f.closed {
			p.f.ClosePath()
		}
		p.f.DrawPath("D")
	case fill:
		var corners []fpdf.PointType
		for _, c := range f.corners {
			at := p.point(c)
			corners = append(corners, fpdf.PointType{X: at.X, Y: at.Y})
		}
		p.f.Polygon(corners, "F")
	case Text:
		p.text(f)
	}
}

func (p *pdf) text(t Text) {
	at := p.point(t.At)
	p.f.SetFontUnitSize(t.Height / capHeight)
	if t.Rotation != 0 {
		p.f.TransformBegin()
		p.f.TransformRotate(t.Rotation.Degrees(), at.X, at.Y)
	}
	p.f.Text(at.X-TextWidth(t.Value, t.Height)*float64(t.Anchor)/2, at.Y, t.Value)
	if t.Rotation != 0 {
		p.f.TransformEnd()
	}
}

func (p *pdf) moveTo(q Point) {
	at := p.point(q)
	p.f.MoveTo(at.X, at.Y)
}

func (p *pdf) curve(a arc) {
	for _, b := range a.beziers() {
		c1, c2, to := p.point(b.control1), p.point(b.control2), p.point(b.to)
		p.f.CurveBezierCubicTo(c1.X, c1.Y, c2.X, c2.Y, to.X, to.Y)
	}
}

// point returns the place of q on a sheet with Y down.
func (p *pdf) point(q Point) Point {
	q = q.add(p.shift)
	return Point{q.X, p.height - q.Y}
}
