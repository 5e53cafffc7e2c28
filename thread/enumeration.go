package thread

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// An enumeration holds the names of a type for its String, Parse and text
// methods.
type enumeration struct {
	kind  string   // the Go type, for values without a name: "Basis(7)"
	field string   // what an error calls it
	list  []string // by value, blank for a value that has none
}

func (e *enumeration) known(v int) bool { return v >= 0 && v < len(e.list) && e.list[v] != "" }

func (e *enumeration) name(v int) string {
	if !e.known(v) {
		return fmt.Sprintf("%s(%d)", e.kind, v)
	}
	return e.list[v]
}

// value returns the value of a name, in capitals or not.
func (e *enumeration) value(name string) (int, error) {
	for v, known := range e.list {
		if known != "" && strings.EqualFold(known, strings.TrimSpace(name)) {
			return v, nil
		}
	}
	return 0, e.unknown(fmt.Sprintf("%q", name))
}

func (e *enumeration) text(v int) ([]byte, error) {
	if !e.known(v) {
		return nil, e.unknown(e.name(v))
	}
	return []byte(e.list[v]), nil
}

// unknown is the error for a value or a name that the enumeration does not have.
func (e *enumeration) unknown(value string) error {
	var accepted []string
	between := ", "
	for _, name := range e.list {
		if name == "" {
			continue
		}
		accepted = append(accepted, name)
		if strings.Contains(name, ",") {
			between = "; "
		}
	}
	return argument(e.field, value, strings.Join(accepted, between), units.ErrUnknown)
}

// unmarshal sets a value to what parse reads, and leaves it alone on an error.
func unmarshal[T any](v *T, text []byte, parse func(string) (T, error)) error {
	parsed, err := parse(string(text))
	if err == nil {
		*v = parsed
	}
	return err
}
