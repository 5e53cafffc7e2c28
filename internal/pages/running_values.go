package pages

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

func capitals(s string) string { return strings.ToUpper(s) }

func bars(p units.Pressure) book.Quantity { return book.Number(p.In(units.Bar), 2, "bar", "bar") }

// both states a pressure above the atmosphere and absolute, side by side.
func (a *engineAtWork) both(key, label string, absolute units.Pressure) []book.Value {
	return []book.Value{
		{Key: key + ".gauge", Label: label, Column: "gauge", What: bars(a.run.Gauge(absolute))},
		{Key: key + ".absolute", Label: label, Column: "absolute", What: bars(absolute)},
	}
}

func (a *engineAtWork) stated() (book.Item, finding.List, error) {
	r := &a.run
	e, err := r.Expansion()
	if err != nil {
		return book.Item{}, nil, err
	}
	item := book.Item{Values: []book.Value{
		{Key: "medium", Label: "medium", What: book.Word(r.Medium.String())},
		{Key: "speed", Label: "speed", What: book.Number(r.Speed.In(units.RevPerMinute), 0, "rev/min", "rev_min")},
		{Key: "index", Label: "index of expansion", What: book.Number(r.Index, 4, "", "").Shown(ratio(r.Index)), Remark: e.Of, Refs: e.Refs},
		{Key: "head.clearance_share", Label: "clearance, head end", What: book.Share(r.Clearance.Head, 1), Remark: a.from},
		{Key: "crank.clearance_share", Label: "clearance, crank end", What: book.Share(r.Clearance.Crank, 1), Remark: "of the swept volume"},
	}}
	if r.PistonRod.IsZero() {
		item.Notes = append(item.Notes, book.Note{Text: "The file has no piston_rod: no area is taken off for one."})
	} else {
		item.Values = append(item.Values, sized("piston_rod", "piston rod", r.PistonRod, ""))
	}
	if len(r.Cranks) > 0 {
		item.Values = append(item.Values, book.Value{Key: "second_crank", Label: "second crank ahead by", What: book.Angle(r.Cranks[0], 1)})
	}
	return item, e.Findings, nil
}

func (a *engineAtWork) pressures() (book.Item, finding.List, error) {
	c, err := a.run.Cycle()
	if err != nil {
		return book.Item{}, nil, err
	}
	item := book.Item{Key: "pressures_at", Title: "Pressures"}
	add := func(values []book.Value) { item.Values = append(item.Values, values...) }
	add(a.both("chest", "steam chest", a.run.Absolute(a.run.Chest)))
	add(a.both("exhaust", "exhaust", a.run.Absolute(a.run.Back)))
	if p := a.e.Cylinder.Pressure; p != nil {
		add(a.both("declared", "cylinder, declared for", a.run.Absolute(*p)))
	}
	for _, end := range []struct {
		name string
		of   indicator.EndCycle
	}{{"head", c.Head}, {"crank", c.Crank}} {
		for _, at := range []struct {
			key, label string
			of         indicator.State
		}{{"release", "just before release", end.of.Release}, {"admission", "just before admission", end.of.Admission}} {
			if at.of.Occurs {
				add(a.both(end.name+"."+at.key, end.name+" end, "+at.label, at.of.Before))
			}
		}
		add(a.both(end.name+".highest", end.name+" end, highest", end.of.Highest))
		add(a.both(end.name+".lowest", end.name+" end, lowest", end.of.Lowest))
		if cut, release := end.of.CutOff, end.of.Release; end.of.Expansion > 0 {
			const format = "%s end at release: p = ps x (Vo/Vr)^k = %s x (%s %s / %s %s)^%s = %s %s absolute"
			in := func(p, v string, pressure units.Pressure, volume units.Volume, places int) string {
				return fmt.Sprintf(format, end.name, fault.Decimal(a.run.Absolute(a.run.Chest).In(pressure), places),
					fault.Decimal(cut.Volume.In(volume), 3), v, fault.Decimal(release.Volume.In(volume), 3), v,
					ratio(a.run.Index), fault.Decimal(release.Before.In(pressure), places), p)
			}
			item.Formulas = append(item.Formulas, book.Formula{
				Text: in("bar", "ml", units.Bar, units.CubicCentimetre, 3), Inch: in("psi", "in3", units.PSI, units.CubicInch, 2)})
		}
	}
	item.Notes = []book.Note{{Text: "Each end has the chest's pressure while its port is open to steam, the exhaust's while it is open to" +
		" exhaust, and p V^k unchanged while it is shut."}}
	return item, nil, nil
}

func (a *engineAtWork) work() (book.Item, finding.List, error) {
	c, err := a.run.Cycle()
	if err != nil {
		return book.Item{}, nil, err
	}
	power, err := a.run.Power()
	if err != nil {
		return book.Item{}, nil, err
	}
	joule := func(v units.Energy) book.Quantity { return book.Number(v.In(units.Joule), 3, "J", "j") }
	item := book.Item{Key: "work", Title: "Work and power", Values: []book.Value{
		{Key: "head.mean_pressure", Label: "mean pressure, head end", What: bars(c.Head.MeanPressure), Remark: "net, over its swept volume"},
		{Key: "crank.mean_pressure", Label: "mean pressure, crank end", What: bars(c.Crank.MeanPressure)},
		{Key: "per_turn", Label: "work a turn", What: joule(c.Work * units.Energy(a.run.Cylinders())), Remark: a.ofCylinders()},
		{Key: "indicated", Label: "power, indicated", What: watts(power.Indicated), Remark: "of the ideal cycle", Refs: power.Refs},
		{Key: "shaft", Label: "power at the shaft", What: book.Range(watts(power.Min), watts(power.Max)), Remark: fmt.Sprintf("%.2f to %.2f of it; models have less",
			power.MinShare, power.MaxShare)},
	}}
	for _, end := range []struct {
		name string
		of   indicator.EndCycle
	}{{"head", c.Head}, {"crank", c.Crank}} {
		if end.of.Expansion > 0 {
			item.Values = append(item.Values, book.Value{Key: end.name + ".expansion", Label: "expands, " + end.name + " end",
				What: book.Number(end.of.Expansion, 2, "times", "")})
		}
		item.Formulas = append(item.Formulas, book.Formula{
			Text: fmt.Sprintf("work, %s end = mean pressure x swept volume = %s bar x %s ml / 10 = %s J",
				end.name, fault.Decimal(end.of.MeanPressure.In(units.Bar), 3),
				fault.Decimal(end.of.Swept.In(units.CubicCentimetre), 3), fault.Decimal(end.of.Work.In(units.Joule), 3)),
			Inch: fmt.Sprintf("work, %s end = mean pressure x swept volume = %s psi x %s in3 / 12 = %s ft lbf",
				end.name, fault.Decimal(end.of.MeanPressure.In(units.PSI), 2),
				fault.Decimal(end.of.Swept.In(units.CubicInch), 4), fault.Decimal(end.of.Work.In(units.FootPoundForce), 3)),
		})
	}
	perTurn := c.Work * units.Energy(a.run.Cylinders())
	item.Formulas = append(item.Formulas, book.Formula{
		Text: fmt.Sprintf("power = work a turn x turns a second = %s J x %s = %s W", fault.Decimal(perTurn.In(units.Joule), 3),
			fault.Decimal(a.run.Speed.In(units.RevPerSecond), 2), fault.Decimal(power.Indicated.In(units.Watt), 2)),
		Inch: fmt.Sprintf("power = work a turn x turns a minute / 33000 = %s ft lbf x %s / 33000 = %s hp",
			fault.Decimal(perTurn.In(units.FootPoundForce), 3), fault.Decimal(a.run.Speed.In(units.RevPerMinute), 0),
			figures(power.Indicated.In(units.Horsepower), 4)),
	})
	return item, nil, nil
}

func (a *engineAtWork) ofCylinders() string {
	if a.run.Cylinders() == 1 {
		return "both ends"
	}
	return fmt.Sprintf("both ends of %d cylinders", a.run.Cylinders())
}

func watts(p units.Power) book.Quantity { return book.Number(p.In(units.Watt), 2, "W", "w") }

func newtonMetres(t units.Torque) book.Quantity {
	return book.Number(t.In(units.NewtonMetre), 3, "N m", "nm")
}

func arcTable(key, title string, arcs []indicator.Arc) book.Table {
	t := book.Table{Key: key, Title: title}
	for _, arc := range arcs {
		t.Rows = append(t.Rows, book.Row{Values: []book.Value{
			{Key: "from", Label: "from", What: book.Angle(arc.From, 1)}, {Key: "to", Label: "to", What: book.Angle(arc.To, 1)},
		}})
	}
	return t
}

func (a *engineAtWork) turning() (book.Item, finding.List, error) {
	t, err := a.run.Turning()
	if err != nil {
		return book.Item{}, nil, err
	}
	at := func(m indicator.Moment) string { return "at " + fmt.Sprintf("%.0f deg", m.Turned.Degrees()) }
	item := book.Item{Key: "turning", Title: "Turning moment, in degrees after the head-end dead centre of the (first) crank", Values: []book.Value{
		{Key: "mean", Label: "mean", What: newtonMetres(t.Mean), Remark: "work a turn / (2 pi)"},
		{Key: "greatest", Label: "greatest", What: newtonMetres(t.Greatest.Torque), Remark: at(t.Greatest)},
		{Key: "least", Label: "least", What: newtonMetres(t.Least.Torque), Remark: at(t.Least)},
		{Key: "greatest_at", What: book.Angle(t.Greatest.Turned, 1)}, {Key: "least_at", What: book.Angle(t.Least.Turned, 1)},
	}}
	if len(t.Negative) > 0 {
		item.Tables = []book.Table{arcTable("negative", "Where the flywheel turns the engine", t.Negative)}
	}
	return item, nil, nil
}

// friction is the moment that the engine starts against, zero where it is not stated.
func (a *engineAtWork) friction() units.Torque {
	if f := a.e.File.Running.Friction; f != nil {
		return *f
	}
	return 0
}

func (a *engineAtWork) starting() (book.Item, finding.List, error) {
	s, err := a.run.Starting(a.friction())
	if err != nil {
		return book.Item{}, nil, err
	}
	item := book.Item{Key: "starting", Title: "From where it starts by itself"}
	if a.e.File.Running.Friction == nil {
		item.Notes = []book.Note{{Text: "The file has no friction moment: this is the limit without any, and less of the turn starts the real engine."}}
	} else {
		item.Values = []book.Value{{Key: "friction", Label: "friction, at the shaft", What: newtonMetres(a.friction())}}
	}
	item.Values = append(item.Values, book.Value{
		Key: "kick", Label: "turn it on by at most", What: book.Angle(s.Kick, 1),
		Remark: "by hand, the longest arc from which it does not",
	})
	if len(s.Starts) == 0 {
		item.Notes = append(item.Notes, book.Note{Text: "It starts from nowhere."})
		return item, nil, nil
	}
	item.Tables = []book.Table{arcTable("starts", "It starts", s.Starts)}
	if len(s.Backwards) > 0 {
		item.Tables = append(item.Tables, arcTable("backwards", "It is pushed the other way", s.Backwards))
	}
	return item, nil, nil
}

func litresPerMinute(f units.VolumeFlow) book.Quantity {
	return book.Number(f.In(units.LitrePerMinute), 2, "l/min", "l_min")
}

func kilograms(m units.Mass) book.Quantity {
	return book.Number(m.In(units.Kilogram), 3, "kg/h", "kg_h")
}

const blowsThrough = "Some goes straight through a port that is open to both, and nothing here knows how much: it is not in the figure."

func (a *engineAtWork) takes() (book.Item, finding.List, error) {
	if a.run.Medium == indicator.Air {
		use, err := a.run.AirUse()
		if err != nil {
			return book.Item{}, nil, err
		}
		feet := func(f units.VolumeFlow) string {
			return fault.Decimal(f.In(units.CubicFootPerMinute), 3)
		}
		free, compressor := feet(use.Free)+" ft3/min, ", feet(use.Min)+" to "+feet(use.Max)+" ft3/min of "
		if a.e.Inches() { // which are told first
			free, compressor = "", "of "
		}
		item := book.Item{Key: "air", Title: "Air", Values: []book.Value{
			{Key: "free", Label: "free air", What: litresPerMinute(use.Free), Remark: free + "by the cycle", Refs: use.Refs},
			{Key: "compressor", Label: "compressor delivers", What: book.Range(litresPerMinute(use.Min), litresPerMinute(use.Max)),
				Remark: compressor + "free air, two to three times, for leaks"},
		}, Formulas: []book.Formula{{Text: fmt.Sprintf("free air = sum of (ps Vo - pb Vk) / pa x turns = %s ml a turn x %s /min, at one temperature",
			fault.Decimal(use.PerTurn.In(units.CubicCentimetre), 2),
			fault.Decimal(a.run.Speed.In(units.RevPerMinute), 0))}}}
		if use.BlowsThrough {
			item.Notes = []book.Note{{Text: blowsThrough}}
		}
		return item, nil, nil
	}
	use, err := a.run.SteamUse()
	if err != nil {
		return book.Item{}, nil, err
	}
	item := book.Item{Key: "steam", Title: "Steam", Values: []book.Value{
		{Key: "by_cycle", Label: "steam by the cycle", What: kilograms(use.PerHour), Refs: use.Refs},
		{Key: "water", Label: "water for the boiler", What: kilograms(use.Water), Remark: "with as much again that cold walls condense, and leaks"},
		{Key: "water_range", Label: "  by the books", What: book.Range(kilograms(use.Min), kilograms(use.Max))},
	}, Formulas: []book.Formula{{Text: fmt.Sprintf("steam = sum of (Vo/vs - Vk/vb) x turns = %s g a turn x %s /min x 60",
		fault.Decimal(use.PerTurn.In(units.Gram), 4), fault.Decimal(a.run.Speed.In(units.RevPerMinute), 0))}}}
	if use.BlowsThrough {
		item.Notes = []book.Note{{Text: blowsThrough}}
	}
	return item, nil, nil
}

// others is what the same engine does on the other medium, and with other indices.
func (a *engineAtWork) others() (book.Item, finding.List, error) {
	t, refs := book.Table{Key: "media"}, source.Refs{}
	for _, medium := range indicator.Media() {
		for _, x := range medium.Expansions() {
			r := a.run
			r.Medium, r.Index = medium, x.Index
			c, err := r.Cycle()
			if err != nil {
				return book.Item{}, nil, err
			}
			power, err := r.Power()
			if err != nil {
				return book.Item{}, nil, err
			}
			label, _, _ := strings.Cut(x.Of, ",")
			refs = refs.With(x.Refs)
			row := book.Row{Label: label, Values: []book.Value{
				{Key: "medium", What: book.Word(medium.String())},
				{Key: "index", Label: "index", What: book.Number(x.Index, 4, "", "").Shown(ratio(x.Index))},
				{Key: "work_per_turn", Label: "J a turn", What: book.Number((c.Work * units.Energy(r.Cylinders())).In(units.Joule), 3, "", "j")},
				{Key: "power", Label: "W", What: book.Number(power.Indicated.In(units.Watt), 2, "", "w")},
			}}
			if medium == indicator.Air {
				use, err := r.AirUse()
				if err != nil {
					return book.Item{}, nil, err
				}
				row.Values = append(row.Values, book.Value{Key: "free_air", Label: "takes", What: litresPerMinute(use.Free)})
			} else {
				use, err := r.SteamUse()
				if err != nil {
					return book.Item{}, nil, err
				}
				row.Values = append(row.Values, book.Value{Key: "steam", Label: "takes", What: kilograms(use.PerHour)})
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return book.Item{Key: "on_both", Title: "The same pressures on air and on steam, by the usual indices", Tables: []book.Table{t},
		Notes: []book.Note{{Text: "Indices are of expansion behind a closed valve; a small engine at low speed lies nearer to 1.",
			Refs: refs}}}, nil, nil
}

func metresPerSecond(v units.Speed) book.Quantity {
	return book.Number(v.In(units.MetrePerSecond), 2, "m/s", "m_s")
}

func (a *engineAtWork) throughPorts() (book.Item, finding.List, error) {
	flow, err := a.run.PortFlow()
	if err != nil {
		return book.Item{}, nil, err
	}
	item := book.Item{Key: "speeds", Title: "Speeds", Values: []book.Value{
		{Key: "piston", Label: "piston, mean", What: metresPerSecond(flow.PistonSpeed)},
	}}
	rpm := func(n units.RotationalSpeed) string {
		return "throttles from " + fault.Decimal(n.In(units.RevPerMinute), 0) + " rev/min"
	}
	for _, port := range []struct {
		key, label string
		v          units.Speed
		throttles  units.RotationalSpeed
	}{
		{"head.steam", "port of the head end, steam", flow.Head.Steam, flow.Head.SteamThrottles},
		{"head.exhaust", "  exhaust", flow.Head.Exhaust, flow.Head.ExhaustThrottles},
		{"crank.steam", "port of the crank end, steam", flow.Crank.Steam, flow.Crank.SteamThrottles},
		{"crank.exhaust", "  exhaust", flow.Crank.Exhaust, flow.Crank.ExhaustThrottles},
	} {
		if port.v > 0 {
			item.Values = append(item.Values, book.Value{Key: port.key, Label: port.label, What: metresPerSecond(port.v),
				Remark: rpm(port.throttles)})
		}
	}
	limits, refs := []string{}, source.Refs{}
	for i, l := range flow.Limits {
		v := book.Value{Key: fmt.Sprintf("throttled.%d.work_per_turn", i+1), Label: "work a turn, " + l.Name, Refs: l.Refs}
		c, err := a.run.Throttled(l.Speed)
		work := func(of units.Energy) book.Quantity {
			return book.Number((of * units.Energy(a.run.Cylinders())).In(units.Joule), 3, "J", "j")
		}
		if v.What = work(c.Work); err != nil {
			v.What = book.Never(work(0), "throttles all the way")
		}
		item.Values = append(item.Values, v)
		limits = append(limits, fmt.Sprintf("%s %.0f ft/min (%.0f m/s)", l.Name, l.Speed.In(units.FootPerMinute),
			l.Speed.In(units.MetrePerSecond)))
		refs = refs.With(l.Refs)
	}
	item.Notes = []book.Note{{Text: "Limits in print: " + strings.Join(limits, ", ") + "; throttling is told from 6000 ft/min." +
		" Work is a turn's, with each port shut as soon as its opening would ask for more than that velocity.", Refs: refs}}
	if a.run.Moving > 0 {
		inertia, err := a.run.Inertia()
		if err != nil {
			return book.Item{}, nil, err
		}
		for _, end := range []struct {
			name   string
			force  units.Force
			knocks units.RotationalSpeed
		}{{"head", inertia.Head, inertia.HeadKnocks}, {"crank", inertia.Crank, inertia.CrankKnocks}} {
			knocks := book.Number(end.knocks.In(units.RevPerMinute), 0, "rev/min", "rev_min")
			if end.knocks == 0 {
				knocks = book.Never(knocks, "nothing pushes there")
			}
			item.Values = append(item.Values,
				book.Value{Key: end.name + ".inertia", Label: "inertia, " + end.name + " dead centre",
					What: book.Number(end.force.In(units.Newton), 1, "N", "n")},
				book.Value{Key: end.name + ".knocks", Label: "  a knock from", What: knocks})
		}
	}
	return item, nil, nil
}

// onFace is whether the slide valve is held on its face.
func (a *engineAtWork) onFace() (book.Item, finding.List, error) {
	v := &a.e.File.Valve
	if v.Width == nil || v.CavityWidth == nil || a.run.Gear.InsideAdmission {
		return book.Item{}, nil, nil
	}
	hold, err := a.run.Hold(*v.Width, *v.CavityWidth)
	if err != nil {
		return book.Item{}, nil, err
	}
	newtons := func(f units.Force) book.Quantity { return book.Number(f.In(units.Newton), 1, "N", "n") }
	return book.Item{Key: "valve_face", Title: "The slide valve on its face, where it is held the least", Values: []book.Value{
		{Key: "down", Label: "steam on its back", What: newtons(hold.Down)},
		{Key: "up", Label: "what is under it", What: newtons(hold.Up), Remark: fmt.Sprintf("at %.0f deg", hold.Turned.Degrees())},
		{Key: "lifts", Label: "it lifts", What: book.Answer(hold.Lifts)},
	}}, hold.Check(), nil
}

func (a *engineAtWork) wheel() (book.Item, finding.List, error) {
	item := book.Item{Key: "flywheel", Title: "Flywheel"}
	sizes, known := a.e.FlywheelSizes()
	c, err := a.run.Cycle()
	if err != nil || !known {
		return book.Item{}, nil, err
	}
	w, err := sizes.Wheel()
	if err != nil {
		return book.Item{}, nil, err
	}
	rim, err := holding.CheckRim(sizes.Metal, sizes.Diameter, a.run.Speed)
	if err != nil {
		return book.Item{}, nil, a.e.Errorf("flywheel.material", "%v", err)
	}
	grams := func(m units.Mass) book.Quantity { return book.Number(m.In(units.Kilogram), 3, "kg", "kg") }
	item.Values = []book.Value{
		{Key: "mass", Label: "mass", What: grams(w.Mass), Remark: "rim, web and boss, " + sizes.Metal.String()},
		{Key: "gyration", Label: "radius of gyration", What: book.Length(w.Gyration, 1)},
		{Key: "rim_speed", Label: "speed of the rim", What: metresPerSecond(rim.Speed), Remark: fmt.Sprintf("at most %.0f rev/min",
			rim.Max.In(units.RevPerMinute)), Refs: rim.Refs},
		{Key: "rim_stress", Label: "hoop stress in it", What: book.Number(rim.Stress.In(units.Megapascal), 3, "MPa", "mpa")},
	}
	found := append(finding.List(nil), rim.Findings...)
	if c.Work <= 0 {
		item.Notes = []book.Note{{Text: "The engine gives no work that a wheel could even out."}}
		return item, found, nil
	}
	even, err := a.run.Evenness(w)
	if err != nil {
		return book.Item{}, nil, err
	}
	item.Values = append(item.Values,
		book.Value{Key: "excess", Label: "energy in and out of it", What: book.Number(even.Excess.Energy.In(units.Joule), 3, "J", "j"),
			Remark: fmt.Sprintf("%.0f %% of the work a turn, from %.0f to %.0f deg", 100*even.Excess.Share, even.Excess.Slowest.Degrees(),
				even.Excess.Fastest.Degrees())},
		book.Value{Key: "swing", Label: "swing of the speed", What: book.Share(even.Share, 1), Remark: "under the whole load of the cycle, evenly taken"},
		book.Value{Key: "steady_from", Label: "a third or less from", What: book.Number(even.Steady.In(units.RevPerMinute), 0, "rev/min", "rev_min")})
	turning, share := fault.Decimal(a.run.Speed.In(units.RadianPerSecond), 2), fault.Decimal(100*even.Share, 1)
	item.Formulas = []book.Formula{{
		Text: fmt.Sprintf("swing = E / (m k^2 w^2) = %s J / (%s kg x (%s mm)^2 x (%s rad/s)^2) = %s %%",
			fault.Decimal(even.Excess.Energy.In(units.Joule), 3), fault.Decimal(w.Mass.In(units.Kilogram), 3),
			w.Gyration.Decimal(units.Millimetres, 1), turning, share),
		Inch: fmt.Sprintf("swing = g E / (m k^2 w^2) = 32.174 ft/s2 x %s ft lbf / (%s lb x (%s in / 12)^2 x (%s rad/s)^2) = %s %%",
			fault.Decimal(even.Excess.Energy.In(units.FootPoundForce), 3), fault.Decimal(w.Mass.In(units.Pound), 3),
			w.Gyration.Decimal(units.Inches, 3), turning, share),
	}}
	found = append(found, even.Findings...)
	if s := a.e.File.Flywheel.Evenness; s != nil {
		need, err := a.run.WheelFor(float64(*s), w.Gyration)
		if err != nil {
			return book.Item{}, nil, err
		}
		item.Values = append(item.Values, book.Value{Key: "wanted", Label: "for a swing of", What: book.Share(float64(*s), 1)},
			book.Value{Key: "wanted_mass", Label: "  it would weigh", What: grams(need.Mass), Remark: "at the same radius of gyration"})
	}
	return item, found, nil
}

func (a *engineAtWork) pipe() (book.Item, finding.List, error) {
	velocity := a.e.File.Running.PipeVelocity
	if velocity == nil {
		return book.Item{Key: "pipes", Title: "Pipes", Notes: []book.Note{{
			Text: "The file has no pipe_velocity, so that no bore is worked out: 15 to 30 m/s is usual in the pipes of an engine."}}}, nil, nil
	}
	if c, err := a.run.Cycle(); err != nil || c.Work <= 0 {
		return book.Item{}, nil, err
	}
	item := book.Item{Key: "pipes", Title: fmt.Sprintf("Pipes, at %.0f m/s", velocity.In(units.MetrePerSecond))}
	if a.e.Inches() {
		item.Title = fmt.Sprintf("Pipes, at %.0f ft/min", velocity.In(units.FootPerMinute))
	}
	for _, p := range []struct {
		key, label string
		of         func(units.Speed) (indicator.Pipe, error)
	}{{"steam", "pipe to the chest", a.run.SteamPipe}, {"exhaust", "exhaust pipe", a.run.ExhaustPipe}} {
		pipe, err := p.of(*velocity)
		if err != nil {
			return book.Item{}, nil, err
		}
		item.Values = append(item.Values,
			book.Value{Key: p.key + ".flow", Label: p.label + ", flow",
				What: book.Number(pipe.Flow.In(units.CubicCentimetrePerMinute)/60, 1, "ml/s", "ml_s"), Remark: "at the pressure in it"},
			book.Value{Key: p.key + ".bore", Label: "  bore for that", What: book.Length(pipe.Bore, 2), Refs: pipe.Refs},
			book.Value{Key: p.key + ".take", Label: "  bore to take", What: a.drill(pipe.Take), Remark: "for the peak within a turn"})
		for i, tube := range pipe.Tubes {
			remark := ""
			series := thread.ME
			if i == 0 {
				series = thread.MetricFine
			}
			if union, err := series.UnionFor(tube.Outside); err == nil {
				remark = "union nut " + union.String()
			}
			item.Values = append(item.Values, book.Value{Key: fmt.Sprintf("%s.tube_%d", p.key, i+1), Label: "  tube, outside x wall",
				What: book.Word(tubeText(tube)), Remark: remark})
		}
	}
	return item, nil, nil
}

// drill is a bore that is drilled, in whole millimetres or the next 64th of an inch.
func (a *engineAtWork) drill(bore units.Length) book.Quantity {
	q := book.Length(bore, 0).Millimetres()
	if !a.e.Inches() {
		return q
	}
	up, err := bore.Round(units.InchFraction(1, 64), units.Up)
	if err != nil {
		return q
	}
	f, err := up.NearestFraction(64)
	if err != nil {
		return q
	}
	return q.Shown(f.String())
}

// tubeText writes a tube that is sold in inches so.
func tubeText(t indicator.Tube) string {
	if f, err := t.Outside.NearestFraction(64); err == nil && f.Rest.IsZero() && f.Den > 1 {
		return f.String() + " x " + t.Wall.Text(units.Inches, 3)
	}
	return t.String()
}

func (a *engineAtWork) oilAndWater() (book.Item, finding.List, error) {
	item := book.Item{Key: "oil_and_water", Title: "Oil and water"}
	var pot units.Volume
	if v := a.e.File.Running.Lubricator; v != nil {
		pot = *v
	}
	oil, err := a.run.Oiling(pot)
	if err != nil {
		return book.Item{}, nil, err
	}
	if oil.Max > 0 {
		perMinute := func(f units.VolumeFlow) book.Quantity {
			return book.Number(f.In(units.CubicCentimetrePerMinute), 2, "ml/min", "ml_min")
		}
		item.Values = append(item.Values, book.Value{Key: "oil", Label: "oil", What: book.Range(perMinute(oil.Min),
			perMinute(oil.Max)),
			Remark: fmt.Sprintf("%.0f to %.0f drops a minute", oil.MinDrops, oil.MaxDrops), Refs: oil.Refs})
	}
	item.Notes = []book.Note{{Text: oil.Text, Refs: oil.Refs}}
	if a.run.Medium != indicator.Steam || a.e.Cylinder.Iron == nil {
		if a.run.Medium == indicator.Steam {
			item.Notes = append(item.Notes, book.Note{Text: "The file has no iron in [cylinder], so that the water of the first steam is not worked out."})
		}
		return item, nil, nil
	}
	hot, err := steam.AtPressure(a.run.Absolute(a.run.Chest))
	if err != nil {
		return book.Item{}, nil, err
	}
	cold, err := a.run.ColdEngine(*a.e.Cylinder.Iron, units.Celsius(20), hot.Temperature)
	if err != nil {
		return book.Item{}, nil, err
	}
	item.Values = append(item.Values,
		book.Value{Key: "water", Label: "water of the first steam", What: book.Number(cold.Water.Water.In(units.Gram), 1, "g", "g"),
			Remark: "from 20 degrees C to " + degreesC(hot.Temperature), Refs: cold.Refs},
		book.Value{Key: "room", Label: "room for it", What: book.Number(cold.Room.In(units.CubicCentimetre), 2, "ml", "ml"),
			Remark: fmt.Sprintf("it fills that %.1f times", cold.Share)})
	return item, cold.Findings, nil
}

// answer is what other programs want of the engine at work, each figure under the key
// that they know it by.
func (a *engineAtWork) answer() ([]book.Section, error) {
	c, err := a.run.Cycle()
	if err != nil {
		return nil, err
	}
	t, err := a.run.Turning()
	if err != nil {
		return nil, err
	}
	power, err := a.run.Power()
	if err != nil {
		return nil, err
	}
	starting, err := a.run.Starting(a.friction())
	if err != nil {
		return nil, err
	}
	points, err := a.run.Points(360)
	if err != nil {
		return nil, err
	}
	plain := func(v float64) book.Quantity { return book.Number(v, 3, "", "") }
	value := func(key string, what book.Quantity) book.Value { return book.Value{Key: key, What: what} }
	air, steamUsed := book.Never(plain(0), ""), book.Never(plain(0), "")
	if a.run.Medium == indicator.Air {
		use, err := a.run.AirUse()
		if err != nil {
			return nil, err
		}
		air = plain(use.Free.In(units.LitrePerMinute))
	} else {
		use, err := a.run.SteamUse()
		if err != nil {
			return nil, err
		}
		steamUsed = plain(use.PerHour.In(units.Kilogram))
	}
	list := func(key string, arcs []indicator.Arc) book.Section {
		s := book.Section{Key: key, List: true}
		for _, arc := range arcs {
			s.Items = append(s.Items, book.Item{Values: []book.Value{value("from", book.Angle(arc.From, 1)), value("to",
				book.Angle(arc.To, 1))}})
		}
		return s
	}
	course := book.Section{Key: "pressures", List: true}
	for _, p := range points {
		course.Items = append(course.Items, book.Item{Values: []book.Value{
			value("crank", book.Angle(p.Turned, 0)), value("piston", book.Share(p.Piston, 1)),
			value("head", bars(p.Head)), value("crank", bars(p.Crank)),
			value("head_gauge", bars(a.run.Gauge(p.Head))), value("crank_gauge", bars(a.run.Gauge(p.Crank))),
			value("torque", newtonMetres(p.Moment)),
		}})
	}
	return []book.Section{
		{Top: true, Items: []book.Item{{Values: []book.Value{
			value("work_j_per_turn", plain(t.Work.In(units.Joule))), value("power_w", plain(power.Indicated.In(units.Watt))),
			value("free_air_l_min", air), value("steam_kg_h", steamUsed),
		}}}},
		{Key: "mean_pressure_bar", Items: []book.Item{{Values: []book.Value{
			value("head", plain(c.Head.MeanPressure.In(units.Bar))), value("crank", plain(c.Crank.MeanPressure.In(units.Bar))),
		}}}},
		{Key: "torque_nm", Items: []book.Item{{Values: []book.Value{
			value("mean", plain(t.Mean.In(units.NewtonMetre))), value("max", plain(t.Greatest.Torque.In(units.NewtonMetre))),
			value("min", plain(t.Least.Torque.In(units.NewtonMetre))),
		}}}},
		list("negative", t.Negative), list("starts", starting.Starts), course,
	}, nil
}
