package sheet

import (
	"math"
	"sort"
	"strings"
	"sync"
	"unicode"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"github.com/valvechest/valvechest/units"
)

// A Text is one line of text.
type Text struct {
	At       Point       // the anchor, on the line under the letters
	Height   float64     // of a capital letter, in millimetres
	Anchor   Anchor      // which part of the line is at the anchor
	Rotation units.Angle // anticlockwise
	Value    string
}

// An Anchor says which part of a line of text is at its point.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// capHeight is the height of the capitals of Liberation Sans in ems, 1409 of
// 2048 units in the OS/2 table of the font.
const capHeight = 1409.0 / 2048

// Text draws a line of text.
func (d *Drawing) Text(l Layer, t Text) {
	t.Value = printable(t.Value)
	if !(t.Height > 0 && t.Height <= 100) {
		d.refuse(fail.OutOfRange("text height", millimetres(t.Height), "above 0 to 100 mm"))
		return
	}
	if math.IsNaN(t.Rotation.Radians()) || math.IsInf(t.Rotation.Radians(), 0) {
		d.refuse(fail.NotFinite("rotation of a text", nil))
		return
	}
	low, high := t.bounds()
	d.add(&l, 1, t, low, high)
}

// bounds returns the corners of the box round the text, with room for letters
// that hang below the line.
func (t Text) bounds() (low, high Point) {
	width := TextWidth(t.Value, t.Height)
	left := -width * float64(t.Anchor) / 2
	sin, cos := math.Sincos(t.Rotation.Radians())
	const below = 0.3 // of the height
	corners := [...]Point{
		{left, -below * t.Height}, {left + width, -below * t.Height},
		{left, t.Height}, {left + width, t.Height},
	}
	for i, c := range corners {
		p := t.At.At(c.X*cos-c.Y*sin, c.X*sin+c.Y*cos)
		if i == 0 {
			low, high = p, p
		}
		low, high = low.min(p), high.max(p)
	}
	return low, high
}

// Box returns the box round the text.
func (t Text) Box() Box {
	low, high := t.bounds()
	return Box{low, high}
}

// TextWidth returns the width in millimetres of a line of text with capitals of
// the given height. SVG and DXF readers without the font differ by a little.
func TextWidth(s string, height float64) float64 {
	return float64(metrics().GetStringSymbolWidth(printable(s))) / 1000 * height / capHeight
}

// Fit returns the text cut to the given width, with an ellipsis where letters
// are missing.
func Fit(s string, height, width float64) string {
	return cut(s, func(short string) bool { return TextWidth(short, height) <= width })
}

// cut returns the text, or as much of it with an ellipsis as the test lets
// through; it lets none through that is longer than one that it stops.
func cut(s string, fits func(string) bool) string {
	if fits(s) {
		return s
	}
	letters := []rune(s)
	short := func(n int) string { return strings.TrimRight(string(letters[:n]), " ") + "…" }
	n := sort.Search(len(letters), func(n int) bool { return !fits(short(n)) })
	if n == 0 {
		return ""
	}
	return short(n - 1)
}

// metrics returns a document that knows the widths of the letters. Measuring
// does not change it.
var metrics = sync.OnceValue(func() *fpdf.Fpdf {
	return newPDF(1, 1)
})

// newPDF returns an empty document with the font set, for sheets of the given
// size in millimetres.
func newPDF(width, height float64) *fpdf.Fpdf {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: width, Ht: height}})
	f.AddUTF8FontFromBytes(fontName, "", liberationsansregular.TTF)
	f.SetFont(fontName, "", 10)
	return f
}

const fontName = "LiberationSans"

// printable returns the text with a mark, U+FFFD, for every character that
// would not be seen or would change how the others are shown: controls, the
// marks that turn the direction of writing, line ends, and what is not text at
// all. Characters beyond the Basic Multilingual Plane are not in the font.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		unseen := unicode.In(r, unicode.Cc, unicode.Cf, unicode.Cs, unicode.Co, unicode.Zl, unicode.Zp)
		if unseen || r == unicode.ReplacementChar || r > 0xfffd {
			return unicode.ReplacementChar
		}
		return r
	}, s)
}
