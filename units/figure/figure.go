package figure

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

const fail = fault.Package("figure")

// A Figure is a length with what its writing tells.
type Figure struct {
	Text     string       // as it is written
	Length   units.Length // exact
	Rounding units.Length // what rounding may have taken or added; none of an inch fraction
}

// mostRounding is what rounding counts for at the most. A drawing means its whole
// millimetres and tenths of an inch (common practice).
const mostRounding = 50_000_000 // picometres

// Parse reads a length as [units.ParseLength] does. Rounding is half of the last
// place that is written, 0.05 mm of "28.5 mm" and 0.0005 in of "1.125 in", and at
// most 0.05 mm.
func Parse(text string) (Figure, error) {
	l, err := units.ParseLength(text)
	if bad := (*units.ParseError)(nil); errors.As(err, &bad) {
		return Figure{}, fail.Text(bad.What, text, bad.Problem, bad.Accepted, bad.Err)
	}
	f := Figure{Text: strings.TrimSpace(text), Length: l}
	unit := strings.TrimLeft(f.Text, "+-\u22120123456789./\u2044 ½¼¾⅛⅜⅝⅞\u00a0\u2009\u202f")
	number := strings.TrimSuffix(f.Text, unit)
	if strings.ContainsAny(number, "/\u2044½¼¾⅛⅜⅝⅞") {
		return f, nil
	}
	_, decimals, _ := strings.Cut(strings.TrimSpace(number), ".")
	half, err := units.ParseLength("0." + strings.Repeat("0", len(decimals)) + "5" + unit)
	if err != nil { // finer than a picometre
		return f, nil
	}
	f.Rounding = units.Picometres(min(half.Picometres(), mostRounding))
	return f, nil
}

// String returns the figure as it is written, with the other unit behind it:
// "1.125 in (28.575 mm)".
func (f Figure) String() string {
	if strings.HasSuffix(f.Text, "mm") {
		return fmt.Sprintf("%s (%s)", f.Text, f.Length.Text(units.Inches, 4))
	}
	return fmt.Sprintf("%s (%s)", f.Text, f.Length.Text(units.Millimetres, 3))
}

// Agrees reports whether the figures may be one length: what parts them is not more
// than the rounding of both.
func (f Figure) Agrees(g Figure) bool {
	return f.Length.Sub(g.Length).Abs().Cmp(f.Rounding.Add(g.Rounding)) <= 0
}

// A Difference is what parts two figures that do not agree.
type Difference struct {
	A, B Figure
	By   units.Length // B less A
	Half units.Length // what anything in the middle of the length moves by
}

// String returns the difference in one line.
func (d Difference) String() string {
	return fmt.Sprintf("%v and %v: %s, %s", d.A, d.B, d.By.Text(units.Millimetres, 3), d.By.Text(units.Thousandths, 1))
}

// Differences returns the pairs that do not agree, in the order of the figures.
func Differences(figures ...Figure) []Difference {
	var all []Difference
	for i, a := range figures {
		for _, b := range figures[i+1:] {
			if by := b.Length.Sub(a.Length); !a.Agrees(b) {
				all = append(all, Difference{A: a, B: b, By: by, Half: by.Scale(0.5)})
			}
		}
	}
	return all
}

// Disagree is the finding of [Check]: figures that are said to be one length are
// two.
const Disagree finding.Code = "figures-disagree"

// Check says of each pair of figures that do not agree by how much, and what moves
// with them.
func Check(figures ...Figure) finding.List {
	var list finding.List
	for _, d := range Differences(figures...) {
		by, larger := d.By.Abs(), "larger"
		if d.By.Sign() == -1 {
			larger = "smaller"
		}
		half := d.Half.Abs()
		list = append(list, finding.Finding{
			Code: Disagree, Severity: finding.Caution,
			Text: fmt.Sprintf("%v and %v are not one length: the second is %s (%s) %s. What is laid out from the middle moves by half "+
				"of that against either end, %s (%s).", d.A, d.B, by.Text(units.Millimetres, 3), by.Text(units.Thousandths, 1), larger,
				half.Text(units.Millimetres, 3), half.Text(units.Thousandths, 1)),
			Remedies: []string{"Measure the part, settle which figure rules, and strike the other out before anything is laid out from it."},
		})
	}
	return list
}
