package material

import "github.com/valvechest/valvechest/internal/names"

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
	Zinc
	Plastic
	Rubber
	Sheet // paper and jointing, that gaskets are cut from
)

var families = names.Set{Package: "material", Type: "Family", Field: "family", Texts: []string{
	Steel: "steel", Stainless: "stainless", Iron: "iron", Brass: "brass", Bronze: "bronze", Copper: "copper",
	Aluminium: "aluminium", Nickel: "nickel", Zinc: "zinc", Plastic: "plastic", Rubber: "rubber", Sheet: "sheet",
}}

// Families returns all of them, in order.
func Families() []Family {
	return []Family{Steel, Stainless, Iron, Brass, Bronze, Copper, Aluminium, Nickel, Zinc, Plastic, Rubber, Sheet}
}

// String returns "steel", "stainless", "iron", "brass", "bronze", "copper",
// "aluminium", "nickel", "zinc", "plastic", "rubber" or "sheet".
func (f Family) String() string { return families.Text(int(f)) }

// ParseFamily returns the family of that name; see [Family.String]. Another
// text is a [*units.ParseError] that lists them.
func ParseFamily(s string) (Family, error) {
	v, err := families.Value(s)
	return Family(v), err
}

// MarshalText implements [encoding.TextMarshaler]; the zero value, which is no
// family, has blank text.
func (f Family) MarshalText() ([]byte, error) { return families.Marshal(int(f)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Family) UnmarshalText(text []byte) error { return names.Unmarshal(&families, f, text) }
