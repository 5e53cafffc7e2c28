package main

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/gasket/cover"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

func (c *coverJoint) write(pr *printer) {
	e, n := c.entry, len(c.outline.Holes)
	pr.hang("", fmt.Sprintf("%s: %s, %d studs %v, %s (%.0f psi) above the air", e.Where, c.size(), n, *e.Thread, bar(*e.Pressure), e.Pressure.In(units.PSI)))
	mm2 := func(a units.Area) string { return fmt.Sprintf("%.0f mm2", a.In(units.SquareMillimetre)) }
	newtons := func(f units.Force) string { return fmt.Sprintf("%.0f N", f) }
	rows := [][]string{
		{"gasket, area", mm2(c.measures.Area), fmt.Sprintf("%.3f in2", c.measures.Area.In(units.SquareInch))},
		{"inside its edge", mm2(c.measures.Enclosed), fmt.Sprintf("%.3f in2", c.measures.Enclosed.In(units.SquareInch))},
	}
	if len(c.webs) > 0 {
		rows = append(rows, []string{"least web", mm(c.webs[0].Width), inch(c.webs[0].Width)})
	}
	pounds := func(f units.Force) string { return fmt.Sprintf("%.1f lbf", f/units.PoundForce) }
	rows = append(rows,
		[]string{"pressure on the cover", newtons(c.stud.Total), pounds(c.stud.Total)},
		[]string{"on each stud", newtons(c.stud.Working), pounds(c.stud.Working)},
		[]string{"preload of each", newtons(c.stud.Preload), pounds(c.stud.Preload)},
		[]string{
			"torque, dry", fmt.Sprintf("%.2f N m", c.torque.Torque.In(units.NewtonMetre)),
			fmt.Sprintf("%.1f lbf in", c.torque.Torque.In(units.PoundForceInch)),
		},
	)
	if c.plate != nil {
		held, tilting := c.plate.Clamped, c.plate.Supported
		low, high := min(held.Stress, tilting.Stress), max(held.Stress, tilting.Stress)
		rows = append(rows,
			[]string{
				"cover, stress", fmt.Sprintf("%.1f to %s", low.In(units.Megapascal), megapascals(high)),
				fmt.Sprintf("%.0f to %.0f psi", low.In(units.PSI), high.In(units.PSI)),
			},
			[]string{"cover, bulge", between(held.Deflection, tilting.Deflection), betweenInch(held.Deflection, tilting.Deflection)},
		)
	}
	pr.table(rows)
	if len(c.webs) > 0 {
		pr.hang("  ", fmt.Sprintf("The least web lies between %s and %s.", c.webs[0].From, c.webs[0].To))
	}
	area := strength.StressAreaOf(*e.Thread).Area.In(units.SquareMillimetre)
	pr.hang("  ", fmt.Sprintf("F = p A = %s x %s = %s; F/n = %s/%d = %s, %s in the %.2f mm2 of %v.",
		bar(*e.Pressure), mm2(c.measures.Enclosed), newtons(c.stud.Total),
		newtons(c.stud.Total), n, newtons(c.stud.Working), megapascals(c.stud.Stress), area, *e.Thread))
	times := ""
	if margin, loaded := c.stud.Margin(); loaded {
		times = fmt.Sprintf(", %.1f times the load", margin)
	}
	pr.hang("  ", fmt.Sprintf("Preload = %g x %s x %.2f mm2 = %s%s; proof strength %s. T = K F d = %.2g x %s x %s; by torque alone the pull may be %s to %s.",
		share(e), megapascals(c.proof), area, newtons(c.stud.Preload), times, c.proofRef,
		c.torque.Factor.K, newtons(c.stud.Preload), mm(e.Thread.Major()),
		newtons(c.torque.PullMin), newtons(c.torque.PullMax)))
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
		rules = append(rules, fmt.Sprintf("%s, %s to %s: %s",
			r.Name, r.Min.Decimal(units.Millimetres, 0), r.Max.Text(units.Millimetres, 0), verdict))
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
	mpa := func(p units.Pressure) float64 { return p.In(units.Megapascal) }
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
		"gasket_area_mm2": c.measures.Area.In(units.SquareMillimetre),
		"enclosed_mm2":    c.measures.Enclosed.In(units.SquareMillimetre),
		"pressure_bar":    e.Pressure.In(units.Bar),
		"load_n":          newtons(c.stud.Total),
		"stud_load_n":     newtons(c.stud.Working),
		"stud_stress_mpa": mpa(c.stud.Stress),
		"stud_area_mm2":   float64(strength.StressAreaOf(*e.Thread).Area / units.SquareMillimetre),
		"stud_proof":      map[string]any{"strength_mpa": mpa(c.proof), "source": c.proofRef},
		"preload_share":   share(e),
		"stud_preload_n":  newtons(c.stud.Preload),
		"torque_nm":       c.torque.Torque.In(units.NewtonMetre),
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
		d["cover"] = map[string]any{
			"supported": bending(c.plate.Supported), "clamped": bending(c.plate.Clamped),
			"thickness_mm": e.CoverPlate.MM(), "material": e.CoverMaterial.Name, "sources": c.plate.Refs,
		}
	}
	return d
}

func megapascals(p units.Pressure) string { return fmt.Sprintf("%.1f MPa", p/units.Megapascal) }
func bar(p units.Pressure) string         { return fmt.Sprintf("%.3g bar", p/units.Bar) }
