package thread

import (
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

// A listing is one thread of a series with what people call its size.
type listing struct {
	Thread
	nominal units.Length // the size in the designation: 3 mm, 1/4 in; for pipe not a diameter of the thread
	number  int          // screw or BA number, or -1
}

// catalogue holds every listed thread, series after series, each from the
// smallest to the largest.
func catalogue() []listing { return listed.catalogueOnce.Get(listed.readCatalogue) }

func (l *lists) readCatalogue() []listing {
	var all []listing
	rows := l.series().rows
	for i := range rows {
		row := &rows[i]
		here := func(other seriesRow) bool { return other.sizes == row.sizes }
		if row.kind == noSizes || row.kind != pipeSizes && slices.ContainsFunc(rows[:i], here) {
			continue // there are none, or they came with those of an earlier series
		}
		all = append(all, l.readSizes(Series(i), row)...)
	}
	return all
}

// readSizes reads the file of a series, and of those that share it.
func (l *lists) readSizes(series Series, row *seriesRow) []listing {
	given := map[string]bool{}
	list, _, err := table.Read(l.fs(), "tables/"+row.sizes, func(r *table.Row) listing {
		size := row.readSize(series, r)
		if given[size.name] {
			r.Complain("%s is given twice; where a size has two pitches the series needs a mark", size.name)
		}
		given[size.name] = true
		if size.root.Sign() <= 0 {
			r.Complain("%s has no core", size.name)
		}
		return size
	})
	if err != nil {
		panic(err) // the tests read it first
	}
	if series == BSPTaper { // without a gauge length in a table of their own they are none
		list = slices.DeleteFunc(list, func(l listing) bool { return l.gaugeLength.IsZero() })
	}
	return list
}

func (row *seriesRow) readSize(series Series, r *table.Row) listing {
	switch row.kind {
	case unifiedSizes:
		return readUnified(row, r)
	case metricSizes:
		return readMetric(r)
	case baSizes:
		return readBA(r)
	case pipeSizes:
		return readPipe(series, r)
	case nptSizes:
		t := nationalPipeTaper(r.Text("size"), table.As(r, "outside", units.Inches.Parse),
			table.As(r, "l1", units.Inches.Parse), r.Float("tpi"), r.Ref())
		return listing{t, table.As(r, "size", units.Inches.Parse), noNumber}
	case mmSizes:
		d, p := table.As(r, "diameter", units.Millimetres.Parse), table.As(r, "pitch", units.Millimetres.Parse)
		name := row.form.metricName(d, p)
		if series != Trapezoidal {
			name += " " + row.name
		}
		return listing{row.form.inMillimetres(d, p, r.Ref()).as(series, name), d, noNumber}
	case numberSizes:
		d, p := table.As(r, "major", units.Millimetres.Parse), table.As(r, "pitch", units.Millimetres.Parse)
		n := r.Int("number")
		return listing{row.form.inMillimetres(d, p, r.Ref()).as(series, strconv.Itoa(n)+" "+row.name), d, n}
	}
	d, tpi := table.As(r, "size", units.Inches.Parse), r.Float("tpi")
	return listing{row.form.inInches(d, tpi, r.Ref()).as(series, row.inchName(inches(d), tpi)), d, noNumber}
}

// as returns the thread as one of a series.
func (t Thread) as(series Series, name string) Thread {
	t.series, t.name = series, name
	return t
}

func readMetric(r *table.Row) listing {
	d, p := table.As(r, "diameter", units.Millimetres.Parse), table.As(r, "pitch", units.Millimetres.Parse)
	series := MetricFine
	switch kind := r.Text("series"); kind {
	case "coarse":
		series = MetricCoarse
	case "fine":
	case "old":
		series = MetricOld
	default:
		r.Complain("series %q is none of coarse, fine and old", kind)
	}
	return listing{metric(d, p, r.Ref()).as(series, FormISO.metricName(d, p)), d, noNumber}
}

// readUnified reads a size of the row's series or of another that shares the file.
func readUnified(file *seriesRow, r *table.Row) listing {
	series := table.As(r, "series", ParseSeries)
	row := series.row()
	if row.sizes != file.sizes {
		r.Complain("the series %v has its sizes elsewhere", series)
	}
	size, tpi, number := r.Text("size"), r.Float("tpi"), noNumber
	var d units.Length
	switch kind := r.Text("kind"); kind {
	case "number":
		number = r.Int("size")
		d = screwNumber(number)
	case "inch":
		d = table.As(r, "size", units.Inches.Parse)
	default:
		r.Complain("kind %q is neither number nor inch", kind)
	}
	return listing{unified(d, tpi, r.Ref()).as(series, row.inchName(size, tpi)), d, number}
}

func readBA(r *table.Row) listing {
	n := r.Int("number")
	mm := func(column string) units.Length {
		if !r.Has(column) {
			return units.Length{}
		}
		return table.As(r, column, units.Millimetres.Parse)
	}
	t := britishAssociation(mm("major"), mm("pitch"), r.Ref()).as(BA, strconv.Itoa(n)+" BA")
	t.number = n
	if r.Has("depth") {
		t.pitchDiameter, t.minor, t.root = mm("effective"), mm("minor"), mm("minor")
		t.depth = mm("depth")
	}
	return listing{t, t.major, n}
}

// readPipe reads a British Standard Pipe size.
func readPipe(series Series, r *table.Row) listing {
	var gauge units.Length
	if g := gaugeOf(r.Text("size")); g != nil {
		gauge = g.length
	}
	t := britishPipe(series, r.Text("size"), table.As(r, "major", units.Millimetres.Parse), gauge, r.Float("tpi"), r.Ref())
	return listing{t, table.As(r, "size", units.Inches.Parse), noNumber}
}
