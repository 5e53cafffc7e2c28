package units

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// An Angle is held in radians.
type Angle float64

// Units of angle.
const (
	Radian    Angle = 1
	Degree    Angle = math.Pi / 180
	ArcMinute Angle = Degree / 60
	ArcSecond Angle = Degree / 3600
)

// Degrees returns the angle in degrees.
func (v Angle) Degrees() float64 { return float64(v / Degree) }

// Radians returns the angle in radians, for package math.
func (v Angle) Radians() float64 { return float64(v) }

var angle = quantity{name: "angle", units: []unitDef{
	{"deg ° degree degrees", float64(Degree), 0},
	{"rad", float64(Radian), 0},
	{"arcmin ′ '", float64(ArcMinute), 0},
	{"arcsec ″ \"", float64(ArcSecond), 0},
}}

// ParseAngle reads an angle with its unit, one of deg (or °), rad, arcmin,
// arcsec, or as a vernier protractor shows it: 26°30', 26°30'15". Anything else
// is a [*ParseError].
func ParseAngle(s string) (Angle, error) {
	if v, ok := parseSexagesimal(s); ok {
		return v, nil
	}
	v, err := angle.parse(s)
	if bad := (*ParseError)(nil); errors.As(err, &bad) {
		bad.Accepted += `, or 26°30' and 26°30'15"`
		if _, after, ok := strings.Cut(s, "°"); ok && strings.TrimSpace(after) != "" {
			bad.Err, bad.Problem = ErrSyntax, "not whole degrees with minutes and seconds below 60"
		}
	}
	return Angle(v), err
}

// parseSexagesimal reads whole degrees, minutes below 60 and, if there are any,
// seconds below 60.
func parseSexagesimal(s string) (Angle, bool) {
	text := strings.ReplaceAll(strings.ReplaceAll(strings.TrimSpace(plainForms(s)), "′", "'"), "″", `"`)
	text, negative := strings.CutPrefix(text, "-")
	if !negative {
		text = strings.TrimPrefix(text, "+")
	}
	degrees, rest, ok := strings.Cut(text, "°")
	if !ok {
		return 0, false
	}
	minutes, rest, ok := strings.Cut(rest, "'")
	if !ok {
		return 0, false
	}
	seconds := "0"
	if rest = strings.TrimSpace(rest); rest != "" {
		if seconds, ok = strings.CutSuffix(rest, `"`); !ok {
			return 0, false
		}
	}
	var total float64 // in seconds, whole numbers: exact
	for i, part := range []string{degrees, minutes, seconds} {
		n, err := strconv.ParseUint(strings.TrimSpace(part), 10, 16)
		if err != nil || i > 0 && n >= 60 {
			return 0, false
		}
		total = 60*total + float64(n)
	}
	if negative {
		total = -total
	}
	return Angle(total/3600)*Degree + 0, true // no -0
}

// String returns the angle in degrees, exactly.
func (v Angle) String() string { return angle.text(float64(v)) }

// In returns the angle in a unit, as a plain number.
func (v Angle) In(unit Angle) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Angle) MarshalText() ([]byte, error) { return angle.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Angle) UnmarshalText(text []byte) error { return unmarshal(v, ParseAngle, text) }
