package gauge

import (
	"cmp"
	"errors"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("gauge")

// A Size is one named size of a drill, wire, sheet or screw.
type Size struct {
	Name     string       // as it reads back with Parse: "2.5 mm", "#7", "F", "1/4 in", "16 SWG"
	Diameter units.Length // or thickness of sheet
	Refs     source.Refs
}

// String returns the name of the size.
func (s Size) String() string { return s.Name }

const sizeAccepted = `"2.5 mm", "1/4 in", "#7", "No. 7", "F", "16 SWG", "20 AWG", "16 BWG", "20 MSG", "#10 screw"`

// The largest diameter that a named size may have: far beyond any drill or
// wire, small enough to catch a slip of the unit.
var largest = units.MM(1000)

// Parse reads one size as people write it: a length with its unit, a number
// drill (#7, No. 7, number 7), a letter drill (F, letter F), a wire or sheet
// gauge with its system (16 SWG, AWG 20, 16 swg), or a US screw number
// (#10 screw). "16 gauge" is an error that lists the systems; a bare "16" is
// an error too. Anything else is a [*units.ParseError].
func Parse(s string) (Size, error) {
	text := strings.Join(strings.Fields(s), " ")
	wrong := func(kind error, problem string) (Size, error) {
		return Size{}, fail.Text("size", s, problem, sizeAccepted, kind)
	}
	if text == "" {
		return wrong(units.ErrMissing, "empty")
	}
	lower := strings.ToLower(text)
	if system, number, ok := cutSystem(lower); ok {
		return system.Size(number)
	}
	if number, ok := cutNumberSign(lower); ok {
		n, err := strconv.Atoi(number)
		if err != nil || !allDigits(number) {
			return wrong(units.ErrSyntax, "a number drill has a whole number")
		}
		return numberDrill(n, s)
	}
	letter := strings.TrimPrefix(lower, "letter ")
	if len(letter) == 1 && letter[0] >= 'a' && letter[0] <= 'z' {
		return Letter().at(strings.ToUpper(letter))
	}
	for _, word := range []string{"gauge", "gage", "ga", "g"} {
		if number, ok := strings.CutSuffix(lower, word); ok && gaugeNumber(strings.TrimSpace(number)) {
			return wrong(units.ErrUnknown, "the gauge is not named: "+meanings(strings.TrimSpace(number)))
		}
	}
	if gaugeNumber(lower) {
		return wrong(units.ErrUnknown, "a number without a unit or a gauge")
	}
	l, err := units.ParseLength(text)
	var bad *units.ParseError
	if errors.As(err, &bad) {
		return wrong(units.ErrSyntax, bad.Problem)
	}
	metric := strings.HasSuffix(lower, "m") || strings.HasSuffix(lower, "micron") || strings.HasSuffix(lower, "microns")
	return lengthSize(l, !metric, s)
}

var ownDiameter = source.Ref{Kind: source.Derived, Note: "named by its own diameter"}

// lengthSize names a size by its own diameter, in inches or millimetres.
func lengthSize(l units.Length, inches bool, text string) (Size, error) {
	if l.Sign() <= 0 || l.Cmp(largest) > 0 {
		accepted := "diameters above zero up to " + largest.String()
		return Size{}, fail.Text("size", text, "not a size", accepted, units.ErrOutOfRange)
	}
	name := l.String()
	if inches {
		name = inchName(l)
	}
	return Size{Name: name, Diameter: l, Refs: source.Shared(&ownDiameter)}, nil
}

// inchName returns the fraction to 64ths where l is one, and otherwise the
// shortest decimal that reads back to l.
func inchName(l units.Length) string {
	if f, err := l.NearestFraction(64); err == nil && f.Rest.IsZero() {
		return f.String()
	}
	for places := 1; ; places++ { // the eleventh is a quarter of a picometre
		name := l.Text(units.Inches, places)
		if back, err := units.ParseLength(name); err == nil && back == l {
			return name
		}
	}
}

// cutNumberSign returns what follows "#", "no", "no." or "number".
func cutNumberSign(lower string) (string, bool) {
	for _, sign := range []string{"#", "number ", "no. ", "no.", "no "} {
		if rest, ok := strings.CutPrefix(lower, sign); ok {
			return strings.TrimSpace(rest), true
		}
	}
	return "", false
}

func numberDrill(n int, text string) (Size, error) {
	drills := Number()
	size, err := drills.at("#" + strconv.Itoa(n))
	if err != nil {
		thin, thick := drills.sizes[0], drills.sizes[len(drills.sizes)-1]
		return Size{}, fail.Text("size", text, "there is no such number drill", thick.Name+" to "+thin.Name, units.ErrOutOfRange)
	}
	return size, nil
}

func allDigits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}

func compareSizes(a, b Size) int {
	return cmp.Or(a.Diameter.Cmp(b.Diameter), cmp.Compare(a.Name, b.Name))
}
