package sheet

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// mostDXFText is the longest text of release 12, in characters of the file.
const mostDXFText = 255

// WriteDXF writes the drawing as DXF release 12, in millimetres. A stretched
// drawing is refused, because the release has no ellipse and a file that others
// cut from must be true; so is a drawing with a [View] on it, and a text that
// needs more than 255 characters in DXF.
func WriteDXF(w io.Writer, d *Drawing) error {
	switch {
	case d.err != nil:
		return d.err
	case d.scaleX != 1 || d.scaleY != 1:
		return dxfError("stretched drawing", "a drawing at true size")
	case d.clipped:
		return dxfError("drawing with a view of another", "the whole drawing")
	}
	for _, s := range d.shapes {
		if t, ok := s.form.(Text); ok && len(escapeDXF(t.Value)) > mostDXFText {
			return dxfError(fmt.Sprintf("text %.20q...", t.Value), fmt.Sprintf("up to %d characters as DXF writes them", mostDXFText))
		}
	}
	x := dxf{w: bufio.NewWriter(w)}
	x.header(d)
	x.tables(d)
	x.section("ENTITIES")
	for _, s := range d.shapes {
		x.form(d.layers[s.layer].Name, s.form)
	}
	x.text(0, "ENDSEC")
	x.text(0, "EOF")
	return x.w.Flush()
}

// FitDXF returns the text as [Fit] does, cut further where DXF writes it with
// more characters than release 12 can carry: seven for most letters beyond ASCII.
func FitDXF(s string, height, width float64) string {
	return cut(s, func(short string) bool {
		return TextWidth(short, height) <= width && len(escapeDXF(printable(short))) <= mostDXFText
	})
}

func dxfError(field, accepted string) error {
	return fail.Wrong(field, nil, "DXF release 12 cannot carry it", accepted)
}

// A dxf is the file while it is written. Errors of the writer stay in w.
type dxf struct {
	w      *bufio.Writer
	buffer []byte
}

func (x *dxf) header(d *Drawing) {
	x.text(999, "One drawing unit is one millimetre.")
	x.section("HEADER")
	x.text(9, "$ACADVER")
	x.text(1, "AC1009") // releases 11 and 12
	low, high := d.low, d.high
	for _, v := range [...]struct {
		name string
		at   Point
	}{{"$EXTMIN", low}, {"$EXTMAX", high}, {"$LIMMIN", low}, {"$LIMMAX", high}} {
		x.text(9, v.name)
		x.point(10, v.at, v.name[:4] == "$EXT")
	}
	x.text(9, "$LTSCALE")
	x.float(40, 1)
	x.text(0, "ENDSEC")
}

func (x *dxf) tables(d *Drawing) {
	x.section("TABLES")
	patterns := []Pattern{Continuous, Dashed, Chain}
	if slices.ContainsFunc(d.layers, func(l Layer) bool { return l.Pattern == Dotted }) {
		patterns = append(patterns, Dotted)
	}
	x.table("LTYPE", len(patterns))
	for _, p := range patterns {
		x.lineType(p)
	}
	x.text(0, "ENDTAB")
	x.table("LAYER", len(d.layers))
	for _, l := range d.layers {
		x.text(0, "LAYER")
		x.text(2, l.Name)
		x.int(70, 0)
		x.int(62, l.Colour)
		x.text(6, dxfPattern(l.Pattern))
	}
	x.text(0, "ENDTAB")
	x.table("STYLE", 1)
	x.text(0, "STYLE")
	x.text(2, "STANDARD")
	x.int(70, 0)
	x.float(40, 0)
	x.float(41, 1)
	x.float(50, 0)
	x.int(71, 0)
	x.float(42, textHeight)
	x.text(3, "txt")
	x.text(4, "")
	x.text(0, "ENDTAB")
	x.text(0, "ENDSEC")
}

func (x *dxf) lineType(p Pattern) {
	lengths := p.lengths()
	total := 0.0
	for _, v := range lengths {
		total += v
	}
	x.text(0, "LTYPE")
	x.text(2, dxfPattern(p))
	x.int(70, 0)
	x.text(3, [...]string{Continuous: "whole line", Dashed: "dashes", Chain: "long and short dashes", Dotted: "dots"}[p])
	x.int(72, 'A') // dashes end on the ends of the line
	x.int(73, len(lengths))
	x.float(40, total)
	for i, v := range lengths {
		if i%2 == 1 {
			v = -v // a gap
		}
		x.float(49, v)
	}
}

func dxfPattern(p Pattern) string {
	return [...]string{Continuous: "CONTINUOUS", Dashed: "DASHED", Chain: "CHAIN", Dotted: "DOTTED"}[p]
}

func (x *dxf) form(layer string, form any) {
	switch f := form.(type) {
	case line:
		x.entity("LINE", layer)
		x.point(10, f.a, true)
		x.point(11, f.b, true)
	case circle:
		x.entity("CIRCLE", layer)
		x.point(10, f.centre, true)
		x.float(40, f.radius)
	case arc:
		x.entity("ARC", layer)
		x.point(10, f.centre, true)
		x.float(40, f.radius)
		x.float(50, f.start*180/math.Pi)
		x.float(51, math.Mod(f.start+f.sweep, 2*math.Pi)*180/math.Pi)
	case polyline:
		x.entity("POLYLINE", layer)
		x.int(66, 1)
		x.point(10, Point{}, true)
		x.int(70, b2i(f.closed))
		for _, v := range f.vertices {
			x.entity("VERTEX", layer)
			x.point(10, v.Point, true)
			x.float(42, v.Bulge)
		}
		x.entity("SEQEND", layer)
	case fill:
		c := f.corners
		order := [...]Point{c[0], c[1], c[len(c)-1], c[2]} // the last two go crosswise
		x.entity("SOLID", layer)
		for i, p := range order {
			x.point(10+i, p, true)
		}
	case Text:
		x.entity("TEXT", layer)
		x.point(10, f.At, true)
		x.float(40, f.Height)
		x.text(1, escapeDXF(f.Value))
		x.float(50, f.Rotation.Degrees())
		x.text(7, "STANDARD")
		if f.Anchor != Start {
			x.int(72, int(f.Anchor))
			x.point(11, f.At, true)
		}
	}
}

func (x *dxf) section(name string) {
	x.text(0, "SECTION")
	x.text(2, name)
}

func (x *dxf) table(name string, entries int) {
	x.text(0, "TABLE")
	x.text(2, name)
	x.int(70, entries)
}

func (x *dxf) entity(name, layer string) {
	x.text(0, name)
	x.text(8, layer)
}

// point writes a point under a group code and the codes 10 and, with a third
// coordinate, 20 above it.
func (x *dxf) point(code int, p Point, third bool) {
	x.float(code, p.X)
	x.float(code+10, p.Y)
	if third {
		x.float(code+20, 0)
	}
}

func (x *dxf) text(code int, value string) {
	x.code(code)
	x.w.WriteString(value)
	x.w.WriteString("\r\n")
}

func (x *dxf) int(code, value int) { x.text(code, strconv.Itoa(value)) }

func (x *dxf) float(code int, value float64) {
	x.code(code)
	x.buffer = appendRounded(x.buffer[:0], value, 9)
	if !strings.ContainsRune(string(x.buffer), '.') {
		x.buffer = append(x.buffer, ".0"...)
	}
	x.w.Write(x.buffer)
	x.w.WriteString("\r\n")
}

func (x *dxf) code(code int) {
	x.buffer = strconv.AppendInt(x.buffer[:0], int64(code), 10)
	x.w.Write(x.buffer)
	x.w.WriteString("\r\n")
}

// escapeDXF returns printable text as a value of DXF, in ASCII: the three signs
// of the trade by their codes, a few by the letters they are like, others by
// number, which not every reader of the release knows, and nothing of the text
// itself read as a code. Two percent signs begin a code, which readers disagree about
// how to escape, so that a percent sign and what follows it are parted by a space.
func escapeDXF(s string) string {
	var b strings.Builder
	percent := false
	for _, r := range s {
		var out string
		switch {
		case r == 'ø' || r == 'Ø' || r == '⌀':
			out = "%%c"
		case r == '°':
			out = "%%d"
		case r == '±':
			out = "%%p"
		case r == '×':
			out = "x"
		case r == '–' || r == '—':
			out = "-"
		case r == '…':
			out = "..."
		case r == '^':
			out = "^ "
		case r == '\\' || r > '~':
			out = fmt.Sprintf(`\U+%04X`, r)
		default:
			out = string(r)
		}
		if percent && out[0] == '%' {
			b.WriteByte(' ')
		}
		b.WriteString(out)
		percent = r == '%'
	}
	return b.String()
}
