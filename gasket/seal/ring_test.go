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
		ring, err := LookupRing(r.Text("size"))
		if err != nil {
			t.Fatal(err)
		}
		r.Within("inside_mm", ring.Inside.MM(), 0.0055) // size 113, 13.9446 mm, is rounded up to 13.95
		r.Compare("section_mm", ring.Section.MM())
		if !strings.Contains(ring.Refs.First().Note, "agree with a table in millimetres") {
			t.Errorf("%s: the row does not say that it was confirmed", r.ID)
		}
	}
	small := math.NaN()
	if r, err := LookupRing("104"); err == nil {
		small = r.Inside.Inch()
	}
	check.Errata(t, "gasket/seal", map[string]float64{"oring-104-inside": small})
	for _, ring := range Rings() {
		if ring.Refs.First().Kind != source.FromMemory {
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
