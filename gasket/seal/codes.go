package seal

import "github.com/valvechest/valvechest/units/finding"

// What the findings and precautions of the package are about.
const (
	GasketMaterial finding.Code = "gasket-material" // a gasket's material is asked more than sources give it
	OldAsbestos    finding.Code = "old-asbestos"

	// A gasket of another thickness.
	PistonStrikes finding.Code = "piston-may-strike" // the cover
	SpindleHeight finding.Code = "spindle-height"    // over the port face
	ValveRoom     finding.Code = "valve-room"        // under the cover of the chest

	// An O-ring in its groove.
	RingStretch finding.Code = "ring-stretch" // it is stretched too much
	RingLoose   finding.Code = "ring-loose"   // it is larger than what it sits on
	RingSqueeze finding.Code = "ring-squeeze" // it is not squeezed
	RingFill    finding.Code = "ring-fill"    // it fills its groove
	RingFitting finding.Code = "ring-fitting" // it is stretched too much in going over the piston

	// The cutting of a groove and of packing.
	GrooveCorners   finding.Code = "groove-corners"
	GrooveFinish    finding.Code = "groove-finish"
	GrooveFaces     finding.Code = "groove-faces"
	GrooveClearance finding.Code = "groove-clearance"
	NoBackUpRing    finding.Code = "no-back-up-ring"
	PackingRings    finding.Code = "packing-rings"
	PackingYarn     finding.Code = "packing-yarn"
	PackingGland    finding.Code = "packing-gland"
)
