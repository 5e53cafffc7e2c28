package thread

import "github.com/valvechest/valvechest/units/finding"

// What this package says of sound sizes.
const (
	// Of a tapping drill. One that suits has no finding but a note: it leaves enough
	// depth, and not so much that the tap is in danger.
	ShallowThread  finding.Code = "shallow-thread"   // below half of the full depth, 45 % in hard metal: weak
	TightDrill     finding.Code = "tight-drill"      // over the limit for size and material: the tap may break
	SmallDrill     finding.Code = "drill-too-small"  // below the minor diameter of the nut: not for a cutting tap
	OutsideClass   finding.Code = "outside-class"    // suits, over what the usual class of nut allows: not for a gauge
	NoTappingDrill finding.Code = "no-tapping-drill" // none of the drills there are suits

	// Of a hole for a forming tap: none of the drills there are makes it.
	NoFormingDrill finding.Code = "no-forming-drill"

	// Of a drill for a taper pipe.
	PipeLeaks      finding.Code = "pipe-thread-leaks" // no turn of the thread is whole, or a parallel hole is too large
	PartPipeThread finding.Code = "part-pipe-thread"  // less of it is whole than is wanted

	// Of a blind hole: the lead of the tap and the chips take all of it.
	NoThread finding.Code = "no-thread-in-blind-hole"

	// Of the metal below a blind hole: the drill's point comes through it, or nearly.
	HoleBreaksThrough finding.Code = "hole-breaks-through"
	ThinBelowHole     finding.Code = "thin-below-hole"

	// Of a clearance hole.
	TightClearance   finding.Code = "tight-clearance"    // it forgives little, and many must agree
	NoClearanceDrill finding.Code = "no-clearance-drill" // none of the drills there are makes it
)
