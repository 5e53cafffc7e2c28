package units_test

import (
	"encoding"
	"errors"
	"math"
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
