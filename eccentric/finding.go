package eccentric

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Finding is something to be said of a gear: that it stops the engine (Fails),
// costs power (Caution) or is worth knowing (Note).
type Finding struct {
	finding.Finding
	End    End          `json:"end"`
	Amount units.Length `json:"amount"` // by how much, along the valve's travel (along the stroke for UnequalCutOff)
	Arc    units.Angle  `json:"arc"`    // crank angle over which it lasts, where the text names one
}

// What a finding is about. Check lists them in this order within one severity: a
// slip in the way the gear is stated first, as grave as the trouble that it
// explains.
const (
	NotAGear           finding.Code = "not-a-gear"            // Gear.Validate refuses the sizes
	OutOfProportion    finding.Code = "out-of-proportion"     // a size does not go with the bore
	AngleFromCrank     finding.Code = "angle-from-crank"      // the advance looks to be counted from the crank, 90 degrees more
	AdvanceOfOtherSign finding.Code = "advance-of-other-sign" // the advance looks to have the wrong sign
	AdvanceForPlace    finding.Code = "advance-for-place"     // where the eccentric stands looks to be the angle of advance
	PlaceOfOtherSign   finding.Code = "place-of-other-sign"   // where the eccentric stands looks to have the wrong sign
	OffsetForTravel    finding.Code = "offset-for-travel"     // the travel looks to be the offset of the sheave
	TravelForOffset    finding.Code = "travel-for-offset"     // the travel looks to have been doubled
	NarrowLand         finding.Code = "narrow-land"           // the land is narrower than the port: S + E < 0
	ThinBars           finding.Code = "thin-bars"             // a bar is less than half as wide as the port
	RunsBackwards      finding.Code = "runs-backwards"        // the eccentric stands for the other direction
	LittleWork         finding.Code = "little-work"           // little or no work, as with the sheave in line with the crank
	OffCentre          finding.Code = "off-centre"            // the valve is set off centre
	LostMotion         finding.Code = "lost-motion"           // the valve follows its eccentric late
	SteamNeverOpens    finding.Code = "steam-never-opens"     // S is not below the valve's reach
	SteamNeverCloses   finding.Code = "steam-never-closes"    // S is below minus the reach
	ExhaustNeverOpens  finding.Code = "exhaust-never-opens"   // E is not below the reach
	ExhaustNeverCloses finding.Code = "exhaust-never-closes"  // E is below minus the reach
	SteamPastValve     finding.Code = "steam-past-valve"      // live steam gets past the valve into the exhaust, or nearly
	FoulsChest         finding.Code = "fouls-chest"           // the valve strikes the end of the chest, or nearly
	OpenAtMidTravel    finding.Code = "open-at-mid-travel"    // E < 0: both ports open to exhaust in mid-travel
	LittleExhaustLap   finding.Code = "little-exhaust-lap"    // E is there, but less than a cavity is held to
	NoSteamLap         finding.Code = "no-steam-lap"          // S < 0: both ports open to steam in mid-travel
	MiddleThrottled    finding.Code = "middle-throttled"      // the valve closes in on the middle port at full travel
	ExhaustPartOpen    finding.Code = "exhaust-part-open"     // the cylinder port is not fully opened to exhaust
	SteamPartOpen      finding.Code = "steam-part-open"       // the cylinder port is not fully opened to steam
	LateSteam          finding.Code = "late-steam"            // the lead is negative
	NoLead             finding.Code = "no-lead"               // the lead is zero
	LargeLead          finding.Code = "large-lead"            // the lead is more than a quarter of the port
	UnequalCutOff      finding.Code = "unequal-cut-off"       // the rods' slant makes the cut-offs differ
	BlindArc           finding.Code = "blind-arc"             // where one cylinder cannot start by itself

	ChosenByRule finding.Code = "chosen-by-rule" // Design: a size was not given and a published rule gives it
	LeftOpen     finding.Code = "left-open"      // Design: something was not wished, and what stands for it
	EndsDiffer   finding.Code = "ends-differ"    // Design: what is not equal at both ends
	WishNotKept  finding.Code = "wish-not-kept"  // Design: the gear of the wish would not work, and another stands for it

	// Of the room of the piston, by Room.Check.
	PistonStrikes    finding.Code = "piston-strikes"    // it reaches a cover before its dead centre
	LittleClearance  finding.Code = "little-clearance"  // less than the least is left between piston and cover when worn
	UnequalClearance finding.Code = "unequal-clearance" // the ends differ by what can be set
	LargeClearance   finding.Code = "large-clearance"   // the space is more than a tenth of the swept volume
)

// known is what there is to each code of the kernel: that of the finding, the
// fault in a few words where a remedy may bring it on, and whether a line drawn
// by common practice decides how far it is one.
var known = [kernel.Codes]struct {
	code       finding.Code
	words      string
	byPractice bool
}{
	kernel.AngleFromCrank:     {AngleFromCrank, "", false},
	kernel.AdvanceOfOtherSign: {AdvanceOfOtherSign, "", false},
	kernel.AdvanceForPlace:    {AdvanceForPlace, "", false},
	kernel.PlaceOfOtherSign:   {PlaceOfOtherSign, "", false},
	kernel.OffsetForTravel:    {OffsetForTravel, "", false},
	kernel.TravelForOffset:    {TravelForOffset, "", false},
	kernel.NarrowLand:         {NarrowLand, "a land narrower than the port", false},
	kernel.ThinBars:           {ThinBars, "thin bars", false},
	kernel.RunsBackwards:      {RunsBackwards, "the other direction of rotation", false},
	kernel.LittleWork:         {LittleWork, "too little work", false},
	kernel.OffCentre:          {OffCentre, "a valve off centre", false},
	kernel.LostMotion:         {LostMotion, "lost motion", true},
	kernel.SteamNeverOpens:    {SteamNeverOpens, "a port that never opens to steam", false},
	kernel.SteamNeverCloses:   {SteamNeverCloses, "a port that never shuts to steam", false},
	kernel.ExhaustNeverOpens:  {ExhaustNeverOpens, "a port that never opens to exhaust", false},
	kernel.ExhaustNeverCloses: {ExhaustNeverCloses, "a port that never shuts to exhaust", false},
	kernel.SteamPastValve:     {SteamPastValve, "live steam past the valve", true},
	kernel.FoulsChest:         {FoulsChest, "a valve that fouls the chest", true},
	kernel.OpenAtMidTravel:    {OpenAtMidTravel, "ports open to exhaust in mid-travel", true},
	kernel.LittleExhaustLap:   {LittleExhaustLap, "an exhaust lap too little to be held", true},
	kernel.NoSteamLap:         {NoSteamLap, "ports open to steam in mid-travel", false},
	kernel.MiddleThrottled:    {MiddleThrottled, "a throttled middle port", true},
	kernel.ExhaustPartOpen:    {ExhaustPartOpen, "a port partly open to exhaust", true},
	kernel.SteamPartOpen:      {SteamPartOpen, "a port partly open to steam", true},
	kernel.LateSteam:          {LateSteam, "late steam", true},
	kernel.NoLead:             {NoLead, "no lead", true},
	kernel.LargeLead:          {LargeLead, "a large lead", true},
	kernel.UnequalCutOff:      {UnequalCutOff, "unequal cut-offs", true},
	kernel.BlindArc:           {BlindArc, "a blind arc", false},
}

var severities = [...]finding.Severity{
	kernel.Worth: finding.Note,
	kernel.Costs: finding.Caution,
	kernel.Stops: finding.Fails,
}

var practice = source.Ref{Kind: source.CommonPractice}

// wordsOf returns what a code is called in a few words.
func wordsOf(code finding.Code) string {
	for _, k := range known {
		if k.code == code {
			return k.words
		}
	}
	return string(code)
}
