package cutting

import "github.com/valvechest/valvechest/units"

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables

// KienzleGroup returns the constants of a group by its number.
func KienzleGroup(group string) (Kienzle, bool) {
	for _, r := range kienzleTable.Rows() {
		if r.value.Group == group {
			return r.value, true
		}
	}
	return Kienzle{}, false
}

// ForceOf returns what is printed of a material, in the words of the source, at a
// feed.
func ForceOf(material string, feed units.Length) (Force, bool) {
	for _, r := range feedTable.Rows() {
		if r.value.Material == material && r.value.Feed == feed {
			return r.value, true
		}
	}
	return Force{}, false
}

// PowersOf returns the constants of a material, in the words of the source.
func PowersOf(material string) []UnitPower {
	var all []UnitPower
	for _, r := range powerTable.Rows() {
		if r.value.Material == material {
			all = append(all, r.value)
		}
	}
	return all
}
