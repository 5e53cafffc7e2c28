package steam

// The equations without the limits of the package, for the values by which the
// release has them verified, at MPa, K and kJ.
var (
	WaterByEnthalpy, WaterByEntropy = waterByEnthalpy, waterByEntropy
	SteamByEnthalpy, SteamByEntropy = steamByEnthalpy, steamByEntropy
)

// Property returns a property of region 1 or 2 by its letter in the release.
func Property(region int, letter string, p, t float64) float64 {
	of := waterAt(p, t)
	if region == 2 {
		of = steamAt(p, t)
	}
	return map[string]float64{"v": of.v, "u": of.u, "h": of.h, "s": of.s, "cp": of.cp, "w": of.w}[letter]
}

// Coefficients returns the rows of a table of the release: two powers and what they
// are multiplied by, or that alone.
func Coefficients(table string) (rows [][3]float64) {
	of := map[string][]term{
		"2": region1[:], "6": phWater[:], "8": psWater[:], "10": ideal2[:], "11": residual2[:], "20": ph2a[:], "21": ph2b[:],
		"22": ph2c[:], "25": ps2a[:], "26": ps2b[:], "27": ps2c[:],
	}[table]
	alone := map[string][]float64{"19": border2bc[:], "34": {n1, n2, n3, n4, n5, n6, n7, n8, n9, n10}}[table]
	for _, c := range of {
		rows = append(rows, [3]float64{c.i, c.j, c.n})
	}
	for _, n := range alone {
		rows = append(rows, [3]float64{2: n})
	}
	return rows
}
