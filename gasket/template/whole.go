package template

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/sheet"
)

// whole returns the drawing for DXF: the plan with the bars and the notes below
// it. It is drawn anew, as the sheets show the plan without them.
func (t *Template) whole() (*sheet.Drawing, error) {
	p, err := newPlan(t.part.Outline)
	if err != nil {
		return nil, err
	}
	b := p.Bounds()
	origin := sheet.Point{X: b.Min.X, Y: b.Min.Y - barLength - 20}
	bars(p.Drawing, origin)
	y := origin.Y + barLength
	lines := []string{
		sheet.FitDXF(t.part.Outline.Name, 3.5, 160),
		sheet.FitDXF("For: "+orDash(t.part.Engine), plainText, 160),
		sheet.FitDXF("Material: "+orDash(t.part.Material), plainText, 160),
		"Thickness: " + thickness(t.part.Thickness),
		"Scale 1 : 1, one unit is 1 mm. Measure the bars: each is 100.",
	}
	for i, h := range t.holes {
		const most = 12
		if i == most-1 && len(t.holes) > most {
			lines = append(lines, fmt.Sprintf("and %d more sizes of hole", len(t.holes)-i))
			break
		}
		lines = append(lines, fmt.Sprintf("%d × ø%s, punch %s", h.Count, size(h.Diameter), punchText(h)))
	}
	lines = append(lines, caution()...)
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
