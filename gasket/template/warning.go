package template

import (
	"strings"

	"github.com/valvechest/valvechest/internal/sheet"
)

const (
	warningUp   = 4.0 // from line to line
	warningHigh = 2.5
)

// otherFont is how much of a width is used, as readers without the font of the sheet
// take a wider one.
const otherFont = 0.85

// warningLines breaks warnings into lines of a width.
func warningLines(warnings []string, width float64) []string {
	width *= otherFont
	var lines []string
	for _, w := range warnings {
		line := ""
		for word := range strings.FieldsSeq("DO NOT CUT BY THIS: " + w) {
			longer := strings.TrimPrefix(line+" "+word, " ")
			if line != "" && sheet.TextWidth(longer, warningHigh) > width {
				lines, longer = append(lines, line), word
			}
			line = sheet.Fit(longer, warningHigh, width)
		}
		lines = append(lines, line)
	}
	return lines
}

// warn draws the warnings from a corner down, between two rules.
func (l *layout) warn(d *sheet.Drawing, at sheet.Point) {
	for i, line := range l.warnings {
		text(d, at.X, at.Y-float64(i+1)*warningUp, warningHigh, line)
	}
}
