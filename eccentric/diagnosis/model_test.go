package diagnosis

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// modelGears are invented gears of every make: rods of both kinds, levers, admission
// inside, lost motion, ends that differ.
func modelGears() map[string]eccentric.Gear {
	base := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)), Travel: units.MM(6.4),
		EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(8.6)},
	}
	all := map[string]eccentric.Gear{"plain": base}
	with := func(name string, change func(g *eccentric.Gear)) {
		g := base
		change(&g)
		all[name] = g
	}
	with("endless", func(g *eccentric.Gear) {
		g.ConnectingRod, g.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
	})
	with("off centre", func(g *eccentric.Gear) { g.Valve.Offset, g.Valve.CavityOffset = units.MM(0.2), units.MM(0.1) })
	with("lever", func(g *eccentric.Gear) { g.LeverRatio, g.Advance = -1.2, 28*units.Degree })
	with("loose", func(g *eccentric.Gear) { g.Valve.LostMotion = units.MM(0.3) })
	with("ends", func(g *eccentric.Gear) { g.Ports.CrankSteam, g.Ports.CrankBar = units.MM(2.2), units.MM(2.4) })
	with("inside", func(g *eccentric.Gear) {
		g.InsideAdmission, g.Advance = true, 28*units.Degree
		g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.MM(0.2), Exhaust: units.MM(1.2)})
		g.Valve.Offset, g.Valve.LostMotion = units.MM(0.1), units.MM(0.1)
	})
	return all
}

var bothEnds = [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd}

// Without anything wrong the solver's engine is the gear: each reading of it is what
// package eccentric has, which computes it otherwise.
func TestModelIsTheGear(t *testing.T) {
	const sd = 0.01
	for name, gear := range modelGears() {
		if err := gear.Validate(); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		d := drawingOf(gear)
		e, err := gear.Events()
		if err != nil {
			t.Fatal(err)
		}
		is := func(what string, m measured, want float64) {
			t.Helper()
			m.sd, m.value = sd, want+0.1
			rows := d.rows(&m, &d.drawn, nil)
			if len(rows) != 1 || math.Abs(rows[0].off*sd+0.1) > 1e-8 {
				t.Errorf("%s, %s: off by %v, want -0.1", name, what, rows[0].off*sd)
			}
		}
		for _, end := range bothEnds {
			does, port := e.Head, gear.Ports.Steam
			if end == eccentric.CrankEnd {
				does = e.Crank
				port, _ = gear.Ports.At(end)
			}
			for kind, of := range map[Kind]eccentric.Event{
				Admission: does.Admission, CutOff: does.CutOff, Release: does.Release, Compression: does.Compression,
			} {
				if !of.Occurs {
					t.Fatalf("%s: %v of the %v end does not happen", name, kind, end)
				}
				is(fmt.Sprint(kind, end), measured{kind: kind, end: end}, float64(of.Crank))
				is(fmt.Sprint(kind, end, " by stroke"), measured{kind: kind, end: end, byStroke: true}, of.Stroke)
			}
			is(fmt.Sprint("lead", end), measured{kind: Lead, end: end}, does.Lead.MM())
			if does.Opening.Cmp(port) < 0 {
				is(fmt.Sprint("opening", end), measured{kind: Opening, end: end}, does.Opening.MM())
			}
			if does.ExhaustOpening.Cmp(port) < 0 {
				is(fmt.Sprint("exhaust opening", end), measured{kind: ExhaustOpening, end: end}, does.ExhaustOpening.MM())
			}
		}
		is("travel", measured{kind: Travel}, gear.Travel.Sub(gear.Valve.LostMotion).MM())
		for crank := -355.0; crank <= 360; crank += 5 {
			x, err := gear.Displacement(units.Angle(crank) * units.Degree)
			if err != nil {
				t.Fatal(err)
			}
			is(fmt.Sprint("valve at ", crank), measured{kind: ValveAt, at: crank * math.Pi / 180}, x.MM())
		}
	}
}

// The slopes of a row are what it changes by when an unknown changes, by differences.
func TestSlopesByDifferences(t *testing.T) {
	const step = 1e-6
	away := vector{
		advance: 0.05, shift: 0.07, reach: -0.06, steamHead: 0.04, steamCrank: -0.05, exhaustHead: 0.06, exhaustCrank: 0.03,
		lost: 0.08, portHead: 0.02, portCrank: -0.03,
	}
	for name, gear := range modelGears() {
		d := drawingOf(gear)
		at := d.drawn.add(1, &away)
		var all []measured
		for _, end := range bothEnds {
			for kind := Admission; kind <= Compression; kind++ {
				all = append(all, measured{kind: kind, end: end, value: 0.3}, measured{kind: kind, end: end, byStroke: true, value: 0.4},
					measured{kind: kind, end: end, never: true})
			}
			all = append(all, measured{kind: Lead, end: end, value: 0.1}, measured{kind: Opening, end: end, value: 1},
				measured{kind: ExhaustOpening, end: end, value: 1}, measured{kind: OpensNext, end: end, steam: true},
				measured{kind: OpensNext, end: end})
		}
		all = append(all, measured{kind: Travel, value: 6})
		for crank := 0.0; crank < 6.2; crank += 0.31 {
			all = append(all, measured{kind: ValveAt, at: crank, value: 0.2})
		}
		for _, m := range all {
			m.sd = 0.02
			rows := d.rows(&m, &at, nil)
			if len(rows) != 1 {
				t.Errorf("%s, %v %v: %d rows", name, m.kind, m.end, len(rows))
				continue
			}
			slope := rows[0].slope
			for i := range at {
				up, down := at, at
				up[i] += step
				down[i] -= step
				want := (d.rows(&m, &up, nil)[0].off - d.rows(&m, &down, nil)[0].off) / (2 * step)
				if math.Abs(slope[i]-want) > 1e-4*max(1, math.Abs(want)) {
					t.Errorf("%s, %v %v, by stroke %v, never %v, crank %.2f, unknown %d: %v, by differences %v", name, m.kind, m.end,
						m.byStroke, m.never, m.at, i, slope[i], want)
				}
			}
		}
	}
}

// An event that an engine does not have is as near as the valve comes, and costs by how
// far the edge misses: a row more, whose slopes are those of the miss. Below leastSlope
// of half the travel in a radian the slopes are as if it moved that fast.
func TestEventThatIsMissed(t *testing.T) {
	gear := modelGears()["plain"]
	d := drawingOf(gear)
	for _, end := range bothEnds {
		for _, kind := range []Kind{Admission, CutOff, Release, Compression} {
			at := d.drawn
			w := d.from(end, &at)
			short := 0.15 // mm, by which the edge misses its lap
			lap := w.r + w.shift + short
			if kind == Release || kind == Compression {
				lap = w.r - w.shift + short
				at[w.exhaustAt] = lap
			} else {
				at[w.steamAt] = lap
			}
			m := measured{kind: kind, end: end, value: 1, sd: 0.02}
			rows := d.rows(&m, &at, nil)
			if len(rows) != 2 || math.Abs(rows[1].off-short/missing) > 1e-9 {
				t.Fatalf("%v %v: %+v, want a second row of %v", kind, end, rows, short/missing)
			}
			for i := range at {
				up, down := at, at
				up[i] += 1e-6
				down[i] -= 1e-6
				want := (d.rows(&m, &up, nil)[1].off - d.rows(&m, &down, nil)[1].off) / 2e-6
				if math.Abs(rows[1].slope[i]-want) > 1e-5*max(1, math.Abs(want)) {
					t.Errorf("%v %v misses, unknown %d: %v, by differences %v", kind, end, i, rows[1].slope[i], want)
				}
			}
			if got, want := math.Abs(rows[0].slope[shift]), 1/(leastSlope*w.r*m.sd); math.Abs(got/want-1) > 1e-12 {
				t.Errorf("%v %v at the end of the way: slope %v, want %v", kind, end, got, want)
			}
			w = d.from(end, &at)
			if _, beyond := w.event(kind, &vector{}); math.Abs(beyond+short) > 1e-12 {
				t.Errorf("%v %v: beyond %v, want %v", kind, end, beyond, -short)
			}
		}
	}
}

// What is seen of a port: no more than its width, and no less than nothing.
func TestOpenedPort(t *testing.T) {
	const port, sd = 2.0, 0.04
	sure := 3 * math.Hypot(sd, 0.03) // 0.15
	for _, test := range []struct {
		name            string
		past, value     float64
		edge            bool
		want            float64
		byPort, nothing bool // the slope is that of the width; there is none
	}{
		{"open in part", 1.2, 1.1, false, 1.2, false, false},
		{"wide, and clearly seen less", 2.5, port - sure - 0.001, false, 2.5, false, false},
		{"wide, and seen nearly so", 2.5, port - sure + 0.001, false, port, true, false},
		{"wide and seen so, with just no more", 2.0, 2.0, false, 2.0, false, false},
		{"wide, with its edge out of place", 2.5, 1.0, true, port, true, false},
		{"part, with its edge out of place", 1.5, 1.0, true, 1.5, false, false},
		{"shut, and seen shut", -0.3, sure - 0.001, false, 0, false, true},
		{"shut, and clearly seen open", -0.3, sure + 0.001, false, -0.3, false, false},
		{"just open, and seen shut", 0.1, 0, false, 0.1, false, false},
	} {
		w := view{port: port, edge: test.edge, portAt: portCrank}
		slope := vector{reach: 1, lost: -0.5, steamCrank: -1}
		want := slope
		switch {
		case test.byPort:
			want = vector{portCrank: 1}
		case test.nothing:
			want = vector{}
		}
		got := w.opened(test.past, &measured{value: test.value, sd: sd}, &slope)
		if got != test.want || slope != want {
			t.Errorf("%s: %v with slopes %v, want %v with %v", test.name, got, slope, test.want, want)
		}
	}
}

// A lead of a port that is wide open is the port's width, to a feeler: with its edge in
// place as far as the reading says so, with its edge elsewhere whatever was read.
func TestLeadOfAWidePort(t *testing.T) {
	gear := modelGears()["plain"]
	d := drawingOf(gear)
	for _, end := range bothEnds {
		at := d.drawn
		w := d.from(end, &at)
		at[w.steamAt] = -4.5 // no lap: the valve stands far beyond the port
		const sd = 0.02
		lead := func(v vector, value float64) (float64, vector) {
			m := measured{kind: Lead, end: end, value: value, sd: sd}
			r := d.rows(&m, &v, nil)[0]
			return r.off*sd + value, r.slope
		}
		whole, _ := lead(at, 0)
		if !(whole > w.port+0.5) {
			t.Fatalf("%v: %v", end, whole)
		}
		for _, test := range []struct{ value, want float64 }{
			{w.port - 2*sd - 0.001, whole}, {w.port - 2*sd + 0.001, w.port}, {w.port, w.port}, {w.port + 0.1, w.port + 0.1},
			{whole + 0.2, whole},
		} {
			if got, _ := lead(at, test.value); math.Abs(got-test.want) > 1e-9 {
				t.Errorf("%v end, %v read: %v, want %v", end, test.value, got, test.want)
			}
		}
		at[w.portAt] += usualOff + 0.01
		got, slope := lead(at, 0)
		var want vector
		if want[w.portAt] = 1 / sd; math.Abs(got-at[w.portAt]) > 1e-9 || slope != want {
			t.Errorf("%v end, edge out of place: %v with %v", end, got, slope)
		}
		at[w.portAt] -= 0.02 // within what edges may be off
		if got, _ := lead(at, 0); math.Abs(got-whole) > 1e-9 {
			t.Errorf("%v end, edge in place: %v, want %v", end, got, whole)
		}
	}
}
