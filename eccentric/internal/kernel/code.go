package kernel

// A Code is something that may be wrong with a gear or worth knowing of it.
type Code uint8

// The codes. A slip of statement comes before the trouble that it explains, and
// of two that may go together the part at fault before what follows from it.
const (
	AngleFromCrank     Code   = iota // the advance looks to be counted from the crank, 90 degrees more
	AdvanceOfOtherSign               // the advance looks to have the wrong sign
	AdvanceForPlace                  // the place of the eccentric looks to be the angle of advance
	PlaceOfOtherSign                 // the place of the eccentric looks to have the wrong sign
	OffsetForTravel                  // the travel looks to be the sheave's offset
	TravelForOffset                  // the travel looks to have been doubled, as if it were the offset
	NarrowLand                       // the land is narrower than the port: S + E < 0
	ThinBars                         // a bar is less than half as wide as the port
	RunsBackwards                    // the eccentric stands for the other direction
	LittleWork                       // little or no work, as with the eccentric in line with the crank
	OffCentre                        // the valve is set off centre
	LostMotion                       // the valve follows its eccentric late
	SteamNeverOpens                  // S is not below the valve's reach
	SteamNeverCloses                 // S is below minus the reach
	ExhaustNeverOpens                // E is not below the reach
	ExhaustNeverCloses               // E is below minus the reach
	SteamPastValve                   // live steam gets round the valve's edge into the exhaust, or nearly
	FoulsChest                       // the valve strikes the end of the chest, or nearly
	OpenAtMidTravel                  // E < 0: both ports open to exhaust in mid-travel
	LittleExhaustLap                 // E is there, but less than a cavity is held to
	NoSteamLap                       // S < 0: both ports open to steam in mid-travel
	MiddleThrottled                  // the valve closes in on the middle port at full travel
	ExhaustPartOpen                  // the cylinder port is not fully opened to exhaust
	SteamPartOpen                    // the cylinder port is not fully opened to steam
	LateSteam                        // the lead is negative
	NoLead                           // the lead is zero
	LargeLead                        // the lead is more than a quarter of the port
	UnequalCutOff                    // the rods' slant makes the cut-offs differ
	BlindArc                         // where one cylinder cannot start by itself
	Codes              = iota        // how many

	Faults = NarrowLand // the first code that is not a slip of statement
)

var codes = [Codes]string{
	AngleFromCrank:     "angle-from-crank",
	AdvanceOfOtherSign: "advance-of-other-sign",
	AdvanceForPlace:    "advance-for-place",
	PlaceOfOtherSign:   "place-of-other-sign",
	OffsetForTravel:    "offset-for-travel",
	TravelForOffset:    "travel-for-offset",
	NarrowLand:         "narrow-land",
	ThinBars:           "thin-bars",
	RunsBackwards:      "runs-backwards",
	LittleWork:         "little-work",
	OffCentre:          "off-centre",
	LostMotion:         "lost-motion",
	SteamNeverOpens:    "steam-never-opens",
	SteamNeverCloses:   "steam-never-closes",
	ExhaustNeverOpens:  "exhaust-never-opens",
	ExhaustNeverCloses: "exhaust-never-closes",
	SteamPastValve:     "steam-past-valve",
	FoulsChest:         "fouls-chest",
	OpenAtMidTravel:    "open-at-mid-travel",
	LittleExhaustLap:   "little-exhaust-lap",
	NoSteamLap:         "no-steam-lap",
	MiddleThrottled:    "middle-throttled",
	ExhaustPartOpen:    "exhaust-part-open",
	SteamPartOpen:      "steam-part-open",
	LateSteam:          "late-steam",
	NoLead:             "no-lead",
	LargeLead:          "large-lead",
	UnequalCutOff:      "unequal-cut-off",
	BlindArc:           "blind-arc",
}

// String returns the code of the finding that says it.
func (c Code) String() string {
	if int(c) < len(codes) {
		return codes[c]
	}
	return "none"
}
