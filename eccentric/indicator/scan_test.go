package indicator

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// scanned are invented engines of every make, on which a scan of a turn is compared with
// what is computed in closed form.
func scanned() map[string]Running {
	all := map[string]Running{"demo": demo()}
	with := func(name string, change func(r *Running)) {
		r := demo()
		r.Gear.Ports.Length = units.MM(10)
		change(&r)
		all[name] = r
	}
	with("heavy", func(r *Running) { r.Moving, r.Speed = 0.15, 900*units.RevPerMinute })
	with("twin", func(r *Running) { r.Cranks, r.Moving = []units.Angle{90 * units.Degree}, 0.05 })
	with("three", func(r *Running) { r.Cranks = []units.Angle{120 * units.Degree, -120 * units.Degree} })
	with("steam", func(r *Running) {
		r.Medium, r.Index, r.Chest, r.Back, r.Atmosphere = Steam, 1.135, 4*units.Bar, 0.2*units.Bar, 0.98*units.Bar
		r.Clearance = Shares{0.06, 0.11}
	})
	with("early", func(r *Running) {
		r.Gear.Travel, r.Gear.Advance = units.MM(6), 48*units.Degree
		r.Gear.Valve = r.Gear.Ports.ValveWith(eccentric.Laps{Steam: units.MM(2.1), Exhaust: units.MM(0.4)})
	})
	with("small clearance", func(r *Running) {
		r.Gear.Valve.Cavity, r.Clearance = units.MM(6.4), Shares{0.02, 0.03}
	})
	with("inside", func(r *Running) {
		r.Gear.InsideAdmission = true
		r.Gear.Valve = r.Gear.Ports.ValveWith(eccentric.Laps{Steam: units.MM(0.2), Exhaust: units.MM(1.2)})
	})
	with("off centre", func(r *Running) { r.Gear.Valve.Offset, r.PistonRod = units.MM(0.5), units.MM(8) })
	with("open to both", func(r *Running) { r.Gear.Valve.Cavity = units.MM(13.4) })
	with("hyperbola", func(r *Running) { r.Index, r.Gear.ConnectingRod = 1, eccentric.InfiniteRod() })
	return all
}

// The highest and the lowest pressure, the states at the events, the areas, the volumes
// and the work of each end are those of the curve of [Running.At], by the trapezium
// rule, and of the piston's circle.
func TestCycleByAScan(t *testing.T) {
	for name, r := range scanned() {
		r.Moving = 0
		c := got(r.Cycle())
		const n = 7200
		points := got(r.Points(n))
		for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			e, rod, from := c.At(end), 0.0, units.Angle(0)
			share := r.Clearance.Head
			if end == eccentric.CrankEnd {
				rod, from, share = r.PistonRod.MM(), math.Pi, r.Clearance.Crank
			}
			area := math.Pi / 4 * (r.Bore.MM()*r.Bore.MM() - rod*rod) * 1e-6
			near(t, name+" area", float64(e.Area), area, 1e-15)
			near(t, name+" swept", float64(e.Swept), area*r.Gear.Stroke.Metres(), 1e-15)
			near(t, name+" clearance", float64(e.Clearance), share*area*r.Gear.Stroke.Metres(), 1e-15)
			pressure := func(p Point) float64 {
				if end == eccentric.CrankEnd {
					return float64(p.Crank)
				}
				return float64(p.Head)
			}
			volume := func(p Point) float64 {
				if end == eccentric.CrankEnd {
					return (share + 1 - p.Piston) * float64(e.Swept)
				}
				return (share + p.Piston) * float64(e.Swept)
			}
			highest, lowest, work := 0.0, math.Inf(1), 0.0
			for i, p := range points {
				after := points[(i+1)%n]
				highest, lowest = max(highest, pressure(p)), min(lowest, pressure(p))
				work += (pressure(p) + pressure(after)) / 2 * (volume(after) - volume(p))
			}
			all := float64(r.Absolute(r.Chest)) * float64(e.Swept)
			near(t, name+" work", work/all, float64(e.Work)/all, 2e-3) // a jump at an opening falls within a step
			near(t, name+" mean pressure", float64(e.MeanPressure)*float64(e.Swept), float64(e.Work), 1e-12)
			near(t, name+" highest", highest/float64(e.Highest), 1, 2e-3)
			near(t, name+" lowest", lowest/float64(e.Lowest), 1, 2e-3)
			if float64(e.Highest) < highest*(1-1e-12) || float64(e.Lowest) > lowest*(1+1e-12) {
				t.Errorf("%s %v end: %v to %v, the curve has %v to %v", name, end, e.Lowest, e.Highest, lowest, highest)
			}
			for what, at := range map[string]State{
				"admission": e.Admission, "cut-off": e.CutOff, "release": e.Release, "compression": e.Compression,
			} {
				const hair = 1e-7
				before, after := got(r.At(from+at.Crank-hair)), got(r.At(from+at.Crank+hair))
				if !at.Occurs {
					t.Fatalf("%s: no %s", name, what)
				}
				near(t, name+" before "+what, pressure(before)/float64(at.Before), 1, 1e-5)
				near(t, name+" after "+what, pressure(after)/float64(at.After), 1, 1e-5)
				near(t, name+" volume at "+what, volume(after)/float64(at.Volume), 1, 1e-5)
				near(t, name+" stroke at "+what, (volume(after)/float64(e.Swept)-share)-at.Stroke, 0, 1e-6)
			}
			expands := float64(e.Release.Volume / e.CutOff.Volume)
			if pushed := pressure(got(r.At(from + e.CutOff.Crank + 0.01))); pushed >= float64(r.Absolute(r.Chest)) || expands <= 1 {
				expands = 0 // it is open to steam still, or let out before
			}
			near(t, name+" expansion", e.Expansion, expands, 1e-12)
		}
		near(t, name+" both ends", float64(c.Work), float64(c.Head.Work+c.Crank.Work), 1e-15)
	}
}

// The points of a turn are those of [Running.At], with an even and an odd number of
// them, and the moment is that of the forces of each cylinder.
func TestPointsAreAt(t *testing.T) {
	for name, r := range scanned() {
		for _, n := range []int{1, 2, 7, 24} {
			for i, p := range got(r.Points(n)) {
				at := units.Angle(2 * math.Pi * float64(i) / float64(n))
				want := got(r.At(at))
				near(t, name+" piston", p.Piston, want.Piston, 1e-12)
				near(t, name+" turned", float64(p.Turned), float64(at), 1e-15)
				if i == 0 || n%2 == 0 && i == n/2 {
					continue // at a dead centre rounding tells on which side of an event it is
				}
				near(t, name+" head", float64(p.Head/want.Head), 1, 1e-9)
				near(t, name+" crank", float64(p.Crank/want.Crank), 1, 1e-9)
				moment := 0.0
				for _, ahead := range append([]units.Angle{0}, r.Cranks...) {
					moment += float64(got(r.Forces(at + ahead)).Moment)
				}
				near(t, name+" moment of the forces", float64(p.Moment), moment, 1e-9)
			}
		}
	}
}

// The statics of the valve, worked at every tenth of a degree from the openings of the
// gear and the pressures of the cylinder, and just before each release.
func TestHoldByAScan(t *testing.T) {
	const width, cavityWidth = 13, 10.5 // mm
	for name, r := range scanned() {
		if r.Gear.InsideAdmission {
			continue
		}
		h := got(r.Hold(units.MM(width), units.MM(cavityWidth)))
		chest, back := float64(r.Absolute(r.Chest)), float64(r.Absolute(r.Back))
		near(t, name+" down", float64(h.Down), (chest-back)*r.Gear.Valve.Length.MM()*width*1e-6, 1e-9)
		up := func(at units.Angle, cavity float64) float64 {
			o, p := got(r.Gear.OpeningsAt(at)), got(r.At(at))
			if o.Head.Steam.Sign() > 0 && o.Head.Exhaust.Sign() > 0 || o.Crank.Steam.Sign() > 0 && o.Crank.Exhaust.Sign() > 0 {
				cavity = chest
			}
			sum := (cavity - back) * r.Gear.Valve.Cavity.MM() * cavityWidth
			for _, of := range []struct {
				end   eccentric.End
				open  eccentric.Opening
				under units.Pressure
			}{{eccentric.HeadEnd, o.Head, p.Head}, {eccentric.CrankEnd, o.Crank, p.Crank}} {
				port, _ := r.Gear.Ports.At(of.end)
				covered := max(0, port.Sub(of.open.Steam).Sub(of.open.Exhaust).MM())
				sum += (float64(of.under) - back) * covered * r.Gear.Ports.Length.MM()
			}
			return sum * 1e-6
		}
		most := math.Inf(-1)
		for i := range 3600 {
			most = max(most, up(units.Angle(float64(i)/10)*units.Degree, back))
		}
		c := got(r.Cycle())
		for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			e, from := c.At(end), units.Angle(0)
			if end == eccentric.CrankEnd {
				from = math.Pi
			}
			most = max(most, up(from+e.Release.Crank-1e-6, max(back, float64(e.Release.Before))), up(from+e.Admission.Crank-1e-6, back))
		}
		near(t, name+" up", float64(h.Up), most, 2e-3*math.Abs(most))
		near(t, name+" up at its angle", float64(h.Up), max(up(h.Turned, back), most-2e-3*math.Abs(most)), 4e-3*math.Abs(most))
		if h.Lifts != (h.Up > h.Down) || h.Turned < 0 || h.Turned >= 2*math.Pi {
			t.Errorf("%s: %v", name, h)
		}
	}
}

// From where it starts, worked at every degree from the openings of the gear.
func TestStartingByAScan(t *testing.T) {
	for name, r := range scanned() {
		for _, share := range []float64{0, 0.2} {
			greatest := got(r.Starting(0)).Greatest.Torque
			friction := units.Torque(share) * greatest
			s := got(r.Starting(friction))
			chest, back, air := float64(r.Absolute(r.Chest)), float64(r.Absolute(r.Back)), float64(r.Absolute(0))
			c := got(r.Cycle())
			most := 0.0
			for degree := 0.5; degree < 360; degree++ {
				at := units.Angle(degree) * units.Degree
				moment := 0.0
				for _, ahead := range append([]units.Angle{0}, r.Cranks...) {
					o := got(r.Gear.OpeningsAt(at + ahead))
					head, crank := back, back
					if o.Head.Steam.Sign() > 0 {
						head = chest
					}
					if o.Crank.Steam.Sign() > 0 {
						crank = chest
					}
					if head == back && crank == back {
						continue
					}
					push := head*float64(c.Head.Area) - crank*float64(c.Crank.Area) - air*float64(c.Head.Area-c.Crank.Area)
					arm := (got(r.At(at+ahead+1e-5)).Piston - got(r.At(at+ahead-1e-5)).Piston) / 2e-5 * r.Gear.Stroke.Metres()
					moment += push * arm
				}
				most = max(most, moment)
				if off := 0.02 * float64(greatest); math.Abs(moment-float64(friction)) > off && in(s.Starts, at) != (moment > float64(friction)) {
					t.Errorf("%s at %v degrees against %v: a moment of %v, starts in %v", name, degree, friction, moment, s.Starts)
				}
				if off := 0.02 * float64(greatest); math.Abs(moment+float64(friction)) > off && in(s.Backwards, at) != (moment < -float64(friction)) {
					t.Errorf("%s at %v degrees against %v: a moment of %v, backwards in %v", name, degree, friction, moment, s.Backwards)
				}
			}
			near(t, name+" greatest", most/float64(greatest), 1, 0.02)
			longest := units.Angle(0)
			for _, arc := range s.Blind {
				longest = max(longest, arc.Angle())
			}
			if s.Kick != longest {
				t.Errorf("%s: a kick of %v, the longest arc is %v", name, s.Kick, longest)
			}
		}
	}
}

// What a flywheel stores, by adding the moment above its mean up at every twentieth of a
// degree.
func TestExcessByAScan(t *testing.T) {
	for name, r := range scanned() {
		e := got(r.Excess())
		const n = 7200
		points := got(r.Points(n))
		mean := float64(got(r.Turning()).Mean)
		sum, least, most := 0.0, 0.0, 0.0
		var slowest, fastest int
		for i := range points {
			sum += ((float64(points[i].Moment)+float64(points[(i+1)%n].Moment))/2 - mean) * 2 * math.Pi / n
			if sum < least {
				least, slowest = sum, i+1
			}
			if sum > most {
				most, fastest = sum, i+1
			}
		}
		work := 2 * math.Pi * mean
		near(t, name+" excess", (most-least)/work, e.Share, 2e-3)
		near(t, name+" energy", float64(e.Energy), e.Share*work, 1e-9*work)
		for what, pair := range map[string][2]float64{
			"slowest": {float64(slowest) * 2 * math.Pi / n, float64(e.Slowest)}, "fastest": {float64(fastest) * 2 * math.Pi / n, float64(e.Fastest)},
		} {
			turn := 2 * math.Pi
			if name == "three" {
				turn /= 3 // which are alike
			}
			near(t, name+" "+what, math.Remainder(pair[0]-pair[1], turn), 0, 0.01)
		}
		crossings := 0
		for i := range points {
			a, b := float64(points[i].Moment)-mean, float64(points[(i+1)%n].Moment)-mean
			if (a > 0) != (b > 0) {
				crossings++
				at, found := units.Angle((float64(i)+0.5)*2*math.Pi/n), false
				for _, c := range e.Crossing {
					found = found || math.Abs(math.Remainder(float64(c-at), 2*math.Pi)) < 2*math.Pi/n*1.01
				}
				if !found {
					t.Errorf("%s crosses the mean at %v, not in %v", name, at, e.Crossing)
				}
			}
		}
		if crossings != len(e.Crossing) {
			t.Errorf("%s crosses its mean %d times, found %v", name, crossings, e.Crossing)
		}
	}
}
