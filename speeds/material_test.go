package speeds_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// metal returns a material by its name.
func metal(name string) material.Material {
	m, err := material.Lookup(name)
	if err != nil {
		panic(err)
	}
	return m
}

// Every material that is cut has a speed of drilling and, zinc alloy apart, of
// turning with HSS; what gaskets and rings are made of has none, which is an error that names those that have.
func TestMaterials(t *testing.T) {
	has := map[string]bool{}
	for _, m := range speeds.Materials() {
		has[m.Name] = true
		if _, err := speeds.Recommend(speeds.Turning, m, speeds.HSS); err != nil && m.Name != "zinc alloy" {
			t.Error(err)
		}
		if _, err := speeds.Recommend(speeds.Drilling, m, speeds.HSS); err != nil {
			t.Error(err)
		}
	}
	for _, m := range material.All() {
		soft := m.Family == material.Rubber || m.Family == material.Sheet || strings.HasPrefix(m.Name, "soft ")
		if has[m.Name] == soft {
			t.Errorf("%v: has a figure: %v", m, has[m.Name])
		}
		_, err := speeds.Recommend(speeds.Turning, m, speeds.HSS)
		var bad *units.ArgumentError
		if soft && (!errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) ||
			!strings.Contains(err.Error(), "no cutting figure") || !strings.Contains(bad.Accepted, "phosphor bronze")) {
			t.Errorf("%v: %v", m, err)
		}
	}
	if len(has) != 31 {
		t.Errorf("%d materials, want 31", len(has))
	}
	if has["paper"] || !has["cast iron, skin on"] {
		t.Error(has)
	}
}

// What a book calls bronze is bearing bronze here, and the words of the trade for
// one alloy have the figures of the sort, and say so.
func TestStandIns(t *testing.T) {
	for name, of := range map[string]string{
		"cartridge brass": "brass", "aluminium 2014": "aluminium", "PTFE": "plastic", "cold-work tool steel": "tool steel",
	} {
		for _, op := range speeds.Operations() {
			got, err1 := speeds.Recommend(op, metal(name), speeds.HSS)
			want, err2 := speeds.Recommend(op, metal(of), speeds.HSS)
			if (err1 == nil) != (err2 == nil) || got.Min != want.Min || got.Max != want.Max {
				t.Errorf("%v in %s: %v to %v, %v; %s has %v to %v, %v", op, name, got.Min, got.Max, err1, of, want.Min, want.Max,
					err2)
			}
			if err1 == nil && (!strings.HasPrefix(got.Basis, "as "+of+": ") || got.Material.Name != name) {
				t.Errorf("%v in %s: %q", op, name, got.Basis)
			}
			if err1 == nil && (len(got.Advice()) != len(want.Advice()) || len(got.Precautions()) != len(want.Precautions())) {
				t.Errorf("%v in %s is not advised as %s", op, name, of)
			}
		}
	}
	bronze, err := speeds.Recommend(speeds.Drilling, metal("bronze"), speeds.HSS)
	if err != nil || bronze.Material.Name != "bearing bronze" || bronze.Published.Material != "bronze" ||
		bronze.Basis != "" {
		t.Errorf("%+v, %v", bronze, err)
	}
}

// A material with figures of the piece in hand is the same to the tool.
func TestMaterialInHand(t *testing.T) {
	bar := metal("EN8")
	bar.Yield = material.Given(530*units.Megapascal, bar.Density.Refs.First())
	r, err := speeds.Recommend(speeds.Turning, bar, speeds.HSS)
	if err != nil || r.Material.Yield.Value != bar.Yield.Value {
		t.Errorf("%v, %v", r.Material.Yield, err)
	}
}
