package template

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
)

// A Correction makes the printed sheet larger or smaller against a printer that
// does not print true. Each factor is the true length over the printed one, see
// [Factor]; zero is no correction. A sheet that was corrected and still measures
// wrong needs the product of both factors.
type Correction struct{ X, Y float64 }

const leastFactor, mostFactor = 0.5, 2

// Factor returns the factor by which to correct the sheet along one axis.
//
//	factor = drawn / printed
//
// drawn is the length that the drawing says, printed the length that a rule says
// on the paper: a line of 132 mm that came out at 114 mm needs 1.1579. Lengths
// that are not above zero and factors outside 0.5 to 2, which no printer's fit to
// the page explains, are an *[units.ArgumentError]; [Cause] may know why.
func Factor(drawn, printed units.Length) (float64, error) {
	for _, l := range [...]struct {
		field string
		value units.Length
	}{{"length drawn", drawn}, {"length printed", printed}} {
		if l.value.Sign() <= 0 {
			return 0, &units.ArgumentError{Package: "template", Field: l.field, Value: l.value.String(), Accepted: "above zero", Err: units.ErrOutOfRange}
		}
	}
	factor := drawn.Ratio(printed)
	if factor < leastFactor || factor > mostFactor {
		return 0, &units.ArgumentError{Package: "template", Field: "correction", Value: fmt.Sprintf("%.4g", factor), Accepted: "0.5 to 2", Err: units.ErrOutOfRange}
	}
	return factor, nil
}

// scale returns the factors with 1 for zero.
func (c Correction) scale() (x, y float64, err error) {
	factors := [...]float64{c.X, c.Y}
	for i, f := range factors {
		switch {
		case f == 0:
			factors[i] = 1
		case !(f >= leastFactor && f <= mostFactor):
			return 0, 0, &units.ArgumentError{Package: "template", Field: "correction along " + "XY"[i:i+1], Value: fmt.Sprint(f), Accepted: "0.5 to 2, or 0 for none", Err: units.ErrOutOfRange}
		}
	}
	return factors[0], factors[1], nil
}

// Cause names what usually makes a drawing come out at measured instead of drawn,
// when the ratio is that of two units or of a page fitted to the printable area,
// and "" when it is neither. The ratios of units are matched to 0.1 %, those of
// printers, which are common practice and vary, to 0.3 %.
//
//	25.4 and 1/25.4           inches and millimetres taken for each other
//	25.4/96, 96/25.4          pixels of 1/96 in and millimetres
//	25.4/72, 72/25.4          points of 1/72 in and millimetres
//	96/90, 90/96              pixels of 1/90 in and of 1/96 in
//	72/96, 96/72              points and pixels
//	0.98, 0.971               an A4 page shrunk inside a border of 3 mm, by its height or its width
//	1.02                      a page blown up to print without borders
func Cause(drawn, measured units.Length) string {
	if drawn.Sign() <= 0 || measured.Sign() <= 0 {
		return ""
	}
	ratio := measured.Ratio(drawn)
	for _, c := range [...]struct {
		ratio, within float64
		cause         string
	}{
		{25.4, 0.001, "millimetres were read as inches"},
		{1 / 25.4, 0.001, "inches were read as millimetres"},
		{25.4 / 96, 0.001, "millimetres were read as pixels of 1/96 in"},
		{96 / 25.4, 0.001, "pixels of 1/96 in were read as millimetres"},
		{25.4 / 72, 0.001, "millimetres were read as points of 1/72 in"},
		{72 / 25.4, 0.001, "points of 1/72 in were read as millimetres"},
		{96.0 / 90, 0.001, "pixels of 1/96 in were read as pixels of 1/90 in"},
		{90.0 / 96, 0.001, "pixels of 1/90 in were read as pixels of 1/96 in"},
		{72.0 / 96, 0.001, "points of 1/72 in were read as pixels of 1/96 in"},
		{96.0 / 72, 0.001, "pixels of 1/96 in were read as points of 1/72 in"},
		{291.0 / 297, 0.003, "the page was probably shrunk to fit inside a border: print at 100 %"},
		{204.0 / 210, 0.003, "the page was probably shrunk to fit inside a border: print at 100 %"},
		{1.02, 0.003, "the page was probably blown up to print without borders: print at 100 %"},
	} {
		if math.Abs(ratio/c.ratio-1) <= c.within {
			return c.cause
		}
	}
	return ""
}
