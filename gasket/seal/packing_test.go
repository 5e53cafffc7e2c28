package seal

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// A 1/4 in rod in a box bored 7/16 in: packing of 3/32 in, 9/32 to 15/32 in deep,
// rings of pi times 11/32 in. Geometry.
func TestPacking(t *testing.T) {
	p, err := StuffingBox{Rod: units.InchFraction(1, 4), Bore: units.InchFraction(7, 16)}.Packing()
	if err != nil {
		t.Fatal(err)
	}
	if p.Width != units.InchFraction(3, 32) || p.DepthMin != units.InchFraction(9, 32) || p.DepthMax != units.InchFraction(15, 32) {
		t.Errorf("%+v", p)
	}
	if math.Abs(p.Cut.Inch()-math.Pi*11/32) > 1e-9 || !strings.Contains(fmt.Sprint(p.Findings), "never old asbestos") || p.Precautions[0].Code != OldAsbestos {
		t.Errorf("cut %v, findings %v", p.Cut, p.Findings)
	}
}

// A box of 4 in round a shaft of 2 in, as a maintenance book packs it; the length of its
// ring is misprinted, see errata.csv.
func TestPackingPrinted(t *testing.T) {
	f := check.Open(t, "gasket/seal/packing_cut.csv")
	for r := range f.Rows() {
		p, err := StuffingBox{Rod: units.Inch(r.Float("rod_in")), Bore: units.Inch(r.Float("bore_in"))}.Packing()
		if err != nil {
			t.Fatal(err)
		}
		r.Within("width_in", p.Width.Inch(), 0)                // exact
		r.Within("centre_in", p.Cut.Inch()/math.Pi, 0.0000001) // the cut is a whole number of picometres
	}
}

func TestPackingRefuses(t *testing.T) {
	second := check.Only
	check.Refuses(t, "endless box", second(StuffingBox{Rod: units.MM(6), Bore: units.Picometres(math.MaxInt64)}.Packing()), units.ErrOutOfRange, "bore of the stuffing box")
	check.Refuses(t, "no stuffing box", second(StuffingBox{}.Packing()), units.ErrOutOfRange, "rod diameter")
	check.Refuses(t, "box below the rod", second(StuffingBox{Rod: units.MM(6), Bore: units.MM(6)}.Packing()), units.ErrOutOfRange, "bore of the stuffing box")
}
