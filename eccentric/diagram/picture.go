package diagram

import (
	"io"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/sheet"
)

const fail = fault.Package("diagram")

// A Picture is one drawing with its words.
type Picture struct {
	Name    string // that no other picture has, in small letters with hyphens: "valve-in-the-middle"
	Title   string // in a line
	Alt     string // what there is to see, and read off it, in sentences
	Caption string // what to make of it; blank for nothing

	drawing *sheet.Drawing
}

// String returns the title of the picture.
func (p Picture) String() string { return p.Title }

// Drawing returns the sheet, for the pages of this module.
func (p Picture) Drawing() *sheet.Drawing { return p.drawing }

// WriteSVG writes the picture as SVG 1.1.
func (p Picture) WriteSVG(w io.Writer) error { return p.write(w, sheet.WriteSVG) }

// WriteDXF writes the picture as DXF release 12, in millimetres of the sheet.
func (p Picture) WriteDXF(w io.Writer) error {
	return p.write(w, func(w io.Writer, _ string, d *sheet.Drawing) error { return sheet.WriteDXF(w, d) })
}

// WritePDF writes the picture as a PDF of one page, as large as its sheet.
func (p Picture) WritePDF(w io.Writer) error {
	return p.write(w, func(w io.Writer, title string, d *sheet.Drawing) error { return sheet.WritePDF(w, title, d) })
}

func (p Picture) write(w io.Writer, as func(io.Writer, string, *sheet.Drawing) error) error {
	if p.drawing == nil {
		return fail.Missing("picture", "one that a function of this package returned")
	}
	return as(w, p.Title, p.drawing)
}
