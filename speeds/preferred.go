package speeds

import (
	"fmt"
	"math"
	"strconv"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

type preferredRow struct {
	index   int
	rounded float64
}

func readPreferred(r *table.Row) preferredRow {
	r.Ref()
	row := preferredRow{r.Int("index"), r.Float("rounded")}
	if row.index < 0 || row.index > 39 || math.Abs(row.rounded/math.Pow(10, float64(row.index)/40)-1) > 0.0127 {
		r.Complain("%v is not the preferred number %d of R40", row.rounded, row.index)
	}
	return row
}

// PreferredNumbers returns every step-th rounded preferred number of series R5,
// R10, R20 or R40, from low up to high: R20/3 from 31.5 to 2000 is a ladder of
// ratio 1.41, as machine tools are geared. Low must be a number of the series.
//
// Rounded values of ISO 3:1973, from memory but for R5; each lies within 1.26 %
// of 10^(i/40). Ends that are not above zero and in order, within 1 to 10,000,
// or another series, are an [*units.ArgumentError].
func PreferredNumbers(series, step int, low, high float64) ([]float64, error) {
	if series != 5 && series != 10 && series != 20 && series != 40 {
		return nil, bad("series of preferred numbers", "R"+strconv.Itoa(series), "", "R5, R10, R20, R40", units.ErrUnknown)
	}
	if step < 1 || step > series {
		return nil, bad("step of the series", strconv.Itoa(step), "", fmt.Sprintf("1 to %d", series), units.ErrOutOfRange)
	}
	if !(1 <= low && low < high && high <= 10000) {
		return nil, bad("ends of the series", fmt.Sprintf("%g to %g", low, high), "", "from 1 to 10,000, the lower first", units.ErrOutOfRange)
	}
	rows := preferredTable.Rows()
	stride := 40 / series
	value := func(i int) float64 {
		decade := math.Pow10(i / 40)
		return math.Round(rows[i%40].rounded*decade*1e4) / 1e4
	}
	start := -1
	for i := 0; i <= 160; i += stride {
		if math.Abs(value(i)/low-1) < 1e-9 {
			start = i
		}
	}
	if start < 0 {
		return nil, bad("first preferred number", fmt.Sprint(low), fmt.Sprintf("not a number of R%d", series), fmt.Sprintf("a rounded number of R%d, such as 31.5", series), units.ErrOutOfRange)
	}
	var all []float64
	for i := start; i <= 160; i += stride * step {
		if v := value(i); v <= high*(1+1e-9) {
			all = append(all, v)
		}
	}
	return all, nil
}
