package spread

import "math"

// shares are the percentiles that are told.
var shares = [...]float64{0.05, 0.5, 0.95}

// A picker finds percentiles of many numbers without putting them in order. It
// counts them by bins of equal width, which shows in which bins the wanted ranks
// lie, and looks more closely at what is in those alone.
type picker struct {
	counts [bins]int
	wanted [bins]bool
	inside []float64
}

// bins is so many that of 100,000 numbers a few hundred are left in one.
const bins = 1024

// sampled is how many numbers at the least tell where the bins are.
const sampled = 256

// percentiles returns the percentiles of numbers that come in parts. It
// interpolates between neighbours:
//
//	h = p*(n - 1)
//	x[floor(h)] + (h - floor(h)) * (x[floor(h) + 1] - x[floor(h)])
//
// with x in order from 0 to n - 1 (type 7 of Hyndman and Fan, Sample quantiles in
// statistical packages, 1996). No number at all gives zeros.
func (p *picker) percentiles(parts [][]float64) (found [len(shares)]float64) {
	n := 0
	for _, part := range parts {
		n += len(part)
	}
	if n == 0 {
		return found
	}
	var ranks [2 * len(shares)]int
	for i, share := range shares {
		k := int(share * float64(n-1))
		ranks[2*i], ranks[2*i+1] = k, min(k+1, n-1)
	}
	values := p.ranked(parts, n, ranks)
	for i, share := range shares {
		rest := share*float64(n-1) - float64(ranks[2*i])
		found[i] = values[2*i] + rest*(values[2*i+1]-values[2*i])
	}
	return found
}

// ranked returns the numbers of some ranks, counted from 0, of n in all.
func (p *picker) ranked(parts [][]float64, n int, ranks [2 * len(shares)]int) (values [2 * len(shares)]float64) {
	bin := binned(parts, n)
	p.counts, p.wanted, p.inside = [bins]int{}, [bins]bool{}, p.inside[:0]
	for _, part := range parts {
		for _, v := range part {
			p.counts[bin.of(v)]++
		}
	}
	// Where each rank is among the numbers of the wanted bins alone, which keep their order.
	var among [len(ranks)]int
	for i, rank := range ranks {
		below, left := 0, 0
		at := 0
		for ; below+p.counts[at] <= rank; at++ {
			below += p.counts[at]
			if p.wanted[at] {
				left += p.counts[at]
			}
		}
		p.wanted[at] = true
		among[i] = left + rank - below
	}
	for _, part := range parts {
		for _, v := range part {
			if p.wanted[bin.of(v)] {
				p.inside = append(p.inside, v)
			}
		}
	}
	from := 0
	for i, rank := range among {
		if i == 0 || rank > among[i-1] {
			nth(p.inside[from:], rank-from)
			from = rank
		}
		values[i] = p.inside[rank]
	}
	return values
}

// A scale tells in which bin a number is. Greater numbers are in the same or in a
// higher bin, whatever the rounding.
type scale struct{ least, perBin float64 }

func (s scale) of(v float64) int {
	at := (v - s.least) * s.perBin
	switch {
	case !(at > 0):
		return 0
	case at >= bins:
		return bins - 1
	}
	return int(at)
}

// binned returns the bins between the least and the greatest of a sample; beyond
// them the first and the last go on.
func binned(parts [][]float64, n int) scale {
	least, greatest := math.Inf(1), math.Inf(-1)
	every := max(1, n/sampled)
	skip := 0
	for _, part := range parts {
		for ; skip < len(part); skip += every {
			least, greatest = min(least, part[skip]), max(greatest, part[skip])
		}
		skip -= len(part)
	}
	perBin := bins / (greatest - least)
	if !(perBin <= math.MaxFloat64) {
		perBin = 0 // all alike
	}
	return scale{least, perBin}
}

// nth puts the number of rank k, counted from 0, into that place, none that is
// greater before it and none that is smaller behind it (C. A. R. Hoare, Algorithm
// 65, Communications of the ACM 4, 1961).
func nth(x []float64, k int) {
	left, right := 0, len(x)-1
	for left < right {
		pivot := x[left+(right-left)/2]
		i, j := left, right
		for i <= j {
			for x[i] < pivot {
				i++
			}
			for x[j] > pivot {
				j--
			}
			if i <= j {
				x[i], x[j] = x[j], x[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			right = j
		case k >= i:
			left = i
		default:
			return
		}
	}
}
