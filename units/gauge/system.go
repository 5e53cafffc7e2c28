package gauge

import (
	"fmt"
	"math"
	"strconv"
	"strings"

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
	BWG                           // Birmingham (Stubs iron) Wire Gauge: walls of tubes, 4/0 to 33
	MSG                           // Manufacturers' Standard Gauge: sheet steel, 7 to 30
	ScrewNumber                   // numbers of US screws, 000 to 14
)

var systems = [...]string{SWG: "SWG", AWG: "AWG", BWG: "BWG", MSG: "MSG", ScrewNumber: "screw"}

// String returns "SWG", "AWG", "BWG", "MSG" or "screw".
func (s System) String() string {
	if s <= 0 || int(s) >= len(systems) {
		return fmt.Sprintf("System(%d)", int(s))
	}
	return systems[s]
}

// ParseSystem returns the system of that name, in capitals or not; see
// [System.String]. "B&S" is AWG and "ISWG" is SWG. Another text is a
// [*units.ParseError] that lists the accepted ones.
func ParseSystem(name string) (System, error) {
	switch lower := strings.ToLower(strings.TrimSpace(name)); lower {
	case "iswg":
		return SWG, nil
	case "b&s":
		return AWG, nil
	default:
		for s, known := range systems {
			if s > 0 && strings.ToLower(known) == lower {
				return System(s), nil
			}
		}
	}
	return 0, &units.ParseError{Package: "gauge", What: "system", Text: name, Problem: "no such system of gauge numbers", Accepted: strings.Join(systems[1:], ", "), Err: units.ErrUnknown}
}

// MarshalText implements [encoding.TextMarshaler].
func (s System) MarshalText() ([]byte, error) {
	if s <= 0 || int(s) >= len(systems) {
		return nil, &units.ArgumentError{Package: "gauge", Field: "system", Value: s.String(), Accepted: strings.Join(systems[1:], ", "), Err: units.ErrUnknown}
	}
	return []byte(systems[s]), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *System) UnmarshalText(text []byte) error {
	v, err := ParseSystem(string(text))
	if err == nil {
		*s = v
	}
	return err
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
	return Size{}, &units.ParseError{Package: "gauge", What: "system", Text: number, Problem: "no such number in " + s.String(), Accepted: fmt.Sprintf("whole numbers %s to %s", first, last), Err: units.ErrOutOfRange}
}

// name returns the name of rank n of the system; 2/0 ranks -1.
func (s System) name(n int) string {
	if s == ScrewNumber {
		if n < 0 {
			return "#" + strings.Repeat("0", 1-n) + " screw"
		}
		return fmt.Sprintf("#%d screw", n)
	}
	if n < 0 {
		return fmt.Sprintf("%d/0 %s", 1-n, s)
	}
	return fmt.Sprintf("%d %s", n, s)
}

func (s System) ends() (first, last string, err error) {
	switch s {
	case SWG:
		return "7/0", "50", nil
	case AWG:
		return "4/0", "40", nil
	case BWG:
		return "4/0", "33", nil
	case MSG:
		return "7", "30", nil
	case ScrewNumber:
		return "000", "14", nil
	}
	return "", "", &units.ArgumentError{Package: "gauge", Field: "system", Value: s.String(), Accepted: strings.Join(systems[1:], ", "), Err: units.ErrUnknown}
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
			parts = append(parts, fmt.Sprintf("%s is %s (%s)", size.Name, size.Diameter.Text(units.Inches, 4), size.Diameter.Text(units.Millimetres, 3)))
		}
	}
	if parts == nil {
		return "no system has this number"
	}
	return strings.Join(parts, ", ")
}

// cutSystem splits "16 swg", "awg 20" and "#10 screw" into system and number.
func cutSystem(lower string) (System, string, bool) {
	first, rest, _ := strings.Cut(lower, " ")
	if s, err := ParseSystem(first); err == nil && rest != "" {
		return s, strings.TrimSpace(strings.TrimPrefix(rest, "#")), true
	}
	for s := SWG; s <= ScrewNumber; s++ {
		if number, ok := strings.CutSuffix(lower, strings.ToLower(s.String())); ok {
			number = strings.TrimSpace(number)
			if trimmed, ok := cutNumberSign(number); ok {
				number = trimmed
			}
			return s, number, true
		}
	}
	return 0, "", false
}

var swgOnce, awgOnce, bwgOnce, msgOnce, screwOnce table.Once[Set]

func makeAWG() Set {
	ref := source.Ref{Kind: source.Derived, Title: "ASTM B258", Note: "0.005 in x 92^((36-n)/39); printed tables round to 0.0001 in"}
	var sizes []Size
	for n := -3; n <= 40; n++ {
		d := units.Inch(0.005 * math.Pow(92, float64(36-n)/39))
		sizes = append(sizes, Size{Name: AWG.name(n), Diameter: d, Ref: ref})
	}
	return ordered(sizes)
}

func makeScrewNumbers() Set {
	ref := source.Ref{Kind: source.Derived, Title: "ASME B1.1", Note: "0.060 in + 0.013 in for each number"}
	var sizes []Size
	for n := -2; n <= 14; n++ {
		sizes = append(sizes, Size{Name: ScrewNumber.name(n), Diameter: units.Thou(float64(60 + 13*n)), Ref: ref})
	}
	return ordered(sizes)
}
