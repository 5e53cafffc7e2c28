package eccentric

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
)

// A bench is a gear set up piece by piece, in millimetres on the line from the
// cylinder to the shaft, the crank to the right: crank pin, sheave, rods, lever, and
// a valve that is pushed along with its lost motion. It knows where the sheave
// stands, and neither laps nor angle of advance nor a closed form. Its shaft turns by
// steps that a reversal of what drives the valve ends, and an edge that is passed in
// a step is found by bisection.
type bench struct {
	crank, rod      float64 // R, L
	offset, eccRod  float64 // of the sheave
	stands          float64 // ahead of the crank, the way it turns
	lever, play     float64
	against         bool // the shaft turns the other way
	length, cavity  float64
	middle, off     float64 // of the valve and of its cavity
	inside          bool
	port, bar       [2]float64 // head end, crank end
	exhaust         float64
	at, valve       float64 // crank angle, and the valve from where it stands in mid-travel
	passed          map[string]float64
	greatest, least map[string]float64
}

func benchOf(g Gear, stands units.Angle) *bench {
	b := &bench{
		crank: g.Stroke.MM() / 2, rod: g.ConnectingRod.length.MM(), eccRod: g.EccentricRod.length.MM(),
		offset: g.Travel.MM() / 2, stands: float64(stands), lever: 1, play: g.Valve.LostMotion.MM(),
		length: g.Valve.Length.MM(), cavity: g.Valve.Cavity.MM(), middle: g.Valve.Offset.MM(),
		off: g.Valve.CavityOffset.MM(), inside: g.InsideAdmission, exhaust: g.Ports.Exhaust.MM(),
		port: [2]float64{g.Ports.Steam.MM(), g.Ports.CrankSteam.MM()},
		bar:  [2]float64{g.Ports.Bar.MM(), g.Ports.CrankBar.MM()},
	}
	if g.LeverRatio != 0 {
		b.lever = g.LeverRatio
		b.offset /= math.Abs(g.LeverRatio)
	}
	if b.port[1] == 0 {
		b.port[1] = b.port[0]
	}
	if b.bar[1] == 0 {
		b.bar[1] = b.bar[0]
	}
	return b
}

// drives is how far what drives the valve has moved from the middle of its way.
func (b *bench) drives(t float64) float64 {
	angle := t + b.stands // from the line to the cylinder
	if b.against {
		angle = -angle
	}
	x, y := -b.offset*math.Cos(angle), b.offset*math.Sin(angle)
	end := x - math.Sqrt(b.eccRod*b.eccRod-y*y) // of the rod, on the line
	return b.lever * (end + b.eccRod)
}

// pushed is where the valve is when what drives it has gone on to t, the same way all
// the time.
func (b *bench) pushed(t float64) float64 {
	x := b.drives(t)
	return max(x-b.play/2, min(b.valve, x+b.play/2))
}

// piston is how much of the stroke is gone from the head end.
func (b *bench) piston(t float64) float64 {
	x, y := -b.crank*math.Cos(t), b.crank*math.Sin(t)
	return (x - math.Sqrt(b.rod*b.rod-y*y) + b.crank + b.rod) / (2 * b.crank)
}

// past is how far each edge of a valve there has passed the edge of the port over
// which it opens.
func (b *bench) past(valve float64) map[string]float64 {
	valve += b.middle
	head, crank := -b.exhaust/2-b.bar[0], b.exhaust/2+b.bar[1] // the inner edges of the ports
	outerHead, outerCrank := valve-b.length/2-(head-b.port[0]), crank+b.port[1]-(valve+b.length/2)
	innerHead, innerCrank := head-(valve+b.off-b.cavity/2), valve+b.off+b.cavity/2-crank
	if b.inside {
		outerHead, outerCrank, innerHead, innerCrank = innerHead, innerCrank, outerHead, outerCrank
	}
	return map[string]float64{"head steam": outerHead, "crank steam": outerCrank,
		"head exhaust": innerHead, "crank exhaust": innerCrank}
}

// turn turns the shaft on to t, in which what drives the valve does not reverse.
func (b *bench) turn(t float64) {
	before, after := b.past(b.valve), b.past(b.pushed(t))
	for edge, was := range before {
		is := after[edge]
		b.greatest[edge], b.least[edge] = max(b.greatest[edge], is), min(b.least[edge], is)
		if (was > 0) == (is > 0) {
			continue
		}
		low, high := b.at, t
		for range 60 {
			if m := (low + high) / 2; (b.past(b.pushed(m))[edge] > 0) == (was > 0) {
				low = m
			} else {
				high = m
			}
		}
		name := edge + " opens"
		if was > 0 {
			name = edge + " shuts"
		}
		b.passed[name] = low
	}
	b.valve, b.at = b.pushed(t), t
}

// goOn turns the shaft on to t by steps of a degree, and by less where what drives the
// valve reverses.
func (b *bench) goOn(t float64) {
	back := func(t float64) bool { return b.drives(t+1e-7) < b.drives(t-1e-7) }
	for b.at < t {
		to := min(b.at+math.Pi/180, t)
		if low, high := b.at, to; back(low) != back(high) {
			was := back(low)
			for range 60 {
				if m := (low + high) / 2; back(m) == was {
					low = m
				} else {
					high = m
				}
			}
			b.turn(low)
		}
		b.turn(to)
	}
}

// run turns the shaft twice, from just before the head-end dead centre: once to take
// up the lost motion, and once to look.
func (b *bench) run() {
	b.at, b.valve = -0.0123456789, 0
	for range 2 {
		b.passed, b.greatest, b.least = map[string]float64{}, b.past(b.valve), b.past(b.valve)
		b.goOn(b.at + 2*math.Pi)
	}
}

// rests is where the valve is when the crank stands there, in the third turn.
func (b *bench) rests(t float64) float64 {
	c := *b
	c.passed, c.greatest, c.least = map[string]float64{}, map[string]float64{}, map[string]float64{}
	c.goOn(4*math.Pi + t)
	return c.valve
}

// The events of gears as they may be built are those of the mechanism on the bench,
// with the sheave where it was put.
func TestEventsOnTheBench(t *testing.T) {
	compared, lost, differ := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		g := anyBuilt(t)
		stands := units.Angle(rapid.Float64Range(-180, 180).Draw(t, "stands")) * units.Degree
		g, err := g.WithEccentricAt(stands)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "where it stands", math.Remainder(float64(g.EccentricLead()-stands), 2*math.Pi), 0, 1e-12)
		e := events(t, g)
		b := benchOf(g, stands)
		b.run()
		if !g.Valve.LostMotion.IsZero() {
			lost++
		}
		if !g.alike() {
			differ++
		}
		for end, port := range map[End]string{HeadEnd: "head ", CrankEnd: "crank "} {
			is, centre := e.at(end), 0.0
			if end == CrankEnd {
				centre = math.Pi
			}
			for _, side := range []struct {
				edge         string
				opens, shuts Event
				state        PortState
				opening      units.Length
			}{
				{port + "steam", is.Admission, is.CutOff, is.Steam, is.Opening},
				{port + "exhaust", is.Release, is.Compression, is.Exhaust, is.ExhaustOpening},
			} {
				width := b.port[int(end)-1]
				near(t, side.edge+": greatest opening", side.opening.MM(), min(max(b.greatest[side.edge], 0), width), 1e-6)
				if math.Abs(b.greatest[side.edge]) < 1e-6 || math.Abs(b.least[side.edge]) < 1e-6 {
					continue // it just opens, or just shuts
				}
				want := OpensAndCloses
				if b.greatest[side.edge] < 0 {
					want = NeverOpens
				} else if b.least[side.edge] > 0 {
					want = NeverCloses
				}
				if side.state != want {
					t.Fatalf("%s: %v, on the bench %v", side.edge, side.state, want)
				}
				for name, event := range map[string]Event{" opens": side.opens, " shuts": side.shuts} {
					at, happens := b.passed[side.edge+name]
					if happens != event.Occurs {
						t.Fatalf("%s%s: %v, on the bench %v", side.edge, name, event.Occurs, happens)
					}
					if !happens {
						continue
					}
					compared++
					// Where the edge hardly gets there it passes slowly, and the last digit of a length is many of an angle.
					slow := 1e-9 + 1e-13/math.Sqrt(min(b.greatest[side.edge], -b.least[side.edge])/g.Travel.MM())
					near(t, side.edge+name, math.Remainder(at-centre-float64(event.Crank), 2*math.Pi), 0, slow)
					gone := b.piston(at)
					if end == CrankEnd {
						gone = 1 - gone
					}
					near(t, side.edge+name+": piston", event.Stroke, gone, 1e-9)
				}
			}
			near(t, port+"lead", is.Lead.MM(), b.past(b.rests(centre))[port+"steam"], 1e-8)
			near(t, port+"steam edge past its port", is.OverTravel.MM(), b.greatest[port+"steam"]-b.port[int(end)-1], 1e-6)
		}
		first := e.Head.Admission
		if first.Occurs && !(first.Crank >= -math.Pi && first.Crank < math.Pi && e.Head.CutOff.Crank > first.Crank) {
			t.Fatalf("admission %v, cut-off %v", first.Crank, e.Head.CutOff.Crank)
		}
		at := units.Angle(rapid.Float64Range(0, 6).Draw(t, "crank"))
		x, err := g.Displacement(at)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "displacement", x.MM()-g.Valve.Offset.MM(), b.rests(float64(at)), 1e-8)
	})
	if compared == 0 || lost == 0 || differ == 0 {
		t.Errorf("%d compared, %d with lost motion, %d whose ends differ", compared, lost, differ)
	}
}

// Turned by TurnToReverse, the sheave does the same the other way round, whatever the
// ends, the lever and the lost motion are.
func TestReversedOnTheBench(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyBuilt(t)
		now := benchOf(g, g.EccentricLead())
		now.run()
		other := benchOf(g, -(g.EccentricLead() + g.TurnToReverse())) // ahead of the crank the other way
		other.against = true
		other.run()
		for name, at := range now.passed {
			if margin := min(now.greatest[name[:len(name)-6]], -now.least[name[:len(name)-6]]); margin < 1e-6 {
				continue
			}
			near(t, name, math.Remainder(other.passed[name]-at, 2*math.Pi), 0, 1e-7)
		}
	})
}

// At the ends of its way the valve leaves open of the middle port, and covers of the
// bars, what the face says; and it clears the chest by as much.
func TestFaceOnTheBench(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyBuilt(t)
		b := benchOf(g, g.EccentricLead())
		reach := (g.Travel.MM() - b.play) / 2
		for _, end := range []End{HeadEnd, CrankEnd} {
			valve := b.middle + reach
			in := 0 // the side whose land has moved in
			if (end == CrankEnd) != b.inside {
				valve, in = b.middle-reach, 1
			}
			low, high := valve+b.off-b.cavity/2, valve+b.off+b.cavity/2
			open := min(b.exhaust/2, high) - max(-b.exhaust/2, low)
			near(t, "passage", g.passage(end).MM(), open, 1e-8)
			covered := -b.exhaust/2 - (valve - b.length/2)
			if in == 1 {
				covered = valve + b.length/2 - b.exhaust/2
			}
			near(t, "seal", g.seal(end).MM(), covered, 1e-8)
		}
		sweep := g.Sweep()
		near(t, "chest", sweep.Chest.MM()/2, math.Abs(b.middle)+reach+b.length/2, 1e-8)
		near(t, "head port", sweep.Ports.MM(), b.exhaust/2+b.bar[0]+b.port[0], 1e-8)
		near(t, "crank port", sweep.CrankPort.MM(), b.exhaust/2+b.bar[1]+b.port[1], 1e-8)
	})
}

// Answers of gears without lost motion whose ends are alike, as version 0.3.0 gave
// them: crank and stroke of admission, cut-off, release and compression, then lead,
// opening, over-travel and exhaust opening in picometres, head end and crank end.
func TestAlikeEndsAnswerAsBefore(t *testing.T) {
	for _, test := range []struct {
		name  string
		gear  func(*Gear)
		want  [2][12]float64
		codes string
	}{
		{"the demonstration", func(*Gear) {}, [2][12]float64{
			{
				-0.09448920858277643, 0.002671982282485862, 2.328510651135518, 0.8699429051988524,
				2.714476876243547, 0.9636085325037692, 5.80272987348878, 0.06722600355834006,
				271762205, 2000000000, 0, 2000000000,
			},
			{
				-0.04503047874046739, 0.0004063337700194127, 2.279051921293209, 0.7964776924309944,
				2.661137219898987, 0.9327739964416603, 5.856069529833341, 0.0363914674962311,
				133813134, 2000000000, 0, 2000000000,
			},
		}, "unequal-cut-off both note; blind-arc both note; "},
		{"piston valve, off centre", func(g *Gear) {
			g.InsideAdmission, g.Valve = true, Valve{Length: units.MM(13), Cavity: units.MM(6.6), Offset: units.MM(-0.1)}
		}, [2][12]float64{
			{
				-0.07817324471092757, 0.001829515157171222, 2.312194687263669, 0.864787260169233,
				2.692371963758604, 0.9597647394887758, 5.824834785973724, 0.06133827596517834,
				233813134, 2000000000, 100000000, 2000000000,
			},
			{
				-0.06021196905192738, 0.0007264719469427042, 2.294233411604669, 0.8029593916298879,
				2.68324213238393, 0.938661724034822, 5.833964617348397, 0.0402352605112244,
				171762205, 1900000000, -100000000, 2000000000,
			},
		}, "off-centre both note; steam-part-open crank note; unequal-cut-off both note; blind-arc both note; "},
		{"reversing lever, short rod", func(g *Gear) {
			g.LeverRatio, g.Advance, g.EccentricRod = -1.25, 31*units.Degree, RodOf(units.MM(17))
		}, [2][12]float64{
			{
				-0.08962819404217903, 0.002404397576838461, 2.149116711395488, 0.8083346936421857,
				2.525175142759821, 0.9246105476602207, 5.817498681773074, 0.06326487063325215,
				270350141, 2000000000, 0, 2000000000,
			},
			{
				-0.2296207178586172, 0.01055257487719537, 2.289109235211926, 0.8007797717113382,
				2.675906028183281, 0.9367351293667477, 5.666767796349614, 0.07538945233977923,
				625893538, 2000000000, 0, 2000000000,
			},
		}, "large-lead crank caution; unequal-cut-off both note; blind-arc both note; "},
		{"for the other direction", func(g *Gear) {
			g.Advance, g.Valve.Cavity, g.Valve.Offset = 150*units.Degree, units.MM(9.3), units.MM(0.2)
		}, [2][12]float64{
			{
				-2.325825212972101, 0.8691006928347583, 0.2314301105789038, 0.01594131617774908,
				0.565874325057349, 0.09223948251087893, 3.622915879729041, 0.9538452739448585,
				664034170, 2000000000, 200000000, 2000000000,
			},
			{
				-2.141607563267885, 0.7347871840250666, 0.04721246087468867, 0.0004466640245549792,
				0.3876101727652106, 0.02999587032675954, 3.801180032021179, 0.8764266044532306,
				135965830, 1800000000, -200000000, 2000000000,
			},
		}, "runs-backwards both fails; open-at-mid-travel both caution; off-centre both note; steam-part-open crank note; "},
		{"infinite rods", func(g *Gear) {
			g.ConnectingRod, g.EccentricRod, g.Ports.Bar = InfiniteRod(), InfiniteRod(), units.MM(2.4)
		}, [2][12]float64{
			{
				-0.03543921907505765, 0.0003139517014364534, 2.269460661627799, 0.8215977699155008,
				2.656551959571772, 0.9423279882423202, 5.860654790160556, 0.04397291342052115,
				102787670, 1900000000, -100000000, 2000000000,
			},
			{
				-0.03543921907505765, 0.0003139517014364534, 2.269460661627799, 0.8215977699155008,
				2.656551959571772, 0.9423279882423202, 5.860654790160556, 0.04397291342052115,
				102787670, 1900000000, -100000000, 2000000000,
			},
		}, "open-at-mid-travel both note; steam-part-open head note; steam-part-open crank note; blind-arc both note; "},
	} {
		g := demo()
		test.gear(&g)
		e := events(t, g)
		for i, end := range []EndEvents{e.Head, e.Crank} {
			got := []float64{count(end.Lead), count(end.Opening), count(end.OverTravel), count(end.ExhaustOpening)}
			for k, event := range []Event{end.Admission, end.CutOff, end.Release, end.Compression} {
				near(t, test.name+": angle", float64(event.Crank), test.want[i][2*k], 4e-15)
				near(t, test.name+": stroke", event.Stroke, test.want[i][2*k+1], 4e-15)
			}
			for k, l := range got {
				near(t, test.name+": length", l, test.want[i][8+k], 0)
			}
		}
		codes := ""
		for _, f := range g.Check() {
			if f.Code != LittleExhaustLap { // which was not looked for
				codes += fmt.Sprintf("%v %v %v; ", f.Code, f.End, f.Severity)
			}
		}
		if codes != test.codes {
			t.Errorf("%s: %s, want %s", test.name, codes, test.codes)
		}
	}
}

// What is left out is as at the head end, and none: said in so many words it changes
// no answer, not by a bit.
func TestLeftOutIsAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		told := g
		told.Ports.CrankSteam, told.Ports.CrankBar = g.Ports.Steam, g.Ports.Bar
		if told.Kernel() != g.Kernel() || told.Laps() != g.Laps() || told.LapsAt(HeadEnd) != g.LapsAt(CrankEnd) ||
			events(t, told) != events(t, g) || told.Sweep() != g.Sweep() {
			t.Fatalf("%v\nanswers otherwise than\n%v", told, g)
		}
		is, was := told.Check(), g.Check()
		for i, f := range is {
			if i >= len(was) || f.String() != was[i].String() || f.End != was[i].End || f.Amount != was[i].Amount {
				t.Fatalf("%v of %v", f, was)
			}
		}
		// And of a picometre of lost motion no angle changes by more than it can.
		told.Valve.LostMotion = units.Picometres(1)
		late, sound := events(t, told), events(t, g)
		for _, pair := range [][2]Event{{late.Head.Admission, sound.Head.Admission}, {late.Crank.CutOff, sound.Crank.CutOff}} {
			if pair[0].Occurs && pair[1].Occurs {
				near(t, "with a picometre of play", float64(pair[0].Crank), float64(pair[1].Crank), 1e-4)
			}
		}
	})
}

// The lost motion wants two more angles at each end.
func BenchmarkEventsBuilt(b *testing.B) {
	g := demo()
	g.Ports.CrankSteam, g.Valve.CavityOffset, g.Valve.LostMotion = units.MM(1.8), units.MM(0.1), units.MM(0.2)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := g.Events(); err != nil {
			b.Fatal(err)
		}
	}
}
