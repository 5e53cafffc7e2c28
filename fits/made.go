package fits

// MakeMate returns the fit of a part that is made and measured and of its mate, which
// is then made to it so that the clearance lies within a band:
//
//	shaft = largest hole less the most clearance, to smallest hole less the least
//	hole  = largest shaft and the least clearance, to smallest shaft and the most
//
// The part is a hole or a shaft, and these limits what it measures: [Exact], or the
// least and the most over its length and round it. Clearance below zero is interference. A
// part that varies by as much as the band is wide leaves no size for its mate, and
// is an error. Source: arithmetic. See the Example.
func (l Limits) MakeMate(part Feature, clearance Band) (FitLimits, error) {
	if !features.Known(int(part)) {
		return FitLimits{}, features.Unknown(int(part))
	}
	if err := l.validate("measured size of the " + part.String()); err != nil {
		return FitLimits{}, err
	}
	if err := clearance.validate("clearance"); err != nil {
		return FitLimits{}, err
	}
	mateLimits := Limits{Nominal: l.Nominal}
	if part == Hole {
		mateLimits.Min, mateLimits.Max = l.Max.Sub(clearance.Max), l.Min.Sub(clearance.Min)
	} else {
		mateLimits.Min, mateLimits.Max = l.Max.Add(clearance.Min), l.Min.Add(clearance.Max)
	}
	if mateLimits.Min.Cmp(mateLimits.Max) > 0 {
		return FitLimits{}, fail.Wrong("measured size of the "+part.String(), l.Min.String()+" to "+l.Max.String(),
			"it varies by more than the clearance may, "+clearance.Max.Sub(clearance.Min).String(), "a truer part, or a wider clearance")
	}
	if err := mateLimits.validate("size of its mate"); err != nil {
		return FitLimits{}, err
	}
	if part == Hole {
		return mate(l, mateLimits), nil
	}
	return mate(mateLimits, l), nil
}
