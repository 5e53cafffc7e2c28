package eccentric

import (
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Finding is something that [Gear.Check] has to say about a gear.
type Finding struct {
	Kind     FindingKind
	Severity Severity
	End      End
	Amount   units.Length // by how much, along the valve's travel (along the stroke for UnequalCutOff)
	Arc      units.Angle  // crank angle over which it lasts, where the text names one
	Text     string       // one plain sentence or two
	Remedy   string       // what puts it right, with the size; blank if nothing need be done
}

// String returns the severity, the text and the remedy in one line.
func (f Finding) String() string {
	return strings.TrimSuffix(f.Severity.String()+": "+f.Text+" "+f.Remedy, " ")
}

// A Severity says what a finding does to the engine.
type Severity int

// The severities, the worst first.
const (
	StopsEngine Severity = iota
	CostsPower
	WorthKnowing
)

var severityNames = names.Set{Package: "eccentric", Type: "Severity", Field: "severity", Texts: []string{"stops the engine", "costs power", "worth knowing"}}

// String returns "stops the engine", "costs power" or "worth knowing".
func (s Severity) String() string { return severityNames.Text(int(s)) }

// MarshalText implements [encoding.TextMarshaler].
func (s Severity) MarshalText() ([]byte, error) { return severityNames.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Severity) UnmarshalText(text []byte) error { return names.Unmarshal(&severityNames, s, text) }

// A FindingKind says what a finding is about.
type FindingKind int

// The kinds of findings, in the order in which Check lists them within one
// severity.
const (
	NotAGear           FindingKind = iota // Gear.Validate refuses the sizes
	NarrowLand                            // the land is narrower than the port: S + E < 0
	RunsBackwards                         // the eccentric stands for the other direction
	SteamNeverOpens                       // S is not below the valve's reach
	SteamNeverCloses                      // S is below minus the reach
	ExhaustNeverOpens                     // E is not below the reach
	ExhaustNeverCloses                    // E is below minus the reach
	SteamPastValve                        // live steam gets round the valve's edge into the exhaust, or nearly
	FoulsChest                            // the valve strikes the end of the chest, or nearly
	OpenAtMidTravel                       // E < 0: both ports open to exhaust in mid-travel
	NoSteamLap                            // S < 0: both ports open to steam in mid-travel
	MiddleThrottled                       // the valve closes in on the middle port at full travel
	ExhaustPartOpen                       // the cylinder port is not fully opened to exhaust
	SteamPartOpen                         // the cylinder port is not fully opened to steam
	LateSteam                             // the lead is negative
	NoLead                                // the lead is zero
	LargeLead                             // the lead is more than a quarter of the port
	OffCentre                             // the valve is set off centre
	UnequalCutOff                         // the rods' slant makes the cut-offs differ
	BlindArc                              // where one cylinder cannot start by itself
)

var findingKindNames = names.Set{Package: "eccentric", Type: "FindingKind", Field: "kind of finding", Texts: []string{
	"not a gear",
	"land narrower than port",
	"runs backwards",
	"steam port never opens",
	"steam port never closes",
	"exhaust never opens",
	"exhaust never closes",
	"steam past the valve",
	"valve fouls chest",
	"open to exhaust at mid-travel",
	"open to steam at mid-travel",
	"middle port throttled",
	"exhaust partly open",
	"steam port partly open",
	"late steam",
	"no lead",
	"large lead",
	"valve off centre",
	"unequal cut-off",
	"blind arc",
}}

// String returns the kind in a few plain words, such as "land narrower than
// port".
func (k FindingKind) String() string { return findingKindNames.Text(int(k)) }

// MarshalText implements [encoding.TextMarshaler].
func (k FindingKind) MarshalText() ([]byte, error) { return findingKindNames.Marshal(int(k)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (k *FindingKind) UnmarshalText(text []byte) error {
	return names.Unmarshal(&findingKindNames, k, text)
}
