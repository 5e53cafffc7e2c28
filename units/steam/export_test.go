package steam

// Enthalpies of regions 1 and 2 in kJ/kg, at MPa and K, for the checks.
var (
	EnthalpyOfWater = enthalpyOfWater
	EnthalpyOfSteam = enthalpyOfSteam
)
