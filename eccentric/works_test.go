package eccentric

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// Positions and events with the connecting rod at its length.
func TestFiniteRodOfTheWorks(t *testing.T) {
	for r := range check.Open(t, "eccentric/finite_rod.csv").Rows() {
		g := simple(units.MM(100), units.MM(25), units.MM(50./9), units.MM(25), 35*units.Degree) // of Bevan, in shares of his travel
		if r.Has("lap") {
			g = simple(units.MM(100), units.MM(50*r.Float("lap")), units.Length{}, units.MM(50), units.Angle(math.Asin(r.Float("linear_advance"))))
		}
		if r.Has("rod") {
			g.ConnectingRod = RodOf(g.Stroke.Scale(r.Float("rod") / 2))
		}
		e := events(t, g)
		end, dead := e.Head, 0.0
		if r.Optional("end") == "crank" {
			end, dead = e.Crank, 180
		}
		switch quantity := r.Text("quantity"); quantity {
		case "sheave ahead of the crank":
			r.Compare("value", g.EccentricLead().Degrees())
			placed, err := g.WithEccentricAt(units.Angle(r.Float("value")) * units.Degree)
			if err != nil {
				t.Fatal(err)
			}
			radians := r.Float("tolerance") * math.Pi / 180
			near(t, r.ID+": lap and lead", math.Sin(float64(placed.Advance)), r.Float("linear_advance"), radians)
		case "crank at cut-off":
			r.Compare("value", end.CutOff.Crank.Degrees())
		case "stroke at cut-off":
			r.Compare("value", end.CutOff.Stroke)
		case "stroke at release":
			r.Compare("value", end.Release.Stroke)
		case "stroke left at compression":
			r.Compare("value", end.Compression.Stroke)
		case "piston at a crank angle", "piston short of half stroke at a quarter turn", "piston from the far end at a quarter turn":
			s, err := g.PistonPosition(units.Angle(r.Float("crank")+dead) * units.Degree)
			if err != nil {
				t.Fatal(err)
			}
			share := s.Ratio(g.Stroke)
			if dead != 0 {
				share = 1 - share
			}
			switch quantity { // of a stroke of 6 in
			case "piston short of half stroke at a quarter turn":
				share = 6*share - 3
			case "piston from the far end at a quarter turn":
				share *= 6
			}
			r.Compare("value", share)
			if quantity == "piston at a crank angle" { // of which a degree is 0.007 of the stroke there
				at, err := g.CrankAt(1 - r.Float("value"))
				if err != nil {
					t.Fatal(err)
				}
				r.Within("crank", 180-at.Degrees(), 1)
			}
		default:
			t.Errorf("%s: quantity %q is not computed", r.ID, quantity)
		}
	}
}

// leading returns a gear whose two leads are the given ones, with a lap and an offset that
// suit.
func leading(t *testing.T, head, crank float64) Gear {
	g := simple(units.Inch(5), units.Inch(0.75), units.Length{}, units.Inch(2), 0)
	g = withLead(t, g, units.Inch((head+crank)/2))
	g.Valve.Offset = units.Inch((head - crank) / 2)
	e := events(t, g)
	near(t, "head lead", e.Head.Lead.Inch(), head, 1e-9)
	near(t, "crank lead", e.Crank.Lead.Inch(), crank, 1e-9)
	return g
}

// Figures of the setting of valves, of laps and of clearances.
func TestSettingOfTheWorks(t *testing.T) {
	for r := range check.Open(t, "eccentric/setting.csv").Rows() {
		in := func(column string) units.Length { return units.Inch(r.Float(column)) }
		switch quantity := r.Text("quantity"); quantity {
		case "change of the eccentric rod for equal leads", "both leads after it":
			g := leading(t, r.Float("first"), r.Float("second"))
			move, err := g.MoveForEqualLead()
			if err != nil {
				t.Fatal(err)
			}
			set, err := g.Altered(Alteration{EccentricRod: move.Neg()})
			if err != nil {
				t.Fatal(err)
			}
			e := events(t, set)
			near(t, r.ID+": equal", e.Head.Lead.Inch(), e.Crank.Lead.Inch(), 1e-9)
			if quantity == "both leads after it" {
				r.Compare("value", e.Head.Lead.Inch())
				r.Compare("value", events(t, g).MeanLead().Inch())
			} else {
				offset, err := g.OffsetForEqualLead()
				if err != nil {
					t.Fatal(err)
				}
				r.Compare("value", g.Valve.Offset.Sub(offset).Abs().Inch())
				r.Compare("value", move.Abs().Inch())
			}
		case "linear advance of a lap, lead and travel":
			g := withLead(t, simple(in("third"), in("first"), units.Length{}, units.Inch(2), 0), in("second"))
			x, err := g.Displacement(0)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", x.Inch())
		case "mean advance of two laps, a lead and a travel, degrees":
			sum := 0.0
			for _, lap := range []string{"first", "second"} {
				g := withLead(t, simple(in("fourth"), in(lap), units.Length{}, units.Inch(2), 0), in("third"))
				sum += g.Advance.Degrees()
			}
			r.Compare("value", sum/2)
		case "exhaust opening at dead centre of a travel, lap, exhaust lap and lead":
			g := withLead(t, simple(in("first"), in("second"), in("third"), units.Inch(1.125), 0), in("fourth"))
			open, err := g.OpeningsAt(0)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", open.Crank.Exhaust.Inch())
			// Its events, endless rods: worked by hand from sin d = 1 / 2.125.
			e := events(t, g).Head
			near(t, "cut-off", e.CutOff.Crank.Degrees(), 123.855, 0.0005)
			near(t, "release", e.Release.Crank.Degrees(), 151.9275, 0.00005)
			near(t, "compression", e.Compression.Crank.Degrees(), 331.9275, 0.00005)
		case "error of the valve rod from the greatest openings":
			half := units.Inch(0.5)
			mean := in("first").Add(in("second")).Scale(0.5)
			g := simple(half.Scale(2), half.Sub(mean), units.Length{}, units.Inch(1), 0)
			g.Valve.Offset = in("first").Sub(in("second")).Scale(0.5)
			if e := events(t, g); e.Head.Opening != in("first") || e.Crank.Opening != in("second") {
				t.Errorf("%s: openings %v and %v", r.ID, e.Head.Opening, e.Crank.Opening)
			}
			move, err := g.MoveForEqualLead()
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", move.Abs().Inch())
		case "steam lap of a valve, port, bar and exhaust port":
			g := Gear{Ports: Ports{Steam: in("second"), Bar: in("third"), Exhaust: in("fourth")}, Valve: Valve{Length: in("first")}}
			r.Compare("value", g.Laps().Steam.Inch())
			r.Compare("value", g.LapsAt(HeadEnd).Steam.Inch())
			r.Compare("value", g.LapsAt(CrankEnd).Steam.Inch())
		case "exhaust lap of a cavity, port, bar and exhaust port":
			g := Gear{Ports: Ports{Steam: in("second"), Bar: in("third"), Exhaust: in("fourth")}, Valve: Valve{Cavity: in("first")}}
			r.Compare("value", g.Laps().Exhaust.Inch())
			r.Compare("value", g.LapsAt(HeadEnd).Exhaust.Inch())
			r.Compare("value", g.LapsAt(CrankEnd).Exhaust.Inch())
		case "clearance at each end of a cylinder, stroke and piston":
			g := simple(units.Inch(2), units.Inch(0.375), units.Length{}, units.Inch(0.625), 0)
			g.Stroke = in("second")
			room := Room{Gear: g, Length: in("first"), Piston: in("third")}
			c := clearance(t, room)
			r.Compare("value", c.Head.Inch())
			r.Compare("value", c.Crank.Inch())
			r.Compare("value", c.At(BothEnds).Inch())
			r.Compare("value", c.Total().Inch()/2)
			// A piston that stood off is put where the head end has the printed clearance.
			room.Shift = units.Inch(0.1)
			room, err := room.WithHeadClearance(in("value"))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", clearance(t, room).Crank.Inch())
		case "half the throw of a sheave of a travel and the two arms of a rocker":
			g := simple(in("first"), in("fourth"), units.Length{}, units.Inch(1.25), 0)
			g.LeverRatio = in("second").Ratio(in("third"))
			r.Compare("value", g.EccentricOffset().Inch())
		default:
			t.Errorf("%s: quantity %q is not computed", r.ID, quantity)
		}
	}
}

// What a fault does to every reading and event, against a scan.
func TestFaultSignatures(t *testing.T) {
	for r := range check.Open(t, "eccentric/fault_signatures.csv").Rows() {
		mm := func(column string) units.Length { return units.MM(r.Float(column)) }
		right := units.Angle(math.Asin(2.15 / 3))
		g := simple(mm("half_travel").Scale(2), mm("steam_lap"), mm("exhaust_lap"), units.MM(2.5), right)
		g.ConnectingRod = RodOf(g.Stroke.Scale(2.5))
		switch turned := r.Optional("turned"); turned {
		case "":
		case "mirrored":
			g.Advance = halfTurn - right
		case "in line":
			g.Advance = -halfTurn / 2
		case "square":
			g.Advance = 0
		default:
			g.Advance = inTurn(right + units.Angle(r.Float("turned"))*units.Degree)
		}
		if r.Has("shift") {
			g.Valve.Offset = mm("shift")
		}
		e := events(t, g)
		for _, end := range []struct {
			name string
			EndEvents
		}{{"head", e.Head}, {"crank", e.Crank}} {
			r.Compare(end.name+"_lead", end.Lead.MM())
			r.Compare(end.name+"_open", end.Opening.MM())
			turn := end.Admission.Crank.Degrees() - r.Float(end.name+"_adm")
			r.Compare(end.name+"_adm", r.Float(end.name+"_adm")+math.Remainder(turn, 360))
			r.Compare(end.name+"_cut", 100*end.CutOff.Stroke)
			r.Compare(end.name+"_rel", 100*end.Release.Stroke)
			r.Compare(end.name+"_clo", 100*end.Compression.Stroke)
		}
	}
}

// What books say that a fault shows.
func TestFaultsOfTheWorks(t *testing.T) {
	right := simple(units.MM(6), units.MM(2), units.MM(0.3), units.MM(2.5), units.Angle(math.Asin(2.15/3)))
	before := events(t, right)
	for r := range check.Open(t, "eccentric/faults.csv").Rows() {
		g := right
		var err error
		switch change := r.Text("change"); change {
		case "advance 8 deg less":
			g.Advance -= 8 * units.Degree
		case "advance 8 deg more":
			g.Advance += 8 * units.Degree
		case "eccentric rod longer":
			g, err = g.Altered(Alteration{EccentricRod: units.MM(0.2)})
		case "eccentric rod shorter":
			g, err = g.Altered(Alteration{EccentricRod: units.MM(-0.2)})
		case "exhaust lap more":
			g = g.withExhaustLap(units.MM(0.6))
		case "exhaust lap less":
			g = g.withExhaustLap(units.MM(-0.3))
		case "travel less":
			g.Travel = units.MM(5.5)
		case "sheave mirrored in the line of the crank":
			g.Advance = halfTurn - g.Advance
		default:
			t.Errorf("%s: change %q is not made", r.ID, change)
		}
		if err != nil {
			t.Fatal(err)
		}
		after := events(t, g)
		size := func(was, is units.Length) string {
			return [...]string{"less", "same", "more"}[1+is.Cmp(was)]
		}
		when := func(was, is Event) string {
			switch by := is.Crank - was.Crank; {
			case by > 1e-9:
				return "later"
			case by < -1e-9:
				return "earlier"
			}
			return "same"
		}
		for column, got := range map[string]string{
			"head_lead":     size(before.Head.Lead, after.Head.Lead),
			"crank_lead":    size(before.Crank.Lead, after.Crank.Lead),
			"head_opening":  size(before.Head.Opening, after.Head.Opening),
			"crank_opening": size(before.Crank.Opening, after.Crank.Opening),
			"release":       when(before.Head.Release, after.Head.Release),
			"compression":   when(before.Head.Compression, after.Head.Compression),
		} {
			if r.Has(column) {
				r.Equal(column, got)
			}
		}
	}
}

// What books say that cures a fault is among the cures, and by as much where they say
// it.
func TestCuresOfTheWorks(t *testing.T) {
	for r := range check.Open(t, "eccentric/cures.csv").Rows() {
		g := demo()
		fault := strings.Fields(r.Text("fault"))
		value := func(i int) float64 {
			v, err := strconv.ParseFloat(fault[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		var err error
		switch what := fault[0]; {
		case what == "advance":
			g.Advance = units.Angle(value(1)) * units.Degree
		case what == "cavity":
			g.Valve.Cavity = units.MM(value(1))
		case what == "travel":
			g.Travel = units.MM(value(1))
		case what == "lost":
			g.Valve.LostMotion = units.MM(value(2))
		case fault[4] == "longer":
			g, err = g.Altered(Alteration{EccentricRod: units.MM(value(2))})
		default:
			g, err = g.Altered(Alteration{EccentricRod: units.MM(-value(2))})
		}
		if err != nil {
			t.Fatal(err)
		}
		saved, err := Salvage(g, Made{true, true, true, true})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(saved.Cures, func(c Cure) bool { return c.Steps[0].Change == r.Text("cure") })
		if i < 0 {
			t.Errorf("%s: no %q among %v", r.ID, r.Text("cure"), saved.Cures)
			continue
		}
		c := saved.Cures[i]
		got, by := "", c.Steps[0].Amount
		switch r.Text("cure") {
		case "turned on the shaft":
			switch turn := c.Steps[0].Turn; {
			case turn == halfTurn:
				got = "half round"
			case turn > 0:
				got = "forwards"
			default:
				got = "back"
			}
		case "eccentric rod longer or shorter":
			half := saved.Events.Head.Lead.Sub(saved.Events.Crank.Lead).Scale(0.5)
			near(t, r.ID+": half the difference of the leads", by.Abs().MM(), half.Abs().MM(), 0.005)
			got = [...]string{"shorter", "", "longer"}[1+by.Sign()]
		case "metal out of the cavity", "new valve":
			got = [...]string{"less", "", "more"}[1+c.Gear.Valve.Cavity.Cmp(g.Valve.Cavity)]
		case "new sheave":
			got = [...]string{"less", "", "more"}[1+c.Gear.Travel.Cmp(g.Travel)]
		}
		r.Equal("cure", c.Steps[0].Change)
		if r.Has("way") {
			r.Equal("way", got)
		}
	}
}
