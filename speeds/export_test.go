package speeds

import (
	"errors"

	"github.com/valvechest/valvechest/internal/table"
)

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables

// Defaults returns the rows that are the default of a pairing, as operation,
// material and tool, with repeats.
func Defaults() [][3]string {
	var all [][3]string
	for _, row := range speedTable.Rows() {
		for _, op := range row.operations {
			for _, m := range row.defaults {
				all = append(all, [3]string{op.String(), m, row.tool.String()})
			}
		}
	}
	return all
}

// PublishedRows returns every published range, in the order of the table.
func PublishedRows() []Published {
	var all []Published
	for _, row := range speedTable.Rows() {
		all = append(all, row.published)
	}
	return all
}

// FirstUse reads the tables that Recommend needs, and works out its answers for
// an operation, as its first call does.
func FirstUse() (int, error) {
	a, _, err1 := table.Read(tables, speedTable.Name, readSpeed)
	b, _, err2 := table.Read(tables, operationTable.Name, readOperationRatio)
	c, _, err3 := table.Read(tables, toolTable.Name, readToolRatio)
	d, _, err4 := table.Read(tables, standInTable.Name, readStandIn)
	e, _, err5 := table.Read(tables, adviceTable.Name, readAdvice)
	f, _, err6 := table.Read(tables, precautionTable.Name, readPrecaution)
	return len(a) + len(b) + len(c) + len(d) + len(e) + len(f) + len(resolve(Parting)),
		errors.Join(err1, err2, err3, err4, err5, err6)
}

// RatioOf returns the share of an operation that another is, by the words of the
// source.
func RatioOf(op, of Operation) [][2]float64 {
	var all [][2]float64
	for _, row := range operationTable.Rows() {
		if row.item == op && row.of == of {
			all = append(all, [2]float64{row.low, row.high})
		}
	}
	return all
}

// ToolRatios returns the shares of one tool's speed that another's is.
func ToolRatios(tool Tool) [][2]float64 {
	var all [][2]float64
	for _, row := range toolTable.Rows() {
		if row.item == tool {
			all = append(all, [2]float64{row.low, row.high})
		}
	}
	return all
}
