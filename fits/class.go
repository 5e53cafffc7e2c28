package fits

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Class is a tolerance class of ISO 286, such as H7 or js6: where the limits
// lie, by its letters, and how far apart they are, by its grade. Capital
// letters are for holes and small ones for shafts. The zero value is no class;
// make one with [ParseClass].
type Class struct {
	letter letter
	hole   bool
	grade  Grade
}

// LimitsFor returns the limits of a part of the class at a nominal size, exact.
//
// The standard tolerance of the grade is laid off from the fundamental deviation
// of the letter: the upper deviation es of shafts a to h, the lower deviation ei
// of shafts j to zc, and js half on either side. Of a hole
//
//	A to H    EI = -es of the shaft of the same letter
//	J         ES from its own table, for J6, J7 and J8
//	K to ZC   ES = -ei, and with K, M, N up to IT8 and P to ZC up to IT7,
//	          over 3 up to 500 mm, ES = -ei + delta
//	          delta = ITn - IT(n-1)
//
// with three exceptions of the standard: N9 and coarser have ES = 0 over 3 up
// to 500 mm, M6 has ES = -9 um over 250 up to 315 mm, and K coarser than IT8 is
// not defined over 3 up to 500 mm. Nominal sizes reach from zero, not included,
// to 3150 mm, and a size on a boundary belongs to the range below it. Where the
// standard does not define the class the error says where it does, and limits
// that would let the part be of no size, such as h6 at 5 um, are refused. Half
// tolerances of JS and js stay exact; with [Limits.RoundInward] they become the
// whole micrometres that the standard allows.
//
// Source: ISO 286-1:1988 and 2010, whose tables agree; Refs of the result say
// where its figures were read. See the Example.
func (c Class) LimitsFor(nominal units.Length) (Limits, error) {
	b, s, err := c.at(nominal)
	if err != nil {
		return Limits{}, err
	}
	return Limits{nominal, b.Min, b.Max, *iso().part(s)}, nil
}

// at returns the limits and where they were read.
func (c Class) at(nominal units.Length) (Band, sourced, error) {
	b, s, err := c.laidOff(nominal)
	if err == nil && b.Min.Sign() <= 0 {
		err = notUsed(c.String(), nominal, "the limits reach down to "+b.Min.String()+", which is no part",
			"a larger size or a finer grade")
	}
	return b, s, err
}

// Feature returns whether the class is for holes or for shafts.
func (c Class) Feature() Feature {
	switch {
	case c.letter == noLetter:
		return 0
	case c.hole:
		return Hole
	}
	return Shaft
}

// Grade returns the tolerance grade of the class.
func (c Class) Grade() Grade { return c.grade }

// String returns the class as it stands on a drawing: "H7". The zero value is
// blank.
func (c Class) String() string {
	if c.letter == noLetter {
		return ""
	}
	name := letters[c.letter]
	if c.hole {
		name = strings.ToUpper(name)
	}
	return name + c.grade.digits()
}

// ParseClass reads a tolerance class: H7, h6, js6, ZC9, H01. The case of the
// letters says hole or shaft, so it has to be the same for both letters.
func ParseClass(s string) (Class, error) {
	bad := func(problem string, near ...string) (Class, error) {
		return Class{}, fail.Text("tolerance class", s, problem,
			"one of the letters A to ZC (hole) or a to zc (shaft), without I, L, O, Q, W, "+
				"and a grade 01, 0, 1 to 18, such as H7, js6, ZC9", units.ErrUnknown, near...)
	}
	text := strings.TrimSpace(s)
	n := 0
	for n < len(text) && (text[n] >= 'a' && text[n] <= 'z' || text[n] >= 'A' && text[n] <= 'Z') {
		n++
	}
	name, digits := text[:n], strings.TrimSpace(text[n:])
	c := Class{letter: letter(slices.Index(letters[:], strings.ToLower(name))), hole: name == strings.ToUpper(name)}
	switch {
	case text == "":
		return bad("empty")
	case n == 0:
		return bad("no letter in front of the grade")
	case c.letter <= noLetter:
		return bad("the standard has no such letter")
	case !c.hole && name != strings.ToLower(name):
		return bad("a capital and a small letter: hole or shaft?", strings.ToUpper(name)+digits, strings.ToLower(name)+digits)
	}
	g, ok := parseGradeDigits(digits)
	if !ok {
		return bad("no grade, or one that the standard does not have")
	}
	c.grade = g
	return c, nil
}

// MarshalText implements [encoding.TextMarshaler].
func (c Class) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseClass]; blank
// text is no class.
func (c *Class) UnmarshalText(text []byte) error { return unmarshal(c, ParseClass, text) }

// GobEncode implements [gob.GobEncoder] with [Class.MarshalText].
func (c Class) GobEncode() ([]byte, error) { return c.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Class.UnmarshalText].
func (c *Class) GobDecode(text []byte) error { return c.UnmarshalText(text) }

// A letter is the place of a fundamental deviation in letters.
type letter int8

var letters = [...]string{
	"", "a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "j", "js",
	"k", "m", "n", "p", "r", "s", "t", "u", "v", "x", "y", "z", "za", "zb", "zc",
}

const (
	noLetter letter = 0
	letterB  letter = 2
	letterH  letter = 11
	letterJ  letter = 12
	letterJS letter = 13
	letterK  letter = 14
	letterM  letter = 15
	letterN  letter = 16
	letterP  letter = 17
)

func (c Class) laidOff(nominal units.Length) (b Band, s sourced, err error) {
	if c.letter == noLetter {
		return b, s, fail.Missing("tolerance class", "such as H7")
	}
	r, err := rangeOf(nominal)
	if err != nil {
		return b, s, err
	}
	it, err := c.grade.at(nominal, r) // ISO 286-1, table 1
	if err != nil {
		return b, s, err
	}
	s.grade = it.place
	if c.letter == letterJS {
		half := it.value.Scale(0.5)
		return Band{nominal.Sub(half), nominal.Add(half)}, s, nil
	}
	if err := c.usedAt(nominal); err != nil {
		return b, s, err
	}
	dev := &iso().shafts[c.column()][r] // ISO 286-1, tables 2 and 3
	if c.hole && c.letter == letterJ {
		dev = &iso().holes[c.grade-6][r]
	}
	if !dev.known() {
		from, to := iso().reach(c)
		return b, s, notUsed(c.String(), nominal, "outside the table of the letter",
			"sizes over "+from.String()+" up to "+to.String())
	}
	if c.letter != letterH { // H and h are nought by definition
		s.deviation = dev.place
	}
	value := dev.value
	if c.letter == letterK && !c.hole && (c.grade < 4 || c.grade > 7) {
		value = units.Length{} // k of other grades than IT4 to IT7 has ei = 0
	}
	upper := c.letter <= letterH // whether the fundamental deviation is the upper one
	if c.hole {
		upper = !upper
		if c.letter != letterJ {
			if value, err = c.holeDeviation(nominal, r, value); err != nil {
				return b, s, err
			}
		}
	}
	at := nominal.Add(value)
	if upper {
		return Band{at.Sub(it.value), at}, s, nil
	}
	return Band{at, at.Add(it.value)}, s, nil
}

// column returns the column of the shaft table that the class goes by.
func (c Class) column() int {
	if c.letter != letterJ {
		return int(c.letter)
	}
	switch {
	case c.grade <= 6:
		return columnJ6
	case c.grade == 7:
		return columnJ7
	}
	return columnJ8
}

// usedAt refuses what the standard leaves out within the reach of a letter.
func (c Class) usedAt(nominal units.Length) error {
	pm := nominal.Picometres()
	special := pm > threeMM && pm <= fiveHundredMM // the range in which delta counts
	no := func(problem, accepted string) error { return notUsed(c.String(), nominal, problem, accepted) }
	switch {
	case c.letter <= letterB && pm <= oneMM:
		return no("the standard does not use a and b up to 1 mm", "sizes over 1 mm")
	case c.letter == letterJ && c.hole && (c.grade < 6 || c.grade > 8):
		return no("of the holes J the standard gives J6, J7 and J8 only", "J6, J7, J8, or JS of any grade")
	case c.letter == letterJ && !c.hole && (c.grade < 5 || c.grade > 8):
		return no("of the shafts j the standard gives j5, j6, j7, and j8 up to 3 mm", "j5, j6, j7, or js of any grade")
	case c.hole && c.letter == letterN && c.grade > 8 && pm <= oneMM:
		return no("the standard does not use N9 and coarser up to 1 mm", "sizes over 1 mm, or grades up to IT8")
	case c.hole && c.letter == letterK && c.grade > 8 && special:
		return no("the standard does not define K coarser than IT8 over 3 up to 500 mm", "K8 and finer, or JS")
	case c.hole && c.letter >= letterK && c.grade < 3 && special:
		return no("the standard gives the delta of holes K to ZC for IT3 to IT8 only", "grades from IT3")
	case c.hole && c.letter >= letterK && c.grade < 6 && pm > fiveHundredMM:
		return no("the table gives holes K to U over 500 mm from IT6", "grades from IT6")
	}
	return nil
}

// holeDeviation turns the fundamental deviation of the shaft into that of the
// hole; ISO 286-1, general rule, special rule and exceptions.
func (c Class) holeDeviation(nominal units.Length, r int, shaft units.Length) (units.Length, error) {
	pm := nominal.Picometres()
	special := pm > threeMM && pm <= fiveHundredMM
	switch {
	case c.letter == letterN && c.grade > 8 && special:
		return units.Length{}, nil
	case c.letter == letterM && c.grade == 6 && pm > twoFiftyMM && pm <= threeFifteenMM:
		return units.Micron(-9), nil
	case special && (c.letter >= letterK && c.letter <= letterN && c.grade <= 8 ||
		c.letter >= letterP && c.grade <= 7):
		it, err := c.grade.at(nominal, r)
		if err != nil {
			return units.Length{}, err
		}
		finer, err := (c.grade - 1).at(nominal, r)
		if err != nil {
			return units.Length{}, err
		}
		delta := it.value.Sub(finer.value) // ITn - IT(n-1)
		return shaft.Neg().Add(delta), nil // ES = -ei + delta, the special rule
	}
	return shaft.Neg(), nil // EI = -es, ES = -ei, the general rule
}

// Sizes at which rules of the standard change, in picometres.
const (
	oneMM          = 1_000_000_000
	threeMM        = 3 * oneMM
	twoFiftyMM     = 250 * oneMM
	threeFifteenMM = 315 * oneMM
	fiveHundredMM  = 500 * oneMM
)

// notUsed is the error for what the standard leaves out.
func notUsed(what string, nominal units.Length, problem, accepted string) error {
	return fail.Wrong(what+" at", nominal, problem, accepted)
}
