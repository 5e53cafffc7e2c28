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

// A Tolerance is how far apart the limits of a part are.
type Tolerance struct {
	Width units.Length
	Refs  source.Refs `json:",omitzero"`
}

// Grades returns all of them, from the finest.
func Grades() []Grade {
	var all []Grade
	for g := finest; g <= coarsest; g++ {
		all = append(all, g)
	}
	return all
}

// ToleranceFor returns the standard tolerance of the grade at a nominal size,
// exactly as the table has it. A size on a boundary belongs to the range below:
// 30 mm is in the range 18 to 30.
//
// Grades IT01 and IT0 end at 500 mm, the rest at 3150 mm (IT1 to IT5 over 500 mm
// were for experimental use in the edition of 1988), and the standard does not
// use IT14 and coarser up to 1 mm. Source: ISO 286-1, table 1, exact.
// See the Example.
func (g Grade) ToleranceFor(nominal units.Length) (Tolerance, error) {
	r, err := rangeOf(nominal)
	if err != nil {
		return Tolerance{}, err
	}
	c, err := g.at(nominal, r)
	if err != nil {
		return Tolerance{}, err
	}
	return Tolerance{c.value, *iso().part(sourced{grade: c.place})}, nil // ISO 286-1, table 1
}

func (g Grade) at(nominal units.Length, r int) (*cell, error) {
	if g < finest || g > coarsest {
		return nil, unknownGrade(g)
	}
	if g >= 14 && nominal.Picometres() <= oneMM {
		return nil, notUsed(g.String(), nominal, "the standard does not use grades IT14 and coarser up to 1 mm",
			"sizes over 1 mm, or grades up to IT13")
	}
	c := &iso().grades[g-finest][r]
	if !c.known() {
		return nil, notUsed(g.String(), nominal, "grades IT01 and IT0 end at 500 mm",
			"sizes up to 500 mm, or grades from IT1")
	}
	return c, nil
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

// ParseGrade reads "IT7", "it7", "IT01".
func ParseGrade(s string) (Grade, error) {
	text := strings.TrimSpace(s)
	if len(text) > 2 && strings.EqualFold(text[:2], "IT") {
		if g, ok := parseGradeDigits(text[2:]); ok {
			return g, nil
		}
	}
	var near []string
	if g, ok := parseGradeDigits(text); ok {
		near = []string{g.String()}
	}
	return 0, fail.UnknownName("grade", s, acceptedGrades, near...)
}

const acceptedGrades = "IT01, IT0, IT1 to IT18"

func unknownGrade(g Grade) error { return fail.Unknown("grade", g.String(), acceptedGrades) }

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
		return nil, unknownGrade(g)
	}
	return []byte(g.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseGrade].
func (g *Grade) UnmarshalText(text []byte) error { return unmarshal(g, ParseGrade, text) }
