package cli

import (
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/units"
)

// A unit is what a length was given in.
type unit int

const (
	_ unit = iota // none was given
	metric
	inch
)

// FirstUnit has the book in the unit that its reader thinks in, and says to the program
// whether its pictures are to be in inches, unless it draws none (nil). It is one rule:
// the first of the flags, as the help lists them, that is given a
// length has it in inches, thou or feet. Where the book is made from a file, that decides
// in their place.
func (f *Flags) FirstUnit(inches *bool) { f.turns, f.firstUnit = true, inches }

// inches reports whether they are read first.
func (f *Flags) inches() bool {
	if !f.turns {
		return false
	}
	for _, d := range f.all {
		if d.unit != 0 {
			return d.unit == inch
		}
	}
	return false
}

// measured notes the unit of a length that a flag is given.
func (f *Flags) measured(name, text string) {
	for _, d := range f.all {
		if d.name == name {
			d.unit = unitOf(text)
		}
	}
}

// unitOf is the unit behind the last number of a text; none where it is no length.
func unitOf(text string) unit {
	all := strings.FieldsFunc(text, unicode.IsNumber)
	if len(all) == 0 {
		return 0
	}
	one, err := units.ParseLength("1" + all[len(all)-1])
	switch {
	case err != nil:
		return 0
	case one.Picometres()%units.Thou(1).Picometres() == 0:
		return inch
	}
	return metric
}
