package engine

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A Running is what the engine runs on and what it drives. What is missing is asked
// for where it is needed, as a program may be told it in another way.
type Running struct {
	Medium    *indicator.Medium      `toml:"medium"`
	Pressure  *units.Pressure        `toml:"pressure"` // in the chest, above the atmosphere, as the next is
	Back      *units.Pressure        `toml:"back"`
	Index     *float64               `toml:"index"` // of expansion
	Clearance *Share                 `toml:"clearance"`
	Speed     *units.RotationalSpeed `toml:"speed"`

	Atmosphere   *units.Pressure `toml:"atmosphere"` // absolute
	Friction     *units.Torque   `toml:"friction"`
	Moving       *units.Mass     `toml:"moving"`
	SecondCrank  *units.Angle    `toml:"second_crank"` // ahead of the first
	PipeVelocity *units.Speed    `toml:"pipe_velocity"`
	Lubricator   *units.Volume   `toml:"lubricator"` // its room for oil
}

// A Flywheel is the wheel of the engine by its sizes.
type Flywheel struct {
	Diameter  *units.Length      `toml:"diameter"`
	RimWidth  *units.Length      `toml:"rim_width"`
	RimDepth  *units.Length      `toml:"rim_depth"`
	Web       *units.Length      `toml:"web"`
	Boss      *units.Length      `toml:"boss"`
	BossWidth *units.Length      `toml:"boss_width"`
	Bore      *units.Length      `toml:"bore"`
	Material  *material.Material `toml:"material"`
	Evenness  *Share             `toml:"evenness"` // that is wanted
}

// ValidateRunning complains of what is said of the engine at work and does not go
// together.
func (e *Engine) ValidateRunning() error {
	wheel := e.entry("flywheel")
	if e.Has("flywheel") {
		wheel.need(aLength, "diameter", "rim_width", "rim_depth")
		wheel.need(`a metal, such as "cast iron"`, "material")
	}
	wheel.together("boss", "boss_width")
	if s := e.Flywheel.Evenness; s != nil && *s == 0 {
		wheel.complain("evenness", "none; accepted: a share of the mean speed by which it may swing, such as \"5 %%\"")
	}
	valve := e.entry("valve")
	valve.above("width", e.Valve.Width, aboveZero)
	valve.above("cavity_width", e.Valve.CavityWidth, aboveZero)
	valve.together("width", "cavity_width")
	cylinder := e.entry("cylinder")
	cylinder.above("piston_rod", e.Cylinder.PistonRod, aboveZero+", or no such key where there is none")
	if p := e.Cylinder.Pressure; p != nil && !(*p > 0) {
		cylinder.complain("pressure", "%v; accepted: above zero, what the cylinder is declared for, or no such key", *p)
	}
	return said(wheel, valve, cylinder, e.entry("running"))
}

// flywheel compares the sizes of the flywheel and the speed of the engine with what is
// turned of it.
func (e *Engine) flywheel() error {
	var all []error
	f, largest := &e.File.Flywheel, -1
	for i, o := range e.File.Operations {
		if placeName(o.Part) != "flywheel" {
			continue
		}
		key := fmt.Sprintf("operations[%d]", i)
		if o.RunsAt != nil && e.File.Running.Speed != nil && *e.File.Running.Speed > *o.RunsAt {
			all = append(all, e.Contradicts("running.speed", e.File.Running.Speed.String(), key+".runs_at", o.RunsAt.String(),
				"an engine no faster than its flywheel runs"))
		}
		turns := o.Operation != nil && (*o.Operation == speeds.Turning || *o.Operation == speeds.Facing)
		if turns && sound(o.Diameter) && (largest < 0 || o.Diameter.Cmp(*e.File.Operations[largest].Diameter) > 0) {
			largest = i
		}
	}
	if largest >= 0 && sound(f.Diameter) {
		if o := e.File.Operations[largest]; *o.Diameter != *f.Diameter {
			all = append(all, e.Contradicts("flywheel.diameter", f.Diameter.String(), fmt.Sprintf("operations[%d].diameter", largest),
				o.Diameter.String(), "the largest diameter that is turned or faced of the flywheel"))
		}
	}
	return Join(all...)
}

// FlywheelSizes returns the flywheel; false where the file has none. It is not
// checked.
func (e *Engine) FlywheelSizes() (indicator.Flywheel, bool) {
	f := &e.File.Flywheel
	if f.Diameter == nil || f.RimWidth == nil || f.RimDepth == nil || f.Material == nil {
		return indicator.Flywheel{}, false
	}
	wheel := indicator.Flywheel{Diameter: *f.Diameter, RimWidth: *f.RimWidth, RimDepth: *f.RimDepth, Metal: *f.Material}
	for _, may := range []struct{ to, from *units.Length }{
		{&wheel.Web, f.Web}, {&wheel.Boss, f.Boss}, {&wheel.BossWidth, f.BossWidth}, {&wheel.Bore, f.Bore},
	} {
		if may.from != nil {
			*may.to = *may.from
		}
	}
	return wheel, true
}

// FlywheelFit returns which of the fits is that of the flywheel on its shaft, the first
// whose place begins with the wheel; false where there is none.
func (e *Engine) FlywheelFit() (int, bool) {
	for i, f := range e.File.Fits {
		if first, _, _ := strings.Cut(placeName(f.Where), " "); first == "flywheel" {
			return i, true
		}
	}
	return 0, false
}
