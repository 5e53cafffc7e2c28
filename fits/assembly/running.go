package assembly

import (
	"fmt"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// Growth returns by how much a length or a diameter of a material grows when it
// is warmed by a difference of temperature; below zero when it is cooled:
//
//	growth = alpha * length * difference
//
// A bore grows as the material round it would. The mean expansion alpha of
// [material.Material] holds from about 0 to 200 degrees C; differences are taken
// from -1000 to 1000 K. See the Example.
func Growth(length units.Length, m material.Material, difference units.TemperatureDifference) (units.Length, error) {
	if err := expands("part", m); err != nil {
		return units.Length{}, err
	}
	if length.Sign() < 0 {
		return units.Length{}, fail.OutOfRange("length", length, "zero or more")
	}
	if !(difference >= -1000 && difference <= 1000) {
		return units.Length{}, fail.OutOfRange("difference of temperature", difference, "from -1000 K to 1000 K")
	}
	return length.Scale(float64(m.Expansion.Value) * float64(difference)), nil // linear expansion
}

// A Running is a part in another at work, where both get hot: piston in cylinder,
// spindle in bush, shaft in bearing; or a bush pressed into a frame.
type Running struct {
	Diameter     units.Length
	Inner, Outer material.Material // of the piston or shaft, and of the cylinder or bush
	Room         units.Temperature // at which the parts are measured
	InnerHot     units.Temperature // of the inner part at work
	OuterHot     units.Temperature // of the outer part at work

	// Fit is what the parts make of each other at room temperature: of a standard,
	// or of two that are measured, by [fits.Mate] of [fits.Exact] sizes. Left out,
	// only what is needed is worked out.
	Fit fits.FitLimits `json:",omitzero"`

	Least units.Length // clearance that must be left at the worst, on the diameter
}

// A RunningResult is the clearance in the states that the engine goes through,
// of the tightest and of the loosest parts. Below zero they have seized. Without
// a Fit it is how far heat opens the joint, below zero how far it closes it.
type RunningResult struct {
	Cold      fits.Band // as measured; on air the engine runs with this
	BothHot   fits.Band // at their working temperatures
	InnerOnly fits.Band // inner part hot, outer part still at room temperature: the worst, just after starting
	OuterOnly fits.Band // outer part hot, inner part still cold: the widest

	// Needed is the clearance at room temperature that leaves Least at the
	// worst, with the expansions in use; NeededMax with the least favourable of
	// the published ones.
	Needed, NeededMax units.Length

	Findings finding.List
	Refs     source.Refs `json:",omitzero"` // of the fit and the expansions
}

// Solve returns the clearance cold and hot:
//
//	both hot  = c - d * (alpha_i * (T_i - T0) - alpha_o * (T_o - T0))
//	inner hot = c - d * alpha_i * (T_i - T0)
//	outer hot = c + d * alpha_o * (T_o - T0)
//	needed    = least + the greatest closing of the three
//
//	d       diameter
//	c       clearance at room temperature T0
//	T       temperatures of the inner and the outer part at work
//	alpha   their mean expansions
//
// An aluminium piston in an iron cylinder that is right on air can seize within
// seconds of the steam being turned on: the piston is hot long before the
// cylinder. A fit that is pressed is looked at with both parts hot. Source:
// linear expansion; that the worst case is the hot part in the cold one is common
// practice. See the Example.
func (r Running) Solve() (RunningResult, error) {
	fit, err := r.validate()
	if err != nil {
		return RunningResult{}, err
	}
	innerRise, outerRise := float64(r.InnerHot.Sub(r.Room)), float64(r.OuterHot.Sub(r.Room))
	inner := func(a units.Expansivity) units.Length { return r.Diameter.Scale(float64(a) * innerRise) }
	outer := func(a units.Expansivity) units.Length { return r.Diameter.Scale(float64(a) * outerRise) }
	// The clearance closes by what the inner part grows, and by what the outer one
	// shrinks if it is chilled; that the outer one grows as well helps only once it
	// is hot.
	needed := func(in, out units.Expansivity) units.Length {
		return r.Least.Add(longest(units.Length{}, inner(in))).Add(longest(units.Length{}, outer(out).Neg()))
	}
	alphaIn, alphaOut := r.Inner.Expansion, r.Outer.Expansion
	in, bore := inner(alphaIn.Value), outer(alphaOut.Value) // linear expansion
	opened := func(by units.Length) fits.Band {
		return fits.Band{Min: fit.Clearance.Min.Add(by), Max: fit.Clearance.Max.Add(by)}
	}
	out := RunningResult{
		Cold: fit.Clearance, BothHot: opened(bore.Sub(in)), InnerOnly: opened(in.Neg()), OuterOnly: opened(bore),
		Needed:    needed(alphaIn.Value, alphaOut.Value),
		NeededMax: needed(max(alphaIn.Value, alphaIn.Max), max(alphaOut.Value, alphaOut.Max)),
		Refs:      fit.Refs.With(valuesOf(alphaIn.Refs, alphaOut.Refs)),
	}
	switch fit.Kind {
	case fits.Clearance:
		err = r.judgeRunning(&out, fit, innerRise, outerRise)
	case fits.Interference, fits.Transition:
		r.judgeGrip(&out, fit)
	}
	return out, err
}

// validate returns the fit at room temperature, whole, and what it refuses.
func (r Running) validate() (fits.FitLimits, error) {
	var none fits.FitLimits
	if err := fail.Above(fault.Named("diameter", r.Diameter)); err != nil {
		return none, err
	}
	if err := checkHeat(r.Room,
		heated{"inner part", r.Inner, r.InnerHot}, heated{"outer part", r.Outer, r.OuterHot}); err != nil {
		return none, err
	}
	if r.Least.Sign() < 0 {
		return none, fail.OutOfRange("least clearance", r.Least, "zero or more")
	}
	if r.Fit.Hole.Max.IsZero() && r.Fit.Shaft.Max.IsZero() {
		return none, nil
	}
	fit, err := fits.Mate(r.Fit.Hole, r.Fit.Shaft)
	if err != nil {
		return none, err
	}
	// Half the diameter is more than the loosest class of the smallest size takes.
	for _, size := range []units.Length{fit.Hole.Min, fit.Shaft.Max} {
		if size.Sub(r.Diameter).Abs().Cmp(r.Diameter.Scale(0.5)) > 0 {
			return none, fail.Wrong("fit", size, "not of the diameter, "+r.Diameter.String(), "the fit of that diameter")
		}
	}
	return fit, nil
}

// judgeRunning judges parts that are to move, by the tightest in the worst state.
func (r Running) judgeRunning(out *RunningResult, fit fits.FitLimits, innerRise, outerRise float64) error {
	tightest, state := out.BothHot, "with both parts at their working temperatures"
	if out.InnerOnly.Min.Cmp(tightest.Min) < 0 {
		tightest = out.InnerOnly
		state = "with the inner part " + warmth(innerRise) + " and the outer one still at room temperature"
	}
	if out.OuterOnly.Min.Cmp(tightest.Min) < 0 {
		tightest = out.OuterOnly
		state = "with the outer part " + warmth(outerRise) + " and the inner one still at room temperature"
	}
	parts, loosest := "the parts have", ""
	if fit.Clearance.Min != fit.Clearance.Max {
		parts, loosest = "the tightest parts have", " The loosest have "+play(tightest.Max)+" then."
	}
	list := &out.Findings
	var f *finding.Finding
	switch {
	case tightest.Min.Sign() <= 0:
		f = said(list, SeizesHot, finding.Fails, "It seizes %s: %s %s cold and %s then.%s",
			state, parts, play(fit.Clearance.Min), play(tightest.Min), loosest)
	case tightest.Min.Cmp(r.Least) < 0:
		f = said(list, TightHot, finding.Caution, "It is tight %s: %s %s then, less than the %s wanted.%s",
			state, parts, play(tightest.Min), both(r.Least), loosest)
	default:
		return nil
	}
	more, err := moreClearance(fit, r.Least.Sub(tightest.Min))
	if err != nil {
		return err
	}
	f.Remedies = []string{more}
	if tightest.Min.Cmp(out.BothHot.Min) < 0 && out.BothHot.Min.Cmp(r.Least) >= 0 && out.BothHot.Min.Sign() > 0 {
		f.Remedies = append(f.Remedies,
			"Or warm it through slowly, turning it by hand: with both parts hot it runs.")
	}
	note := said(list, AirIsNoProof, finding.Note,
		"On air it runs with the cold clearance; that it runs on air does not show that it will on steam.")
	note.Refs = source.Of(source.Practice())
	return nil
}

// judgeGrip judges parts that may hold each other, by the loosest with both hot.
func (r Running) judgeGrip(out *RunningResult, fit fits.FitLimits) {
	list := &out.Findings
	if fit.Kind == fits.Interference && out.BothHot.Max.Sign() >= 0 {
		f := said(list, LooseHot, finding.Fails,
			"It lets go when hot: the loosest parts have %s cold and %s hot; the tightest have %s hot.",
			play(fit.Clearance.Max), play(out.BothHot.Max), play(out.BothHot.Min))
		f.Remedies = []string{"Take a tighter fit, a pin, or the same material for both parts."}
	}
	if r.Least.Sign() > 0 {
		f := said(list, NoClearanceCold, finding.Note,
			"The parts may have %s cold, so that the %s wanted when hot is not left.",
			play(fit.Clearance.Min), both(r.Least))
		f.Remedies = []string{"Take a clearance fit, or ask for no clearance when hot."}
	}
}

// moreClearance says by how much a fit must be opened, and the largest shaft
// that then goes into the least hole.
func moreClearance(fit fits.FitLimits, by units.Length) (string, error) {
	text := "Give it " + by.Text(units.Millimetres, 3) + " (" + by.Text(units.Thousandths, 1) + ") more clearance"
	most := fit.Shaft.Max.Sub(by)
	if most.Sign() <= 0 {
		return text + ".", nil
	}
	metric, err := most.Round(units.Micron(1), units.Down)
	if err != nil {
		return "", err
	}
	inches, err := most.Round(units.Thou(0.1), units.Down)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%s: a shaft of %s (%s) at most.",
		text, metric.Text(units.Millimetres, 3), inches.Text(units.Inches, 4)), nil
}

// play says what a clearance is, in words.
func play(c units.Length) string {
	switch c.Sign() {
	case 0:
		return "no clearance"
	case -1:
		return both(c.Neg()) + " of interference"
	}
	return both(c) + " of clearance"
}

// A heated is a part at its working temperature.
type heated struct {
	name     string
	material material.Material
	at       units.Temperature
}

// checkHeat refuses parts whose expansion or temperature is not known.
func checkHeat(room units.Temperature, parts ...heated) error {
	if err := temperature("room temperature", room); err != nil {
		return err
	}
	for _, p := range parts {
		if err := expands(p.name, p.material); err != nil {
			return err
		}
		field := "working temperature of the " + p.name
		if err := temperature(field, p.at); err != nil {
			return err
		}
		if !expansionKnown(p.at) {
			return fail.Wrong(field, degrees(p.at), "the expansion of "+p.material.Name+" is not known there",
				degrees(material.ExpansionFrom)+" to "+degrees(material.ExpansionTo))
		}
	}
	return nil
}

func warmth(rise float64) string {
	if rise < 0 {
		return "chilled"
	}
	return "hot"
}
