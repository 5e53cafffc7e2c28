package speeds

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// A ReamingHole is the hole to drill before a reamer, by one rule.
type ReamingHole struct {
	Rule      string       // who reams so: "trade-training"
	Low, High units.Length // drill sizes; smaller leaves too much, larger too little
	Least     units.Length // another text's end: no reamer takes out more than this leaves; some rules for large reamers do ask it
	Note      string
	Ref       source.Ref
}

// Contains reports whether the drill is inside the rule.
func (h ReamingHole) Contains(drill units.Length) bool {
	return drill.Cmp(h.Low) >= 0 && drill.Cmp(h.High) <= 0
}

// Drills returns the drills of a set that are inside the rule, from the smallest;
// there may be none. An empty set is an [*units.ArgumentError].
func (h ReamingHole) Drills(set gauge.Set) ([]gauge.Size, error) {
	if set.Len() == 0 {
		return nil, bad("drills", "", "the set is empty", `a set such as "1-13x0.1 mm"`, units.ErrMissing)
	}
	return set.Between(h.Low, h.High)
}

type reamingRow struct {
	rule                        string
	sizeLow, sizeHigh           units.Length
	stockLow, stockHigh, oversz units.Length
	chosen                      bool
	note                        string
	ref                         source.Ref
}

func readReaming(r *table.Row) reamingRow {
	size, unit := lengthUnit(r, "size_unit"), lengthUnit(r, "unit")
	row := reamingRow{
		rule: r.Text("rule"), sizeLow: table.As(r, "size_low", size.Parse), sizeHigh: table.As(r, "size_high", size.Parse),
		stockLow: table.As(r, "low", unit.Parse), stockHigh: table.As(r, "high", unit.Parse), oversz: table.As(r, "drill_oversize", unit.Parse),
		chosen: yes(r, "default"), note: r.Optional("note"), ref: r.Ref(),
	}
	if row.sizeLow.Cmp(row.sizeHigh) >= 0 || row.stockLow.Sign() <= 0 || row.stockHigh.Cmp(row.stockLow) < 0 {
		r.Complain("want sizes and stock in order")
	}
	return row
}

// ReamingHoles returns the drills that suit a reamer by every rule that was
// read, the default first:
//
//	drill = reamer - stock - oversize of the drill
//
// The default, a trade-training note, leaves 0.1 to 0.2 mm up to 5 mm, 0.2 to
// 0.3 mm up to 20 mm, 0.3 to 0.5 up to 50 mm, takes 0.05 mm off for the drill
// that cuts oversize, and leaves half as much again in aluminium. Too little
// stock rubs, too much cuts oversize; drill a trial hole. Least follows the text
// of 1914 that a reamer never takes more than 1/32 in, which the default goes
// past above 50 mm, and in aluminium by a hair above 20 mm: take the larger drill
// there. Reamers outside 1 mm to 100 mm are an [*units.ArgumentError].
func ReamingHoles(reamer units.Length, material Material) ([]ReamingHole, error) {
	if reamer.Cmp(units.MM(1)) < 0 || reamer.Cmp(units.MM(100)) > 0 {
		return nil, bad("reamer", reamer.String(), "", "1 mm to 100 mm", units.ErrOutOfRange)
	}
	if err := checkPairing(Reaming, material, HSS); err != nil {
		return nil, err
	}
	light := material == Aluminium || material == CastAluminium
	var all []ReamingHole
	for _, row := range reamingTable.Rows() {
		if reamer.Cmp(row.sizeLow) <= 0 || reamer.Cmp(row.sizeHigh) > 0 {
			continue
		}
		low, high := row.stockLow, row.stockHigh
		if light && row.chosen {
			low, high = low.Scale(1.5), high.Scale(1.5)
		}
		all = append(all, ReamingHole{
			Rule:  row.rule,
			Low:   reamer.Sub(high).Sub(row.oversz),
			High:  reamer.Sub(low).Sub(row.oversz),
			Least: reamer.Sub(units.InchFraction(1, 32)), // Applied Science for Metal Workers, 1914, section 313
			Note:  row.note,
			Ref:   row.ref,
		})
	}
	return all, nil
}

type holeRow struct {
	sizeLow, sizeHigh, plus, minus units.Length
	ref                            source.Ref
}

func readHole(r *table.Row) holeRow {
	return holeRow{table.As(r, "size_low", units.Inches.Parse), table.As(r, "size_high", units.Inches.Parse), table.As(r, "plus", units.Inches.Parse), table.As(r, "minus", units.Inches.Parse), r.Ref()}
}

// A DrilledHole is the size that a hole comes out at.
type DrilledHole struct {
	Min, Max units.Length
	Ref      source.Ref
}

// DrilledHoleSize returns the limits that a drilled hole of general machine
// work keeps to, with a jig, by design standard AND10387: from 0.001 in below
// the drill to 0.004 in above it at 1/8 in, 0.006 in above at 1/2 in. A drill
// ground unevenly or that runs out does worse. Drills outside 0.0135 in to 2 in
// are an [*units.ArgumentError].
func DrilledHoleSize(drill units.Length) (DrilledHole, error) {
	rows := holeTable.Rows()
	for i, row := range rows {
		if (drill.Cmp(row.sizeLow) > 0 || i == 0 && drill == row.sizeLow) && drill.Cmp(row.sizeHigh) <= 0 {
			return DrilledHole{drill.Sub(row.minus), drill.Add(row.plus), row.ref}, nil
		}
	}
	return DrilledHole{}, bad("drill", drill.String(), "", "0.0135 in (0.3429 mm) to 2 in (50.8 mm)", units.ErrOutOfRange)
}

// A DrillPoint is how to grind a drill for a material.
type DrillPoint struct {
	Material                    string      // as the source calls it
	Point                       units.Angle // included
	ClearanceLow, ClearanceHigh units.Angle // behind the lip
	Helix                       string      // slow, standard or quick
	Ref                         source.Ref
}

func readPoint(r *table.Row) DrillPoint {
	return DrillPoint{
		Material: r.Text("material"), Point: units.Angle(r.Float("point")) * units.Degree,
		ClearanceLow: units.Angle(r.Float("clearance_low")) * units.Degree, ClearanceHigh: units.Angle(r.Float("clearance_high")) * units.Degree,
		Helix: r.Text("helix"), Ref: r.Ref(),
	}
}

// DrillPointFor returns the point angle, lip clearance and helix that a
// handbook gives for the material, for plastics those of phenolic plastic; most
// materials are drilled with the usual 118 degree point and stand in no table,
// which is an [*units.ArgumentError].
func DrillPointFor(m Material) (DrillPoint, error) {
	name := m.String()
	switch m {
	case CastAluminium:
		name = Aluminium.String()
	case Plastics:
		name = "phenolic plastic"
	}
	for _, p := range pointTable.Rows() {
		if p.Material == name {
			return p, nil
		}
	}
	return DrillPoint{}, bad("drill point", m.String(), "no special point is held: grind the usual 118 degrees", "aluminium, brass, copper, plastics", units.ErrUnknown)
}

// A DeepHole is what to take off speed and feed for the depth of a hole.
type DeepHole struct {
	Speed, Feed float64 // factors on the figures for a shallow hole
	Note        string
	Ref         source.Ref
}

type deepRow struct {
	depth, speedOff, feedOff float64
	note                     string
	ref                      source.Ref
}

func readDeep(r *table.Row) deepRow {
	return deepRow{r.Float("depth"), r.Float("speed_off"), r.Float("feed_off"), r.Optional("note"), r.Ref()}
}

// DeepHoleFactors returns the factors for a hole of the given depth, by a drill
// maker's table: below three diameters 1; at 3, 4, 5 and 6 diameters 10, 20, 30
// and 35 % off the speed and 10, 10, 20 and 20 % off the feed. Between two
// lines of the table it takes the deeper one. Deeper than six diameters, and
// sizes that are not above zero, are an [*units.ArgumentError].
func DeepHoleFactors(depth, drill units.Length) (DeepHole, error) {
	if drill.Sign() <= 0 {
		return DeepHole{}, badDiameter(drill)
	}
	if depth.Sign() <= 0 {
		return DeepHole{}, bad("depth", depth.String(), "", "above zero", units.ErrOutOfRange)
	}
	ratio := depth.Ratio(drill)
	rows := deepTable.Rows()
	if ratio < rows[0].depth {
		return DeepHole{Speed: 1, Feed: 1, Ref: rows[0].ref}, nil
	}
	for _, row := range rows {
		if ratio <= row.depth {
			return row.factors(), nil
		}
	}
	return DeepHole{}, bad("depth", fmt.Sprintf("%.3g drill diameters", ratio), "deeper than the table goes; drill from both ends, or in stages with a stiffer drill first", "up to 6 diameters", units.ErrOutOfRange)
}

// deepest returns the factors of the last line of the table.
func deepest() DeepHole {
	rows := deepTable.Rows()
	return rows[len(rows)-1].factors()
}

func (row deepRow) factors() DeepHole {
	return DeepHole{1 - row.speedOff/100, 1 - row.feedOff/100, row.note, row.ref}
}

// Pecks returns the depths at which to bring the drill out and clear the
// flutes, the last one the full depth: first at two diameters (a tool maker's
// technical tips), then every diameter, and from six diameters on every half
// diameter (common practice: the deeper, the oftener). Depths beyond 40
// diameters, and sizes that are not above zero, are an [*units.ArgumentError].
func Pecks(depth, drill units.Length) ([]units.Length, error) {
	if err := arg.Above("speeds", arg.Named("drill", drill), arg.Named("depth", depth)); err != nil {
		return nil, err
	}
	if depth.Ratio(drill) > 40 {
		return nil, bad("depth", depth.String(), "", "up to 40 drill diameters", units.ErrOutOfRange)
	}
	var all []units.Length
	for at := drill.Scale(2); at.Cmp(depth) < 0; {
		all = append(all, at)
		if at.Cmp(drill.Scale(6)) < 0 {
			at = at.Add(drill)
		} else {
			at = at.Add(drill.Scale(0.5))
		}
	}
	return append(all, depth), nil
}
