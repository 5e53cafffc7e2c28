package gasket

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Finding is something worth saying about a gasket or its joint.
type Finding struct {
	Severity Severity
	Text     string     // one plain sentence or two
	Remedy   string     // what puts it right; blank if nothing need be done
	Ref      source.Ref // where the rule comes from
}

// A Severity says what a finding does.
type Severity int

// The severities, the worst first.
const (
	Unsafe       Severity = iota // it can hurt somebody
	Fails                        // the joint leaks, tears or does not go together
	WorthKnowing                 // mind it
)

var severities = [...]string{"unsafe", "fails", "worth knowing"}

// String returns "unsafe", "fails" or "worth knowing".
func (s Severity) String() string {
	if s < 0 || int(s) >= len(severities) {
		return fmt.Sprintf("Severity(%d)", int(s))
	}
	return severities[s]
}

// ParseSeverity returns the severity of that name; see [Severity.String].
func ParseSeverity(s string) (Severity, error) {
	for v, name := range severities {
		if name == s {
			return Severity(v), nil
		}
	}
	return 0, &units.ParseError{Quantity: "severity", Text: s, Problem: "unknown", Accepted: strings.Join(severities[:], ", "), Err: units.ErrUnknown}
}

// MarshalText implements [encoding.TextMarshaler].
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Severity) UnmarshalText(text []byte) error {
	v, err := ParseSeverity(string(text))
	if err == nil {
		*s = v
	}
	return err
}
