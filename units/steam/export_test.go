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
