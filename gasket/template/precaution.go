package template

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Precautions returns what every sheet and file says to whoever cuts the jointing.
func Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: "old-asbestos", // package seal has the whole of it
		Text: "Jointing of unknown age may hold asbestos: do not scrape, cut or sand it dry.",
		Ref:  source.Practice(),
	}}
}

// caution returns the precautions in lines short enough for the sheet.
func caution() []string {
	var lines []string
	for _, p := range Precautions() {
		lines = slices.AppendSeq(lines, strings.SplitSeq(strings.ReplaceAll(p.Text, ": ", ":\n"), "\n"))
	}
	return lines
}
