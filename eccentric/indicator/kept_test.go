package indicator

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A sheet is what is kept, line by line; a line that is the same for several engines
// stands with the first of them.
type sheet struct {
	strings.Builder
	told map[string]bool
}

func (s *sheet) line(format string, values ...any) {
	text := fmt.Sprintf(format, values...)
	if s.told == nil {
		s.told = map[string]bool{}
	}
	if !s.told[text] {
		s.told[text] = true
		s.WriteString(text + "\n")
	}
}

func (s *sheet) findings(list finding.List) {
	for _, f := range list {
		s.line("  %s %v %s: %s", f.Code, f.Severity, f.Where, f.Text)
		s.line("    remedies: %s%s", strings.Join(f.Remedies, " | "), works(f.Refs))
	}
}

// works names sources by their place, or their note where they have none.
func works(refs source.Refs) (all string) {
	for r := range refs.All() {
		all += "; " + cmp.Or(r.Locator, r.Note, r.Kind.String())
	}
	return all
}

func bar(p units.Pressure) float64 { return p.In(units.Bar) }

func rpm(n units.RotationalSpeed) float64 { return n.In(units.RevPerMinute) }

func mls(q units.VolumeFlow) float64 { return 1e6 * float64(q) }

func arcs(list []Arc) (all string) {
	for _, a := range list {
		all += fmt.Sprintf(" %.5g..%.5g", a.From.Degrees(), a.To.Degrees())
	}
	return all
}

func (s *sheet) engine(r Running) {
	c := got(r.Cycle())
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		e := c.At(end)
		s.line("  %v end: %.5g mm2, work %.5g J, mean %.5g bar, expansion %.5g, %.5g to %.5g bar", end, 1e6*float64(e.Area), float64(e.Work),
			bar(e.MeanPressure), e.Expansion, bar(e.Lowest), bar(e.Highest))
		for _, at := range []State{e.Admission, e.CutOff, e.Release, e.Compression} {
			s.line("    %v %.5g, stroke %.5g, %.5g ml, %.5g to %.5g bar", at.Occurs, at.Crank.Degrees(), at.Stroke, 1e6*float64(at.Volume),
				bar(at.Before), bar(at.After))
		}
	}
	if p, err := r.Power(); err != nil {
		s.line("  power: %v", err)
	} else {
		s.line("  power %.5g W, shaft %.5g to %.5g W, %.4g to %.4g%s", float64(p.Indicated), float64(p.Min), float64(p.Max), p.MinShare, p.MaxShare,
			works(p.Refs))
	}
	t := got(r.Turning())
	if c.At(eccentric.BothEnds) != c.Head {
		s.line("  of both ends is not the head end's")
	}
	s.line("  turning: work %.5g, mean %.5g, greatest %.5g, least %.5g, negative%s", float64(t.Work), float64(t.Mean), float64(t.Greatest.Torque),
		float64(t.Least.Torque), arcs(t.Negative))
	st := got(r.Starting(0.1 * got(r.Starting(0)).Greatest.Torque))
	s.line("  starts%s, blind%s, backwards%s, kick %.5g, greatest %.5g", arcs(st.Starts), arcs(st.Blind), arcs(st.Backwards), st.Kick.Degrees(),
		float64(st.Greatest.Torque))
	for _, degrees := range []units.Angle{33, 251} {
		f := got(r.Forces(degrees * units.Degree))
		s.line("  forces at %v: pressure %.5g, inertia %.5g, pin %.5g, rod %.5g, guide %.5g, tangential %.5g, bearing %.5g N, %.5g Nm",
			float64(degrees), float64(f.Pressure), float64(f.Inertia), float64(f.Pin), float64(f.Rod), float64(f.Guide), float64(f.Tangential),
			float64(f.Bearing), float64(f.Moment))
	}
	if i, err := r.Inertia(); err != nil {
		s.line("  inertia: %v", err)
	} else {
		s.line("  inertia: %.5g m/s, %.5g and %.5g N, knocks %.5g and %.5g rev/min", float64(i.PistonSpeed), float64(i.Head), float64(i.Crank),
			rpm(i.HeadKnocks), rpm(i.CrankKnocks))
	}
	if e, err := r.Excess(); err != nil {
		s.line("  excess: %v", err)
	} else {
		s.line("  excess %.5g J, share %.5g, %d crossings", float64(e.Energy), e.Share, len(e.Crossing))
	}
	for _, wheel := range []holding.Wheel{{Mass: 1.5, Gyration: units.MM(40)}, {Mass: 0.2, Gyration: units.MM(30)}} {
		e, err := r.Evenness(wheel)
		if err != nil {
			s.line("  evenness: %v", err)
			continue
		}
		s.line("  evenness %.5g, swing %.5g, %.5g to %.5g, steady %.5g rev/min", e.Share, rpm(e.Swing), rpm(e.Min), rpm(e.Max), rpm(e.Steady))
		s.findings(e.Findings)
	}
	if w, err := r.WheelFor(0.05, units.MM(40)); err == nil {
		s.line("  wheel for 5 %%: %.5g kg", float64(w.Mass))
	}
	if p, err := r.PortFlow(); err == nil {
		s.line("  ports: %.5g m/s; %.5g in, %.5g out, from %.5g and %.5g; %.5g in, %.5g out, from %.5g and %.5g rev/min", float64(p.PistonSpeed),
			float64(p.Head.Steam), float64(p.Head.Exhaust), rpm(p.Head.SteamThrottles), rpm(p.Head.ExhaustThrottles), float64(p.Crank.Steam),
			float64(p.Crank.Exhaust), rpm(p.Crank.SteamThrottles), rpm(p.Crank.ExhaustThrottles))
	}
	for _, limit := range []units.Speed{5, 1} {
		if c, err := r.Throttled(limit); err != nil {
			s.line("  throttled at %v m/s: %v", float64(limit), err)
		} else {
			s.line("  throttled at %v m/s: %.5g J, cut-offs %.5g and %.5g, compressions %.5g and %.5g deg", float64(limit), float64(c.Work),
				c.Head.CutOff.Crank.Degrees(), c.Crank.CutOff.Crank.Degrees(), c.Head.Compression.Crank.Degrees(), c.Crank.Compression.Crank.Degrees())
		}
	}
	if h, err := r.Hold(units.MM(13), units.MM(10.5)); err != nil {
		s.line("  hold: %v", err)
	} else {
		s.line("  hold: down %.5g, up %.5g N, lifts %v", float64(h.Down), float64(h.Up), h.Lifts)
		s.findings(h.Check())
	}
	s.uses(r)
	s.findings(got(r.Check()))
	for _, declared := range []units.Pressure{0, 3 * units.Bar, units.Bar} {
		s.findings(got(r.CheckPressure(declared)))
	}
}

func (s *sheet) uses(r Running) {
	if a, err := r.AirUse(); err != nil {
		s.line("  air: %v", err)
	} else {
		d, err := a.Lasts(24*units.Litre, 8*units.Bar, 3*units.Bar, a.Max/4)
		s.line("  air: %.5g ml, %.5g, %.5g to %.5g ml/s, through %v; a receiver lasts %.4g s, %v%s", 1e6*float64(a.PerTurn), mls(a.Free),
			mls(a.Min), mls(a.Max), a.BlowsThrough, d.Seconds(), err, works(a.Refs))
	}
	if u, err := r.SteamUse(); err != nil {
		s.line("  steam: %v", err)
	} else {
		s.line("  steam: %.5g g, %.5g kg an hour, water %.5g, %.5g to %.5g kg, through %v%s", 1000*float64(u.PerTurn), float64(u.PerHour),
			float64(u.Water), float64(u.Min), float64(u.Max), u.BlowsThrough, works(u.Refs))
	}
	if e, err := r.ColdEngine(1.2, units.Celsius(15), units.Celsius(110)); err != nil {
		s.line("  cold: %v", err)
	} else {
		s.line("  cold: %v, %.5g ml, room %.5g ml, share %.5g", e.Water, 1e6*float64(e.Volume), 1e6*float64(e.Room), e.Share)
		s.findings(e.Findings)
	}
	for name, of := range []func(units.Speed) (Pipe, error){r.SteamPipe, r.ExhaustPipe} {
		p, err := of(24)
		if err != nil {
			s.line("  pipe %d: %v", name, err)
			continue
		}
		s.line("  pipe %d: %.5g, peak %.5g ml/s, %.4g, peak %.4g mm, take %v, %v%s", name, mls(p.Flow), mls(p.Peak), p.Bore.MM(), p.PeakBore.MM(),
			p.Take, p.Tubes, works(p.Refs))
	}
	e := got(r.Expansion())
	s.line("  expansion: %.5g, %v, %s%s", e.Index, e.Medium, e.Of, works(e.Refs))
	s.findings(e.Findings)
}

// All that is said of engines of every make, to five digits: the formulas have their own
// tests, of the energy, by scans and from print; this one tells of any change in what is
// told.
func TestEnginesAreKept(t *testing.T) {
	var s sheet
	all := scanned()
	with := func(name, of string, change func(r *Running)) {
		r := all[of]
		change(&r)
		all[name] = r
	}
	delete(all, "three")
	delete(all, "heavy")
	delete(all, "hyperbola")
	with("in line", "demo", func(r *Running) { r.Gear.Advance = -90 * units.Degree })
	with("hot index", "steam", func(r *Running) { r.Index = 1.37 })
	with("fast", "steam", func(r *Running) { r.Speed, r.Moving, r.Index = 4000*units.RevPerMinute, 0.1, 1.12 })
	with("no speed", "demo", func(r *Running) { r.Speed, r.Index = 0, 1.3 })
	with("hardly opens", "demo", func(r *Running) { r.Gear.Travel, r.Index, r.Back = units.MM(2.2), 1.4, 0.5*units.Bar })
	with("back pressed", "early", func(r *Running) { r.Chest, r.Back = 0.5*units.Bar, 0.3*units.Bar })
	with("worn", "inside", func(r *Running) { r.Clearance, r.Gear.Valve.Cavity = Both(0.01), units.MM(10) })
	for _, name := range slices.Sorted(maps.Keys(all)) {
		r := all[name]
		s.line("== %s", name)
		s.engine(r)
	}
	check.Kept(t, "eccentric/indicator/kept/engines.txt", s.String())
}

// What does not hang on an engine's sizes.
func TestListsAreKept(t *testing.T) {
	var s sheet
	for _, m := range append(Media(), 0) {
		for _, e := range m.Expansions() {
			s.line("%v %.5g: %s%s", m, e.Index, e.Of, works(e.Refs))
		}
		r := demo()
		r.Medium = m
		if o, err := r.Oiling(3 * units.CubicCentimetre); err != nil {
			s.line("oil: %v", err)
		} else {
			s.line("oil: %.5g to %.5g ml/s, %.4g to %.4g drops, %s%s", mls(o.Min), mls(o.Max), o.MinDrops, o.MaxDrops, o.Text, works(o.Refs))
		}
	}
	for _, x := range []float64{0.7, 0.85, 1} {
		e := got(WetSteam(x))
		s.line("wet %v: %.5g, %s%s", x, e.Index, e.Of, works(e.Refs))
	}
	for _, l := range PortLimits() {
		s.line("%s: %.5g ft/min%s", l.Name, l.Speed.In(units.FootPerMinute), works(l.Refs))
	}
	for _, p := range Precautions() {
		s.line("%s: %s", p.Code, p.Text)
	}
	for _, sold := range [][]Tube{metricTubes(), inchTubes()} {
		for _, tube := range sold {
			s.line("tube %v, bore %v", tube, tube.Bore())
		}
	}
	for _, m := range Media() {
		text, err := json.Marshal(m)
		var back Medium
		if err != nil || json.Unmarshal(text, &back) != nil || back != m || got(ParseMedium(strings.ToUpper(m.String()))) != m {
			t.Errorf("%v came back from %s as %v", m, text, back)
		}
	}
	if m, err := ParseMedium("compressed air"); m != Air || err != nil {
		t.Errorf("compressed air is %v, %v", m, err)
	}
	r := demo()
	for name, v := range map[string]fmt.Stringer{
		"atmosphere": got(r.AirUse()), "from": Arc{0, 1}, "area": got(r.Cycle()).Head, "work": got(r.Cycle()), "steam": EndFlow{},
		"excess": got(r.Evenness(holding.Wheel{Mass: 0.5, Gyration: units.MM(40)})), "crossing": got(r.Excess()),
		"index": got(r.Expansion()), "diameter": wheel(t), "bearing": got(r.Forces(1)), "lifts": got(r.Hold(units.MM(13), units.MM(10.5))),
		"head knocks": Inertia{}, "torque": Moment{}, "max drops": Oiling{}, "peak bore": got(r.SteamPipe(20)), "piston": got(r.At(1)),
		"piston speed": got(r.PortFlow()), "speed": PortLimits()[0], "indicated": got(r.Power()), "clearance": r, "crank": Both(0.1),
		"kick": got(r.Starting(0)), "water": SteamUse{}, "mean": got(r.Turning()), "share": ColdEngine{},
	} {
		if text := v.String(); !strings.Contains(text, name) {
			t.Errorf("no %s in %q", name, text)
		}
	}
	check.Kept(t, "eccentric/indicator/kept/lists.txt", s.String())
}
