package gauge

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A System is a series of gauge numbers. The zero value is no system.
type System int

// The systems of gauge numbers.
const (
	SWG         System = iota + 1 // British (Imperial) Standard Wire Gauge: wire and sheet, 7/0 to 50
	AWG                           // American Wire Gauge: non-ferrous wire and sheet, 4/0 to 40
	BWG                           // Birmingham (Stubs iron) Wire Gauge: walls of tubes, 5/0 to 36
	MSG                           // Manufacturers' Standard Gauge: sheet steel, 7 to 30
	ScrewNumber                   // numbers of US screws, 000 to 14
)

var systems = names.Set{Package: "gauge", Type: "System", Field: "system of gauge numbers", Texts: []string{
	SWG: "SWG", AWG: "AWG", BWG: "BWG", MSG: "MSG", ScrewNumber: "screw",
}}

// Systems returns all of them, in order.
func Systems() []System { return []System{SWG, AWG, BWG, MSG, ScrewNumber} }

// String returns "SWG", "AWG", "BWG", "MSG" or "screw".
func (s System) String() string { return systems.Text(int(s)) }

// ParseSystem returns the system of that name, in capitals or not; see
// [System.String]. "B&S" is AWG and "ISWG" is SWG.
func ParseSystem(name string) (System, error) {
	if s, ok := systemCalled(strings.TrimSpace(name)); ok {
		return s, nil
	}
	v, err := systems.Value(name)
	return System(v), err
}

// systemCalled is ParseSystem for a word in a text, where a hyphen means more
// than a space.
func systemCalled(word string) (s System, ok bool) {
	switch {
	case strings.EqualFold(word, "iswg"):
		return SWG, true
	case strings.EqualFold(word, "b&s"):
		return AWG, true
	}
	for _, s := range Systems() {
		if strings.EqualFold(word, s.String()) {
			return s, true
		}
	}
	return
}

// MarshalText implements [encoding.TextMarshaler]; no system has blank text.
func (s System) MarshalText() ([]byte, error) { return systems.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *System) UnmarshalText(text []byte) error {
	v, err := ParseSystem(string(text))
	if err != nil && len(text) > 0 {
		return err
	}
	*s = v
	return nil
}

// Set returns all sizes of the system; it is empty for no system.
func (s System) Set() Set {
	switch s {
	case SWG:
		return swgOnce.Get(func() Set { return readTable("swg.csv", "", " SWG") })
	case AWG:
		return awgOnce.Get(makeAWG)
	case BWG:
		return bwgOnce.Get(func() Set { return readTable("bwg.csv", "", " BWG") })
	case MSG:
		return msgOnce.Get(func() Set { return readTable("msg.csv", "", " MSG") })
	case ScrewNumber:
		return screwOnce.Get(makeScrewNumbers)
	}
	return Set{}
}

// Size returns the size that goes by the number, such as "16", "0", "2/0" or
// "00". A number that the system does not have is a [*units.ParseError].
func (s System) Size(number string) (Size, error) {
	n, ok := gaugeRank(strings.TrimSpace(number))
	if ok {
		if size, err := s.Set().at(s.name(n)); err == nil {
			return size, nil
		}
	}
	first, last, err := s.ends()
	if err != nil {
		return Size{}, err
	}
	accepted := fmt.Sprintf("whole numbers %s to %s", first, last)
	return Size{}, fail.Text("gauge number", number, "no such number in "+s.String(), accepted, units.ErrOutOfRange)
}

// name returns the name of rank n of the system; 2/0 ranks -1.
func (s System) name(n int) string {
	if s == ScrewNumber {
		return fmt.Sprintf("#%s%d screw", strings.Repeat("0", max(0, -n)), max(0, n))
	}
	if n < 0 {
		return fmt.Sprintf("%d/0 %s", 1-n, s)
	}
	return fmt.Sprintf("%d %s", n, s)
}

// ends returns the first and the last number of the system.
func (s System) ends() (first, last string, err error) {
	sizes := s.Set().sizes
	if len(sizes) == 0 {
		return "", "", systems.Unknown(int(s))
	}
	number := func(size Size) string { return strings.Trim(strings.TrimSuffix(size.Name, s.String()), "# ") }
	thin, thick := number(sizes[0]), number(sizes[len(sizes)-1])
	if s == ScrewNumber {
		return thin, thick, nil
	}
	return thick, thin, nil // thick wire has low numbers
}

// gaugeRank reads a gauge number: 2/0 and 00 are -1, 0 is 0, 16 is 16.
func gaugeRank(number string) (int, bool) {
	if zeros, ok := strings.CutSuffix(number, "/0"); ok {
		n, err := strconv.Atoi(zeros)
		return 1 - n, err == nil && allDigits(zeros) && n > 0
	}
	if !allDigits(number) {
		return 0, false
	}
	if strings.Trim(number, "0") == "" {
		return 1 - len(number), true
	}
	n, err := strconv.Atoi(number)
	return n, err == nil && number[0] != '0'
}

func gaugeNumber(s string) bool {
	_, ok := gaugeRank(s)
	return ok
}

// meanings lists what a gauge number is in every system that has it.
func meanings(number string) string {
	var parts []string
	for s := SWG; s <= MSG; s++ {
		if size, err := s.Size(number); err == nil {
			inches, millimetres := size.Diameter.Text(units.Inches, 4), size.Diameter.Text(units.Millimetres, 3)
			parts = append(parts, fmt.Sprintf("%s is %s (%s)", size.Name, inches, millimetres))
		}
	}
	if parts == nil {
		return "no system has this number"
	}
	return strings.Join(parts, ", ")
}

// cutSystem splits "16 swg", "16 b&s", "awg 20" and "#10 screw" into system and number.
func cutSystem(lower string) (s System, number string, ok bool) {
	first, rest, _ := strings.Cut(lower, " ")
	if s, ok := systemCalled(first); ok && rest != "" {
		return s, strings.TrimSpace(strings.TrimPrefix(rest, "#")), true
	}
	if words := strings.Split(lower, " "); len(words) > 1 {
		if s, ok := systemCalled(words[len(words)-1]); ok {
			return s, bareNumber(strings.Join(words[:len(words)-1], " ")), true
		}
	}
	for s := SWG; s <= ScrewNumber; s++ {
		if number, ok := strings.CutSuffix(lower, strings.ToLower(s.String())); ok {
			return s, bareNumber(strings.TrimSpace(number)), true
		}
	}
	return
}

// bareNumber returns a gauge number without the sign that may stand before it.
func bareNumber(text string) string {
	if number, ok := cutNumberSign(text); ok {
		return number
	}
	return text
}

var swgOnce, awgOnce, bwgOnce, msgOnce, screwOnce table.Once[Set]

var (
	awgFormula   = source.Ref{Kind: source.Derived, Title: "ASTM B258", Note: "0.005 in x 92^((36-n)/39); printed tables round to 0.0001 in"}
	screwFormula = source.Ref{Kind: source.Derived, Title: "ASME B1.1", Note: "0.060 in + 0.013 in for each number"}
)

func makeAWG() Set {
	var sizes []Size
	for n := -3; n <= 40; n++ {
		d := units.Inch(0.005 * math.Pow(92, float64(36-n)/39)) // ASTM B258
		sizes = append(sizes, Size{Name: AWG.name(n), Diameter: d, Refs: source.Shared(&awgFormula)})
	}
	return ordered(sizes)
}

func makeScrewNumbers() Set {
	var sizes []Size
	for n := -2; n <= 14; n++ {
		d := units.Thou(float64(60 + 13*n)) // ASME B1.1
		sizes = append(sizes, Size{Name: ScrewNumber.name(n), Diameter: d, Refs: source.Shared(&screwFormula)})
	}
	return ordered(sizes)
}
