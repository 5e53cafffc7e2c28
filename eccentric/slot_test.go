package eccentric

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// The pin and the slot drawn as points: the pin's centre stands at the two places
// that the advance asks for, and the lines from the shaft that touch it there are the
// slot's ends. No part of the formula is used.
func TestSlotOfPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := demo()
		advance := rapid.Float64Range(-60, 85).Draw(t, "advance")
		g.Advance = units.Angle(advance) * units.Degree
		radius := rapid.Float64Range(2, 40).Draw(t, "radius")
		pin := radius * rapid.Float64Range(0.02, 0.8).Draw(t, "pin")
		slot, err := g.SlotFor(units.MM(pin), units.MM(radius))
		if err != nil {
			t.Fatal(err)
		}
		forward, back := (90+advance)*math.Pi/180, (270-advance)*math.Pi/180 // of the high point, ahead of the crank
		for i, end := range []float64{back + slot.Radians()/2 - (back-forward)/2, forward - slot.Radians()/2 + (back-forward)/2} {
			at := []float64{back, forward}[i]
			x, y := radius*math.Cos(at), radius*math.Sin(at)
			away := math.Abs(x*math.Sin(end) - y*math.Cos(end)) // of the pin's centre from the line of the end
			if math.Abs(away-pin/2) > 1e-9*radius {
				t.Fatalf("the end is %g from the centre of a pin of %g", away, pin)
			}
		}
		again, err := g.WithSlot(slot, units.MM(pin), units.MM(radius))
		if err != nil || math.Abs(again.Advance.Degrees()-advance) > 1e-9 {
			t.Fatalf("advance %g and back %g, %v", advance, again.Advance.Degrees(), err)
		}
	})
}

func TestSlotRefuses(t *testing.T) {
	mm := units.MM
	for _, row := range []struct {
		name        string
		advance     units.Angle
		pin, radius units.Length
		slot        units.Angle
	}{
		{"no pin", 26, units.Length{}, mm(8), 128},
		{"pin below nothing", 26, mm(-3), mm(8), 128},
		{"no radius", 26, mm(3), units.Length{}, 128},
		{"pin as thick as the radius", 26, mm(8), mm(8), 128},
		{"no way to go", 90, mm(3), mm(8), 21},
		{"of the other direction", 116, mm(3), mm(8), -1},
		{"ends that meet", -85, mm(3), mm(8), 360},
		{"no number", units.Angle(math.NaN()), mm(3), mm(8), units.Angle(math.NaN())},
		{"without end", units.Angle(math.Inf(1)), mm(3), mm(8), units.Angle(math.Inf(1))},
	} {
		g := demo()
		g.Advance = row.advance * units.Degree
		var argument *units.ArgumentError
		if slot, err := g.SlotFor(row.pin, row.radius); !errors.As(err, &argument) || slot != 0 {
			t.Errorf("%s: slot %v, %v", row.name, slot, err)
		}
		if got, err := demo().WithSlot(row.slot*units.Degree, row.pin, row.radius); !errors.As(err, &argument) || got != (Gear{}) {
			t.Errorf("%s: %v", row.name, err)
		}
	}
	// A pin of 3 on a radius of 8 makes the slot 2*asin(3/16) = 21.6 degrees longer than its way.
	g := demo()
	g.Advance = -85 * units.Degree
	if _, err := g.SlotFor(mm(3), mm(8)); err == nil || !strings.Contains(err.Error(), "below 90 degrees and, for ends that do not meet, above -79.19") {
		t.Error(err)
	}
	if _, err := g.WithSlot(21*units.Degree, mm(3), mm(8)); err == nil || !strings.Contains(err.Error(), "longer than the pin, 21.61") {
		t.Error(err)
	}
	if _, err := (Gear{}).SlotFor(mm(3), mm(8)); err == nil {
		t.Error("a slot of no gear")
	}
}
