package speeds

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/units"
)

// nameOf returns the name of an enumerated value, or the type and number of one
// that has none.
func nameOf(names []string, i int, kind string) string {
	if i <= 0 || i >= len(names) {
		return fmt.Sprintf("%s(%d)", kind, i)
	}
	return names[i]
}

// parseName returns the number of a name in any case, with hyphens as spaces.
func parseName(names []string, field, s string) (int, error) {
	if i := slices.Index(names, s); i > 0 { // as the tables have it
		return i, nil
	}
	wanted := plain(s)
	if i := slices.IndexFunc(names, func(name string) bool { return plain(name) == wanted }); i > 0 {
		return i, nil
	}
	return 0, bad(field, quote(s), "", strings.Join(names[1:], ", "), units.ErrUnknown)
}

func marshalName(names []string, i int, field string) ([]byte, error) {
	if i <= 0 || i >= len(names) {
		return nil, bad(field, fmt.Sprint(i), "", strings.Join(names[1:], ", "), units.ErrUnknown)
	}
	return []byte(names[i]), nil
}

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
