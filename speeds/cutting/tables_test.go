package cutting_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

func TestTables(t *testing.T) { check.Tables(t, cutting.Tables, "tables/*.csv") }

// What three kinds of source say of one cut has to be of one order: for each
// material that Kienzle and a power constant both cover, they are within a
// factor of 2.4 at 0.2 mm (pure copper and hard bronze, recalled, are the
// furthest); where figures at a feed exist, these lie within 0.7 to 2 of
// Kienzle.
func TestSourcesCompared(t *testing.T) {
	compared := 0
	for _, m := range material.All() {
		k, err := cutting.KienzleFor(m)
		if err != nil {
			continue
		}
		kc, err := k.At(units.MM(0.2))
		if err != nil {
			t.Fatal(err)
		}
		if u, err := cutting.UnitPowerFor(m); err == nil {
			compared++
			if ratio := u.PerFlow / float64(kc); ratio < 1/2.4 || ratio > 2.4 {
				t.Errorf("%v: power constant is %.2f of Kienzle", m, ratio)
			}
		}
		forces, err := cutting.ForcesFor(m)
		if err != nil {
			continue
		}
		for _, f := range forces {
			kc, err := k.At(f.Feed)
			if err != nil {
				t.Fatal(err)
			}
			if ratio := float64(f.Pressure / kc); ratio < 0.7 || ratio > 2 {
				t.Errorf("%v at %v: printed %.2f of Kienzle (%v)", m, f.Feed, ratio, f.Refs.First().Title)
			}
		}
	}
	if compared < 8 {
		t.Errorf("%d materials compared", compared)
	}
}

// The names of the trade for one alloy have the figures of their sort.
func TestStandIns(t *testing.T) {
	for name, of := range map[string]string{"cartridge brass": "brass", "aluminium 2014": "aluminium",
		"cold-work tool steel": "tool steel"} {
		k, err1 := cutting.KienzleFor(metal(name))
		want, err2 := cutting.KienzleFor(metal(of))
		if err1 != nil || err2 != nil || k.KC11 != want.KC11 {
			t.Errorf("%s: %v, %v; %v, %v", name, k, err1, want, err2)
		}
	}
	k, err := cutting.KienzleFor(metal("bronze"))
	if err != nil || k.Group != "27" {
		t.Errorf("bronze: %+v, %v", k, err)
	}
	_, err = cutting.UnitPowerFor(metal("cork"))
	if !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "no figure of its power") ||
		!strings.Contains(err.Error(), "phosphor bronze") {
		t.Errorf("cork: %v", err)
	}
}
