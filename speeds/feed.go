package speeds

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Feed is how far the tool advances for each turn of the spindle, or for each
// tooth of a milling cutter.
type Feed struct {
	Min, Max units.Length
	PerTooth bool   // for each tooth; else for each turn
	Stands   string // "as mild steel" when the figure is that of another material
	Note     string
	Refs     source.Refs
}

// Per returns "rev" or "tooth".
func (f Feed) Per() string {
	if f.PerTooth {
		return "tooth"
	}
	return "rev"
}

// FeedFor returns the feed to start from: for drilling by the diameter of the
// drill, whatever the metal (a training manual's table, drills from 0.0135 in);
// for turning, boring and facing by material, the finishing feed of a
// university's sheet, which is what light lathes stand; for roughing its other
// figure; for milling per tooth of an end mill, in proportion to the diameter
// below 6 mm (common practice, as Note says). A fly cutter has one tool and takes the
// finishing feed of turning for each turn. A slot drill has a cutter maker's feeds by
// material and size, between two sizes in proportion, and a face mill a university's;
// both begin at half of them on a light machine (common practice). Small lathes take
// the lower end.
// Screwcutting, tapping and dies feed by the pitch, and the other operations by
// feel: for them, and where we have no figure, it is an error. [PublishedFeedsFor]
// has all that was read. See the Example.
func FeedFor(op Operation, m material.Material, diameter units.Length) (Feed, error) {
	if err := checkPairing(op, m, HSS); err != nil {
		return Feed{}, err
	}
	if diameter.Sign() <= 0 {
		return Feed{}, badDiameter(diameter)
	}
	const fed = "drilling, turning, facing, boring, parting, milling of every sort"
	asked := op
	switch op {
	case Screwcutting, Tapping, DieCutting:
		return Feed{}, fail.Argument("feed of "+op.String(), "", "by the pitch of the thread", fed, units.ErrUnknown)
	case Knurling, CentreDrilling, Countersinking, Reaming, Grooving:
		return Feed{}, fail.Argument("feed of "+op.String(), "", "by feel", fed, units.ErrUnknown)
	case Facing, Boring:
		op = Turning
	case FlyCutting:
		if f, ok := feedOf(FinishTurning, m.Name, diameter); ok {
			f.Note = join(f.Note, "one tool: the finishing feed of turning, for each turn", "; ")
			f.Refs = f.Refs.And(source.Practice())
			return f, nil
		}
	case SlotMilling:
		if f, ok := slotFeed(m.Name, diameter); ok {
			return f.light(), nil
		}
	}
	if f, ok := feedOf(op, m.Name, diameter); ok {
		if op == FaceMilling {
			f = f.light()
		}
		return f, nil
	}
	if op == Drilling {
		return Feed{}, fail.OutOfRange("drill", diameter, "0.0135 in (0.34 mm) and larger")
	}
	if op == Turning { // on a small lathe the figure to start from is the finishing one
		if f, ok := feedOf(FinishTurning, m.Name, diameter); ok {
			return f, nil
		}
	}
	return Feed{}, fail.Argument("feed of "+asked.String(), "in "+m.Name, "we have no figure", "another material or a stated feed", units.ErrUnknown)
}

// feedOf looks for a feed in the material, then in the one that stands in for it.
func feedOf(op Operation, name string, diameter units.Length) (Feed, bool) {
	stands, refs, seen := "", source.Refs{}, map[string]bool{}
	for {
		for _, row := range feedTable.Rows() {
			if row.chosen && contains(row.operations, op) && contains(row.materials, name) && row.serves(diameter) {
				f := row.feed
				f.Stands = stands
				f.Refs = f.Refs.With(refs)
				return f.forCutter(diameter), true
			}
		}
		seen[name] = true
		next := standIns()[name]
		if next == nil || seen[next.standIn] {
			return Feed{}, false
		}
		name, stands, refs = next.standIn, "as "+next.standIn, next.refs
	}
}

// light halves the lower end, from where a light machine begins.
func (f Feed) light() Feed {
	f.Min = f.Min.Scale(0.5)
	f.Note = join(f.Note, "half of it to begin with on a light machine, common practice", "; ")
	f.Refs = f.Refs.And(source.Practice())
	return f
}

// slotFeed looks for the feeds of slot drills in the material, then in the one that
// stands in for it: the figure of a size, between two sizes in proportion, below the
// smallest in proportion to the diameter, above the largest that of the largest.
func slotFeed(name string, diameter units.Length) (Feed, bool) {
	stands, refs, seen := "", source.Refs{}, map[string]bool{}
	for {
		var below, above *feedRow
		rows := feedTable.Rows()
		for i := range rows {
			row := &rows[i]
			switch {
			case !row.chosen || !contains(row.operations, SlotMilling) || !contains(row.materials, name):
			case row.sizeLow.Cmp(diameter) <= 0:
				if below == nil || row.sizeLow.Cmp(below.sizeLow) > 0 {
					below = row
				}
			case above == nil || row.sizeLow.Cmp(above.sizeLow) < 0:
				above = row
			}
		}
		if below != nil || above != nil {
			f := betweenSizes(below, above, diameter)
			f.Stands = stands
			f.Refs = f.Refs.With(refs)
			return f, true
		}
		seen[name] = true
		next := standIns()[name]
		if next == nil || seen[next.standIn] {
			return Feed{}, false
		}
		name, stands, refs = next.standIn, "as "+next.standIn, next.refs
	}
}

// betweenSizes is the feed at a diameter between two rows, of which one may be none.
func betweenSizes(below, above *feedRow, diameter units.Length) Feed {
	switch {
	case above == nil:
		return below.feed
	case below == nil:
		f, share := above.feed, diameter.Ratio(above.sizeLow)
		f.Min, f.Max = f.Min.Scale(share), f.Max.Scale(share)
		f.Note = join(f.Note, "in proportion to the diameter below the smallest printed, "+both(above.sizeLow), "; ")
		f.Refs = f.Refs.And(source.Practice())
		return f
	}
	f := below.feed
	share := diameter.Sub(below.sizeLow).Ratio(above.sizeLow.Sub(below.sizeLow))
	f.Min = f.Min.Add(above.feed.Min.Sub(f.Min).Scale(share))
	f.Max = f.Max.Add(above.feed.Max.Sub(f.Max).Scale(share))
	return f
}

// forCutter takes a feed per tooth down in proportion for cutters under 6 mm, for
// which the sources have no figure of their own.
func (f Feed) forCutter(diameter units.Length) Feed {
	if full := units.MM(6); f.PerTooth && diameter.Cmp(full) < 0 {
		f.Min, f.Max = f.Min.Scale(diameter.Ratio(full)), f.Max.Scale(diameter.Ratio(full))
		f.Note = join(f.Note, "taken down in proportion to the diameter below 6 mm, common practice", "; ")
		f.Refs = f.Refs.And(source.Practice())
	}
	return f
}

// PublishedFeedsFor returns every feed that was read for the operation, material
// and diameter; there may be none. They disagree by a factor of two and more:
// those for milling were written for industrial machines. See the Example of
// [FeedFor].
func PublishedFeedsFor(op Operation, m material.Material, diameter units.Length) ([]Feed, error) {
	if err := checkPairing(op, m, HSS); err != nil {
		return nil, err
	}
	if diameter.Sign() <= 0 {
		return nil, badDiameter(diameter)
	}
	var all []Feed
	for _, row := range feedTable.Rows() {
		if contains(row.operations, op) && contains(row.materials, m.Name) && row.serves(diameter) {
			all = append(all, row.feed)
		}
	}
	return all, nil
}

type feedRow struct {
	operations []Operation
	materials  []string // names in package material; nil: any
	sizeLow    units.Length
	sizeHigh   units.Length // zero: no upper end
	sized      bool
	chosen     bool
	feed       Feed
}

func readFeed(r *table.Row) feedRow {
	unit := table.As(r, "unit", units.ParseLengthUnit)
	row := feedRow{
		operations: list(r, "operation", ParseOperation),
		materials:  list(r, "materials", readMaterial),
		chosen:     yes(r, "default"),
		feed: Feed{
			Min: table.As(r, "low", unit.Parse), Max: table.As(r, "high", unit.Parse),
			Note: r.Optional("note"), Refs: source.Of(r.Ref()),
		},
	}
	switch per := r.Text("per"); per {
	case "tooth":
		row.feed.PerTooth = true
	case "rev":
	default:
		r.Complain("per %q is neither rev nor tooth", per)
	}
	if r.Has("size_unit") {
		size := table.As(r, "size_unit", units.ParseLengthUnit)
		row.sized = true
		row.sizeLow = table.As(r, "size_low", size.Parse)
		if r.Has("size_high") {
			row.sizeHigh = table.As(r, "size_high", size.Parse)
		}
	} else if r.Has("size_low") || r.Has("size_high") {
		r.Complain("a size without a unit")
	}
	if row.feed.Min.Sign() <= 0 || row.feed.Max.Cmp(row.feed.Min) < 0 {
		r.Complain("want low and high above zero and in order")
	}
	return row
}

// serves reports whether the row is for that size; a diameter of exactly the
// upper end of a band belongs to the next one.
func (row feedRow) serves(d units.Length) bool {
	switch {
	case !row.sized:
		return true
	case row.sizeLow == row.sizeHigh:
		return d == row.sizeLow
	}
	return d.Cmp(row.sizeLow) >= 0 && (row.sizeHigh.IsZero() || d.Cmp(row.sizeHigh) < 0)
}
