package fits

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
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

// At returns the limits of a part of the class at a nominal size, exact.
//
// The standard tolerance of the grade is laid off from the fundamental
// deviation of the letter: the upper deviation es of shafts a to h, the lower
// deviation ei of shafts j to zc, and js half on either side. Of a hole
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
// to 3150 mm, and a size on a boundary belongs to the range below it. A class
// that the standard does not define for the size is an [*units.ArgumentError]
// that says where it is defined, and so is one that would let the part be of no
// size, such as h6 at 5 um. Half tolerances of JS and js stay exact; with
// [Limits.RoundInward] they become the whole micrometres that the standard
// allows.
//
// Source: ISO 286-1:1988 and 2010, whose tables agree; see tables/ for where
// each figure was read. The formulas behind the tables do not give them back
// cell for cell, so the tables are what counts.
func (c Class) At(nominal units.Length) (Limits, error) {
	l, _, err := c.at(nominal)
	return l, err
}

// Refs returns where the figures behind [Class.At] were read: the tolerance
// grade and, unless the class is H, h, JS or js, the fundamental deviation.
// Errors are those of [Class.At].
func (c Class) Refs(nominal units.Length) ([]source.Ref, error) {
	_, cell, err := c.at(nominal)
	if err != nil {
		return nil, err
	}
	grade, err := c.grade.Ref(nominal)
	if err != nil {
		return nil, err
	}
	refs := []source.Ref{grade}
	if cell.known() && c.letter != letterH && c.letter != letterJS {
		refs = append(refs, iso().refs[cell.ref])
	}
	return refs, nil
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
// letters says hole or shaft, so it has to be the same for both letters. Text
// that is no class of the standard is an [*units.ArgumentError].
func ParseClass(s string) (Class, error) {
	fail := func(problem string) (Class, error) {
		return Class{}, &units.ArgumentError{Package: "fits", Field: "tolerance class", Value: quoted(s), Problem: problem,
			Accepted: "one of the letters A to ZC (hole) or a to zc (shaft), without I, L, O, Q, W, and a grade 01, 0, 1 to 18, such as H7, js6, ZC9", Err: units.ErrUnknown}
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
		return fail("empty")
	case n == 0:
		return fail("no letter in front of the grade")
	case c.letter <= noLetter:
		return fail("the standard has no such letter")
	case !c.hole && name != strings.ToLower(name):
		return fail("a capital and a small letter: hole or shaft?")
	}
	g, ok := parseGradeDigits(digits)
	if !ok {
		return fail("no grade, or one that the standard does not have")
	}
	c.grade = g
	return c, nil
}

// ParseSizedClass reads a nominal size and a class as they stand on a drawing,
// in millimetres unless a unit is given: "25H7", "25 h6", "1/2 in H7"; a
// diameter sign in front is passed over. Other text is an
// [*units.ArgumentError].
func ParseSizedClass(s string) (nominal units.Length, c Class, err error) {
	return parseSized(s, "size and tolerance class", `"25H7", "25 mm h6"`, ParseClass)
}

// MarshalText implements [encoding.TextMarshaler].
func (c Class) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseClass]; blank
// text is no class.
func (c *Class) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Class{}
		return nil
	}
	return unmarshal(c, ParseClass, text)
}

// A letter is the place of a fundamental deviation in letters.
type letter int8

var letters = [...]string{"", "a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "j", "js", "k", "m", "n", "p", "r", "s", "t", "u", "v", "x", "y", "z", "za", "zb", "zc"}

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

// at returns the limits and the table cell of the fundamental deviation.
func (c Class) at(nominal units.Length) (Limits, cell, error) {
	l, dev, err := c.laidOff(nominal)
	if err == nil && l.Min.Sign() <= 0 {
		return Limits{}, cell{}, notUsed(c.String(), nominal, "the limits reach down to "+l.Min.String()+", which is no part", "a larger size or a finer grade")
	}
	return l, dev, err
}

func (c Class) laidOff(nominal units.Length) (Limits, cell, error) {
	if c.letter == noLetter {
		return Limits{}, cell{}, &units.ArgumentError{Package: "fits", Field: "tolerance class", Accepted: "such as H7", Err: units.ErrMissing}
	}
	r, err := rangeOf(nominal)
	if err != nil {
		return Limits{}, cell{}, err
	}
	it, err := c.grade.at(nominal, r)
	if err != nil {
		return Limits{}, cell{}, err
	}
	if c.letter == letterJS {
		half := it.Scale(0.5)
		return Limits{nominal, nominal.Sub(half), nominal.Add(half)}, cell{}, nil
	}
	if err := c.usedAt(nominal); err != nil {
		return Limits{}, cell{}, err
	}
	dev := iso().shafts[c.column()][r]
	if c.hole && c.letter == letterJ {
		dev = iso().holes[c.grade-6][r]
	}
	if !dev.known() {
		from, to := iso().reach(c)
		return Limits{}, cell{}, notUsed(c.String(), nominal, "outside the table of the letter", "sizes over "+from.String()+" up to "+to.String())
	}
	value := dev.value
	if c.letter == letterK && !c.hole && (c.grade < 4 || c.grade > 7) {
		value = units.Length{}
	}
	upper := c.letter <= letterH // whether the fundamental deviation is the upper one
	if c.hole {
		upper = !upper
		if c.letter != letterJ {
			if value, err = c.holeDeviation(nominal, r, value); err != nil {
				return Limits{}, cell{}, err
			}
		}
	}
	if upper {
		return Limits{nominal, nominal.Add(value).Sub(it), nominal.Add(value)}, dev, nil
	}
	return Limits{nominal, nominal.Add(value), nominal.Add(value).Add(it)}, dev, nil
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
	switch {
	case c.letter <= letterB && pm <= oneMM:
		return notUsed(c.String(), nominal, "the standard does not use a and b up to 1 mm", "sizes over 1 mm")
	case c.letter == letterJ && c.hole && (c.grade < 6 || c.grade > 8):
		return notUsed(c.String(), nominal, "of the holes J the standard gives J6, J7 and J8 only", "J6, J7, J8, or JS of any grade")
	case c.letter == letterJ && !c.hole && (c.grade < 5 || c.grade > 8):
		return notUsed(c.String(), nominal, "of the shafts j the standard gives j5, j6, j7, and j8 up to 3 mm", "j5, j6, j7, or js of any grade")
	case c.hole && c.letter == letterN && c.grade > 8 && pm <= oneMM:
		return notUsed(c.String(), nominal, "the standard does not use N9 and coarser up to 1 mm", "sizes over 1 mm, or grades up to IT8")
	case c.hole && c.letter == letterK && c.grade > 8 && special:
		return notUsed(c.String(), nominal, "the standard does not define K coarser than IT8 over 3 up to 500 mm", "K8 and finer, or JS")
	case c.hole && c.letter >= letterK && c.grade < 3 && special:
		return notUsed(c.String(), nominal, "the standard gives the delta of holes K to ZC for IT3 to IT8 only", "grades from IT3")
	case c.hole && c.letter >= letterK && c.grade < 6 && pm > fiveHundredMM:
		return notUsed(c.String(), nominal, "the table gives holes K to U over 500 mm from IT6", "grades from IT6")
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
	case special && (c.letter >= letterK && c.letter <= letterN && c.grade <= 8 || c.letter >= letterP && c.grade <= 7):
		it, err := c.grade.at(nominal, r)
		if err != nil {
			return units.Length{}, err
		}
		finer, err := (c.grade - 1).at(nominal, r)
		return shaft.Neg().Add(it.Sub(finer)), err
	}
	return shaft.Neg(), nil
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
	return &units.ArgumentError{Package: "fits", Field: what + " at", Value: nominal.String(), Problem: problem, Accepted: accepted, Err: units.ErrOutOfRange}
}
