package hole

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Reaming is the hole to drill before a reamer, by one rule.
type Reaming struct {
	Rule       string       // who reams so: "trade-training"
	Min, Max   units.Length // drill sizes; smaller leaves too much, larger too little
	NeverBelow units.Length // another text's end: no reamer takes more; some rules for large reamers do ask it
	Note       string
	Refs       source.Refs
}

// Contains reports whether the drill is inside the rule.
func (h Reaming) Contains(drill units.Length) bool {
	return drill.Cmp(h.Min) >= 0 && drill.Cmp(h.Max) <= 0
}

// ReamingFor returns the drills that suit a reamer by every rule that was read,
// the default first:
//
//	drill = reamer - stock - oversize of the drill
//
// The default, a trade-training note, leaves 0.1 to 0.2 mm up to 5 mm, 0.2 to
// 0.3 mm up to 20 mm, 0.3 to 0.5 up to 50 mm, takes 0.05 mm off for the drill
// that cuts oversize, and leaves half as much again in aluminium. Too little
// stock rubs, too much cuts oversize; drill a trial hole. NeverBelow follows the
// text of 1914 that a reamer never takes more than 1/32 in, which the default goes
// past above 50 mm, and in aluminium by a hair above 20 mm: take the larger drill
// there. Reamers from 1 mm to 100 mm, metals and plastics. See the Example.
func ReamingFor(reamer units.Length, m material.Material) ([]Reaming, error) {
	if reamer.Cmp(units.MM(1)) < 0 || reamer.Cmp(units.MM(100)) > 0 {
		return nil, fail.OutOfRange("reamer", reamer, "1 mm to 100 mm")
	}
	known, err := reamed(m)
	if err != nil {
		return nil, err
	}
	light := known.Family == material.Aluminium
	least := reamer.Sub(units.InchFraction(1, 32)) // section 313 of the text that limit cites
	var all []Reaming
	rows := reamingTable.Rows()
	for i, row := range rows {
		first := i == 0 || rows[i-1].rule != row.rule // of its rule, which has its lower end too
		if low := reamer.Cmp(row.sizeLow); low < 0 || low == 0 && !first || reamer.Cmp(row.sizeHigh) > 0 {
			continue
		}
		low, high := row.stockLow, row.stockHigh
		if light && row.chosen {
			low, high = low.Scale(1.5), high.Scale(1.5)
		}
		all = append(all, Reaming{
			Rule:       row.rule,
			Min:        reamer.Sub(high).Sub(row.oversize),
			Max:        reamer.Sub(low).Sub(row.oversize),
			NeverBelow: least,
			Note:       row.note,
			Refs:       row.refs.With(source.Shared(&limit)),
		})
	}
	return all, nil
}

var limit = source.Ref{
	Kind: source.Published, Title: "Applied Science for Metal Workers", Edition: "1914", Locator: "section 313",
	Note: "a reamer never takes more than 1/32 in",
}

// reamed returns the material as package material knows it, or an error for one
// that no reamer goes through.
func reamed(m material.Material) (material.Material, error) {
	const accepted = "metals and plastics, such as mild steel or gunmetal"
	known, err := material.Lookup(m.Name)
	switch {
	case m.Name == "":
		return material.Material{}, fail.Missing("material", accepted)
	case err != nil:
		return material.Material{}, fail.Unknown("material", m, accepted)
	case known.Family == material.Rubber || known.Family == material.Sheet:
		return material.Material{}, fail.Wrong("material", m, "it is not reamed", accepted)
	}
	return known, nil
}

type reamingRow struct {
	rule                          string
	sizeLow, sizeHigh             units.Length
	stockLow, stockHigh, oversize units.Length
	chosen                        bool
	note                          string
	refs                          source.Refs
}

func readReaming(r *table.Row) reamingRow {
	size, unit := table.As(r, "size_unit", units.ParseLengthUnit), table.As(r, "unit", units.ParseLengthUnit)
	row := reamingRow{
		rule: r.Text("rule"), sizeLow: table.As(r, "size_low", size.Parse), sizeHigh: table.As(r, "size_high", size.Parse),
		stockLow: table.As(r, "low", unit.Parse), stockHigh: table.As(r, "high", unit.Parse),
		oversize: table.As(r, "drill_oversize", unit.Parse), note: r.Optional("note"), refs: source.Of(r.Ref()),
	}
	switch chosen := r.Optional("default"); chosen {
	case "yes":
		row.chosen = true
	case "":
	default:
		r.Complain("column %q: %q is neither yes nor blank", "default", chosen)
	}
	if row.sizeLow.Cmp(row.sizeHigh) >= 0 || row.stockLow.Sign() <= 0 || row.stockHigh.Cmp(row.stockLow) < 0 {
		r.Complain("want sizes and stock in order")
	}
	return row
}
