package main

import (
	"errors"
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/gasket"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
)

// share is what the studs are tightened to, of their proof strength.
func share(e engine.Cover) float64 {
	if e.Preload != nil {
		return *e.Preload
	}
	return bolting.InCasting
}

// circleThatDoes says where the studs of a round cover may stand, with the least
// web of a cut gasket on both sides of their holes, or how large the cover must
// be for them.
func circleThatDoes(e engine.Cover) error {
	web := gasket.LeastWeb(units.Length{}) // of thin sheet
	beside := e.Hole.Add(web.Scale(2))
	low, high := beside, e.Diameter.Sub(beside)
	if e.Opening != nil {
		low = low.Add(*e.Opening)
	}
	if low.Cmp(high) <= 0 {
		return fmt.Errorf("%v are left on both sides of the holes with stud_circle from %v to %v", web, low, high)
	}
	const format = "no stud_circle leaves %v on both sides of the holes; a diameter of %v does, with the studs on %v"
	return fmt.Errorf(format, web, low.Add(beside), low)
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
	outside := gasket.Rect{Width: *e.Width, Height: *e.Height, Corner: or(e.Corner)}
	return gasket.Rectangular(e.Where, outside, openings, studs.Drilled(*e.Hole))
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
