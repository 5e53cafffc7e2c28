package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
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
	refs   []source.Ref // of the limits
	note   string       // what had to be worked out or recalled
	result fits.Result
	inch   bool          // of ANSI B4.1
	hot    *hotClearance // nil when nothing is said about heat
}

// A hotClearance is the clearance of a joint at both ends of its fit in the
// states that the engine goes through.
type hotClearance struct {
	bothHot, shaftOnly, holeOnly fits.Band
	shaftRise, holeRise          units.TemperatureDifference
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
		var works references
		for _, j := range joints {
			j.write(pr, &works)
			pr.blank()
		}
		works.write(pr)
		pr.blank()
		pr.para("Clearance is hole less shaft on the diameter; below zero it is interference. Sizes are those at room temperature, 20 degrees C where the file names no other. Limits of size are rounded inward to the last place printed, so that a part within the printed limits is within the true ones, whichever column it is measured by. Clearances are those of the true limits, to the nearest of the last place.")
	}
	return p, nil
}

// joint works one entry out.
func (in *input) joint(key string, e fitEntry) (*joint, finding.List, error) {
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
		return nil, nil, errors.Join(problems...)
	}
	j := &joint{entry: e, fit: e.Fit}
	var findings finding.List
	add := func(code finding.Code, severity finding.Severity, text, remedy string) {
		findings = append(findings, finding.Finding{Code: code, Severity: severity, Where: e.Where, Text: text, Remedies: remedies(remedy)})
	}
	if band {
		wanted := fits.Band{Low: *e.ClearanceLeast, High: *e.ClearanceMost}
		choices, err := fits.Choose(*e.Nominal, wanted, fits.HoleBasis)
		if err != nil {
			return nil, nil, in.errorAt(key+".clearance_least", "%v", err)
		}
		c := choices[0]
		if err := j.iso(c.Fit); err != nil {
			return nil, nil, in.errorAt(key+".nominal", "%v", err)
		}
		if !c.Outside.IsZero() {
			add("no-preferred-fit", finding.Note,
				fmt.Sprintf("no preferred fit stays within the wanted %s to %s; %s, the nearest, may lie %s outside", mm(wanted.Low), mm(wanted.High), j.fit, mm(c.Outside)),
				"make the shaft to the hole as it came out, or widen what is wanted")
		}
	} else if err := j.parse(); err != nil {
		return nil, nil, in.errorAt(key+".fit", "%v", err)
	}
	if err := in.heat(key, j); err != nil {
		return nil, nil, err
	}
	if j.recalled() {
		add("limits-from-memory", finding.Note, "figures of "+j.fit+" at this size are from memory", "hold them against the standard before metal is cut")
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
	short := least.Sub(tightest)
	more, err := j.moreClearance(short)
	if err != nil {
		return nil, nil, in.errorAt(key+".nominal", "%v", err)
	}
	if tightest.Cmp(j.hot.bothHot.Low) < 0 && j.hot.bothHot.Low.Cmp(least) >= 0 {
		more += "; or warm it through slowly, turning it by hand, for with both parts hot it runs"
	}
	switch {
	case j.result.Kind == fits.Clearance && tightest.Sign() <= 0:
		then := "none then"
		if tightest.Sign() < 0 {
			then = mm(tightest.Neg()) + " of interference then"
		}
		add("seizes-hot", finding.Fails, fmt.Sprintf("%s seizes %s: the tightest parts have %s of clearance cold and %s", j.fit, state, mm(j.result.MinClearance), then), more)
	case j.result.Kind == fits.Clearance && tightest.Cmp(least) < 0:
		add("tight-hot", finding.Note, fmt.Sprintf("%s leaves %s %s, less than the %s wanted", j.fit, mm(tightest), state, mm(least)), more)
	case j.result.Kind == fits.Interference && j.hot.bothHot.High.Sign() >= 0:
		add("loose-hot", finding.Fails, fmt.Sprintf("%s lets go when hot: the loosest parts hold by %s cold and have %s of clearance hot", j.fit, mm(j.result.MaxClearance.Neg()), mm(j.hot.bothHot.High)), "a tighter fit, a pin, or the same material for both parts")
	case j.result.Kind != fits.Clearance && e.HotLeast != nil:
		add("no-clearance-cold", finding.Note, fmt.Sprintf("%s may have %s of interference cold, so it does not leave the %s wanted hot", j.fit, mm(j.result.MinClearance.Neg()), mm(least)), "a clearance fit, or no hot_least")
	}
	return j, findings, nil
}

// moreClearance says by how much a fit must be opened, and the largest shaft
// that then goes into the least hole.
func (j *joint) moreClearance(by units.Length) (string, error) {
	most := j.result.Shaft.Max.Sub(by)
	metric, err := most.Round(units.Micron(1), units.Down)
	if err != nil {
		return "", err
	}
	inches, err := most.Round(units.Thou(0.1), units.Down)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("give it %s more clearance: a shaft of %s (%s) at most", mmAndThou(by), mm(metric), inch(inches)), nil
}

// parse reads the fit, of ISO 286 or of ANSI B4.1.
func (j *joint) parse() error {
	if inch, err := fits.ParseInchFit(j.entry.Fit); err == nil {
		r, err := inch.At(*j.entry.Nominal)
		if err != nil {
			return err
		}
		j.fit, j.use, j.result, j.refs, j.note = inch.String(), inch.Use(), r.Result, []source.Ref{r.Ref}, r.Note
		j.inch = true
		return nil
	}
	fit, err := fits.ParseFit(j.entry.Fit)
	if err != nil {
		return fmt.Errorf("%w; or an inch fit, RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5", err)
	}
	return j.iso(fit)
}

// iso works out a fit of ISO 286: its limits, where each of their figures was
// read, and what the fit is for if it is a preferred one.
func (j *joint) iso(fit fits.Fit) (err error) {
	nominal := *j.entry.Nominal
	if j.result, err = fit.At(nominal); err != nil {
		return err
	}
	j.fit = fit.String()
	for _, class := range []fits.Class{fit.Hole, fit.Shaft} {
		refs, err := class.Refs(nominal)
		if err != nil {
			return err
		}
		for _, ref := range refs {
			if !slices.Contains(j.refs, ref) {
				j.refs = append(j.refs, ref)
			}
		}
	}
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

// recalled reports whether any figure behind the limits is from memory.
func (j *joint) recalled() bool {
	return slices.ContainsFunc(j.refs, func(r source.Ref) bool { return r.Kind == source.FromMemory })
}

// source returns where the limits are from, in one line.
func (j *joint) source() string {
	var parts []string
	for _, ref := range j.refs {
		parts = append(parts, ref.String())
	}
	if j.note != "" {
		parts = append(parts, j.note)
	}
	return strings.Join(parts, "; ")
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
	j.hot = &hotClearance{
		bothHot: opened(r.BothHot), shaftOnly: opened(r.InnerOnly), holeOnly: opened(r.OuterOnly),
		shaftRise: e.ShaftAt.Sub(room), holeRise: e.HoleAt.Sub(room),
	}
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
		return []string{what, between(b.Low, b.High), betweenInch(b.Low, b.High)}
	}
	rows := [][]string{limits("hole", j.result.Hole), limits("shaft", j.result.Shaft), j.onMicrometer(), clearance("clearance, cold", fits.Band{Low: j.result.MinClearance, High: j.result.MaxClearance})}
	if j.hot != nil {
		rows = append(rows, clearance("both hot", j.hot.bothHot), clearance("shaft hot, hole cold", j.hot.shaftOnly), clearance("hole hot, shaft cold", j.hot.holeOnly))
	}
	pr.table(rows)
	sources := "sources: limits " + works.cite(j.refs...)
	if j.note != "" {
		sources += ", " + j.note
	}
	if e := j.entry; j.hot != nil {
		shaft, hole := e.ShaftMaterial.Expansion, e.HoleMaterial.Expansion
		pr.hang("  ", fmt.Sprintf("The least, both hot: c - d (alpha_shaft dT_shaft - alpha_hole dT_hole) = %s - %s x (%v x %.0f K - %v x %.0f K) = %s; with one part cold its product is left out.",
			mm(j.result.MinClearance), e.Nominal, shaft.Value, float64(j.hot.shaftRise), hole.Value, float64(j.hot.holeRise), mm(j.hot.bothHot.Low)))
		sources += fmt.Sprintf("; expansion of %s %s", e.ShaftMaterial, works.cite(shaft.Refs.First()))
		if e.HoleMaterial.Name != e.ShaftMaterial.Name {
			sources += fmt.Sprintf(", of %s %s", e.HoleMaterial, works.cite(hole.Refs.First()))
		}
	}
	pr.hang("  ", sources)
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
		if ref.Kind == source.FromMemory {
			mark += " (from memory)"
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
		"where": j.entry.Where, "nominal_mm": j.entry.Nominal.MM(), "fit": j.fit, "use": j.use, "kind": j.result.Kind.String(), "source": j.source(), "from_memory": j.recalled(),
		"hole":      band(j.result.Hole.Min, j.result.Hole.Max),
		"shaft":     band(j.result.Shaft.Min, j.result.Shaft.Max),
		"clearance": band(j.result.MinClearance, j.result.MaxClearance),
	}
	if m, err := j.result.Shaft.RoundInward(j.step()); err == nil {
		d["shaft_to_micrometer"] = map[string]any{"step_mm": j.step().MM(), "least_mm": m.Min.MM(), "most_mm": m.Max.MM(), "lost_mm": m.Lost.MM()}
	}
	if j.entry.ClearanceLeast != nil {
		d["clearance_wanted"] = band(*j.entry.ClearanceLeast, *j.entry.ClearanceMost)
	}
	if j.hot != nil {
		heated := func(m *material.Material, rise units.TemperatureDifference) map[string]any {
			e := m.Expansion
			return map[string]any{"material": m.Name, "rise_k": float64(rise), "expansion": e.Value, "source": e.Refs.First()}
		}
		d["hole_heated"], d["shaft_heated"] = heated(j.entry.HoleMaterial, j.hot.holeRise), heated(j.entry.ShaftMaterial, j.hot.shaftRise)
		d["clearance_both_hot"] = band(j.hot.bothHot.Low, j.hot.bothHot.High)
		d["clearance_shaft_hot"] = band(j.hot.shaftOnly.Low, j.hot.shaftOnly.High)
		d["clearance_hole_hot"] = band(j.hot.holeOnly.Low, j.hot.holeOnly.High)
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
