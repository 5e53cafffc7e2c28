package material

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Family is the sort of a material, as far as rules of the trade go by sort.
type Family int

// The families. The zero value is none.
const (
	Steel Family = iota + 1
	Stainless
	Iron
	Brass
	Bronze
	Copper
	Aluminium
	Nickel
	Plastic
)

var families = [...]string{"none", "steel", "stainless", "iron", "brass", "bronze", "copper", "aluminium", "nickel", "plastic"}

// String returns "steel", "stainless", "iron", "brass", "bronze", "copper",
// "aluminium", "nickel", "plastic", or "none" for the zero value.
func (f Family) String() string {
	if f < 0 || int(f) >= len(families) {
		return fmt.Sprintf("Family(%d)", int(f))
	}
	return families[f]
}

// ParseFamily returns the family of that name; see [Family.String]. Another
// text is an [*units.ArgumentError] that lists the accepted ones.
func ParseFamily(s string) (Family, error) {
	if i := slices.Index(families[:], s); i > 0 {
		return Family(i), nil
	}
	return 0, &units.ArgumentError{Package: "material", Field: "family", Value: fmt.Sprintf("%q", s), Accepted: strings.Join(families[1:], ", "), Err: units.ErrUnknown}
}

// MarshalText implements [encoding.TextMarshaler].
func (f Family) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Family) UnmarshalText(text []byte) error {
	v, err := ParseFamily(string(text))
	if err == nil {
		*f = v
	}
	return err
}
