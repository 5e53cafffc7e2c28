package fits

import "github.com/valvechest/valvechest/internal/names"

// A Basis says which of the two parts is made to the size itself, so that one
// reamer, or one bar, serves for many fits.
type Basis int

// The bases. Hole basis, the zero value, is the usual one: the hole is reamed H
// and the shaft turned to suit. Shaft basis is for bright and ground bar.
const (
	HoleBasis Basis = iota
	ShaftBasis
)

var bases = names.Set{Package: "fits", Type: "Basis", Field: "basis", Texts: []string{"hole basis", "shaft basis"}}

// Bases returns both.
func Bases() []Basis { return []Basis{HoleBasis, ShaftBasis} }

// String returns "hole basis" or "shaft basis".
func (b Basis) String() string { return bases.Text(int(b)) }

// ParseBasis returns the basis of that name.
func ParseBasis(s string) (Basis, error) {
	v, err := bases.Value(s)
	return Basis(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (b Basis) MarshalText() ([]byte, error) { return bases.Marshal(int(b)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (b *Basis) UnmarshalText(text []byte) error { return names.Unmarshal(&bases, b, text) }
