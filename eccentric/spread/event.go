package spread

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/names"
)

// An Event is one of the four that an end of the cylinder has in a turn. The zero
// Event is none.
type Event int

// The events, in the order of one turn.
const (
	Admission Event = iota + 1
	CutOff
	Release
	Compression
)

var eventNames = names.Set{Package: "spread", Type: "Event", Field: "event",
	Texts: []string{Admission: "admission", CutOff: "cut-off", Release: "release", Compression: "compression"}}

// Events returns all of them.
func Events() []Event { return []Event{Admission, CutOff, Release, Compression} }

// String returns "admission", "cut-off", "release" or "compression".
func (e Event) String() string { return eventNames.Text(int(e)) }

// ParseEvent returns the event of that name, in capitals or not; see
// [Event.String]. Another text is a [*units.ParseError] that lists them.
func ParseEvent(name string) (Event, error) {
	v, err := eventNames.Value(name)
	return Event(v), err
}

// MarshalText implements [encoding.TextMarshaler]; no event has blank text.
func (e Event) MarshalText() ([]byte, error) { return eventNames.Marshal(int(e)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (e *Event) UnmarshalText(text []byte) error { return names.Unmarshal(&eventNames, e, text) }

// out reports whether the valve passes on its way towards opening the end to steam.
func (e Event) out() bool { return e == Admission || e == Compression }

// of returns the event among those of an end.
func (e Event) of(end *kernel.EndEvents) *kernel.Event {
	return [...]*kernel.Event{&end.Admission, &end.CutOff, &end.Release, &end.Compression}[e-Admission]
}

// At returns how one event spreads; the zero EventSpread of none.
func (s EndSpread) At(e Event) EventSpread {
	if !eventNames.Known(int(e)) {
		return EventSpread{}
	}
	return [...]EventSpread{s.Admission, s.CutOff, s.Release, s.Compression}[e-Admission]
}
