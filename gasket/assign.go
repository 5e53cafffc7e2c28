package gasket

import (
	"cmp"
	"context"
	"encoding/binary"
	"math"
	"slices"
	"sort"
)

// pairings returns the ways to pair the points of a with points of b so that a
// pose brings every pair within reach, or nearly so, and no way pairs more; none
// where that is fewer than least. Each lists, for every point of a, its partner
// in b or -1.
//
// Two points of a that lie far apart are laid on every two points of b that are as
// far apart, within twice the reach; the others are paired with the points that
// are nearest then. Where the two have partners, that finds the pairing, as long as
// holes lie further apart than a few times the errors. A pairing that leaves fewer
// than k points of a out takes in both points of at least one of k such twos that
// have no point in common, so that k of them are enough. a must not be the larger
// set. It stops when the context is done.
func pairings(ctx context.Context, a, b []vec, reach float64, least int) [][]int {
	known := map[string]bool{}
	targets := byX(b)
	var found [][]int
	most := max(least, 2)
	for k, base := range basePairs(a) {
		if len(a)-most < k {
			break
		}
		across := a[base[1]].sub(a[base[0]])
		for j0 := range b {
			for j1 := range b {
				other := b[j1].sub(b[j0])
				if ctx.Err() != nil {
					return nil
				}
				if j0 == j1 || math.Abs(other.abs()-across.abs()) > 2*reach {
					continue
				}
				p := pose{turn: math.Atan2(across.cross(other), across.dot(other))}
				middleA := a[base[0]].add(a[base[1]]).scale(0.5)
				middleB := b[j0].add(b[j1]).scale(0.5)
				p.shift = middleB.sub(p.of(middleA))
				partner, count := settle(a, targets, p, reach, known)
				if count < most {
					continue
				}
				if count > most {
					most, found = count, nil
				}
				found = append(found, partner)
			}
		}
	}
	return found
}

// basePairs returns pairs of points with nothing in common, the widest first.
func basePairs(a []vec) [][2]int {
	free := make([]bool, len(a))
	for i := range free {
		free[i] = true
	}
	var pairs [][2]int
	for {
		best, far := [2]int{}, 0.0
		for i := range a {
			for j := range i {
				if d := a[i].sub(a[j]).abs(); free[i] && free[j] && d > far {
					best, far = [2]int{j, i}, d
				}
			}
		}
		if far == 0 { // fewer than two are free
			return pairs
		}
		free[best[0]], free[best[1]] = false, false
		pairs = append(pairs, best)
	}
}

// settle pairs the points at a pose, fits a pose to the pairs, pairs the points
// anew there, and goes on until the pairs stay as they are. It returns no pairs
// where it comes to pairs that are known from an earlier start.
func settle(a []vec, b sorted, p pose, reach float64, known map[string]bool) (partner []int, count int) {
	var path []string
	for range 20 {
		next := assign(a, b, p, reach)
		if slices.Equal(next, partner) {
			break
		}
		partner = next
		key := signature(partner)
		if known[key] {
			partner, count = nil, 0
			break
		}
		path = append(path, key)
		var pa, pb []vec
		for i, j := range partner {
			if j >= 0 {
				pa, pb = append(pa, a[i]), append(pb, b.points[j])
			}
		}
		if count = len(pa); count < 2 {
			break
		}
		var ok bool
		if p, ok = leastSquares(pa, pb, func(int) float64 { return 1 }); !ok {
			break
		}
	}
	for _, key := range path {
		known[key] = true
	}
	return partner, count
}

// assign pairs each point of a with its nearest in b within reach; where two
// want the same partner, so that as many as possible have one and the sum of
// the squared distances is least.
func assign(a []vec, b sorted, p pose, reach float64) []int {
	partner := make([]int, len(a))
	taken := make([]bool, len(b.points))
	placed := make([]vec, len(a))
	clash := false
	sin, cos := math.Sincos(p.turn)
	for i := range a {
		placed[i] = a[i].turn(sin, cos).add(p.shift)
		partner[i] = b.nearest(placed[i], reach)
		if j := partner[i]; j >= 0 {
			clash = clash || taken[j]
			taken[j] = true
		}
	}
	if clash {
		return hungarian(placed, b.points, reach)
	}
	return partner
}

// sorted is a set of points with their order along x.
type sorted struct {
	points []vec
	order  []int
	along  []float64 // x in that order
}

func byX(points []vec) sorted {
	s := sorted{points, make([]int, len(points)), make([]float64, len(points))}
	for i := range s.order {
		s.order[i] = i
	}
	slices.SortStableFunc(s.order, func(i, j int) int { return cmp.Compare(points[i].x, points[j].x) })
	for k, i := range s.order {
		s.along[k] = points[i].x
	}
	return s
}

// nearest returns the index of the point nearest to p within reach, or -1.
func (s sorted) nearest(p vec, reach float64) int {
	first := sort.SearchFloat64s(s.along, p.x-reach)
	best, least := -1, reach*reach
	for k := first; k < len(s.along) && s.along[k] <= p.x+reach; k++ {
		d := s.points[s.order[k]].sub(p)
		if d2 := d.dot(d); d2 < least || d2 == least && best < 0 {
			best, least = s.order[k], d2
		}
	}
	return best
}

// hungarian solves the assignment problem for len(a) <= len(b) by shortest
// augmenting paths (Jonker and Volgenant 1987). A distance beyond reach costs
// more than all others together, and such a pair is no pair.
func hungarian(a, b []vec, reach float64) []int {
	far := 2 * reach * reach * float64(len(a)+1)
	cost := func(i, j int) float64 {
		d := a[i].sub(b[j])
		if d2 := d.dot(d); d2 <= reach*reach {
			return d2
		}
		return far
	}
	n, m := len(a), len(b)
	u, v := make([]float64, n+1), make([]float64, m+1)
	row := make([]int, m+1) // row that holds column j, from 1; 0 none
	way := make([]int, m+1)
	for i := 1; i <= n; i++ {
		row[0] = i
		j0 := 0
		least := make([]float64, m+1)
		used := make([]bool, m+1)
		for j := range least {
			least[j] = math.Inf(1)
		}
		for row[j0] != 0 {
			used[j0] = true
			i0, delta, j1 := row[j0], math.Inf(1), 0
			for j := 1; j <= m; j++ {
				if used[j] {
					continue
				}
				if c := cost(i0-1, j-1) - u[i0] - v[j]; c < least[j] {
					least[j], way[j] = c, j0
				}
				if least[j] < delta {
					delta, j1 = least[j], j
				}
			}
			for j := 0; j <= m; j++ {
				if used[j] {
					u[row[j]] += delta
					v[j] -= delta
				} else {
					least[j] -= delta
				}
			}
			j0 = j1
		}
		for j0 != 0 {
			j1 := way[j0]
			row[j0] = row[j1]
			j0 = j1
		}
	}
	partner := make([]int, n)
	for j := 1; j <= m; j++ {
		if i := row[j]; i > 0 {
			partner[i-1] = -1
			if cost(i-1, j-1) < far {
				partner[i-1] = j - 1
			}
		}
	}
	return partner
}

// signature is the pairing as a map key.
func signature(partner []int) string {
	var key []byte
	for _, j := range partner {
		key = binary.LittleEndian.AppendUint16(key, uint16(j))
	}
	return string(key)
}

// spacing returns the least distance between two points of the set, 0 for fewer
// than two.
func spacing(points []vec) float64 {
	order := slices.Clone(points)
	slices.SortFunc(order, func(p, q vec) int { return cmp.Compare(p.x, q.x) })
	least := math.MaxFloat64
	for i, p := range order {
		for _, q := range order[i+1:] {
			if q.x-p.x >= least {
				break
			}
			least = min(least, q.sub(p).abs())
		}
	}
	if least == math.MaxFloat64 {
		return 0
	}
	return least
}
