package thread

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Lathe is what a lathe brings to screwcutting: its leadscrew and the change
// wheels there are for it.
type Lathe struct {
	Leadscrew Lead
	Wheels    []int // teeth of every wheel to hand; a size there are two of stands twice

	// GearedDrivers and GearedDriven are the teeth, or any other figures in
	// their ratio, of gears that are always in the drive between spindle and
	// leadscrew: a tumbler, a quick-change box at one setting. Both zero is
	// one to one.
	GearedDrivers, GearedDriven int
}

// ParseWheels reads a set of change wheels: teeth apart by commas or spaces,
// and runs with a step, "20, 20, 25-100x5, 63, 127". A wheel there are two of
// stands twice. Other text, and fewer than 2 or more than 60 wheels, are an
// [*units.ArgumentError].
func ParseWheels(s string) ([]int, error) {
	fail := func(part, problem string) ([]int, error) {
		return nil, wrong("change wheels", strconv.Quote(part), problem, `2 to 60 wheels of 8 to 400 teeth, such as "20, 20, 25-100x5, 63"`, units.ErrSyntax)
	}
	var wheels []int
	for _, part := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' }) {
		from, rest, run := strings.Cut(part, "-")
		to, step := from, "1"
		if run {
			var stepped bool
			if to, step, stepped = strings.Cut(rest, "x"); !stepped {
				return fail(part, "a run of wheels without its step")
			}
		}
		first, errFirst := strconv.Atoi(from)
		last, errLast := strconv.Atoi(to)
		by, errBy := strconv.Atoi(step)
		switch {
		case errFirst != nil || errLast != nil || errBy != nil:
			return fail(part, "not a number of teeth")
		case first < leastTeeth || last > mostTeeth || last < first || by < 1:
			return fail(part, "outside the range")
		case (last-first)%by != 0:
			return fail(part, "the step does not reach the last wheel")
		case len(wheels)+(last-first)/by+1 > mostWheels:
			return fail(part, "more than 60 wheels")
		}
		for teeth := first; teeth <= last; teeth += by {
			wheels = append(wheels, teeth)
		}
	}
	if len(wheels) < 2 {
		return fail(s, "fewer than two wheels")
	}
	return wheels, nil
}

// The limits of a search.
const (
	mostWheels = 60
	leastTeeth = 8
	mostTeeth  = 400
)

// StudRoom is the number of teeth by which two meshing wheels of a compound
// train must exceed the wheel beside them so that its rim clears the stud or the
// shaft. It is common practice, for wheels and studs in the usual proportion:
// try the wheels on the banjo.
const StudRoom = 15

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

// Mounts reports whether the wheels clear the studs beside them; see [StudRoom].
func (t Train) Mounts() bool { return len(t.Drivers) == 1 || t.Room >= StudRoom }

// ErrorOver returns by how much a screw of that length, cut with the train,
// comes out too long (short if negative).
//
//	error = length * Error
func (t Train) ErrorOver(length units.Length) units.Length { return length.Scale(t.Error) }

// String returns the train as drivers over driven wheels, from the spindle:
// "40/60 x 45/127".
func (t Train) String() string {
	var b strings.Builder
	for i := range t.Drivers {
		if i > 0 {
			b.WriteString(" x ")
		}
		fmt.Fprintf(&b, "%d/%d", t.Drivers[i], t.Driven[i])
	}
	return b.String()
}

// Trains is what the wheels of a lathe can do for one lead.
type Trains struct {
	Want    Lead
	Exact   []Train // every exact train; those that mount first, then fewest wheels, then the most room
	Closest []Train // the twelve closest leads within 2 % that are not exact, closest first; of each the train that mounts best
}

const (
	closestKept   = 12
	closestWithin = 0.02
)

// ChangeWheels returns the trains of two and of four wheels that cut a lead:
// all that are exact, and of those within 2 % the closest, each with its error.
//
//	lead cut = lead of leadscrew * product of drivers / product of driven
//
// with both products taken over change wheels and gears always in the drive.
// Each pair of products is given once, in the order on the studs that leaves
// the most room. Wheels have 8 to 400 teeth, at most 60 of them. A compound
// train never pairs equal wheels against each other, as an idler does that.
//
// Source: the proportion is geometry; worked examples of the old shop handbooks
// that testdata lists agree. Errors are of type [*units.ArgumentError].
func ChangeWheels(lathe Lathe, want Lead) (Trains, error) {
	s, err := newSearch(lathe, want)
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
		case t.Mounts():
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
// none. Errors are those of [ChangeWheels].
func WheelsToBuy(lathe Lathe, want Lead) ([]int, error) {
	s, err := newSearch(lathe, want)
	if err != nil {
		return nil, err
	}
	mounts := func(s *search, must int32) bool {
		found := false
		s.each(must, func(drivers, driven [2]int32, exact bool, _ float64) {
			if exact && !found {
				found = s.train(drivers, driven, 0).Mounts()
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

// A Translation is a pair of wheels that turns inches into millimetres, or
// nearly: with the driver over the driven wheel in the train, and a wheel or a
// factor of 20, one thread to the inch of the leadscrew becomes a millimetre.
type Translation struct {
	Driver, Driven int
	Error          float64 // share by which the lead comes out too long; 0 for 100/127
}

// Translations returns the pairs of wheels of up to so many teeth (20 to 400)
// that stand for 100/127 within a share of error, closest first. It shows that
// nothing exact does without a multiple of 127, and what comes near: 63/80 is
// 0.0125 % long, 37/47 0.0213 % short. Each ratio is given once, in its lowest
// terms; multiply both wheels alike to reach wheels there are.
func Translations(largest int, within float64) ([]Translation, error) {
	if largest < 20 || largest > mostTeeth {
		return nil, argument("teeth of the largest wheel", strconv.Itoa(largest), "20 to 400", units.ErrOutOfRange)
	}
	if !(within >= 0 && within <= 0.05) {
		return nil, argument("share of error", fmt.Sprint(within), "0 to 0.05, which is 5 %", units.ErrOutOfRange)
	}
	var pairs []Translation
	for driven := 1; driven <= largest; driven++ {
		middle := driven * 100 / 127
		reach := int(float64(driven)*within) + 1
		for driver := max(1, middle-reach); driver <= min(driven, middle+reach); driver++ {
			off := float64(127*driver-100*driven) / float64(100*driven)
			if math.Abs(off) <= within && gcd(driver, driven) == 1 {
				pairs = append(pairs, Translation{driver, driven, off})
			}
		}
	}
	slices.SortFunc(pairs, func(a, b Translation) int {
		return cmp.Or(cmp.Compare(math.Abs(a.Error), math.Abs(b.Error)), cmp.Compare(a.Driven, b.Driven))
	})
	return pairs, nil
}

// search walks through the trains of a lathe for a lead.
type search struct {
	wheels []int32 // ascending
	lead   float64 // of the leadscrew with the gears always in the drive, picometres
	ratio  float64 // wanted of drivers over driven

	// The ratio in lowest terms; both zero when no train can have it.
	num, den int64
}

func newSearch(lathe Lathe, want Lead) (*search, error) {
	if lathe.Leadscrew.turns == 0 || want.turns == 0 {
		field := "lead to cut"
		if lathe.Leadscrew.turns == 0 {
			field = "lead of the leadscrew"
		}
		return nil, argument(field, "", leadAccepted, units.ErrMissing)
	}
	if len(lathe.Wheels) < 2 || len(lathe.Wheels) > mostWheels {
		return nil, argument("change wheels", fmt.Sprintf("%d wheels", len(lathe.Wheels)), "2 to 60 wheels", units.ErrOutOfRange)
	}
	s := &search{wheels: make([]int32, 0, len(lathe.Wheels))}
	for _, teeth := range lathe.Wheels {
		if teeth < leastTeeth || teeth > mostTeeth {
			return nil, argument("change wheel", fmt.Sprintf("of %d teeth", teeth), "8 to 400 teeth", units.ErrOutOfRange)
		}
		s.wheels = append(s.wheels, int32(teeth))
	}
	slices.Sort(s.wheels)

	drivers, driven := int64(lathe.GearedDrivers), int64(lathe.GearedDriven)
	if drivers == 0 && driven == 0 {
		drivers, driven = 1, 1
	}
	if drivers < 1 || driven < 1 || drivers > 1_000_000 || driven > 1_000_000 {
		return nil, argument("gears always in the drive", fmt.Sprintf("%d/%d", drivers, driven), "two figures from 1 to 1000000, or neither", units.ErrOutOfRange)
	}
	s.lead = float64(lathe.Leadscrew.pm) / float64(lathe.Leadscrew.turns) * float64(drivers) / float64(driven)
	s.ratio = float64(want.pm) / float64(want.turns) / s.lead

	if num, den, ok := want.over(lathe.Leadscrew); ok {
		g, h := gcd(num, drivers), gcd(den, driven)
		num, okN := product(num/g, driven/h)
		den, okD := product(den/h, drivers/g)
		// Wheels of up to 400 teeth reach no terms above 160,000.
		if okN && okD && num <= mostTeeth*mostTeeth && den <= mostTeeth*mostTeeth {
			s.num, s.den = num, den
		}
	}
	return s, nil
}

// each calls yield for every pair of wheels and every two pairs, with teeth of
// zero where there is no second pair. With must not zero only trains with a
// wheel of so many teeth are visited. A set of teeth comes once however many
// wheels have them.
func (s *search) each(must int32, yield func(drivers, driven [2]int32, exact bool, off float64)) {
	w := s.wheels
	n := len(w)
	visit := func(a, b, c, d int32) {
		if must != 0 && a != must && b != must && c != must && d != must {
			return
		}
		top, bottom := int64(a), int64(c)
		if b != 0 {
			top, bottom = top*int64(b), bottom*int64(d)
		}
		exact := s.den != 0 && top*s.den == bottom*s.num
		yield([2]int32{a, b}, [2]int32{c, d}, exact, float64(top)/float64(bottom)/s.ratio-1)
	}
	for i := range n {
		if i > 0 && w[i] == w[i-1] {
			continue
		}
		for k := range n {
			if k != i && (k == 0 || w[k] != w[k-1] || k-1 == i) {
				visit(w[i], 0, w[k], 0)
			}
		}
	}
	for i := range n {
		if i > 0 && w[i] == w[i-1] {
			continue
		}
		for j := i + 1; j < n; j++ {
			if j > i+1 && w[j] == w[j-1] {
				continue
			}
			for k := range n {
				if w[k] == w[i] || w[k] == w[j] || k > 0 && w[k] == w[k-1] {
					continue
				}
				for l := k + 1; l < n; l++ {
					if w[l] == w[i] || w[l] == w[j] || l > k+1 && w[l] == w[l-1] {
						continue
					}
					visit(w[i], w[j], w[k], w[l])
				}
			}
		}
	}
}

// train puts the wheels on their studs in the order that leaves the most room.
func (s *search) train(drivers, driven [2]int32, off float64) Train {
	a, b, c, d := int(drivers[0]), int(drivers[1]), int(driven[0]), int(driven[1])
	if b == 0 {
		return Train{Drivers: []int{a}, Driven: []int{c}, Cut: s.cut(float64(a) / float64(c)), Error: off}
	}
	// Driver a meshes with driven c, beside which driver b sits on the same
	// stud and must clear the shaft of a; b meshes with d, and c must clear
	// the shaft of d.
	room := func(a, b, c, d int) int { return min(a+c-b, b+d-c) }
	best := [4]int{a, b, c, d}
	for _, o := range [...][4]int{{a, b, d, c}, {b, a, c, d}, {b, a, d, c}} {
		if room(o[0], o[1], o[2], o[3]) > room(best[0], best[1], best[2], best[3]) {
			best = o
		}
	}
	return Train{
		Drivers: []int{best[0], best[1]}, Driven: []int{best[2], best[3]},
		Cut:   s.cut(float64(a*b) / float64(c*d)),
		Error: off, Room: room(best[0], best[1], best[2], best[3]),
	}
}

func (s *search) cut(ratio float64) units.Length {
	return units.Picometres(int64(math.Round(s.lead * ratio)))
}

// keepClosest puts t in its place among the closest trains, one for each ratio.
// Equal ratios have equal errors, as the quotient of two whole numbers is
// rounded but once.
func keepClosest(kept []Train, t Train) []Train {
	same := slices.IndexFunc(kept, func(k Train) bool { return k.Error == t.Error })
	if same >= 0 {
		if compareClosest(t, kept[same]) < 0 {
			kept[same] = t
		}
		return kept
	}
	at, _ := slices.BinarySearchFunc(kept, t, compareClosest)
	kept = slices.Insert(kept, at, t)
	return kept[:min(len(kept), closestKept)]
}

func compareExact(a, b Train) int {
	mounts := func(t Train) int {
		if t.Mounts() {
			return 0
		}
		return 1
	}
	return cmp.Or(
		cmp.Compare(mounts(a), mounts(b)),
		cmp.Compare(len(a.Drivers), len(b.Drivers)),
		cmp.Compare(b.Room, a.Room),
		slices.Compare(a.Drivers, b.Drivers),
		slices.Compare(a.Driven, b.Driven),
	)
}

func compareClosest(a, b Train) int {
	return cmp.Or(
		cmp.Compare(math.Abs(a.Error), math.Abs(b.Error)),
		cmp.Compare(len(a.Drivers), len(b.Drivers)),
		cmp.Compare(b.Room, a.Room),
		slices.Compare(a.Drivers, b.Drivers),
		slices.Compare(a.Driven, b.Driven),
	)
}
