package seal

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

func TestFactors(t *testing.T) {
	f := check.Open(t, "gasket/seal/m_y.csv")
	for r := range f.Rows() {
		rows, err := FactorsFor(of(t, r.Text("material")))
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(rows, func(f Factor) bool { return f.Printed == r.Optional("printed") })
		if i < 0 {
			t.Fatalf("%s: no such row in %+v", r.ID, rows)
		}
		r.Within("m", rows[i].M, 0)
		r.Within("y_mpa", rows[i].Y.In(units.Megapascal), r.Float("tolerance"))
	}
	if _, err := FactorsFor(of(t, "cork")); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "paper") {
		t.Errorf("cork: %v", err)
	}
	if _, err := FactorsFor(material.Material{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no material: %v", err)
	}
}

// Whatever a gasket is called, its limits, factors and thickness are looked up by
// one name; oiled paper seats as vegetable fibre does, and its row says so.
func TestOneName(t *testing.T) {
	for _, test := range []struct {
		name            string
		limits, factors int
	}{
		{"oiled brown paper", 2, 1}, {"paper", 2, 1}, {"vegetable fibre", 2, 1}, {"flexible graphite sheet", 1, 1},
		{"soft copper or brass", 1, 3}, {"annealed brass", 1, 3}, {"PTFE sheet", 1, 2}, {"cork with nitrile or neoprene", 1, 0},
		{"non-asbestos jointing", 1, 2}, {"rubber with cotton cloth", 1, 1}, {"rubber", 1, 3}, {"EPDM", 3, 3},
		{"iron or soft steel", 0, 1}, {"soft aluminium", 1, 1},
	} {
		limits, _ := LimitsFor(of(t, test.name))
		factors, _ := FactorsFor(of(t, test.name))
		if len(limits) != test.limits || len(factors) != test.factors {
			t.Errorf("%s: %d limits, want %d; %d factors, want %d", test.name, len(limits), test.limits, len(factors), test.factors)
		}
	}
	oiled, err := FactorsFor(of(t, "oiled paper"))
	if err != nil || oiled[0].Printed != "vegetable fibre" || oiled[0].Y != 1100*units.PSI || !strings.Contains(oiled[0].Note, "oiled paper seats by it too") {
		t.Errorf("%+v, %v", oiled, err)
	}
	if s, err := SheetsFor(of(t, "oiled paper")); err != nil || len(s) != 1 || s[0].Min != units.MM(0.10) || !s[0].Refs.Recalled() {
		t.Errorf("%+v, %v", s, err)
	}
	if _, err := SheetsFor(of(t, "cork")); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("cork: %v", err)
	}
}
