package finding

import "github.com/valvechest/valvechest/internal/names"

// A Severity says how much a finding matters.
type Severity int

// The severities, from the least.
const (
	Note    Severity = iota // worth knowing
	Caution                 // it costs power, accuracy or life
	Fails                   // it will not work
	Danger                  // it can hurt somebody
)

var severities = names.Set{Package: "finding", Type: "Severity", Field: "severity", Texts: []string{"note", "caution", "fails", "danger"}}

// Severities returns all of them, from the least.
func Severities() []Severity { return []Severity{Note, Caution, Fails, Danger} }

// String returns "note", "caution", "fails" or "danger".
func (s Severity) String() string { return severities.Text(int(s)) }

// ParseSeverity returns the severity of that name; another text is a
// [*units.ParseError] that lists them.
func ParseSeverity(s string) (Severity, error) {
	v, err := severities.Value(s)
	return Severity(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (s Severity) MarshalText() ([]byte, error) { return severities.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Severity) UnmarshalText(text []byte) error { return names.Unmarshal(&severities, s, text) }
