package eccentric

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// wish returns a wish for a cut-off with rods of the given number of cranks, or
// endless ones.
func wish(cutOff float64, at End, cranks float64) Wish {
	w := Wish{CutOff: cutOff, CutOffAt: at}
	w.Gear.Stroke, w.Gear.ConnectingRod, w.Gear.EccentricRod = units.MM(100), InfiniteRod(), InfiniteRod()
	if cranks > 0 {
		w.Gear.ConnectingRod = RodOf(w.Gear.Stroke.Scale(cranks / 2))
	}
	return w
}

func design(t tester, w Wish) (exact, rounded Designed) {
	t.Helper()
	exact, rounded, err := Design(w)
	if err != nil {
		t.Fatal(err)
	}
	return exact, rounded
}

func TestDesignPrinted(t *testing.T) {
	for r := range check.Open(t, "eccentric/design.csv").Rows() {
		cranks := 0.0
		if r.Has("cranks") {
			cranks = r.Float("cranks")
		}
		switch kind := r.Text("kind"); kind {
		case "half travel over opening", "steam lap over opening", "advance in degrees", "cut-off of the crank end":
			w := wish(r.Float("cut_off"), HeadEnd, cranks)
			w.Opening, w.Lead = units.MM(100), units.MM(10)
			exact, _ := design(t, w)
			near(t, r.ID+": cut-off", exact.Events.Head.CutOff.Stroke, w.CutOff, 4e-7)
			near(t, r.ID+": lead", exact.Lead.MM(), 10, 4e-7)
			r.Compare("value", map[string]float64{
				"half travel over opening": exact.Gear.Travel.Ratio(units.MM(200)),
				"steam lap over opening":   exact.Gear.Laps().Steam.Ratio(units.MM(100)),
				"advance in degrees":       exact.Gear.Advance.Degrees(), "cut-off of the crank end": exact.Events.Crank.CutOff.Stroke,
			}[kind])
			// The printed gear put through the events returns the wish, to the digits of the print.
			if r.ID == fmt.Sprintf("des-%s-%02.0f-r", strings.Split(r.ID, "-")[1], 100*w.CutOff) {
				printed := exact.Gear
				printed.Travel = units.MM(200 * r.Float("value"))
				set, err := printed.WithLead(w.Lead, BothEnds)
				if err != nil {
					t.Fatal(err)
				}
				near(t, r.ID+": events", events(t, set).Head.CutOff.Stroke, w.CutOff, 4e-7)
			}
		case "lap of the treatise of 1853", "lead of the treatise of 1853":
			// The lead of an admission 6 degrees early is r*(sin d - sin(d - 6 deg)); of both angles only the cut-off is ours
			// to wish, so the lead is wished that the admission makes.
			advance := 30.5 * units.Degree // (55 + 6) / 2
			w := wish((1-math.Cos((125*units.Degree).Radians()))/2, BothEnds, 0)
			w.Gear.Travel = units.MM(320)
			w.Lead = units.MM(160 * (math.Sin(advance.Radians()) - math.Sin((advance - 6*units.Degree).Radians())))
			exact, _ := design(t, w)
			near(t, r.ID+": admission", exact.Events.Head.Admission.Crank.Degrees(), -6, 1e-6)
			near(t, r.ID+": advance", exact.Gear.Advance.Degrees(), 30.5, 1e-6)
			if kind == "lap of the treatise of 1853" {
				r.Within("value", exact.Gear.Laps().Steam.MM()/100, 0.005) // drawn, and printed to a hundredth
			} else {
				r.Compare("value", exact.Lead.MM()/100)
			}
		case "lap over half the travel, lead 0.1 of it", "advance in degrees, lead 0.1 of half the travel":
			w := wish(r.Float("cut_off"), BothEnds, 0)
			w.Gear.Travel, w.Lead = units.MM(200), units.MM(10)
			exact, _ := design(t, w)
			if strings.HasPrefix(kind, "lap") {
				r.Within("value", exact.Gear.Laps().Steam.MM()/100, 0.005) // the cut-off is printed to a hundredth
			} else {
				r.Compare("value", exact.Gear.Advance.Degrees())
			}
		case "least exhaust port in mm":
			w := wish(0.7, BothEnds, 0)
			w.Gear.Travel, w.Gear.Ports = units.MM(19), Ports{Steam: units.MM(6), Bar: units.MM(4)}
			exact, _ := design(t, w)
			r.Compare("value", exact.Gear.Ports.Exhaust.MM())
		case "bar in inches over a port of 5/8":
			w := wish(0.8, BothEnds, 0)
			w.Gear.Ports.Steam = units.InchFraction(5, 8)
			exact, _ := design(t, w)
			r.Compare("value", exact.Gear.Ports.Bar.Inch())
		default: // Rose
			w := wish(r.Float("cut_off"), CrankEnd, cranks)
			w.Gear.Travel = units.MM(200)
			if strings.HasSuffix(kind, "lead 0.0782") {
				w.Lead = units.MM(7.82)
			}
			exact, _ := design(t, w)
			switch {
			case strings.HasPrefix(kind, "lap"):
				r.Within("value", exact.Gear.Laps().Steam.MM()/100, 0.02) // the cut-off is drawn to two hundredths of the stroke
			case strings.HasPrefix(kind, "port"):
				r.Within("value", exact.Gear.Ports.Steam.MM()/100, 0.02)
			case r.ID == "rose-117":
				r.Compare("value", exact.Gear.EccentricLead().Degrees())
			default:
				r.Within("value", exact.Gear.EccentricLead().Degrees(), 1)
			}
		}
	}
}

// designedLap returns the steam lap for a cut-off with no lead and endless rods, as a
// share of half the travel.
func designedLap(t *testing.T, cutOff float64) float64 {
	t.Helper()
	w := wish(cutOff, BothEnds, 0)
	w.Gear.Travel = units.MM(200)
	exact, _ := design(t, w)
	return exact.Gear.Laps().Steam.MM() / 100
}

// J. Rose's construction with compasses and a straight edge (Modern Machine-Shop
// Practice, Figs. 3311 and 3312): the crank's place at cut-off by an arc with the
// connecting rod from the place of the crosshead, half the arc from the dead centre
// to it laid off to both sides of the other dead centre; the line through both points
// cuts the line of centres at the lap from the shaft, and the rest is the port.
func TestRoseConstruction(t *testing.T) {
	type point struct{ x, y float64 }
	// cross returns where two circles cross, above the line of centres that both stand on.
	cross := func(x0, r0, x1, r1 float64) point {
		a := ((x1-x0)*(x1-x0) + r0*r0 - r1*r1) / (2 * (x1 - x0))
		x := x0 + a
		return point{x, math.Sqrt(r0*r0 - a*a)}
	}
	for _, cranks := range []float64{3, 4, 6, 7.5, 10} {
		for _, share := range []float64{0.5, 0.6, 2. / 3, 0.75, 0.8, 0.9} {
			for _, end := range []End{HeadEnd, CrankEnd} {
				// The crosshead stands on the left or on the right of a shaft at nought, b is the dead centre of the stroke.
				b := -1.0
				if end == CrankEnd {
					b = 1
				}
				crosshead := -1 - cranks + 2*share // from its place at the head end
				if end == CrankEnd {
					crosshead = 1 - cranks - 2*share
				}
				h := cross(0, 1, crosshead, cranks)    // the crank at cut-off
				half := math.Sqrt((1 + (b * h.x)) / 2) // cosine of half the angle from b to h, of the points' chord
				chord := math.Sqrt(2 - 2*half)         // which the compasses take from b to the middle of the arc
				v := cross(0, 1, -b, chord)            // and mark from the other dead centre
				lap := math.Abs(v.x)
				w := wish(share, end, cranks)
				w.Gear.Travel = units.MM(200)
				exact, _ := design(t, w)
				what := fmt.Sprintf("%v cranks, %.2f at the %v end", cranks, share, end)
				near(t, what+": lap", exact.Gear.Laps().Steam.MM()/100, lap, 1e-9)
				near(t, what+": port", exact.Gear.Ports.Steam.MM()/100, 1-lap, 1e-9)
			}
		}
	}
}

// EC-16: a cylinder of 5/8 by 3/4 in with a travel of 1/4 in, and bars of 3/32.
// EC-12: 75 per cent at the head end with six cranks.
func TestCaseWished(t *testing.T) {
	inch := units.InchFraction
	w := wish(0.75, BothEnds, 0)
	w.Gear.Stroke, w.Gear.Travel, w.Gear.Ports.Bar, w.Step = inch(3, 4), inch(1, 4), inch(3, 32), inch(1, 64)
	exact, rounded := design(t, w)
	for _, d := range []Designed{exact, rounded} {
		g := d.Gear
		near(t, "EC-16 advance", g.Advance.Degrees(), 30, 1e-12)
		want := Ports{Steam: inch(1, 16), Bar: inch(3, 32), Exhaust: inch(3, 32)}
		if g.Ports != want || g.Valve != (Valve{Length: inch(17, 32), Cavity: inch(9, 32)}) || g.Laps().Steam != inch(1, 16) {
			t.Errorf("EC-16: %v", g)
		}
	}
	w = wish(0.75, HeadEnd, 6)
	w.Gear.Travel = units.MM(20)
	exact, _ = design(t, w)
	near(t, "EC-12 cut-off", exact.Events.Head.CutOff.Crank.Degrees(), 115.58, 0.005)
	near(t, "EC-12 lap", exact.Gear.Laps().Steam.MM()/10, 0.533, 0.0005)
	near(t, "EC-12 crank end", exact.Events.Crank.CutOff.Stroke, 0.6818, 0.00005)
}

// Ports that are given, alike or not at both ends, are kept, and the wish is met on
// them: an opening as wide as they are is both of them fully open.
func TestDesignOnGivenPorts(t *testing.T) {
	w := wish(0.75, BothEnds, 5)
	w.Gear.EccentricRod = RodOf(units.MM(60))
	w.Gear.Ports = Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4.5), CrankSteam: units.MM(2.2), CrankBar: units.MM(2.4)}
	w.Gear.Valve.CavityOffset = units.MM(0.1)
	for _, opening := range []units.Length{units.MM(1.8), units.MM(2.05), units.MM(2.1), {}} {
		for _, equal := range []int{0, 1, 2} {
			w.Opening, w.EqualLead, w.EqualCutOff = opening, equal == 1, equal == 2
			w.Lead, w.Compression = units.MM(0.15), 0.07
			exact, _ := design(t, w)
			e := exact.Events
			want := opening
			if want.IsZero() || want == units.MM(2.1) {
				want = units.MM(2.1)
				if e.Head.OverTravel.Sign() < 0 || e.Crank.OverTravel.Sign() < 0 || min(e.Head.OverTravel.MM(), e.Crank.OverTravel.MM()) > 1e-8 {
					t.Errorf("past the ports by %v and %v", e.Head.OverTravel, e.Crank.OverTravel)
				}
			}
			near(t, "opening", exact.Opening.MM(), want.MM(), 1e-8)
			near(t, "lead", exact.Lead.MM(), 0.15, 1e-8)
			near(t, "cut-off", exact.CutOff, 0.75, 1e-8)
			near(t, "compression", exact.Compression, 0.07, 1e-8)
			if equal == 1 {
				near(t, "leads", e.Head.Lead.MM(), e.Crank.Lead.MM(), 1e-8)
			}
			if equal == 2 {
				near(t, "cut-offs", e.Head.CutOff.Stroke, e.Crank.CutOff.Stroke, 1e-8)
			}
			if p := exact.Gear.Ports; p != w.Gear.Ports {
				t.Errorf("ports %v", p)
			}
		}
	}
}

// A valve left where it is says so, and one set for equal leads or cut-offs what
// becomes of the other.
func TestDesignTellsOfTheEnds(t *testing.T) {
	w := wish(0.75, BothEnds, 5)
	w.Opening = units.MM(2)
	w.Gear.Valve.Offset = units.MM(0.2)
	for text, set := range map[string]func(*Wish){
		"the valve stays 0.2 mm (7.9 thou) towards the crank, as given": func(*Wish) {},
		"the valve stays in the middle of the ports":                    func(w *Wish) { w.Gear.Valve.Offset = units.Length{} },
		"Equal leads are wished: the cut-offs become 78.":               func(w *Wish) { w.EqualLead = true },
		"Equal cut-offs are wished: the leads become -0.":               func(w *Wish) { w.EqualCutOff = true },
	} {
		w := w
		set(&w)
		exact, _ := design(t, w)
		told := ""
		for _, f := range exact.Chosen {
			if f.Code == EndsDiffer {
				told = f.Text
			}
			if f.Severity != finding.Note {
				t.Errorf("%v", f)
			}
		}
		if !strings.Contains(told, text) {
			t.Errorf("%q, want %q", told, text)
		}
	}
}

// What cannot be is refused with the nearest that can, and that can.
func TestDesignNearest(t *testing.T) {
	refused := func(w Wish, field, accepted string) {
		t.Helper()
		_, _, err := Design(w)
		var bad *units.ArgumentError
		if !errors.As(err, &bad) || bad.Field != field || !strings.Contains(bad.Accepted, accepted) {
			t.Errorf("%v, want %s: %s", err, field, accepted)
		}
	}
	nearest := func(w Wish, before string) (v float64) {
		t.Helper()
		_, _, err := Design(w)
		_, text, _ := strings.Cut(err.Error(), before)
		if _, err := fmt.Sscanf(text, "%f", &v); err != nil {
			t.Fatal(text, err)
		}
		return v
	}
	w := wish(0.75, BothEnds, 5)
	w.Opening = units.MM(2)
	late := w
	late.CutOff, late.Gear.EccentricRod = 1-1e-6, RodOf(units.MM(30))
	refused(late, "cut-off", "at most 99.")
	late.CutOff = nearest(late, "at most ") / 100
	design(t, late)
	late.CutOff += 0.0002
	refused(late, "cut-off", "at most 99.")
	early := w
	early.CutOff, early.Gear.EccentricRod = 0.2, RodOf(units.MM(12))
	refused(early, "cut-off", "at least 46.60 %")
	early.CutOff = nearest(early, "at least ") / 100
	design(t, early)
	early.CutOff -= 0.0002
	refused(early, "cut-off", "at least 46.60 %")

	lead := w
	lead.Lead = units.MM(2)
	refused(lead, "lead", "up to 1.999 mm")
	lead.Lead = units.MM(1.999)
	design(t, lead)
	wide := w
	wide.Gear.Ports.Steam = units.MM(1.9)
	refused(wide, "opening", "up to 1.9 mm")
	lap := w
	lap.ExhaustLap = units.MM(4)
	refused(lap, "exhaust lap", "from -3.999 mm to 3.999 mm")
	lap.ExhaustLap = units.MM(-4)
	refused(lap, "exhaust lap", "from -3.999 mm to 3.999 mm")
	little := w
	little.Compression, little.Gear.EccentricRod = 0.0001, RodOf(units.MM(30))
	refused(little, "compression", "from 0.")
	little.Compression = nearest(little, "from ") / 100
	design(t, little)
	much := w
	much.Compression = 0.8
	refused(much, "compression", "up to ")
	much.Compression = nearest(much, "up to ") / 100
	if exact, _ := design(t, much); exact.Events.Head.Exhaust != OpensAndCloses || exact.Events.Crank.Exhaust != OpensAndCloses {
		t.Errorf("%v", exact.Events)
	}
	narrow := w
	narrow.Gear.Ports, narrow.ExhaustLap = Ports{Bar: units.MM(1), Exhaust: units.MM(1)}, units.MM(2)
	refused(narrow, "exhaust lap", "to 1.499 mm")
	coarse := w
	coarse.Step = units.MM(5)
	refused(coarse, "step", "up to the width of the steam ports, 2 mm")
}

// What is said to be accepted is, as it is printed: of wishes far from what any
// gear does, the nearest is put in and nothing more is said of it.
func TestDesignNearestIsTaken(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 16))
	between := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	number := regexp.MustCompile(`^(?:up to|at most|at least|from) (-?[0-9.]+)(?: mm to (-?[0-9.]+))? (?:mm|%)`)
	tried := map[string]int{}
	count := 4000
	if testing.Short() {
		count = 800
	}
	for range count {
		w := wish(between(0.02, 0.999), Ends()[rng.IntN(3)], between(1, 5))
		w.Lead = units.MM(between(-1, 2.5))
		if rng.IntN(2) == 0 {
			w.Gear.EccentricRod = RodOf(units.MM(between(8, 120)))
		}
		if rng.IntN(2) == 0 {
			w.Gear.Ports = Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(between(1, 4)), Length: units.MM(10)}
			w.Gear.Valve = Valve{Offset: units.MM(between(-0.5, 0.5)), LostMotion: units.MM(between(0, 0.5))}
			w.Gear.InsideAdmission = rng.IntN(2) == 0
		}
		if rng.IntN(2) == 0 {
			w.Opening = units.MM(between(0.2, 12))
		} else {
			w.Gear.Travel = units.MM(between(0.2, 12))
		}
		switch rng.IntN(3) {
		case 0:
			w.ExhaustLap = units.MM(between(-4, 4))
		case 1:
			w.Compression = between(0.0001, 0.9)
		}
		w.EqualLead, w.EqualCutOff = rng.IntN(3) == 0, false
		w.EqualCutOff = !w.EqualLead && rng.IntN(2) == 0
		_, _, err := Design(w)
		var bad *units.ArgumentError
		if err == nil || !errors.As(err, &bad) {
			continue
		}
		found := number.FindStringSubmatch(bad.Accepted)
		if found == nil {
			tried["no number"]++
			continue
		}
		value := func(i int) float64 {
			v, err := strconv.ParseFloat(found[i], 64)
			if err != nil {
				t.Fatal(bad, err)
			}
			return v
		}
		mm := units.MM(value(1))
		switch bad.Field {
		case "cut-off":
			w.CutOff = value(1) / 100
		case "lead":
			w.Lead = mm
		case "opening":
			w.Opening = mm
		case "valve travel":
			w.Gear.Travel = mm
		case "compression":
			w.Compression = value(1) / 100
		case "exhaust port width":
			w.Gear.Ports.Exhaust = mm
		case "exhaust lap":
			if w.ExhaustLap.Sign() > 0 {
				mm = units.MM(value(2))
			}
			w.ExhaustLap = mm
		default:
			continue
		}
		tried[bad.Field]++
		var still *units.ArgumentError
		if _, _, again := Design(w); errors.As(again, &still) && still.Field == bad.Field {
			t.Errorf("%v\nthen %v", bad, again)
		}
	}
	t.Log(tried)
	for _, field := range []string{"cut-off", "lead", "opening", "valve travel", "compression", "exhaust lap", "exhaust port width"} {
		if tried[field] == 0 {
			t.Errorf("no %s refused", field)
		}
	}
	if tried["no number"] > 100 {
		t.Error("too often no nearest")
	}
}

// Ports that were to open fully do, in steps too.
func TestDesignOpensFully(t *testing.T) {
	for lead := 0.0; lead < 0.15; lead += 0.013 {
		for _, port := range []float64{0.8, 1.23, 2, 2.71} {
			w := wish(0.75, BothEnds, 3)
			w.Lead, w.Gear.Ports.Steam, w.Gear.EccentricRod = units.MM(lead), units.MM(port), RodOf(units.MM(60))
			w.EqualLead = port == 2
			exact, rounded := design(t, w)
			for _, j := range []Designed{exact, rounded} {
				if _, ok := find(j.Findings, SteamPartOpen, HeadEnd); ok || j.Events.Crank.OverTravel.Cmp(units.Picometres(-1000)) < 0 {
					t.Errorf("lead %v, port %v: %v and %v past the ports", lead, port, j.Events.Head.OverTravel, j.Events.Crank.OverTravel)
				}
			}
		}
	}
}

func TestDesignRefuses(t *testing.T) {
	for field, spoil := range map[string]func(*Wish){
		"stroke":                     func(w *Wish) { w.Gear.Stroke = units.Length{} },
		"connecting rod":             func(w *Wish) { w.Gear.ConnectingRod = Rod{} },
		"eccentric rod":              func(w *Wish) { w.Gear.EccentricRod = Rod{} },
		"lever ratio":                func(w *Wish) { w.Gear.LeverRatio = math.NaN() },
		"cut-off":                    func(w *Wish) { w.CutOff = math.NaN() },
		"end of the cylinder":        func(w *Wish) { w.CutOffAt = 7 },
		"compression":                func(w *Wish) { w.Compression = -0.1 },
		"opening":                    func(w *Wish) { w.Opening = units.Length{} },
		"equal":                      func(w *Wish) { w.EqualLead, w.EqualCutOff = true, true },
		"gear":                       func(w *Wish) { w.Gear.Valve.Length = units.MM(1) },
		"step":                       func(w *Wish) { w.Step = units.MM(-1) },
		"speed":                      func(w *Wish) { w.Speed = -1 },
		"steam port width":           func(w *Wish) { w.Gear.Ports.CrankSteam = units.MM(1) },
		"bar width of the crank end": func(w *Wish) { w.Gear.Ports.Bar, w.Gear.Ports.CrankBar = units.MM(1), units.MM(-1) },
		"valve offset":               func(w *Wish) { w.Gear.Valve.Offset = units.MM(1e6).Scale(1.5) },
		"lost motion":                func(w *Wish) { w.Gear.Valve.LostMotion = units.MM(-1) },
	} {
		w := wish(0.75, BothEnds, 5)
		w.Opening = units.MM(2)
		spoil(&w)
		_, _, err := Design(w)
		var bad *units.ArgumentError
		if !errors.As(err, &bad) || bad.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	both := wish(0.75, BothEnds, 5)
	both.Opening, both.Gear.Travel, both.ExhaustLap, both.Compression = units.MM(2), units.MM(6), units.MM(0.1), 0.1
	if _, _, err := Design(both); err == nil || !strings.Contains(err.Error(), "the travel is given too") ||
		!strings.Contains(err.Error(), "the exhaust lap is given too") {
		t.Errorf("%v", err)
	}
}

// Whatever is asked, there is an answer or an error, and never a panic.
func TestDesignAnything(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		w := anyWish(t)
		g := &w.Gear
		lengths := []*units.Length{&w.Lead, &w.Opening, &w.ExhaustLap, &w.Step, &w.Bore, &g.Stroke, &g.Travel, &g.Chest, &g.Ports.Steam, &g.Ports.Bar,
			&g.Ports.Exhaust, &g.Ports.Length, &g.Ports.CrankSteam, &g.Ports.CrankBar, &g.Valve.Offset, &g.Valve.CavityOffset, &g.Valve.LostMotion}
		for range rapid.IntRange(1, 4).Draw(t, "changes") {
			l := rapid.SampledFrom([]units.Length{{}, {}, units.Picometres(1), units.Micron(1), units.MM(0.3), units.MM(2), units.MM(40), units.MM(1e6),
				units.MM(-1), units.Picometres(math.MaxInt64), units.Picometres(math.MinInt64)}).Draw(t, "length")
			v := rapid.SampledFrom([]float64{0, 1e-9, 0.1, 0.5, 1 - 1e-9, 1, -1, 2, math.NaN(), math.Inf(1)}).Draw(t, "number")
			switch i := rapid.IntRange(0, len(lengths)+7).Draw(t, "which") - len(lengths); i {
			case 0:
				w.CutOff = v
			case 1:
				w.Compression = v
			case 2:
				w.Speed = units.RotationalSpeed(v)
			case 3:
				g.LeverRatio = v
			case 4:
				g.ConnectingRod = RodOf(l)
			case 5:
				g.EccentricRod = RodOf(l)
			case 6:
				w.EqualLead, w.EqualCutOff = v > 0, v < 0.5
			case 7:
				w.CutOffAt = End(v)
			default:
				*lengths[i+len(lengths)] = l
			}
		}
		exact, rounded, err := Design(w)
		if err != nil {
			return
		}
		for _, d := range []Designed{exact, rounded} {
			if err := d.Gear.Validate(); err != nil {
				t.Errorf("%+v: %v", w, err)
			}
			if exact.Gear.Travel.Cmp(units.Micron(10)) > 0 { // below which a picometre is much
				near(t, "cut-off", exact.CutOff, w.CutOff, 1e-6)
			}
		}
		answered++
	})
	t.Logf("%d answered", answered)
}
