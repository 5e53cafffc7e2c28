package cutting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// What is not in a table.
const (
	// Scatter is the share by which a force or power of this package may be off
	// either way: the tables differ by as much, and more where a tool is blunt.
	Scatter = 0.3

	// BeltDrive is the efficiency of a belt and plain bearings, 0.7 to 0.8 by common
	// practice.
	BeltDrive = 0.75

	// UsualPoint is the included angle of a drill as it is sold.
	UsualPoint = 118 * units.Degree
)

// A Kienzle is the force that a material asks for each square millimetre of
// chip: kc11 at a chip 1 mm thick, more for thinner ones.
type Kienzle struct {
	KC11     units.Pressure
	Exponent float64
	Group    string // of VDI 3323
	Material string // as published, with its condition
	Refs     source.Refs
}

// KienzleFor returns the constants of a material, for a sharp tool without
// rake, give or take [Scatter]. Wrought iron, cast steel and free-cutting steel
// go as mild steel (the last asks for less), gunmetal and the bronzes as the
// group of brasses; for plastics, zinc and nickel-copper alloys the table has no
// group. See the Example.
func KienzleFor(m material.Material) (Kienzle, error) {
	return valueFor(kienzleTable.Rows(), "cutting force", m)
}

// At returns the specific cutting force at a chip thickness:
//
//	kc = kc11 / h^m
//
//	h  chip thickness in mm, from 0.005 (below it tools rub) to 3
//	m  the exponent, from 0 to below 1
//
// See the Example of [KienzleFor].
func (k Kienzle) At(h units.Length) (units.Pressure, error) {
	if err := k.Validate(); err != nil {
		return 0, err
	}
	if h.Cmp(units.Micron(5)) < 0 || h.Cmp(units.MM(3)) > 0 {
		return 0, fail.OutOfRange("chip thickness", h, "0.005 to 3 mm")
	}
	return k.KC11 * units.Pressure(math.Pow(h.MM(), -k.Exponent)), nil // kc = kc11/h^m
}

// Validate returns an error for constants without a force.
func (k Kienzle) Validate() error {
	if err := fault.Positive(fail, "specific cutting force", k.KC11); err != nil {
		return err
	}
	if !(k.Exponent >= 0 && k.Exponent < 1) {
		return fail.OutOfRange("exponent of the cutting force", k.Exponent, "from 0, below 1")
	}
	return nil
}

func readKienzle(r *table.Row) row[Kienzle] {
	k := Kienzle{
		KC11: units.Pressure(r.Float("kc11")) * units.Megapascal, Exponent: r.Float("exponent"),
		Group: r.Text("group"), Material: printed(r), Refs: source.Of(r.Ref()),
	}
	if k.KC11 <= 0 || k.Exponent <= 0 || k.Exponent >= 1 {
		r.Complain("want a force above zero and an exponent between 0 and 1")
	}
	return readRow(r, k)
}

// A Force is a published specific cutting force at a feed.
type Force struct {
	Feed     units.Length
	Pressure units.Pressure
	Material string // as published, with its condition
	Refs     source.Refs
}

// ForcesFor returns the figures that are printed for a material in turning, by
// feed, in the order of the sources; they lie well above [KienzleFor] for steel.
// See the Example of KienzleFor.
func ForcesFor(m material.Material) ([]Force, error) {
	return valuesFor(feedTable.Rows(), "cutting force", m)
}

func readForce(r *table.Row) row[Force] {
	f := Force{
		Feed: table.As(r, "feed", units.Millimetres.Parse), Pressure: units.Pressure(r.Float("kc")) * units.Megapascal,
		Material: printed(r), Refs: source.Of(r.Ref()),
	}
	if f.Feed.Sign() <= 0 || f.Pressure <= 0 {
		r.Complain("want feed and force above zero")
	}
	return readRow(r, f)
}
