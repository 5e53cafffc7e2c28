package indicator

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// textbookEngine is an engine of endless rods whose ports open to steam at the dead
// centre, shut at a share of the stroke and let out until the next, with next to no
// clearance. It is double acting, so that it makes two strokes a turn.
func textbookEngine(bore, stroke units.Length, cutOff, strokesPerMinute float64) Running {
	r := demo()
	r.Bore, r.PistonRod, r.Clearance = bore, units.Length{}, Both(leastClearance)
	r.Speed = units.RotationalSpeed(strokesPerMinute/2) * units.RevPerMinute
	advance := (math.Pi - math.Acos(1-2*cutOff)) / 2
	lap := r.Gear.Travel.Scale(math.Sin(advance) / 2)
	r.Gear.Stroke, r.Gear.ConnectingRod, r.Gear.EccentricRod = stroke, eccentric.InfiniteRod(), eccentric.InfiniteRod()
	r.Gear.Advance = units.Angle(advance)
	r.Gear.Valve = r.Gear.Ports.ValveWith(eccentric.Laps{Steam: lap, Exhaust: lap.Neg()})
	return r
}

const leastClearance = 0.0011

// share reads a decimal number or a fraction such as 1/3.
func share(t *testing.T, text string) float64 {
	t.Helper()
	over, under, fraction := strings.Cut(text, "/")
	v, err := strconv.ParseFloat(over, 64)
	if err != nil {
		t.Fatal(err)
	}
	if fraction {
		d, err := strconv.ParseFloat(under, 64)
		if err != nil {
			t.Fatal(err)
		}
		v /= d
	}
	return v
}

// textbook is one end with the diagram of the textbooks: admission at the dead centre,
// cut-off, release at the other and no compression, by the hyperbola.
func textbook(cutOff, clearance, chest, back, area float64) *side {
	e := &kernel.EndEvents{
		Admission: kernel.Event{Occurs: true}, CutOff: kernel.Event{Occurs: true, Crank: math.Acos(1 - 2*cutOff), Stroke: cutOff},
		Release:     kernel.Event{Occurs: true, Crank: math.Pi, Stroke: 1},
		Compression: kernel.Event{Occurs: true, Crank: 2 * math.Pi},
	}
	if clearance == 0 { // which no engine has
		clearance = 1e-12
	}
	c := kernel.Cycle{Chest: chest, Back: back, Clearance: clearance, Index: 1}
	return &side{area: area, cycle: c, round: e.Round(&c), events: e}
}

// The thirty mean-pressure factors of Machinery's Reference Series 70, its two worked
// mean pressures, and those of other books.
func TestMeanPressure(t *testing.T) {
	f := check.Open(t, "eccentric/indicator/mean_pressure.csv")
	for r := range f.Rows() {
		s := textbook(share(t, r.Text("cut_off")), r.Float("clearance"), r.Float("chest"), r.Float("back"), 1)
		e := s.endCycle(1)
		r.Compare("mean", float64(e.MeanPressure)*r.Float("diagram"))
		near(t, r.ID+": work of a swept volume of one", float64(e.Work), float64(e.MeanPressure), 0)
	}
}

func TestPower(t *testing.T) {
	f := check.Open(t, "eccentric/indicator/power.csv")
	for r := range f.Rows() {
		run := demo()
		run.Bore, run.PistonRod = units.MM(1000*r.Float("bore_m")), units.MM(1000*r.Float("piston_rod_m"))
		run.Gear.Stroke, run.Gear.ConnectingRod = units.MM(1000*r.Float("stroke_m")), eccentric.InfiniteRod()
		run.Speed = units.RotationalSpeed(r.Float("rev_per_min")) * units.RevPerMinute
		c, err := run.Cycle()
		if err != nil {
			t.Fatal(err)
		}
		work := 0.0
		for _, end := range []EndCycle{c.Head, c.Crank} {
			if r.Has("mean_pa") {
				work += r.Float("mean_pa") * float64(end.Swept)
				continue
			}
			s := textbook(share(t, r.Text("cut_off")), 0, r.Float("chest_pa"), r.Float("back_pa"), float64(end.Area))
			work += float64(s.endCycle(r.Float("stroke_m")).Work)
		}
		got := units.Power(work * turns(run.Speed) * r.Float("share"))
		unit := units.Kilowatt
		if r.Text("unit") == "hp" {
			unit = units.Horsepower
		}
		r.Compare("printed", got.In(unit))
	}
}

// Forces of the books, by their series of two terms and in full.
func TestForces(t *testing.T) {
	f := check.Open(t, "eccentric/indicator/forces.csv")
	for r := range f.Rows() {
		run := demo()
		run.Gear.Stroke, run.Gear.ConnectingRod = units.MM(2000*r.Float("crank_m")), eccentric.RodOf(units.MM(1000*r.Float("rod_m")))
		run.Moving, run.Speed = units.Mass(r.Float("mass_kg")), units.RotationalSpeed(r.Float("rev_per_min"))*units.RevPerMinute
		m := run.model()
		area := func(column string) float64 { d := r.Float(column); return math.Pi / 4 * d * d }
		push := r.Float("cover_pa")*area("bore_m") - r.Float("crank_pa")*(area("bore_m")-area("piston_rod_m")) + r.Float("more_n")
		at := r.Float("angle") * math.Pi / 180
		quantity, unit, _ := strings.Cut(r.Text("quantity"), " ")
		full := m.forces(at, push)
		place := m.motion.Place(at)
		// Of the printed series: a = R*w^2*(cos t + cos 2t / n), ds/dt = R*(sin t + sin 2t / (2 n)).
		n, radius := r.Float("rod_m")/r.Float("crank_m"), r.Float("crank_m")
		gains := (math.Cos(at) + math.Cos(2*at)/n) / 2
		inertia := m.mass * m.stroke * gains * m.omega * m.omega
		pin := push - inertia
		slant := math.Asin(math.Sin(at) / n)
		get := func(f *Forces, heavy float64) float64 {
			switch quantity {
			case "moment":
				return float64(f.Moment)
			case "inertia":
				return float64(f.Inertia)
			case "guide":
				return float64(f.Guide)
			case "rod":
				return float64(f.Rod)
			case "tangential":
				return float64(f.Tangential)
			case "pin":
				return float64(f.Pin)
			case "bearing":
				return float64(f.Bearing)
			case "reverses":
				return float64(reverses(push, heavy))
			}
			t.Fatalf("%s: no quantity %q", r.ID, quantity)
			return 0
		}
		series := Forces{
			Pressure: units.Force(push), Inertia: units.Force(inertia), Pin: units.Force(pin),
			Rod: units.Force(pin / math.Cos(slant)), Guide: units.Force(pin * math.Tan(slant)),
			Tangential: units.Force(pin * math.Sin(at+slant) / math.Cos(slant)), Bearing: units.Force(pin * math.Cos(at+slant) / math.Cos(slant)),
			Moment: units.Torque(pin * math.Sin(at+slant) / math.Cos(slant) * radius),
		}
		if strings.HasPrefix(r.ID, "bevan") {
			series.Moment = units.Torque(pin * radius * (math.Sin(at) + math.Sin(2*at)/(2*n)))
		}
		scale := map[string]float64{"kN": 1e3, "N": 1, "N m": 1, "kN m": 1e3, "N ft": 0.3048, "lbf ft": 1.3558179483314, "rev/min": math.Pi / 30}[unit]
		if r.Has("printed") {
			r.Compare("printed", get(&series, m.mass*m.stroke*gains)/scale)
		}
		tolerance := check.HalfLastPlace(r.Text("exact"))
		if r.Has("exact_tolerance") {
			tolerance = r.Float("exact_tolerance") // the book's rounding of what goes in, which the recomputation kept
		}
		r.Within("exact", get(&full, m.mass*m.stroke*place.Gains)/scale, tolerance)
	}
}

// A port of the printed share of the piston throttles at the piston speed of the list,
// by Rankine's limit.
func TestPortFlow(t *testing.T) {
	f := check.Open(t, "eccentric/indicator/port_flow.csv")
	for r := range f.Rows() {
		run, ratio := demo(), r.Float("ratio")
		run.PistonRod = units.Length{}
		run.Gear.Ports.Length = units.MM(math.Pi / 4 * 20 * 20 / ratio / 2) // opens by 2 mm
		flow, err := run.PortFlow()
		if err != nil {
			t.Fatal(err)
		}
		run.Speed = flow.Head.SteamThrottles
		rounding := check.HalfLastPlace(r.Text("ratio")) / ratio * r.Float("piston_ft_per_min")
		r.Within("piston_ft_per_min", run.meanPistonSpeed().In(units.FootPerMinute), rounding)
	}
}
