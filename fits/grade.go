package fits

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Grade is a standard tolerance grade of ISO 286: Grade(7) is IT7.
type Grade int

// The two grades whose names are not their numbers.
const (
	IT01 Grade = -1
	IT0  Grade = 0
)

// The finest and the coarsest grade.
const (
	finest   = IT01
	coarsest = Grade(18)
)

// Tolerance returns the standard tolerance of the grade at a nominal size: how
// far apart the limits of the part are, exactly as the table has it. A size on
// a boundary belongs to the range below: 30 mm is in the range 18 to 30.
//
// Grades IT01 and IT0 end at 500 mm, the rest at 3150 mm (IT1 to IT5 over 500 mm
// were for experimental use in the edition of 1988), and the standard does
// not use IT14 and coarser up to 1 mm; anything else is an
// [*units.ArgumentError]. Source: ISO 286-1, table 1, exact; see tables/.
func (g Grade) Tolerance(nominal units.Length) (units.Length, error) {
	r, err := rangeOf(nominal)
	if err != nil {
		return units.Length{}, err
	}
	return g.at(nominal, r)
}

// Ref returns where the tolerance of the grade at a nominal size was read.
// Errors are those of [Grade.Tolerance].
func (g Grade) Ref(nominal units.Length) (source.Ref, error) {
	if _, err := g.Tolerance(nominal); err != nil {
		return source.Ref{}, err
	}
	r, _ := rangeOf(nominal)
	t := iso()
	return t.refs[t.grades[g-finest][r].ref], nil
}

func (g Grade) at(nominal units.Length, r int) (units.Length, error) {
	if g < finest || g > coarsest {
		return units.Length{}, unknownGrade(g.String())
	}
	if g >= 14 && nominal.Picometres() <= oneMM {
		return units.Length{}, notUsed(g.String(), nominal, "the standard does not use grades IT14 and coarser up to 1 mm", "sizes over 1 mm, or grades up to IT13")
	}
	c := iso().grades[g-finest][r]
	if !c.known() {
		return units.Length{}, notUsed(g.String(), nominal, "grades IT01 and IT0 end at 500 mm", "sizes up to 500 mm, or grades from IT1")
	}
	return c.value, nil
}

// String returns "IT7", "IT0", "IT01".
func (g Grade) String() string {
	if g < finest || g > coarsest {
		return fmt.Sprintf("Grade(%d)", int(g))
	}
	return "IT" + g.digits()
}

// digits returns the grade as it stands in a tolerance class: "7", "01".
func (g Grade) digits() string {
	if g == IT01 {
		return "01"
	}
	return strconv.Itoa(int(g))
}

// ParseGrade reads "IT7", "it7", "IT01". Another grade is an
// [*units.ArgumentError].
func ParseGrade(s string) (Grade, error) {
	text := strings.TrimSpace(s)
	if len(text) > 2 && strings.EqualFold(text[:2], "IT") {
		if g, ok := parseGradeDigits(text[2:]); ok {
			return g, nil
		}
	}
	return 0, unknownGrade(quoted(s))
}

func unknownGrade(value string) error {
	return &units.ArgumentError{Package: "fits", Field: "grade", Value: value, Accepted: "IT01, IT0, IT1 to IT18", Err: units.ErrUnknown}
}

func parseGradeDigits(s string) (Grade, bool) {
	if s == "01" {
		return IT01, true
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 || n > int(coarsest) || strconv.Itoa(n) != s {
		return 0, false
	}
	return Grade(n), true
}

// MarshalText implements [encoding.TextMarshaler]. A grade that the standard does
// not have is an error.
func (g Grade) MarshalText() ([]byte, error) {
	if g < finest || g > coarsest {
		return nil, unknownGrade(g.String())
	}
	return []byte(g.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseGrade].
func (g *Grade) UnmarshalText(text []byte) error { return unmarshal(g, ParseGrade, text) }
