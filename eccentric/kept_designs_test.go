package eccentric

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// wish draws a wish: openings or travel or ports that open fully or a rule, with
// ports that are given or not, and now and then one that no gear meets.
func (p pool) wish() Wish {
	hundredth := func(low, high float64) float64 { return math.Round(100*p.between(low, high)) / 100 }
	w := Wish{CutOff: hundredth(0.4, 0.93), CutOffAt: End(p.IntN(3)), Lead: p.mm(-0.05, 0.3)}
	g := &w.Gear
	g.Stroke, g.ConnectingRod, g.EccentricRod = units.MM(25), RodOf(p.mm(45, 100)), RodOf(p.mm(40, 90))
	if p.one(4) {
		g.ConnectingRod = InfiniteRod()
	}
	if p.one(4) {
		g.EccentricRod = InfiniteRod()
	}
	if p.one(3) {
		g.LeverRatio = []float64{-1, 1.25, -0.8}[p.IntN(3)]
	}
	g.InsideAdmission = p.one(3)
	switch p.IntN(5) {
	case 0:
		g.Travel = p.mm(3, 9)
	case 1:
		g.Ports.Steam = p.mm(1, 3)
	case 2:
		w.Bore, w.Speed = p.mm(15, 40), units.RotationalSpeed(math.Round(p.between(200, 900)))*units.RevPerMinute
	default:
		w.Opening = p.mm(0.5, 3)
	}
	if p.one(4) {
		g.Ports.Steam = p.mm(1, 4)
	}
	if p.one(3) {
		g.Ports.Bar, g.Ports.Exhaust = p.mm(1.5, 4), p.mm(2, 8)
	}
	if p.one(6) && !g.Ports.Steam.IsZero() && !g.Ports.Bar.IsZero() {
		g.Ports.CrankSteam, g.Ports.CrankBar = p.mm(1, 4), p.mm(1.5, 4)
	}
	switch p.IntN(4) {
	case 0:
		w.EqualLead = true
	case 1:
		w.EqualCutOff = true
	case 2:
		g.Valve.Offset = p.mm(-0.3, 0.3)
	}
	switch p.IntN(4) {
	case 0:
		w.Compression = hundredth(0.01, 0.3)
	case 1:
		w.ExhaustLap = p.mm(-0.3, 0.6)
	}
	if p.one(4) {
		g.Valve.LostMotion = p.mm(0, 0.3)
	}
	if p.one(6) {
		g.Valve.CavityOffset = p.mm(-0.2, 0.2)
	}
	if p.one(3) {
		w.Step = []units.Length{units.Thou(5), units.MM(0.1), units.MM(0.01), units.MM(1)}[p.IntN(4)]
	}
	return w
}

// wishOn writes a wish on one line.
func wishOn(w Wish) string {
	text := fmt.Sprintf("cut-off %.2f %s lead %.4g", w.CutOff, w.CutOffAt, w.Lead.MM()+0)
	for _, more := range []struct {
		name string
		v    float64
	}{
		{"opening", w.Opening.MM()}, {"exhaust lap", w.ExhaustLap.MM()}, {"compression", w.Compression},
		{"bore", w.Bore.MM()}, {"rev/min", math.Round(w.Speed.In(units.RevPerMinute))}, {"step", w.Step.MM()},
	} {
		if more.v != 0 {
			text += fmt.Sprintf(" %s %.4g", more.name, more.v)
		}
	}
	if w.EqualLead {
		text += " equal leads"
	}
	if w.EqualCutOff {
		text += " equal cut-offs"
	}
	return text + "; " + sizes(w.Gear)
}

// The gears of wishes of all sorts, exact and rounded, with what they reach; how what
// was not given was chosen, each sentence once; and what is said of wishes that no gear
// meets.
func TestDesignsKept(t *testing.T) {
	kept := shelf{had: map[string]bool{}}
	p := newPool(5)
	for range 95 {
		w := p.wish()
		fmt.Fprintf(&kept, "%s\n", wishOn(w))
		exact, rounded, err := Design(w)
		if err != nil {
			fmt.Fprintf(&kept, "  %s\n", strings.ReplaceAll(err.Error(), "\n", "\n  "))
			continue
		}
		for _, d := range []Designed{exact, rounded} {
			g := d.Gear
			fmt.Fprintf(&kept, "  travel %.5g advance %.5g valve %.5g cavity %.5g off %.4g ports %.4g bar %.4g middle %.4g long %.4g;"+
				" cuts off %.5g compresses %.4g lead %.4g opens %.4g exhaust lap %.4g; step %.4g closed %v, %d found\n",
				g.Travel.MM(), g.Advance.Degrees()+0, g.Valve.Length.MM(), g.Valve.Cavity.MM(), kept.clean(g.Valve.Offset),
				g.Ports.Steam.MM(), g.Ports.Bar.MM(), g.Ports.Exhaust.MM(), g.Ports.Length.MM(), d.CutOff, d.Compression,
				kept.clean(d.Lead), d.Opening.MM(), kept.clean(d.ExhaustLap), d.Step.MM(), d.Closed, len(d.Findings))
			for _, f := range d.Chosen {
				text, refs := kept.first(f.Text), kept.first(fmt.Sprintf("%v.", f.Refs))
				if text != "" || refs != "" {
					fmt.Fprintf(&kept, "    %s %s %s: %s (%s)\n", f.Code, f.Severity, f.Where, text, refs)
				}
			}
		}
	}
	check.Kept(t, "eccentric/kept/designs.txt", kept.String())
}

// clean is a length in millimetres of which less than a nanometre is nothing.
func (s *shelf) clean(l units.Length) float64 {
	if l.Abs().Cmp(units.Picometres(1000)) < 0 {
		return 0
	}
	return l.MM()
}
