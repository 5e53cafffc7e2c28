package strength

import (
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units/source"
)

// K is common practice, the scatter that of the article the doc comment names.
func TestTradeNutFactors(t *testing.T) {
	if got := DryThreads(); got.K != 0.20 || got.Scatter != 0.35 || got.Refs.First().Kind != source.CommonPractice {
		t.Errorf("dry: %+v", got)
	}
	if got := OiledThreads(); got.K != 0.15 || got.Scatter != 0.25 || got.Refs.First().Kind != source.CommonPractice {
		t.Errorf("oiled: %+v", got)
	}
}

func TestNutFactorTable(t *testing.T) {
	rows := nutFactorRows.Rows()
	seen := map[string]bool{}
	for _, r := range rows {
		if id := r.factor.Condition + r.ref.Title; seen[id] {
			t.Errorf("%s is given twice", id)
		} else {
			seen[id] = true
		}
	}
	for _, f := range NutFactors() {
		if err := f.Validate(); err != nil || f.Scatter == 0 || f.Refs.Len() != 2 {
			t.Errorf("%+v: %v", f, err)
		}
	}
	if len(rows) != 13 {
		t.Errorf("%d rows", len(rows))
	}
	// Each witness lies within what the table has with and without a lubricant.
	for r := range check.Open(t, "thread/strength/nut_factor.csv").Rows() {
		low, high := 1.0, 0.0
		for _, row := range rows {
			if row.factor.Condition == "lubricated" == (r.Text("condition") == "lubricated") {
				f := row.factor
				if f.Max == 0 {
					f.Min, f.Max = f.K, f.K
				}
				low, high = min(low, f.Min), max(high, f.Max)
			}
		}
		r.Within("k", (low+high)/2, (high-low)/2)
	}
	// Table 8-15 of Shigley's Mechanical Engineering Design, 9th edition, p. 439,
	// typed a second time.
	again := map[string]float64{
		"not plated, black": 0.30, "zinc plated": 0.20, "lubricated": 0.18, "cadmium plated": 0.16,
		"with anti-seize compound": 0.12, "with special-grip nuts": 0.09,
	}
	var zinc []float64
	for _, f := range NutFactors() {
		if strings.HasPrefix(f.Condition, "zinc plated") {
			zinc = append(zinc, f.K)
		}
		if !strings.Contains(f.Refs.First().Title, "Shigley") {
			continue
		}
		if k := again[f.Condition]; f.K != k {
			t.Errorf("%s: %g, want %g", f.Condition, f.K, k)
		}
		delete(again, f.Condition)
	}
	if len(again) > 0 {
		t.Errorf("not in the table: %v", again)
	}
	if !slices.Equal(zinc, []float64{0.20, 0.295}) { // two books that disagree are both there
		t.Errorf("zinc plated: %v", zinc)
	}
}
