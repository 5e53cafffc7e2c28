package units

// A Temperature is a point on the absolute scale, held in kelvins. Its zero
// value is absolute zero, which no workshop means: set it.
type Temperature float64

const (
	celsiusZero    = 273.15 // K, exact
	fahrenheitZero = 459.67 // degrees F above absolute zero at 0 degrees F, exact
)

// Celsius returns the temperature of v degrees Celsius.
func Celsius(v float64) Temperature { return Temperature(v + celsiusZero) }

// Fahrenheit returns the temperature of v degrees Fahrenheit. Ovens in
// Fahrenheit are read as Celsius more often than anyone likes; say which.
func Fahrenheit(v float64) Temperature { return Temperature((v + fahrenheitZero) * (5.0 / 9)) }

// Kelvin returns the temperature of v kelvins.
func Kelvin(v float64) Temperature { return Temperature(v) }

// Celsius returns the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - celsiusZero }

// Fahrenheit returns the temperature in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(t)/(5.0/9) - fahrenheitZero }

// Kelvin returns the temperature in kelvins.
func (t Temperature) Kelvin() float64 { return float64(t) }

// Sub returns the difference t - u.
func (t Temperature) Sub(u Temperature) TemperatureDifference { return TemperatureDifference(t - u) }

// Add returns the temperature that is d above t.
func (t Temperature) Add(d TemperatureDifference) Temperature { return t + Temperature(d) }

var temperature = quantity{name: "temperature", absolute: true, units: []unitDef{
	{"°C C degC", 1, celsiusZero},
	{"°F F degF", 5.0 / 9, fahrenheitZero},
	{"K", 1, 0},
}}

// ParseTemperature reads a temperature with its scale, one of °C, °F, K; the
// scale must be named. Below absolute zero, and anything else, is a
// [*ParseError].
func ParseTemperature(s string) (Temperature, error) {
	v, err := temperature.parse(s)
	return Temperature(v), err
}

// String returns the temperature in degrees Celsius, in text that reads back to
// the same value.
func (t Temperature) String() string { return temperature.text(float64(t)) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (t Temperature) MarshalText() ([]byte, error) { return temperature.marshal(float64(t)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (t *Temperature) UnmarshalText(text []byte) error { return unmarshal(t, ParseTemperature, text) }
