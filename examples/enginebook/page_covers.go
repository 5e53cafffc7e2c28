package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/cover"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A coverJoint is a engine.Cover worked out.
type coverJoint struct {
	entry    engine.Cover
	outline  gasket.Outline
	measures gasket.Measures
	webs     []gasket.Web
	proof    units.Pressure
	proofRef string
	stud     bolting.StudLoad
	torque   strength.Tightened
	seats    []seal.Factor
	pressing bolting.Pressing
	order    []string
	spacing  bolting.Spacing
	plate    *cover.Plate
}

// share is what the studs are tightened to, of their proof strength.
func share(e engine.Cover) float64 {
	if e.Preload != nil {
		return *e.Preload
	}
	return bolting.InCasting
}

// coversPage says what each cover's gasket looks like, what its studs carry and
// in which order they are tightened.
func coversPage(in *input) (*page, error) {
	if len(in.File.Covers) == 0 {
		return nil, nil
	}
	p := &page{}
	var covers []*coverJoint
	var problems []error
	for i, entry := range in.File.Covers {
		c, findings, err := in.cover(fmt.Sprintf("covers[%d]", i), entry)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		covers = append(covers, c)
		p.findings = append(p.findings, findings...)
	}
	if problems != nil {
		return nil, errors.Join(problems...)
	}
	data := []any{}
	for _, c := range covers {
		data = append(data, c.data())
	}
	p.data = map[string]any{"covers": data}
	precautions := [][]finding.Precaution{cover.TestPrecautions(), bolting.Precautions(), seal.Precautions()}
	var paragraphs []string
	for _, list := range precautions {
		var texts []string
		for _, precaution := range list {
			texts = append(texts, precaution.Text)
		}
		paragraphs = append(paragraphs, strings.Join(texts, " "))
		p.cautions = append(p.cautions, texts...)
	}
	p.write = func(pr *printer) {
		pr.heading("COVERS AND GASKETS")
		for i, c := range covers {
			if i > 0 {
				pr.blank()
			}
			c.write(pr)
		}
		pr.blank()
		pr.para("The gaskets are full-face, with the studs through them: the pressure is reckoned to the edge of the gasket, as if it had leaked that far, and no code gives a method for them. Tighten in three rounds of a third of the torque more each, then once in a ring; look again, cold and without pressure, after the first steaming, as joints relax by 10 to 20 percent (Moss, Pressure Vessel Design Manual, p. 62). A gasket does not put right faces that are not flat.")
		for _, text := range paragraphs {
			pr.blank()
			pr.para(text)
		}
	}
	return p, nil
}

// cover works one entry out.
func (in *input) cover(key string, e engine.Cover) (*coverJoint, finding.List, error) {
	if err := in.checkCover(key, e); err != nil {
		return nil, nil, err
	}
	c := &coverJoint{entry: e}
	fail := func(field string, err error) (*coverJoint, finding.List, error) {
		return nil, nil, in.Errors(key+"."+field, err)
	}
	var findings finding.List
	tell := func(list finding.List) { findings = append(findings, list.At(e.Where)...) }
	var err error
	if c.outline, err = in.coverOutline(e); err != nil {
		return fail("shape", err)
	}
	if c.measures, err = c.outline.Measure(); err != nil {
		if e.Shape == "round" {
			err = errors.Join(err, circleThatDoes(e))
		}
		return fail("shape", err)
	}
	if c.webs, err = c.outline.Webs(); err != nil {
		return fail("shape", err)
	}
	if e.Thickness != nil {
		list, err := c.outline.Check(*e.Thickness)
		if err != nil {
			return fail("gasket_thickness", err)
		}
		tell(list)
	}
	if field, err := c.bolt(); err != nil {
		return fail(field, err)
	}
	tell(c.stud.Findings)
	if field, err := c.press(tell); err != nil {
		return fail(field, err)
	}
	tell(c.spacing.Findings)
	if e.CoverPlate != nil {
		if err := c.bend(); err != nil {
			return fail("cover_thickness", err)
		}
		tell(c.plate.Check(*e.CoverMaterial))
		tell(c.plate.Findings)
	}
	return c, findings, nil
}

// bolt works the studs out; of an error it returns the key too.
func (c *coverJoint) bolt() (field string, err error) {
	e := c.entry
	load, err := bolting.EndForce(*e.Pressure, c.measures.Enclosed)
	if err != nil {
		return "pressure", err
	}
	if e.StudClass != "" {
		s, err := strength.BoltFor(*e.Thread, e.StudClass)
		if err != nil {
			return "stud_class", err
		}
		c.proof, c.proofRef = s.Proof, s.Refs.First().String()
	} else {
		c.proof, c.proofRef = *e.StudProof, "as given"
	}
	studs := bolting.Studs{
		Number: len(c.outline.Holes), Diameter: e.Thread.Major(), StressArea: strength.StressAreaOf(*e.Thread).Area,
		Proof: c.proof, Preload: share(e),
	}
	if c.stud, err = studs.Load(load); err != nil {
		return "preload", err
	}
	tighten := strength.Tightening{Diameter: e.Thread.Major(), Factor: strength.DryThreads(), Pull: c.stud.Preload}
	if c.torque, err = tighten.Solve(); err != nil {
		return "thread", err
	}
	order, err := bolting.Order(c.outline.Holes)
	if err != nil {
		return "shape", err
	}
	for _, number := range order {
		c.order = append(c.order, c.outline.Holes[number-1].Name)
	}
	if c.spacing, err = bolting.SpacingOf(c.outline.Holes, e.Thread.Major()); err != nil {
		return "thread", err
	}
	return "", nil
}

// press works out what holds the gasket, and whether its material does.
func (c *coverJoint) press(tell func(finding.List)) (field string, err error) {
	e := c.entry
	var seating bolting.Seating
	if e.Gasket != nil {
		list, err := seal.Check(*e.Gasket, seal.Service{Medium: seal.Steam, Pressure: *e.Pressure, Oiled: true})
		if err != nil {
			return "gasket", err
		}
		tell(list)
		factors, err := seal.FactorsFor(*e.Gasket)
		if err == nil { // cork has none
			for _, f := range factors {
				if f.Y > 0 {
					c.seats = append(c.seats, f)
				}
			}
		}
		for i, f := range c.seats {
			if i == 0 || f.Y < seating.Min {
				seating.Min = f.Y
			}
			seating.Max = max(seating.Max, f.Y)
			seating.Refs = seating.Refs.With(f.Refs)
		}
	}
	if c.pressing, err = c.stud.Press(c.measures.Area, seating); err != nil {
		return "pressure", err
	}
	tell(c.pressing.Findings)
	return "", nil
}

// bend works out the bending of the cover, held where its studs are.
func (c *coverJoint) bend() error {
	e := c.entry
	var plate cover.Plate
	var err error
	if e.Shape == "round" {
		plate, err = cover.Round{
			Diameter: *e.StudCircle, Thickness: *e.CoverPlate,
			Elastic: e.CoverMaterial.Elasticity.Value, Poisson: e.CoverMaterial.Poisson.Value,
		}.Under(*e.Pressure)
	} else {
		short, long := *e.StudWidth, *e.StudHeight
		if long.Cmp(short) < 0 {
			short, long = long, short
		}
		plate, err = cover.Rectangular{
			Short: short, Long: long, Thickness: *e.CoverPlate, Elastic: e.CoverMaterial.Elasticity.Value,
		}.Under(*e.Pressure)
	}
	c.plate = &plate
	return err
}

// circleThatDoes says where the studs of a round cover may stand, with the least
// web of a cut gasket on both sides of their holes, or how large the cover must
// be for them.
func circleThatDoes(e engine.Cover) error {
	beside := e.Hole.Add(units.MM(3)) // 1.5 mm twice, the rule of thumb of package gasket
	low, high := beside, e.Diameter.Sub(beside)
	if e.Opening != nil {
		low = low.Add(*e.Opening)
	}
	if low.Cmp(high) <= 0 {
		return fmt.Errorf("1.5 mm are left on both sides of the holes with stud_circle from %v to %v", low, high)
	}
	return fmt.Errorf("no stud_circle leaves 1.5 mm on both sides of the holes; a diameter of %v does, with the studs on %v", low.Add(beside), low)
}

// checkCover complains of everything that is missing or too much.
func (in *input) checkCover(key string, e engine.Cover) error {
	var problems []error
	complain := func(field, format string, args ...any) {
		problems = append(problems, in.Errorf(key+"."+field, format, args...))
	}
	need := func(accepted string, fields ...string) {
		for _, f := range fields {
			problems = append(problems, in.Missing(accepted, key+"."+f))
		}
	}
	refuse := func(shape string, fields ...string) {
		for _, f := range fields {
			if given := in.Has(key + "." + f); given {
				complain(f, "belongs to a %s cover", shape)
			}
		}
	}
	const length = `a length with its unit, such as "28 mm"`
	if e.Where == "" {
		complain("where", `missing; accepted: the place of the cover, such as "steam chest"`)
	}
	switch e.Shape {
	case "round":
		need(length, "diameter", "stud_circle")
		need("a whole number", "studs")
		refuse("rectangular", "width", "height", "corner", "opening_width", "opening_height", "opening_corner", "port_margin", "studs_across", "studs_along", "stud_width", "stud_height")
	case "rectangular":
		need(length, "width", "height", "stud_width", "stud_height")
		need("a whole number, the corners counted", "studs_across", "studs_along")
		refuse("round", "diameter", "opening", "studs", "stud_circle", "first_stud")
		if (e.OpeningWidth == nil) != (e.OpeningHeight == nil) {
			complain("opening_width", "accepted: opening_width and opening_height together, or neither")
		}
		if e.OpeningCorner != nil && e.OpeningWidth == nil {
			complain("opening_corner", "the opening itself is missing; accepted: beside opening_width and opening_height")
		}
		if e.PortMargin != nil && e.OpeningWidth != nil {
			complain("port_margin", "opening_width is given too; accepted: one opening, or the ports with a margin round them")
		}
	default:
		complain("shape", `%q; accepted: "round" or "rectangular"`, e.Shape)
	}
	need(`a thread, such as "M3" or "5 BA"`, "thread")
	need(length, "hole")
	need(`a pressure above that of the air, such as "4 bar" or "60 psi"`, "pressure")
	switch {
	case e.StudClass == "" && e.StudProof == nil:
		complain("stud_class", `missing; accepted: a property class, such as "4.6", or stud_proof, such as "200 MPa"`)
	case e.StudClass != "" && e.StudProof != nil:
		complain("stud_proof", "stud_class is given too; accepted: one of the two")
	}
	if e.Hole != nil && e.Thread != nil && e.Hole.Cmp(e.Thread.Major()) <= 0 {
		complain("hole", "%v does not pass a stud %v; accepted: above %v", e.Hole, e.Thread, e.Thread.Major())
	}
	if e.Preload != nil && !(*e.Preload > 0) {
		complain("preload", "%v; accepted: a share of the proof strength, above 0 and up to 1", *e.Preload)
	}
	if (e.CoverPlate == nil) != (e.CoverMaterial == nil) {
		complain("cover_thickness", "accepted: cover_thickness and cover_material together, or neither")
	}
	if e.CoverMaterial != nil && !e.CoverMaterial.Elasticity.Known() {
		complain("cover_material", `we have no modulus of elasticity of %v; accepted: a metal, such as "cast iron"`, *e.CoverMaterial)
	}
	return errors.Join(problems...)
}

// coverOutline draws the gasket. Openings of the ports are those of the engine,
// side by side along the width, a margin larger all round so that the gasket
// cannot blind them.
func (in *input) coverOutline(e engine.Cover) (gasket.Outline, error) {
	or := func(l *units.Length) units.Length {
		if l == nil {
			return units.Length{}
		}
		return *l
	}
	if e.Shape == "round" {
		first := 90 * units.Degree
		if e.FirstStud != nil {
			first = *e.FirstStud
		}
		studs, err := gasket.BoltCircle(*e.Studs, *e.StudCircle, first)
		if err != nil {
			return gasket.Outline{}, err
		}
		return gasket.Round(e.Where, *e.Diameter, or(e.Opening), studs.Drilled(*e.Hole))
	}
	studs, err := gasket.Rectangle(*e.StudsAcross, *e.StudsAlong, *e.StudWidth, *e.StudHeight)
	if err != nil {
		return gasket.Outline{}, err
	}
	var openings []gasket.Rect
	switch {
	case e.OpeningWidth != nil:
		openings = []gasket.Rect{{Width: *e.OpeningWidth, Height: *e.OpeningHeight, Corner: or(e.OpeningCorner)}}
	case e.PortMargin != nil:
		gear, err := in.gear()
		if err != nil {
			return gasket.Outline{}, err
		}
		openings = portOpenings(gear.Ports, *e.PortMargin)
	}
	return gasket.Rectangular(e.Where, gasket.Rect{Width: *e.Width, Height: *e.Height, Corner: or(e.Corner)}, openings, studs.Drilled(*e.Hole))
}

func portOpenings(p eccentric.Ports, margin units.Length) []gasket.Rect {
	around := margin.Scale(2)
	off := p.Exhaust.Add(p.Steam).Scale(0.5).Add(p.Bar)
	height := p.Length.Add(around)
	return []gasket.Rect{
		{Centre: gasket.Point{X: off.Neg()}, Width: p.Steam.Add(around), Height: height},
		{Width: p.Exhaust.Add(around), Height: height},
		{Centre: gasket.Point{X: off}, Width: p.Steam.Add(around), Height: height},
	}
}

func (c *coverJoint) write(pr *printer) {
	e, n := c.entry, len(c.outline.Holes)
	pr.hang("", fmt.Sprintf("%s: %s, %d studs %v, %s (%.0f psi) above the air", e.Where, c.size(), n, *e.Thread, bar(*e.Pressure), *e.Pressure/units.PSI))
	mm2 := func(a units.Area) string { return fmt.Sprintf("%.0f mm2", a.In(units.SquareMillimetre)) }
	newtons := func(f units.Force) string { return fmt.Sprintf("%.0f N", f) }
	rows := [][]string{
		{"gasket, area", mm2(c.measures.Area), fmt.Sprintf("%.3f in2", c.measures.Area/units.SquareInch)},
		{"inside its edge", mm2(c.measures.Enclosed), fmt.Sprintf("%.3f in2", c.measures.Enclosed/units.SquareInch)},
	}
	if len(c.webs) > 0 {
		rows = append(rows, []string{"least web", mm(c.webs[0].Width), inch(c.webs[0].Width)})
	}
	pounds := func(f units.Force) string { return fmt.Sprintf("%.1f lbf", f/units.PoundForce) }
	rows = append(rows,
		[]string{"pressure on the cover", newtons(c.stud.Total), pounds(c.stud.Total)},
		[]string{"on each stud", newtons(c.stud.Working), pounds(c.stud.Working)},
		[]string{"preload of each", newtons(c.stud.Preload), pounds(c.stud.Preload)},
		[]string{"torque, dry", fmt.Sprintf("%.2f N m", c.torque.Torque/units.NewtonMetre), fmt.Sprintf("%.1f lbf in", c.torque.Torque/units.PoundForceInch)},
	)
	if c.plate != nil {
		held, tilting := c.plate.Clamped, c.plate.Supported
		low, high := min(held.Stress, tilting.Stress), max(held.Stress, tilting.Stress)
		rows = append(rows,
			[]string{"cover, stress", fmt.Sprintf("%.1f to %s", low/units.Megapascal, megapascals(high)), fmt.Sprintf("%.0f to %.0f psi", low/units.PSI, high/units.PSI)},
			[]string{"cover, bulge", between(held.Deflection, tilting.Deflection), betweenInch(held.Deflection, tilting.Deflection)},
		)
	}
	pr.table(rows)
	if len(c.webs) > 0 {
		pr.hang("  ", fmt.Sprintf("The least web lies between %s and %s.", c.webs[0].From, c.webs[0].To))
	}
	area := strength.StressAreaOf(*e.Thread).Area / units.SquareMillimetre
	pr.hang("  ", fmt.Sprintf("F = p A = %s x %s = %s; F/n = %s/%d = %s, %s in the %.2f mm2 of %v.", bar(*e.Pressure), mm2(c.measures.Enclosed), newtons(c.stud.Total), newtons(c.stud.Total), n, newtons(c.stud.Working), megapascals(c.stud.Stress), area, *e.Thread))
	times := ""
	if margin, loaded := c.stud.Margin(); loaded {
		times = fmt.Sprintf(", %.1f times the load", margin)
	}
	pr.hang("  ", fmt.Sprintf("Preload = %g x %s x %.2f mm2 = %s%s; proof strength %s. T = K F d = %.2g x %s x %s; by torque alone the pull may be %s to %s.", share(e), megapascals(c.proof), area, newtons(c.stud.Preload), times, c.proofRef, c.torque.Factor.K, newtons(c.stud.Preload), mm(e.Thread.Major()), newtons(c.torque.PullMin), newtons(c.torque.PullMax)))
	if c.pressing.Left > 0 {
		text := "On the gasket, preload less pressure over its area: " + megapascals(c.pressing.Left)
		var seats []string
		var refs source.Refs
		for _, f := range c.seats {
			seat := megapascals(f.Y)
			if len(c.seats) > 1 {
				seat += ", " + f.Printed
			}
			seats = append(seats, seat)
			refs = refs.With(f.Refs)
		}
		if seats != nil {
			text += fmt.Sprintf("; inside the studs %v would be seated by %s, an indication only (%v)", *e.Gasket, strings.Join(seats, "; by "), refs)
		}
		pr.hang("  ", text+".")
	}
	var rules []string
	for _, r := range c.spacing.Rules {
		verdict := "outside"
		if r.Contains(c.spacing.Widest) {
			verdict = "kept"
		}
		rules = append(rules, fmt.Sprintf("%s, %s to %s: %s", r.Name, r.Min.Decimal(units.Millimetres, 0), r.Max.Text(units.Millimetres, 0), verdict))
	}
	pr.hang("  ", fmt.Sprintf("Studs up to %s (%s) apart. Rules of thumb, which disagree: %s.", mm(c.spacing.Widest), inch(c.spacing.Widest), strings.Join(rules, "; ")))
	if c.plate != nil {
		pr.hang("  ", fmt.Sprintf("The cover's figures are for a rim held level and for one that may tilt, at the studs; the truth lies between (%v).", c.plate.Refs))
	}
	pr.hang("  ", "Tighten "+strings.Join(c.order, " ")+".")
}

func (c *coverJoint) size() string {
	e := c.entry
	if e.Shape == "round" {
		return fmt.Sprintf("round, %v", *e.Diameter)
	}
	return fmt.Sprintf("%v by %v", *e.Width, *e.Height)
}

func (c *coverJoint) data() map[string]any {
	e := c.entry
	newtons := func(f units.Force) float64 { return float64(f) }
	mpa := func(p units.Pressure) float64 { return float64(p / units.Megapascal) }
	rules := []any{}
	for _, r := range c.spacing.Rules {
		rules = append(rules, map[string]any{
			"rule": r.Name, "min_mm": r.Min.MM(), "max_mm": r.Max.MM(), "kept": r.Contains(c.spacing.Widest), "sources": r.Refs,
		})
	}
	d := map[string]any{
		"where":           e.Where,
		"shape":           e.Shape,
		"thread":          e.Thread.Designation(),
		"studs":           len(c.outline.Holes),
		"gasket_area_mm2": float64(c.measures.Area / units.SquareMillimetre),
		"enclosed_mm2":    float64(c.measures.Enclosed / units.SquareMillimetre),
		"pressure_bar":    float64(*e.Pressure / units.Bar),
		"load_n":          newtons(c.stud.Total),
		"stud_load_n":     newtons(c.stud.Working),
		"stud_stress_mpa": mpa(c.stud.Stress),
		"stud_area_mm2":   float64(strength.StressAreaOf(*e.Thread).Area / units.SquareMillimetre),
		"stud_proof":      map[string]any{"strength_mpa": mpa(c.proof), "source": c.proofRef},
		"preload_share":   share(e),
		"stud_preload_n":  newtons(c.stud.Preload),
		"torque_nm":       float64(c.torque.Torque / units.NewtonMetre),
		"torque_factor":   c.torque.Factor.K,
		"pull_by_torque":  map[string]any{"least_n": newtons(c.torque.PullMin), "most_n": newtons(c.torque.PullMax)},
		"spacing_mm":      c.spacing.Widest.MM(),
		"spacing_rules":   rules,
		"order":           c.order,
	}
	if margin, loaded := c.stud.Margin(); loaded {
		d["preload_times_load"] = margin
	}
	if e.Shape == "round" {
		d["diameter_mm"] = e.Diameter.MM()
	} else {
		d["width_mm"], d["height_mm"] = e.Width.MM(), e.Height.MM()
	}
	if len(c.webs) > 0 {
		d["least_web_mm"] = c.webs[0].Width.MM()
		d["least_web_between"] = []string{c.webs[0].From, c.webs[0].To}
	}
	if c.pressing.Left > 0 {
		d["on_gasket_mpa"] = mpa(c.pressing.Left)
	}
	if e.Gasket != nil {
		d["gasket"] = e.Gasket.Name
	}
	if c.seats != nil {
		seats := []any{}
		for _, f := range c.seats {
			seats = append(seats, map[string]any{"material": f.Printed, "stress_mpa": mpa(f.Y), "sources": f.Refs})
		}
		d["seating"] = seats
	}
	if c.plate != nil {
		bending := func(b cover.Bending) map[string]any {
			return map[string]any{"stress_mpa": mpa(b.Stress), "deflection_mm": b.Deflection.MM()}
		}
		d["cover"] = map[string]any{"supported": bending(c.plate.Supported), "clamped": bending(c.plate.Clamped), "thickness_mm": e.CoverPlate.MM(), "material": e.CoverMaterial.Name, "sources": c.plate.Refs}
	}
	return d
}

func megapascals(p units.Pressure) string { return fmt.Sprintf("%.1f MPa", p/units.Megapascal) }
func bar(p units.Pressure) string         { return fmt.Sprintf("%.3g bar", p/units.Bar) }
