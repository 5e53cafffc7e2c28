package hole

import "github.com/valvechest/valvechest/units"

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

// Bands returns the sizes that the rows of a rule are for, in the order of the
// table; those of drilled holes under "drilled".
func Bands() map[string][][2]units.Length {
	all := map[string][][2]units.Length{}
	for _, row := range reamingTable.Rows() {
		all[row.rule] = append(all[row.rule], [2]units.Length{row.sizeLow, row.sizeHigh})
	}
	for _, row := range drilledTable.Rows() {
		all["drilled"] = append(all["drilled"], [2]units.Length{row.sizeLow, row.sizeHigh})
	}
	return all
}
