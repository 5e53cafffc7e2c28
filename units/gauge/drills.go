package gauge

import (
	"embed"
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

//go:embed tables/*.csv
var tables embed.FS

// Number returns the number drills, #97 (0.0059 in) to #1 (0.2280 in).
func Number() Set {
	return numberOnce.Get(func() Set { return readTable("number.csv", "#", "") })
}

// Letter returns the letter drills, A (0.2340 in) to Z (0.4130 in). Drill E is
// a quarter of an inch.
func Letter() Set {
	return letterOnce.Get(func() Set { return readTable("letter.csv", "", "") })
}

// Fraction returns the inch fraction drills from 1/64 in to 1 in by 64ths.
func Fraction() Set { return fractionOnce.Get(makeFractions) }

// Metric returns the metric drills of the size rule in BS 328, 0.2 mm to 25 mm:
// four to the tenth of a millimetre below 1 mm (0.20, 0.22, 0.25, 0.28), two
// below 3 mm, one up to 14 mm, and quarters of a millimetre above.
func Metric() Set { return metricOnce.Get(makeMetric) }

var numberOnce, letterOnce, fractionOnce, metricOnce table.Once[Set]

func makeFractions() Set {
	var sizes []Size
	for n := 1; n <= 64; n++ {
		d := units.InchFraction(n, 64)
		ref := source.Ref{Kind: source.Derived, Note: fmt.Sprintf("%d/64 of 25.4 mm", n)}
		sizes = append(sizes, Size{Name: inchName(d), Diameter: d, Refs: source.Of(ref)})
	}
	return ordered(sizes)
}

var metricRule = source.Ref{
	Kind: source.Published, Title: "BS 328, twist drills and combined drills and countersinks",
	Note: "size rule as reported in two encyclopaedia articles on drill sizes",
}

func makeMetric() Set {
	var sizes []Size
	add := func(hundredths int) {
		d := units.Picometres(int64(hundredths) * 10_000_000)
		sizes = append(sizes, Size{Name: d.String(), Diameter: d, Refs: source.Shared(&metricRule)})
	}
	for tenth := 20; tenth < 1400; tenth += 10 {
		add(tenth)
		switch {
		case tenth < 100:
			add(tenth + 2)
			add(tenth + 5)
			add(tenth + 8)
		case tenth < 300:
			add(tenth + 5)
		}
	}
	for quarter := 1400; quarter <= 2500; quarter += 25 {
		add(quarter)
	}
	return ordered(sizes)
}

// readTable reads a shipped table of sizes in inches; before and after go round
// each name.
func readTable(name, before, after string) Set {
	rows, _, err := table.Read(&tables, "tables/"+name, readSize(before, after))
	if err != nil {
		panic(err) // the shipped tables are read by the tests
	}
	return ordered(rows)
}

func readSize(before, after string) func(*table.Row) Size {
	return func(r *table.Row) Size {
		d := table.As(r, "diameter", units.Inches.Parse)
		return Size{Name: before + r.Text("size") + after, Diameter: d, Refs: r.Refs()}
	}
}

func ordered(sizes []Size) Set {
	slices.SortStableFunc(sizes, compareSizes)
	return Set{sizes}
}
