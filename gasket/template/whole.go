package template

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/sheet"
)

// whole returns the drawing for DXF: the plan with the bars and the notes below
// it. It is drawn anew, as the sheets show the plan without them.
func (t *Template) whole() (*sheet.Drawing, error) {
	p, err := t.plan()
	if err != nil {
		return nil, err
	}
	b := p.Bounds()
	origin := sheet.Point{X: b.Min.X, Y: b.Min.Y - t.unit.barMM() - 20}
	t.unit.bars(p.Drawing, origin)
	y := origin.Y + t.unit.barMM()
	warnings := warningLines(t.part.Warnings, t.part.Remarks, 160)
	lines := append([]string{sheet.FitDXF(t.part.Outline.Name, 3.5, 160)}, warnings...)
	lines = append(lines,
		sheet.FitDXF("For: "+orDash(t.part.Engine), plainText, 160),
		sheet.FitDXF("Material: "+orDash(t.part.Material), plainText, 160),
		"Thickness: "+t.unit.thickness(t.part.Thickness),
		"Read this file in as millimetres, at scale 1 : 1: it has no field for its unit.",
		"Then measure the bars, before anything is cut: each is "+rulerOf(false).number(t.unit.barMM())+" mm.",
	)
	for i, h := range t.holes {
		const most = 12
		if i == most-1 && len(t.holes) > most {
			lines = append(lines, fmt.Sprintf("and %d more sizes of hole", len(t.holes)-i))
			break
		}
		line := fmt.Sprintf("%d × ø%s", h.Count, t.unit.size(h.Diameter))
		if t.marking == nil {
			line += ", punch " + t.unit.punchText(h)
		}
		lines = append(lines, line)
	}
	if t.marking == nil {
		lines = append(lines, caution()...)
	} else {
		for _, note := range t.marking.Notes {
			lines = append(lines, broken(note, plainText, 160)...)
		}
	}
	for i, line := range lines {
		height := plainText
		if i == 0 {
			height = 3.5
		}
		text(p.Drawing, origin.X+12, y-4, height, line)
		y -= 5.5
	}
	return p.Drawing, p.Err()
}
