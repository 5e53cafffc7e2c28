package diagram

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// A step of a scale is 1, 2 or 5 and noughts, makes no more steps than it may, and the next
// smaller one would make more; its figures have as many places as it needs.
func TestRoundSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(44, 16))
	for range 500 {
		span, most := math.Pow(10, 8*r.Float64()-4), 4+r.IntN(8)
		step := stepFor(span, most)
		text := strings.TrimLeft(strings.NewReplacer(".", "").Replace(strconv.FormatFloat(step, 'f', 12, 64)), "0")
		digit := strings.TrimRight(text, "0")
		if digit != "1" && digit != "2" && digit != "5" {
			t.Fatalf("a step of %v", step)
		}
		smaller := step / 2
		if digit == "5" {
			smaller = step / 2.5
		}
		if span/step > float64(most)*(1+1e-6) || span/smaller <= float64(most) {
			t.Errorf("%v in up to %d steps: %v", span, most, step)
		}
		places := 0
		for v := step; math.Abs(v-math.Round(v)) > 1e-6; v *= 10 {
			places++
		}
		if decimals(step) != places {
			t.Errorf("%v has %d places, want %d", step, decimals(step), places)
		}
		low := span * (r.Float64() - 0.5)
		from, to := widened(low, low+span, step)
		if from > low || from < low-step || to < low+span || to > low+span+step ||
			math.Abs(from/step-math.Round(from/step)) > 1e-6 || math.Abs(to/step-math.Round(to/step)) > 1e-6 {
			t.Errorf("%v to %v in steps of %v is widened to %v and %v", low, low+span, step, from, to)
		}
		a := axis{low: from, high: to, from: 10, to: 90}
		ticks := a.ticks(step)
		if n := int(math.Round((to-from)/step)) + 1; len(ticks) != n || math.Abs(ticks[0]-from) > 1e-6*step || math.Abs(ticks[n-1]-to) > 1e-6*step {
			t.Errorf("%v to %v in steps of %v: %v", from, to, step, ticks)
		}
		if math.Abs(a.at(from)-10) > 1e-9 || math.Abs(a.at(to)-90) > 1e-9 || math.Abs(a.at((from+to)/2)-50) > 1e-9 {
			t.Errorf("%+v: the ends are at %v and %v", a, a.at(from), a.at(to))
		}
		hair := 1e-6 * (to - from)
		if !a.has(from) || !a.has(to) || a.has(from-hair) || a.has(to+hair) || !a.has(from+hair) {
			t.Errorf("%+v has not what it has", a)
		}
	}
	if got := [2]float64{stepFor(10, 10), stepFor(8, 4)}; got != [2]float64{1, 2} {
		t.Errorf("just so many steps: %v", got)
	}
	if low, high := widened(2, 4, 2); low != 2 || high != 4 {
		t.Errorf("a whole range is widened to %v and %v", low, high)
	}
	if got := sideWide(-10, 10, 5); math.Abs(got-sheet.TextWidth("-10", letters)-tick-2) > 1e-9 {
		t.Errorf("the side is %v wide", got)
	}
}

// Figures by hand: places, units, and no nought with a sign.
func TestFigures(t *testing.T) {
	mm, inch := Options{}, Options{Inch: true}
	thou := units.Thou
	for _, f := range []struct{ got, want string }{
		{mm.length(units.Length{}), "0"}, {mm.length(units.MM(12.346)), "12.35"}, {mm.length(units.MM(3)), "3"}, {mm.length(units.MM(0.1)), "0.1"},
		{mm.length(units.Micron(99)), "0.099"}, {mm.length(units.Micron(-99.4)), "-0.099"}, {mm.length(units.MM(100)), "100"},
		{inch.length(units.Inch(0.25)), "0.250"}, {inch.length(units.Inch(1.23456)), "1.2346"}, {inch.length(thou(10)), "0.010"}, {inch.length(thou(9.96)), "10 thou"},
		{inch.length(thou(-4.25)), "-4.3 thou"}, {inch.length(units.Length{}), "0"},
		{mm.said(units.MM(2)), "2 mm"}, {inch.said(units.Inch(2)), "2.000 in"}, {inch.said(thou(2)), "2 thou"},
		{mm.note(), "figures in mm"}, {inch.note(), "figures in inches or thou"},
		{degrees(-0.04 * units.Degree), "0.0°"}, {degrees(133.449 * units.Degree), "133.4°"}, {degrees(-5.45001 * units.Degree), "-5.5°"},
		{percent(0.8696), "87.0 %"}, {percent(1), "100.0 %"}, {percent(0.00049), "0.0 %"}, {inDegrees(-5.4149 * units.Degree), "-5.41°"},
		{ruleOf(mm).size(units.MM(2.006)), "2.01 mm"}, {ruleOf(inch).size(thou(100)), "0.100 in"}, {ruleOf(inch).size(thou(99.94)), "99.9 thou"},
		{ruleOf(inch).size(thou(-0.04)), "0.0 thou"}, {ruleOf(mm).size(units.MM(-0.004)), "0.00 mm"},
		{rounded(0.41678), "0.417"}, {rounded(9.9994), "9.999"}, {rounded(10), "10.00"}, {rounded(-123.456), "-123.5"}, {rounded(4880.4), "4880"}, {rounded(1e6), "1000000"},
		{when(-5.4 * units.Degree), "5.4° before centre"}, {when(133 * units.Degree), "crank 133.0°"}, {capital("head"), "Head"},
		{fmt.Sprint(ruleOf(inch).of(50.8)), "2"}, {fmt.Sprint(ruleOf(mm).of(50.8)), "50.8"}, {fmt.Sprint(turned(-1) == fullTurn-1, turned(fullTurn), turned(1)), "true 0 1"},
		{strings.Join(mm.seen(), " "), "drawn turning clockwise: no rotation is given"}, {mm.turning(), "No rotation is given: it is drawn turning clockwise."},
		{strings.Join(Options{Rotation: setting.Anticlockwise}.seen(), " "), "turns anticlockwise, side not given"},
		{Options{Rotation: setting.Clockwise}.turning(), "It is drawn turning clockwise, as the engine does."},
		{strings.Join(Options{Rotation: setting.Clockwise, SeenFrom: "the left"}.seen(), " "), "turns clockwise, seen from the left"},
	} {
		if f.got != f.want {
			t.Errorf("%q, want %q", f.got, f.want)
		}
	}
}

// What is told of the places at which edges pass each other, of a gear with a lap of the
// cavity at one end, none at the other, and a clearance.
func TestEdgeNames(t *testing.T) {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	gear := func(cavity, off float64) eccentric.Gear {
		return eccentric.Gear{Stroke: units.MM(25), Travel: units.MM(7), Advance: 26 * units.Degree, Ports: ports,
			Valve:         eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(cavity), CavityOffset: units.MM(off)},
			ConnectingRod: eccentric.InfiniteRod(), EccentricRod: eccentric.InfiniteRod()}
	}
	for _, c := range []struct {
		cavity, off float64
		want        string
	}{
		{9, 0, "head: steam lap 1.20 mm 1.2; head: wide open 3.2; exhaust: line on line 0; crank: steam lap 1.20 mm -1.2; crank: wide open -3.2"},
		{8.6, -0.2, "head: steam lap 1.20 mm 1.2; head: wide open 3.2; head: exhaust lap 0.00 mm 0; crank: steam lap 1.20 mm -1.2; crank: wide open -3.2; crank: exhaust lap 0.40 mm 0.4"},
		{9.4, 0.2, "head: steam lap 1.20 mm 1.2; head: wide open 3.2; head: exhaust lap 0.00 mm 0; crank: steam lap 1.20 mm -1.2; crank: wide open -3.2; crank: exhaust clearance 0.40 mm -0.4"},
	} {
		v, err := gearingOf(gear(c.cavity, c.off), Options{})
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, l := range v.lines() {
			all = append(all, l.text+" "+strconv.FormatFloat(l.at.MM(), 'f', -1, 64))
		}
		if got := strings.Join(all, "; "); got != c.want {
			t.Errorf("%+v:\n%s, want\n%s", c, got, c.want)
		}
	}
	// a lap that the valve never comes to is drawn, or told below where it has no room, up to
	// an eighth more than half the travel: our own choice
	for reach, drawn := range map[float64]bool{1.115: true, 1.135: false} {
		g := gear(9, 0)
		g.Valve = ports.ValveWith(eccentric.Laps{Steam: units.MM(3.5 * reach)})
		p, err := Polar(g, Options{})
		if err != nil {
			t.Fatal(err)
		}
		word := fmt.Sprintf("head: steam lap %.2f mm", 3.5*reach)
		if got := read(t, p).Says(word) || strings.Contains(p.Caption, word); got != drawn {
			t.Errorf("a lap of %v times the reach is drawn: %v", reach, got)
		}
	}
}

// A port carries what the middle of each part of its turn does, the parts follow each other
// over the whole turn, and none is like the one before.
func TestCarried(t *testing.T) {
	engines(t, 100, func(t testing.TB, g eccentric.Gear, o Options) {
		v, err := gearingOf(g, o)
		if err != nil {
			t.Fatal(err)
		}
		for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			parts := v.carried(end)
			at := 0.0
			for i, part := range parts {
				if part.from != at || part.to <= at || i > 0 && part.word() == parts[i-1].word() {
					t.Errorf("%v: %+v", end, parts)
				}
				at = part.to
			}
			if at != fullTurn {
				t.Errorf("%v: %+v", end, parts)
			}
			for k := range 90 {
				angle := fullTurn * (float64(k) + 0.5) / 90
				open, err := g.OpeningsAt(units.Angle(angle))
				if err != nil {
					t.Fatal(err)
				}
				here := open.Head
				if end == eccentric.CrankEnd {
					here = open.Crank
				}
				if here.Steam.Abs().Cmp(units.Micron(1)) < 0 && here.Steam.Sign() > 0 || here.Exhaust.Abs().Cmp(units.Micron(1)) < 0 && here.Exhaust.Sign() > 0 {
					continue
				}
				for _, part := range parts {
					if part.from < angle && angle < part.to && (part.steam != (here.Steam.Sign() > 0) || part.exhaust != (here.Exhaust.Sign() > 0)) {
						t.Errorf("%v at %v carries %s, open by %v", end, angle, part.word(), here)
					}
				}
			}
		}
	})
	for want, c := range map[string]carriage{"both": {steam: true, exhaust: true}, "steam": {steam: true}, "exhaust": {exhaust: true}, "shut": {}} {
		if c.word() != want {
			t.Errorf("%+v: %s", c, c.word())
		}
	}
}

// A picture that is drawn taller has all of it in its curves: what stands below and above
// them has the same height.
func TestTallerPictures(t *testing.T) {
	k := keptEngines(t)[0]
	v, err := gearingOf(k.Gear, k.Options)
	if err != nil {
		t.Fatal(err)
	}
	run := k.on()
	cycle, errCycle := run.Cycle()
	turning, errTurning := run.Turning()
	b := &banding{study: k.within(), gearing: v}
	var errWorst error
	b.worst, errWorst = b.study.Worst()
	if errCycle != nil || errTurning != nil || errWorst != nil {
		t.Fatal(errCycle, errTurning, errWorst)
	}
	if err := b.sample(); err != nil {
		t.Fatal(err)
	}
	w := &working{gearing: v, run: run, cycle: cycle, turning: turning}
	for name, draw := range map[string]func(float64) *plate{"displacement": v.displacement, "oval": v.oval, "openings": v.openings,
		"pressures": w.pressures, "moment": w.moment, "place": b.place, "bands": b.openings} {
		var above, below, tall [2]float64
		for i, taller := range []float64{0, 30} {
			p := draw(taller)
			if err := p.Err(); err != nil {
				t.Fatal(name, err)
			}
			_, high := p.Size()
			box := p.Bounds()
			above[i], below[i], tall[i] = high-box.Max.Y, box.Min.Y, high
		}
		if math.Abs(tall[1]-tall[0]-30) > 1e-9 || math.Abs(above[1]-above[0]) > 1e-9 || math.Abs(below[1]-below[0]) > 1e-9 || above[0] < 0 {
			t.Errorf("%s: %v high, %v above and %v below what is drawn", name, tall, above, below)
		}
	}
	short, tall := v.polar(0), v.polar(30)
	_, a := short.Size()
	if _, b := tall.Size(); math.Abs(b-a-36) > 1e-9 { // 30, and a radius of 3 more
		t.Errorf("valve circles of %v and %v", a, b)
	}
	tried := 0
	p := roomy(func(taller float64) *plate {
		p := newPlate(50, 50+taller)
		if tried++; taller < 30 {
			p.without = []string{"a word"}
		}
		return p
	})
	if _, high := p.Size(); high != 80 || tried != 3 {
		t.Errorf("a picture that has room from 30 mm more on is drawn %v high, of %d", high, tried)
	}
	none := roomy(func(taller float64) *plate {
		p := newPlate(50, 50+taller)
		p.without = []string{"a word", "the number 3"}
		return p
	})
	drawn, err := picture(none, "name", "Title", "Alt.", "Caption.")
	if _, high := none.Size(); err != nil || high != 95 || drawn.Caption != "Caption. There was no room on it for: a word; the number 3." {
		t.Errorf("%v high: %+v, %v", high, drawn, err)
	}
}

// A gear that is none is drawn by nothing.
func TestNothingDrawn(t *testing.T) {
	of := func(p Picture, err error) error {
		if p != (Picture{}) {
			t.Errorf("%v beside %v", p, err)
		}
		return err
	}
	all := func(p []Picture, err error) error {
		if len(p) > 0 {
			t.Errorf("%v beside %v", p, err)
		}
		return err
	}
	var g eccentric.Gear
	for name, err := range map[string]error{
		"valve": of(Valve(g, Options{})), "positions": all(Positions(g, Options{})), "drive": all(Drive(g, Options{})),
		"displacement": of(Displacement(g, Options{})), "oval": of(Oval(g, Options{})), "polar": of(Polar(g, Options{})),
		"openings": of(PortOpenings(g, Options{})), "at work": all(AtWork(indicator.Running{}, Options{})), "bands": all(Bands(spread.Study{}, Options{})),
	} {
		if err == nil || !strings.Contains(err.Error(), "stroke") {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, err := range map[string]error{"svg": Picture{}.WriteSVG(nil), "dxf": Picture{}.WriteDXF(nil), "pdf": Picture{}.WritePDF(nil)} {
		if err == nil || err.Error() != "diagram: picture: missing; accepted: one that a function of this package returned" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if p := (Picture{Title: "A title"}); p.String() != "A title" || p.Drawing() != nil {
		t.Errorf("%v", p)
	}
}
