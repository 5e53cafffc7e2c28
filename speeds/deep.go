package speeds

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A DeepHole is what to take off speed and feed for the depth of a hole.
type DeepHole struct {
	Speed, Feed float64 // factors on the figures for a shallow hole
	Note        string
	Refs        source.Refs
}

// DeepHoleFor returns the factors for a hole of the given depth at its full diameter,
// by a drill maker's table: below three diameters 1; at 3, 4, 5 and 6 diameters 10, 20, 30
// and 35 % off the speed and 10, 10, 20 and 20 % off the feed. Between two
// lines of the table it takes the deeper one. Up to six diameters. See the
// Example.
func DeepHoleFor(depth, drill units.Length) (DeepHole, error) {
	if drill.Sign() <= 0 {
		return DeepHole{}, badDiameter(drill)
	}
	if depth.Sign() <= 0 {
		return DeepHole{}, fail.OutOfRange("depth", depth, "above zero")
	}
	ratio := depth.Ratio(drill)
	rows := deepTable.Rows()
	if ratio < rows[0].depth {
		return DeepHole{Speed: 1, Feed: 1, Refs: rows[0].factors.Refs}, nil
	}
	for _, row := range rows {
		if ratio <= row.depth {
			return row.factors, nil
		}
	}
	return DeepHole{}, fail.Wrong("depth", fmt.Sprintf("%.3g drill diameters", ratio),
		"deeper than the table goes; drill from both ends, or in stages with a stiffer drill first", "up to 6 diameters")
}

// deepest returns the factors of the last line of the table.
func deepest() DeepHole {
	rows := deepTable.Rows()
	return rows[len(rows)-1].factors
}

type deepRow struct {
	depth   float64 // in diameters
	factors DeepHole
}

func readDeep(r *table.Row) deepRow {
	return deepRow{r.Float("depth"), DeepHole{
		Speed: 1 - r.Float("speed_off")/100, Feed: 1 - r.Float("feed_off")/100,
		Note: r.Optional("note"), Refs: source.Of(r.Ref()),
	}}
}

// Pecks are the depths at which to bring a drill out and clear the flutes, the
// last one the full depth.
type Pecks struct {
	Depths []units.Length // of the hole at its full diameter, as a drawing has it
	Tips   []units.Length // of the tip of a usual 118 degree drill then, as a stop or a machine has it
	Refs   source.Refs
}

// PecksFor returns the pecks of a hole: first at two diameters (a tool maker's
// technical tips), then every diameter, and from six diameters on every half
// diameter (common practice: the deeper, the oftener). The tip is deeper than the
// full diameter by d / (2 * tan(59 deg)), 0.3 of the drill. Up to 40 diameters. See
// the Example of [DeepHoleFor].
func PecksFor(depth, drill units.Length) (Pecks, error) {
	if err := fail.Above(fault.Named("drill", drill), fault.Named("depth", depth)); err != nil {
		return Pecks{}, err
	}
	if depth.Ratio(drill) > 40 {
		return Pecks{}, fail.OutOfRange("depth", depth, "up to 40 drill diameters")
	}
	tips := source.Ref{Kind: source.Published, Title: "Tool maker's technical tips, drilling", Edition: "undated", Locator: "peck cycle"}
	p := Pecks{Refs: source.Of(tips, source.Practice())}
	for at := drill.Scale(2); at.Cmp(depth) < 0; {
		p.Depths = append(p.Depths, at)
		if at.Cmp(drill.Scale(6)) < 0 {
			at = at.Add(drill)
		} else {
			at = at.Add(drill.Scale(0.5))
		}
	}
	p.Depths = append(p.Depths, depth)
	point := drill.Scale(1 / (2 * math.Tan(59*math.Pi/180))) // of 118 degrees
	for _, at := range p.Depths {
		p.Tips = append(p.Tips, at.Add(point))
	}
	return p, nil
}
