package cutting

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables

// RowCounts returns the number of rows of each table.
func RowCounts() map[string]int {
	return map[string]int{"kienzle": len(kienzleTable.Rows()), "force at feed": len(feedTable.Rows()),
		"unit power": len(powerTable.Rows())}
}

// KienzleGroup returns the constants of a group by its number.
func KienzleGroup(group string) (Kienzle, bool) {
	for _, r := range kienzleTable.Rows() {
		if r.value.Group == group {
			return r.value, true
		}
	}
	return Kienzle{}, false
}

// ForceRow and PowerRow return a row by its place in the table.
func ForceRow(i int) Force     { return feedTable.Rows()[i].value }
func PowerRow(i int) UnitPower { return powerTable.Rows()[i].value }
