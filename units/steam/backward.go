package steam

import "math"

// sum is that of the terms n * a^i * b^j.
func sum(terms []term, a, b float64) float64 {
	total := 0.0
	for _, c := range terms {
		total += c.n * math.Pow(a, c.i) * math.Pow(b, c.j)
	}
	return total
}

// waterByEnthalpy is the temperature of region 1 in K, at p in MPa and h in kJ/kg,
// to 25 mK: equation 11.
func waterByEnthalpy(p, h float64) float64 { return sum(phWater[:], p, h/2500+1) }

// waterByEntropy is the temperature of region 1 in K, at p in MPa and s in
// kJ/(kg K), to 25 mK: equation 13.
func waterByEntropy(p, s float64) float64 { return sum(psWater[:], p, s+2) }

// Below this pressure in MPa region 2 is subregion 2a: section 6.3.
const most2a = 4

// border2bc is table 19.
var border2bc = [...]float64{0.90584278514723e3, -0.67955786399241, 0.12809002730136e-3}

// steamByEnthalpy is the temperature of region 2 in K, at p in MPa and h in kJ/kg,
// to 25 mK: equations 22 to 24.
func steamByEnthalpy(p, h float64) float64 {
	switch {
	case p <= most2a:
		return sum(ph2a[:], p, h/2000-2.1)
	case p <= border2bc[0]+border2bc[1]*h+border2bc[2]*h*h: // equation 20: 2b lies below the line
		return sum(ph2b[:], p-2, h/2000-2.6)
	}
	return sum(ph2c[:], p+25, h/2000-1.8)
}

// steamByEntropy is the temperature of region 2 in K, at p in MPa and s in
// kJ/(kg K), to 25 mK: equations 25 to 27.
func steamByEntropy(p, s float64) float64 {
	switch {
	case p <= most2a:
		return sum(ps2a[:], p, s/2-2)
	case s >= 5.85: // kJ/(kg K), section 6.3.2
		return sum(ps2b[:], p, 10-s/0.7853)
	}
	return sum(ps2c[:], p, 2-s/2.9251)
}
