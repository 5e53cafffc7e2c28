package units

import (
	"bytes"
	"cmp"
	"fmt"
	"math"
	"strconv"

	"github.com/shopspring/decimal"
)

// A Length is an exact whole number of picometres (1e-12 m). The zero value is
// no length. Lengths compare with == and order with [Length.Cmp].
//
// Lengths that come from literals and from text reach 1 km either way; sums
// and products may reach 9,000 km. A sum beyond that panics, as no workshop
// gets there with numbers that passed the first limit.
type Length struct{ pm int64 }

const (
	pmPerMicron = 1_000_000
	pmPerMM     = 1_000_000_000
	pmPerCM     = 10 * pmPerMM
	pmPerMetre  = 1000 * pmPerMM
	pmPerInch   = 25_400_000_000 // exact: NIST SP 811, B.8, inch
	pmPerThou   = pmPerInch / 1000
	pmPerFoot   = 12 * pmPerInch

	maxLength = 1000 * pmPerMetre // of literals and of text; keeps float64 exact
)

// MM returns a length of v millimetres, to the nearest picometre. It is meant
// for literals and panics when v is not finite or beyond 1 km. For numbers that
// come from outside or out of a calculation, Millimetres.Of returns an error:
// see [LengthUnit.Of].
func MM(v float64) Length { return literal(v, pmPerMM, "MM") }

// Inch returns a length of v inches; see [MM]. Inches.Of returns an error.
func Inch(v float64) Length { return literal(v, pmPerInch, "Inch") }

// Thou returns a length of v thousandths of an inch; see [MM]. Thousandths.Of
// returns an error.
func Thou(v float64) Length { return literal(v, pmPerThou, "Thou") }

// Micron returns a length of v micrometres; see [MM]. Micrometres.Of returns an
// error.
func Micron(v float64) Length { return literal(v, pmPerMicron, "Micron") }

// InchFraction returns num/den of an inch, exact for every den that divides
// 512 and to the nearest picometre otherwise. It panics when den is not
// positive or the fraction is beyond 1 km.
func InchFraction(num, den int) Length {
	if den <= 0 {
		panic(fmt.Sprintf("units: InchFraction(%d, %d): the lower number must be positive", num, den))
	}
	return literal(float64(num)/float64(den), pmPerInch, "InchFraction")
}

// Picometres returns a length of exactly n picometres.
func Picometres(n int64) Length { return Length{n} }

func literal(v float64, unit int64, name string) Length {
	pm, err := fromFloat(v, unit)
	if err != nil {
		panic(fmt.Sprintf("units: %s(%g): %v; accepted: from -1 km to 1 km", name, v, err))
	}
	return Length{pm}
}

func fromFloat(v float64, unit int64) (int64, error) {
	pm := math.Round(v * float64(unit))
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return 0, ErrNotFinite
	case math.Abs(pm) > maxLength:
		return 0, ErrOutOfRange
	}
	return int64(pm), nil
}

// MM returns the length in millimetres.
func (l Length) MM() float64 { return float64(l.pm) / pmPerMM }

// Inch returns the length in inches.
func (l Length) Inch() float64 { return float64(l.pm) / pmPerInch }

// Thou returns the length in thousandths of an inch.
func (l Length) Thou() float64 { return float64(l.pm) / pmPerThou }

// Micron returns the length in micrometres.
func (l Length) Micron() float64 { return float64(l.pm) / pmPerMicron }

// In returns the length in a unit, as a plain number; no number for a unit that
// there is not.
func (l Length) In(unit LengthUnit) float64 { return l.Ratio(unit.Length()) }

// Metres returns the length in metres, for formulas in SI.
func (l Length) Metres() float64 { return float64(l.pm) / pmPerMetre }

// Picometres returns the exact count.
func (l Length) Picometres() int64 { return l.pm }

// Add returns l + m.
func (l Length) Add(m Length) Length {
	sum := l.pm + m.pm
	if (l.pm^sum)&(m.pm^sum) < 0 { // the sum has another sign than both
		panic("units: sum of lengths beyond 9,000 km")
	}
	return Length{sum}
}

// Sub returns l - m.
func (l Length) Sub(m Length) Length { return l.Add(m.Neg()) }

// Neg returns -l.
func (l Length) Neg() Length {
	if l.pm == math.MinInt64 {
		panic("units: length beyond 9,000 km")
	}
	return Length{-l.pm}
}

// Abs returns l without its sign.
func (l Length) Abs() Length {
	if l.pm < 0 {
		return l.Neg()
	}
	return l
}

// Cmp returns -1, 0 or +1 as l is less than, equal to or greater than m.
func (l Length) Cmp(m Length) int { return cmp.Compare(l.pm, m.pm) }

// Sign returns -1, 0 or +1 as l is negative, zero or positive.
func (l Length) Sign() int { return cmp.Compare(l.pm, 0) }

// IsZero reports whether l is no length.
func (l Length) IsZero() bool { return l.pm == 0 }

// Scale returns l times factor, to the nearest picometre. It panics when the
// product is not finite or beyond 9,000 km.
func (l Length) Scale(factor float64) Length {
	pm := math.Round(float64(l.pm) * factor)
	if !(math.Abs(pm) < math.MaxInt64) {
		panic(fmt.Sprintf("units: length %v times %g is not a length", l, factor))
	}
	return Length{int64(pm)}
}

// Ratio returns l / m as a plain number; it is not finite when m is zero.
func (l Length) Ratio(m Length) float64 { return float64(l.pm)/float64(m.pm) + 0 } // no -0

// String returns the exact length in millimetres with no digit dropped:
// "6.35 mm".
func (l Length) String() string { return l.text(false) }

// text is the exact length in millimetres, on demand without its sign.
func (l Length) text(unsigned bool) string {
	var few [32]byte
	text, pm := few[:0], uint64(l.pm)
	if l.pm < 0 {
		pm = -pm
		if !unsigned {
			text = append(text, '-')
		}
	}
	text = strconv.AppendUint(text, pm/pmPerMM, 10)
	if rest := pm % pmPerMM; rest != 0 {
		point := len(text)
		text = strconv.AppendUint(text, pmPerMM+rest, 10) // nine places behind a 1
		text[point] = '.'
		text = bytes.TrimRight(text, "0")
	}
	return string(append(text, " mm"...))
}

// A LengthUnit is a unit to print a [Length] in.
type LengthUnit int

// The units that lengths are printed in.
const (
	Millimetres LengthUnit = iota
	Inches
	Thousandths // of an inch
	Micrometres
	Metres
)

var lengthUnits = [...]struct {
	symbol string
	pm     int64
}{
	Millimetres: {"mm", pmPerMM},
	Inches:      {"in", pmPerInch},
	Thousandths: {"thou", pmPerThou},
	Micrometres: {"um", pmPerMicron},
	Metres:      {"m", pmPerMetre},
}

const lengthUnitsAccepted = "mm, in, thou, um, m"

// LengthUnits returns all of them, in order.
func LengthUnits() []LengthUnit {
	return []LengthUnit{Millimetres, Inches, Thousandths, Micrometres, Metres}
}

func (u LengthUnit) known() bool { return u >= 0 && int(u) < len(lengthUnits) }

func (u LengthUnit) unknown() error {
	return &ArgumentError{Package: "units", Field: "unit of length", Value: u.String(), Accepted: lengthUnitsAccepted, Err: ErrUnknown}
}

// String returns the symbol of the unit: "mm", "in", "thou", "um" or "m".
func (u LengthUnit) String() string {
	if !u.known() {
		return fmt.Sprintf("LengthUnit(%d)", int(u))
	}
	return lengthUnits[u].symbol
}

// Length returns one of the unit; no length for a unit that there is not.
func (u LengthUnit) Length() Length {
	if !u.known() {
		return Length{}
	}
	return Length{lengthUnits[u].pm}
}

// Of returns a length of v of the unit, to the nearest picometre, for numbers
// that were computed or read:
//
//	Inches.Of(0.25)
//
// A number that is not finite, a length beyond 1 km and a unit that there is not
// are an [*ArgumentError].
func (u LengthUnit) Of(v float64) (Length, error) {
	if !u.known() {
		return Length{}, u.unknown()
	}
	pm, err := fromFloat(v, lengthUnits[u].pm)
	if err != nil {
		given := fmt.Sprintf("%g %v", v, u)
		return Length{}, &ArgumentError{Package: "units", Field: "length", Value: given, Accepted: "from -1 km to 1 km", Err: err}
	}
	return Length{pm}, nil
}

// ParseLengthUnit returns the unit with the given symbol; see
// [LengthUnit.String].
func ParseLengthUnit(s string) (LengthUnit, error) {
	for u, def := range lengthUnits {
		if def.symbol == s {
			return LengthUnit(u), nil
		}
	}
	return 0, &ParseError{What: "unit of length", Text: s, Problem: "unknown unit", Accepted: lengthUnitsAccepted, Err: ErrUnknownUnit}
}

// Parse reads a plain number of the unit, as tables have it under the name of a
// unit: Millimetres.Parse("6.35") is 6.35 mm. What [ParseLength] refuses with
// the unit behind it is a [*ParseError].
func (u LengthUnit) Parse(number string) (Length, error) {
	return ParseLength(number + " " + u.String())
}

// MarshalText implements [encoding.TextMarshaler].
func (u LengthUnit) MarshalText() ([]byte, error) {
	if !u.known() {
		return nil, u.unknown()
	}
	return []byte(u.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (u *LengthUnit) UnmarshalText(text []byte) error {
	v, err := ParseLengthUnit(string(text))
	if err == nil {
		*u = v
	}
	return err
}

// Decimal returns l in the given unit as decimal text with the given number of
// places, 0 to 12, halves of the exact value rounded away from zero: 0.0075 in
// is "0.191" mm to three places. It panics on an unknown unit or a number of
// places outside that range.
func (l Length) Decimal(unit LengthUnit, places int) string {
	if places < 0 || places > 12 {
		panic(fmt.Sprintf("units: %d decimal places; accepted: 0 to 12", places))
	}
	value := decimal.New(l.pm, 0).DivRound(decimal.New(lengthUnits[unit].pm, 0), int32(places))
	return value.StringFixed(int32(places))
}

// Text is [Length.Decimal] followed by the symbol of the unit: "0.191 mm".
func (l Length) Text(unit LengthUnit, places int) string {
	return l.Decimal(unit, places) + " " + unit.String()
}

// MarshalText implements [encoding.TextMarshaler] with [Length.String].
func (l Length) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseLength].
func (l *Length) UnmarshalText(text []byte) error {
	v, err := ParseLength(string(text))
	if err == nil {
		*l = v
	}
	return err
}

// GobEncode implements [gob.GobEncoder] with [Length.MarshalText].
func (l Length) GobEncode() ([]byte, error) { return l.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Length.UnmarshalText].
func (l *Length) GobDecode(text []byte) error { return l.UnmarshalText(text) }
