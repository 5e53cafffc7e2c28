package cover

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

func TestTestPractices(t *testing.T) {
	check.Tables(t, files, "tables/*.csv")
	seenCase := map[string]bool{}
	_, _, err := table.Read(files, "tables/test_pressure.csv", func(r *table.Row) int {
		for _, c := range []string{"ratio", "medium", "note"} {
			r.Text(c)
		}
		if seenCase[r.Text("case")] {
			r.Complain("%s is given twice", r.Text("case"))
		}
		seenCase[r.Text("case")] = true
		return 0
	})
	if err != nil {
		t.Fatal(err)
	}
	f := check.Open(t, "gasket/cover/test_pressure.csv")
	for r := range f.Rows() {
		i := slices.IndexFunc(TestPractices(), func(p TestPractice) bool { return p.Case == r.Text("case") })
		if i < 0 {
			t.Errorf("%s: no practice of that name", r.ID)
			continue
		}
		test, err := TestPractices()[i].Pressure(units.Pressure(r.Float("working_psi")) * units.PSI)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("test_psi", test.In(units.PSI))
	}
	seen := map[finding.Code]bool{}
	var text string
	for _, p := range TestPrecautions() {
		if seen[p.Code] || p.Code == "" || p.Ref != source.Practice() {
			t.Errorf("%+v", p)
		}
		seen[p.Code] = true
		text += p.Text
	}
	if !seen[TestByWater] || !strings.Contains(text, "Local codes") || !strings.Contains(text, "never with compressed air") {
		t.Errorf("precautions: %s", text)
	}
}

func TestTestPracticeRefuses(t *testing.T) {
	second := check.Only
	check.Refuses(t, "ratio not a number", second(TestPractice{Ratio: math.NaN()}.Pressure(1)), units.ErrOutOfRange, "ratio of the practice NaN")
	check.Refuses(t, "no practice", second(TestPractice{}.Pressure(1)), units.ErrOutOfRange, "ratio of the practice")
	check.Refuses(t, "no working pressure", second(TestPractice{Ratio: 2}.Pressure(0)), units.ErrOutOfRange, "working pressure")
}
