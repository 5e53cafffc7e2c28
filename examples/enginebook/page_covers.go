package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/cover"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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
