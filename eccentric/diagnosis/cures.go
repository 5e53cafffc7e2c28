package diagnosis

import (
	"slices"

	"github.com/valvechest/valvechest/eccentric"
)

// Cures returns what puts a suspect right, the cheapest first: the ways back to the
// drawing by [eccentric.Gear.Restored], and behind them the other ways of
// [eccentric.Salvage] that make the gear as it stands a right one. Of a gear that
// stands as it is drawn they are what saves the drawing. There are none where nothing
// is out by as much as can be set, and none for a suspect without a Gear. It fails only
// where [eccentric.Gear.Validate] does.
//
// A cure is of the amount that was found, which is out by its standard deviation: the
// readings are taken again after it. See the Example.
func (c Case) Cures(s Suspect, made eccentric.Made) ([]eccentric.Cure, error) {
	if s.Gear == (eccentric.Gear{}) { // there is no such gear
		return nil, nil
	}
	list, err := s.Gear.Restored(c.Gear, made)
	if err != nil {
		return nil, err
	}
	saved, err := eccentric.Salvage(s.Gear, made)
	if err != nil {
		return nil, err
	}
	for _, cure := range saved.Cures {
		known := slices.ContainsFunc(list, func(o eccentric.Cure) bool { return o.Steps[0].Change == cure.Steps[0].Change })
		if cure.Right() && !cure.Restates() && !known { // the sizes were read, and not only stated
			list = append(list, cure)
		}
	}
	return list, nil
}
