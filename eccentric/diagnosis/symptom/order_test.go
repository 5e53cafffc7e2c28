package symptom

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The order of a table goes by its rows, from 1. What is set at the gear stands before
// what is made anew, and the engine as drawn is last; the other causes go by the least
// effort of the tests that say yes with them.
func TestOrder(t *testing.T) {
	for name, rows := range map[string][]cause{"gear": gearTable.Rows(), "causes": causeTable.Rows()} {
		for i, c := range rows {
			if c.order != i+1 {
				t.Errorf("%s: %s has order %d in row %d", name, c.name, c.order, i+1)
			}
		}
	}
	kind := func(c cause) int {
		switch c.name {
		case "exhaust_lap", "steam_lap", "travel":
			return 1
		case asDrawn:
			return 2
		}
		return 0
	}
	if gear := gearTable.Rows(); !slices.IsSortedFunc(gear, func(a, b cause) int { return kind(a) - kind(b) }) {
		t.Errorf("what is made is not after what is set: %v", gear)
	}
	before := Effort(0)
	for _, c := range causeTable.Rows() {
		least := Effort(99)
		for _, r := range trialTable.Rows() {
			if slices.Contains(r.yes, c.name) {
				least = min(least, r.effort)
			}
		}
		if least < before || least == 99 {
			t.Errorf("%s, for which it takes %v, after one with %v", c.name, least, before)
		}
		before = least
	}
}

// Faults that are as good in all else are named in the order of the tables, those of
// the gear first and the engine as drawn before all; what shows less besides is before
// them.
func TestNamedInOrder(t *testing.T) {
	c := Case{Running: demo(), Symptoms: []Symptom{Weak}}
	x := newExplainer(&c)
	var all []candidate
	want := []string{asDrawn, "travel", "water"}
	for gear, rows := range map[bool][]cause{true: gearTable.Rows(), false: causeTable.Rows()} {
		for i := range rows {
			one := candidate{suspect: suspect{fault: rows[i].name, gear: gear, cause: &rows[i]}, weight: 0.5, prior: 1, besides: 2}
			if slices.Contains(want[1:], one.fault) {
				one.besides = 1
			}
			all = append(all, one)
		}
	}
	for _, row := range slices.Concat(gearTable.Rows(), causeTable.Rows()) {
		if !slices.Contains(want, row.name) {
			want = append(want, row.name)
		}
	}
	r := rand.New(rand.NewPCG(14, 7))
	for range 20 {
		r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		x.rank(all)
		var got []string
		for _, one := range all {
			got = append(got, one.fault)
		}
		if diff := cmp.Diff(strings.Join(want, "\n"), strings.Join(got, "\n")); diff != "" {
			t.Fatal(diff)
		}
	}
}
