package symptom

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func parsed(t *testing.T, texts string) (all []Symptom) {
	t.Helper()
	for text := range strings.SplitSeq(texts, ";") {
		s, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, s)
	}
	return all
}

func explained(t *testing.T, c Case) Explanation {
	t.Helper()
	e, err := c.Explain()
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func rank(e Explanation, fault string) int {
	return 1 + slices.IndexFunc(e.Causes, func(x Explained) bool { return x.Fault == fault })
}

func TestSymptoms(t *testing.T) {
	for _, s := range Symptoms() {
		text, err := s.MarshalText()
		var back Symptom
		if err := errors.Join(err, back.UnmarshalText(text)); err != nil || back != s {
			t.Errorf("%v reads back as %v, %v", s, back, err)
		}
	}
	if s, err := Parse("Needs-a-push"); err != nil || s != NeedsAPush {
		t.Error(s, err)
	}
	var bad *units.ParseError
	if _, err := Parse("wont turn"); !errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "will not turn") {
		t.Errorf("a symptom that there is not: %v", err)
	}
	for text, want := range map[string]string{
		"wont turn": "near it: will not turn", "stops warm": "near it: stops when warm", "hissing": "near it: hisses",
		"sings": `"sings": unknown; accepted`,
	} {
		if _, err := Parse(text); err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "ran well before") {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, e := range Efforts() {
		if back, err := ParseEffort(e.String()); err != nil || back != e {
			t.Errorf("%v reads back as %v, %v", e, back, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add("needs a push")
	f.Add("KNOCKS ")
	f.Add("with air")
	f.Fuzz(func(t *testing.T, text string) {
		if s, err := Parse(text); err == nil {
			if back, err := Parse(s.String()); err != nil || back != s {
				t.Errorf("%q is %v, which is not read: %v", text, s, err)
			}
		}
		if e, err := ParseEffort(text); err == nil && !slices.Contains(Efforts(), e) {
			t.Errorf("%q is %v", text, e)
		}
	})
}

// The tables are read, name each cause once, and no symptom is without a fault that
// shows it.
func TestTables(t *testing.T) {
	check.Tables(t, tables, "tables/*.csv")
	known := map[string]bool{}
	for _, rows := range [][]cause{gearTable.Rows(), causeTable.Rows()} {
		for _, c := range rows {
			if known[c.name] || !strings.HasSuffix(c.text, ".") || c.name != asDrawn && !strings.HasSuffix(c.cure, ".") || strings.HasSuffix(c.short, ".") {
				t.Errorf("cause %q: given twice, or not in sentences: %q, %q, %q", c.name, c.short, c.text, c.cure)
			}
			known[c.name] = true
		}
	}
	for _, f := range diagnosis.Faults() {
		if causeOf(f.String()) == nil {
			t.Errorf("%v of package diagnosis is not in the table", f)
		}
	}
	if len(gearTable.Rows()) != len(diagnosis.Faults()) {
		t.Errorf("%d faults of the gear, package diagnosis has %d", len(gearTable.Rows()), len(diagnosis.Faults()))
	}
	seen := map[string]bool{}
	for _, s := range signTable.Rows() {
		if key := fmt.Sprint(s.cause, s.symptom); !known[s.cause] || seen[key] {
			t.Errorf("a sign of %q: no such cause, or %v twice", s.cause, s.symptom)
		} else {
			seen[key] = true
		}
	}
	for _, r := range trialTable.Rows() {
		if !strings.HasSuffix(r.text, "?") || r.effort == Watch {
			t.Errorf("test %q", r.text)
		}
		for _, c := range r.yes {
			if !known[c] {
				t.Errorf("test %q is for %q, which is no cause", r.text, c)
			}
		}
	}
	c := Case{Running: demo(), Symptoms: []Symptom{Weak}}
	x := newExplainer(&c)
	var shown [symptomCount]bool
	names := map[string]bool{}
	for _, s := range append(misplaced(c.Running.Gear), worn(c.Running.Gear)...) {
		names[s.fault] = true
		of := x.candidate(&s)
		for _, size := range s.sizes {
			o := x.outcome(&size)
			by := shows(&o, &x.drawn, 1)
			for i := range by {
				if by[i] < 0 || by[i] > 1 || math.IsNaN(by[i]) {
					t.Errorf("%s shows %v as %v", s.fault, Symptom(i), by[i])
				}
				shown[i] = shown[i] || max(by[i], of.shown[i]) >= surely && s.fault != asDrawn
			}
		}
	}
	for _, s := range Symptoms() {
		if !shown[s] {
			t.Errorf("no fault shows %v", s)
		}
	}
	for name := range known {
		if !names[name] {
			t.Errorf("%s is never tried", name)
		}
	}
}

// What works say of a fault, told as symptoms, is explained by it.
func TestTold(t *testing.T) {
	file := check.Open(t, "eccentric/diagnosis/symptom/told.csv")
	for r := range file.Rows() {
		told, fault := parsed(t, r.Text("told")), r.Text("fault")
		e := explained(t, Case{Running: demo(), Symptoms: told})
		at := rank(e, fault)
		got := fault
		if most := int(r.Float("among")); at < 1 || at > most {
			got = fmt.Sprintf("number %d, after %s", at, e.Causes[0].Fault)
		} else if way := r.Optional("way"); way != "" && e.Causes[at-1].Way != way {
			got += ", " + e.Causes[at-1].Way
		}
		r.Equal("fault", got)
		written, _ := written(fault)
		if by := r.Text("by"); by == "cycle" {
			for _, s := range told {
				if written[s] > 0 && fault != "valve_leaks" && fault != "rings_leak" && fault != "supply_choked" {
					t.Errorf("%s: the table has %v of %s", r.ID, s, fault)
				}
			}
		}
	}
}

// On engines of any size the same things are told of the faults that the cycle shows.
func TestToldOfAnyEngine(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 4))
	engines := 20
	if testing.Short() {
		engines = 2
	}
	right, all := 0, 0
	for range engines {
		run := someEngine(r)
		for _, test := range []struct {
			told  []Symptom
			fault string
			among int
		}{
			{[]Symptom{BeatsUneven}, "valve_off_centre", 3}, {[]Symptom{WrongWay}, "eccentric_other_hand", 2},
			{[]Symptom{JerksOnly}, "eccentric_in_line", 3}, {[]Symptom{WillNotTurn, HissesStanding}, "valve_off_face", 2},
			{[]Symptom{HissesInPlaces, UsesMuch}, "rings_leak", 3}, {[]Symptom{WeakAtSpeed}, "exhaust_choked", 2},
			{[]Symptom{OneWayOnly}, asDrawn, 1},
		} {
			e := explained(t, Case{Running: run, Symptoms: test.told})
			all++
			if at := rank(e, test.fault); at <= test.among {
				right++
			} else {
				t.Logf("%v: %s is number %d, after %s", test.told, test.fault, at, e.Causes[0].Fault)
			}
		}
	}
	t.Logf("%d of %d", right, all)
	if right < all*90/100 {
		t.Errorf("%d of %d are explained", right, all)
	}
}

// Whatever is told, all faults of the catalogue come in order, their shares are all,
// and each has a test against the best, or the answer says that several are alike.
func TestExplanationsHold(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 5))
	cases := 60
	if testing.Short() {
		cases = 6
	}
	without, pairs := 0, 0
	for range cases {
		c := Case{Running: someEngine(r)}
		if r.IntN(3) == 0 { // a drawing that is wrong itself
			c.Running.Gear.Advance = inTurn(2 * math.Pi * r.Float64())
		}
		for len(c.Symptoms) < 1+r.IntN(4) {
			s := Symptoms()[r.IntN(len(Symptoms()))]
			if !slices.Contains(c.Symptoms, s) && !slices.ContainsFunc(c.Symptoms, func(o Symptom) bool { return exclude(s, o) }) {
				c.Symptoms = append(c.Symptoms, s)
			}
		}
		e := explained(t, c)
		sum, names := 0.0, map[string]bool{}
		for i, x := range e.Causes {
			if names[x.Fault] || !(x.Fits > 0 && x.Fits <= 1) || !(x.Share >= 0 && x.Share <= 1) || x.Text == "" {
				t.Errorf("%v: %v", c.Symptoms, x)
			}
			names[x.Fault] = true
			if i > 0 && x.Fits > e.Causes[i-1].Fits*1.06 {
				t.Errorf("%v: %v fits %v, after %v", c.Symptoms, x.Fault, x.Fits, e.Causes[i-1].Fits)
			}
			if sum += x.Share; i < 6 {
				if pairs++; x.Test.Effort == 0 {
					without++
				}
			}
		}
		for _, row := range slices.Concat(gearTable.Rows(), causeTable.Rows()) {
			if place := strings.HasPrefix(row.name, "eccentric_"); !names[row.name] && (!place || !coincides(c.Running.Gear.Advance)) {
				t.Errorf("%v: %s is not in the answer", c.Symptoms, row.name)
			}
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("%v: %d faults, shares of %v", c.Symptoms, len(names), sum)
		}
		if again := explained(t, c); cmp.Diff(fmt.Sprint(e), fmt.Sprint(again)) != "" {
			t.Errorf("%v: another answer the second time", c.Symptoms)
		}
	}
	t.Logf("%d of %d explanations among the first six have no test", without, pairs)
	if without > pairs/20 {
		t.Errorf("%d of %d explanations have no test", without, pairs)
	}
}

// coincides reports whether a drawn sheave stands near one of the places that have a
// name, or two of those near each other.
func coincides(d units.Angle) bool {
	return math.Abs(math.Sin(2*float64(d))) < 0.25
}

// An engine without laps and advance has two places of the sheave, not four; one with
// negative laps and one with a lever are explained too.
func TestExplainsSimpleEngines(t *testing.T) {
	run := demo()
	run.Gear.Advance, run.Gear.Valve = 0, run.Gear.Ports.ValveWith(eccentric.Laps{})
	e := explained(t, Case{Running: run, Symptoms: []Symptom{WrongWay}})
	if e.Causes[0].Fault != "eccentric_other_hand" || rank(e, "eccentric_opposite") != 0 || rank(e, "eccentric_no_advance") != 0 {
		t.Errorf("%v", e.Causes[0])
	}
	run.Gear.Valve = run.Gear.Ports.ValveWith(eccentric.Laps{Steam: units.MM(-0.2), Exhaust: units.MM(-0.2)})
	e = explained(t, Case{Running: run, Symptoms: []Symptom{HissesInPlaces}})
	if first := e.Causes[0]; first.Fault != asDrawn {
		t.Errorf("a valve that is drawn too short blows as drawn: %v", first)
	}
	run = demo()
	run.Gear.LeverRatio = -1
	for told, place := range map[Symptom]string{WrongWay: "eccentric_other_hand", JerksOnly: "eccentric_in_line"} {
		e = explained(t, Case{Running: run, Symptoms: []Symptom{told}})
		at := rank(e, place)
		if at < 1 || at > 3 || !strings.Contains(e.Causes[at-1].Cure, "64 degrees behind the crank") {
			t.Errorf("%v: %s is number %d: %v", told, place, at, e.Causes[0])
		}
	}
}

// An engine that runs the wrong way has beats and knocks as any that runs.
func TestTheWrongWay(t *testing.T) {
	for _, with := range []Symptom{NeedsAPush, BeatsUneven} {
		e := explained(t, Case{Running: demo(), Symptoms: []Symptom{WrongWay, with}})
		if at := rank(e, "eccentric_other_hand"); at > 2 || with == NeedsAPush && len(e.Causes[at-1].Lacks) > 0 {
			t.Errorf("%v: number %d, after %v", with, at, e.Causes[0])
		}
	}
}

// A passage that is blocked leaves one end to do all the work.
func TestBlockedPassage(t *testing.T) {
	told := []Symptom{BeatsUneven, Weak, StopsAtCentre, NeedsAPush}
	e := explained(t, Case{Running: demo(), Symptoms: told})
	if at := rank(e, "passage_blocked"); at != 1 || len(e.Causes[0].Lacks) > 0 {
		t.Errorf("number %d, %v", at, e.Causes[0])
	}
}

// Nobody is asked to run an engine to learn whether it has water in it, strikes its
// covers or has a loose wheel, nor to listen to one that does not turn.
func TestAsksNothingDangerous(t *testing.T) {
	for _, told := range [][]Symptom{{StiffByHand}, {Knocks}, {SpitsWater}, {HissesInPlaces}, {WillNotTurn, HissesStanding}, {JerksOnly}} {
		c := Case{Running: demo(), Symptoms: told}
		x := newExplainer(&c)
		var all []candidate
		for _, s := range append(misplaced(c.Running.Gear), worn(c.Running.Gear)...) {
			all = append(all, x.candidate(&s))
		}
		one := x.oneEach(all)
		for i := range one {
			for j := range i {
				test := x.tellApart(&one[i], &one[j])
				if test.Effort == AtRun && (one[i].dangerous() || one[j].dangerous()) {
					t.Errorf("%v: %v", told, test)
				}
				if told[0].still() && strings.Contains(test.Text, "\"knocks\"") {
					t.Errorf("%v: %v", told, test)
				}
			}
		}
	}
}

// said is a diagnosis with these probabilities, of faults at both ends.
func said(as ...any) *diagnosis.Diagnosis {
	var d diagnosis.Diagnosis
	for i := 0; i < len(as); i += 2 {
		d.Suspects = append(d.Suspects, diagnosis.Suspect{Part: diagnosis.Part{Fault: as[i].(diagnosis.Fault)}, Probability: as[i+1].(float64)})
	}
	return &d
}

// Readings weigh: what they name is told first where it shows what was told, and what
// has come loose where the engine ran well before.
func TestReadingsWeigh(t *testing.T) {
	c := Case{Running: demo(), Symptoms: []Symptom{BeatsUneven}}
	c.Readings = said(diagnosis.WrongSteamLap, 0.9, diagnosis.ValveOffCentre, 0.04, diagnosis.AsDrawn, 0.06)
	if e := explained(t, c); e.Causes[0].Fault != "steam_lap" || e.Causes[0].Share < 0.8 {
		t.Errorf("%v", e.Causes[0])
	}
	c.Readings = said(diagnosis.ValveOffCentre, 0.95, diagnosis.AsDrawn, 0.05)
	if e := explained(t, c); e.Causes[0].Fault != "valve_off_centre" || e.Causes[1].Fault != "valve_nut_loose" {
		t.Errorf("%v, %v", e.Causes[0], e.Causes[1])
	}
	c.Symptoms = append(c.Symptoms, RanWell)
	if e := explained(t, c); e.Causes[0].Fault != "valve_nut_loose" {
		t.Errorf("%v", e.Causes[0])
	}
	// Readings that are as drawn leave what no reading shows.
	c = Case{Running: demo(), Symptoms: []Symptom{Knocks}, Readings: said(diagnosis.AsDrawn, 0.97, diagnosis.WrongAdvance, 0.03)}
	if e := explained(t, c); rank(e, "bearings_loose") > 4 || rank(e, "advance") < 5 {
		t.Errorf("bearings are number %d, the advance %d", rank(e, "bearings_loose"), rank(e, "advance"))
	}
}

// What the readings are sure of is named first, whatever a builder hears: the rest may
// come of a second fault, and the answer says so. What is loose has the measured place.
func TestSureReadingsStand(t *testing.T) {
	drawn := demo()
	off := drawn.Gear
	shift(&off, units.MM(-0.26))
	told := [][]Symptom{{Knocks, BeatsUneven}, {TurnsWithShut}, {HissesStanding, UsesMuch}, {StiffByHand}, {RanWell, Knocks}, {WrongWay}}
	for _, told := range told {
		d := said(diagnosis.ValveOffCentre, 0.947, diagnosis.WrongExhaustLap, 0.05, diagnosis.AsDrawn, 0.003)
		d.Suspects[0].Sure, d.Suspects[0].Gear = true, off
		c := Case{Running: drawn, Symptoms: told, Readings: d}
		e := explained(t, c)
		besides := slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.Code == Besides })
		if first := e.Causes[0]; first.Fault != "valve_off_centre" || besides != (len(first.Lacks) > 0) {
			t.Errorf("%v: %v, %v", told, first, e.Findings)
		}
		d.Suspects[0].Sure = false
		x := newExplainer(&c)
		for _, s := range x.slipped(worn(drawn.Gear)) {
			if s.fault == "valve_nut_loose" && (len(s.sizes) != 1 || s.sizes[0].gear != off) {
				t.Errorf("%v", s.sizes)
			}
		}
	}
}

// Leads that are right at both ends leave many faults that knock or will not run; with
// the readings of a sheave on the wrong hand one is left, in the words of the drawing.
func TestReadingsOfAnEngine(t *testing.T) {
	drawn := demo()
	built := drawn.Gear
	built.Advance = inTurn(math.Pi - float64(built.Advance))
	events, err := built.Events()
	if err != nil {
		t.Fatal(err)
	}
	readings := []diagnosis.Reading{
		{Kind: diagnosis.Lead, End: eccentric.HeadEnd, Length: events.Head.Lead},
		{Kind: diagnosis.Lead, End: eccentric.CrankEnd, Length: events.Crank.Lead},
		{Kind: diagnosis.OpensNext, End: eccentric.HeadEnd, Opens: diagnosis.Exhaust},
		{Kind: diagnosis.OpensNext, End: eccentric.CrankEnd, Opens: diagnosis.Exhaust},
	}
	d, err := diagnosis.Case{Gear: drawn.Gear, Readings: readings}.Diagnose()
	if err != nil {
		t.Fatal(err)
	}
	e := explained(t, Case{Running: drawn, Symptoms: []Symptom{WrongWay}, Readings: &d})
	if first := e.Causes[0]; first.Fault != "eccentric_other_hand" || first.Share < 0.6 {
		t.Errorf("%v", first)
	}
}

// The test for the first two is the cheapest that parts them, and has this engine's
// figures.
func TestTellsApart(t *testing.T) {
	c := Case{Running: demo(), Symptoms: []Symptom{WillNotTurn, JerksOnly}}
	if first := explained(t, c).Causes[0]; first.Test.Effort != Watch || !strings.Contains(first.Test.Text, "ran well before") {
		t.Errorf("%v", first.Test)
	}
	c.Symptoms = append(c.Symptoms, RanWell)
	e := explained(t, c)
	at := slices.IndexFunc(e.Causes, func(x Explained) bool { return x.Fault == "eccentric_in_line" })
	if test := e.Causes[at].Test; test.Effort != ByHand || !strings.Contains(test.Text, "such as 116 degrees ahead of the crank") {
		t.Errorf("%v", test)
	}
	x := newExplainer(&c)
	var all []candidate
	for _, s := range append(misplaced(c.Running.Gear), worn(c.Running.Gear)...) {
		all = append(all, x.candidate(&s))
	}
	one := x.oneEach(all)
	none := 0
	for i := range one {
		for j := range i {
			test, back := x.tellApart(&one[i], &one[j]), x.tellApart(&one[j], &one[i])
			if test.Effort != back.Effort {
				t.Errorf("%s and %s: %v, %v", one[i].fault, one[j].fault, test, back)
			}
			switch {
			case test.Effort == 0:
				none++
				t.Logf("nothing parts %s from %s", one[i].fault, one[j].fault)
			case !strings.Contains(test.Text, one[i].name()) || !strings.Contains(test.Text, one[j].name()):
				t.Errorf("%s and %s: %v", one[i].fault, one[j].fault, test.Text)
			}
		}
	}
	if none > 0 {
		t.Errorf("%d pairs have no test", none)
	}
}

func TestSaysWhatToMind(t *testing.T) {
	has := func(e Explanation, code finding.Code) bool {
		return slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.Code == code })
	}
	e := explained(t, Case{Running: demo(), Symptoms: []Symptom{Knocks}})
	if !has(e, EarDecides) || !has(e, ShownAlike) || len(e.Precautions) == 0 {
		t.Errorf("%v", e.Findings)
	}
	if e := explained(t, Case{Running: demo(), Symptoms: []Symptom{SpitsWater}}); !has(e, WaterFirst) || has(e, EarDecides) {
		t.Errorf("%v", e.Findings)
	}
	if e := explained(t, Case{Running: demo(), Symptoms: []Symptom{Knocks}}); !has(e, NotToRun) {
		t.Errorf("%v", e.Findings)
	}
	if e := explained(t, Case{Running: demo(), Symptoms: []Symptom{TurnsWithShut}}); !has(e, ShutBoiler) || has(e, NotToRun) {
		t.Errorf("%v", e.Findings)
	}
	if e := explained(t, Case{Running: demo(), Symptoms: []Symptom{OneWayOnly}}); !has(e, AsItIsDrawn) {
		t.Errorf("%v", e.Findings)
	}
}

func TestRefused(t *testing.T) {
	for name, test := range map[string]struct {
		change func(*Case)
		kind   error
		want   string
	}{
		"no symptom":         {func(c *Case) { c.Symptoms = nil }, units.ErrMissing, "needs a push"},
		"one twice":          {func(c *Case) { c.Symptoms = []Symptom{Weak, Weak} }, nil, "twice"},
		"one that is none":   {func(c *Case) { c.Symptoms = []Symptom{99} }, units.ErrUnknown, "symptom"},
		"the zero one":       {func(c *Case) { c.Symptoms = []Symptom{0} }, units.ErrUnknown, "symptom"},
		"hisses twice":       {func(c *Case) { c.Symptoms = []Symptom{HissesStanding, HissesInPlaces} }, nil, "one of the two"},
		"turns and does not": {func(c *Case) { c.Symptoms = []Symptom{WillNotTurn, Weak} }, nil, "ran well before"},
		"no suspects":        {func(c *Case) { c.Readings = new(diagnosis.Diagnosis) }, units.ErrMissing, "Case.Diagnose"},
		"no engine":          {func(c *Case) { c.Running.Bore = units.Length{} }, units.ErrMissing, "bore"},
	} {
		c := Case{Running: demo(), Symptoms: []Symptom{Weak}}
		test.change(&c)
		_, err := c.Explain()
		if test.kind == nil {
			test.kind = units.ErrOutOfRange
		}
		check.Refuses(t, name, err, test.kind, test.want)
	}
}

func BenchmarkExplain(b *testing.B) {
	c := Case{Running: demo(), Symptoms: []Symptom{Weak, Knocks}}
	for b.Loop() {
		if _, err := c.Explain(); err != nil {
			b.Fatal(err)
		}
	}
}
