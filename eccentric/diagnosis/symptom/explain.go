package symptom

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// asDrawn is the name of the answer that nothing is wrong.
const asDrawn = "as_drawn"

const fail = fault.Package("symptom")

// A Case is an engine and what its builder has met.
type Case struct {
	Running  indicator.Running // as drawn, with what it is tried on
	Symptoms []Symptom         // each once, at least one

	// Readings are what package diagnosis makes of readings, of the same gear; nil: none
	// have been taken.
	Readings *diagnosis.Diagnosis
}

// An Explained is a fault and how well it shows the symptoms.
type Explained struct {
	Fault string        `json:"fault"`           // such as "advance", a name of package diagnosis, or "valve_leaks"
	End   eccentric.End `json:"end"`             // with which it fits best; both where it has none
	Way   string        `json:"way,omitempty"`   // the same: "too little"
	Fits  float64       `json:"fits"`            // 0 to 1: how surely it shows each symptom, the geometric mean of all
	Share float64       `json:"probability"`     // of all faults together, by symptoms and readings; all alike before
	Lacks []Symptom     `json:"lacks,omitempty"` // of what was told, what it hardly shows
	Also  []Symptom     `json:"also,omitempty"`  // what it would show besides, as good as surely

	Text string      `json:"text"`          // a sentence
	Cure string      `json:"cure"`          // the same; blank where there is nothing to cure
	Test Test        `json:"test,omitzero"` // the cheapest that tells it from the first, or the first from the second
	Refs source.Refs `json:"sources,omitzero"`
}

// An Explanation is what may be wrong with an engine by its symptoms.
type Explanation struct {
	Causes      []Explained          `json:"causes"` // all of the catalogue, the best explanation first
	Findings    finding.List         `json:"findings"`
	Precautions []finding.Precaution `json:"precautions"`
}

// What counts as shown, and what is left of a symptom that a fault does not show, as
// the builder may be mistaken: our own.
const (
	surely = 0.6
	hardly = 0.2
	least  = 0.03
)

// Validate reports what is wrong with a case, as [*units.ArgumentError] joined.
func (c Case) Validate() error {
	if err := c.Running.Validate(); err != nil {
		return err
	}
	if len(c.Symptoms) == 0 {
		return fail.Missing("symptoms", "one or more of "+strings.Join(symptomNames.Texts[1:], ", "))
	}
	for i, s := range c.Symptoms {
		if !slices.Contains(Symptoms(), s) {
			return fail.Unknown("symptom", s, strings.Join(symptomNames.Texts[1:], ", "))
		}
		if slices.Contains(c.Symptoms[:i], s) {
			return fail.Wrong("symptoms", s, "it is told twice", "each symptom once")
		}
	}
	return c.contradictions()
}

// contradictions reports symptoms that no engine shows together, and a diagnosis that is
// none.
func (c Case) contradictions() error {
	for i, a := range c.Symptoms {
		for _, b := range c.Symptoms[:i] {
			if exclude(a, b) {
				return fail.Wrong("symptoms", a, fmt.Sprintf("no engine %q and %q at once", b.String(), a.String()),
					"one of the two: what it does now, and \"ran well before\" where it did run")
			}
		}
	}
	if c.Readings != nil && len(c.Readings.Suspects) == 0 {
		return fail.Missing("suspects of the readings", "what Case.Diagnose of package diagnosis returns")
	}
	return nil
}

// exclude reports whether one of two symptoms is of an engine that does not turn and
// the other of one that does, or one of everywhere and the other of some places.
func exclude(a, b Symptom) bool {
	return a.still() && b.turning() || b.still() && a.turning() || a != b && a.hisses() && b.hisses()
}

func (s Symptom) hisses() bool { return s == HissesStanding || s == HissesInPlaces }

func (s Symptom) still() bool { return s == WillNotTurn || s == JerksOnly }

func (s Symptom) turning() bool {
	switch s {
	case WrongWay, OneWayOnly, NeedsAPush, StopsAtCentre, BeatsUneven, BeatsChange, Weak, WeakAtSpeed, UsesMuch,
		StopsWarm, NotOnSteam:
		return true
	}
	return false
}

// Explain returns the faults of the catalogue, ranked by how well each shows the
// symptoms:
//
//	fits = (mean over the sizes of a fault of the product over the symptoms of shown)^(1/n)
//
//	shown  how surely it shows a symptom, by the cycle or by what is written of it, 0.03 to 1
//	n      symptoms told
//
// With readings they are ranked by what both say together: the share of a fault of the
// gear is in proportion to its probability by the readings times the product, that of
// any other fault to the probability that the gear is as drawn, divided evenly; a fault
// of which the readings are sure counts as no worse shown than any other. Of faults
// that are as good, what shows the least besides is named first, then what is the least
// work to look at. What decides whether something is shown is our own, wide figures
// (testdata/.../README.md), and no frequency of faults is known: it ranks, and is never
// sure. It fails only where [Case.Validate] does. See the Example.
func (c Case) Explain() (Explanation, error) {
	if err := c.Validate(); err != nil {
		return Explanation{}, err
	}
	x := newExplainer(&c)
	return x.explain(), nil
}

// A candidate is a fault with what it shows.
type candidate struct {
	suspect
	shown   [symptomCount]float64 // in the size that fits best
	best    state
	weight  float64 // mean over the sizes of the product over the symptoms
	prior   float64 // before the symptoms
	share   float64 // after them
	besides float64 // what it would show and was not told
	refs    source.Refs
}

type explainer struct {
	c      *Case
	p      *player
	drawn  outcome
	number int // of cylinders
	done   map[state]outcome
}

func newExplainer(c *Case) *explainer {
	x := &explainer{c: c, p: newPlayer(&c.Running), number: c.Running.Cylinders(), done: map[state]outcome{}}
	x.drawn = x.outcome(&state{gear: c.Running.Gear})
	return x
}

// outcome runs a state all three ways; what only rubs does the same as what does not.
func (x *explainer) outcome(s *state) outcome {
	forwards := *s
	forwards.friction = 0
	o, done := x.done[forwards]
	if !done {
		backwards := forwards
		backwards.gear = turned(s.gear)
		o = outcome{
			slow: x.p.play(&forwards, slowly), fast: x.p.play(&forwards, atSpeed), back: x.p.play(&backwards, workAlone),
		}
		if slices.Contains(x.c.Symptoms, WrongWay) {
			o.against = &[2]*turn{x.p.play(&backwards, slowly), x.p.play(&backwards, atSpeed)}
		}
		x.done[forwards] = o
	}
	o.friction = 1 + s.friction
	return o
}

func (x *explainer) explain() Explanation {
	all := slices.Concat(x.measured(), x.slipped(worn(x.c.Running.Gear)))
	var found []candidate
	for i := range all {
		found = append(found, x.candidate(&all[i]))
	}
	found = x.oneEach(found)
	x.weigh(found)
	x.rank(found)
	var e Explanation
	for i := range found {
		against := 0
		if i == 0 {
			against = 1
		}
		e.Causes = append(e.Causes, x.told(&found[i], &found[against]))
	}
	e.Findings, e.Precautions = append(x.findings(e.Causes), x.besides(e.Causes)...), Precautions()
	e.Findings.Sort()
	return e
}

// measured are the faults of the gear, those that readings name in the size that they
// give.
func (x *explainer) measured() []suspect {
	all := misplaced(x.c.Running.Gear)
	if x.c.Readings == nil {
		return all
	}
	var sized []suspect
	for _, s := range x.c.Readings.Suspects {
		if s.Also == nil && s.Fault != diagnosis.AsDrawn && s.Probability >= hardly/10 && s.Gear.Validate() == nil {
			sized = append(sized, suspect{
				fault: s.Fault.String(), end: s.End, way: way(&s.Part), gear: true, cause: causeOf(s.Fault.String()),
				sizes: []state{{gear: s.Gear}},
			})
		}
	}
	all = slices.DeleteFunc(all, func(a suspect) bool {
		return slices.ContainsFunc(sized, func(s suspect) bool { return s.fault == a.fault })
	})
	return append(all, sized...)
}

// slipped gives what is loose the place that readings found, where they found one.
func (x *explainer) slipped(all []suspect) []suspect {
	if x.c.Readings == nil {
		return all
	}
	for _, l := range comesFrom {
		i := slices.IndexFunc(all, func(s suspect) bool { return s.fault == l.loose })
		for _, s := range x.c.Readings.Suspects { // the most probable first
			single := s.Also == nil && s.Probability >= hardly && s.Gear.Validate() == nil
			if single && slices.Contains(l.faults, s.Fault.String()) {
				all[i].sizes = []state{{gear: s.Gear}}
				break
			}
		}
	}
	return all
}

// candidate runs a suspect in all its sizes.
func (x *explainer) candidate(s *suspect) candidate {
	c := candidate{suspect: *s, prior: 1}
	by, refs := written(s.fault)
	c.refs = s.cause.refs.With(refs)
	most := -1.0
	for i := range s.sizes {
		o := x.outcome(&s.sizes[i])
		shown := shows(&o, &x.drawn, x.number)
		product := 1.0
		for j := range shown {
			shown[j] = max(shown[j], by[j])
		}
		for _, told := range x.c.Symptoms {
			product *= max(least, shown[told])
		}
		c.weight += product / float64(len(s.sizes))
		if product > most {
			most, c.best, c.shown = product, s.sizes[i], shown
		}
	}
	for _, s := range Symptoms() {
		if !slices.Contains(x.c.Symptoms, s) {
			c.besides += c.shown[s]
		}
	}
	return c
}

// oneEach leaves of each fault the end and the way that fit best.
func (x *explainer) oneEach(all []candidate) (one []candidate) {
	for _, c := range all {
		i := slices.IndexFunc(one, func(o candidate) bool { return o.fault == c.fault })
		switch {
		case i < 0:
			one = append(one, c)
		case c.weight > one[i].weight:
			one[i] = c
		}
	}
	return one
}

// comesFrom are the faults of the gear that something loose makes: readings that show
// one speak for the other.
var comesFrom = []struct {
	loose  string
	faults []string
}{
	{"sheave_loose", []string{"advance", "eccentric_other_hand", "eccentric_opposite", "eccentric_in_line", "eccentric_no_advance"}},
	{"stop_collar", []string{"advance"}},
	{"valve_nut_loose", []string{"valve_off_centre", "lost_motion"}},
	{"strap_loose", []string{"lost_motion"}},
}

// weigh sets what each fault is worth before the symptoms: alike, or what the readings
// make of it.
func (x *explainer) weigh(all []candidate) {
	if x.c.Readings == nil {
		return
	}
	byReading := func(fault string) (p float64) {
		for _, s := range x.c.Readings.Suspects {
			if s.Fault.String() == fault || s.Also != nil && s.Also.Fault.String() == fault {
				p += s.Probability
			}
		}
		return p
	}
	others := 1
	for i := range all {
		if !all[i].gear {
			others++
		}
	}
	sound := byReading(asDrawn) / float64(others)
	for i := range all {
		c := &all[i]
		switch {
		case c.fault == asDrawn:
			c.prior = sound
		case c.gear:
			c.prior = byReading(c.fault)
		default:
			c.prior = sound
			for _, l := range comesFrom {
				if l.loose == c.fault {
					for _, made := range l.faults {
						c.prior += byReading(made) / 2
					}
				}
			}
		}
	}
}

// surelyOf returns the faults of which the readings are sure: one, or those of the
// sheave where it is sure and its place is not; none as the drawing has it.
func (x *explainer) surelyOf() []string {
	if x.c.Readings == nil {
		return nil
	}
	v := x.c.Readings.Suspects[0]
	switch {
	case !v.Sure || v.Also != nil || v.Fault == diagnosis.AsDrawn:
		return nil
	case x.c.Readings.Next != nil && slices.Contains(comesFrom[0].faults, v.Fault.String()):
		return comesFrom[0].faults
	}
	return []string{v.Fault.String()}
}

// rank sorts, the best explanation first. Symptoms do not speak against a fault of which
// the readings are sure: they may come of another besides.
func (x *explainer) rank(all []candidate) {
	sure, raise := x.surelyOf(), 1.0
	if len(sure) > 0 {
		best, bestSure := 0.0, 0.0
		for i := range all {
			best = max(best, all[i].weight)
			if slices.Contains(sure, all[i].fault) {
				bestSure = max(bestSure, all[i].weight)
			}
		}
		if bestSure > 0 {
			raise = best / bestSure
		}
	}
	worth := func(c *candidate) float64 {
		if slices.Contains(sure, c.fault) {
			return c.prior * c.weight * raise
		}
		return c.prior * c.weight
	}
	slices.SortFunc(all, func(a, b candidate) int {
		const alike = 0.05 // of the logarithm, within which nobody can tell
		x, y := math.Round(math.Log(worth(&a)+1e-12)/alike), math.Round(math.Log(worth(&b)+1e-12)/alike)
		return cmp.Or(cmp.Compare(y, x), cmp.Compare(a.made(), b.made()), cmp.Compare(a.besides, b.besides),
			cmp.Compare(a.listed(), b.listed()))
	})
	sum := 0.0
	for i := range all {
		sum += worth(&all[i])
	}
	for i := range all {
		if c := &all[i]; sum > 0 {
			c.share = worth(c) / sum
		}
	}
}

// made is 0 of the drawing itself, which is named before what is as good, and else 1.
func (c *candidate) made() int {
	if c.fault == asDrawn {
		return 0
	}
	return 1
}

// listed is the place of a fault in the tables, those of the gear first.
func (c *candidate) listed() int {
	if c.gear {
		return c.cause.order
	}
	return len(gearTable.Rows()) + c.cause.order
}

// text says a fault in a sentence, and which way it fits best where it has several.
func (c *candidate) text() string {
	if c.way == "" && c.end == eccentric.BothEnds {
		return c.cause.text
	}
	return c.cause.text + " It fits best as " + c.name() + "."
}

// cure says what cures a fault, for a sheave that is out of its place with the place.
func (x *explainer) cure(c *candidate) string {
	switch c.fault {
	case "eccentric_other_hand", "eccentric_opposite", "eccentric_in_line", "eccentric_no_advance":
		return c.cause.cure + " As drawn its widest part stands " + ahead(x.c.Running.Gear.EccentricLead().Degrees()) +
			", in the direction of rotation."
	}
	return c.cause.cure
}

// told is what is said of a fault.
func (x *explainer) told(c, against *candidate) Explained {
	e := Explained{
		Fault: c.fault, End: c.end, Way: c.way, Fits: math.Pow(c.weight, 1/float64(len(x.c.Symptoms))), Share: c.share,
		Text: c.text(), Cure: x.cure(c), Refs: c.refs, Test: x.tellApart(c, against),
	}
	for _, s := range Symptoms() {
		switch told := slices.Contains(x.c.Symptoms, s); {
		case told && c.shown[s] < hardly:
			e.Lacks = append(e.Lacks, s)
		case !told && c.shown[s] >= surely && s != OneWayOnly:
			e.Also = append(e.Also, s)
		}
	}
	return e
}
