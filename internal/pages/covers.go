package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket/cover"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Covers is the page of the engine book on its covers: what the gasket of each
// looks like, what its studs carry, and in which order they are tightened.
func Covers(e *engine.Engine) (*Page, error) {
	if len(e.File.Covers) == 0 {
		return nil, nil
	}
	p := &Page{Precautions: append(jointPrecautions(), seal.Precautions()...)}
	section := book.Section{Key: "covers", Title: "COVERS AND GASKETS", List: true, Notes: jointNotes()}
	var problems []error
	for i, c := range e.File.Covers {
		item, findings, err := coverOf(e, i)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		section.Items = append(section.Items, item)
		p.Findings = append(p.Findings, findings.At(c.Where)...)
	}
	if problems != nil {
		return nil, engine.Join(problems...)
	}
	p.Sections = []book.Section{section}
	return p, nil
}

// jointKeys are the keys of a cover in which the parts of its joint are given.
var jointKeys = map[string]string{
	"outline": "shape", "thread": "thread", "class": "stud_class", "preload": "preload", "pressure": "pressure",
	"material": "gasket", "sheet": "gasket_thickness", "tapped": "thread",
}

// coverOf works one cover out.
func coverOf(e *engine.Engine, i int) (item book.Item, findings finding.List, err error) {
	if err := e.ValidateCover(i); err != nil {
		return item, nil, err
	}
	c, key := e.File.Covers[i], fmt.Sprintf("covers[%d]", i)
	var problems []error
	complain := func(field string, err error) { problems = append(problems, e.Errors(key+"."+field, err)) }
	j := coverJoint(e, i)
	var solved solvedJoint
	told := false // that the pressure is no pressure
	if j.outline, err = coverOutline(e, key, c); err != nil {
		problems = append(problems, err)
	} else {
		solved = j.solve(func(part string, err error) {
			complain(jointKeys[part], err)
			told = told || part == "pressure"
			if part == "outline" && c.Shape == "round" {
				problems = append(problems, circleThatDoes(e, key, c))
			}
		})
	}
	var plate *cover.Plate
	if c.CoverPlate != nil && !told {
		p, err := bend(c, plateOf(c))
		switch {
		case err != nil && *c.Pressure <= 0: // a joint may be without any
			complain("pressure", err)
		case err != nil:
			complain("cover_thickness", err)
		}
		plate = &p
	}
	var thinned *cover.Thinned
	if c.CameOut != nil && c.CoverPlate != nil {
		t, err := cover.CutThin(*c.CoverPlate, c.CoverPlate.Sub(*c.CameOut), *c.CutFace)
		if err != nil {
			complain("cover_came_out", err)
		}
		thinned = &t
	}
	if err := engine.Join(problems...); err != nil {
		return item, nil, err
	}
	item, findings = solved.item(coverTitle(c, len(j.outline.Holes))), solved.findings
	item.Values = append(item.Values, coverSizes(c)...)
	if thinned != nil {
		addThinned(&item, c, *thinned)
		findings = append(findings, thinned.Findings...)
	}
	if plate != nil {
		addPlate(&item, c, *plate)
		findings = append(findings, plate.Check(*c.CoverMaterial)...)
		findings = append(findings, plate.Findings...)
	}
	return item, findings, nil
}

// coverJoint is the joint of a cover that ValidateCover takes, without its outline. A
// stud engages what the rule for its metal says, or the full thread where that is less.
func coverJoint(e *engine.Engine, i int) boltedJoint {
	c := e.File.Covers[i]
	j := boltedJoint{
		in:     rulerOf(e),
		thread: *c.Thread, class: c.StudClass, preload: bolting.InCasting, pressure: *c.Pressure,
		material: c.Gasket, sheet: c.Thickness,
	}
	if c.StudProof != nil {
		j.proof = *c.StudProof
	}
	if c.Preload != nil {
		j.preload = *c.Preload
	}
	for _, i := range e.TappedFor(i) {
		if e.ValidateFastener(i) != nil { // told on the page of the fasteners
			continue
		}
		f := e.File.Fasteners[i]
		t := bolting.Tapped{Thread: *f.Thread, Material: *f.Material}
		full, err := tappedHole(f).FullThread()
		if err == nil && full.Length.Sign() > 0 && full.Length.Cmp(full.Rule.Engaged) < 0 {
			t.Engaged = full.Length
		}
		j.tapped = append(j.tapped, t)
	}
	return j
}

func coverTitle(c engine.Cover, studs int) string {
	size := fmt.Sprintf("%v by %v", orZero(c.Width), orZero(c.Height))
	if c.Shape == "round" {
		size = fmt.Sprintf("round, %v", *c.Diameter)
	}
	return fmt.Sprintf("%s: %s, %d studs %v, %s (%.0f psi) above the air",
		c.Where, size, studs, *c.Thread, bar(*c.Pressure), c.Pressure.In(units.PSI))
}

func coverSizes(c engine.Cover) []book.Value {
	values := []book.Value{{Key: "where", What: book.Word(c.Where)}, {Key: "shape", What: book.Word(c.Shape)}}
	if c.Shape == "round" {
		return append(values, book.Value{Key: "diameter", What: book.Length(*c.Diameter, 3)})
	}
	return append(values,
		book.Value{Key: "width", What: book.Length(*c.Width, 3)}, book.Value{Key: "height", What: book.Length(*c.Height, 3)})
}

// plateOf is how thick a cover is: as it came out, where it was cut too thin.
func plateOf(c engine.Cover) units.Length {
	if c.CameOut != nil {
		return *c.CameOut
	}
	return *c.CoverPlate
}

// addThinned shows what became of a cover that was cut too thin.
func addThinned(item *book.Item, c engine.Cover, t cover.Thinned) {
	item.Values = append(item.Values,
		book.Value{Key: "cover.came_out", Label: "cover, came out", What: book.Length(*c.CameOut, 2), Remark: "cut on the face: " + c.CutFace.String()},
		book.Value{Key: "cover.stress_times", Label: "cover, stress as drawn times", What: book.Number(t.Stress, 2, "", "")},
		book.Value{Key: "cover.pressure_share", Label: "cover, stands of the pressure", What: book.Share(t.Strength, 0)},
		book.Value{Key: "cover.end_clearance_change", What: book.Length(t.EndClearance, 2)},
		book.Value{Key: "cover.stud_projection_change", What: book.Length(t.Projection, 2)},
		book.Value{Key: "cover.backing", Label: "plate behind it, at least", What: book.Length(t.Backing, 2)})
}

// bend works out the bending of a cover of a thickness, held where its studs are.
func bend(c engine.Cover, thickness units.Length) (cover.Plate, error) {
	if c.Shape == "round" {
		return cover.Round{
			Diameter: *c.StudCircle, Thickness: thickness,
			Elastic: c.CoverMaterial.Elasticity.Value, Poisson: c.CoverMaterial.Poisson.Value,
		}.Under(*c.Pressure)
	}
	short, long := *c.StudWidth, *c.StudHeight
	if long.Cmp(short) < 0 {
		short, long = long, short
	}
	return cover.Rectangular{
		Short: short, Long: long, Thickness: thickness, Elastic: c.CoverMaterial.Elasticity.Value,
	}.Under(*c.Pressure)
}

// addPlate shows how a cover bends between the two ways in which its rim may be
// held.
func addPlate(item *book.Item, c engine.Cover, p cover.Plate) {
	held, tilting := p.Clamped, p.Supported
	low, high := held, tilting
	if low.Stress > high.Stress {
		low.Stress, high.Stress = high.Stress, low.Stress
	}
	if low.Deflection.Cmp(high.Deflection) > 0 {
		low.Deflection, high.Deflection = high.Deflection, low.Deflection
	}
	item.Values = append(item.Values,
		book.Value{Key: "cover.stress", Label: "cover, stress",
			What: book.Range(stress(low.Stress), stress(high.Stress)), Refs: p.Refs},
		book.Value{Key: "cover.bulge", Label: "cover, bulge",
			What: book.Range(book.Length(low.Deflection, 3), book.Length(high.Deflection, 3))},
		book.Value{Key: "cover.clamped.stress", What: stress(held.Stress)},
		book.Value{Key: "cover.clamped.deflection", What: book.Length(held.Deflection, 3)},
		book.Value{Key: "cover.supported.stress", What: stress(tilting.Stress)},
		book.Value{Key: "cover.supported.deflection", What: book.Length(tilting.Deflection, 3)},
		book.Value{Key: "cover.thickness", What: book.Length(*c.CoverPlate, 2)},
		book.Value{Key: "cover.material", What: book.Word(c.CoverMaterial.Name)},
	)
	item.Notes = append(item.Notes, book.Note{Text: "The cover's figures are for a rim held level and for one that may" +
		" tilt, at the studs; the truth lies between."})
}
