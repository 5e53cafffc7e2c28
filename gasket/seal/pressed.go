package seal

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Pressed is by which share of its thickness a new sheet gives under a test load.
type Pressed struct {
	Material string         // a name of package material
	Printed  string         // what the source calls it
	Min, Max float64        // share of the thickness
	Under    units.Pressure // on the sheet, in the test
	Refs     source.Refs
}

var pressed = keyed[Pressed]{
	table: table.Table[printed[Pressed]]{FS: &files, Name: "tables/pressed.csv", Row: readPressed},
	name:  func(p *Pressed) *string { return &p.Material },
}

func readPressed(r *table.Row) printed[Pressed] {
	p := Pressed{
		Printed: r.Text("printed"), Min: r.Float("min") / 100, Max: r.Float("max") / 100,
		Under: units.Pressure(r.Float("under")) * units.Megapascal, Refs: source.Of(r.Ref()).And(pressedTest),
	}
	if p.Min < 0 || p.Max <= p.Min || p.Max >= 1 || p.Under <= 0 {
		r.Complain("gives from %v to %v under %v", p.Min, p.Max, p.Under)
	}
	return printed[Pressed]{readKeys(r), p}
}

var pressedTest = source.Ref{
	Kind: source.Published, Title: "ASTM F36, Compressibility and recovery of gasket materials", Edition: "1999, reapproved 2003",
	Locator: "table 1", Note: "the load of the test, short and cold",
}

// PressedFor returns how far sheets of a material give; none is an error that lists the
// materials with a figure. See the Example.
func PressedFor(m material.Material) ([]Pressed, error) { return pressed.of(m) }

// Thickness returns between what a sheet lies when it is tightened for the first time:
//
//	least = t * (1 - most)     most  the greatest share it gives in the test
//	most  = t                  t     the sheet as it is bought
//
// The stress is that of the studs on the gasket, above zero and no more than that of the
// test, beyond which no figure tells; how far it gives below that load is in no source,
// so that the range has both ends. Heat and time press it on, which no test has. The
// sheet is above zero up to 10 mm.
func (p Pressed) Thickness(sheet units.Length, stress units.Pressure) (least, most units.Length, err error) {
	switch {
	case sheet.Sign() <= 0 || sheet.Cmp(units.MM(10)) > 0:
		return least, most, fail.OutOfRange("sheet", sheet, "above zero, up to 10 mm")
	case !(stress > 0 && stress <= p.Under):
		return least, most, fail.OutOfRange("stress on the gasket", stress, "above zero, up to that of the test, "+p.Under.String())
	}
	return sheet.Scale(1 - p.Max), sheet, nil
}
