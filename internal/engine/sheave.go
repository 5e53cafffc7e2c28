package engine

import (
	"github.com/valvechest/valvechest/units"
)

// A SheaveMade is the sheave of the eccentric, the bar that it is turned from and what it is
// set with.
type SheaveMade struct {
	Diameter *units.Length `toml:"diameter"` // that the strap runs on
	Bore     *units.Length `toml:"bore"`
	Lip      *units.Length `toml:"lip"`
	Boss     *units.Length `toml:"boss"`
	Screw    *units.Length `toml:"screw"` // diameter of the grub screw
	Strap    *units.Length `toml:"strap"` // its width
	Clean    *units.Length `toml:"clean"` // that comes off the bar all round

	Bar   *units.Length `toml:"bar"`
	Vee   *units.Angle  `toml:"vee"`   // of the vee block, included
	Jaw   *units.Length `toml:"jaw"`   // width of the jaws of the three-jaw chuck
	Pitch *units.Length `toml:"pitch"` // of the jaws' screws of the four-jaw chuck
	Dial  *units.Length `toml:"dial"`  // range of the dial
}

// ValidateSheave complains of what the sheave lacks.
func (e *Engine) ValidateSheave() error {
	t := e.entry("sheave")
	if e.Has("sheave") {
		t.need(aLength, "diameter", "bore", "bar")
	}
	s := &e.File.Sheave
	for _, l := range []struct {
		key   string
		value *units.Length
	}{
		{"diameter", s.Diameter}, {"bore", s.Bore}, {"lip", s.Lip}, {"boss", s.Boss}, {"screw", s.Screw}, {"strap", s.Strap}, {"clean", s.Clean},
		{"bar", s.Bar}, {"jaw", s.Jaw}, {"pitch", s.Pitch}, {"dial", s.Dial},
	} {
		t.above(l.key, l.value, aboveZero+", or no such key")
	}
	return said(t)
}

// sheave compares the bore of the sheave with the shaft that it is set on.
func (e *Engine) sheave() error {
	bore, shaft := e.File.Sheave.Bore, e.File.Setting.Shaft
	if !sound(bore) || !sound(shaft) || *bore == *shaft {
		return nil
	}
	return e.Contradicts("sheave.bore", bore.String(), "setting.shaft", shaft.String(), "one size, that of the shaft under the sheave")
}
