package alike

import (
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Precautions returns what holds whenever a thread is not known, or is put in
// place of another.
func Precautions() []finding.Precaution {
	return []finding.Precaution{
		{
			Code: "no-force", Ref: source.Practice(),
			Text: "Try a thread by hand with a screw or nut that is known, and do not force it: one that nearly fits strips without " +
				"warning. Take screws and nuts of the old thread out of the box when you change to another.",
		},
		{
			Code: "threads-under-pressure", Ref: source.Practice(),
			Text: "On a boiler, a cylinder or anything else under pressure, or that lifts or holds a person, change no thread " +
				"and use none that is not known, unless the codes of the place and whoever inspects and tests it allow it.",
		},
	}
}
