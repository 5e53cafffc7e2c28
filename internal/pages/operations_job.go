package pages

import (
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
)

// jobOf returns what a valid entry asks.
func jobOf(e *engine.Engine, entry engine.Operation) (speeds.Job, error) {
	j := speeds.Job{Operation: *entry.Operation, Material: *entry.Material, Diameter: *entry.Diameter, Tool: speeds.HSS}
	if entry.Tool != nil {
		j.Tool = *entry.Tool
	}
	if entry.Depth != nil {
		j.Depth = *entry.Depth
	}
	if entry.Pitch != nil {
		j.Pitch = *entry.Pitch
	}
	if ladder, _ := machineOf(e, entry); ladder != nil {
		j.Machine = *ladder
	}
	if onMill(entry) {
		return j, nil
	}
	if e.Lathe.CentreHeight != nil {
		j.CentreHeight = *e.Lathe.CentreHeight
	}
	if e.Lathe.ChuckSpeed != nil { // on the lathe the chuck turns, whatever is done
		limit, err := holding.MarkedChuck(*e.Lathe.ChuckSpeed)
		if err != nil {
			return speeds.Job{}, e.Errorf("lathe.chuck_speed", "%v", err)
		}
		j.Limits = append(j.Limits, limit)
	}
	return j, nil
}

func onMill(entry engine.Operation) bool {
	return entry.On == "mill" || entry.On == "" && entry.Operation.Mills()
}

// machineOf returns the speeds and the motor of the machine that the operation is
// done on; either may be nil.
func machineOf(e *engine.Engine, entry engine.Operation) (*speeds.Ladder, *units.Power) {
	if onMill(entry) {
		return e.Mill.Speeds, e.Mill.Motor
	}
	return e.Lathe.Speeds, e.Lathe.Motor
}
