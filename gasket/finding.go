package gasket

import (
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units/source"
)

// A Finding is something worth saying about a gasket or its joint.
type Finding struct {
	Severity Severity
	Text     string     // one plain sentence or two
	Remedy   string     // what puts it right; blank if nothing need be done
	Ref      source.Ref // where the rule comes from
}

// String returns the severity, the text, the remedy and the source in one line.
func (f Finding) String() string {
	text := strings.TrimSuffix(f.Severity.String()+": "+f.Text+" "+f.Remedy, " ")
	if f.Ref != (source.Ref{}) {
		text += " (" + f.Ref.String() + ")"
	}
	return text
}

// A Severity says what a finding does.
type Severity int

// The severities, the worst first.
const (
	Unsafe       Severity = iota // it can hurt somebody
	Fails                        // the joint leaks, tears or does not go together
	WorthKnowing                 // mind it
)

var severityNames = names.Set{Package: "gasket", Type: "Severity", Field: "severity", Texts: []string{"unsafe", "fails", "worth knowing"}}

// String returns "unsafe", "fails" or "worth knowing".
func (s Severity) String() string { return severityNames.Text(int(s)) }

// MarshalText implements [encoding.TextMarshaler].
func (s Severity) MarshalText() ([]byte, error) { return severityNames.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Severity) UnmarshalText(text []byte) error { return names.Unmarshal(&severityNames, s, text) }
