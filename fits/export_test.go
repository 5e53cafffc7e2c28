package fits

import (
	"errors"

	"github.com/valvechest/valvechest/internal/table"
)

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables

// ReadISO reads the tables of ISO 286 as their first use does.
func ReadISO() error {
	_, err := readISO()
	return err
}

// Ranges are the ends of the ranges of nominal size, in millimetres.
var Ranges = ranges[:]

// Letters are the letters of the fundamental deviations, as of shafts.
var Letters = letters[1:]

// ReadInch reads the table of inch fits as its first use does.
func ReadInch() error {
	_, _, err := table.Read(tables, "tables/ansi_b41.csv", readInchRow)
	return err
}

// ReadTables reads every table as its first use does.
func ReadTables() error {
	_, _, err := table.Read(tables, rules.Name, readRule)
	_, _, errPreferred := table.Read(tables, preferred.Name, readPreferred)
	return errors.Join(ReadISO(), ReadInch(), err, errPreferred)
}

// InchRanges are the ranges of the rows of the table of inch fits, by class.
func InchRanges() map[InchFit][]Band {
	ranges := map[InchFit][]Band{}
	for _, r := range inchRows.Rows() {
		ranges[r.fit] = append(ranges[r.fit], Band{r.over, r.upto})
	}
	return ranges
}
