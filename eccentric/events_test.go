package eccentric

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func events(t tester, g Gear) Events {
	t.Helper()
	e, err := g.Events()
	if err != nil {
		t.Fatal(err)
	}
	return e
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
			for column, event := range map[string]Event{
				"admission": e.Admission, "cut_off": e.CutOff, "release": e.Release, "compression": e.Compression,
			} {
				if r.Has(column) {
					r.Compare(column, event.Crank.Degrees())
				}
			}
			if r.Has("cut_off") { // it has lead: open from the dead centre on
				from, to := e.Driven()
				near(t, r.ID+": driven from", from.Degrees(), 0, 0)
				r.Compare("cut_off", to.Degrees())
			}
			if r.Has("compression") && !e.Compresses() {
				t.Errorf("%s: it shuts at %s degrees and compresses nothing", r.ID, r.Text("compression"))
			}
			if r.Has("opening_out") {
				r.Within("opening_out", inUnit(e.Opening), 1e-9) // exact in the source
			}
		}
		if r.Has("advance_out") {
			r.Compare("advance_out", g.Advance.Degrees())
		}
		if r.Has("release") { // without exhaust lap 180 degrees less the advance; the exhaust shuts half a turn later
			g.Valve = g.Ports.ValveWith(Laps{Steam: length("steam_lap")})
			moved, err := g.MovedByExhaustLap(length("exhaust_lap"))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("release", 180-r.Float("advance")+moved.Degrees())
			r.Compare("compression", 360-r.Float("advance")-moved.Degrees())
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
			first := units.Angle(math.Pi - 0.5 - angle(cutOff))
			g := simple(units.MM(200), units.MM(100*steam), units.MM(100*exhaust), units.MM(50), first)
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
			r.Compare("value", designedLap(t, r.Float("cut_off")))
		case "lap over travel at zero lead":
			r.Compare("value", lapShare(t, r.Float("cut_off"))/2)
			r.Compare("value", designedLap(t, r.Float("cut_off"))/2)
		case "cut-off of lap 0.4 r and 30 degrees":
			e := events(t, simple(units.MM(200), units.MM(40), units.Length{}, units.MM(50), 30*units.Degree)).Head
			r.Compare("cut_off", e.CutOff.Stroke)
			r.Compare("value", e.CutOff.Stroke)
		case "bar over a port of 30 mm":
			r.Within("value", kernel.LeastBar*30+10, 0)
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

// scan finds the events of one end without any code of the package: it places
// the eccentric pin, the rod and the lever, scans a turn and bisects. A bench, in
// another file, does so with lost motion and ends that differ, and edges for laps.
func scan(g Gear, crankEnd bool, lap float64, steam bool) (opens, shuts float64, ok bool) {
	ratio := 1.0
	if g.LeverRatio != 0 {
		ratio = g.LeverRatio
	}
	r, l := g.Travel.MM()/2/math.Abs(ratio), g.EccentricRod.length.MM()
	stands := math.Pi/2 + float64(g.Advance) // ahead of the crank
	if (g.LeverRatio < 0) != g.InsideAdmission {
		stands = float64(g.Advance) - math.Pi/2 // behind it by 90 degrees less the advance
	}
	pastEdge := func(t float64) float64 {
		turned := t
		if crankEnd {
			turned += math.Pi
		}
		pin := turned + stands // from the direction of the cylinder
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
	python := check.LongPeer(t, "python3", "scipy")
	rng := rand.New(rand.NewPCG(1, 2))
	between := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	var gears []Gear
	var text strings.Builder
	for range 2000 {
		g := demo()
		g.Travel = units.MM(between(4, 30))
		g.EccentricRod = RodOf(g.Travel.Scale(between(2, 12.5)))
		g.Advance = units.Angle(between(0, 60)) * units.Degree
		r := g.Travel.Scale(0.5)
		g.Ports = Ports{Steam: r, Bar: r, Exhaust: r.Scale(3)}
		g.Valve = g.Ports.ValveWith(Laps{r.Scale(between(0.05, 0.8)), r.Scale(between(-0.2, 0.5))})
		g.Valve.Offset = r.Scale(between(-0.1, 0.1))
		gears = append(gears, g)
		laps := g.Laps()
		fmt.Fprintln(&text, g.Travel.MM()/2, g.EccentricRod.length.MM(), g.Valve.Offset.MM(), float64(g.Advance),
			laps.Steam.MM(), laps.Exhaust.MM())
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
		near(t, "expansion angle", float64(e.Head.Release.Crank-e.Head.CutOff.Crank),
			math.Asin(2*steam.Ratio(travel))+math.Asin(2*exhaust.Ratio(travel)), 1e-9)
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
		first := e.Head.Admission
		if first.Occurs && (first.Crank < -math.Pi || first.Crank > math.Pi || e.Head.CutOff.Crank < first.Crank) {
			t.Fatalf("head admission %v, cut-off %v out of order", first.Crank, e.Head.CutOff.Crank)
		}
		// OpeningsAt is shut just before an event and open just after.
		for _, side := range []struct {
			end    EndEvents
			behind units.Angle
			of     func(Openings) Opening
		}{
			{e.Head, 0, func(o Openings) Opening { return o.Head }},
			{e.Crank, math.Pi, func(o Openings) Opening { return o.Crank }},
		} {
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
			mean := got.Head.Lead.Add(got.Crank.Lead).Scale(0.5)
			lead := map[End]units.Length{HeadEnd: got.Head.Lead, CrankEnd: got.Crank.Lead, BothEnds: mean}[end]
			if got.MeanLead() != mean {
				t.Fatalf("mean lead %v, want %v", got.MeanLead(), mean)
			}
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

// Ninety degrees and an advance of 30 to 40 (common practice of small engines),
// the port just cracking at dead centre: which cut-off is that?
func TestCutOffOfCommonAdvance(t *testing.T) {
	for _, test := range []struct{ advance, lap, angle, infinite, head, crank float64 }{
		{30, 0.500, 120, 75.0, 79.7, 70.3},
		{35, 0.574, 110, 67.1, 72.7, 61.5},
		{40, 0.643, 100, 58.7, 64.8, 52.5},
	} {
		lap := units.MM(10 * math.Sin(test.advance*math.Pi/180))
		g := simple(units.MM(20), lap, units.Length{}, units.MM(5), units.Angle(test.advance)*units.Degree)
		e := events(t, g)
		near(t, "S/r", g.Laps().Steam.MM()/10, test.lap, 0.0005)
		near(t, "cut-off angle", e.Head.CutOff.Crank.Degrees(), test.angle, 1e-6)
		near(t, "cut-off, infinite rod", 100*e.Head.CutOff.Stroke, test.infinite, 0.05)
		g.ConnectingRod = RodOf(g.Stroke.Scale(2)) // four cranks
		e = events(t, g)
		near(t, "cut-off, head end", 100*e.Head.CutOff.Stroke, test.head, 0.05)
		near(t, "cut-off, crank end", 100*e.Crank.CutOff.Stroke, test.crank, 0.05)
	}
}

// Scaled-down exhaust laps are below what a workshop holds: five thou on a
// travel of a quarter inch moves release by 2.3 degrees, ten by 4.6.
func TestExhaustLapError(t *testing.T) {
	line := events(t, simple(units.Inch(0.25), units.Inch(0.05), units.Length{}, units.Inch(0.1), 0)).Head.Release
	for thou, want := range map[float64]float64{5: 2.3, 10: 4.6} {
		e := events(t, simple(units.Inch(0.25), units.Inch(0.05), units.Thou(thou), units.Inch(0.1), 0)).Head.Release
		near(t, "shift of release", (e.Crank - line.Crank).Degrees(), want, 0.05)
	}
	p := Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	if v := p.ValveWith(Laps{Steam: units.MM(1)}); v.Cavity != units.MM(12) || v.Length != units.MM(20) {
		t.Errorf("valve %v", v)
	}
	g := Gear{
		Stroke: units.MM(25), ConnectingRod: InfiniteRod(), Travel: units.MM(6), EccentricRod: InfiniteRod(),
		Ports: p, Valve: p.ValveWith(Laps{Steam: units.MM(1)}),
	}
	if e := events(t, g).Head; e.Opening != units.MM(2) || e.OverTravel != units.MM(-1) {
		t.Errorf("opening %v, over-travel %v", e.Opening, e.OverTravel)
	}
	// A valve off centre opens one port further and the other less.
	g.Valve.Offset = units.MM(0.25)
	if e := events(t, g); e.Head.OverTravel != units.MM(-0.75) || e.Crank.OverTravel != units.MM(-1.25) {
		t.Errorf("over-travel %v and %v", e.Head.OverTravel, e.Crank.OverTravel)
	}
}

// What drives is what is open on the way out, whatever the events are.
func TestDriven(t *testing.T) {
	deg := func(v float64) Event { return Event{Occurs: true, Crank: units.Angle(v) * units.Degree} }
	for name, test := range map[string]struct {
		e        EndEvents
		from, to float64
	}{
		"lead":               {EndEvents{Admission: deg(-5), CutOff: deg(120)}, 0, 120},
		"late":               {EndEvents{Admission: deg(20), CutOff: deg(150)}, 20, 150},
		"follows the piston": {EndEvents{Admission: deg(-5), CutOff: deg(185)}, 0, 180},
		"only on the way in": {EndEvents{Admission: deg(-120), CutOff: deg(-10)}, 0, 0},
		"never opens":        {EndEvents{Steam: NeverOpens}, 0, 0},
		"never closes":       {EndEvents{Steam: NeverCloses}, 0, 180},
	} {
		from, to := test.e.Driven()
		near(t, name, from.Degrees(), test.from, 1e-9)
		near(t, name, to.Degrees(), test.to, 1e-9)
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

// An exhaust that shuts after the dead centre, or never, compresses nothing.
func TestCompresses(t *testing.T) {
	for _, test := range []struct {
		name        string
		spoil       func(*Gear)
		head, crank bool
	}{
		{"sound", func(*Gear) {}, true, true},
		{"a cavity too long", func(g *Gear) { g.Valve.Cavity = units.MM(11.8) }, true, false}, // 358.5 and 361.3 deg
		{"too long by more", func(g *Gear) { g.Valve.Cavity = units.MM(12.4) }, false, false},
		{"never open", func(g *Gear) { g.Valve.Cavity = units.MM(2) }, false, false},
		{"never shut", func(g *Gear) { g.Valve.Length, g.Valve.Cavity = units.MM(18), units.MM(17) }, false, false},
	} {
		g := demo()
		test.spoil(&g)
		e := events(t, g)
		if head, crank := e.Head.Compresses(), e.Crank.Compresses(); head != test.head || crank != test.crank {
			t.Errorf("%s: %v (%v) and %v (%v)", test.name, head, e.Head.Compression, crank, e.Crank.Compression)
		}
	}
}
