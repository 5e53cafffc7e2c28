package indicator

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Each engine is the sound demonstration engine spoilt in one way.
func TestCheck(t *testing.T) {
	for _, test := range []struct {
		name     string
		spoil    func(*Running)
		code     finding.Code
		severity finding.Severity
		says     string
	}{
		{"sheave in line with the crank", func(r *Running) { r.Gear.Advance = 90 * units.Degree }, GearDoesNotRun, finding.Fails, "gives 0.312 J a turn"},
		{"sheave in line, away from the crank", func(r *Running) { r.Gear.Advance = -90 * units.Degree }, GearDoesNotRun, finding.Fails, "(little work), whatever the pressure. With 3.01 bar absolute (2.00 on the gauge) in the chest the ideal cycle of a cylinder takes 0.774 J"},
		{"sheave for the other direction", func(r *Running) { r.Gear.Advance = 154 * units.Degree }, GearDoesNotRun, finding.Fails, "runs backwards"},
		{"advance counted from the crank", func(r *Running) { r.Gear.Advance = 116 * units.Degree }, GearDoesNotRun, finding.Fails, "(runs backwards)"},
		{"hardly any pressure", func(r *Running) {
			r.Gear.Valve.Cavity, r.Clearance, r.Chest = units.MM(6.2), Both(0.01), 0.05*units.Bar
		},
			NoNetWork, finding.Fails, "J a turn out of the flywheel: the engine does not run"},
		{"land narrower than the port", func(r *Running) { r.Gear.Valve.Cavity = units.MM(11.8) }, OpenToBoth, finding.Fails, "open to steam and to exhaust"},
		{"much exhaust lap and no room", func(r *Running) { r.Gear.Valve.Cavity, r.Clearance = units.MM(6), Both(0.02) }, OverCompression, finding.Caution,
			"It lifts the slide valve"},
		{"a little more than the chest has", func(r *Running) { r.Chest, r.Gear.Valve.Cavity = 1.05*units.Bar, units.MM(7.6) }, OverCompression,
			finding.Caution, "Compression goes up to"},
		{"the same in a piston valve", func(r *Running) {
			r.Gear.InsideAdmission = true
			r.Gear.Valve = eccentric.Valve{Length: units.MM(16), Cavity: units.MM(6.6)}
			r.Clearance = Both(0.02)
		}, OverCompression, finding.Caution, "water has no way out"},
		{"early cut-off at a low pressure", func(r *Running) {
			r.Chest, r.Gear.Valve.Cavity = 0.1*units.Bar, units.MM(7)
		}, ExpandsBelowBack, finding.Caution, "below the exhaust"},
		{"fast", func(r *Running) { r.Speed = 4000 * units.RevPerMinute }, PortsThrottle, finding.Caution, "air goes in by the port at 52 m/s"},
		{"fast and heavy", func(r *Running) { r.Speed, r.Moving = 3000*units.RevPerMinute, 0.2 }, InertiaKnocks, finding.Caution, "with a knock"},
		{"cranks opposite", func(r *Running) { r.Cranks = []units.Angle{180 * units.Degree} }, StartsNotFromAll, finding.Note, "turned on by up to"},
		{"never open, twice", func(r *Running) { r.Gear.Valve.Length, r.Cranks = units.MM(20), []units.Angle{1} }, StartsNotFromAll, finding.Note, "from nowhere"},
	} {
		r := demo()
		if test.spoil(&r); r.Validate() != nil {
			t.Errorf("%s: %v", test.name, r.Validate())
			continue
		}
		list, err := r.Check()
		i := slices.IndexFunc(list, func(f finding.Finding) bool { return f.Code == test.code && strings.Contains(f.Text, test.says) })
		if err != nil || i < 0 || list[i].Severity != test.severity {
			t.Errorf("%s: %v, %v", test.name, list, err)
		}
		if fails := finding.ListOf(r.Gear.Check()).OK(); !fails && list.OK() {
			t.Errorf("%s: the gear fails and the engine does not", test.name)
		}
	}
	if list, err := demo().Check(); err != nil || len(list) != 0 {
		t.Errorf("the demonstration engine: %v, %v", list, err)
	}
}

// What is missing or cannot be is refused, with what is accepted.
func TestRefuses(t *testing.T) {
	for _, test := range []struct {
		spoil func(*Running)
		kind  error
		says  string
	}{
		{func(r *Running) { r.Gear.Stroke = units.Length{} }, units.ErrMissing, "stroke"},
		{func(r *Running) { r.Bore = units.Length{} }, units.ErrMissing, "bore"},
		{func(r *Running) { r.Bore = units.MM(-20) }, units.ErrOutOfRange, "bore"},
		{func(r *Running) { r.PistonRod = units.MM(20) }, units.ErrOutOfRange, "thinner than the bore"},
		{func(r *Running) { r.PistonRod = units.MM(-1) }, units.ErrOutOfRange, "piston rod"},
		{func(r *Running) { r.Medium = 0 }, units.ErrMissing, "air or steam"},
		{func(r *Running) { r.Medium = 7 }, units.ErrUnknown, "air"},
		{func(r *Running) { r.Chest = 0 }, units.ErrMissing, "2 to 6 bar is usual on steam"},
		{func(r *Running) { r.Chest = 41 * units.Bar }, units.ErrOutOfRange, "up to 40 bar"},
		{func(r *Running) { r.Back = 2 * units.Bar }, units.ErrOutOfRange, "below the pressure in the chest"},
		{func(r *Running) { r.Back = -1.1 * units.Bar }, units.ErrOutOfRange, "vacuum"},
		{func(r *Running) { r.Atmosphere = 2 * units.Bar }, units.ErrOutOfRange, "0.4 to 1.1 bar"},
		{func(r *Running) { r.Index = 0 }, units.ErrMissing, "1.135"},
		{func(r *Running) { r.Index = 1.5 }, units.ErrOutOfRange, "1.4"},
		{func(r *Running) { r.Index = math.NaN() }, units.ErrOutOfRange, "index"},
		{func(r *Running) { r.Clearance.Head = 0 }, units.ErrMissing, "0.03 to 0.10 is usual"},
		{func(r *Running) { r.Clearance.Crank = 8 }, units.ErrOutOfRange, "clearance of the crank end"},
		{func(r *Running) { r.Speed = -1 }, units.ErrOutOfRange, "speed"},
		{func(r *Running) { r.Speed = units.RotationalSpeed(math.Inf(1)) }, units.ErrOutOfRange, "speed"},
		{func(r *Running) { r.Speed = 1e-5 }, units.ErrOutOfRange, "0.001"}, // below any engine, and where throttling speeds overflow
		{func(r *Running) { r.Moving = -1 }, units.ErrOutOfRange, "moving parts"},
		{func(r *Running) { r.Moving = 1e-300 }, units.ErrOutOfRange, "1 mg"},
		{func(r *Running) { r.Cranks = make([]units.Angle, 12) }, units.ErrOutOfRange, "up to 12"},
		{func(r *Running) { r.Cranks = []units.Angle{7} }, units.ErrOutOfRange, "-360 to 360"},
	} {
		r := demo()
		test.spoil(&r)
		check.Refuses(t, test.says, r.Validate(), test.kind, test.says)
		for name, call := range map[string]func() error{
			"Cycle": func() error { _, err := r.Cycle(); return err }, "At": func() error { _, err := r.At(0); return err },
			"Points": func() error { _, err := r.Points(4); return err }, "Turning": func() error { _, err := r.Turning(); return err },
			"Starting": func() error { _, err := r.Starting(0); return err }, "Forces": func() error { _, err := r.Forces(0); return err },
			"Power": func() error { _, err := r.Power(); return err }, "PortFlow": func() error { _, err := r.PortFlow(); return err },
			"Inertia": func() error { _, err := r.Inertia(); return err }, "Check": func() error { _, err := r.Check(); return err },
			"Hold": func() error { _, err := r.Hold(units.MM(14), units.MM(10)); return err },
		} {
			if !errors.Is(call(), test.kind) {
				t.Errorf("%s: %s: %v", test.says, name, call())
			}
		}
	}
	var bad *units.ArgumentError
	if err := (Running{}).Validate(); !errors.As(err, &bad) || strings.Contains(err.Error(), "%!") {
		t.Error(err)
	}
	still, bare, inside := demo(), demo(), demo()
	still.Speed, bare.Gear.Ports.Length, inside.Gear.InsideAdmission = 0, units.Length{}, true
	fourteen, ten := units.MM(14), units.MM(10)
	for _, test := range []struct {
		name string
		call func() error
		kind error
		says string
	}{
		{"at no angle", func() error { _, err := demo().At(units.Angle(math.NaN())); return err }, units.ErrNotFinite, "crank angle"},
		{"forces at no angle", func() error { _, err := demo().Forces(units.Angle(math.Inf(1))); return err }, units.ErrNotFinite, "crank angle"},
		{"no points", func() error { _, err := demo().Points(0); return err }, units.ErrOutOfRange, "36,000"},
		{"friction that helps", func() error { _, err := demo().Starting(-1); return err }, units.ErrOutOfRange, "zero or more"},
		{"power at rest", func() error { _, err := still.Power(); return err }, units.ErrMissing, "200 to 600 rev/min"},
		{"flow at rest", func() error { _, err := still.PortFlow(); return err }, units.ErrMissing, "speed"},
		{"flow without ports", func() error { _, err := bare.PortFlow(); return err }, units.ErrMissing, "port length"},
		{"parts without weight", func() error { _, err := demo().Inertia(); return err }, units.ErrMissing, "moving parts"},
		{"piston valve", func() error { _, err := inside.Hold(fourteen, ten); return err }, units.ErrOutOfRange, "off its face"},
		{"valve of no width", func() error { _, err := demo().Hold(units.Length{}, ten); return err }, units.ErrOutOfRange, "width of the valve"},
		{"cavity wider than the valve", func() error { _, err := demo().Hold(ten, fourteen); return err }, units.ErrOutOfRange, "less than the valve's"},
		{"cavity narrower than the ports", func() error { _, err := demo().Hold(fourteen, units.MM(9)); return err }, units.ErrOutOfRange, "ports or more"},
		{"hold without ports", func() error { _, err := bare.Hold(fourteen, ten); return err }, units.ErrMissing, "port length"},
	} {
		check.Refuses(t, test.name, test.call(), test.kind, test.says)
	}
}
