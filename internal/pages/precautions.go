package pages

import (
	"slices"

	"github.com/valvechest/valvechest/gasket/cover"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// beforeSteam is what stands at the end of every engine book.
var beforeSteam = finding.Precaution{
	Code: "before-steam",
	Text: "Steam comes only from a boiler that is tested and certified by the rules of the place; those rules, and" +
		" licensed practice where it is asked for, come before anything printed here. Engine, pipes and drains stay hot" +
		" after the steam is shut off.",
	Ref: source.Practice(),
}

// measureAtRest is what to mind where a part is measured in the machine.
var measureAtRest = finding.Precaution{
	Code: "measure-at-rest",
	Text: "Measure, and try a mate, only with the spindle stopped: a micrometer, gauge, wire or ring that the work takes" +
		" round flies, and takes fingers with it.",
	Ref: source.Practice(),
}

// jointPrecautions are what to mind with a joint that holds steam.
func jointPrecautions() []finding.Precaution {
	return slices.Concat(cover.TestPrecautions(), bolting.Precautions())
}

// addPrecautions adds those that are not there yet.
func addPrecautions(all, more []finding.Precaution) []finding.Precaution {
	for _, p := range more {
		if !slices.Contains(all, p) {
			all = append(all, p)
		}
	}
	return all
}
