package fits

import "github.com/valvechest/valvechest/units/finding"

// What the findings of this package are about.
const (
	LimitsRecalled finding.Code = "limits-from-memory"   // hold them against the standard
	OutsideWanted  finding.Code = "outside-wanted"       // the clearance may lie outside what is wanted
	BeyondPress    finding.Code = "beyond-any-press-fit" // far more interference than any press fit of a standard

	BeyondPressRules finding.Code = "beyond-press-rules" // more than the rules of the trade, not than a standard
	GivesAtBore      finding.Code = "gives-at-bore"      // the tightest parts strain mild steel past its yield

	LocatesOnly finding.Code = "locates-only"          // too little interference to carry anything
	PressFit    finding.Code = "press-fit-closes-bore" // a press fit, which closes the bore of a bush
)
