package speeds

import (
	"fmt"
	"math"
	"strconv"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/source"
)

// Preferred are preferred numbers, in order.
type Preferred struct {
	Numbers []float64
	Refs    source.Refs
}

type preferredRow struct {
	index   int
	rounded float64
	ref     source.Ref
}

func readPreferred(r *table.Row) preferredRow {
	row := preferredRow{r.Int("index"), r.Float("rounded"), r.Ref()}
	if row.index < 0 || row.index > 39 || math.Abs(row.rounded/math.Pow(10, float64(row.index)/40)-1) > 0.0127 {
		r.Complain("%v is not the preferred number %d of R40", row.rounded, row.index)
	}
	return row
}

// PreferredNumbers returns every step-th rounded preferred number of series R5,
// R10, R20 or R40, from least up to most: R20/3 from 31.5 to 2000 is a ladder of
// ratio 1.41, as machine tools are geared. The ends lie within 1 to 10,000, and
// the first is a number of the series.
//
// Rounded values of ISO 3:1973, from memory but for R5; each lies within 1.26 %
// of 10^(i/40). See the Example.
func PreferredNumbers(series, step int, least, most float64) (Preferred, error) {
	if series != 5 && series != 10 && series != 20 && series != 40 {
		return Preferred{}, fail.Unknown("series of preferred numbers", "R"+strconv.Itoa(series), "R5, R10, R20, R40")
	}
	if step < 1 || step > series {
		return Preferred{}, fail.OutOfRange("step of the series", step, fmt.Sprintf("1 to %d", series))
	}
	if !(1 <= least && least < most && most <= 10000) {
		return Preferred{}, fail.OutOfRange("ends of the series", fmt.Sprintf("%g to %g", least, most), "from 1 to 10,000, the lower first")
	}
	rows := preferredTable.Rows()
	stride := 40 / series
	value := func(i int) float64 {
		decade := math.Pow10(i / 40)
		return math.Round(rows[i%40].rounded*decade*1e4) / 1e4
	}
	start := -1
	for i := 0; i <= 160; i += stride {
		if math.Abs(value(i)/least-1) < 1e-9 {
			start = i
		}
	}
	if start < 0 {
		return Preferred{}, fail.Wrong("first preferred number", least, fmt.Sprintf("not a number of R%d", series),
			fmt.Sprintf("a rounded number of R%d, such as 31.5", series))
	}
	all := Preferred{Refs: source.Shared(&rows[0].ref)}
	for i := start; i <= 160; i += stride * step {
		if v := value(i); v <= most*(1+1e-9) {
			all.Numbers = append(all.Numbers, v)
		}
	}
	return all, nil
}
