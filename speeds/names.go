package speeds

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/units"
)

// plain returns the form of a name that lookups go by: lower case, hyphens and
// underscores as spaces, one space between words.
func plain(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == '-' || r == '_' || unicode.IsSpace(r) }), " ")
}

func quote(s string) string {
	if len(s) > 40 {
		s = s[:40] + "..."
	}
	return fmt.Sprintf("%q", s)
}

func bad(field, value, problem, accepted string, err error) error {
	return &units.ArgumentError{Package: "speeds", Field: field, Value: value, Problem: problem, Accepted: accepted, Err: err}
}
