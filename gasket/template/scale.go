package template

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
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
//	drawn    length that the drawing says, above zero
//	printed  length that a rule says on the paper, above zero
//
// A line of 120 mm that came out at 111 mm needs 1.0811. A factor outside 0.5 to 2
// is an error: no printer's fit to the page explains it, and [CheckScale] may know
// what does. See the example.
func Factor(drawn, printed units.Length) (float64, error) {
	if err := fail.Above(fault.Named("length drawn", drawn), fault.Named("length printed", printed)); err != nil {
		return 0, err
	}
	factor := drawn.Ratio(printed)
	if factor < leastFactor || factor > mostFactor {
		return 0, fail.OutOfRange("correction", fmt.Sprintf("%.4g", factor), "0.5 to 2")
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
			return 0, 0, fail.OutOfRange("correction along "+"XY"[i:i+1], f, "0.5 to 2, or 0 for none")
		}
	}
	return factors[0], factors[1], nil
}

// What [CheckScale] says of a drawing that comes out at a wrong size.
const (
	UnitsMistaken finding.Code = "units-mistaken" // one unit was read as another
	FittedToPage  finding.Code = "fitted-to-page" // the printer shrank or blew up the page
)

// CheckScale says what usually makes a drawing come out at measured instead of
// drawn, when the ratio is that of two units or of a page fitted to the printable
// area, and nothing when it is neither. The ratios of units are matched to 0.1 %,
// those of printers, which are common practice and vary, to 0.3 %.
//
//	25.4, 1/25.4     inches and millimetres taken for each other
//	25.4/96, 96/25.4 pixels of 1/96 in and millimetres
//	25.4/72, 72/25.4 points of 1/72 in and millimetres
//	96/90, 90/96     pixels of 1/90 in and of 1/96 in
//	72/96, 96/72     points and pixels
//	0.98, 0.971      an A4 page shrunk inside a border of 3 mm, by its height or its width
//	1.02             a page blown up to print without borders
//
// Both lengths are above zero, up to 1 km. See the example.
func CheckScale(drawn, measured units.Length) (finding.List, error) {
	if err := fail.Above(fault.Named("length drawn", drawn), fault.Named("length measured", measured)); err != nil {
		return nil, err
	}
	ratio := measured.Ratio(drawn)
	for _, m := range [...]struct {
		ratio    float64
		is, read string // the unit of the file, and the one that it was read in
	}{
		{25.4, "Millimetres", "inches"},
		{1 / 25.4, "Inches", "millimetres"},
		{25.4 / 96, "Millimetres", "pixels of 1/96 in"},
		{96 / 25.4, "Pixels of 1/96 in", "millimetres"},
		{25.4 / 72, "Millimetres", "points of 1/72 in"},
		{72 / 25.4, "Points of 1/72 in", "millimetres"},
		{96.0 / 90, "Pixels of 1/96 in", "pixels of 1/90 in"},
		{90.0 / 96, "Pixels of 1/90 in", "pixels of 1/96 in"},
		{72.0 / 96, "Points of 1/72 in", "pixels of 1/96 in"},
		{96.0 / 72, "Pixels of 1/96 in", "points of 1/72 in"},
	} {
		if math.Abs(ratio/m.ratio-1) <= 0.001 {
			return finding.List{{
				Code: UnitsMistaken, Severity: finding.Caution,
				Text:     fmt.Sprintf("%s were read as %s.", m.is, m.read),
				Remedies: []string{"Choose the unit of the drawing when it is read in, and measure the bars."},
			}}, nil
		}
	}
	for _, p := range [...]struct {
		ratio float64
		text  string
	}{
		{291.0 / 297, "The page was probably shrunk to fit inside a border."},
		{204.0 / 210, "The page was probably shrunk to fit inside a border."},
		{1.02, "The page was probably blown up to print without borders."},
	} {
		if math.Abs(ratio/p.ratio-1) <= 0.003 {
			return finding.List{{
				Code: FittedToPage, Severity: finding.Caution, Text: p.text,
				Remedies: []string{"Print at 100 %."}, Refs: source.Of(source.Practice()),
			}}, nil
		}
	}
	return nil, nil
}
