package cutting_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// An invented port of 2 by 10 mm, 3 mm deep, with a slot drill of 1.5 mm: 16 laps.
func ExampleSlotPassFor() {
	p, err := cutting.SlotPassFor(units.MM(1.5))
	fmt.Println(p.Start, p.Most, err)

	iron, _ := material.Lookup("cast iron")
	c := cutting.Cut{Operation: speeds.SlotMilling, Material: iron, Diameter: units.MM(1.5), Teeth: 2,
		Spindle: 2000 * units.RevPerMinute, Feed: speeds.Feed{Min: units.MM(0.003), PerTooth: true},
		Length: units.MM(10), Width: units.MM(2), Stock: units.MM(3)}
	path, _ := c.Path()
	t, err := c.Time()
	findings, _ := c.Check()
	fmt.Println(path.Length, path.Passes, t, len(findings), err)
	// Output:
	// 0.1875 mm 0.3 mm <nil>
	// 18 mm 16 24m0s 0 <nil>
}

// SP-08: 2 mm in iron goes 0.25 mm deep at a time, 0.4 at most, and a slot of 31.75 by 12
// mm at 60 mm/min takes 24 minutes of cutting: half an hour with the chips.
func TestSlotOfTwoMillimetres(t *testing.T) {
	p, err := cutting.SlotPassFor(units.MM(2))
	if err != nil || p.Start != units.MM(0.25) || p.Most != units.MM(0.4) {
		t.Errorf("%+v, %v", p, err)
	}
	c := cutting.Cut{Operation: speeds.SlotMilling, Diameter: units.MM(2), Teeth: 2, Spindle: 6000 * units.RevPerMinute,
		Feed: speeds.Feed{Min: units.MM(0.005), PerTooth: true}, Length: units.MM(31.75), Stock: units.MM(12)}
	vf, err := c.FeedSpeed()
	if err != nil || math.Abs(vf.In(units.MillimetrePerMinute)-60) > 1e-9 {
		t.Errorf("%v, %v", vf, err)
	}
	d, err := c.Time()
	if want := 48 * 29.75 / 60; err != nil || math.Abs(d.Minutes()-want) > 1e-6 || d.Minutes() < 20 || d.Minutes() > 30 {
		t.Errorf("%v, %v; want %v min", d, err, want)
	}
}

// SP-09: a fly cutter of 63 mm over 60 mm at 0.127 mm a turn and 120 rev/min takes 8
// minutes, clear of the work at both ends, and not 40.
func TestFlyCutterClears(t *testing.T) {
	c := cutting.Cut{Operation: speeds.FlyCutting, Diameter: units.MM(63), Spindle: 120 * units.RevPerMinute,
		Feed: speeds.Feed{Min: units.MM(0.127)}, Length: units.MM(60)}
	d, err := c.Time()
	if want := (60 + 63) / (0.127 * 120); err != nil || math.Abs(d.Minutes()-want) > 1e-6 {
		t.Errorf("%v, %v; want %v min", d, err, want)
	}
}

func TestSlotChecks(t *testing.T) {
	slot := cutting.Cut{Operation: speeds.SlotMilling, Diameter: units.MM(2), Length: units.MM(10)}
	for _, tt := range []struct {
		name     string
		change   func(*cutting.Cut)
		code     finding.Code
		severity finding.Severity
	}{
		{"as it should be", func(c *cutting.Cut) { c.Width, c.Deep = units.MM(2.5), units.MM(0.4) }, "", 0},
		{"no width and no depth given", func(c *cutting.Cut) {}, "", 0},
		{"as wide as the slot", func(c *cutting.Cut) { c.Width = units.MM(2) }, cutting.CutterAsTheCut, finding.Caution},
		{"wider than the slot", func(c *cutting.Cut) { c.Width = units.MM(1.9) }, cutting.CutterTooWide, finding.Fails},
		{"longer than the slot", func(c *cutting.Cut) { c.Length = units.MM(2) }, cutting.CutterTooWide, finding.Fails},
		{"SP-08 a millimetre deep", func(c *cutting.Cut) { c.Deep = units.MM(1) }, cutting.CutTooDeep, finding.Caution},
		{"more than a millimetre deep", func(c *cutting.Cut) { c.Deep = units.MM(1.1) }, cutting.CutTooDeep, finding.Fails},
		{"an end mill", func(c *cutting.Cut) { c.Operation, c.Deep = speeds.Milling, units.MM(5) }, "", 0},
	} {
		c := slot
		tt.change(&c)
		all, err := c.Check()
		if err != nil || (len(all) == 0) != (tt.code == "") || len(all) > 0 && (all[0].Code != tt.code || all[0].Severity != tt.severity) {
			t.Errorf("%s: %v, %v", tt.name, all, err)
		}
	}
	for name, change := range map[string]func(*cutting.Cut){
		"shorter than the cutter": func(c *cutting.Cut) { c.Length = units.MM(2) },
		"over twice as wide":      func(c *cutting.Cut) { c.Width = units.MM(4.1) },
		"a negative width":        func(c *cutting.Cut) { c.Width = units.MM(-1) },
		"a cutter of a foot":      func(c *cutting.Cut) { c.Diameter, c.Length, c.Stock = units.MM(300), units.MM(400), units.MM(1) },
	} {
		c := slot
		change(&c)
		var bad *units.ArgumentError
		if p, err := c.Path(); !errors.As(err, &bad) {
			t.Errorf("%s: %+v, %v", name, p, err)
		}
	}
	if _, err := (cutting.Cut{Operation: speeds.SlotMilling}).Check(); err == nil {
		t.Error("a cutter of nothing")
	}
	if p, err := cutting.SlotPassFor(units.MM(6)); err != nil || p.Start != units.MM(1.5) || p.Most != units.MM(3) {
		t.Errorf("6 mm: %+v, %v", p, err)
	}
}
