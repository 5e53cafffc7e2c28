package eccentric

import (
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// names are the texts of an enumeration, in order from zero.
type names struct {
	what  string
	texts []string
}

func (n names) text(i int) string {
	if i < 0 || i >= len(n.texts) {
		return n.what + " " + strconv.Itoa(i)
	}
	return n.texts[i]
}

func (n names) set(i *int, text []byte) error {
	for k, s := range n.texts {
		if s == string(text) {
			*i = k
			return nil
		}
	}
	return &units.ArgumentError{Package: "eccentric", Field: n.what, Value: strconv.Quote(string(text)), Accepted: strings.Join(n.texts, ", "), Err: units.ErrUnknown}
}
