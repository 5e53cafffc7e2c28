package sheet

// Apart moves places, that are in order, as little as it takes for each to be so far
// above the one before and all to be within low and high (the method of pooling
// neighbours that are out of order). Where there is too little room between low and
// high they stand above it.
func Apart(want []float64, gap, low, high float64) []float64 {
	var pools []pool
	for i, y := range want {
		pools = append(pools, pool{y - float64(i)*gap, 1})
		for n := len(pools); n > 1 && pools[n-1].mean() < pools[n-2].mean(); n = len(pools) {
			pools[n-2] = pool{pools[n-2].sum + pools[n-1].sum, pools[n-2].n + pools[n-1].n}
			pools = pools[:n-1]
		}
	}
	high -= float64(len(want)-1) * gap
	var got []float64
	for _, p := range pools {
		for range p.n {
			got = append(got, max(low, min(high, p.mean()))+float64(len(got))*gap)
		}
	}
	return got
}

// A pool is neighbours that stand together, and the sum of where they would be.
type pool struct {
	sum float64
	n   int
}

func (p pool) mean() float64 { return p.sum / float64(p.n) }
