package strength

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
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
	seen := map[string]bool{}
	for _, r := range nutFactorRows.Rows() {
		if id := r.factor.Condition + r.ref.Title; seen[id] {
			t.Errorf("%s is given twice", id)
		} else {
			seen[id] = true
		}
	}
	var zinc []float64
	for _, f := range NutFactors() {
		if err := f.Validate(); err != nil || f.Scatter == 0 || f.Refs.Len() != 2 {
			t.Errorf("%+v: %v", f, err)
		}
		if strings.HasPrefix(f.Condition, "zinc plated") {
			zinc = append(zinc, f.K)
		}
	}
	if !slices.Equal(zinc, []float64{0.20, 0.295}) { // two books that disagree are both there
		t.Errorf("zinc plated: %v", zinc)
	}
}

// Each K beside the figures and ranges of other works, or read a second time.
func TestNutFactorsPrinted(t *testing.T) {
	type shipped struct {
		condition, source string
		low, high         float64
	}
	rows, _, err := table.Read(files, "tables/nut_factors.csv", func(r *table.Row) shipped {
		r.Text("lubricated")
		return shipped{r.Text("condition"), r.Text("source"), r.Float("low"), r.Float("high")}
	})
	if err != nil {
		t.Fatal(err)
	}
	for r := range check.Open(t, "thread/strength/nut_factor.csv").Rows() {
		i := slices.IndexFunc(rows, func(s shipped) bool {
			return s.condition == r.Text("condition") && s.source == r.Text("shipped")
		})
		switch {
		case i < 0:
			t.Errorf("%s: no such row", r.ID)
		case r.Has("range"): // the figure lies between the ends that are printed
			middle, half := (r.Float("low")+r.Float("high"))/2, (r.Float("high")-r.Float("low"))/2
			r.Within("low", r.Float("low")+max(0, math.Abs(rows[i].low-middle)-half), 0)
			r.Within("high", r.Float("high")+max(0, math.Abs(rows[i].high-middle)-half), 0)
		default:
			r.Within("low", rows[i].low, 1e-9)
			r.Within("high", rows[i].high, 1e-9)
		}
	}
}

// What goes with a lubricant, and its scatter: an aerospace specification, as the
// Journal of Failure Analysis and Prevention quotes it, has 35 % without and 25 % with
// one (typed from the article a second time).
func TestScatter(t *testing.T) {
	oily := []string{"oiled steel", "lubricated", "with anti-seize compound"}
	for _, f := range NutFactors() {
		want := 0.35
		if slices.Contains(oily, f.Condition) {
			want = 0.25
		}
		if f.Scatter != want {
			t.Errorf("%s: scatter %g, want %g", f.Condition, f.Scatter, want)
		}
	}
}
