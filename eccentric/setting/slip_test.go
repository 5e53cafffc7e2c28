package setting

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// slipping is the gauge 1 gear of EC-15 without slant: a travel of 4, a lap of 0.6 and a
// port of 1.6 mm.
func slipping(t *testing.T, lead float64) Setting {
	t.Helper()
	g := demo()
	g.ConnectingRod, g.EccentricRod, g.Travel = eccentric.InfiniteRod(), eccentric.InfiniteRod(), units.MM(4)
	g.Ports = eccentric.Ports{Steam: units.MM(1.6), Bar: units.MM(1.4), Exhaust: units.MM(3), Length: units.MM(6)}
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.MM(0.6)})
	g, err := g.WithLead(units.MM(lead), eccentric.BothEnds)
	if err != nil {
		t.Fatal(err)
	}
	return Setting{Gear: g, Slip: Slip{Pin: units.MM(3), Radius: units.MM(8)}}
}

// EC-15: the pin goes 180 - 2 d; a travel of 120 degrees sets an advance of 30, and with
// it a lead of 0.4 mm, admission 12.54 degrees early and cut-off at 132.54; a lead of 0.1
// wants 20.49 and a travel of 139.0.
func TestSlip(t *testing.T) {
	s := slipping(t, 0.1)
	sheet, err := s.Sheet()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "advance", s.Gear.Advance.Degrees(), 20.49, 0.005)
	near(t, "travel of the pin", sheet.Stop.Travel.Degrees(), 139.0, 0.05)
	longer := 2 * math.Asin(3.0/16) * 180 / math.Pi
	near(t, "slot", sheet.Stop.Slot.Degrees(), 139.03+longer, 0.005)
	if sheet.Stop.Made != nil {
		t.Error("a slot that nobody milled")
	}

	s.Slip.Slot = units.Angle(120+longer) * units.Degree
	if sheet, err = s.Sheet(); err != nil {
		t.Fatal(err)
	}
	made := sheet.Stop.Made
	near(t, "advance of 120", made.Gear.Advance.Degrees(), 30, 1e-9)
	near(t, "lead of 120", made.Events.Head.Lead.MM(), 0.4, 1e-6)
	near(t, "admission", made.Events.Head.Admission.Crank.Degrees(), -12.54, 0.005)
	near(t, "cut-off", made.Events.Crank.CutOff.Crank.Degrees(), 132.54, 0.005)
	near(t, "too short by", made.Longer.Degrees(), 19.03, 0.005)
	if !made.Packing.IsZero() {
		t.Errorf("a slot that is too short is packed by %v", made.Packing)
	}
}

// Of the demonstration engine the pin goes 128 degrees and the slot is 149.6 long; one
// that is milled 128 end to end gives 36.8. One that is too long is packed by its arc.
func TestSlotMilled(t *testing.T) {
	s := Setting{Gear: demo(), Slip: Slip{units.MM(3), units.MM(8), 128 * units.Degree}}
	sheet, err := s.Sheet()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "travel", sheet.Stop.Travel.Degrees(), 128, 1e-9)
	near(t, "slot", sheet.Stop.Slot.Degrees(), 149.6, 0.05)
	near(t, "advance", sheet.Stop.Made.Gear.Advance.Degrees(), 36.8, 0.05)
	if text := sheet.Stages[7].Text; !strings.Contains(text, "it is 21.6 deg too short, and is milled on by as much") {
		t.Error(text)
	}
	s.Slip.Slot = sheet.Stop.Slot
	if sheet, err = s.Sheet(); err != nil {
		t.Fatal(err)
	}
	if text := sheet.Stages[7].Text; strings.Contains(text, "too ") || !strings.Contains(text, "gives an angle of advance of 26.0 deg") {
		t.Error(text)
	}
	s.Slip.Slot = sheet.Stop.Slot + 5*units.Degree
	if sheet, err = s.Sheet(); err != nil {
		t.Fatal(err)
	}
	if text := sheet.Stages[7].Text; !strings.Contains(text, "it is 5.0 deg too long, and a packing of 0.7 mm at one end of it") {
		t.Error(text)
	}
	near(t, "packing", sheet.Stop.Made.Packing.MM(), 8*5*math.Pi/180, 1e-9)
	near(t, "too long", sheet.Stop.Made.Longer.Degrees(), -5, 1e-9)
	near(t, "gives", sheet.Stop.Made.Gear.Advance.Degrees(), 23.5, 1e-9)
}
