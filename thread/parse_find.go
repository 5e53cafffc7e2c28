package thread

import (
	"math/bits"

	"github.com/valvechest/valvechest/units"
)

// A seriesSet is some of the series.
type seriesSet uint64

func setOf(series ...Series) seriesSet {
	var set seriesSet
	for _, s := range series {
		set |= 1 << s
	}
	return set
}

func (set seriesSet) has(s Series) bool { return set&(1<<s) != 0 }

// first returns the first series of the set, and no series of none.
func (set seriesSet) first() Series { return Series(bits.TrailingZeros64(uint64(set))) }

// form returns the form of the first series of the set, none of none.
func (set seriesSet) form() Form { return set.first().Form() }

// stand returns the series that a word may stand for in a designation; all of inches
// for "uns", whose threads no series lists.
func stand(word string) seriesSet { return listed.series().words[word] }

// A label is what a listing is found by. The labels lie close together, where
// the listings themselves fill many lines of the cache.
type label struct {
	size   units.Length
	series seriesSet // of one
	number int32
}

// labels returns those of the catalogue, in its order.
func labels() []label { return listed.labelsOnce.Get(makeLabels) }

func makeLabels() []label {
	var list []label
	for _, l := range catalogue() {
		list = append(list, label{l.nominal, setOf(l.series), int32(l.number)})
	}
	return list
}

// noNumber is the number of a thread that goes by its size.
const noNumber = -1

// find appends the listed threads of the set that have the size, unless that is
// zero, or the screw or BA number, unless that is [noNumber].
func (set seriesSet) find(list []*listing, size units.Length, number int) []*listing {
	all := catalogue()
	for i, l := range labels() {
		if set&l.series == 0 {
			continue
		}
		if l.size == size || number != noNumber && l.number == int32(number) {
			list = append(list, &all[i])
		}
	}
	return list
}
