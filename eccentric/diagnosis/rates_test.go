package diagnosis_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// A tally counts what became of engines.
type tally struct {
	what            string
	of              int
	named, firstTwo int // what was planted is the verdict, or one of the first two
	sure, wrong     int // wrong: sure, and the part is not at fault
	amounts, within int // of verdicts that are right and have one, and those within three standard deviations
	missed          map[string]int
}

// family returns what a fault is cured by: whatever is wrong with the place of the
// sheave, by turning it.
func family(fault string) string {
	switch fault {
	case "eccentric_other_hand", "eccentric_opposite", "eccentric_in_line", "eccentric_no_advance":
		return "advance"
	}
	return fault
}

func (p plant) is(s part) bool { return p.fault == s.fault && (p.end == "" || p.end == s.end) }

// are reports whether the suspect is what was planted, no more and no less.
func are(all []plant, s suspect) bool {
	switch len(all) {
	case 0:
		return s.fault == "as_drawn"
	case 1:
		return s.also == nil && all[0].is(s.part)
	}
	return s.also != nil && (all[0].is(s.part) && all[1].is(*s.also) || all[1].is(s.part) && all[0].is(*s.also))
}

func (s suspect) String() string {
	text := s.fault + " " + s.end
	if s.also != nil {
		text += " and " + s.also.fault + " " + s.also.end
	}
	if s.sure {
		text += ", sure"
	}
	return text
}

// count adds an engine with those faults.
func (y *tally) count(all []plant, a answer) {
	y.of++
	first := a.suspects[0]
	if are(all, first) {
		y.named++
		for _, p := range all {
			for _, s := range []*part{&first.part, first.also} {
				if s == nil || !s.has || !p.is(*s) {
					continue
				}
				y.amounts++
				if math.Abs(s.amount-p.amount) <= 3*s.sd {
					y.within++
				}
			}
		}
	} else {
		if y.missed == nil {
			y.missed = map[string]int{}
		}
		was := ""
		for _, p := range all {
			was += p.fault + " " + p.end + " "
		}
		y.missed[was+"-> "+first.String()]++
	}
	if slices.ContainsFunc(a.suspects[:min(2, len(a.suspects))], func(s suspect) bool { return are(all, s) }) {
		y.firstTwo++
	}
	if first.sure {
		y.sure++
		part := func(p plant) bool { return family(p.fault) == family(first.fault) }
		if right := first.fault == "as_drawn" && len(all) == 0; !right && !slices.ContainsFunc(all, part) {
			y.wrong++
		}
	}
}

func rate(part, of int) float64 { return 100 * float64(part) / float64(max(of, 1)) }

// print shows the rates, and what was missed most.
func (y *tally) print(t *testing.T) {
	t.Helper()
	t.Logf("%s: %d engines; named %.2f %%, among the first two %.2f %%, sure %.2f %%, sure and wrong %d; "+
		"of %d amounts %.2f %% within three standard deviations",
		y.what, y.of, rate(y.named, y.of), rate(y.firstTwo, y.of), rate(y.sure, y.of), y.wrong,
		y.amounts, rate(y.within, y.amounts))
	var lines []string
	for miss, count := range y.missed {
		lines = append(lines, fmt.Sprintf("%5d  %s", count, miss))
	}
	slices.Sort(lines)
	slices.Reverse(lines)
	for _, line := range lines[:min(len(lines), 8)] {
		t.Log(line)
	}
}

// planted draws an engine with faults of those kinds, and everything else as drawn
// within its tolerance. The amounts returned are what the engine has in all.
func planted(r *rand.Rand, kinds ...plant) (*drawing, []plant, *engine) {
	d := anyDrawing(r)
	m := scatter(r)
	all := make([]plant, len(kinds))
	for i, kind := range kinds {
		all[i] = kind.sized(r, d)
		all[i].into(&m, r, d)
	}
	for i := range all {
		all[i].amount = all[i].in(&m)
	}
	return d, all, d.built(m)
}

// A measurer is how a builder measures: angles to that many degrees, and by what.
func measured(e *engine, r *rand.Rand, degrees float64) *builder {
	return &builder{engine: e, angles: degrees, lengths: 0.05, shares: 0.01, r: r}
}

// singles are engines with one fault, each kind as often.
func singles(t *testing.T, what string, seed uint64, count int, degrees float64, take func(*builder) []taken) tally {
	t.Helper()
	r := rand.New(rand.NewPCG(14, seed))
	y := tally{what: what}
	for i := range count {
		d, all, e := planted(r, kinds[i%len(kinds)])
		y.count(all, diagnose(t, d, take(measured(e, r, degrees))))
	}
	y.print(t)
	return y
}

func allReadings(b *builder) []taken { return append(b.eightAngles(), b.leadsAndTravel()...) }

// least wants a rate, where there are engines enough for one.
func least(t *testing.T, what string, part, of int, percent float64) {
	t.Helper()
	if !testing.Short() && rate(part, of) < percent {
		t.Errorf("%s: %.2f %% of %d, less than %g %%", what, rate(part, of), of, percent)
	}
}

// engines is how many of them the tests take in proportion; of those with one fault and
// all readings, and with two faults, ten times as many, up to 2,000 and 500.
var engines = flag.Int("engines", 200, "engines with planted faults")

// fewer is a number of engines in that proportion, a tenth where every one costs more,
// as with the race detector.
func fewer(count int) int {
	count = max(count**engines/2000, 1)
	if testing.Short() {
		return max(count/10, 1)
	}
	return count
}

// One fault, eight angles, both leads and the travel.
func TestPlantedSingles(t *testing.T) {
	t.Parallel()
	y := singles(t, "one fault, angles to 1 degree", 1, min(fewer(20000), 2000), 1, allReadings)
	least(t, "named", y.named, y.of, 98)
	least(t, "sure", y.sure, y.of, 90)
	least(t, "amounts", y.within, y.amounts, 99)
	if y.wrong > 2 {
		t.Errorf("sure and wrong %d times", y.wrong)
	}
	singles(t, "one fault, angles to 2 degrees", 2, fewer(500), 2, allReadings)
}

// One fault, eight angles alone.
func TestPlantedAngles(t *testing.T) {
	t.Parallel()
	y := singles(t, "angles alone, to 1 degree", 3, fewer(1000), 1, (*builder).eightAngles)
	least(t, "named", y.named, y.of, 96)
	if y.wrong > 2 {
		t.Errorf("sure and wrong %d times", y.wrong)
	}
	singles(t, "angles alone, to 2 degrees", 4, fewer(300), 2, (*builder).eightAngles)
}

// One fault, 4 to 10 readings of any kind, which show it.
func TestPlantedFew(t *testing.T) {
	t.Parallel()
	for _, degrees := range []float64{1, 2} {
		r := rand.New(rand.NewPCG(14, uint64(4+degrees)))
		shown := tally{what: fmt.Sprintf("4 to 10 readings that show it, to %g degrees", degrees)}
		all := tally{what: "4 to 10 readings"}
		for i := range fewer(1000) {
			d, faults, e := planted(r, kinds[i%len(kinds)])
			some := measured(e, r, degrees).some(4 + r.IntN(7))
			a := diagnose(t, d, some)
			all.count(faults, a)
			if shows(d, e, some) {
				shown.count(faults, a)
			}
		}
		shown.print(t)
		all.print(t)
		if degrees == 1 {
			least(t, "among the first two", shown.firstTwo, shown.of, 97)
			if all.wrong > 2 {
				t.Errorf("sure and wrong %d times", all.wrong)
			}
		}
	}
}

// shows reports whether the readings of an engine differ from those of the drawing by
// more than tolerances and errors make of them: one by four times that.
func shows(d *drawing, e *engine, all []taken) bool {
	right := &builder{engine: d.built(mistakes{}), r: rand.New(rand.NewPCG(1, 1))}
	is := &builder{engine: e, r: rand.New(rand.NewPCG(1, 1))}
	for _, one := range all {
		was, now := right.read(one.kind, one.end, one.crank, one.share), is.read(one.kind, one.end, one.crank, one.share)
		if was.never != now.never || was.next != now.next {
			return true
		}
		off, tolerance := math.Abs(was.value-now.value), math.Hypot(one.within/2, usualLength/3*1.4)
		switch _, event := passings[one.kind]; {
		case event && one.share:
			tolerance = math.Hypot(one.within/2, 0.01)
		case event:
			off = math.Abs(math.Remainder(off, 360))
			tolerance = math.Hypot(one.within/2, usualAdvance/3*1.4)
		}
		if off > 4*tolerance {
			return true
		}
	}
	return false
}

// Nothing is wrong beyond the tolerances.
func TestPlantedNone(t *testing.T) {
	t.Parallel()
	for _, degrees := range []float64{1, 2} {
		r := rand.New(rand.NewPCG(14, uint64(8+degrees)))
		y := tally{what: fmt.Sprintf("as drawn, to %g degrees", degrees)}
		for range fewer(600) {
			d, all, e := planted(r)
			y.count(all, diagnose(t, d, allReadings(measured(e, r, degrees))))
		}
		y.print(t)
		least(t, "as drawn among the first two", y.firstTwo, y.of, 90)
		if degrees == 1 {
			least(t, "sure that nothing is wrong", y.sure, y.of, 40)
		}
		if y.wrong > y.of/200 { // one in 50 has something that is beyond its tolerance
			t.Errorf("sure of a fault %d times", y.wrong)
		}
	}
}

// pairs are two faults of different parts.
func pairs(r *rand.Rand) []plant {
	for {
		a, b := kinds[r.IntN(10)], kinds[r.IntN(10)]
		if a.fault != b.fault {
			return []plant{a, b}
		}
	}
}

// Two faults.
func TestPlantedDoubles(t *testing.T) {
	t.Parallel()
	for _, degrees := range []float64{1, 2} {
		r := rand.New(rand.NewPCG(14, uint64(10+degrees)))
		y := tally{what: fmt.Sprintf("two faults, angles to %g degrees", degrees)}
		for range min(fewer(map[float64]int{1: 5000, 2: 500}[degrees]), 500) {
			d, all, e := planted(r, pairs(r)...)
			y.count(all, diagnose(t, d, allReadings(measured(e, r, degrees))))
		}
		y.print(t)
		if degrees == 1 {
			least(t, "named", y.named, y.of, 95)
		}
	}
}

// One angle is read 5 to 20 degrees wrong.
func TestPlantedMisreading(t *testing.T) {
	t.Parallel()
	for _, degrees := range []float64{1, 2} {
		r := rand.New(rand.NewPCG(14, uint64(12+degrees)))
		y := tally{what: fmt.Sprintf("one of eight angles wrong, the others to %g degrees", degrees)}
		again, alone := 0, 0
		for i := range fewer(500) {
			d, all, e := planted(r, kinds[i%len(kinds)])
			readings := allReadings(measured(e, r, degrees))
			which := r.IntN(8)
			for readings[which].never {
				which = r.IntN(8)
			}
			off := 5 + 15*r.Float64()
			if r.IntN(2) == 0 {
				off = -off
			}
			readings[which].value = math.Mod(readings[which].value+off+360, 360)
			a := diagnose(t, d, readings)
			y.count(all, a)
			if len(a.again) > 0 && a.again[0] == which {
				again++
			}
			if len(a.again) == 1 {
				alone++
			}
		}
		y.print(t)
		t.Logf("the wrong reading is named first in %.1f %%, %d times one alone is named", rate(again, y.of), alone)
		if degrees == 1 {
			least(t, "the wrong reading", again, y.of, 90)
			if y.sure > 0 {
				t.Errorf("sure %d times", y.sure)
			}
		}
	}
}

// A builder begins with both leads and reads what is asked for next, seven readings in
// all at the most.
func TestPlantedNext(t *testing.T) {
	t.Parallel()
	for _, degrees := range []float64{1, 2} {
		r := rand.New(rand.NewPCG(14, uint64(14+degrees)))
		y := tally{what: fmt.Sprintf("following what is asked for next, to %g degrees", degrees)}
		readings := 0
		for i := range fewer(700) {
			d, all, e := planted(r, kinds[i%len(kinds)])
			b := measured(e, r, degrees)
			read := b.leadsAndTravel()[:2]
			a := diagnose(t, d, read)
			for a.next != nil && len(read) < 7 {
				one := b.read(a.next.kind, a.next.end, a.next.crank, false)
				if at := slices.IndexFunc(read, one.again); at >= 0 {
					read[at] = one
				} else {
					read = append(read, one)
				}
				a = diagnose(t, d, read)
			}
			y.count(all, a)
			readings += len(read)
		}
		y.print(t)
		t.Logf("%.1f readings on average", float64(readings)/float64(y.of))
		if degrees == 1 {
			least(t, "named", y.named, y.of, 95)
		}
	}
}
