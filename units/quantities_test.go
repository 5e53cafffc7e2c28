package units_test

import (
	"encoding"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// textOf returns how to write a value as text and read it into a fresh variable
// of the same type.
func textOf[T ~float64, P interface {
	*T
	encoding.TextMarshaler
	encoding.TextUnmarshaler
}](v float64) (string, float64, error) {
	from := T(v)
	text, err := P(&from).MarshalText()
	if err != nil {
		return "", 0, err
	}
	var back T
	err = P(&back).UnmarshalText(text)
	return string(text), float64(back), err
}

// Every quantity reads back the text that it writes, which is not the text of
// another quantity, and none writes a value that is not finite.
func TestTextOfEveryQuantity(t *testing.T) {
	seen := map[string]string{}
	for _, q := range []struct {
		name string
		text func(float64) (string, float64, error)
	}{
		{"angle", textOf[units.Angle]},
		{"pressure", textOf[units.Pressure]},
		{"force", textOf[units.Force]},
		{"torque", textOf[units.Torque]},
		{"power", textOf[units.Power]},
		{"energy", textOf[units.Energy]},
		{"mass", textOf[units.Mass]},
		{"density", textOf[units.Density]},
		{"speed", textOf[units.Speed]},
		{"rotational speed", textOf[units.RotationalSpeed]},
		{"temperature difference", textOf[units.TemperatureDifference]},
		{"area", textOf[units.Area]},
		{"volume", textOf[units.Volume]},
		{"volume flow", textOf[units.VolumeFlow]},
		{"linear expansion", textOf[units.Expansivity]},
	} {
		text, back, err := q.text(0.375)
		if err != nil || math.Abs(back-0.375) > 1e-15 {
			t.Errorf("%s: %q reads back as %g, %v", q.name, text, back, err)
		}
		if other := seen[text]; other != "" {
			t.Errorf("%s and %s both write %q", q.name, other, text)
		}
		seen[text] = q.name
		if text, _, err := q.text(math.NaN()); !errors.Is(err, units.ErrNotFinite) {
			t.Errorf("%s: %q, %v; want an error", q.name, text, err)
		}
	}
}

// The zero value of every quantity has text that reads back, and neither it nor
// what is a little below zero is written as -0.
func TestZeroValues(t *testing.T) {
	zero := math.Copysign(0, -1)
	for _, q := range []func(float64) (string, float64, error){
		textOf[units.Angle], textOf[units.Pressure], textOf[units.Force], textOf[units.Torque], textOf[units.Power],
		textOf[units.Energy], textOf[units.Mass], textOf[units.Density], textOf[units.Speed], textOf[units.RotationalSpeed],
		textOf[units.Temperature], textOf[units.TemperatureDifference], textOf[units.Area], textOf[units.Volume],
		textOf[units.VolumeFlow], textOf[units.Expansivity],
	} {
		for _, v := range []float64{0, zero} {
			if text, back, err := q(v); err != nil || back != 0 || math.Signbit(back) || strings.HasPrefix(text, "-0") {
				t.Errorf("%g is %q, which reads back as %g, %v", v, text, back, err)
			}
		}
	}
	if p, err := units.ParsePressure("-0 bar"); err != nil || math.Signbit(float64(p)) {
		t.Errorf("-0 bar is %g, %v", float64(p), err)
	}
	if a, err := units.ParseAngle("-0°0'"); err != nil || math.Signbit(float64(a)) {
		t.Errorf("-0°0' is %g, %v", float64(a), err)
	}
	if r := (units.Length{}).Ratio(units.MM(-1)); math.Signbit(r) {
		t.Errorf("0 / -1 mm is %g", r)
	}
	var l, back units.Length
	if text, err := l.MarshalText(); err != nil || back.UnmarshalText(text) != nil || back != l {
		t.Errorf("no length is %q, which reads back as %v", text, back)
	}
	if got := (units.Fraction{}).String(); got != "0 in" {
		t.Errorf("no fraction is %q", got)
	}
}

// The enumerations list themselves, and every one reads back.
func TestEnumerations(t *testing.T) {
	for _, u := range units.LengthUnits() {
		text, err := u.MarshalText()
		var back units.LengthUnit
		if err != nil || back.UnmarshalText(text) != nil || back != u || u.Length().IsZero() {
			t.Errorf("%v: %q, %v, back %v", u, text, err, back)
		}
	}
	for _, m := range units.RoundModes() {
		text, err := m.MarshalText()
		var back units.RoundMode
		if err != nil || back.UnmarshalText(text) != nil || back != m {
			t.Errorf("%v: %q, %v, back %v", m, text, err, back)
		}
	}
	if units.LengthUnit(len(units.LengthUnits())).Length() != (units.Length{}) {
		t.Error("there are more units than are listed")
	}
	if _, err := units.RoundMode(len(units.RoundModes())).MarshalText(); err == nil {
		t.Error("there are more directions than are listed")
	}
}
