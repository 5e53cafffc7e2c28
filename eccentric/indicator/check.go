package indicator

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What [Running.Check] and [Hold.Check] find, and of [Running.ColdEngine] and
// [Running.Expansion] the last two.
const (
	GearDoesNotRun   finding.Code = "gear-does-not-run"     // Gear.Check fails the gear; Fails
	NoNetWork        finding.Code = "no-net-work"           // these pressures give none; Fails
	OpenToBoth       finding.Code = "open-to-both"          // steam goes straight to exhaust; Fails
	OverCompression  finding.Code = "over-compression"      // what is shut in rises above the chest; Caution
	ExpandsBelowBack finding.Code = "expands-below-back"    // and falls below the back pressure; Caution
	PortsThrottle    finding.Code = "ports-throttle"        // above 6000 ft/min through the ports; Caution
	InertiaKnocks    finding.Code = "inertia-knocks"        // the moving parts outdo the pressure at a dead centre; Caution
	StartsNotFromAll finding.Code = "starts-not-everywhere" // several cylinders, and still places from which none starts; Note
	ValveLifts       finding.Code = "valve-lifts"           // the slide valve is pushed off its face; Caution
	WaterInCylinder  finding.Code = "water-in-cylinder"     // the first steam makes more of it than the clearance holds; Caution
	SteamIndex       finding.Code = "steam-index"           // an index of expansion that is more than steam has; Caution

	AboveDeclared finding.Code = "above-declared-pressure" // of Running.CheckPressure: more than the cylinder is declared for; Danger
	WheelTooLight finding.Code = "wheel-too-light"         // of Running.Evenness: the speed swings by more than a third; Note
	NotDeclared   finding.Code = "no-declared-pressure"    // and that nobody has said for how much; Note
)

const (
	nothing    = 1e-9                           // of a pressure or an angle, beside rounding
	leastBlind = units.Angle(kernel.LeastBlind) // the same as for one cylinder
)

var practice = source.Ref{Kind: source.CommonPractice}

// Check returns what is to be said of the engine at these pressures and this speed,
// the worst first. What Gear.Check says of the gear comes first and is not said again.
// It looks at the ports if their length is there and Speed, and at the moving parts if
// Moving is there and Speed. It fails only where [Running.Validate] does. See the
// Example.
func (r Running) Check() (finding.List, error) {
	if err := r.Validate(); err != nil {
		return nil, err
	}
	m := r.model()
	c := checker{r: &r, m: m, cycle: m.cycle()}
	c.runs()
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		c.openToBoth(end)
		c.shutIn(end)
	}
	if r.Speed > 0 {
		c.ports()
		c.inertia()
	}
	c.starts()
	c.list.Sort()
	return c.list, nil
}

type checker struct {
	r     *Running
	m     *model
	cycle Cycle
	list  finding.List
}

func (c *checker) tell(f finding.Finding) { c.list = append(c.list, f) }

// runs says whether it does: by what the package eccentric judges of the gear, and by
// what these pressures give.
func (c *checker) runs() {
	work := c.cycle.Work.In(units.Joule)
	for _, f := range finding.ListOf(c.r.Gear.Check()) {
		if f.Severity < finding.Fails || f.Slip {
			continue
		}
		c.tell(finding.Finding{
			Code: GearDoesNotRun, Severity: finding.Fails, Where: "valve gear",
			Text: fmt.Sprintf("The gear does not run the engine (%s), whatever the pressure. With %s in the chest the ideal cycle of a"+
				" cylinder %s.", strings.ReplaceAll(string(f.Code), "-", " "), c.both(c.r.Absolute(c.r.Chest)), worked(work)),
			Remedies: f.Remedies,
		})
		return
	}
	if work <= 0 {
		c.tell(finding.Finding{
			Code: NoNetWork, Severity: finding.Fails,
			Text: fmt.Sprintf("With %s in the chest and %s behind the exhaust the ideal cycle of a cylinder %s: the engine does not run.",
				c.both(c.r.Absolute(c.r.Chest)), c.both(c.r.Absolute(c.r.Back)), worked(work)),
			Remedies: []string{"Give it a higher pressure or a freer exhaust."},
		})
	}
}

func (c *checker) openToBoth(end eccentric.End) {
	arc := passes(c.m.events.At(kernel.End(end)))
	if arc <= nothing {
		return
	}
	c.tell(finding.Finding{
		Code: OpenToBoth, Severity: finding.Fails, Where: place(kernel.End(end)),
		Text: fmt.Sprintf("The port is open to steam and to exhaust at once for %.1f degrees of each turn, and %v goes through without"+
			" work: no figure of what it uses holds.", arc*180/math.Pi, c.r.Medium),
		Remedies: []string{"Give the valve lands that are wider than the ports: a shorter cavity, or more lap."},
	})
}

// passes returns the crank angle over which a port is open to both.
func passes(e *kernel.EndEvents) float64 {
	const turn = 2 * math.Pi
	steam, exhaust := turn, turn // open for
	switch e.Steam {
	case kernel.NeverOpens:
		return 0
	case kernel.OpensAndCloses:
		steam = e.CutOff.Crank - e.Admission.Crank
	}
	switch e.Exhaust {
	case kernel.NeverOpens:
		return 0
	case kernel.OpensAndCloses:
		exhaust = e.Compression.Crank - e.Release.Crank
	}
	return max(0, steam+exhaust-turn)
}

// shutIn looks at what the pressure does while the ports are shut.
func (c *checker) shutIn(end eccentric.End) {
	e, chest, back := c.cycle.At(end), c.r.Absolute(c.r.Chest), c.r.Absolute(c.r.Back)
	if e.Highest > chest*(1+nothing) {
		f := finding.Finding{
			Code: OverCompression, Severity: finding.Caution, Where: place(kernel.End(end)),
			Text: fmt.Sprintf("Compression goes up to %s, above the chest at %s.", c.both(e.Highest), c.both(chest)),
			Remedies: []string{
				"Let it shut later: less exhaust lap, by a longer cavity.", "Or give it more clearance, or a higher pressure in the chest.",
			},
		}
		if c.r.Gear.InsideAdmission {
			f.Text += " A piston valve does not lift and lets none of it out: the bearings take it, and water has no way out at all."
			f.Remedies = append(f.Remedies, "Fit a relief valve to that end of the cylinder.")
		} else {
			f.Text += " It lifts the slide valve off its face and blows back into the chest: a clatter, and lost work."
		}
		c.tell(f)
	}
	if e.Expansion > 0 && e.Release.Before < back*(1-nothing) {
		c.tell(finding.Finding{
			Code: ExpandsBelowBack, Severity: finding.Caution, Where: place(kernel.End(end)),
			Text: fmt.Sprintf("Cut off at %.0f %% of the stroke, it expands down to %s before release, below the exhaust at %s: the end of the"+
				" stroke is a brake.", 100*e.CutOff.Stroke, c.both(e.Release.Before), c.both(back)),
			Remedies: []string{"Give it a higher pressure in the chest, or a later cut-off by less steam lap."},
		})
	}
}

func (c *checker) ports() {
	flow, err := c.r.PortFlow()
	if err != nil {
		return // no length of the ports was stated
	}
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		of := flow.Head
		if end == eccentric.CrankEnd {
			of = flow.Crank
		}
		if v, way, from := worse(of); v > throttling {
			c.tell(finding.Finding{
				Code: PortsThrottle, Severity: finding.Caution, Where: place(kernel.End(end)),
				Text: fmt.Sprintf("At %.0f rev/min %v goes %s the port at %.0f m/s (%.0f ft/min) at its greatest opening; 6000 ft/min is the"+
					" usual limit, reached at %.0f rev/min. Above it the port throttles, and the engine gives less than the cycle.",
					c.r.Speed.In(units.RevPerMinute), c.r.Medium, way, v.In(units.MetrePerSecond), v.In(units.FootPerMinute),
					from.In(units.RevPerMinute)),
				Remedies: []string{"Run it slower, or give it wider or longer ports."},
				Refs:     source.Shared(&rankinePort),
			})
		}
	}
}

// worse returns the higher of the velocities in and out.
func worse(of EndFlow) (units.Speed, string, units.RotationalSpeed) {
	if of.Exhaust > of.Steam {
		return of.Exhaust, "out by", of.ExhaustThrottles
	}
	return of.Steam, "in by", of.SteamThrottles
}

func (c *checker) inertia() {
	inertia, err := c.r.Inertia()
	if err != nil {
		return // nothing was stated of the moving parts
	}
	for _, at := range []struct {
		end    eccentric.End
		force  units.Force
		knocks units.RotationalSpeed
	}{
		{eccentric.HeadEnd, inertia.Head, inertia.HeadKnocks},
		{eccentric.CrankEnd, inertia.Crank, inertia.CrankKnocks},
	} {
		if at.knocks == 0 || c.r.Speed <= at.knocks {
			continue
		}
		c.tell(finding.Finding{
			Code: InertiaKnocks, Severity: finding.Caution, Where: place(kernel.End(at.end)),
			Text: fmt.Sprintf("At %.0f rev/min the moving parts want %.1f N to turn back at the dead centre, more than the pressure gives;"+
				" up to %.0f rev/min it does. The play in the rod's bearings is then taken up later in the stroke, with a knock.",
				c.r.Speed.In(units.RevPerMinute), at.force.In(units.Newton), at.knocks.In(units.RevPerMinute)),
			Remedies: []string{"Run it slower, make the moving parts lighter, or give it more lead or compression."},
		})
	}
}

// starts says of several cylinders where none of them starts; of one Gear.Check does.
func (c *checker) starts() {
	if len(c.r.Cranks) == 0 {
		return
	}
	starting := c.m.starting(0)
	if starting.Kick < leastBlind {
		return
	}
	text := "It starts by itself from nowhere."
	if len(starting.Starts) > 0 {
		blind := 0.0
		for _, arc := range starting.Blind {
			blind += arc.Angle().Degrees()
		}
		text = fmt.Sprintf("The engine does not start by itself from %.0f degrees of its turn, even without friction: no port that could"+
			" push it is open, or the pushes cancel. It must be turned on by up to %.0f degrees.", blind, starting.Kick.Degrees())
	}
	c.tell(finding.Finding{
		Code: StartsNotFromAll, Severity: finding.Note, Text: text,
		Remedies: []string{
			"Two double-acting cylinders start from everywhere with their cranks at right angles and steam for more than a quarter turn at each end.",
		},
	})
}

// Check returns a finding where the valve lifts.
func (h Hold) Check() finding.List {
	if !h.Lifts {
		return nil
	}
	return finding.List{{
		Code: ValveLifts, Severity: finding.Caution, Where: "slide valve",
		Text: fmt.Sprintf("At %.0f degrees after the head-end dead centre what is under the valve pushes it up by %.1f N, and the steam on its"+
			" back down by %.1f N: it lifts, and steam blows through.", h.Turned.Degrees(), h.Up.In(units.Newton), h.Down.In(units.Newton)),
		Remedies: []string{"Give the valve more width on its back, or a spring.", "Or let it compress less."},
		Refs:     source.Of(practice),
	}}
}

// place returns the words for an end of the cylinder.
func place(end kernel.End) string { return eccentric.End(end).String() + " end" }

// both says an absolute pressure both ways.
func (c *checker) both(absolute units.Pressure) string {
	return fault.Decimal(absolute.In(units.Bar), 2) + " bar absolute (" + fault.Decimal(c.r.Gauge(absolute).In(units.Bar), 2) +
		" on the gauge)"
}

// worked says what the net work of a turn does.
func worked(work float64) string {
	if work < 0 {
		return "takes " + fault.Decimal(-work, 3) + " J a turn out of the flywheel"
	}
	return "gives " + fault.Decimal(work, 3) + " J a turn"
}
