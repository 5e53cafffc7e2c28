package symptom

import "github.com/valvechest/valvechest/internal/names"

// An Effort is what a test takes.
type Effort int

// The efforts, the least first. The zero value is none.
const (
	Watch      Effort = iota + 1 // look or listen for another symptom
	ByHand                       // engine stopped, no air on, nothing undone
	TakenApart                   // the same, with a joint undone or something set
	WithAir                      // low-pressure air, the flywheel blocked
	Opened                       // no air on, a cover off
	AtRun                        // the engine runs: clear of what turns
)

var effortNames = names.Set{Package: "symptom", Type: "Effort", Field: "effort", Texts: []string{"",
	"watch", "by hand", "taken apart", "with air", "opened", "running",
}}

// Efforts returns all of them, the least first.
func Efforts() []Effort { return []Effort{Watch, ByHand, TakenApart, WithAir, Opened, AtRun} }

// String returns the effort in a word or two, such as "by hand".
func (e Effort) String() string { return effortNames.Text(int(e)) }

// ParseEffort returns the effort of that name; see [Effort.String]. Another text is a
// [*units.ParseError] that lists them.
func ParseEffort(name string) (Effort, error) {
	v, err := effortNames.Value(name)
	return Effort(v), err
}

// MarshalText implements [encoding.TextMarshaler]; no effort has blank text.
func (e Effort) MarshalText() ([]byte, error) { return effortNames.Marshal(int(e)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (e *Effort) UnmarshalText(text []byte) error { return names.Unmarshal(&effortNames, e, text) }
