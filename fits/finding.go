package fits

import "github.com/valvechest/valvechest/internal/names"

// A Finding is a judgement on a joint: what was found and what it means.
type Finding struct {
	Severity Severity
	Text     string
}

// String returns the severity and the text.
func (f Finding) String() string { return f.Severity.String() + ": " + f.Text }

// A Severity says how much a finding matters.
type Severity int

// The severities.
const (
	Note    Severity = iota // worth knowing
	Caution                 // think before going on
	Stop                    // as it stands it will fail, stick or hurt somebody
)

var severities = names.Set{Package: "fits", Type: "Severity", Field: "severity", Texts: []string{"note", "caution", "stop"}}

// String returns "note", "caution" or "stop".
func (s Severity) String() string { return severities.Text(int(s)) }

// ParseSeverity returns the severity of that name. Another text is an
// [*units.ArgumentError] that lists the accepted ones.
func ParseSeverity(s string) (Severity, error) {
	v, err := severities.Value(s)
	return Severity(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (s Severity) MarshalText() ([]byte, error) { return severities.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Severity) UnmarshalText(text []byte) error { return unmarshal(s, ParseSeverity, text) }
