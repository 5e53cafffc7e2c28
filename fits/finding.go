package fits

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

var severities = []string{"note", "caution", "stop"}

// String returns "note", "caution" or "stop".
func (s Severity) String() string { return name(severities, int(s), "Severity") }

// ParseSeverity returns the severity of that name.
func ParseSeverity(s string) (Severity, error) {
	return parseName[Severity](severities, 0, s, "severity")
}

// MarshalText implements [encoding.TextMarshaler].
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Severity) UnmarshalText(text []byte) error { return unmarshal(s, ParseSeverity, text) }
