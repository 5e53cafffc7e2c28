package screwcut_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A paper is a kept text that is being written.
type paper struct{ strings.Builder }

func (p *paper) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// findings writes findings with all that they say.
func (p *paper) findings(list finding.List) {
	for _, f := range list {
		p.line("  %v %s: %s [%v]", f.Severity, f.Code, f.Text, f.Refs)
		for _, r := range f.Remedies {
			p.line("    - %s", r)
		}
	}
}

func (p *paper) keep(t *testing.T, name string) {
	t.Helper()
	check.Kept(t, "thread/screwcut/kept/"+name+".txt", check.Rounded(p.String()))
}

func lead(t *testing.T, text string) screwcut.Lead {
	t.Helper()
	l, err := screwcut.ParseLead(text)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func wheels(t *testing.T, text string) []int {
	t.Helper()
	w, err := screwcut.ParseWheels(text)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// The trains of some lathes with their errors and the room on their studs, what is said
// of them and what to buy. TestChangeWheelsAgainstBruteForce has the search itself.
func TestTrainsKept(t *testing.T) {
	var p paper
	for _, ask := range []struct {
		screw, wheels, want string
		drivers, driven     int
	}{
		{"8 tpi", "20-65x5, 38", "1 mm", 0, 0}, {"8 tpi", "20-65x5, 63", "1.5 mm", 0, 0}, {"8 tpi", "20, 20-65x5, 127", "0.75 mm", 0, 0},
		{"8 tpi", "20-65x5", "26 tpi", 0, 0}, {"3 mm", "20-60x5, 127", "20 tpi", 0, 0}, {"3 mm", "20-60x10", "2 mm", 1, 2},
		{"8 tpi", "30, 31", "1 mm", 0, 0}, {"8 tpi", "20, 25, 50, 60", "20 tpi", 0, 0}, {"8 tpi", "40, 40, 20, 80", "8 tpi", 0, 0},
		{"10 tpi", "20-70x5", "BA", 0, 0},
	} {
		want := screwcut.LeadOf(thread.MustParse("2 BA"))
		if ask.want != "BA" {
			want = lead(t, ask.want)
		}
		l := screwcut.Lathe{Leadscrew: lead(t, ask.screw), Wheels: wheels(t, ask.wheels), GearedDrivers: ask.drivers, GearedDriven: ask.driven}
		trains, err := l.Trains(want)
		buy, errBuy := l.WheelsToBuy(want)
		p.line("%v from %s by %s: %d exact, %d close, %v; buy %v, %v", want, ask.screw, ask.wheels, len(trains.Exact), len(trains.Closest), err, buy, errBuy)
		for _, t := range trains.Exact[:min(len(trains.Exact), 6)] {
			p.line(" exact %v cuts %v, room %d", t, t.Cut, t.Room)
			p.findings(t.Check())
		}
		for _, t := range trains.Closest {
			off, err := t.ErrorOver(units.MM(100))
			p.line(" %v cuts %v, error %.6g, room %d; %v over 100 mm, %v", t, t.Cut, t.Error, t.Room, off, err)
			p.findings(t.Check())
		}
		said, err := l.Check(trains)
		p.line(" said: %v", err)
		p.findings(said)
	}
	good := screwcut.Lathe{Leadscrew: lead(t, "8 tpi"), Wheels: []int{20, 40}}
	for _, l := range []screwcut.Lathe{
		{Wheels: []int{20, 40}}, {Leadscrew: good.Leadscrew}, {Leadscrew: good.Leadscrew, Wheels: []int{20}}, {Leadscrew: good.Leadscrew, Wheels: make([]int, 61)},
		{Leadscrew: good.Leadscrew, Wheels: []int{7, 20}}, {Leadscrew: good.Leadscrew, Wheels: []int{8, 20}}, {Leadscrew: good.Leadscrew, Wheels: []int{20, 400}},
		{Leadscrew: good.Leadscrew, Wheels: []int{20, 401}}, {Leadscrew: good.Leadscrew, Wheels: []int{20, 40}, GearedDrivers: 1},
		{Leadscrew: good.Leadscrew, Wheels: []int{20, 40}, GearedDriven: 1}, {Leadscrew: good.Leadscrew, Wheels: []int{20, 40}, GearedDrivers: -1, GearedDriven: 1},
		{Leadscrew: good.Leadscrew, Wheels: []int{20, 40}, GearedDrivers: 1_000_000, GearedDriven: 1_000_000},
		{Leadscrew: good.Leadscrew, Wheels: []int{20, 40}, GearedDrivers: 1_000_001, GearedDriven: 1},
		{Leadscrew: good.Leadscrew, Wheels: []int{20, 40}, GearedDrivers: 1, GearedDriven: 1_000_001},
	} {
		trains, err := l.Trains(lead(t, "16 tpi"))
		_, errBuy := l.WheelsToBuy(lead(t, "16 tpi"))
		p.line("%v, %d wheels, %d/%d: %d exact, %v; %v", l.Leadscrew, len(l.Wheels), l.GearedDrivers, l.GearedDriven, len(trains.Exact), err, errBuy)
	}
	_, err := good.Trains(screwcut.Lead{})
	p.line("no lead: %v", err)
	p.line("%v, %v, %v", screwcut.Train{}, screwcut.Train{Drivers: []int{20, 30}, Driven: []int{40}}, screwcut.Train{Drivers: []int{20}, Driven: []int{40, 50}})
	for _, share := range []float64{1e-3, 10, math.Inf(1), math.NaN()} {
		off, err := screwcut.Train{Error: share}.ErrorOver(units.MM(1e6))
		p.line("%g over 1 km: %v, %v", share, off, err)
	}
	p.findings(screwcut.Train{Drivers: []int{20, 30}, Driven: []int{40, 50}, Room: 14}.Check())
	p.findings(screwcut.Train{Drivers: []int{20, 30}, Driven: []int{40, 50}, Room: 15}.Check())
	p.keep(t, "trains")
}

// Leads, as they are read and as they are written, where the half nuts may be closed,
// and sets of wheels; each bound just inside and just outside.
func TestReadingKept(t *testing.T) {
	var p paper
	for _, text := range []string{
		"8 tpi", "11 1/2 tpi", "11.5TPI", "1.5 mm", "1/8 in", "10 mm in 3 turns", "2 in in 23 turns", "0.8 mm", "0.26 tpi", "0.25 tpi", "0.2 tpi", "127 tpi",
		"2540 tpi", "2541 tpi", "0.01 mm", "0.0099 mm", "100 mm", "100.01 mm", "1 mm in 1000000 turns", "20000 mm in 1000000 turns", "20000 mm in 1000001 turns",
		"1 mm in 0 turns", "5 turns", "x in 5 turns", "10 mm in x turns", "10 mm in 1.5 turns", "tpi", "x tpi", "-8 tpi", "", "thread", "1 km in 20000 turns",
		"1.001 km in 20000 turns", "3.1415 tpi", "8 tpi in 2 turns", "a in 5 turns", "5 mm in 3 turns turns", " in 3 turns", "0.25001 tpi", "999.999 tpi", "1000.001 tpi",
	} {
		l, err := screwcut.ParseLead(text)
		p.line("%q: %v, %v, %.6g tpi, %v", text, l, l.Length(), l.TPI(), err)
	}
	for _, name := range []string{"M3", "1/4-20 UNC", "2 1/4 BSW", "2 BA", "1/2-14 NPT", "1 1/4-11.5 NPT", "2 BSW", "Tr 10x2", "1/4x40 ME", "M7.3x0.4 special", "3 BSW"} {
		l := screwcut.LeadOf(thread.MustParse(name))
		p.line("%s: %v, %v", name, l, l.Length())
	}
	p.line("none: %q, %v, %v", screwcut.LeadOf(thread.Thread{}), screwcut.Lead{}.Length(), screwcut.Lead{}.TPI())
	for _, ask := range []struct {
		screw, want string
		teeth       int
	}{
		{"8 tpi", "16 tpi", 16}, {"8 tpi", "11 tpi", 16}, {"8 tpi", "11 1/2 tpi", 16}, {"8 tpi", "6 tpi", 16}, {"8 tpi", "1 mm", 16}, {"3 mm", "1.25 mm", 30},
		{"3 mm", "1.25 mm", 0}, {"8 tpi", "16 tpi", 400}, {"8 tpi", "11 tpi", 400}, {"8 tpi", "16 tpi", 401}, {"8 tpi", "16 tpi", -1}, {"3.000001 mm", "1.000003 mm", 16},
		{"8 tpi", "12 tpi", 1}, {"8 tpi", "12 tpi", 2}, {"8 tpi", "12 tpi", 3}, {"8 tpi", "12 tpi", 14},
	} {
		up, err := screwcut.PickUpOnDial(lead(t, ask.screw), lead(t, ask.want), ask.teeth)
		p.line("%s on %s, dial of %d: %v; %d, %v, %v", ask.want, ask.screw, ask.teeth, up, up.Threads, up.Travel, err)
	}
	_, err := screwcut.PickUpOnDial(screwcut.Lead{}, lead(t, "8 tpi"), 0)
	_, errLead := screwcut.PickUpOnDial(lead(t, "8 tpi"), screwcut.Lead{}, 0)
	p.line("none: %v; %v; %v", screwcut.PickUp{}, err, errLead)
	for _, text := range []string{
		"24, 24-100x4, 63", "20 40", "8, 400", "20, x-30x5", "20, 20-x", "20, 20-30x5x", "7, 20", "20, 401", "20", "", "20-30", "20-30x5", "20-31x5", "30-20x5", "20-30x0", "20-30xx", "x, 20", "20-xx5, 30",
		"20-79x1", "20-80x1", "20-78x1, 20", "20-79x1, 20", "20-20x5", "20,,30", "-20, 30",
	} {
		w, err := screwcut.ParseWheels(text)
		p.line("%q: %v, %v", text, w, err)
	}
	for _, text := range []string{
		"sharp", " Sharp ", "flat 0.1 mm", "radius 4 thou", "flat 0 mm", "flat 25 mm", "flat 25.001 mm", "radius -1 mm", "flat", "radius x", "blunt", "round 1 mm", "",
	} {
		tip, err := screwcut.ParseToolTip(text)
		p.line("%q: %v, %v", text, tip, err)
	}
	p.line("%v", screwcut.ToolTip{Flat: units.MM(0.1), Radius: units.MM(0.2)})
	p.keep(t, "reading")
}

// How deep tools go, how far the slide travels and what an error of pitch takes, over
// threads of every form.
func TestCuttingKept(t *testing.T) {
	var p paper
	names := []string{"M6", "M20x1", "1/4-20 UNC", "1/4 BSW", "2 BA", "1/2x26 BSC", "1/8 NPT", "Tr 10x2", "1/2-10 Acme", "1/4x40 ME"}
	for _, name := range names {
		th := thread.MustParse(name)
		tips, err := screwcut.GroundTips(th)
		p.line("%s: %d tips, %v; slide at %.4g", name, len(tips), err, screwcut.SlideAngleFor(th).Degrees())
		for _, tip := range append(tips, screwcut.GroundTip{Name: "blunt", Tip: screwcut.ToolTip{Flat: th.Pitch().Scale(0.4)}}) {
			depth, err := tip.Tip.DepthFor(th)
			p.line(" %s, %v: %v, design %v, %v", tip.Name, tip.Tip, depth.Depth, depth.Design, err)
			p.findings(depth.Findings)
		}
		for _, off := range []float64{0.005, -0.02, 0.2} {
			share, err := screwcut.PitchErrorShare(th, units.MM(off))
			p.line(" %g mm: %v, %v; %v", off, share, err, share.Refs)
			p.findings(share.Findings)
		}
		said, err := screwcut.CheckSlide(th, units.MM(0.6), th.Form().Angle()/2+units.Degree/2)
		p.line(" slide: %v", err)
		p.findings(said)
		said, err = screwcut.CheckSlide(th, units.MM(0.6), th.Form().Angle()/2)
		p.line(" slide: %v, %v", said, err)
	}
	m6 := thread.MustParse("M6")
	for _, tip := range []screwcut.ToolTip{
		{Flat: units.MM(0.499)}, {Flat: units.MM(0.5)}, {Flat: units.MM(-0.1)}, {Radius: units.MM(-0.1)}, {Flat: units.MM(0.1), Radius: units.MM(0.1)},
		{Radius: units.MM(0.2165)}, {Radius: units.MM(0.2166)}, {Radius: units.MM(0.4330)}, {Radius: units.MM(0.4331)},
	} {
		depth, err := tip.DepthFor(m6)
		p.line("%v: %v, %v", tip, depth.Depth, err)
	}
	_, err := screwcut.ToolTip{}.DepthFor(thread.Thread{})
	_, errTips := screwcut.GroundTips(thread.Thread{})
	_, errShare := screwcut.PitchErrorShare(thread.Thread{}, units.MM(1))
	_, errSlide := screwcut.CheckSlide(thread.Thread{}, units.MM(1), 0)
	p.line("no thread: %v; %v; %v; %v; %v", err, errTips, errShare, errSlide, screwcut.SlideAngleFor(thread.Thread{}))
	for _, ask := range []struct{ depth, set float64 }{
		{0.6, 29.5}, {0.6, 0}, {0.6, 45}, {0.6, 45.001}, {0.6, -0.001}, {0, 29}, {-1, 29}, {100, 29}, {100.001, 29}, {0.6, math.NaN()}, {0.6, math.Inf(1)},
	} {
		travel, err := screwcut.InfeedAlongSlide(units.MM(ask.depth), units.Angle(ask.set)*units.Degree)
		_, errSlide := screwcut.CheckSlide(m6, units.MM(ask.depth), units.Angle(ask.set)*units.Degree)
		p.line("%g at %g: %v, %v; %v", ask.depth, ask.set, travel, err, errSlide)
	}
	for _, off := range []float64{4e5, 1e6, -1e6} {
		e, err := screwcut.PitchErrorOnDiameter(m6, units.MM(off))
		_, errShare := screwcut.PitchErrorShare(m6, units.MM(off))
		p.line("%g: %v, %v; %v", off, e, err, errShare)
	}
	for _, c := range screwcut.Precautions() {
		p.line("%s: %s [%v]", c.Code, c.Text, c.Ref)
	}
	p.keep(t, "cutting")
}

// All pairs of wheels that stand for 100/127, found by trying every one.
func TestTranslationsAgainstAll(t *testing.T) {
	for _, ask := range []struct {
		largest int
		within  float64
	}{{20, 0.05}, {60, 0.01}, {127, 0.002}, {127, 0}, {126, 0}, {400, 0.0003}} {
		got, err := screwcut.Translations(ask.largest, ask.within)
		if err != nil {
			t.Fatal(err)
		}
		found := map[[2]int]float64{}
		for i, pair := range got {
			found[[2]int{pair.Driver, pair.Driven}] = pair.Error
			if i > 0 && (math.Abs(pair.Error) < math.Abs(got[i-1].Error) ||
				math.Abs(pair.Error) == math.Abs(got[i-1].Error) && pair.Driven <= got[i-1].Driven) {
				t.Errorf("up to %d: %v stands after %v", ask.largest, pair, got[i-1])
			}
		}
		count := 0
		for driven := 1; driven <= ask.largest; driven++ {
			for driver := 1; driver <= ask.largest; driver++ {
				off := float64(driver)*127/(float64(driven)*100) - 1
				lowest := true
				for n := 2; n <= driver; n++ {
					lowest = lowest && (driver%n != 0 || driven%n != 0)
				}
				if math.Abs(off) > ask.within+1e-12 || !lowest {
					continue
				}
				count++
				if e, ok := found[[2]int{driver, driven}]; !ok || math.Abs(e-off) > 1e-12 {
					t.Errorf("up to %d within %g: %d/%d is %g long, and told as %g, %v", ask.largest, ask.within, driver, driven, off, e, ok)
				}
			}
		}
		if count != len(got) {
			t.Errorf("up to %d within %g: %d pairs, want %d", ask.largest, ask.within, len(got), count)
		}
	}
	for _, bad := range []struct {
		largest int
		within  float64
	}{{19, 0.01}, {401, 0.01}, {60, -0.0001}, {60, 0.0501}, {60, math.NaN()}} {
		if got, err := screwcut.Translations(bad.largest, bad.within); err == nil || !strings.Contains(err.Error(), "accepted: ") {
			t.Errorf("%v: %v, %v", bad, got, err)
		}
	}
	for _, good := range []int{20, 400} {
		if _, err := screwcut.Translations(good, 0.05); err != nil {
			t.Error(err)
		}
	}
}
