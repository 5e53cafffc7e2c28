package thread

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A BoltStrength is what a steel bolt, screw or stud of a property class must
// carry.
type BoltStrength struct {
	Class     string
	Tensile   units.Pressure // least tensile strength of the class
	Proof     units.Pressure // proof stress of the class
	Area      units.Area     // stress area
	Breaking  units.Force    // Tensile * Area
	ProofLoad units.Force    // Proof * Area: it takes this and stays as long as it was
	Ref       source.Ref
}

type strengthClass struct {
	class          string
	over, upTo     units.Length
	tensile, proof float64 // MPa
	ref            source.Ref
}

var strengthClasses = table.Table[strengthClass]{FS: &tables, Name: "tables/strength_classes.csv", Row: func(r *table.Row) strengthClass {
	return strengthClass{r.Text("class"), table.As(r, "over_mm", units.Millimetres.Parse), table.As(r, "up_to_mm", units.Millimetres.Parse), r.Float("tensile"), r.Float("proof"), r.Ref()}
}}

// BoltStrength returns the breaking and proof loads of a bolt of a property
// class, "8.8" or "10.9", as marked on its head.
//
//	breaking load = Rm * As,  proof load = Sp * As
//
// with Rm the least tensile strength and Sp the proof stress of the class and As
// the stress area of [Thread.StressArea]. ISO 898-1 states the classes for metric
// bolts of steel from M1.6 to M39; on other threads the result is the same
// product, for a steel of that strength. An unmarked bolt has no class: do not
// take one for it.
//
// Source: EN ISO 898-1:2013, with 267 published loads of the edition of 1999 as
// witness, which agree within 0.75 % (they are rounded to three figures, some
// from the exact area). Errors: an unknown class, a diameter outside the table.
func (t Thread) BoltStrength(class string) (BoltStrength, error) {
	if t.Form() == 0 {
		return BoltStrength{}, noThread()
	}
	var known []string
	for _, c := range strengthClasses.Rows() {
		if c.class != class {
			if !slices.Contains(known, c.class) {
				known = append(known, c.class)
			}
			continue
		}
		if t.Major().Cmp(c.over) > 0 && t.Major().Cmp(c.upTo) <= 0 {
			area := t.StressArea()
			tensile, proof := units.Pressure(c.tensile)*units.Megapascal, units.Pressure(c.proof)*units.Megapascal
			return BoltStrength{
				Class: class, Tensile: tensile, Proof: proof, Area: area.Area,
				Breaking: units.Force(float64(tensile) * float64(area.Area)), ProofLoad: units.Force(float64(proof) * float64(area.Area)), Ref: c.ref,
			}, nil
		}
		known = append(known, c.class)
	}
	if slices.Contains(known, class) {
		return BoltStrength{}, argument("diameter of "+t.Designation()+" for class "+class, t.Major().String(), "up to 39 mm; up to 16 mm for 9.8", units.ErrOutOfRange)
	}
	return BoltStrength{}, argument("property class", `"`+class+`"`, strings.Join(known, ", "), units.ErrUnknown)
}
