package eccentric

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Made says which parts of a gear are made already. What is made is altered as a
// workshop can; what is not may still be drawn to any size. The zero value is a gear
// on paper. A chest always counts as made.
type Made struct{ Ports, Valve, Eccentric, Rods bool }

// A Step is one thing that is done to one part.
type Step struct {
	Part   string // "ports", "valve", "eccentric", "rods", "chest", "bearings" or "cylinder"
	Change string // in a few words: "metal off the ends"

	// Amount is by how much: for each end or edge that is altered, of a move towards
	// the crank, of a sheave in its offset, of a new valve in its length or else in its
	// cavity. Zero where Turn says it.
	Amount units.Length
	Turn   units.Angle // of the sheave on the shaft, in the direction of rotation

	Text string // a sentence, with the sizes as they can be set
}

// A Cure is one way of putting a gear right, or of living with it.
type Cure struct {
	Steps  []Step // what is drawn, then what is cut or made, the dearest first, then what is set
	Gear   Gear   // after them, with those sizes
	Events Events // of that gear
	Left   []Finding

	cost  []kind // of the steps, the dearest first
	grade grade
	rank  int // among all that was tried
}

// Severity is that of the gravest finding left; false where Check has nothing to
// say of the gear.
func (c Cure) Severity() (finding.Severity, bool) { return finding.ListOf(c.Left).Worst() }

// String returns the sentences of the steps.
func (c Cure) String() string {
	var texts []string
	for i, s := range c.Steps {
		text := s.Text
		if i > 0 {
			text = "Then " + lowered(text)
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, " ")
}

// Leaves names what is left that is graver than worth knowing, each in a few words;
// none where the gear is then right.
func (c Cure) Leaves() (left []string) {
	for i, f := range c.Left {
		if f.Severity == finding.Note || f.Slip {
			continue
		}
		words := wordsOf(f.Code)
		if f.End != BothEnds {
			both := slices.ContainsFunc(c.Left, func(o Finding) bool { return o.Code == f.Code && o.End == other(f.End) })
			if both && slices.ContainsFunc(c.Left[:i], func(o Finding) bool { return o.Code == f.Code }) {
				continue
			}
			words += " at the " + f.End.String() + " end"
			if both {
				words = strings.TrimSuffix(words, f.End.String()+" end") + "head and the crank end"
			}
		}
		left = append(left, words)
	}
	return left
}

// Restates reports whether nothing is done to the gear but its sizes are stated as
// they are.
func (c Cure) Restates() bool { return len(c.cost) > 0 && c.cost[0] == restate }

// Sets reports whether nothing is made or cut: the sheave is turned on the shaft and the
// valve moved on its rod, or the gear is stated as it is.
func (c Cure) Sets() bool {
	for _, k := range c.cost {
		if k != restate && k != turn && k != move {
			return false
		}
	}
	return len(c.cost) > 0
}

// Right reports whether the cure puts the gear right: nothing is left that costs
// power, and the cut-off is one that a valve has by its lap. With another cure the
// gear is lived with.
func (c Cure) Right() bool { return c.grade.place == right }

// A Salvaged gear is one of which some parts are made, with what may still be done
// to it.
type Salvaged struct {
	Findings []Finding // of the gear as it is
	Events   Events    // of the gear as it is
	Cures    []Cure    // the best of each kind
	Tried    int       // changes and pairs of changes
}

// Salvage returns what may be done to a gear of which some parts are made: to set
// the sheave and the valve, to take metal off the valve's ends or out of its cavity,
// to let strips into them, to pack the bearings or the cylinder, to make the valve,
// the sheave or the eccentric rod anew, to cut the ports wider or the chest longer,
// and to take up lost motion. What is not made is drawn otherwise, at no cost. Where
// no single change puts the gear right, pairs of changes are tried too; after a
// change of lap or travel the advance is set anew.
//
// Each cure has been judged by [Gear.Check] with the sizes that it prints: it takes
// a fault away and brings on none. None asks for less than can be set, 0.05 mm or a
// degree. Sizes as they may have been meant, if they look stated amiss, come first.
// Then come those that leave the ports and the sheave alone, put the gear right, and
// cost least, in this order: setting, metal off, taking up, strips, packing, a new
// valve, a longer chest, wider ports, a new sheave, another rod. Common practice;
// how much is too much is that of Check. A gear with nothing that costs power has no
// cures. It fails only where [Gear.Validate] does. See the Example.
func Salvage(g Gear, made Made) (Salvaged, error) { return salvage(g, made, false) }

// SalvagePlaced is [Salvage] for a gear whose eccentric was given by where it
// stands; see [Gear.CheckPlaced].
func (g Gear) SalvagePlaced(made Made) (Salvaged, error) { return salvage(g, made, true) }

func salvage(g Gear, made Made, placed bool) (Salvaged, error) {
	if err := g.Validate(); err != nil {
		return Salvaged{}, err
	}
	s := newSearch(g, made)
	s.base.judged = g.judgedAs(placed)
	s.run()
	result := Salvaged{Findings: g.check(placed), Cures: s.shortlist(), Tried: s.tried}
	result.Events.set(&s.base.found)
	for i := range result.Cures {
		if err := result.Cures[i].look(); err != nil {
			return Salvaged{}, err
		}
	}
	return result, nil
}

// A grade is how good a gear is after a cure.
type grade struct {
	place        int // right, lived with or not cured
	stops, costs int // findings left
	cutOff       float64
}

const (
	right = iota + 1
	livedWith
	notCured
)

func (g grade) worse(than grade) bool {
	switch {
	case g.place != than.place:
		return g.place > than.place
	case g.stops != than.stops:
		return g.stops > than.stops
	}
	return g.costs > than.costs
}

// A search tries what may be done to one gear.
type search struct {
	gear   Gear
	made   Made
	base   *checker
	before grade // of the gear as it is
	cures  []Cure
	seen   map[Gear]bool
	tried  int
}

func newSearch(g Gear, made Made) *search {
	return &search{gear: g, made: made, base: checking(g), seen: map[Gear]bool{g: true}}
}

// run tries all changes alone, what Check names and, where nothing of that puts the
// gear right, all pairs of changes.
func (s *search) run() {
	if s.base.verdicts.Troubles() == 0 {
		return
	}
	s.before, _ = s.count(&s.base.verdicts)
	for code := range kernel.Faults {
		if s.base.verdicts[code][kernel.Both] > kernel.Worth {
			s.restated(code)
		}
	}
	singles := s.changes(s.gear)
	for rank, g := range singles {
		s.try(g.gear, rank)
	}
	s.base.findings()
	for i, g := range s.base.named {
		s.try(g, len(singles)+i)
	}
	for _, c := range s.cures {
		if c.grade.place == right && c.cost[0] != restate && !c.lastResort() {
			return
		}
	}
	for i, first := range singles {
		if first.family >= ofSetting || first.gear.Validate() != nil {
			continue
		}
		if job := (job{s.gear, s.rounded(first.gear, units.Nearest), s.made}); len(job.ways()) == 0 {
			continue
		}
		for k, second := range s.changes(first.gear) {
			if second.family > first.family {
				s.try(second.gear, len(singles)*(1+i)+k)
			}
		}
	}
}
