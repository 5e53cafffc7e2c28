package template

import (
	"slices"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

func TestPunches(t *testing.T) {
	mm := units.MM
	tests := []struct {
		name string
		hole float64
		set  []units.Length
		want float64
	}{
		{"exact", 3.5, nil, 3.5},
		{"next above", 3.4, nil, 3.5},
		{"half a millimetre above", 3.5, []units.Length{mm(4)}, 4},
		{"too large", 3.4, []units.Length{mm(4)}, 0},
		{"too small", 3.4, []units.Length{mm(3)}, 0},
		{"a tenth above a large hole", 20.5, []units.Length{mm(22)}, 22},
		{"in any order", 3.4, []units.Length{mm(4), mm(3.4), mm(3.6)}, 3.4},
		{"none", 3.4, []units.Length{}, 0},
		{"larger than the rack", 40, nil, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o, err := gasket.Round("x", mm(90), units.Length{}, gasket.Pattern{{Diameter: mm(tt.hole)}})
			if err != nil {
				t.Fatal(err)
			}
			got := layoutOf(t, o, Options{Punches: tt.set}).Holes()
			want := []Holes{{Diameter: mm(tt.hole), Count: 1, Punch: mm(tt.want)}}
			if !slices.Equal(got, want) {
				t.Errorf("got %v, want %v", got, want)
			}
		})
	}
}
