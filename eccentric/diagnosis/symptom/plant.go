package symptom

import (
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A suspect is a fault in the sizes in which it is tried.
type suspect struct {
	fault string
	end   eccentric.End
	way   string // which way it is off, in a few words
	gear  bool   // a size of the gear, or its setting
	cause *cause
	sizes []state
}

// name says a suspect in a sentence: "too little advance".
func (s *suspect) name() string {
	name := s.cause.short
	switch {
	case strings.HasPrefix(s.way, "too "):
		name = s.way + " " + name
	case s.way != "":
		name += " " + s.way
	}
	if s.end != eccentric.BothEnds {
		name += " at the " + s.end.String() + " end"
	}
	return name
}

// way says which way a measured part is off, in the words of misplaced.
func way(p *diagnosis.Part) string {
	less := p.Angle < 0 || p.Length.Sign() < 0
	switch p.Fault {
	case diagnosis.ValveOffCentre:
		if less {
			return "away from the crank"
		}
		return "towards the crank"
	case diagnosis.WrongAdvance, diagnosis.WrongTravel, diagnosis.WrongSteamLap, diagnosis.WrongExhaustLap:
		if less {
			return "too little"
		}
		return "too much"
	}
	return ""
}

// inTurn returns the angle from -180 to 180 degrees that points the same way.
func inTurn(a float64) units.Angle { return units.Angle(math.Remainder(a, 2*math.Pi) + 0) }

// The sizes that are tried, of lengths in widths of the steam port: what is more is
// seen with a rule, what is less shows nothing.
const samePlace = 3 * math.Pi / 180 // within which a sheave stands where it should

var (
	degreesOff = [...]float64{7, 15, 30}
	portsOff   = [...]float64{0.15, 0.3, 0.6}
)

// misplaced returns the faults of the valve gear, as package diagnosis names them, each
// planted in the drawing.
func misplaced(g eccentric.Gear) []suspect {
	port, _ := g.Ports.At(eccentric.BothEnds)
	var all []suspect
	add := func(fault string, end eccentric.End, way string, plant ...func(*eccentric.Gear)) {
		s := suspect{fault: fault, end: end, way: way, gear: true, cause: causeOf(fault)}
		for _, by := range plant {
			wrong := g
			by(&wrong)
			if wrong.Validate() == nil { // a size that no gear can have is none that was made
				s.sizes = append(s.sizes, state{gear: wrong})
			}
		}
		if len(s.sizes) > 0 {
			all = append(all, s)
		}
	}
	lengths := func(sign float64, plant func(*eccentric.Gear, units.Length)) (by []func(*eccentric.Gear)) {
		for _, share := range portsOff {
			by = append(by, func(w *eccentric.Gear) { plant(w, port.Scale(sign*share)) })
		}
		return by
	}
	turns := func(sign float64) (by []func(*eccentric.Gear)) {
		for _, degrees := range degreesOff {
			by = append(by, func(w *eccentric.Gear) { w.Advance = inTurn(float64(w.Advance) + sign*degrees*math.Pi/180) })
		}
		return by
	}
	stands := func(places ...float64) (by []func(*eccentric.Gear)) {
		for _, d := range places {
			by = append(by, func(w *eccentric.Gear) { w.Advance = inTurn(d) })
		}
		return by
	}
	d := float64(g.Advance)
	taken := []float64{d} // a place where the drawing has it is no fault, and one that is another's is told once
	place := func(fault string, places ...float64) {
		places = slices.DeleteFunc(places, func(p float64) bool {
			return slices.ContainsFunc(taken, func(t float64) bool {
				return math.Abs(math.Remainder(p-t, 2*math.Pi)) < samePlace
			})
		})
		taken = append(taken, places...)
		add(fault, eccentric.BothEnds, "", stands(places...)...)
	}
	place("eccentric_other_hand", math.Pi-d)
	place("eccentric_opposite", d-math.Pi)
	place("eccentric_in_line", math.Pi/2, -math.Pi/2)
	place("eccentric_no_advance", 0)
	add("advance", eccentric.BothEnds, "too little", turns(-1)...)
	add("advance", eccentric.BothEnds, "too much", turns(1)...)
	add("valve_off_centre", eccentric.BothEnds, "towards the crank", lengths(1, shift)...)
	add("valve_off_centre", eccentric.BothEnds, "away from the crank", lengths(-1, shift)...)
	add("lost_motion", eccentric.BothEnds, "", lengths(1, loosen)...)
	add("travel", eccentric.BothEnds, "too little", lengths(-1, travelled)...)
	add("travel", eccentric.BothEnds, "too much", lengths(1, travelled)...)
	for _, of := range []struct {
		fault string
		plant func(*eccentric.Gear, eccentric.End, units.Length)
	}{{"steam_lap", steamLap}, {"exhaust_lap", exhaustLap}} {
		for _, end := range eccentric.Ends() {
			by := func(w *eccentric.Gear, l units.Length) { of.plant(w, end, l) }
			add(of.fault, end, "too much", lengths(1, by)...)
			add(of.fault, end, "too little", lengths(-1, by)...)
		}
	}
	add("as_drawn", eccentric.BothEnds, "", func(*eccentric.Gear) {})
	return all
}

// causeOf returns what the table has of a fault of the gear.
func causeOf(fault string) *cause {
	rows := gearTable.Rows()
	for i := range rows {
		if rows[i].name == fault {
			return &rows[i]
		}
	}
	return nil
}

func shift(g *eccentric.Gear, by units.Length)     { g.Valve.Offset = g.Valve.Offset.Add(by) }
func loosen(g *eccentric.Gear, by units.Length)    { g.Valve.LostMotion = g.Valve.LostMotion.Add(by) }
func travelled(g *eccentric.Gear, by units.Length) { g.Travel = g.Travel.Add(by.Scale(2)) }

// steamLap makes a steam lap longer: at both ends by the valve, at one by the edge of
// its port.
func steamLap(g *eccentric.Gear, end eccentric.End, by units.Length) {
	if g.InsideAdmission {
		innerLap(g, end, by)
		return
	}
	outerLap(g, end, by)
}

// exhaustLap does so with an exhaust lap, which is at the other edges.
func exhaustLap(g *eccentric.Gear, end eccentric.End, by units.Length) {
	if g.InsideAdmission {
		outerLap(g, end, by)
		return
	}
	innerLap(g, end, by)
}

// outerLap moves the valve's ends out, or the outer edge of one port in.
func outerLap(g *eccentric.Gear, end eccentric.End, by units.Length) {
	port, _ := sides(g, end)
	if port == nil {
		g.Valve.Length = g.Valve.Length.Add(by.Scale(2))
		return
	}
	*port = port.Sub(by)
}

// innerLap moves the ends of the cavity in, or the inner edge of one port out.
func innerLap(g *eccentric.Gear, end eccentric.End, by units.Length) {
	port, bar := sides(g, end)
	if port == nil {
		g.Valve.Cavity = g.Valve.Cavity.Sub(by.Scale(2))
		return
	}
	*port, *bar = port.Sub(by), bar.Add(by)
}

// sides returns the widths of one end's port and bar, after both ends have widths of
// their own; nil for both ends.
func sides(g *eccentric.Gear, end eccentric.End) (port, bar *units.Length) {
	if end == eccentric.BothEnds {
		return nil, nil
	}
	g.Ports.CrankSteam, g.Ports.CrankBar = g.Ports.At(eccentric.CrankEnd)
	if end == eccentric.CrankEnd {
		return &g.Ports.CrankSteam, &g.Ports.CrankBar
	}
	return &g.Ports.Steam, &g.Ports.Bar
}

// worn returns the faults of the table, each with what it does to the cycle.
func worn(g eccentric.Gear) []suspect {
	sound := state{gear: g}
	with := func(change func(*state, float64), sizes ...float64) (all []state) {
		for _, v := range sizes {
			s := sound
			change(&s, v)
			all = append(all, s)
		}
		return all
	}
	rings := func(s *state, v float64) { s.rings = v }
	leaks := func(s *state, v float64) { s.valve = v }
	hollow := func(s *state, v float64) { s.valve, s.hollow = v, true }
	rubs := func(s *state, v float64) { s.friction = v }
	late := func(s *state, v float64) { loosen(&s.gear, portWidth(g).Scale(v)) }
	off := func(s *state, v float64) { shift(&s.gear, portWidth(g).Scale(v)) }
	slipped := func(s *state, v float64) { s.gear.Advance = inTurn(float64(g.Advance) + v*math.Pi/180) }
	effects := map[string][]state{
		"motion_binds":     with(rubs, 1, 3, 8),
		"gland_tight":      with(rubs, 0.5, 1.5, 4),
		"lacks_oil":        with(rubs, 0.5, 1, 2),
		"piston_tight":     with(rubs, 0, 0.5, 4),
		"piston_strikes":   with(rubs, 0, 1, 8),
		"sheave_loose":     with(slipped, -20, -60, -120, 180),
		"stop_collar":      with(slipped, -15, 15),
		"valve_nut_loose":  append(with(late, 0.3, 0.6), with(off, -0.3, 0.3)...),
		"strap_loose":      with(late, 0.15, 0.3),
		"passage_blocked":  with(func(s *state, v float64) { s.blocked[int(v)] = true }, float64(kernel.Head), float64(kernel.Crank)),
		"valve_not_driven": with(func(s *state, _ float64) { s.fixed = true }, 1),
		"rings_leak":       with(rings, 0.1, 0.3, 1),
		"valve_leaks":      append(with(leaks, 0.1, 0.3), with(hollow, 0.1, 0.3)...),
		"valve_off_face":   append(with(func(s *state, _ float64) { s.lifted = true }, 1), with(leaks, 1)...),
		"piston_loose":     with(rings, 0.1, 1),
		"exhaust_choked":   with(func(s *state, v float64) { s.exhaust = v }, 0.15, 0.3, 0.5),
		"supply_choked":    with(func(s *state, v float64) { s.supply = v }, 0.15, 0.3, 0.5),
		"water":            with(rubs, 0, 2),
	}
	var all []suspect
	rows := causeTable.Rows()
	for i := range rows {
		sizes := effects[rows[i].name]
		if sizes == nil {
			sizes = []state{sound} // it does nothing to the cycle
		}
		all = append(all, suspect{fault: rows[i].name, cause: &rows[i], sizes: sound.valid(sizes)})
	}
	return all
}

// valid leaves out what no gear can have.
func (sound state) valid(sizes []state) (all []state) {
	for _, s := range sizes {
		if s.gear == sound.gear || s.gear.Validate() == nil {
			all = append(all, s)
		}
	}
	if len(all) == 0 {
		return []state{sound}
	}
	return all
}

func portWidth(g eccentric.Gear) units.Length {
	port, _ := g.Ports.At(eccentric.BothEnds)
	return port
}
