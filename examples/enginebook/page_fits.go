package main

import (
	"errors"
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A fitEntry is one joint of the engine: a fit, or the clearance that is wanted
// and left to the standard to meet, and what the parts are made of and how hot
// they get.
type fitEntry struct {
	Where          string             `toml:"where"`
	Nominal        *units.Length      `toml:"nominal"`
	Fit            string             `toml:"fit"`
	ClearanceLeast *units.Length      `toml:"clearance_least"`
	ClearanceMost  *units.Length      `toml:"clearance_most"`
	HoleMaterial   *material.Material `toml:"hole_material"`
	ShaftMaterial  *material.Material `toml:"shaft_material"`
	HoleAt         *units.Temperature `toml:"hole_at"`
	ShaftAt        *units.Temperature `toml:"shaft_at"`
	Room           *units.Temperature `toml:"room"`
	HotLeast       *units.Length      `toml:"hot_least"`
}

// A joint is a fitEntry worked out.
type joint struct {
	entry  fitEntry
	fit    string // "H7/f7", "RC4"
	use    string
	source string
	result fits.Result
	hot    *hotClearance // nil when nothing is said about heat
}

// A hotClearance is the clearance of a joint at both ends of its fit in the
// states that the engine goes through.
type hotClearance struct {
	bothHot, shaftOnly, holeOnly fits.Band
}

// fitsPage says what size to make both parts of each joint, and what heat makes
// of it.
func fitsPage(in *input) (*page, error) {
	if len(in.engine.Fits) == 0 {
		return nil, nil
	}
	var joints []*joint
	var problems []error
	p := &page{}
	for i, entry := range in.engine.Fits {
		j, findings, err := in.joint(fmt.Sprintf("fits[%d]", i), entry)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		joints = append(joints, j)
		p.findings = append(p.findings, findings...)
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
		for i, j := range joints {
			if i > 0 {
				pr.blank()
			}
			j.write(pr)
		}
		pr.para("Clearance is hole less shaft on the diameter; below zero it is interference. Sizes are those at room temperature.")
	}
	return p, nil
}

// joint works one entry out.
func (in *input) joint(key string, e fitEntry) (*joint, []finding, error) {
	var problems []error
	complain := func(field, format string, args ...any) {
		problems = append(problems, in.errorAt(key+"."+field, format, args...))
	}
	if e.Where == "" {
		complain("where", `missing; accepted: the place of the fit, such as "main bearing"`)
	}
	if e.Nominal == nil {
		complain("nominal", `missing; accepted: a length with its unit, such as "8 mm" or "3/8 in"`)
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
	if problems != nil {
		return nil, nil, errors.Join(problems...)
	}
	j := &joint{entry: e, fit: e.Fit}
	var findings []finding
	add := func(kind string, severity eccentric.Severity, text, remedy string) {
		findings = append(findings, finding{Kind: kind, Severity: severity, Where: e.Where, Text: text, Remedy: remedy})
	}
	if band {
		wanted := fits.Band{Low: *e.ClearanceLeast, High: *e.ClearanceMost}
		choices, err := fits.Choose(*e.Nominal, wanted, fits.HoleBasis)
		if err != nil {
			return nil, nil, in.errorAt(key+".clearance_least", "%v", err)
		}
		c := choices[0]
		j.fit, j.use, j.result, j.source = c.Fit.String(), c.Name+": "+c.Use, c.Result, c.Ref.String()
		if !c.Outside.IsZero() {
			add("no-preferred-fit", eccentric.WorthKnowing,
				fmt.Sprintf("no preferred fit stays within the wanted %s to %s; %s, the nearest, may lie %s outside", mm(wanted.Low), mm(wanted.High), j.fit, mm(c.Outside)),
				"make the shaft to the hole as it came out, or widen what is wanted")
		}
	} else if err := j.parse(); err != nil {
		return nil, nil, in.errorAt(key+".fit", "%v", err)
	}
	if err := in.heat(key, j); err != nil {
		return nil, nil, err
	}
	if j.hot == nil {
		return j, findings, nil
	}
	least := units.Length{}
	if e.HotLeast != nil {
		least = *e.HotLeast
	}
	tightest := j.hot.bothHot.Low
	state := "with both parts hot"
	if j.hot.shaftOnly.Low.Cmp(tightest) < 0 {
		tightest, state = j.hot.shaftOnly.Low, "with the shaft or piston hot and the part round it still cold"
	}
	if j.hot.holeOnly.Low.Cmp(tightest) < 0 {
		tightest, state = j.hot.holeOnly.Low, "with the outer part at its working temperature and the shaft still cold"
	}
	more := fmt.Sprintf("give it %s more clearance", mm(least.Sub(tightest)))
	switch {
	case j.result.Kind == fits.Clearance && tightest.Sign() <= 0:
		add("seizes-hot", eccentric.StopsEngine, fmt.Sprintf("%s seizes %s: the tightest parts have %s of clearance cold and %s then", j.fit, state, mm(j.result.MinClearance), mm(tightest)), more)
	case j.result.Kind == fits.Clearance && tightest.Cmp(least) < 0:
		add("tight-hot", eccentric.WorthKnowing, fmt.Sprintf("%s leaves %s %s, less than the %s wanted", j.fit, mm(tightest), state, mm(least)), more)
	case j.result.Kind == fits.Interference && j.hot.bothHot.High.Sign() >= 0:
		add("loose-hot", eccentric.StopsEngine, fmt.Sprintf("%s lets go when hot: the loosest parts hold by %s cold and have %s of clearance hot", j.fit, mm(j.result.MaxClearance.Neg()), mm(j.hot.bothHot.High)), "a tighter fit, a pin, or the same material for both parts")
	}
	return j, findings, nil
}

// parse reads the fit, of ISO 286 or of ANSI B4.1.
func (j *joint) parse() error {
	nominal := *j.entry.Nominal
	if inch, err := fits.ParseInchFit(j.entry.Fit); err == nil {
		r, err := inch.At(nominal)
		if err != nil {
			return err
		}
		j.fit, j.use, j.result, j.source = inch.String(), inch.Use(), r.Result, r.Ref.String()
		return nil
	}
	fit, err := fits.ParseFit(j.entry.Fit)
	if err != nil {
		return err
	}
	if j.result, err = fit.At(nominal); err != nil {
		return err
	}
	j.fit = fit.String()
	refs, err := fit.Shaft.Refs(nominal)
	if err != nil {
		return err
	}
	j.source = "ISO 286-1; " + refs[len(refs)-1].String()
	for _, basis := range []fits.Basis{fits.HoleBasis, fits.ShaftBasis} {
		list, err := fits.PreferredFits(basis)
		if err != nil {
			return err
		}
		for _, p := range list {
			if p.Fit == fit {
				j.use = p.Name + ": " + p.Use
			}
		}
	}
	return nil
}

// heat works out what the working temperatures make of the clearance, if the
// file says anything about them.
func (in *input) heat(key string, j *joint) error {
	e := j.entry
	if e.HoleAt == nil && e.ShaftAt == nil && e.HoleMaterial == nil && e.ShaftMaterial == nil && e.HotLeast == nil && e.Room == nil {
		return nil
	}
	if err := errors.Join(
		in.missing(`a material, such as "cast iron"`, key+".hole_material", key+".shaft_material"),
		in.missing(`a temperature with its scale, such as "150 degC" or "300 degF"`, key+".hole_at", key+".shaft_at"),
	); err != nil {
		return err
	}
	room := units.Celsius(20)
	if e.Room != nil {
		room = *e.Room
	}
	r, err := fits.Running{Diameter: *e.Nominal, Inner: *e.ShaftMaterial, Outer: *e.HoleMaterial, Room: room, InnerHot: *e.ShaftAt, OuterHot: *e.HoleAt}.Solve()
	if err != nil {
		return in.errorAt(key+".hole_at", "%v", err)
	}
	// Solved from no clearance at all, each state is how far heat opens the fit.
	opened := func(by units.Length) fits.Band {
		return fits.Band{Low: j.result.MinClearance.Add(by), High: j.result.MaxClearance.Add(by)}
	}
	j.hot = &hotClearance{bothHot: opened(r.BothHot), shaftOnly: opened(r.InnerOnly), holeOnly: opened(r.OuterOnly)}
	return nil
}

func (j *joint) write(pr *printer) {
	pr.hang("", fmt.Sprintf("%s: %s %s, a %s fit", j.entry.Where, j.entry.Nominal, j.fit, j.result.Kind))
	if j.use != "" {
		pr.hang("  ", j.use)
	}
	rows := [][]string{
		{"hole", between(j.result.Hole.Min, j.result.Hole.Max), betweenInch(j.result.Hole.Min, j.result.Hole.Max)},
		{"shaft", between(j.result.Shaft.Min, j.result.Shaft.Max), betweenInch(j.result.Shaft.Min, j.result.Shaft.Max)},
	}
	if m, err := j.result.Shaft.RoundInward(units.MM(0.01)); err == nil {
		rows = append(rows, []string{"shaft, to 0.01 mm", between(m.Min, m.Max), betweenInch(m.Min, m.Max)})
	}
	clearance := func(what string, b fits.Band) {
		rows = append(rows, []string{what, between(b.Low, b.High), betweenInch(b.Low, b.High)})
	}
	clearance("clearance, cold", fits.Band{Low: j.result.MinClearance, High: j.result.MaxClearance})
	if j.hot != nil {
		clearance("both hot", j.hot.bothHot)
		clearance("shaft hot, hole cold", j.hot.shaftOnly)
		clearance("hole hot, shaft cold", j.hot.holeOnly)
	}
	pr.table(rows)
	pr.hang("  ", "source: "+j.source)
}

func (j *joint) data() map[string]any {
	band := func(low, high units.Length) map[string]any {
		return map[string]any{"least_mm": low.MM(), "most_mm": high.MM()}
	}
	d := map[string]any{
		"where": j.entry.Where, "nominal_mm": j.entry.Nominal.MM(), "fit": j.fit, "use": j.use, "kind": j.result.Kind.String(), "source": j.source,
		"hole":      band(j.result.Hole.Min, j.result.Hole.Max),
		"shaft":     band(j.result.Shaft.Min, j.result.Shaft.Max),
		"clearance": band(j.result.MinClearance, j.result.MaxClearance),
	}
	if j.hot != nil {
		d["clearance_both_hot"] = band(j.hot.bothHot.Low, j.hot.bothHot.High)
		d["clearance_shaft_hot"] = band(j.hot.shaftOnly.Low, j.hot.shaftOnly.High)
		d["clearance_hole_hot"] = band(j.hot.holeOnly.Low, j.hot.holeOnly.High)
	}
	return d
}

func between(low, high units.Length) string {
	return low.Decimal(units.Millimetres, 3) + " to " + mm(high)
}

func betweenInch(low, high units.Length) string {
	return low.Decimal(units.Inches, 4) + " to " + inch(high)
}
