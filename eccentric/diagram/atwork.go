package diagram

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// AtWork draws an engine at work: the pressures at both ends over the stroke, as an
// indicator would draw them, and the turning moment of all cylinders over a turn of the
// first crank. It is the ideal cycle of package indicator. It fails where
// [indicator.Running.Validate] does. See the Example.
func AtWork(r indicator.Running, o Options) ([]Picture, error) {
	cycle, err := r.Cycle()
	if err != nil {
		return nil, err
	}
	turning, err := r.Turning()
	if err != nil {
		return nil, err
	}
	v, err := gearingOf(r.Gear, o)
	if err != nil {
		return nil, err
	}
	w := &working{gearing: v, run: r, cycle: cycle, turning: turning}
	h, k := cycle.Head, cycle.Crank
	pressures, err := picture(roomy(w.pressures), "pressures-over-the-stroke", "Pressures over the stroke, both ends",
		fmt.Sprintf("Indicator diagrams of the ideal cycle. Mean pressure of the head end %s, work %s; of the crank end %s, work %s.",
			w.pressure(h.MeanPressure), w.energy(h.Work), w.pressure(k.MeanPressure), w.energy(k.Work)),
		"Pressures as a gauge shows them. Whole line: the head end; broken: the crank end. Numbers are those of the events.")
	if err != nil {
		return nil, err
	}
	moment, err := picture(roomy(w.moment), "turning-moment", "The turning moment over a turn",
		fmt.Sprintf("Turning moment over the crank angle. Mean %s; greatest %s at %s, least %s at %s.",
			w.torque(turning.Mean), w.torque(turning.Greatest.Torque), inDegrees(turning.Greatest.Turned),
			w.torque(turning.Least.Torque), inDegrees(turning.Least.Turned)),
		"Of all cylinders, in the ideal cycle without friction; below zero the flywheel turns the engine.")
	return []Picture{pressures, moment}, err
}

type working struct {
	*gearing
	run     indicator.Running
	cycle   indicator.Cycle
	turning indicator.Turning
}

func (w *working) pressure(p units.Pressure) string {
	return figure(p.In(w.rule.pressure), 2) + " " + w.rule.pressureName
}

func (w *working) energy(e units.Energy) string {
	return rounded(e.In(w.rule.energy)) + " " + w.rule.energyName
}

func (w *working) torque(t units.Torque) string {
	return rounded(t.In(w.rule.torque)) + " " + w.rule.torqueName
}

// rounded writes a figure to four places in all, and at most three behind the point.
func rounded(v float64) string {
	places := 3
	for ten := 10.0; places > 0 && math.Abs(v) >= ten; ten *= 10 {
		places--
	}
	return figure(v, places)
}

// at returns the state at a crank angle; the engine was validated.
func (w *working) stateAt(t float64) indicator.Point {
	p, err := w.run.At(units.Angle(t))
	if err != nil {
		return indicator.Point{}
	}
	return p
}

// breaks are the crank angles at which a port of an end opens or shuts, in a turn.
func (w *working) breaks(ends ...eccentric.End) []float64 {
	breaks := []float64{0, fullTurn}
	for _, m := range w.instants {
		for _, end := range ends {
			if m.Occurs && m.end == end {
				breaks = append(breaks, m.turned)
				for _, ahead := range w.run.Cranks {
					if len(ends) > 1 {
						breaks = append(breaks, turned(m.turned-float64(ahead)))
					}
				}
			}
		}
	}
	return sorted(breaks)
}

// jumping returns points along what may jump where a port opens; between those angles it
// is smooth.
func jumping(breaks []float64, at func(float64) sheet.Point) []sheet.Point {
	const hair = 1e-9
	var points []sheet.Point
	for i := 1; i < len(breaks); i++ {
		if from, to := breaks[i-1]+hair, breaks[i]-hair; to > from {
			points = append(points, smoothly(from, to, at)...)
		}
	}
	return points
}

func (w *working) pressures(taller float64) *plate {
	const told = 4 * listUp
	foot, high := 2+told+footUp+1, 70+taller
	p := newPlate(wide, foot+high+7)
	h, k := w.cycle.Head, w.cycle.Crank
	columns := []column{{2, sheet.Start}, {84, sheet.End}, {wide - 2, sheet.End}}
	p.list(2+told-listUp+below*letters, columns, []string{"", "head end", "crank end"},
		[]string{"mean pressure", w.pressure(h.MeanPressure), w.pressure(k.MeanPressure)},
		[]string{"work in a turn", w.energy(h.Work), w.energy(k.Work)},
		[]string{"highest pressure", w.pressure(w.run.Gauge(h.Highest)), w.pressure(w.run.Gauge(k.Highest))})
	gauge := func(p units.Pressure) float64 { return w.run.Gauge(p).In(w.rule.pressure) }
	low := min(0, gauge(h.Lowest), gauge(k.Lowest))
	top := max(gauge(h.Highest), gauge(k.Highest), w.run.Chest.In(w.rule.pressure))
	step := stepFor(top-low, 8)
	low, top = widened(low, top*1.02, step)
	stroke := w.rule.of(w.Stroke.In(units.Millimetres))
	margin := 0.04 * stroke
	left := max(sideWide(low, top, step), 8)
	c := chart{p, axis{-margin, stroke + margin, left, wide - 4}, axis{low, top, foot, foot + high}}
	c.side(step, w.rule.pressureName+" above the atmosphere")
	c.foot(stepFor(stroke, 10), "piston from its head-end dead centre, "+w.rule.lengthName)
	c.level(sheet.Centre, 0)
	if chest := w.run.Chest.In(w.rule.pressure); c.y.has(chest) {
		c.level(sheet.Measure, chest)
	}
	heads := func(t float64) sheet.Point { s := w.stateAt(t); return c.at(s.Piston*stroke, gauge(s.Head)) }
	cranks := func(t float64) sheet.Point { s := w.stateAt(t); return c.at(s.Piston*stroke, gauge(s.Crank)) }
	p.chain(sheet.Curve, true, jumping(w.breaks(eccentric.HeadEnd), heads)...)
	p.chain(sheet.Other, true, jumping(w.breaks(eccentric.CrankEnd), cranks)...)
	marks := func(m instant) sheet.Point {
		state := [...]indicator.State{h.Admission, h.CutOff, h.Release, h.Compression,
			k.Admission, k.CutOff, k.Release, k.Compression}[m.number[0]-'1']
		return c.at(m.piston*stroke, gauge(state.Before))
	}
	for _, m := range w.instants {
		if m.Occurs {
			c.ring(sheet.Edge, marks(m), dot)
		}
	}
	c.said(w.run.Chest.In(w.rule.pressure), "steam chest "+w.pressure(w.run.Chest))
	for i, draw := range [...]func(float64) sheet.Point{heads, cranks} {
		var anchors []sheet.Point
		for t := 0.3; t < fullTurn; t += 0.3 {
			anchors = append(anchors, draw(t))
		}
		c.name(names, [...]string{"head end", "crank end"}[i], anchors...)
	}
	for _, m := range w.instants {
		if m.Occurs {
			c.ringed(marks(m), m.number)
		}
	}
	return p
}

func (w *working) moment(taller float64) *plate {
	const told = 3 * listUp
	foot, high := 2+told+footUp+1, 60+taller
	p := newPlate(wide, foot+high+7)
	t := w.turning
	columns := []column{{2, sheet.Start}, {84, sheet.End}, {wide - 2, sheet.End}}
	p.list(2+told-listUp+below*letters, columns, []string{"mean of a turn", w.torque(t.Mean), ""},
		[]string{"greatest", w.torque(t.Greatest.Torque), "at " + inDegrees(t.Greatest.Turned)},
		[]string{"least", w.torque(t.Least.Torque), "at " + inDegrees(t.Least.Turned)})
	of := func(t units.Torque) float64 { return t.In(w.rule.torque) }
	low, top := min(0, of(t.Least.Torque)), max(0, of(t.Greatest.Torque))
	if !(top > low) {
		top = 1
	}
	step := stepFor(top-low, 8)
	low, top = widened(low, top, step)
	left := max(sideWide(low, top, step), 8)
	c := chart{p, axis{0, 360, left, wide - 4}, axis{low, top, foot, foot + high}}
	c.side(step, "turning moment, "+w.rule.torqueName)
	c.foot(30, "crank angle from the head-end dead centre, degrees")
	c.level(sheet.Measure, 0)
	c.level(sheet.Centre, of(t.Mean))
	at := func(a float64) sheet.Point { return c.at(a*180/math.Pi, of(w.stateAt(a).Moment)) }
	p.chain(sheet.Curve, false, jumping(w.breaks(eccentric.HeadEnd, eccentric.CrankEnd), at)...)
	c.said(of(t.Mean), "mean "+w.torque(t.Mean))
	return p
}
