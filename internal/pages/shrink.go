package pages

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A ShrinkQuestion asks whether a hub and a shaft go together hot or cold, and
// what the joint then bears.
type ShrinkQuestion struct {
	Diameter     units.Length
	Interference units.Length
	Clearance    *units.Length      // that assembly needs; nil: a thousandth of the diameter
	Hub, Shaft   *material.Material // nil: mild steel
	Room         *units.Temperature // nil: 20 degrees C
	HubAt        *units.Temperature // nil: that of the room
	ShaftAt      *units.Temperature // nil: that of the room
	Outside      *units.Length      // of the hub; with Seat and Mu, what the joint bears
	Bore         *units.Length      // of the shaft or bush; nil: solid
	Seat         *units.Length      // length of the joint
	Mu           float64            // friction; zero: none given
}

// Shrink answers the question.
func Shrink(ask ShrinkQuestion) (book.Book, error) {
	steel, err := material.Lookup("mild steel")
	if err != nil {
		return book.Book{}, err
	}
	room := units.Celsius(20)
	if ask.Room != nil {
		room = *ask.Room
	}
	s := assembly.Shrink{
		Diameter: ask.Diameter, Interference: ask.Interference, Clearance: ask.Diameter.Scale(0.001),
		Hub: *cmp.Or(ask.Hub, &steel), Shaft: *cmp.Or(ask.Shaft, &steel),
		Room: room, HubAt: *cmp.Or(ask.HubAt, &room), ShaftAt: *cmp.Or(ask.ShaftAt, &room),
	}
	if ask.Clearance != nil {
		s.Clearance = *ask.Clearance
	}
	r, err := s.Solve()
	cold := s.ShaftAt < chilled || r.ShaftColder || r.ShaftNeeded != 0 && r.ShaftNeeded < chilled
	if err == nil && cold && !r.Pressed && s.Shaft.Family == material.Steel {
		curved := s
		curved.ShaftCurve = assembly.ChilledSteel()
		if better, err := curved.Solve(); err == nil { // a room warmer than the curve goes keeps the mean
			s, r = curved, better
		}
	}
	if err != nil {
		return book.Book{}, flagged(err, shrinkFlags)
	}
	b := book.Book{
		Title: fmt.Sprintf("Hub of %s on a shaft or bush of %s, joint %s, interference %s",
			s.Hub, s.Shaft, fineBoth(s.Diameter), fineBoth(s.Interference)),
		Findings: r.Findings, Precautions: r.Precautions,
		Sections: []book.Section{togetherSection(s, r)},
	}
	if ask.Outside != nil || ask.Bore != nil || ask.Seat != nil || ask.Mu != 0 {
		section, more, err := ask.bears(s, r.Pressed)
		if err != nil {
			return book.Book{}, err
		}
		if r.Findings.OK() && !more.OK() { // the first answer of all
			together := &b.Sections[0].Items[0].Values[0]
			if together.What = together.What.Shown("yes, but a part does not bear it"); r.Pressed {
				together.What = book.Answer(false).Shown("no, a part does not bear it")
			}
		}
		b.Sections[0].Notes = nil
		b.Sections = append(b.Sections, section)
		for _, f := range more {
			same := func(g finding.Finding) bool { return f.Code == g.Code && f.Text == g.Text }
			pushed := f.Code != assembly.PushBends || r.Pressed
			if pushed && !slices.ContainsFunc(b.Findings, same) { // both judge the interference
				b.Findings = append(b.Findings, f)
			}
		}
	}
	if !r.Unknown {
		b.Sections = append(b.Sections, workingOfShrink(s, r))
	}
	return b, nil
}

// chilled is about where the mean expansion of steel no longer serves, and that of
// chilled steel does.
var chilled = units.Celsius(-60)

// shrinkFlags are the flags of what a package refuses.
var shrinkFlags = map[string]string{
	"diameter of the joint":       "-d",
	"interference":                "-over",
	"working clearance":           "-clear",
	"room temperature":            "-room",
	"temperature of the hub":      "-hub-at",
	"temperature of the shaft":    "-shaft-at",
	"material of the hub":         "-hub",
	"material of the shaft":       "-shaft",
	"outside diameter of the hub": "-outside",
	"bore of the shaft":           "-bore",
	"length of the joint":         "-seat",
	"friction":                    "-mu",
}

// togetherSection is the answer: do they go together, with what clearance, and
// the temperature that does.
func togetherSection(s assembly.Shrink, r assembly.ShrinkResult) book.Section {
	way, together := "dropped in", book.Answer(r.Findings.OK())
	hub := book.Value{Key: "hub_needed", Label: "the hub needs", Remark: "with the shaft as it is", What: inDegrees(r.HubNeeded)}
	if r.Pressed {
		way, hub.Label, hub.Remark = "pressed", "to drop in, the hub", "and no press"
		if r.Findings.OK() {
			together = together.Shown("yes, pressed home cold")
		}
	}
	switch {
	case r.HubNeeded == 0:
		hub.What = book.Never(hub.What, "no heat is enough")
	case r.HubNeeded <= s.Room:
		hub.What = hub.What.Shown("no heat")
	}
	shaft := book.Value{Key: "shaft_needed", Remark: "with the hub as it is", What: inDegrees(r.ShaftNeeded)}
	switch {
	case r.ShaftColder:
		shaft.What = book.Never(shaft.What, "colder than known")
	case r.ShaftNeeded == 0:
		shaft.What = book.Never(shaft.What, "no cold is enough")
	case r.ShaftNeeded < s.ShaftAt:
		shaft.Label = "or the shaft"
	}
	clearance := book.Value{Key: "clearance_at_assembly", Label: "clearance then", What: fine(r.AtAssembly)}
	wanted := book.Value{Key: "clearance_wanted", Label: "clearance wanted", What: fine(s.Clearance), Remark: "to work with"}
	var notes []string
	if r.Pressed {
		clearance.Label, wanted.Label = "", ""
		notes = []string{"What the press must push, and what the joint then bears: -outside, -seat and -mu say it."}
	}
	grows, shrinks := fine(r.HubGrows), fine(r.ShaftShrinks)
	if r.Unknown {
		clearance.What, grows, shrinks = book.Never(clearance.What, "not known"), book.Never(grows, "not known"), book.Never(shrinks, "not known")
	}
	grabs := book.Value{Key: "grabs_at_difference", What: kelvins(r.GrabsAt)}
	if r.GrabsAt == 0 {
		grabs.What = book.Never(grabs.What, "not known")
	}
	if r.AtAssembly.Sign() > 0 {
		grabs.Label = "it grabs at"
		grabs.Remark = fmt.Sprintf("between hub and shaft; they start %.0f K apart",
			s.HubAt.Sub(s.ShaftAt).In(units.KelvinDifference))
	}
	return book.Section{Key: "assembly", Notes: notes, Items: []book.Item{{Values: []book.Value{
		{Key: "go_together", Label: "they go together", What: together},
		{Key: "way", What: book.Word(way)},
		clearance,
		wanted,
		hub, shaft, grabs,
		{Key: "joint", What: fine(s.Diameter)},
		{Key: "interference", What: fine(s.Interference)},
		{Key: "hub.material", What: book.Word(s.Hub.Name)},
		{Key: "hub.at", What: inDegrees(s.HubAt)},
		{Key: "hub.grows", What: grows},
		{Key: "shaft.material", What: book.Word(s.Shaft.Name)},
		{Key: "shaft.at", What: inDegrees(s.ShaftAt)},
		{Key: "shaft.shrinks", What: shrinks},
		{Key: "room", What: inDegrees(s.Room)},
	}}}}
}

func workingOfShrink(s assembly.Shrink, r assembly.ShrinkResult) book.Section {
	kelvin := func(d units.TemperatureDifference) float64 { return d.In(units.KelvinDifference) }
	missing := s.Interference.Add(s.Clearance)
	hub, shaft := source.Of(s.Hub.Expansion.Refs.First()), source.Of(s.Shaft.Expansion.Refs.First())
	shrinks := book.Formula{Text: fmt.Sprintf("shaft shrinks = alpha d (T0 - T) = %v x %v x %.0f K = %s",
		s.Shaft.Expansion.Value, s.Diameter, kelvin(s.Room.Sub(s.ShaftAt)), fineBoth(r.ShaftShrinks)), Refs: shaft}
	if curved := len(s.ShaftCurve.Points) > 0; curved {
		shrinks = book.Formula{Text: fmt.Sprintf("shaft shrinks = d x strain of chilled steel from %.4g to %.4g degrees C = %s",
			s.Room.Celsius(), s.ShaftAt.Celsius(), fineBoth(r.ShaftShrinks)), Refs: s.ShaftCurve.Refs}
	}
	formulas := []book.Formula{
		{Text: fmt.Sprintf("hub grows = alpha d (T - T0) = %v x %v x %.0f K = %s",
			s.Hub.Expansion.Value, s.Diameter, kelvin(s.HubAt.Sub(s.Room)), fineBoth(r.HubGrows)), Refs: hub},
		shrinks,
		{Text: fmt.Sprintf("clearance = %s + %s - %s = %s",
			fineMM(r.HubGrows), fineMM(r.ShaftShrinks), fineMM(s.Interference), fineBoth(r.AtAssembly))},
	}
	if r.HubNeeded > s.Room {
		text := fmt.Sprintf("hub needed = %.4g degrees C + (%s - %s) / (%v x %v) = %s", s.Room.Celsius(),
			fineMM(missing), fineMM(r.ShaftShrinks), s.Hub.Expansion.Value, s.Diameter, degreesBoth(r.HubNeeded))
		formulas = append(formulas, book.Formula{Text: text})
	}
	if r.ShaftNeeded != 0 && r.ShaftNeeded < s.ShaftAt {
		text := fmt.Sprintf("shaft needed = %.4g degrees C - (%s - %s) / (%v x %v) = %s", s.Room.Celsius(),
			fineMM(missing), fineMM(r.HubGrows), s.Shaft.Expansion.Value, s.Diameter, degreesBoth(r.ShaftNeeded))
		if len(s.ShaftCurve.Points) > 0 {
			text = fmt.Sprintf("shaft needed, where chilled steel has shrunk by %s - %s = %s", fineMM(missing), fineMM(r.HubGrows),
				degreesBoth(r.ShaftNeeded))
		}
		formulas = append(formulas, book.Formula{Text: text})
	}
	return book.Section{Key: "working", Title: "WORKING", Items: []book.Item{{Formulas: formulas}}}
}

// lame is where the formulas of the pressed joint were read.
var lame = source.Ref{
	Kind: source.Published, Title: "Budynas and Nisbett, Shigley's Mechanical Engineering Design", Edition: "9th edition, 2009",
	Locator: "equation 3-56", Note: "Lame's formulas",
}

// bears says what the joint bears when both parts are at one temperature.
func (ask ShrinkQuestion) bears(s assembly.Shrink, pressed bool) (book.Section, finding.List, error) {
	var missing []error
	for _, f := range []struct {
		flag, what string
		given      bool
	}{
		{"-outside", "the outside diameter of the hub", ask.Outside != nil}, {"-seat", "the length of the joint", ask.Seat != nil},
		{"-mu", "a coefficient of friction; 0.10 to 0.15 is usual for oiled steel", ask.Mu != 0},
	} {
		if !f.given {
			missing = append(missing, cli.Named(f.flag, fmt.Errorf("missing; for what the joint bears: %s", f.what)))
		}
	}
	if missing != nil {
		return book.Section{}, nil, errors.Join(missing...)
	}
	p := assembly.Press{
		Diameter: s.Diameter, Interference: s.Interference, HubOutside: *ask.Outside, Length: *ask.Seat,
		Hub: s.Hub, Shaft: s.Shaft, Friction: assembly.Friction{Min: ask.Mu, Max: ask.Mu},
	}
	if ask.Bore != nil {
		p.ShaftBore = *ask.Bore
	}
	r, err := p.Solve()
	if err != nil {
		return book.Section{}, nil, flagged(err, shrinkFlags)
	}
	values := bearsValues(p, r)
	press := book.Value{Key: "press_home", What: forceOf(r.Axial.Max)}
	if pressed {
		press.Label, press.Remark = "to press it home", "at the end of the stroke; a press with as much to spare"
	}
	return book.Section{
		Key: "joint", Title: "WHAT THE JOINT BEARS, both parts at one temperature",
		Items: []book.Item{{Values: append([]book.Value{press}, values...), Formulas: bearsFormulas(p, r)}},
	}, r.Findings, nil
}

func forceOf(f units.Force) book.Quantity {
	return book.Number(f.In(units.Newton), 0, "N", "n").And(book.Number(f.In(units.PoundForce), 0, "lbf", ""))
}

func bearsValues(p assembly.Press, r assembly.PressResult) []book.Value {
	torque := book.Number(r.Torque.Min.In(units.NewtonMetre), 1, "N m", "n_m").
		And(book.Number(r.Torque.Min.In(units.PoundForceFoot), 1, "lbf ft", ""))
	pressure := book.Number(r.Pressure.In(units.Megapascal), 1, "MPa", "mpa").
		And(book.Number(r.Pressure.In(units.PSI), 0, "psi", ""))
	values := []book.Value{
		{Key: "slides_at", Label: "slides at", What: forceOf(r.Axial.Min)},
		{Key: "turns_at", Label: "turns at", What: torque},
		{Key: "pressure", Label: "pressure", What: pressure},
		{Key: "hub_hoop", Label: "hub, hoop at its bore", What: inMegapascals(r.HubHoop)},
		{Key: "hub_hoop_outside", Label: "hub, hoop outside", What: inMegapascals(r.HubHoopOutside)},
		{Key: "shaft_hoop", Label: "shaft, hoop", What: inMegapascals(r.ShaftHoopBore)},
		{Key: "hub_growth", Label: "hub grows", What: fine(r.HubGrowth)},
		{Key: "close_in", What: fine(r.CloseIn)},
	}
	if !p.ShaftBore.IsZero() {
		values[5].Label, values[7].Label = "shaft, hoop at its bore", "its bore closes by"
	}
	if !r.Greatest.IsZero() {
		verb := "yields from"
		if p.Hub.Tensile.Known() {
			verb = "cracks or yields from"
		}
		values = append(values, book.Value{Key: "greatest_interference", Label: verb, What: fine(r.Greatest), Remark: "of interference"})
	}
	for i, m := range []material.Material{p.Hub, p.Shaft} {
		if i > 0 && m.Name == p.Hub.Name {
			continue
		}
		part := []string{"hub", "shaft"}[i]
		if m.Yield.Known() {
			values = append(values, book.Value{
				Key: part + "_yield", Label: fmt.Sprintf("yield strength, %s", m), What: inMegapascals(m.Yield.Value),
				Refs: source.Of(m.Yield.Refs.First()),
			})
		}
		if m.Tensile.Known() {
			values = append(values, book.Value{
				Key: part + "_tensile", Label: fmt.Sprintf("tensile strength, %s", m), What: inMegapascals(m.Tensile.Value),
				Refs: source.Of(m.Tensile.Refs.First()),
			})
		}
	}
	return values
}

func bearsFormulas(p assembly.Press, r assembly.PressResult) []book.Formula {
	elastic := func(m material.Material) source.Refs {
		return source.Of(m.Elasticity.Refs.First(), m.Poisson.Refs.First())
	}
	pressure := r.Pressure.In(units.Megapascal)
	hub := fmt.Sprintf("Ch = ((D^2 + d^2)/(D^2 - d^2) + nu) / E = ((%[1]s^2 + %[2]s^2)/(%[1]s^2 - %[2]s^2) + %[3]v) / %[4]s",
		bareMM(p.HubOutside), bareMM(p.Diameter), p.Hub.Poisson.Value, gigapascals(p.Hub))
	shaft := fmt.Sprintf("Cs = ((d^2 + b^2)/(d^2 - b^2) - nu) / E = ((%[1]s^2 + %[2]s^2)/(%[1]s^2 - %[2]s^2) - %[3]v) / %[4]s",
		bareMM(p.Diameter), bareMM(p.ShaftBore), p.Shaft.Poisson.Value, gigapascals(p.Shaft))
	formulas := []book.Formula{
		{Text: hub, Refs: source.Of(lame).With(elastic(p.Hub))},
		{Text: shaft, Refs: source.Of(lame).With(elastic(p.Shaft))},
		{Text: fmt.Sprintf("pressure = delta / (d (Ch + Cs)) = %s / (%v (Ch + Cs)) = %.1f MPa",
			fineMM(p.Interference), p.Diameter, pressure), Refs: source.Of(lame)},
	}
	if r.Holding < r.Pressure {
		formulas = append(formulas, book.Formula{Text: fmt.Sprintf("a part yields from %.1f MPa: the joint holds at least by that, "+
			"and a press has up to the pressure of stronger parts to push against", r.Holding.In(units.Megapascal))})
	}
	return append(formulas, []book.Formula{
		{Text: fmt.Sprintf("slides at = mu p pi d L = %.3g x %.1f MPa x pi x %v x %v = %.0f N",
			p.Friction.Min, r.Holding.In(units.Megapascal), p.Diameter, p.Length, r.Axial.Min.In(units.Newton))},
		{Text: fmt.Sprintf("turns at = force x d/2 = %.1f N m", r.Torque.Min.In(units.NewtonMetre))},
	}...)
}

// fine is a length to a tenth of a micron and a hundredth of a thou.
func fine(l units.Length) book.Quantity { return book.LengthThou(l, 4, 2) }

func fineMM(l units.Length) string { return l.Text(units.Millimetres, 4) }

func fineBoth(l units.Length) string { return fineMM(l) + " (" + l.Text(units.Thousandths, 2) + ")" }

func inDegrees(t units.Temperature) book.Quantity {
	return book.Number(t.Celsius(), 0, "deg C", "degc").And(book.Number(t.Fahrenheit(), 0, "deg F", ""))
}

func degreesBoth(t units.Temperature) string {
	return fmt.Sprintf("%.0f degrees C (%.0f degrees F)", t.Celsius(), t.Fahrenheit())
}

func kelvins(d units.TemperatureDifference) book.Quantity {
	return book.Number(d.In(units.KelvinDifference), 0, "K", "k")
}

func inMegapascals(p units.Pressure) book.Quantity {
	return book.Number(p.In(units.Megapascal), 0, "MPa", "mpa")
}

func gigapascals(m material.Material) string {
	return fmt.Sprintf("%.4g GPa", m.Elasticity.Value.In(units.Gigapascal))
}

func bareMM(l units.Length) string { return strings.TrimSuffix(l.String(), " mm") }
