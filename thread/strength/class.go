package strength

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Bolt is what a bolt, screw or stud must carry, by the property class that
// its head is marked with or by what it is made of.
type Bolt struct {
	Class     string         `json:",omitempty"` // blank by material
	Material  string         `json:",omitempty"` // blank by class
	Tensile   units.Pressure `json:",omitzero"`  // least tensile strength; zero where a material has no figure
	Proof     units.Pressure `json:",omitzero"`  // of the class, or yield strength; zero for grey iron, which breaks first
	Area      units.Area     // stress area
	Breaking  units.Force    `json:",omitzero"` // Tensile * Area
	ProofLoad units.Force    `json:",omitzero"` // Proof * Area: it takes this and stays as long as it was
	Refs      source.Refs
}

type class struct {
	name           string
	over, upTo     units.Length
	tensile, proof units.Pressure
	ref            source.Ref
}

var classes = table.Table[class]{FS: &files, Name: "tables/classes.csv", Row: func(r *table.Row) class {
	mm := func(column string) units.Length { return table.As(r, column, units.Millimetres.Parse) }
	return class{
		name: r.Text("class"), over: mm("over_mm"), upTo: mm("up_to_mm"),
		tensile: units.Pressure(r.Float("tensile")) * units.Megapascal,
		proof:   units.Pressure(r.Float("proof")) * units.Megapascal,
		ref:     r.Ref(),
	}
}}

// BoltFor returns the breaking and proof loads of a bolt of a property class,
// "8.8" or "10.9", as marked on its head.
//
//	breaking load = Rm * As
//	proof load    = Sp * As
//
//	Rm  least tensile strength of the class
//	Sp  proof stress of the class
//	As  stress area; see [StressAreaOf]
//
// ISO 898-1 states the classes for metric bolts of steel from M1.6 to M39; on
// other threads the result is the same product, for a steel of that strength. An
// unmarked bolt has no class: do not take one for it. Source: EN ISO 898-1:2013,
// with 267 published loads of the edition of 1999 as witness, which agree within
// 0.75 % (they are rounded to three figures, some from the exact area).
func BoltFor(t thread.Thread, class string) (Bolt, error) {
	if err := t.Validate(); err != nil {
		return Bolt{}, err
	}
	var known []string
	rows := classes.Rows()
	for i := range rows {
		c := &rows[i]
		if c.name != class {
			if !slices.Contains(known, c.name) {
				known = append(known, c.name)
			}
			continue
		}
		if t.Major().Cmp(c.over) > 0 && t.Major().Cmp(c.upTo) <= 0 {
			return loads(t, Bolt{Class: class, Tensile: c.tensile, Proof: c.proof, Refs: source.Shared(&c.ref)}), nil
		}
		known = append(known, c.name)
	}
	if slices.Contains(known, class) {
		return Bolt{}, fail.OutOfRange("diameter of "+t.Designation()+" for class "+class, t.Major(),
			"up to 39 mm; up to 16 mm for 9.8")
	}
	return Bolt{}, fail.UnknownName("property class", class, strings.Join(known, ", "))
}

// BoltOf returns what a bolt or stud turned from a material carries: the load at
// which it yields or, of grey iron, which does not yield, breaks. The strength
// is that of the weakest condition that a source gives, and the result has the
// source of each; for a bar with a certificate put its own figure into the
// material with [material.Given]. A material without a figure is an error.
func BoltOf(t thread.Thread, m material.Material) (Bolt, error) {
	if err := t.Validate(); err != nil {
		return Bolt{}, err
	}
	if _, err := weakest(m); err != nil {
		return Bolt{}, err
	}
	b := Bolt{Material: m.Name, Tensile: m.Tensile.Min, Proof: m.Yield.Min, Refs: m.Yield.Refs.With(m.Tensile.Refs)}
	return loads(t, b), nil
}

func loads(t thread.Thread, b Bolt) Bolt {
	area := StressAreaOf(t)
	b.Area = area.Area
	b.Breaking = units.Force(float64(b.Tensile) * float64(b.Area))
	b.ProofLoad = units.Force(float64(b.Proof) * float64(b.Area))
	b.Refs = b.Refs.With(area.Refs)
	return b
}

// weakest returns the strength at which a material gives way: it yields or, if
// it is grey iron, breaks.
func weakest(m material.Material) (material.Figure[units.Pressure], error) {
	for _, figure := range []material.Figure[units.Pressure]{m.Yield, m.Tensile} {
		if figure.Known() {
			return figure, nil
		}
	}
	if m.Name == "" {
		return material.Figure[units.Pressure]{}, fail.Missing("material", "one with a yield strength")
	}
	var known []string
	for _, other := range material.All() {
		if other.Yield.Known() || other.Tensile.Known() {
			known = append(known, other.Name)
		}
	}
	return material.Figure[units.Pressure]{}, fail.Argument("material", m.Name, "we have no figure for its strength",
		strings.Join(known, ", "), units.ErrUnknown)
}
