package screwcut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
)

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
		return nil, fail.Missing(field, leadAccepted)
	}
	if len(lathe.Wheels) < 2 || len(lathe.Wheels) > mostWheels {
		return nil, fail.OutOfRange("change wheels", fmt.Sprintf("%d wheels", len(lathe.Wheels)), "2 to 60 wheels")
	}
	s := &search{}
	for _, teeth := range lathe.Wheels {
		if teeth < leastTeeth || teeth > mostTeeth {
			return nil, fail.OutOfRange("change wheel", fmt.Sprintf("of %d teeth", teeth), "8 to 400 teeth")
		}
		s.wheels = append(s.wheels, int32(teeth))
	}
	slices.Sort(s.wheels)

	drivers, driven := int64(lathe.GearedDrivers), int64(lathe.GearedDriven)
	if drivers == 0 && driven == 0 {
		drivers, driven = 1, 1
	}
	if drivers < 1 || driven < 1 || drivers > 1_000_000 || driven > 1_000_000 {
		return nil, fail.OutOfRange("gears always in the drive", fmt.Sprintf("%d/%d", drivers, driven),
			"two figures from 1 to 1000000, or neither")
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
		if t.mounts() {
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
