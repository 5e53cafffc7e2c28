package seal

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A StuffingBox is the space round a rod that is packed.
type StuffingBox struct {
	Rod, Bore units.Length // diameters
}

// A Packing is what goes into a stuffing box.
type Packing struct {
	Width                 units.Length // of the packing: half the difference of the diameters
	DepthLeast, DepthMost units.Length // of the box
	RingsLeast, RingsMost int          // square rings of that width
	Cut                   units.Length // length to cut each ring, at its mean diameter
	Advice                []string
	Ref                   source.Ref
}

// Packing returns the packing of a stuffing box.
//
//	width = (bore - rod)/2    depth = 3 to 5 widths    cut = pi (bore + rod)/2
//
// The bore is larger than the rod. Source: a training text on packing and
// gaskets for the depth; the rest is geometry and common practice. Anything
// else is an [*units.ArgumentError].
func (b StuffingBox) Packing() (Packing, error) {
	if err := positive("rod diameter", b.Rod); err != nil {
		return Packing{}, err
	}
	if b.Bore.Cmp(b.Rod) <= 0 {
		return Packing{}, bad("bore of the stuffing box", b.Bore.String(), "above the rod, "+b.Rod.String())
	}
	if err := notLong("bore of the stuffing box", b.Bore); err != nil {
		return Packing{}, err
	}
	w := b.Bore.Sub(b.Rod).Scale(0.5)
	return Packing{
		Width: w, DepthLeast: w.Scale(3), DepthMost: w.Scale(5), RingsLeast: 3, RingsMost: 5,
		Cut: b.Bore.Add(b.Rod).Scale(math.Pi / 2),
		Advice: []string{
			"Cut the rings square on a rod of the same size, a trifle short, and stagger the joints.",
			"Small rods: twisted PTFE tape or graphited yarn; never old asbestos packing.",
			"Bring the gland down finger-tight and no more, run the engine, and take up a little at a time until the leak all but stops.",
		},
		Ref: source.Ref{Kind: source.Published, Title: "Power plant training text on packing and gaskets", Locator: "design chapter"},
	}, nil
}
