package hole

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables

// PrintedPoint returns the drill point that is printed for a metal, also for
// those that package material does not have.
func PrintedPoint(material string) (Point, bool) {
	for _, row := range pointTable.Rows() {
		if row.point.Material == material {
			return row.point, true
		}
	}
	return Point{}, false
}

// Stock returns the least and most metal that a rule leaves for a reamer of a
// size, in the rows of that rule.
func Stock(rule string, i int) (low, high float64) {
	for _, row := range reamingTable.Rows() {
		if row.rule == rule {
			if i == 0 {
				return row.stockLow.MM(), row.stockHigh.MM()
			}
			i--
		}
	}
	return 0, 0
}
