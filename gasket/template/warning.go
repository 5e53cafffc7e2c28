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

// warningLines breaks warnings into lines of a width, and remarks behind them.
func warningLines(warnings, remarks []string, width float64) []string {
	var lines []string
	for _, w := range warnings {
		lines = append(lines, broken("DO NOT CUT BY THIS: "+w, warningHigh, width*otherFont)...)
	}
	for _, r := range remarks {
		lines = append(lines, broken("Mind: "+r, warningHigh, width*otherFont)...)
	}
	return lines
}

// broken breaks a text into lines of a width.
func broken(text string, height, width float64) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(text) {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && sheet.TextWidth(longer, height) > width {
			lines, longer = append(lines, line), word
		}
		line = sheet.Fit(longer, height, width)
	}
	return append(lines, line)
}

// warn draws the warnings from a corner down, between two rules.
func (l *layout) warn(d *sheet.Drawing, at sheet.Point) {
	for i, line := range l.warnings {
		text(d, at.X, at.Y-float64(i+1)*warningUp, warningHigh, line)
	}
}
