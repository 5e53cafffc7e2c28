package eccentric

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// demo is an invented engine; its events were worked out beforehand by scanning
// and bisecting the mechanism.
func demo() Gear {
	return Gear{
		Stroke: units.MM(25), ConnectingRod: units.MM(63),
		Travel: units.MM(6.4), EccentricRod: units.MM(60), Advance: 26 * units.Degree,
		Ports: Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
		Valve: Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
}

// simple returns a gear of infinite rods with the given travel and laps.
func simple(travel, steam, exhaust, port units.Length, advance units.Angle) Gear {
	p := Ports{Steam: port, Bar: port, Exhaust: port.Scale(4)}
	return Gear{Stroke: units.MM(100), Travel: travel, Advance: advance, Ports: p, Valve: p.ValveWith(Laps{steam, exhaust})}
}

// A tester is a test, or a property test of rapid.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Fatal(args ...any)
}

func events(t tester, g Gear) Events {
	t.Helper()
	e, err := g.Events()
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func near(t tester, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g within %.3g", what, got, want, tolerance)
	}
}

func TestDemo(t *testing.T) {
	// Source: a scan and bisection that shares no code, to the digits given.
	e := events(t, demo())
	for _, test := range []struct {
		name      string
		got       Event
		deg, done float64
	}{
		{"head admission", e.Head.Admission, -5.4138, math.NaN()},
		{"head cut-off", e.Head.CutOff, 133.4138, 0.869943},
		{"head release", e.Head.Release, 155.5281, 0.963609},
		{"head compression", e.Head.Compression, 332.4719, 0.067226},
		{"crank admission", e.Crank.Admission, -2.5801, math.NaN()},
		{"crank cut-off", e.Crank.CutOff, 130.5801, 0.796478},
		{"crank release", e.Crank.Release, 152.4719, 0.932774},
		{"crank compression", e.Crank.Compression, 335.5281, 0.036391},
	} {
		near(t, test.name, test.got.Crank.Degrees(), test.deg, 0.00005)
		if !math.IsNaN(test.done) {
			near(t, test.name+" stroke", test.got.Stroke, test.done, 0.0000005)
		}
	}
	near(t, "head lead", e.Head.Lead.MM(), 0.27176, 0.000005)
	near(t, "crank lead", e.Crank.Lead.MM(), 0.13381, 0.000005)
}

func TestPublishedEvents(t *testing.T) {
	for r := range check.Open(t, "eccentric/events.csv").Rows() {
		length := func(column string) units.Length {
			l, err := units.ParseLength(r.Text(column) + " " + r.Text("unit"))
			if err != nil {
				t.Fatal(err)
			}
			return l
		}
		inUnit := func(l units.Length) float64 {
			if r.Text("unit") == "in" {
				return l.Inch()
			}
			return l.MM()
		}
		port := length("travel") // as wide as the opening can get, where none is printed
		if r.Has("port") {
			port = length("port")
		}
		g := simple(length("travel"), length("steam_lap"), length("exhaust_lap"), port, 0)
		if r.Has("advance") {
			g.Advance = units.Angle(r.Float("advance")) * units.Degree
		} else {
			set, err := g.WithLead(length("lead"), BothEnds)
			if err != nil {
				t.Fatal(err)
			}
			g = set
		}
		for _, e := range []EndEvents{events(t, g).Head, events(t, g).Crank} {
			for column, event := range map[string]Event{"admission": e.Admission, "cut_off": e.CutOff, "release": e.Release, "compression": e.Compression} {
				if r.Has(column) {
					r.Compare(column, event.Crank.Degrees())
				}
			}
			if r.Has("opening_out") {
				r.Within("opening_out", inUnit(e.Opening), 1e-9) // exact in the source
			}
		}
		if r.Has("advance_out") {
			r.Compare("advance_out", g.Advance.Degrees())
		}
	}
}

// lapShare returns the lap over the half travel that cuts off at the given
// share of the stroke with no lead, by bisection over Events.
func lapShare(t *testing.T, cutOff float64) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		lap := (low + high) / 2
		g := simple(units.MM(200), units.MM(100*lap), units.Length{}, units.MM(50), 0)
		g, err := g.WithLead(units.Length{}, BothEnds)
		if err != nil {
			t.Fatal(err)
		}
		if events(t, g).Head.CutOff.Stroke > cutOff {
			low = lap
		} else {
			high = lap
		}
	}
	return low
}

func TestPublishedRules(t *testing.T) {
	for r := range check.Open(t, "eccentric/rules.csv").Rows() {
		switch kind := r.Text("kind"); kind {
		case "release after more advance", "expansion after more advance", "release earlier after more advance":
			// Travel and laps are not printed; any that give the first pair will do.
			cutOff, release, second := r.Float("cut_off"), r.Float("release"), r.Float("second_cut_off")
			angle := func(share float64) float64 { return math.Acos(1 - 2*share) }
			expansion := angle(release) - angle(cutOff) // asin(S/r) + asin(E/r), whatever the advance
			steam := math.Sin(0.5)
			exhaust := math.Sin(expansion - 0.5)
			g := simple(units.MM(200), units.MM(100*steam), units.MM(100*exhaust), units.MM(50), units.Angle(math.Pi-0.5-angle(cutOff)))
			before := events(t, g).Head
			near(t, r.ID+": cut-off before", before.CutOff.Stroke, cutOff, 1e-9)
			near(t, r.ID+": release before", before.Release.Stroke, release, 1e-9)
			g.Advance = units.Angle(math.Pi - 0.5 - angle(second))
			after := events(t, g).Head
			switch {
			case strings.HasPrefix(kind, "expansion"):
				r.Compare("value", after.Release.Stroke-after.CutOff.Stroke)
			case strings.HasPrefix(kind, "release earlier"):
				r.Compare("value", before.Release.Stroke-after.Release.Stroke)
			default:
				r.Compare("value", after.Release.Stroke)
			}
		case "compression left without exhaust lap":
			release := r.Float("release")
			g := simple(units.MM(200), units.MM(30), units.Length{}, units.MM(50), units.Angle(math.Pi-math.Acos(1-2*release)))
			e := events(t, g).Head
			near(t, r.ID+": release", e.Release.Stroke, release, 1e-9)
			r.Compare("value", e.Compression.Stroke)
		case "lap by the rule with lead": // sqrt(1 - cut-off) half travel - lead / 2
			g := simple(units.Inch(4.5), units.Inch(1.125), units.Inch(0.25), units.Inch(1.125), 35*units.Degree)
			e := events(t, g).Head
			r.Within("cut_off", e.CutOff.Stroke, check.HalfLastPlace(r.Text("cut_off")))
			r.Within("value", math.Sqrt(1-e.CutOff.Stroke)*2.25-e.Lead.Inch()/2, 0.0001) // from a cut-off of five places
		case "lap over half travel at zero lead":
			r.Compare("value", lapShare(t, r.Float("cut_off")))
		case "lap over travel at zero lead":
			r.Compare("value", lapShare(t, r.Float("cut_off"))/2)
		default:
			t.Errorf("%s: kind %q is not computed", r.ID, kind)
		}
	}
}

func TestErrata(t *testing.T) {
	bevan := simple(units.Inch(4.5), units.Inch(1.125), units.Inch(0.25), units.Inch(1.125), 35*units.Degree)
	e := events(t, bevan).Head
	near(t, "implied lead in inches", e.Lead.Inch(), 0.1655, 0.00005)
	check.Errata(t, "eccentric", map[string]float64{
		"bourne-191": e.Compression.Stroke,
		"bourne-192": 1 - e.Release.Stroke,
	})
}

func TestPublishedPistonMotion(t *testing.T) {
	for r := range check.Open(t, "eccentric/piston.csv").Rows() {
		n := r.Float("rod_m") / r.Float("crank_m")
		g := demo()
		g.Stroke, g.ConnectingRod = units.MM(2000*r.Float("crank_m")), units.MM(1000*r.Float("rod_m"))
		omega := r.Float("rev_per_min") * math.Pi / 30
		at := func(t0 float64) float64 { // metres
			s, err := g.PistonPosition(units.Angle(t0))
			if err != nil {
				t.Fatal(err)
			}
			return s.Metres()
		}
		speed := func(a float64) float64 {
			return omega * fd.Derivative(at, a, &fd.Settings{Formula: fd.Central, Step: 1e-3})
		}
		acceleration := func(a float64) float64 {
			return omega * omega * fd.Derivative(at, a, &fd.Settings{Formula: fd.Central2nd, Step: 1e-3})
		}
		// The source stops after 1/n in cos t + (1/n + 1/4n^3) cos 2t - 1/4n^3 cos 4t + ...
		rest := 1 / (4 * n * n * n)
		scale := r.Float("crank_m") * omega
		half := check.HalfLastPlace(r.Text("printed"))
		switch r.Text("quantity") {
		case "speed":
			r.Within("printed", speed(r.Float("angle")*math.Pi/180), half+scale*rest)
		case "acceleration":
			r.Within("printed", acceleration(r.Float("angle")*math.Pi/180), half+2*scale*omega*rest)
		default: // both are where the acceleration is zero
			low, high := 0.5, 2.0
			for range 50 {
				if mid := (low + high) / 2; acceleration(mid) > 0 {
					low = mid
				} else {
					high = mid
				}
			}
			r.Within("printed", low*180/math.Pi, half+2*rest*180/math.Pi)
		}
	}
}

// scan finds the events of one end without any code of the package: it places
// the eccentric pin, the rod and the lever, scans a turn and bisects.
func scan(g Gear, crankEnd bool, lap float64, steam bool) (opens, shuts float64, ok bool) {
	ratio := 1.0
	if g.LeverRatio != 0 {
		ratio = g.LeverRatio
	}
	r, l := g.Travel.MM()/2/math.Abs(ratio), g.EccentricRod.MM()
	pastEdge := func(t float64) float64 {
		turned := t
		if crankEnd {
			turned += math.Pi
		}
		pin := turned + float64(g.EccentricLead()) // from the direction of the cylinder
		y := -r*math.Cos(pin) + l - math.Sqrt(l*l-math.Pow(r*math.Sin(pin), 2))
		x := ratio*y + g.Valve.Offset.MM()
		if crankEnd != g.InsideAdmission != !steam { // each turns the side of the edge round
			x = -x
		}
		return x - lap
	}
	const steps = 2000
	cross := func(rising bool) (float64, bool) {
		for i := range steps {
			a, b := 2*math.Pi*float64(i)/steps+1e-7, 2*math.Pi*float64(i+1)/steps+1e-7
			if fa, fb := pastEdge(a), pastEdge(b); fa*fb < 0 && (fa < 0) == rising {
				for range 60 {
					if mid := (a + b) / 2; (pastEdge(mid) < 0) == rising {
						a = mid
					} else {
						b = mid
					}
				}
				return a, true
			}
		}
		return 0, false
	}
	opens, okOpens := cross(true)
	shuts, okShuts := cross(false)
	return opens, shuts, okOpens && okShuts
}

func anyGear(t *rapid.T) Gear {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	g := Gear{
		Stroke: units.MM(25), ConnectingRod: units.MM(f("rod", 40, 120)),
		Travel: units.MM(f("travel", 2, 12)), Advance: units.Angle(f("advance", -179, 179)) * units.Degree,
		Ports: Ports{Steam: units.MM(f("steam", 0.5, 5)), Bar: units.MM(f("bar", 0.5, 5)), Exhaust: units.MM(f("exhaust", 1, 8))},
	}
	g.EccentricRod = g.Travel.Scale(f("eccentric rod", 2, 15))
	r := g.Travel.Scale(0.5)
	g.Valve = g.Ports.ValveWith(Laps{r.Scale(f("steam lap", -0.2, 0.95)), r.Scale(f("exhaust lap", -0.2, 0.6))})
	if g.Valve.Cavity.Sign() <= 0 {
		g.Valve.Cavity = units.MM(0.1)
	}
	if g.Valve.Cavity.Cmp(g.Valve.Length) >= 0 {
		g.Valve.Cavity = g.Valve.Length.Scale(0.9)
	}
	g.Valve.Offset = r.Scale(f("offset", -0.2, 0.2))
	g.InsideAdmission = rapid.Bool().Draw(t, "inside")
	g.LeverRatio = rapid.SampledFrom([]float64{0, -1, 1.2, -0.8}).Draw(t, "lever")
	return g
}

func TestEventsAgainstScan(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		laps, e := g.Laps(), events(t, g)
		for i, end := range []EndEvents{e.Head, e.Crank} {
			for _, edge := range []struct {
				lap          units.Length
				steam        bool
				opens, shuts Event
			}{{laps.Steam, true, end.Admission, end.CutOff}, {laps.Exhaust, false, end.Release, end.Compression}} {
				opens, shuts, ok := scan(g, i == 1, edge.lap.MM(), edge.steam)
				if !ok { // a scan may step over a port that is open for a moment only
					if open := edge.shuts.Crank - edge.opens.Crank; edge.opens.Occurs && open > 0.01 && open < 2*math.Pi-0.01 {
						t.Fatalf("scan finds no event where the closed form has %v to %v", edge.opens.Crank, edge.shuts.Crank)
					}
					continue
				}
				compared++
				for _, pair := range [][2]float64{{opens, float64(edge.opens.Crank)}, {shuts, float64(edge.shuts.Crank)}} {
					if d := math.Abs(math.Remainder(pair[0]-pair[1], 2*math.Pi)); d > 1e-9 {
						t.Fatalf("end %d steam %v: scan %v, closed form %v: %g rad apart", i, edge.steam, pair[0], pair[1], d)
					}
				}
			}
		}
	})
	if compared == 0 {
		t.Error("nothing was compared")
	}
}

func TestEventsAgainstScipy(t *testing.T) {
	python := check.Peer(t, "/usr/bin/python3")
	rng := rand.New(rand.NewPCG(1, 2))
	between := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	var gears []Gear
	var text strings.Builder
	for range 2000 {
		g := demo()
		g.Travel = units.MM(between(4, 30))
		g.EccentricRod = g.Travel.Scale(between(2, 12.5))
		g.Advance = units.Angle(between(0, 60)) * units.Degree
		r := g.Travel.Scale(0.5)
		g.Ports = Ports{Steam: r, Bar: r, Exhaust: r.Scale(3)}
		g.Valve = g.Ports.ValveWith(Laps{r.Scale(between(0.05, 0.8)), r.Scale(between(-0.2, 0.5))})
		g.Valve.Offset = r.Scale(between(-0.1, 0.1))
		gears = append(gears, g)
		laps := g.Laps()
		fmt.Fprintln(&text, g.Travel.MM()/2, g.EccentricRod.MM(), g.Valve.Offset.MM(), float64(g.Advance), laps.Steam.MM(), laps.Exhaust.MM())
	}
	cmd := exec.Command(python, check.Path(t, "eccentric/roots.py"))
	cmd.Stdin = strings.NewReader(text.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(gears) {
		t.Fatalf("%d answers for %d gears", len(lines), len(gears))
	}
	worst := 0.0
	for i, g := range gears {
		var admission, cutOff, compression, release float64
		if _, err := fmt.Sscan(lines[i], &admission, &cutOff, &compression, &release); err != nil {
			t.Fatal(err)
		}
		e := events(t, g).Head
		for _, pair := range [][2]float64{
			{float64(e.Admission.Crank), admission}, {float64(e.CutOff.Crank), cutOff},
			{float64(e.Compression.Crank), compression}, {float64(e.Release.Crank), release},
		} {
			d := math.Abs(math.Remainder(pair[0]-pair[1], 2*math.Pi))
			worst = max(worst, d)
			if !(d <= 2e-12) {
				t.Errorf("gear %d: closed form %v, scipy %v: %g rad apart", i, pair[0], pair[1], d)
			}
		}
	}
	t.Logf("2,000 gears, 8,000 angles: largest difference from scipy %.2g rad", worst)
}

func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		travel := units.MM(f("travel", 2, 12))
		r := travel.Scale(0.5)
		steam, exhaust := r.Scale(f("steam lap", 0.05, 0.9)), r.Scale(f("exhaust lap", -0.3, 0.6))
		g := simple(travel, steam, exhaust, r, units.Angle(f("advance", -80, 80))*units.Degree)

		// Infinite rods: cut-off to release is a constant angle whatever the advance.
		e := events(t, g)
		near(t, "expansion angle", float64(e.Head.Release.Crank-e.Head.CutOff.Crank), math.Asin(2*steam.Ratio(travel))+math.Asin(2*exhaust.Ratio(travel)), 1e-9)
		// Both ends are alike.
		near(t, "cut-off of the ends", e.Head.CutOff.Stroke, e.Crank.CutOff.Stroke, 1e-12)
		near(t, "compression of the ends", float64(e.Head.Compression.Crank), float64(e.Crank.Compression.Crank), 1e-12)

		// No exhaust lap: release and compression make up the stroke.
		line := simple(travel, steam, units.Length{}, r, g.Advance)
		el := events(t, line).Head
		near(t, "release + compression", el.Release.Stroke+el.Compression.Stroke, 1, 1e-9)

		// No lead: S/r = sqrt(1 - cut-off).
		set, err := g.WithLead(units.Length{}, BothEnds)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "lap at no lead", 2*steam.Ratio(travel), math.Sqrt(1-events(t, set).Head.CutOff.Stroke), 1e-9)
	})
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		e := events(t, g)
		if first := e.Head.Admission; first.Occurs && (first.Crank < -math.Pi || first.Crank > math.Pi || e.Head.CutOff.Crank < first.Crank) {
			t.Fatalf("head admission %v, cut-off %v out of order", first.Crank, e.Head.CutOff.Crank)
		}
		// OpeningsAt is shut just before an event and open just after.
		for _, side := range []struct {
			end    EndEvents
			behind units.Angle
			of     func(Openings) Opening
		}{{e.Head, 0, func(o Openings) Opening { return o.Head }}, {e.Crank, math.Pi, func(o Openings) Opening { return o.Crank }}} {
			at := func(t0 units.Angle) Opening {
				o, err := g.OpeningsAt(t0 + side.behind)
				if err != nil {
					t.Fatal(err)
				}
				return side.of(o)
			}
			if c := side.end; c.Admission.Occurs && c.CutOff.Crank-c.Admission.Crank > 1e-3 {
				const step = 1e-5
				if at(c.Admission.Crank-step).Steam.Sign() != 0 || at(c.Admission.Crank+step).Steam.Sign() == 0 ||
					at(c.CutOff.Crank+step).Steam.Sign() != 0 || at(c.CutOff.Crank-step).Steam.Sign() == 0 {
					t.Fatalf("openings do not change at admission %v and cut-off %v", c.Admission.Crank, c.CutOff.Crank)
				}
			}
			// The lead is the opening at dead centre.
			if lead := side.end.Lead; lead.Sign() > 0 && lead.Cmp(g.Ports.Steam) < 0 && at(0).Steam != lead {
				t.Fatalf("lead %v, open by %v at dead centre", lead, at(0).Steam)
			}
		}
		// WithLead gives the lead, and OffsetForEqualLead makes both alike.
		for _, end := range []End{HeadEnd, CrankEnd, BothEnds} {
			want := units.MM(0.01)
			set, err := g.WithLead(want, end)
			if err != nil {
				if !errors.Is(err, units.ErrOutOfRange) {
					t.Fatal(err)
				}
				continue
			}
			got := events(t, set)
			lead := map[End]units.Length{HeadEnd: got.Head.Lead, CrankEnd: got.Crank.Lead, BothEnds: got.Head.Lead.Add(got.Crank.Lead).Scale(0.5)}[end]
			near(t, "lead asked for", lead.MM(), want.MM(), 1e-8)
			if set.Valve.Offset, err = set.OffsetForEqualLead(); err != nil {
				t.Fatal(err)
			}
			both := events(t, set)
			near(t, "leads made equal", both.Head.Lead.MM(), both.Crank.Lead.MM(), 1e-8)
		}
		// CrankAt is the inverse of PistonPosition.
		share := rapid.Float64Range(0, 1).Draw(t, "share")
		at, err := g.CrankAt(share)
		if err != nil {
			t.Fatal(err)
		}
		s, err := g.PistonPosition(at)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "piston there and back", s.Ratio(g.Stroke), share, 1e-10)
	})
}

// The valve and the eccentric move as one mechanism, whatever lies between: the
// displacement is worked out from the place of the sheave that EccentricLead
// gives.
func TestEccentricLead(t *testing.T) {
	for _, test := range []struct {
		lever  float64
		inside bool
		want   float64 // degrees; geometry, see the package comment
	}{{0, false, 116}, {0, true, -64}, {-1, false, -64}, {-1, true, 116}, {1.5, false, 116}} {
		g := demo()
		g.LeverRatio, g.InsideAdmission = test.lever, test.inside
		near(t, fmt.Sprintf("lead with lever %v, inside %v", test.lever, test.inside), g.EccentricLead().Degrees(), test.want, 1e-9)
		ratio := test.lever
		if ratio == 0 {
			ratio = 1
		}
		r, l := g.EccentricOffset().MM(), g.EccentricRod.MM()
		near(t, "offset", r, 3.2/math.Abs(ratio), 1e-9)
		for crank := range 360 {
			a := units.Angle(crank) * units.Degree
			pin := float64(a + g.EccentricLead())
			want := ratio * (-r*math.Cos(pin) + l - math.Sqrt(l*l-math.Pow(r*math.Sin(pin), 2)))
			x, err := g.Displacement(a)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "displacement", x.MM(), want, 1e-8)
		}
	}
}

func TestNearFullTravel(t *testing.T) {
	// A port that opens by a hair: the closed form keeps its digits where the
	// arc cosine would lose them. Want: mpmath, 50 digits, r = 3.2, l = 60,
	// c = 3.2 less a millionth of a millimetre, no advance.
	g := demo()
	g.Advance = 0
	g.Valve = g.Ports.ValveWith(Laps{Steam: units.MM(3.199999)})
	e := events(t, g).Head
	half := float64(e.CutOff.Crank-e.Admission.Crank) / 2
	near(t, "half the angle open", half, 8.1253387486750504e-4, 1e-15)
	g.Valve = g.Ports.ValveWith(Laps{Steam: units.MM(3.2)})
	e = events(t, g).Head
	if e.Steam != NeverOpens || e.Admission.Occurs || e.CutOff.Occurs || e.Admission.Crank != 0 || e.Opening.Sign() != 0 {
		t.Errorf("a lap of half the travel must never open: %+v", e)
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*Gear)
		field string
		err   error
	}{
		{"no stroke", func(g *Gear) { g.Stroke = units.Length{} }, "stroke", units.ErrMissing},
		{"negative travel", func(g *Gear) { g.Travel = units.MM(-1) }, "valve travel", units.ErrOutOfRange},
		{"no bar", func(g *Gear) { g.Ports.Bar = units.Length{} }, "bar width", units.ErrMissing},
		{"short rod", func(g *Gear) { g.ConnectingRod = units.MM(12.5) }, "connecting rod", units.ErrOutOfRange},
		{"negative rod", func(g *Gear) { g.ConnectingRod = units.MM(-60) }, "connecting rod", units.ErrOutOfRange},
		{"short eccentric rod", func(g *Gear) { g.EccentricRod = units.MM(3) }, "eccentric rod", units.ErrOutOfRange},
		{"cavity over valve", func(g *Gear) { g.Valve.Cavity = units.MM(15.4) }, "valve cavity", units.ErrOutOfRange},
		{"advance", func(g *Gear) { g.Advance = 181 * units.Degree }, "angle of advance", units.ErrOutOfRange},
		{"advance not a number", func(g *Gear) { g.Advance = units.Angle(math.NaN()) }, "angle of advance", units.ErrOutOfRange},
		{"lever", func(g *Gear) { g.LeverRatio = math.Inf(1) }, "lever ratio", units.ErrOutOfRange},
		{"lever not a number", func(g *Gear) { g.LeverRatio = math.NaN() }, "lever ratio", units.ErrOutOfRange},
		{"absurd", func(g *Gear) { g.Valve.Length = units.Picometres(math.MaxInt64) }, "dimensions", units.ErrOutOfRange},
		{"absurd travel", func(g *Gear) { g.Travel, g.LeverRatio = units.Picometres(math.MaxInt64), 0.1 }, "dimensions", units.ErrOutOfRange},
		{"absurd stroke", func(g *Gear) { g.Stroke = units.Picometres(math.MinInt64) }, "stroke", units.ErrOutOfRange},
		{"absurd offset", func(g *Gear) { g.Valve.Offset = units.Picometres(math.MinInt64 + 1) }, "dimensions", units.ErrOutOfRange},
		{"chest", func(g *Gear) { g.Chest = units.MM(-1) }, "chest length", units.ErrOutOfRange},
	} {
		g := demo()
		test.spoil(&g)
		_, err := g.Events()
		var bad *units.ArgumentError
		if !errors.As(err, &bad) || bad.Field != test.field || !errors.Is(err, test.err) || bad.Accepted == "" {
			t.Errorf("%s: %v", test.name, err)
		}
		if f := g.Check(); len(f) != 1 || f[0].Kind != NotAGear || f[0].Severity != StopsEngine || !strings.Contains(f[0].Text, test.field) {
			t.Errorf("%s: Check says %+v", test.name, f)
		}
	}
	for _, share := range []float64{-0.1, 1.01, 75, math.NaN(), math.Inf(1)} {
		if _, err := demo().CrankAt(share); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("CrankAt(%v): %v", share, err)
		}
	}
	if _, err := demo().WithLead(units.MM(3), BothEnds); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("a lead beyond the travel: %v", err)
	}
	if _, err := demo().WithLead(units.MM(0.1), End(3)); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "accepted: both, head, crank") {
		t.Errorf("an end that there is not: %v", err)
	}
	if err := (Gear{}).Validate(); err == nil || strings.Count(err.Error(), "\n") < 5 {
		t.Errorf("the zero gear must name all that is missing: %v", err)
	}
}

func TestEventsDoesNotAllocate(t *testing.T) {
	g := demo()
	if n := testing.AllocsPerRun(100, func() {
		if _, err := g.Events(); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkEvents(b *testing.B) {
	g := demo()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := g.Events(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	g := demo()
	for b.Loop() {
		if f := g.Check(); f[0].Kind == NotAGear {
			b.Fatal(f)
		}
	}
}
