package diagram

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// The areas within the drawn curves, by the printed scales, are the mean pressures times
// the stroke and the work of a turn; and all that is written can be read.
func TestAtWorkMeasured(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 16))
	engines(t, 20, func(t testing.TB, g eccentric.Gear, o Options) {
		run := indicator.Running{Gear: g, Bore: g.Stroke, Medium: indicator.Air, Index: 1 + 0.4*r.Float64(),
			Chest: units.Pressure(1+5*r.Float64()) * units.Bar, Back: 0.1 * units.Bar,
			Clearance: indicator.Both(0.04 + 0.2*r.Float64())}
		drawn, err := AtWork(run, o)
		if err != nil {
			t.Fatal(err)
		}
		cycle, err := run.Cycle()
		if err != nil {
			t.Fatal(err)
		}
		length, pressure, torque := units.Millimetres, units.Bar, units.NewtonMetre
		if o.Inch {
			length, pressure, torque = units.Inches, units.PSI, units.PoundForceFoot/12
		}
		pictures := []*check.Picture{read(t, drawn[0]), read(t, drawn[1])}
		for _, p := range pictures {
			check.Legible(t, p)
		}
		x, y := scaleOf(t, pictures[0], false), scaleOf(t, pictures[0], true)
		unit := (x(1) - x(0)) * (y(1) - y(0))
		for _, end := range []struct {
			layer string
			want  units.Pressure
			way   float64
		}{{sheet.Curve.Name, cycle.Head.MeanPressure, -1}, {sheet.Other.Name, cycle.Crank.MeanPressure, 1}} {
			got := end.way * enclosed(pictures[0].On(end.layer)[0].Spots) / unit
			want := end.want.In(pressure) * g.Stroke.In(length)
			if math.Abs(got-want)*unit > 2 { // mm2 of the sheet, of about 6000
				t.Errorf("the card has an area of %.5g, want %.5g", got, want)
			}
		}
		x, y = scaleOf(t, pictures[1], false), scaleOf(t, pictures[1], true)
		unit = (x(1) - x(0)) * (y(1) - y(0))
		curve := pictures[1].On(sheet.Curve.Name)[0].Spots
		area := 0.0
		for i := 1; i < len(curve); i++ {
			area += (curve[i].X - curve[i-1].X) * ((curve[i].Y+curve[i-1].Y)/2 - y(0))
		}
		want := float64(cycle.Work) / float64(torque) * 180 / math.Pi
		if math.Abs(area/unit-want)*unit > 2 {
			t.Errorf("the moment does a work of %.5g, want %.5g", area/unit, want)
		}
	})
}

// enclosed returns the area within a closed line, positive anticlockwise.
func enclosed(spots []check.Spot) float64 {
	area := 0.0
	for i, a := range spots {
		b := spots[(i+1)%len(spots)]
		area += (a.X*b.Y - b.X*a.Y) / 2
	}
	return area
}

// The turning moment of a twin with heavy moving parts: at each angle that of the steam in
// both cylinders, each at its own crank, less what the moving masses take to speed them
// up, m*w^2*s'*s", by differences of the piston's places.
func TestTurningMomentOfTwin(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 16))
	engines(t, 20, func(t testing.TB, g eccentric.Gear, o Options) {
		single := indicator.Running{Gear: g, Bore: g.Stroke, Medium: indicator.Air, Index: 1.3,
			Chest: units.Pressure(1+4*r.Float64()) * units.Bar, Back: 0.1 * units.Bar, Clearance: indicator.Both(0.1)}
		twin := single
		twin.Speed = units.RotationalSpeed(100+400*r.Float64()) * units.RevPerMinute
		twin.Cranks = []units.Angle{units.Angle(60+60*r.Float64()) * units.Degree}
		speed := float64(twin.Speed) // radians in a second
		half := g.Stroke.In(units.Metres) / 2
		force := 2e5 * math.Pi / 4 * math.Pow(g.Stroke.In(units.Metres), 2)
		mass := (0.2 + 0.6*r.Float64()) * force / (speed * speed * half) // kg
		twin.Moving = units.Mass(mass) * units.Kilogram
		drawn, err := AtWork(twin, o)
		if err != nil {
			t.Fatal(err)
		}
		p := read(t, drawn[1])
		check.Legible(t, p)
		torque := units.NewtonMetre
		if o.Inch {
			torque = units.PoundForceFoot / 12
		}
		x, y := scaleOf(t, p, false), scaleOf(t, p, true)
		piston := func(a float64) float64 {
			s, err := g.PistonPosition(units.Angle(a))
			if err != nil {
				t.Fatal(err)
			}
			return s.In(units.Metres)
		}
		for deg := 2.5; deg < 360; deg += 5 {
			moment := 0.0 // N m
			for _, ahead := range [...]float64{0, twin.Cranks[0].Radians()} {
				a := deg*math.Pi/180 + ahead
				gas, err := single.At(units.Angle(a))
				if err != nil {
					t.Fatal(err)
				}
				const h = 1e-3
				back, here, on := piston(a-h), piston(a), piston(a+h)
				moment += gas.Moment.In(units.NewtonMetre) - mass*speed*speed*(on-back)/(2*h)*(on-2*here+back)/(h*h)
			}
			spot := check.Spot{X: x(deg), Y: y(moment * float64(units.NewtonMetre) / float64(torque))}
			// Three times, as the scale is read off figures whose lines stand to 0.01 mm.
			if off := fromLine(spot, p.On(sheet.Curve.Name)); off > 3*within {
				t.Errorf("the curve runs %.3f mm from the moment at %v degrees", off, deg)
			}
		}
	})
}
