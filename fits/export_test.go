package fits

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
