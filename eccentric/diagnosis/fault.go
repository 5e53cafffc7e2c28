package diagnosis

import "github.com/valvechest/valvechest/internal/names"

// A Fault is what can be wrong with a valve gear. It goes by the name that JSON
// has for it; the zero Fault is none.
type Fault int

// The faults. Those of a lap are of one end or of both, the others of both.
const (
	AsDrawn         Fault = iota + 1 // nothing beyond the tolerances
	WrongAdvance                     // the sheave stands at another angle
	ValveOffCentre                   // the valve is off centre on its rod
	WrongTravel                      // the sheave has another offset
	WrongSteamLap                    // at both ends the valve, at one the edge of a port
	WrongExhaustLap                  // at both ends the cavity, at one the edge of a port
	LostMotion                       // the valve follows late
	OtherHand                        // the sheave is mirrored about the crank: 180 degrees - d
	HalfTurnOut                      // the sheave is opposite its place: d - 180 degrees
	InLine                           // it is in line with the crank: 90 or -90 degrees for d
	NoAdvance                        // it is square to the crank: nothing for d
)

var faultNames = names.Set{Package: "diagnosis", Type: "Fault", Field: "fault", Texts: []string{
	AsDrawn: "as_drawn", WrongAdvance: "advance", ValveOffCentre: "valve_off_centre", WrongTravel: "travel",
	WrongSteamLap: "steam_lap", WrongExhaustLap: "exhaust_lap", LostMotion: "lost_motion",
	OtherHand: "eccentric_other_hand", HalfTurnOut: "eccentric_opposite",
	InLine: "eccentric_in_line", NoAdvance: "eccentric_no_advance",
}}

// Faults returns all of them.
func Faults() []Fault {
	var all []Fault
	for f := AsDrawn; faultNames.Known(int(f)); f++ {
		all = append(all, f)
	}
	return all
}

// String returns the name: "valve_off_centre".
func (f Fault) String() string { return faultNames.Text(int(f)) }

// ParseFault returns the fault of that name, in capitals or not; see
// [Fault.String]. Another text is a [*units.ParseError] that lists them.
func ParseFault(name string) (Fault, error) {
	v, err := faultNames.Value(name)
	return Fault(v), err
}

// MarshalText implements [encoding.TextMarshaler]; no fault has blank text.
func (f Fault) MarshalText() ([]byte, error) { return faultNames.Marshal(int(f)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Fault) UnmarshalText(text []byte) error { return names.Unmarshal(&faultNames, f, text) }

// OfSheave reports whether the fault is where the sheave stands on the shaft, so
// that turning it is the cure.
func (f Fault) OfSheave() bool { return f == WrongAdvance || f >= OtherHand }
