package seal

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A StuffingBox is the space round a rod that is packed.
type StuffingBox struct {
	Rod, Bore units.Length // diameters
}

// A Packing is what goes into a stuffing box.
type Packing struct {
	Width              units.Length // of the packing: half the difference of the diameters
	DepthMin, DepthMax units.Length // of the box
	RingsMin, RingsMax int          // square rings of that width
	Cut                units.Length // length to cut each ring, at its mean diameter
	Findings           finding.List // how it is cut and drawn up
	Precautions        []finding.Precaution
	Refs               source.Refs
}

var packingText = source.Ref{
	Kind: source.Published, Title: "Power plant training text on packing and gaskets", Locator: "design chapter",
}

var practice = source.Ref{Kind: source.CommonPractice}

// Packing returns the packing of a stuffing box, whose bore is larger than the
// rod.
//
//	width = (bore - rod) / 2
//	depth = 3 to 5 widths
//	cut   = pi * (bore + rod) / 2
//
// Source: a training text on packing and gaskets for the depth; the rest is
// geometry and common practice. See the example.
func (b StuffingBox) Packing() (Packing, error) {
	if err := fail.Above(fault.Named("rod diameter", b.Rod)); err != nil {
		return Packing{}, err
	}
	if b.Bore.Cmp(b.Rod) <= 0 {
		return Packing{}, fail.OutOfRange("bore of the stuffing box", b.Bore, "above the rod, "+b.Rod.String())
	}
	if err := fail.Above(fault.Named("bore of the stuffing box", b.Bore)); err != nil {
		return Packing{}, err
	}
	w := b.Bore.Sub(b.Rod).Scale(0.5)
	note := func(code finding.Code, text string) finding.Finding {
		return finding.Finding{Code: code, Text: text, Refs: source.Shared(&practice)}
	}
	return Packing{
		Width: w, RingsMin: 3, RingsMax: 5,
		DepthMin: w.Scale(3), DepthMax: w.Scale(5), // training text, design chapter
		Cut: b.Bore.Add(b.Rod).Scale(math.Pi / 2),
		Findings: finding.List{
			note(PackingRings, "Cut the rings square on a rod of the same size, a trifle short, and stagger the joints."),
			note(PackingYarn, "Small rods take twisted PTFE tape or graphited yarn; never old asbestos packing."),
			note(PackingGland, "Bring the gland down finger-tight and no more, and run the engine. Take it up only "+
				"with the engine stopped and the steam shut off: both nuts alike by a flat at a time, then run "+
				"it and look again, until the leak all but stops."),
		},
		Precautions: Precautions(),
		Refs:        source.Shared(&packingText),
	}, nil
}
