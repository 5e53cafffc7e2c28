package assembly

import (
	"fmt"

	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What the findings and precautions of this package are about.
const (
	// Press
	HubPastStrength   finding.Code = "hub-past-strength" // it yields, or can burst
	ShaftPastStrength finding.Code = "shaft-past-strength"
	PushBends         finding.Code = "push-bends-shaft"
	NearStrength      finding.Code = "near-strength"
	HubUnknown        finding.Code = "hub-strength-unknown"
	BoreCloses        finding.Code = "bore-closes"
	FrictionRecalled  finding.Code = "friction-from-memory"
	ModulusSpread     finding.Code = "modulus-spread"
	PressWork         finding.Code = "press-work"

	// Shrink
	PressedCold     finding.Code = "pressed-cold"
	DoesNotPress    finding.Code = "does-not-press"
	DoesNotEnter    finding.Code = "does-not-enter"
	SticksGoingHome finding.Code = "sticks-going-home"
	LittleClearance finding.Code = "little-clearance-to-drop"
	GrabsEarly      finding.Code = "grabs-early"
	HubTooHot       finding.Code = "hub-too-hot"
	HubMelts        finding.Code = "hub-melts"
	BeyondExpansion finding.Code = "expansion-not-known-there"
	MeanTooWarm     finding.Code = "mean-expansion-too-warm"
	HotMetal        finding.Code = "hot-metal"
	HotPlastic      finding.Code = "hot-plastic"
	HotSeals        finding.Code = "hot-rubber-and-ptfe"
	HotPlating      finding.Code = "hot-plating"
	HotSolvent      finding.Code = "hot-solvent"
	ZincFume        finding.Code = "zinc-fume"
	LeadSweats      finding.Code = "lead-sweats-out"
	ColdMetal       finding.Code = "deeply-cold-metal"
	BoilOff         finding.Code = "cold-gas-displaces-air"

	// Running and RingGap
	SeizesHot       finding.Code = "seizes-hot"
	TightHot        finding.Code = "tight-hot"
	LooseHot        finding.Code = "loose-hot"
	NoClearanceCold finding.Code = "no-clearance-cold"
	AirIsNoProof    finding.Code = "air-is-no-proof"
	RingButts       finding.Code = "ring-butts"
	RingButtsEarly  finding.Code = "ring-butts-in-cold-cylinder"
	RingGapWide     finding.Code = "ring-gap-wide"
	RingGapMissing  finding.Code = "ring-gap-not-given"

	// A piston in its bore
	OutsidePistonRules finding.Code = "outside-piston-rules" // a clearance that no rule of practice has

	// Bond, GrubScrew and Holds
	GapTooSmall      finding.Code = "adhesive-gap-too-small"
	GapTooLarge      finding.Code = "adhesive-gap-too-large"
	TooHotForBond    finding.Code = "too-hot-for-adhesive"
	LongBond         finding.Code = "bond-too-long-to-share"
	AdhesiveRecalled finding.Code = "adhesive-from-memory"
	TakesHold        finding.Code = "adhesive-takes-hold-at-once"
	WetAdhesive      finding.Code = "wet-adhesive"
	HotAdhesive      finding.Code = "hot-adhesive"
	ScrewProportion  finding.Code = "screw-out-of-proportion"
	HoldingSpread    finding.Code = "screw-holding-spread"
	BurrOnShaft      finding.Code = "burr-on-shaft"
	ScrewWorksLoose  finding.Code = "screw-works-loose"
	JointSlips       finding.Code = "joint-slips"
	LittleMargin     finding.Code = "joint-has-little-margin"
)

// said adds a finding with a formatted text.
func said(
	list *finding.List, code finding.Code, severity finding.Severity, format string, args ...any,
) *finding.Finding {
	*list = append(*list, finding.Finding{Code: code, Severity: severity, Text: fmt.Sprintf(format, args...)})
	return &(*list)[len(*list)-1]
}

// care is a precaution of common practice.
func care(code finding.Code, text string) finding.Precaution {
	return finding.Precaution{Code: code, Text: text, Ref: source.Practice()}
}
