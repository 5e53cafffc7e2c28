package pages

import (
	"errors"

	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
)

// jobOf returns what an entry asks, or every key of it that is missing or wrong.
func jobOf(e *engine.Engine, key string, entry engine.Operation) (speeds.Job, error) {
	if err := errors.Join(missingOfJob(e, key, entry), wrongOfJob(e, key, entry)); err != nil {
		return speeds.Job{}, err
	}
	j := speeds.Job{Operation: *entry.Operation, Material: *entry.Material, Diameter: *entry.Diameter, Tool: speeds.HSS}
	if entry.Tool != nil {
		j.Tool = *entry.Tool
	}
	if entry.Depth != nil {
		j.Depth = *entry.Depth
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
	if e.Lathe.ChuckSpeed != nil && j.Operation.TurnsWork() {
		limit, err := holding.MarkedChuck(*e.Lathe.ChuckSpeed)
		if err != nil {
			return speeds.Job{}, e.Errorf("lathe.chuck_speed", "%v", err)
		}
		j.Limits = append(j.Limits, limit)
	}
	return j, nil
}

const lengthAboveZero = `a length with its unit above zero, such as "20 mm" or "3/4 in"`

func missingOfJob(e *engine.Engine, key string, entry engine.Operation) error {
	var all []error
	for _, field := range []struct {
		name, accepted string
		missing        bool
	}{
		{"part", `the part's name, such as "flywheel"`, entry.Part == ""},
		{"operation", `an operation, such as "turning" or "drilling"`, entry.Operation == nil},
		{"material", `a material, such as "cast iron, skin on" or "gunmetal"`, entry.Material == nil},
		{"diameter", lengthAboveZero, entry.Diameter == nil},
	} {
		if field.missing {
			all = append(all, e.Errorf(key+"."+field.name, "missing; accepted: %s", field.accepted))
		}
	}
	return errors.Join(all...)
}

func wrongOfJob(e *engine.Engine, key string, entry engine.Operation) error {
	var all []error
	complain := func(field, format string, args ...any) {
		all = append(all, e.Errorf(key+"."+field, format, args...))
	}
	if entry.On != "" && entry.On != "lathe" && entry.On != "mill" {
		complain("on", `%q; accepted: "lathe", "mill"`, entry.On)
	}
	if entry.Teeth < 0 || entry.Teeth > 100 {
		complain("teeth", "%d; accepted: 1 to 100, or none", entry.Teeth)
	}
	for _, l := range []struct {
		name  string
		value *units.Length
	}{{"diameter", entry.Diameter}, {"length", entry.Length}, {"depth", entry.Depth}, {"cut", entry.Cut}, {"stock", entry.Stock}} {
		if l.value != nil && l.value.Sign() <= 0 {
			complain(l.name, "%v; accepted: %s", l.value, lengthAboveZero)
		}
	}
	if entry.Stock != nil && entry.Cut == nil {
		complain("stock", "there is no cut to take it off in; accepted: stock and cut together")
	}
	if entry.Operation == nil {
		return errors.Join(all...)
	}
	op := *entry.Operation
	if entry.Teeth != 0 && op != speeds.Milling {
		complain("teeth", "%d for %v; accepted: the teeth of a milling cutter", entry.Teeth, op)
	}
	if entry.On == "mill" && op.TurnsWork() && op != speeds.Boring {
		complain("on", `%q for %v, which turns the work; accepted: "lathe"`, entry.On, op)
	}
	isHole := op == speeds.Drilling || op == speeds.Reaming || op == speeds.Tapping
	if entry.Depth != nil && !isHole {
		complain("depth", "%v for %v; accepted: the depth of a hole that is drilled, reamed or tapped", entry.Depth, op)
	}
	if entry.Cut != nil && (isHole || op == speeds.CentreDrilling || op == speeds.Countersinking) {
		complain("cut", "%v for %v; accepted: the depth of a cut that is turned or milled", entry.Cut, op)
	}
	if op.TurnsWork() && entry.Cut != nil && entry.Diameter != nil && entry.Cut.Scale(2).Cmp(*entry.Diameter) > 0 {
		complain("cut", "%v is more than the radius; accepted: a depth on the radius, up to %v", entry.Cut, entry.Diameter.Scale(0.5))
	}
	return errors.Join(all...)
}

func onMill(entry engine.Operation) bool {
	return entry.On == "mill" || entry.On == "" && *entry.Operation == speeds.Milling
}

// machineOf returns the speeds and the motor of the machine that the operation is
// done on; either may be nil.
func machineOf(e *engine.Engine, entry engine.Operation) (*speeds.Ladder, *units.Power) {
	if onMill(entry) {
		return e.Mill.Speeds, e.Mill.Motor
	}
	return e.Lathe.Speeds, e.Lathe.Motor
}
