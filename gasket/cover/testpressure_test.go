package cover

import (
	"errors"
	"fmt"
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

// A refusal is an error that a test expects.
type refusal struct {
	name string
	err  error
	kind error
	want string
}

func (r refusal) check(t *testing.T) {
	t.Helper()
	var bad *units.ArgumentError
	if !errors.As(r.err, &bad) || !errors.Is(r.err, r.kind) || !strings.Contains(fmt.Sprint(r.err), r.want) {
		t.Errorf("%s: error %v, want %v with %q", r.name, r.err, r.kind, r.want)
	}
}

func TestTestPractices(t *testing.T) {
	check.Tables(t, files, "tables/*.csv")
	rows, _, err := table.Read(files, "tables/test_pressure.csv", func(r *table.Row) string {
		for _, c := range []string{"ratio", "medium", "note"} {
			r.Text(c)
		}
		return r.Text("case")
	})
	if err != nil || len(rows) != 7 {
		t.Fatalf("%v, %v", rows, err)
	}
	f := check.Open(t, "gasket/cover/test_pressure.csv")
	for r := range f.Rows() {
		i := slices.IndexFunc(TestPractices(), func(p TestPractice) bool { return p.Case == r.Text("case") })
		if i < 0 {
			t.Fatalf("%s: no practice of that name", r.ID)
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
	second := func(_ any, err error) error { return err }
	for _, test := range []refusal{
		{"ratio not a number", second(TestPractice{Ratio: math.NaN()}.Pressure(1)), units.ErrOutOfRange, "ratio of the practice NaN"},
		{"no practice", second(TestPractice{}.Pressure(1)), units.ErrOutOfRange, "ratio of the practice"},
		{"no working pressure", second(TestPractice{Ratio: 2}.Pressure(0)), units.ErrOutOfRange, "working pressure"},
	} {
		test.check(t)
	}
}
