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
	find := func(r *check.Row) (Factor, bool) {
		rows, err := FactorsFor(of(t, r.Text("material")))
		i := slices.IndexFunc(rows, func(f Factor) bool { return f.Printed == r.Optional("printed") })
		if err != nil || i < 0 {
			t.Errorf("%s: no such row in %+v, %v", r.ID, rows, err)
			return Factor{}, false
		}
		return rows[i], true
	}
	f := check.Open(t, "gasket/seal/m_y_psi.csv")
	for r := range f.Rows() {
		if row, ok := find(r); ok {
			r.Compare("m", row.M)
			r.Compare("y_psi", row.Y.In(units.PSI))
		}
	}
	f = check.Open(t, "gasket/seal/m_y.csv")
	for r := range f.Rows() {
		if row, ok := find(r); ok {
			r.Within("m", row.M, 0)
			r.Within("y_mpa", row.Y.In(units.Megapascal), r.Float("tolerance"))
		}
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
	for _, test := range []struct{ name, same string }{
		{"oiled brown paper", "oiled paper"}, {"vegetable fibre", "paper"}, {"flexible graphite sheet", "flexible graphite"},
		{"soft copper or brass", "soft copper"}, {"annealed brass", "soft brass"}, {"PTFE sheet", "PTFE"},
		{"cork with nitrile or neoprene", "cork with rubber"}, {"non-asbestos jointing", "jointing without asbestos"},
		{"rubber with cotton cloth", "rubber with cloth"}, {"EPDM", "EPDM rubber"}, {"iron or soft steel", "soft iron"},
	} {
		limits, _ := LimitsFor(of(t, test.name))
		factors, _ := FactorsFor(of(t, test.name))
		same, _ := LimitsFor(of(t, test.same))
		alike, _ := FactorsFor(of(t, test.same))
		if len(limits) != len(same) || len(factors) != len(alike) || len(limits)+len(factors) == 0 {
			t.Errorf("%s: %d limits and %d factors; %s: %d and %d", test.name, len(limits), len(factors), test.same, len(same), len(alike))
		}
	}
	oiled, err := FactorsFor(of(t, "oiled paper"))
	if err != nil || oiled[0].Printed != "vegetable fibre" || !strings.Contains(oiled[0].Note, "oiled paper seats by it too") {
		t.Errorf("%+v, %v", oiled, err)
	}
	if s, err := SheetsFor(of(t, "oiled paper")); err != nil || len(s) == 0 {
		t.Errorf("%+v, %v", s, err)
	}
	if _, err := SheetsFor(of(t, "cork")); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("cork: %v", err)
	}
}
