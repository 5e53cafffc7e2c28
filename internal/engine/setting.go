package engine

import (
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// A Setting is what the valve and the sheave are set by.
type Setting struct {
	Rotation *setting.Rotation `toml:"rotation"`
	SeenFrom string            `toml:"seen_from"` // a side of the engine
	Shaft    *units.Length     `toml:"shaft"`     // its diameter under the sheave

	Spindle   *thread.Thread `toml:"spindle"` // of the valve
	NutPlaces *int           `toml:"nut_places"`

	StopPin    *units.Length `toml:"stop_pin"` // of a slip eccentric
	StopRadius *units.Length `toml:"stop_radius"`
	Slot       *units.Angle  `toml:"slot"`
}

// ValidateSetting complains of what is said of the setting and does not go together.
func (e *Engine) ValidateSetting() error {
	t, s := e.entry("setting"), &e.File.Setting
	t.together("rotation", "seen_from")
	if t.has("seen_from") {
		t.needText("seen_from", s.SeenFrom, `a side of the engine, such as "the flywheel"`)
	}
	t.above("shaft", s.Shaft, aboveZero)
	if t.has("nut_places") {
		t.need(`the thread of the valve spindle, such as "5 BA"`, "spindle")
	}
	if n := s.NutPlaces; n != nil && (*n < 1 || *n > setting.MostPlaces) {
		t.complain("nut_places", "%d; accepted: 1 to %d in a turn, such as 2 of a flat nut in a slot, or no such key where it"+
			" seats anywhere", *n, setting.MostPlaces)
	}
	t.together("stop_pin", "stop_radius")
	t.above("stop_pin", s.StopPin, aboveZero)
	t.above("stop_radius", s.StopRadius, aboveZero)
	if t.has("slot") {
		t.need(aLength+", of the stop in the slot", "stop_pin", "stop_radius")
	}
	return said(t)
}

// SettingOf returns what a gear is set by; the bore of the sheave stands for the shaft
// where that is not given. It is not checked.
func (e *Engine) SettingOf(g eccentric.Gear) setting.Setting {
	s, f := setting.Setting{Gear: g}, &e.File.Setting
	if e.Inches() {
		s.Step = units.Thou(6)
	}
	if f.Rotation != nil {
		s.Rotation, s.SeenFrom = *f.Rotation, strings.TrimSpace(f.SeenFrom)
	}
	if f.Spindle != nil {
		s.Nut.Pitch = f.Spindle.Pitch()
		if f.NutPlaces != nil {
			s.Nut.Places = *f.NutPlaces
		}
	}
	for _, may := range []struct{ to, from *units.Length }{
		{&s.Shaft, e.Sheave.Bore}, {&s.Shaft, f.Shaft},
		{&s.Wheel, e.Flywheel.Diameter}, {&s.Slip.Pin, f.StopPin}, {&s.Slip.Radius, f.StopRadius},
	} {
		if may.from != nil {
			*may.to = *may.from
		}
	}
	if f.Slot != nil {
		s.Slip.Slot = *f.Slot
	}
	return s
}
