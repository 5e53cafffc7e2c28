package eccentric

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// A pool draws gears of all sorts, in whole microns, always the same ones.
type pool struct{ *rand.Rand }

func newPool(seed uint64) pool { return pool{rand.New(rand.NewPCG(seed, 1))} }

func (p pool) between(low, high float64) float64 { return low + (high-low)*p.Float64() }

func (p pool) mm(low, high float64) units.Length {
	return units.Micron(math.Round(1000 * p.between(low, high)))
}

func (p pool) one(of int) bool { return p.IntN(of) == 0 }

// gear is the demonstration or its piston valve with a few sizes spoilt, or a gear
// of any sizes.
func (p pool) gear() Gear {
	g := demo()
	switch p.IntN(8) {
	case 0, 1:
		g = p.any()
	case 2, 3:
		g.InsideAdmission, g.Valve = true, Valve{Length: units.MM(13), Cavity: units.MM(6.6)}
	}
	if p.one(4) {
		g.LeverRatio = []float64{-1, 1.25, -0.8, -2}[p.IntN(4)]
	}
	if p.one(8) {
		g.EccentricRod = InfiniteRod()
	}
	if p.one(8) {
		g.ConnectingRod = InfiniteRod()
	}
	for range p.IntN(4) {
		p.spoil(&g)
	}
	if p.one(4) {
		g.Chest = g.Valve.Length.Add(g.Travel).Add(p.mm(-1, 1.5))
	}
	return g
}

func (p pool) any() Gear {
	g := Gear{
		Stroke: units.MM(25), ConnectingRod: RodOf(p.mm(30, 120)), Travel: p.mm(2, 12),
		Advance: units.Angle(math.Round(p.between(-180, 180))) * units.Degree,
		Ports:   Ports{Steam: p.mm(0.5, 5), Bar: p.mm(0.5, 5), Exhaust: p.mm(1, 8)},
	}
	g.EccentricRod = RodOf(g.Travel.Scale(p.between(2, 15)))
	r := g.Travel.MM() / 2
	g.Valve = g.Ports.ValveWith(Laps{p.mm(-0.2*r, 0.95*r), p.mm(-0.2*r, 0.6*r)})
	g.InsideAdmission = p.one(3)
	return g
}

// spoil makes one size of a gear another.
func (p pool) spoil(g *Gear) {
	add := func(l *units.Length, by units.Length) { *l = l.Add(by) }
	switch p.IntN(14) {
	case 0:
		add(&g.Valve.Length, p.mm(-2.5, 2.5))
	case 1:
		add(&g.Valve.Cavity, p.mm(-4, 3))
	case 2:
		add(&g.Valve.Offset, p.mm(-1, 1))
	case 3:
		g.Ports.CrankSteam = g.Ports.Steam.Add(p.mm(-0.4, 0.8))
	case 4:
		add(&g.Ports.Bar, p.mm(-1.6, 1))
	case 5:
		add(&g.Travel, p.mm(-3, 3))
	case 6:
		g.Travel = g.Travel.Scale([]float64{0.5, 2, 1.5}[p.IntN(3)])
	case 7:
		g.Advance += units.Angle(math.Round(p.between(-60, 90))) * units.Degree
	case 8:
		g.Advance = []units.Angle{-g.Advance, halfTurn / 2, -halfTurn / 2, halfTurn - g.Advance, g.Advance - halfTurn,
			g.Advance + halfTurn/2, halfTurn/2 - g.Advance, 0}[p.IntN(8)]
	case 9:
		add(&g.Valve.CavityOffset, p.mm(-1, 1))
	case 10:
		add(&g.Valve.LostMotion, p.mm(0, 1))
	case 11:
		add(&g.Ports.Exhaust, p.mm(-2.5, 0.5))
	case 12:
		g.Ports.CrankBar = g.Ports.Bar.Add(p.mm(-1, 1))
	case 13:
		if set, err := g.WithLead(p.mm(-0.3, 0.5), BothEnds); err == nil {
			*g = set
		}
	}
}

// sizes writes a gear on one line.
func sizes(g Gear) string {
	mm := func(l units.Length) string { return fmt.Sprintf("%.5g", l.MM()+0) }
	rod := func(r Rod) string {
		if r.Infinite() {
			return "infinite"
		}
		return mm(r.length)
	}
	p, v := g.Ports, g.Valve
	text := fmt.Sprintf("stroke %s rod %s travel %s rod %s advance %.5g ports %s bar %s middle %s valve %s cavity %s",
		mm(g.Stroke), rod(g.ConnectingRod), mm(g.Travel), rod(g.EccentricRod), g.Advance.Degrees()+0,
		mm(p.Steam), mm(p.Bar), mm(p.Exhaust), mm(v.Length), mm(v.Cavity))
	for _, more := range []struct {
		name string
		size units.Length
	}{
		{"crank port", p.CrankSteam}, {"crank bar", p.CrankBar}, {"off", v.Offset}, {"cavity off", v.CavityOffset},
		{"play", v.LostMotion}, {"chest", g.Chest},
	} {
		if !more.size.IsZero() {
			text += " " + more.name + " " + mm(more.size)
		}
	}
	if g.LeverRatio != 0 {
		text += fmt.Sprintf(" lever %g", g.LeverRatio)
	}
	if g.InsideAdmission {
		text += " inside"
	}
	return text
}

var (
	figures   = regexp.MustCompile(`-?[\d.]*\d|\b(head|crank)\b( end| port)|(towards|away from)|brings on .*`)
	sentences = regexp.MustCompile(`[.] [A-Z]`)
)

// A shelf keeps of sentences that differ in their figures alone the first.
type shelf struct {
	strings.Builder
	had map[string]bool
}

// first returns those sentences of a text that are the first of their kind.
func (s *shelf) first(text string) string {
	var all []string
	from := 0
	for _, at := range append(sentences.FindAllStringIndex(text, -1), []int{len(text) - 1, len(text)}) {
		sentence := text[from : at[0]+1]
		from = min(at[0]+2, len(text))
		if key := figures.ReplaceAllString(sentence, "#"); !s.had[key] {
			s.had[key] = true
			all = append(all, sentence)
		}
	}
	return strings.Join(all, " ")
}

// What Check says, each sentence of it once, with the gear that it is said of, and
// how often each finding comes among all the gears of the pool.
func TestFindingsKept(t *testing.T) {
	kept := shelf{had: map[string]bool{}}
	type sum struct {
		n, remedies   int
		amount, angle float64
	}
	sums := map[string]*sum{}
	p := newPool(1)
	for range 1000 {
		g, placed := p.gear(), p.one(4)
		all := g.check(placed)
		if all == nil || all[0].Code == NotAGear {
			continue
		}
		told := ""
		for _, f := range all {
			name := fmt.Sprintf("%s %s %s", f.Code, f.Severity, f.End)
			if sums[name] == nil {
				sums[name] = &sum{}
			}
			s := sums[name]
			s.n++
			s.remedies += len(f.Remedies)
			s.amount += f.Amount.MM()
			s.angle += f.Arc.Degrees()
			said := kept.first(f.Text)
			for _, r := range f.Remedies {
				if r = kept.first(r); r != "" {
					said += "\n    - " + r
				}
			}
			if refs := kept.first(fmt.Sprintf("%s %v.", f.Code, f.Refs)); refs != "" && !f.Refs.IsZero() {
				said += "\n    " + refs
			}
			if said != "" {
				told += fmt.Sprintf("  %s %.4g mm %.4g deg: %s\n", name, f.Amount.MM(), f.Arc.Degrees()+0, said)
			}
		}
		if told != "" {
			fmt.Fprintf(&kept, "%s\n%s", sizes(g), told)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(sums)) {
		s := sums[name]
		fmt.Fprintf(&kept, "%s: %d, %d remedies, %.4g mm, %.4g deg\n", name, s.n, s.remedies, s.amount, s.angle+0)
	}
	check.Kept(t, "eccentric/kept/findings.txt", kept.String())
}
