package eccentric

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What is printed has its figures, each by the name of its field.
func TestPrinted(t *testing.T) {
	g := demo()
	laps := g.Laps()
	open, err := g.OpeningsAt(units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	saved, err := Salvage(g, Made{Ports: true})
	if err != nil {
		t.Fatal(err)
	}
	exact, _, err := Design(Wish{CutOff: 0.75, Opening: units.MM(2), Gear: Gear{
		Stroke: units.MM(25), ConnectingRod: InfiniteRod(), EccentricRod: InfiniteRod(),
	}})
	if err != nil {
		t.Fatal(err)
	}
	for want, text := range map[string]string{
		"shims 0.3 mm": Alteration{Shims: units.MM(0.3)}.String(), "head 0.4 mm": Clearance{Head: units.MM(0.4)}.String(),
		"steam 1.2 mm": laps.String(), "ports yes": Made{Ports: true}.String(), "steam 0.": open.String(), "25 mm": room().String(),
		"travel 6.4 mm": g.String(), "cut off 0.75": exact.String(), "length 15.4 mm": g.Valve.String(),
		"head": events(t, g).String(), "min 4.5 mm": g.Sweep().String(), "turn it": Step{Text: "turn it"}.String(), "crank": saved.String(),
	} {
		if !strings.Contains(strings.ToLower(text), want) {
			t.Errorf("%q is not in %s", want, text)
		}
	}
	if all := Ends(); len(all) != 3 || all[0] != BothEnds || all[1] != HeadEnd || all[2] != CrankEnd {
		t.Errorf("%v", all)
	}
	if all := PortStates(); len(all) != 3 || all[0] != OpensAndCloses || all[1] != NeverOpens || all[2] != NeverCloses {
		t.Errorf("%v", all)
	}
	if all := Precautions(); len(all) != 1 || all[0].Code != BlockTheWheel || !strings.Contains(all[0].Text, "block the flywheel first") ||
		all[0].Ref == (source.Ref{}) {
		t.Errorf("%v", all)
	}
	if wordsOf(LateSteam) != "late steam" || wordsOf("no-such") != "no-such" {
		t.Errorf("%s %s", wordsOf(LateSteam), wordsOf("no-such"))
	}
	if severities[1] != finding.Note || severities[2] != finding.Caution || severities[3] != finding.Fails {
		t.Errorf("%v", severities)
	}
}

// Grades, costs and shares by which cures are put in order, by hand.
func TestOrderOfCures(t *testing.T) {
	for _, test := range []struct {
		a, b  grade
		worse bool
	}{
		{grade{place: right}, grade{place: right}, false}, {grade{place: livedWith}, grade{place: right}, true},
		{grade{place: right, stops: 3}, grade{place: notCured}, false}, {grade{place: notCured, stops: 2}, grade{place: notCured, stops: 1}, true},
		{grade{place: notCured, stops: 1, costs: 9}, grade{place: notCured, stops: 2}, false},
		{grade{place: notCured, costs: 2}, grade{place: notCured, costs: 1}, true}, {grade{place: notCured, costs: 1}, grade{place: notCured, costs: 1}, false},
	} {
		if got := test.a.worse(test.b); got != test.worse {
			t.Errorf("%v worse than %v: %v", test.a, test.b, got)
		}
	}
	for _, test := range []struct {
		a, b []kind
		want int
	}{
		{[]kind{turn}, []kind{move}, -1}, {[]kind{metalOut}, []kind{metalOff}, 0}, {[]kind{stripsIn}, []kind{stripsEnds}, 0},
		{[]kind{newValve}, []kind{metalOff, turn}, 1}, {[]kind{metalOff}, []kind{metalOff, turn}, -1}, {nil, nil, 0},
	} {
		if got := compareCosts(test.a, test.b); got != test.want {
			t.Errorf("%v and %v: %d", test.a, test.b, got)
		}
	}
	// Drawn first, then cut or made, the dearest first, then moved and turned.
	order := []kind{restate, draw, newRod, newSheave, widePorts, longChest, newValve, packing, stripsIn, stripsEnds, takeUp, metalOut,
		metalOff, move, turn}
	for i, k := range order[2:] {
		if before := order[i+1]; before.turnOf() > k.turnOf() || i > 0 && before.turnOf() == k.turnOf() {
			t.Errorf("%s at %d, %s at %d", kinds[before].change, before.turnOf(), kinds[k].change, k.turnOf())
		}
	}
	for mean, want := range map[float64]float64{0.5: 2./3 - 0.5, 2. / 3: 0, 0.8: 0, 0.98: 0, 0.99: 0.01} {
		near(t, "strays", strays(mean), want, 1e-12)
	}
	for cutOff, want := range map[float64]bool{0.69: false, 0.7: true, 0.8: true, 0.92: true, 0.93: false} {
		if got := (Cure{grade: grade{cutOff: cutOff}}).usualCutOff(); got != want {
			t.Errorf("a cut-off of %v is usual: %v", cutOff, got)
		}
	}
	at := func(cutOff float64) Cure { return Cure{grade: grade{cutOff: cutOff}} }
	for _, test := range []struct {
		a, b float64
		want bool
	}{{0.81, 0.75, true}, {0.81, 0.77, false}, {0.81, 0.87, true}, {0.75, 0.81, false}, {0.78, 0.9, true}} {
		if got := at(test.a).cutsOffBetter(at(test.b)); got != test.want {
			t.Errorf("%v much better than %v: %v", test.a, test.b, got)
		}
	}
	for _, test := range []struct {
		cost            []kind
		lets, last, set bool
		works           int
	}{
		{[]kind{turn}, false, false, true, 0}, {[]kind{restate}, false, false, true, 0}, {[]kind{move, turn}, false, false, true, 0},
		{[]kind{draw}, false, false, false, 0}, {[]kind{metalOff, turn}, false, false, false, 1}, {[]kind{stripsEnds}, true, false, false, 1},
		{[]kind{stripsIn, metalOut}, true, false, false, 2}, {[]kind{packing}, false, true, false, 1}, {[]kind{newValve, move}, false, false, false, 1},
		{[]kind{longChest}, false, true, false, 1}, {[]kind{newRod, widePorts}, false, true, false, 2}, {nil, false, false, false, 0},
	} {
		c := Cure{cost: test.cost}
		if c.lets() != test.lets || c.lastResort() != test.last || c.Sets() != test.set || c.works() != test.works ||
			c.Restates() != (len(test.cost) > 0 && test.cost[0] == restate) {
			t.Errorf("%v: %v %v %v %d", test.cost, c.lets(), c.lastResort(), c.Sets(), c.works())
		}
	}
}

// Which cures are left out beside one that comes before them, by hand: c of the first
// costs, better of the second, both putting the gear right with a usual cut-off unless
// it is said otherwise.
func TestSparedBy(t *testing.T) {
	cure := func(g grade, cost ...kind) Cure {
		if g.place == 0 {
			g.place = right
		}
		if g.cutOff == 0 {
			g.cutOff = 0.8
		}
		c := Cure{cost: cost, grade: g}
		for _, k := range cost {
			c.Steps = append(c.Steps, Step{Part: kinds[k].part})
		}
		return c
	}
	plain := grade{}
	for _, test := range []struct {
		name      string
		c, better Cure
		want      bool
	}{
		{"a restated gear is always told", cure(plain, restate), cure(plain, turn), false},
		{"and spares nothing", cure(plain, newSheave), cure(plain, restate), false},
		{"the same work", cure(plain, metalOff), cure(grade{place: livedWith}, metalOff), true},
		{"it is better", cure(plain, newSheave), cure(grade{place: livedWith}, move), false},
		{"only set, to be lived with, and cheaper", cure(grade{place: livedWith}, turn), cure(plain, metalOff), false},
		{"only set, and dearer", cure(grade{place: livedWith}, move), cure(plain, turn), true},
		{"worse, and more than set", cure(grade{place: livedWith}, metalOff), cure(plain, packing), true},
		{"worse and not cured", cure(grade{place: notCured}, turn), cure(plain, metalOff), true},
		{"all that the other does and more", cure(plain, metalOff, turn), cure(plain, turn), true},
		{"more, cheaper, not cured either", cure(grade{place: notCured}, turn), cure(grade{place: notCured}, move), false},
		{"not cured, dearer", cure(grade{place: notCured}, metalOff), cure(grade{place: notCured}, turn), true},
		{"not cured, a new valve beside strips", cure(grade{place: notCured}, newValve), cure(grade{place: notCured}, stripsEnds), false},
		{"not cured, a new valve beside metal off", cure(grade{place: notCured}, newValve), cure(grade{place: notCured}, metalOff), true},
		{"packing beside a move", cure(plain, packing), cure(plain, move), false},
		{"a rod beside a move", cure(plain, newRod), cure(plain, move), false}, {"a rod beside packing", cure(plain, newRod), cure(plain, packing), false},
		{"packing and a turn beside a move", cure(plain, packing, turn), cure(plain, move), true},
		{"packing beside a move and a turn", cure(plain, packing), cure(plain, move, turn), true},
		{"a sheave beside a move", cure(plain, newSheave), cure(plain, move), true},
		{"a sheave beside a turn with an unusual cut-off", cure(plain, newSheave), cure(grade{cutOff: 0.95}, turn), false},
		{"metal off beside a turn", cure(plain, metalOff), cure(plain, turn), true},
		{"metal off that cuts off much better", cure(grade{cutOff: 0.81}, metalOff), cure(grade{cutOff: 0.91}, turn), false},
		{"metal off with an unusual one", cure(plain, metalOff), cure(grade{cutOff: 0.95}, turn), false},
		{"a new valve beside metal off", cure(plain, newValve), cure(grade{cutOff: 0.95}, metalOff), true},
		{"a new valve beside strips", cure(plain, newValve), cure(plain, stripsEnds), false},
		{"a new valve and a sheave beside less work", cure(plain, newSheave, newValve), cure(plain, stripsEnds), true},
		{"a new valve and a sheave beside strips in two places", cure(plain, newSheave, newValve), cure(plain, stripsEnds, metalOut), false},
		{"a sheave beside strips", cure(plain, newSheave), cure(plain, stripsEnds), true},
		{"a turn beside metal off", cure(plain, turn), cure(plain, metalOff), false},
	} {
		if got := test.c.sparedBy(test.better); got != test.want {
			t.Errorf("%s: %v", test.name, got)
		}
	}
}

// A cure spoils a cut-off that was right where it moves it by more than a twentieth of
// the stroke, and one that was not where it goes where no lap has it.
func TestSpoilsCutOff(t *testing.T) {
	events := func(head, crank float64) *kernel.Events {
		var e kernel.Events
		e.Head.CutOff, e.Crank.CutOff = kernel.Event{Occurs: head > 0, Stroke: head}, kernel.Event{Occurs: crank > 0, Stroke: crank}
		return &e
	}
	for _, test := range []struct {
		head, crank, mean float64
		ok                bool
	}{{0.8, 0.7, 0.75, true}, {0.8, 0, 0.4, false}, {0, 0.7, 0.35, false}, {0, 0, 0, false}} {
		if mean, ok := meanCutOff(events(test.head, test.crank)); math.Abs(mean-test.mean) > 1e-12 || ok != test.ok {
			t.Errorf("%+v: %v %v", test, mean, ok)
		}
	}
	late := demo()
	late.Advance = 10 * units.Degree
	never := demo()
	never.Travel = units.MM(2)
	sound := endlessDemo()
	mean, _ := meanCutOff(&newSearch(sound, Made{}).base.found)
	for _, test := range []struct {
		name string
		gear Gear
		to   float64
		want bool
	}{
		{"stays", sound, mean, false}, {"by a little", sound, mean + 0.049, false}, {"back by a little", sound, mean - 0.049, false},
		{"by more", sound, mean + 0.051, true}, {"back by more", sound, mean - 0.051, true}, {"no cut-off", sound, 0, false},
		{"was late", late, 0.7, false}, {"was late, too early now", late, 0.6, true}, {"too late now", late, 0.99, true},
		{"was none", never, 0.8, false}, {"was none, too early", never, 0.6, true},
	} {
		if got := newSearch(test.gear, Made{}).spoilsCutOff(events(test.to, test.to)); got != test.want {
			t.Errorf("%s: %v", test.name, got)
		}
	}
}
