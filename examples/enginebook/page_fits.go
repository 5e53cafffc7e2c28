package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A joint is a engine.Fit worked out.
type joint struct {
	entry    engine.Fit
	fit      string // "H7/f7", "RC4"
	use      string
	result   fits.FitLimits
	inch     bool // of ANSI B4.1
	findings finding.List
	hot      *assembly.RunningResult // nil when nothing is said about heat
	room     units.Temperature       // at which the parts are measured
}

// fitsPage says what size to make both parts of each joint, and what heat makes
// of it.
func fitsPage(in *input) (*page, error) {
	if len(in.File.Fits) == 0 {
		return nil, nil
	}
	var joints []*joint
	var problems []error
	p := &page{}
	for i, entry := range in.File.Fits {
		j, err := in.joint(fmt.Sprintf("fits[%d]", i), entry)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		joints = append(joints, j)
		p.findings = append(p.findings, j.findings.At(entry.Where)...)
	}
	if problems != nil {
		return nil, errors.Join(problems...)
	}
	data := []any{}
	for _, j := range joints {
		data = append(data, j.data())
	}
	p.data = map[string]any{"fits": data}
	p.write = func(pr *printer) {
		pr.heading("FITS")
		var works references
		for _, j := range joints {
			j.write(pr, &works)
			pr.blank()
		}
		works.write(pr)
		pr.blank()
		pr.para("Clearance is hole less shaft on the diameter; below zero it is interference. Sizes are those at room " +
			"temperature, 20 degrees C where the file names no other. Limits of size are rounded inward to the last place " +
			"printed, so that a part within the printed limits is within the true ones, whichever column it is measured by. " +
			"Clearances are those of the true limits, to the nearest of the last place.")
	}
	return p, nil
}

// joint works one entry out.
func (in *input) joint(key string, e engine.Fit) (*joint, error) {
	var problems []error
	complain := func(field, format string, args ...any) {
		problems = append(problems, in.Errorf(key+"."+field, format, args...))
	}
	if e.Where == "" {
		complain("where", `missing; accepted: the place of the fit, such as "main bearing"`)
	}
	if e.Nominal == nil {
		complain("nominal", `missing; accepted: a length with its unit, such as "8 mm" or "3/8 in"`)
	}
	if e.Nominal != nil && e.Nominal.Sign() <= 0 {
		complain("nominal", "%v: out of range; accepted: a length above zero", e.Nominal)
	}
	band := e.ClearanceLeast != nil || e.ClearanceMost != nil
	switch {
	case e.Fit == "" && !band:
		complain("fit", `missing; accepted: a fit, such as "H7/f7" or "RC4", or clearance_least and clearance_most`)
	case e.Fit != "" && band:
		complain("clearance_least", "fit is given too; accepted: one of the two")
	case band && (e.ClearanceLeast == nil || e.ClearanceMost == nil):
		complain("clearance_least", "accepted: clearance_least and clearance_most together")
	}
	if e.HotLeast != nil && e.HotLeast.Sign() < 0 {
		complain("hot_least", "%v: out of range; accepted: zero or more", e.HotLeast)
	}
	if problems != nil {
		return nil, errors.Join(problems...)
	}
	j := &joint{entry: e, fit: e.Fit, room: units.Celsius(20)}
	if band {
		wanted := fits.Band{Min: *e.ClearanceLeast, Max: *e.ClearanceMost}
		choices, err := fits.Choose(*e.Nominal, wanted, fits.HoleBasis)
		if err != nil {
			return nil, in.Errorf(key+".clearance_least", "%v", err)
		}
		j.iso(choices[0].Fit, choices[0].Result)
		j.findings = append(j.findings, choices[0].Findings...)
	} else if err := j.parse(); err != nil {
		return nil, in.Errorf(key+".fit", "%v", err)
	}
	if err := in.heat(key, j); err != nil {
		return nil, err
	}
	return j, nil
}

// parse reads the fit, of ISO 286 or of ANSI B4.1.
func (j *joint) parse() error {
	if inch, err := fits.ParseInchFit(j.entry.Fit); err == nil {
		r, err := inch.LimitsFor(*j.entry.Nominal)
		if err != nil {
			return err
		}
		j.fit, j.use, j.result, j.findings, j.inch = inch.String(), inch.Use(), r.FitLimits, r.Check(), true
		return nil
	}
	fit, err := fits.ParseFit(j.entry.Fit)
	if err != nil {
		return fmt.Errorf("%w; or an inch fit, RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5", err)
	}
	r, err := fit.LimitsFor(*j.entry.Nominal)
	if err != nil {
		return err
	}
	j.iso(fit, r)
	return nil
}

// iso takes a fit of ISO 286, and what it is for if it is a preferred one.
func (j *joint) iso(fit fits.Fit, r fits.FitLimits) {
	j.fit, j.result, j.findings = fit.String(), r, r.Check()
	if p, ok := fit.Preferred(); ok {
		j.use = p.Name + ": " + p.Use
	}
}

// heat works out what the working temperatures make of the clearance, if the
// file says anything about them.
func (in *input) heat(key string, j *joint) error {
	e := j.entry
	if e.HoleAt == nil && e.ShaftAt == nil && e.HoleMaterial == nil && e.ShaftMaterial == nil &&
		e.HotLeast == nil && e.Room == nil {
		return nil
	}
	if err := errors.Join(
		in.Missing(`a material, such as "cast iron"`, key+".hole_material", key+".shaft_material"),
		in.Missing(`a temperature with its scale, such as "150 degC" or "300 degF"`, key+".hole_at", key+".shaft_at"),
	); err != nil {
		return err
	}
	if e.Room != nil {
		j.room = *e.Room
	}
	running := assembly.Running{
		Diameter: *e.Nominal, Fit: j.result, Inner: *e.ShaftMaterial, Outer: *e.HoleMaterial,
		Room: j.room, InnerHot: *e.ShaftAt, OuterHot: *e.HoleAt,
	}
	if e.HotLeast != nil {
		running.Least = *e.HotLeast
	}
	r, err := running.Solve()
	if err != nil {
		return in.Errorf(key+".hole_at", "%v", err)
	}
	j.hot = &r
	j.findings = append(j.findings, r.Findings...)
	return nil
}

func (j *joint) write(pr *printer, works *references) {
	title := fmt.Sprintf("%s: %s (%s) %s, %s fit", j.entry.Where, j.entry.Nominal, inch(*j.entry.Nominal), j.fit, j.result.Kind)
	if j.entry.ClearanceLeast != nil {
		title += ", for " + between(*j.entry.ClearanceLeast, *j.entry.ClearanceMost)
	}
	pr.hang("", title)
	if j.use != "" {
		pr.hang("  ", j.use)
	}
	limits := func(what string, l fits.Limits) []string {
		return []string{what, l.Text(units.Millimetres, 3), l.Text(units.Inches, 4)}
	}
	clearance := func(what string, b fits.Band) []string {
		return []string{what, between(b.Min, b.Max), betweenInch(b.Min, b.Max)}
	}
	rows := [][]string{
		limits("hole", j.result.Hole), limits("shaft", j.result.Shaft), j.onMicrometer(),
		clearance("clearance, cold", j.result.Clearance),
	}
	if j.hot != nil {
		rows = append(rows, clearance("both hot", j.hot.BothHot), clearance("shaft hot, hole cold", j.hot.InnerOnly),
			clearance("hole hot, shaft cold", j.hot.OuterOnly))
	}
	pr.table(rows)
	sources := "sources: limits " + works.cite(slices.Collect(j.result.Refs.All())...)
	if e := j.entry; j.hot != nil {
		shaft, hole := e.ShaftMaterial.Expansion, e.HoleMaterial.Expansion
		pr.hang("  ", fmt.Sprintf("The least, both hot: c - d (alpha_shaft dT_shaft - alpha_hole dT_hole) = "+
			"%s - %s x (%v x %.0f K - %v x %.0f K) = %s; with one part cold its product is left out.",
			mm(j.result.Clearance.Min), e.Nominal, shaft.Value, j.rise(e.ShaftAt), hole.Value, j.rise(e.HoleAt),
			mm(j.hot.BothHot.Min)))
		sources += fmt.Sprintf("; expansion of %s %s", e.ShaftMaterial, works.cite(shaft.Refs.First()))
		if e.HoleMaterial.Name != e.ShaftMaterial.Name {
			sources += fmt.Sprintf(", of %s %s", e.HoleMaterial, works.cite(hole.Refs.First()))
		}
	}
	pr.hang("  ", sources)
}

// rise is how much a part warms up, in kelvin.
func (j *joint) rise(at *units.Temperature) float64 {
	return at.Sub(j.room).In(units.KelvinDifference)
}

// references are the works that a page cites, each once, by number.
type references []source.Ref

// cite returns the numbers of works, "[1] [2]", with those from memory marked.
func (r *references) cite(refs ...source.Ref) string {
	var marks []string
	for _, ref := range refs {
		i := slices.Index(*r, ref)
		if i < 0 {
			i = len(*r)
			*r = append(*r, ref)
		}
		mark := fmt.Sprintf("[%d]", i+1)
		if ref.Recalled() {
			mark += " (" + ref.Kind.String() + ")"
		}
		marks = append(marks, mark)
	}
	return strings.Join(marks, " ")
}

func (r references) write(pr *printer) {
	for i, ref := range r {
		pr.hang(fmt.Sprintf("[%d] ", i+1), ref.String())
	}
}

// step is what the micrometer shows: a thousandth of an inch for an inch fit and
// a hundredth of a millimetre for the others.
func (j *joint) step() units.Length {
	if j.inch {
		return units.Thou(1)
	}
	return units.MM(0.01)
}

// onMicrometer is the row of the shaft's limits on that micrometer.
func (j *joint) onMicrometer() []string {
	what, unit, places, fine, decimals := "shaft, to 0.01 mm", units.Millimetres, 2, units.Micrometres, 1
	if j.inch {
		what, unit, places, fine, decimals = "shaft, to 1 thou", units.Inches, 3, units.Thousandths, 2
	}
	tolerance := j.result.Shaft.Tolerance().Text(fine, decimals)
	m, err := j.result.Shaft.RoundInward(j.step())
	if err != nil {
		return []string{what, "too coarse for " + tolerance}
	}
	text := m.Text(unit, places)
	if m.Min == m.Max {
		text = m.Min.Text(unit, places) + " only"
	}
	return []string{what, text, m.Lost.Decimal(fine, decimals) + " of " + tolerance + " lost"}
}

func (j *joint) data() map[string]any {
	band := func(low, high units.Length) map[string]any {
		return map[string]any{"least_mm": low.MM(), "most_mm": high.MM()}
	}
	d := map[string]any{
		"where": j.entry.Where, "nominal_mm": j.entry.Nominal.MM(),
		"fit": j.fit, "use": j.use, "kind": j.result.Kind.String(),
		"source": j.result.Refs.String(), "from_memory": j.result.Refs.Recalled(),
		"hole":      band(j.result.Hole.Min, j.result.Hole.Max),
		"shaft":     band(j.result.Shaft.Min, j.result.Shaft.Max),
		"clearance": band(j.result.Clearance.Min, j.result.Clearance.Max),
	}
	if m, err := j.result.Shaft.RoundInward(j.step()); err == nil {
		d["shaft_to_micrometer"] = map[string]any{
			"step_mm": j.step().MM(), "least_mm": m.Min.MM(), "most_mm": m.Max.MM(), "lost_mm": m.Lost.MM(),
		}
	}
	if j.entry.ClearanceLeast != nil {
		d["clearance_wanted"] = band(*j.entry.ClearanceLeast, *j.entry.ClearanceMost)
	}
	if j.hot != nil {
		heated := func(m *material.Material, at *units.Temperature) map[string]any {
			e := m.Expansion
			return map[string]any{"material": m.Name, "rise_k": j.rise(at), "expansion": e.Value, "source": e.Refs.First()}
		}
		e := j.entry
		d["hole_heated"], d["shaft_heated"] = heated(e.HoleMaterial, e.HoleAt), heated(e.ShaftMaterial, e.ShaftAt)
		d["clearance_both_hot"] = band(j.hot.BothHot.Min, j.hot.BothHot.Max)
		d["clearance_shaft_hot"] = band(j.hot.InnerOnly.Min, j.hot.InnerOnly.Max)
		d["clearance_hole_hot"] = band(j.hot.OuterOnly.Min, j.hot.OuterOnly.Max)
	}
	return d
}

func mmAndThou(l units.Length) string { return mm(l) + " (" + l.Text(units.Thousandths, 1) + ")" }

func between(low, high units.Length) string {
	return low.Decimal(units.Millimetres, 3) + " to " + mm(high)
}

func betweenInch(low, high units.Length) string {
	return low.Decimal(units.Inches, 4) + " to " + inch(high)
}
