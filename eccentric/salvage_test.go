package eccentric

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// spoilt is a gear that is not right: one of any sizes, or a sound one with some of
// them spoilt, as they are on a bench.
func spoilt(t *rapid.T) Gear {
	g := anyGear(t)
	switch rapid.IntRange(0, 5).Draw(t, "sort") {
	case 0:
		g = anyBuilt(t)
	case 1:
	default:
		g = demo()
		f := func(name string, most float64) units.Length {
			return units.Micron(10 * float64(rapid.IntRange(int(-100*most), int(100*most)).Draw(t, name)))
		}
		for range rapid.IntRange(1, 2).Draw(t, "parts spoilt") {
			switch rapid.IntRange(0, 7).Draw(t, "part spoilt") {
			case 0:
				g.Valve.Length = g.Valve.Length.Add(f("valve", 2.5))
			case 1:
				g.Valve.Cavity = g.Valve.Cavity.Add(f("cavity", 3))
			case 2:
				g.Valve.Offset = f("offset", 1)
			case 3:
				g.Ports.CrankSteam = g.Ports.Steam.Add(f("crank steam", 1.6))
			case 4:
				g.Ports.Bar = g.Ports.Bar.Add(f("bar", 1.6))
			case 5:
				g.Travel = g.Travel.Add(f("travel", 3))
			case 6:
				g.Advance += units.Angle(rapid.IntRange(-60, 90).Draw(t, "turned")) * units.Degree
			case 7:
				g.Valve.CavityOffset = f("cavity offset", 1)
			}
		}
	}
	g.Chest = g.Valve.Length.Add(g.Travel).Scale(rapid.SampledFrom([]float64{0, 0, 0.9, 1.1}).Draw(t, "chest"))
	return g
}

func anyMade(t *rapid.T) Made {
	if all := rapid.IntRange(0, 2).Draw(t, "made"); all > 0 {
		return Made{true, true, true, true}
	}
	made := func(part string) bool { return rapid.Bool().Draw(t, part) }
	return Made{Ports: made("ports"), Valve: made("valve"), Eccentric: made("eccentric"), Rods: made("rods")}
}

// Every cure, done with the sizes that its sentences print, leaves no more than it
// says and brings on no fault; and each of its steps can be set.
func TestCuresHelp(t *testing.T) {
	done := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		g := spoilt(t)
		if g.Validate() != nil {
			return
		}
		made := anyMade(t)
		saved, err := Salvage(g, made)
		found := g.Check()
		if rapid.Bool().Draw(t, "placed") {
			saved, err = g.SalvagePlaced(made)
			found = g.CheckPlaced()
		}
		if err != nil {
			t.Fatal(err)
		}
		if fmt.Sprint(saved.Findings) != fmt.Sprint(found) {
			t.Fatalf("salvage found %v, check %v", saved.Findings, found)
		}
		if !slices.IsSortedFunc(saved.Cures, Cure.compare) {
			t.Fatalf("not in order: %v", saved.Cures)
		}
		for i, c := range saved.Cures {
			cureHelps(t, g, saved.Findings, c)
			for _, s := range c.Steps {
				done[s.Change]++
				canBeDone(t, g, made, s)
			}
			for _, before := range saved.Cures[:i] {
				if before.String() == c.String() {
					t.Fatalf("twice: %v", c)
				}
			}
		}
	})
	for _, k := range kinds {
		if done[k.change] == 0 {
			t.Logf("no cure with %q", k.change)
		}
	}
}

func cureHelps(t *rapid.T, g Gear, had []Finding, c Cure) {
	t.Helper()
	after := carryOut(t, g, c)
	left, _ := finding.ListOf(after.Check()).Worst()
	if says, _ := c.Severity(); left > says && !onAnyEdge(after, left) {
		t.Fatalf("%v\nleaves %v, says %v\nof %+v", c, left, says, after)
	}
	if near := close(after, c.Gear); near != "" {
		t.Fatalf("%v\nprints %s of\n%+v\nfor\n%+v", c, near, after, c.Gear)
	}
	for _, f := range c.Left {
		if f.Severity == finding.Note || f.Slip {
			continue
		}
		was := slices.ContainsFunc(had, func(h Finding) bool {
			return h.Code == f.Code && (h.End == f.End || h.End == BothEnds) && h.Severity >= f.Severity
		})
		if ends := 0; !was && f.End == BothEnds {
			for _, h := range had {
				if h.Code == f.Code && h.Severity >= f.Severity {
					ends++
				}
			}
			was = ends == 2
		}
		if !was {
			t.Fatalf("%v\nbrings on %v", c, f)
		}
	}
	sets := !slices.ContainsFunc(c.Steps, func(s Step) bool {
		return !slices.Contains([]string{"stated otherwise", "turned on the shaft", "moved on its rod"}, s.Change)
	})
	if c.Sets() != sets {
		t.Fatalf("%v\nsets: %v", c, c.Sets())
	}
	if restated := c.Steps[0].Change == "stated otherwise"; c.Restates() != restated {
		t.Fatalf("%v\nrestates: %v", c, c.Restates())
	}
	// Leaves has one line for each code that is left, and each end that has it is named.
	codes, said := map[string]bool{}, strings.Join(c.Leaves(), "; ")
	for _, f := range c.Left {
		if f.Severity == finding.Note || f.Slip {
			continue
		}
		codes[string(f.Code)] = true
		if !strings.Contains(said, wordsOf(f.Code)) || f.End != BothEnds && !strings.Contains(said, f.End.String()) {
			t.Fatalf("%v\nleaves %q, not %v", c, said, f)
		}
	}
	if len(c.Leaves()) < len(codes) {
		t.Fatalf("%v\nleaves %q of %v", c, said, codes)
	}
	before, _ := finding.ListOf(had).Worst()
	if says, _ := c.Severity(); says > before {
		t.Fatalf("%v\nleaves %v of %v", c, says, before)
	}
}

// canBeDone wants a step that can be set, of a part that can be altered so.
func canBeDone(t *rapid.T, g Gear, made Made, s Step) {
	t.Helper()
	switch s.Change {
	case "stated otherwise", "drawn otherwise", "lost motion taken up":
	case "turned on the shaft":
		if max(s.Turn, -s.Turn) < leastTurn {
			t.Fatalf("%v by %v", s, s.Turn)
		}
	default:
		if s.Amount.Abs().Cmp(leastMove) < 0 {
			t.Fatalf("%v by %v", s, s.Amount)
		}
	}
	drawn := map[string]bool{"ports": !made.Ports, "valve": !made.Valve, "eccentric": !made.Eccentric, "rods": !made.Rods}
	cut := !slices.Contains([]string{"stated otherwise", "turned on the shaft", "moved on its rod", "lost motion taken up"}, s.Change)
	if drawn[s.Part] && cut != (s.Change == "drawn otherwise") && cut {
		t.Fatalf("%v of a part that is not made", s)
	}
	if s.Change == "drawn otherwise" && !drawn[s.Part] {
		t.Fatalf("%v of a part that is made", s)
	}
}

// carryOut does to a gear what the sentences of a cure say, with the sizes that they
// print.
func carryOut(t *rapid.T, g Gear, c Cure) Gear {
	t.Helper()
	text := ""
	lengths := func(pattern string) (all []units.Length, words []string) {
		m := regexp.MustCompile(pattern).FindStringSubmatch(text)
		if m == nil {
			return nil, nil
		}
		for _, number := range m[1:] {
			if l, err := units.ParseLength(number + " mm"); err == nil {
				all = append(all, l)
			} else {
				words = append(words, number)
			}
		}
		return all, words
	}
	const size = `(-?[\d.]+) mm \([^)]*\)`
	towards := func(l units.Length, way string) units.Length {
		if way == "towards" {
			return l
		}
		return l.Neg()
	}
	edges := g.valveEdges()
	alter := func(where string, outer bool, by units.Length) {
		which := map[string][]int{"each end": {outerHead, outerCrank}, "the head end": {outerHead}, "the crank end": {outerCrank}}[where]
		if !outer {
			which = map[string][]int{"each end": {innerHead, innerCrank}, "the head end": {innerHead}, "the crank end": {innerCrank}}[where]
		}
		for _, i := range which {
			edges[i] = edges[i].Add(by.Scale(float64(grows[i])))
		}
	}
	for _, s := range c.Steps {
		text = s.Text
		for _, way := range []struct {
			pattern string
			outer   bool
			sign    float64
		}{
			{`^Take ` + size + ` off (each end|the \w+ end) of the valve,`, true, -1},
			{`^Let strips into this valve, ` + size + ` at (each end|the \w+ end), to make it`, true, 1},
			{`^Take ` + size + ` out of (each end|the \w+ end) of the valve's `, false, 1},
			{`^Let strips into this valve, ` + size + ` at (each end|the \w+ end) of its `, false, -1},
		} {
			if by, where := lengths(way.pattern); by != nil {
				alter(where[0], way.outer, by[0].Scale(way.sign))
				g.setValve(edges)
			}
		}
		if by, way := lengths(`^Move the valve ` + size + ` (towards|away from) the crank`); by != nil {
			for i := range edges {
				edges[i] = edges[i].Add(towards(by[0], way[0]))
			}
			g.setValve(edges)
		}
		if by, _ := lengths(`^Put ` + size + ` of packing under`); by != nil {
			g.Valve.Offset = g.Valve.Offset.Sub(by[0])
		}
		if by, _ := lengths(`^Put ` + size + ` of packing between`); by != nil {
			g.Valve.Offset = g.Valve.Offset.Add(by[0])
		}
		if sizes, _ := lengths(`valve[^.]* ` + size + ` long over its outer edges, with (?:a cavity of )?` + size); sizes != nil {
			v := Valve{Length: sizes[0], Cavity: sizes[1], Offset: g.Valve.Offset, LostMotion: g.Valve.LostMotion}
			if off, way := lengths(`the middle of that ` + size + ` (towards|away from) the crank`); off != nil {
				v.CavityOffset = towards(off[0], way[0])
			}
			g.Valve = v
			edges = g.valveEdges()
		}
		if offset, _ := lengths(`sheave[^.]* offset by ` + size); offset != nil {
			g.Travel = offset[0].Scale(2 * g.leverage())
		}
		if by, _ := lengths(`^Make the eccentric rod ` + size + ` (?:longer|shorter), which`); by != nil {
			if strings.Contains(text, "shorter, which") {
				by[0] = by[0].Neg()
			}
			longer, err := g.Altered(Alteration{EccentricRod: by[0]})
			if err != nil {
				t.Fatal(err)
			}
			g = longer
			edges = g.valveEdges()
		}
		if l, _ := lengths(`^Draw the eccentric rod, which is not made yet, ` + size); l != nil {
			g.EccentricRod = RodOf(l[0])
		}
		if m := regexp.MustCompile(`(?:\(advance|state the advance as) (-?[\d.]+) deg`).FindStringSubmatch(text); m != nil {
			a, err := units.ParseAngle(m[1] + " deg")
			if err != nil {
				t.Fatal(err)
			}
			g.Advance = a
		}
		if m := regexp.MustCompile(`give its place as (-?[\d.]+) deg`).FindStringSubmatch(text); m != nil {
			a, err := units.ParseAngle(m[1] + " deg")
			if err != nil {
				t.Fatal(err)
			}
			if g, err = g.WithEccentricAt(a); err != nil {
				t.Fatal(err)
			}
		}
		if l, _ := lengths(`if it is ` + size + `, cut nothing`); l != nil {
			g.Travel = l[0]
		}
		if l, _ := lengths(`so that it is ` + size + ` long inside`); l != nil {
			g.Chest = l[0]
		}
		if s.Change == "lost motion taken up" {
			g.Valve.LostMotion = units.Length{}
		}
		if s.Part == "ports" { // drawn in full, or cut at an edge, whose sizes stand in the gear to a hundredth
			g.Ports = c.Gear.Ports
		}
	}
	return g
}

// close names a size that two gears do not share to a hundredth of a millimetre.
func close(a, b Gear) string {
	for _, s := range []struct {
		name string
		a, b units.Length
	}{
		{"valve", a.Valve.Length, b.Valve.Length}, {"cavity", a.Valve.Cavity, b.Valve.Cavity},
		{"offset", a.Valve.Offset, b.Valve.Offset}, {"cavity offset", a.Valve.CavityOffset, b.Valve.CavityOffset},
		{"travel", a.Travel, b.Travel}, {"chest", a.Chest, b.Chest}, {"lost motion", a.Valve.LostMotion, b.Valve.LostMotion},
	} {
		if s.a.Sub(s.b).Abs().Cmp(units.Micron(11)) > 0 {
			return s.name
		}
	}
	if by := inTurn(a.Advance - b.Advance); max(by, -by) > 0.06*units.Degree {
		return "advance"
	}
	return ""
}

// onAnyEdge reports whether what is left so gravely is a matter of a thou.
func onAnyEdge(g Gear, severity finding.Severity) bool {
	for _, f := range g.Check() {
		if f.Severity == severity && !onTheEdge(g, f, finding.Note) {
			return false
		}
	}
	return true
}

// What Check names for something that fails is tried with nothing made, and is a
// cure unless the leads that Check leaves to be set cannot be set with it.
func TestRemediesAreCures(t *testing.T) {
	cures, left := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		g := spoilt(t)
		if g.Validate() != nil {
			return
		}
		s := newSearch(g, Made{})
		s.run()
		for _, f := range g.Check() {
			if f.Severity != finding.Fails || f.Slip {
				continue
			}
			for _, remedy := range f.Remedies {
				if strings.Contains(remedy, "brings on") || remedy == designAnew || strings.HasPrefix(remedy, "Or run the engine") {
					continue
				}
				if reachable(t, s, f, follow(t, g, remedy), remedy) {
					cures++
				} else {
					left++
				}
			}
		}
	})
	if !testing.Short() && (cures == 0 || left*4 > cures) {
		t.Errorf("%d remedies are cures, and %d leave the leads", cures, left)
	}
}

func reachable(t *rapid.T, s *search, f Finding, to Gear, remedy string) bool {
	t.Helper()
	tried := 0
	for g := range s.seen {
		same := true
		for _, pair := range [][2]units.Length{
			{g.Valve.Length, to.Valve.Length}, {g.Valve.Cavity, to.Valve.Cavity}, {g.Travel, to.Travel},
			{g.Ports.Exhaust, to.Ports.Exhaust}, {g.Ports.Bar, to.Ports.Bar},
		} {
			same = same && pair[0].Sub(pair[1]).Abs().Cmp(units.Micron(120)) < 0 // some thou, each rounded
		}
		if !same || g == s.gear {
			continue
		}
		tried++
		if still, ok := find(g.Check(), f.Code, f.End); ok && still.Severity != finding.Note {
			continue
		}
		if slices.ContainsFunc(s.cures, func(c Cure) bool { return c.Gear == g }) {
			return true
		}
	}
	if tried == 0 || !strings.Contains(remedy, "advance") {
		t.Fatalf("%v\nremedy %q\nis no cure of %+v\nto %+v, tried %d", f.Text, remedy, s.gear, to, tried)
	}
	return false
}

// A pair is searched for only where no single change does; a gear whose ends differ
// takes longest.
func BenchmarkSalvage(b *testing.B) {
	made := Made{true, true, true, true}
	for name, spoil := range map[string]func(*Gear){
		"single": func(g *Gear) { g.Valve.Length = units.MM(17.4) },
		"pairs":  func(g *Gear) { g.Ports.Steam = units.MM(3.5875) },
		"ends":   func(g *Gear) { g.Ports.CrankSteam = units.MM(3.5875) },
	} {
		b.Run(name, func(b *testing.B) {
			g := demo()
			spoil(&g)
			for b.Loop() {
				if saved, err := Salvage(g, made); err != nil || len(saved.Cures) == 0 {
					b.Fatal(saved, err)
				}
			}
		})
	}
}
