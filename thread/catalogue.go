package thread

import (
	"embed"
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

//go:embed tables/*.csv
var tables embed.FS

// A listing is one thread of a series with what people call its size.
type listing struct {
	Thread
	nominal units.Length // the size in the designation: 3 mm, 1/4 in; for pipe not a diameter of the thread
	number  int          // screw or BA number, or -1
}

// catalogue holds every listed thread, series after series, each from the
// smallest to the largest.
func catalogue() []listing { return catalogueOnce.Get(readCatalogue) }

var catalogueOnce table.Once[[]listing]

func readCatalogue() []listing {
	var all []listing
	for _, series := range [][]listing{
		readSeries("metric.csv", func(r *table.Row) listing {
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
			return listing{metric(series, d, p, r.Ref()), d, -1}
		}),
		readSeries("unified.csv", func(r *table.Row) listing {
			series, err := ParseSeries(r.Text("series"))
			if err != nil || series.Form() != FormUnified {
				r.Complain("series is not Unified")
			}
			size, tpi := r.Text("size"), r.Float("tpi")
			if kind := r.Text("kind"); kind == "number" {
				n := r.Int("size")
				return listing{unified(series, size, screwNumber(n), tpi, r.Ref()), screwNumber(n), n}
			} else if kind != "inch" {
				r.Complain("kind %q is neither number nor inch", kind)
			}
			d := table.As(r, "size", units.Inches.Parse)
			return listing{unified(series, size, d, tpi, r.Ref()), d, -1}
		}),
		whitworthSeries("bsw.csv", BSW),
		whitworthSeries("bsf.csv", BSF),
		readSeries("ba.csv", func(r *table.Row) listing {
			n := r.Int("number")
			mm := func(column string) units.Length {
				if !r.Has(column) {
					return units.Length{}
				}
				return table.As(r, column, units.Millimetres.Parse)
			}
			t := britishAssociation(n, mm("pitch"), mm("major"), r.Ref())
			if r.Has("depth") {
				t.pitchDiameter, t.minor, t.root = mm("effective"), mm("minor"), mm("minor")
				t.depth = mm("depth")
			}
			return listing{t, t.major, n}
		}),
		whitworthSeries("me.csv", ME),
		whitworthSeries("bsb.csv", BSB),
		readSeries("bsc.csv", func(r *table.Row) listing {
			d, tpi := table.As(r, "size", units.Inches.Parse), r.Float("tpi")
			return listing{cycle(d, tpi, r.Ref()), d, -1}
		}),
		pipeSeries(BSPParallel),
		pipeSeries(BSPTaper),
		readSeries("npt.csv", func(r *table.Row) listing {
			t := nationalPipeTaper(r.Text("size"), table.As(r, "outside", units.Inches.Parse),
				table.As(r, "l1", units.Inches.Parse), r.Float("tpi"), r.Ref())
			return listing{t, table.As(r, "size", units.Inches.Parse), -1}
		}),
		readSeries("trapezoidal.csv", func(r *table.Row) listing {
			d, p := table.As(r, "diameter", units.Millimetres.Parse), table.As(r, "pitch", units.Millimetres.Parse)
			return listing{trapezoidal(d, p, r.Ref()), d, -1}
		}),
		readSeries("acme.csv", func(r *table.Row) listing {
			d, tpi := table.As(r, "size", units.Inches.Parse), r.Float("tpi")
			return listing{acme(d, tpi, r.Ref()), d, -1}
		}),
	} {
		all = append(all, series...)
	}
	return all
}

func readSeries(name string, row func(*table.Row) listing) []listing {
	rows, _, err := table.Read(tables, "tables/"+name, row)
	if err != nil {
		panic(err) // the shipped tables are read by the tests
	}
	return rows
}

func whitworthSeries(name string, series Series) []listing {
	return readSeries(name, func(r *table.Row) listing {
		d, tpi := table.As(r, "size", units.Inches.Parse), r.Float("tpi")
		return listing{whitworth(series, d, tpi, r.Ref()), d, -1}
	})
}

// pipeSeries reads the British Standard Pipe sizes. Sizes without a gauge length
// in a table of their own are left out of the taper series.
func pipeSeries(series Series) []listing {
	rows := readSeries("bsp.csv", func(r *table.Row) listing {
		var gauge units.Length
		if g := gaugeOf(r.Text("size")); g != nil {
			gauge = g.length
		}
		t := britishPipe(series, r.Text("size"), table.As(r, "major", units.Millimetres.Parse), gauge, r.Float("tpi"),
			r.Ref())
		return listing{t, table.As(r, "size", units.Inches.Parse), -1}
	})
	if series == BSPTaper {
		rows = slices.DeleteFunc(rows, func(l listing) bool { return l.gaugeLength.IsZero() })
	}
	return rows
}
