package screwcut

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Lathe is what a lathe brings to screwcutting: its leadscrew and the change
// wheels there are for it.
type Lathe struct {
	Leadscrew Lead
	Wheels    []int // teeth of every wheel to hand, once for each wheel

	// GearedDrivers and GearedDriven are the teeth, or any other figures in
	// their ratio, of gears that are always in the drive between spindle and
	// leadscrew: a tumbler, a quick-change box at one setting. Both zero is
	// one to one.
	GearedDrivers, GearedDriven int
}

// The limits of a search.
const (
	mostWheels = 60
	leastTeeth = 8
	mostTeeth  = 400
)

// A Train is a set of change wheels on the quadrant. Drivers[0] is on the
// spindle or the tumbler stud, the last of Driven on the leadscrew; Drivers[i]
// meshes with Driven[i], and Driven[0] turns with Drivers[1]. In a train of two
// wheels any third that reaches serves as idler.
type Train struct {
	Drivers, Driven []int
	Cut             units.Length // lead that it cuts, to the picometre
	Error           float64      // share by which that lead is too long; exactly zero for an exact train
	Room            int          // of a compound train: teeth by which the closer pair exceeds the wheel beside it
}

// Exact reports whether the train cuts the lead that was asked for and no other.
func (t Train) Exact() bool { return t.Error == 0 }

// studRoom is the number of teeth by which two meshing wheels of a compound
// train must exceed the wheel beside them so that its rim clears the stud or the
// shaft.
const studRoom = 15

// FoulsStud is the finding of [Train.Check]: a wheel may run against the stud or
// the shaft beside it.
const FoulsStud finding.Code = "wheel-fouls-stud"

// Check says whether the wheels clear the studs beside them: the two meshing
// wheels of a compound train must exceed the wheel beside them by 15 teeth. It is
// common practice, for wheels and studs in the usual proportion.
func (t Train) Check() finding.List {
	if len(t.Drivers) < 2 || t.Room >= studRoom {
		return nil
	}
	return finding.List{{
		Code: FoulsStud, Severity: finding.Fails,
		Text:     fmt.Sprintf("A wheel of %v may foul a stud: %d teeth to spare, and %d are wanted.", t, t.Room, studRoom),
		Remedies: []string{"Try the wheels on the banjo, or take another train."},
		Refs:     source.Of(source.Practice()),
	}}
}

// mounts is Check in short, for the search.
func (t Train) mounts() bool { return len(t.Drivers) == 1 || t.Room >= studRoom }

// ErrorOver returns by how much a screw of that length, cut with the train,
// comes out too long (short if negative).
//
//	error = length * Error
//
// An Error that is not finite, and a product beyond 1 km, are refused.
func (t Train) ErrorOver(length units.Length) (units.Length, error) {
	off, err := units.Millimetres.Of(length.MM() * t.Error)
	if err != nil {
		return units.Length{}, fail.Wrong("error of the train", fmt.Sprintf("%g over %v", t.Error, length),
			"not a length that there is", "a finite share, over a length that it keeps below 1 km")
	}
	return off, nil
}

// String returns the train as drivers over driven wheels, from the spindle:
// "40/60 x 45/127"; a "?" for a wheel that has none to mesh with.
func (t Train) String() string {
	wheel := func(wheels []int, i int) string {
		if i >= len(wheels) {
			return "?"
		}
		return strconv.Itoa(wheels[i])
	}
	pairs := make([]string, max(len(t.Drivers), len(t.Driven)))
	for i := range pairs {
		pairs[i] = wheel(t.Drivers, i) + "/" + wheel(t.Driven, i)
	}
	return strings.Join(pairs, " x ")
}

// Trains is what the wheels of a lathe can do for one lead.
type Trains struct {
	Want    Lead
	Exact   []Train // every exact train; those that mount first, then fewest wheels, then the most room
	Closest []Train // of the twelve closest leads within 2 %, the train that mounts best; closest first
}

const (
	closestKept   = 12
	closestWithin = 0.02
)

// Trains returns the trains of two and of four wheels that cut a lead: all that
// are exact, and of those within 2 % the closest, each with its error.
//
//	lead cut = lead of leadscrew * product of drivers / product of driven
//
// Both products are taken over change wheels and gears always in the drive.
// Each pair of products is given once, in the order on the studs that leaves
// the most room. Wheels have 8 to 400 teeth, at most 60 of them. A compound
// train never pairs equal wheels against each other, as an idler does that.
//
// Source: the proportion is geometry; worked examples of old shop handbooks agree.
func (l Lathe) Trains(want Lead) (Trains, error) {
	s, err := newSearch(l, want)
	if err != nil {
		return Trains{}, err
	}
	result := Trains{Want: want}
	limit := closestWithin
	s.each(0, func(drivers, driven [2]int32, exact bool, off float64) {
		if !exact && math.Abs(off) > limit {
			return
		}
		t := s.train(drivers, driven, off)
		switch {
		case exact:
			t.Error = 0
			result.Exact = append(result.Exact, t)
		case t.mounts():
			result.Closest = keepClosest(result.Closest, t)
			if len(result.Closest) == closestKept {
				limit = math.Abs(result.Closest[closestKept-1].Error)
			}
		}
	})
	slices.SortFunc(result.Exact, compareExact)
	return result, nil
}

// WheelsToBuy returns the wheels of 20 to 127 teeth any one of which, added to
// those of the lathe, makes an exact train that mounts, smallest first. It is
// empty when no single wheel does. A lathe that has such a train already needs
// none.
func (l Lathe) WheelsToBuy(want Lead) ([]int, error) {
	s, err := newSearch(l, want)
	if err != nil {
		return nil, err
	}
	mounts := func(s *search, must int32) bool {
		found := false
		s.each(must, func(drivers, driven [2]int32, exact bool, _ float64) {
			if exact && !found {
				found = s.train(drivers, driven, 0).mounts()
			}
		})
		return found
	}
	if mounts(s, 0) {
		return nil, nil
	}
	var buy []int
	for teeth := int32(20); teeth <= 127; teeth++ {
		more := *s
		at, _ := slices.BinarySearch(s.wheels, teeth)
		more.wheels = slices.Insert(slices.Clone(s.wheels), at, teeth)
		if mounts(&more, teeth) {
			buy = append(buy, int(teeth))
		}
	}
	return buy, nil
}
