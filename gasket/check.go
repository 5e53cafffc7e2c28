package gasket

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What [Outline.Check] says of an outline.
const (
	NarrowWeb finding.Code = "narrow-web" // less is left between two edges than is usual
	SmallHole finding.Code = "small-hole" // a hole is too small to punch clean
)

// Where the limits of Check are from.
var (
	ruleWeb = source.Ref{Kind: source.FromMemory, Title: "rule of thumb for cut gaskets", Note: "at least the sheet's thickness and 1.5 " +
		"mm, 1/16 in; no published figure was found"}
	ruleHole = source.Ref{Kind: source.Published, Title: "Gasket maker's catalogue, design tips", Locator: "page C-48",
		Note: "of die-cut gaskets; punched by hand, smaller holes go"}
)

// LeastWeb returns the least width that is usual between two edges of a gasket cut
// from sheet of the given thickness: 1.5 mm or, where that is more, the thickness.
// It is a rule of thumb from memory, of which [Outline.Check] gives the source. See
// the example.
func LeastWeb(thickness units.Length) units.Length {
	if least := units.MM(1.5); thickness.Cmp(least) < 0 {
		return least
	}
	return thickness
}

// Check returns what is to be said about cutting the outline from sheet of the
// given thickness, the narrowest webs first:
//
//	NarrowWeb, a caution  less than LeastWeb is left, a rule of thumb
//	SmallHole, a note     a hole is smaller than 3/32 in, from a catalogue of die-cut gaskets
//
// Those that are alike are one finding. The thickness is above zero, up to 1 km; an
// outline that Validate refuses is an error. See the example.
func (o Outline) Check(thickness units.Length) (finding.List, error) {
	if err := fail.Above(fault.Named("thickness of the sheet", thickness)); err != nil {
		return nil, err
	}
	webs, err := o.Webs()
	if err != nil {
		return nil, err
	}
	var fs finding.List
	least := LeastWeb(thickness)
	// Webs that differ in nothing but the hole that they are at are one finding.
	type web struct{ width, to string }
	var narrow []web
	from := map[web][]string{}
	for _, w := range webs {
		if w.Width.Cmp(least) < 0 {
			alike := web{w.Width.Text(units.Millimetres, 2), w.To}
			if from[alike] == nil {
				narrow = append(narrow, alike)
			}
			from[alike] = append(from[alike], w.From)
		}
	}
	for _, w := range narrow {
		fs = append(fs, finding.Finding{
			Code: NarrowWeb, Severity: finding.Caution,
			Text:     fmt.Sprintf("Only %s is left between %s and %s; it may tear when it is cut or pulled down.", w.width, eachOf(from[w]), w.to),
			Remedies: []string{fmt.Sprintf("Leave %s: move the hole, make it smaller, or cut an open notch there.", least.Text(units.Millimetres, 2))},
			Refs:     source.Of(ruleWeb),
		})
	}
	var small []units.Length
	named := map[units.Length][]string{}
	for i, h := range o.Holes {
		if h.Diameter.Cmp(units.InchFraction(3, 32)) < 0 {
			if named[h.Diameter] == nil {
				small = append(small, h.Diameter)
			}
			named[h.Diameter] = append(named[h.Diameter], o.holeName(i))
		}
	}
	for _, d := range small {
		is := " is "
		if len(named[d]) > 1 {
			is = " are each "
		}
		fs = append(fs, finding.Finding{
			Code: SmallHole, Severity: finding.Note,
			Text:     fmt.Sprintf("%s%s%s; below 3/32 in (2.38 mm) a hole is hard to punch clean.", capital(list(named[d])), is, d.Text(units.Millimetres, 2)),
			Remedies: []string{"Punch on end grain with a sharp punch, or pierce the sheet through the part."},
			Refs:     source.Of(ruleHole),
		})
	}
	return fs, nil
}

// eachOf names one thing, or says that each of several is meant.
func eachOf(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return "each of " + list(names)
}

// list joins names with commas and an "and".
func list(names []string) string {
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
