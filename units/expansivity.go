package units

// An Expansivity is a coefficient of linear thermal expansion, the share of its
// length that a part grows per kelvin. It is held in 1/K.
type Expansivity float64

// Units of linear expansion. A millionth per kelvin is a micrometre per metre
// and kelvin.
const (
	PerKelvin           Expansivity = 1
	MillionthPerKelvin  Expansivity = 1e-6
	PerDegreeFahrenheit Expansivity = 9.0 / 5
)

var expansivity = quantity{name: "linear expansion", units: []unitDef{
	{"ppm/K ppm/°C ppm/degC um/mK µm/mK", float64(MillionthPerKelvin), 0},
	{"ppm/°F ppm/degF", float64(MillionthPerKelvin * PerDegreeFahrenheit), 0},
	{"1/K /K", float64(PerKelvin), 0},
	{"1/°F /°F 1/degF /degF", float64(PerDegreeFahrenheit), 0},
}}

// ParseExpansivity reads a linear expansion with its unit, one of ppm/K (or
// um/(m K) written um/m K), ppm/°F, 1/K, 1/°F; anything else is a [*ParseError].
func ParseExpansivity(s string) (Expansivity, error) {
	v, err := expansivity.parse(s)
	return Expansivity(v), err
}

// String returns the expansion in millionths per kelvin, exactly: "11.7 ppm/K".
func (v Expansivity) String() string { return expansivity.text(float64(v)) }

// In returns the expansion in a unit, as a plain number.
func (v Expansivity) In(unit Expansivity) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Expansivity) MarshalText() ([]byte, error) { return expansivity.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Expansivity) UnmarshalText(text []byte) error { return unmarshal(v, ParseExpansivity, text) }
