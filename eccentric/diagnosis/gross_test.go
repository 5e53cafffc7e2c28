package diagnosis_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// blunders are readings taken grossly wrong, by what is mistaken in them. Each returns
// false where it makes little of a difference.
var blunders = map[string]func(r *rand.Rand, t *taken) bool{
	"an angle 60 to 180 degrees out": func(r *rand.Rand, t *taken) bool {
		off := (60 + 120*r.Float64()) * float64(2*r.IntN(2)-1)
		_, event := passings[t.kind]
		t.value = math.Mod(t.value+off+360, 360)
		return event && !t.never && !t.share
	},
	"97 % for 3 %": func(_ *rand.Rand, t *taken) bool {
		t.value = 1 - t.value
		return t.share && math.Abs(1-2*t.value) > 0.3
	},
	"a lead's sign turned round": func(_ *rand.Rand, t *taken) bool {
		t.value = -t.value
		return t.kind == "lead" && math.Abs(t.value) > 0.3
	},
	"half the travel": func(_ *rand.Rand, t *taken) bool {
		t.value /= 2
		return t.kind == "travel"
	},
	"the valve on the other side": func(_ *rand.Rand, t *taken) bool {
		t.value = -t.value
		return t.kind == "valve_at" && math.Abs(t.value) > 0.3
	},
	"steam for exhaust": func(_ *rand.Rand, t *taken) bool {
		if t.next == "steam" {
			t.next = "exhaust"
		} else {
			t.next = "steam"
		}
		return t.kind == "opens_next" && !t.cannotBeHad
	},
	"never": func(_ *rand.Rand, t *taken) bool {
		_, event := passings[t.kind]
		was := t.never
		t.never, t.share, t.value, t.within = true, false, 0, 0
		return event && !was
	},
}

// A reading that is grossly wrong among 9 to 12 is named, whatever it is, and nothing is
// sure.
func TestPlantedGross(t *testing.T) {
	t.Parallel()
	names := make([]string, 0, len(blunders))
	for name := range blunders {
		names = append(names, name)
	}
	slices.Sort(names)
	for i, name := range names {
		r := rand.New(rand.NewPCG(14, uint64(30+i)))
		y := tally{what: name}
		again := 0
		for n := 0; n < fewer(200); {
			d, all, e := planted(r, kinds[r.IntN(len(kinds))])
			b := measured(e, r, 1)
			rs := b.leadsAndTravel()
			for _, kind := range []string{"admission", "cut_off", "release", "compression"} {
				share := name == "97 % for 3 %" && r.IntN(2) == 0
				rs = append(rs, b.read(kind, "head", 0, share), b.read(kind, "crank", 0, share))
			}
			switch name {
			case "steam for exhaust":
				rs = append(rs, b.read("opens_next", "head", 0, false), b.read("opens_next", "crank", 0, false))
				rs = slices.DeleteFunc(rs, func(t taken) bool { return t.cannotBeHad })
			case "the valve on the other side":
				rs = append(rs, b.read("valve_at", "both", 90*float64(r.IntN(4)), false))
			}
			r.Shuffle(len(rs), func(i, k int) { rs[i], rs[k] = rs[k], rs[i] })
			rs = rs[:len(rs)-r.IntN(3)]
			which := slices.IndexFunc(rs, func(one taken) bool { return blunders[name](r, &one) })
			if which < 0 {
				continue
			}
			n++
			blunders[name](r, &rs[which])
			a := diagnose(t, d, rs)
			y.count(all, a)
			if len(a.again) > 0 && a.again[0] == which {
				again++
			}
		}
		y.print(t)
		t.Logf("the wrong reading is named first in %.1f %%", rate(again, y.of))
		// Where the valve is near its turn it is seen wrong and nothing contradicts it.
		if most := y.of / 20; y.wrong > 0 || y.sure > 0 && name != "steam for exhaust" || y.sure > most+1 {
			t.Errorf("%s: sure %d times, and wrong %d", name, y.sure, y.wrong)
		}
		least(t, "the wrong reading", again, y.of, 90)
	}
}
