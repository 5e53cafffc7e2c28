package seal

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

func TestRings(t *testing.T) {
	f := check.Open(t, "gasket/seal/oring.csv")
	for r := range f.Rows() {
		if r.Has("size") {
			ring, err := LookupRing(r.Text("size"))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("inside_in", ring.Inside.Inch())
			if r.Has("section_in") {
				r.Compare("section_in", ring.Section.Inch())
			}
			continue
		}
		alike := 0
		for _, ring := range Rings() {
			if math.Abs(ring.Section.Inch()-r.Float("section_in")) < 1e-9 {
				r.Compare("section_tolerance_in", ring.SectionTolerance.Inch())
				alike++
			}
		}
		if alike < 12 {
			t.Errorf("%s: %d rings of that section", r.ID, alike)
		}
	}
	small := math.NaN()
	if r, err := LookupRing("104"); err == nil {
		small = r.Inside.Inch()
	}
	check.Errata(t, "gasket/seal", map[string]float64{"oring-104-inside": small})
	for _, ring := range Rings() {
		if ring.Refs.First().Kind != source.FromMemory || ring.Refs.First().Note != "" {
			t.Errorf("%s: %v", ring.Size, ring.Refs)
		}
	}
	// The same chart has a size 200, which there is not.
	var bad *units.ParseError
	if _, err := LookupRing("200"); !errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) {
		t.Errorf("200: %v", err)
	}
	for text, near := range map[string]string{"-012": "012", "12": "012", "0230": "230", "0": "", "": ""} {
		if _, err := LookupRing(text); !errors.As(err, &bad) || strings.Join(bad.Near, " ") != near {
			t.Errorf("%q: %v, want %q near it", text, err, near)
		}
	}
}
