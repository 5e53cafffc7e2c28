package speeds

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Feed is how far the tool advances for each turn of the spindle, or for each
// tooth of a milling cutter.
type Feed struct {
	Low, High units.Length
	PerTooth  bool   // for each tooth; else for each turn
	Stands    string // "as mild steel" when the figure is that of another material
	Note      string
	Ref       source.Ref
}

// Per returns "rev" or "tooth".
func (f Feed) Per() string {
	if f.PerTooth {
		return "tooth"
	}
	return "rev"
}

type feedRow struct {
	operations []Operation
	materials  []Material // nil: any
	sizeLow    units.Length
	sizeHigh   units.Length // zero: no upper end
	sized      bool
	chosen     bool
	feed       Feed
}

func readFeed(r *table.Row) feedRow {
	unit := lengthUnit(r, "unit")
	row := feedRow{
		operations: list(r, "operation", ParseOperation),
		materials:  list(r, "materials", ParseMaterial),
		chosen:     yes(r, "default"),
		feed:       Feed{Low: table.As(r, "low", unit.Parse), High: table.As(r, "high", unit.Parse), Note: r.Optional("note"), Ref: r.Ref()},
	}
	switch per := r.Text("per"); per {
	case "tooth":
		row.feed.PerTooth = true
	case "rev":
	default:
		r.Complain("per %q is neither rev nor tooth", per)
	}
	if r.Has("size_unit") {
		size := lengthUnit(r, "size_unit")
		row.sized = true
		row.sizeLow = table.As(r, "size_low", size.Parse)
		if r.Has("size_high") {
			row.sizeHigh = table.As(r, "size_high", size.Parse)
		}
	} else if r.Has("size_low") || r.Has("size_high") {
		r.Complain("a size without a unit")
	}
	if row.feed.Low.Sign() <= 0 || row.feed.High.Cmp(row.feed.Low) < 0 {
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

// Feeds returns the feed to start from: for drilling by the diameter of the
// drill, whatever the metal (a training manual's table, drills from 0.0135 in);
// for turning, boring and facing by material, the finishing feed of a
// university's sheet, which is what light lathes stand; for roughing its other
// figure; for milling per tooth of an end mill, in proportion to the diameter
// below 6 mm (common practice, as Note says). Screwcutting, tapping and dies
// feed by the pitch, and the other operations by feel: for them, and where no
// figure is held, it is an [*units.ArgumentError]. Small lathes take the lower
// end. [PublishedFeeds] has all that was read.
func Feeds(op Operation, material Material, diameter units.Length) (Feed, error) {
	if err := checkPairing(op, material, HSS); err != nil {
		return Feed{}, err
	}
	if diameter.Sign() <= 0 {
		return Feed{}, badDiameter(diameter)
	}
	switch op {
	case Screwcutting, Tapping, DieCutting:
		return Feed{}, bad("feed of "+op.String(), "", "the feed is the pitch of the thread", "drilling, turning, facing, boring, parting, milling", units.ErrUnknown)
	case Knurling, CentreDrilling, Countersinking, Reaming, Grooving:
		return Feed{}, bad("feed of "+op.String(), "", "it is fed by feel", "drilling, turning, facing, boring, parting, milling", units.ErrUnknown)
	case Facing, Boring:
		op = Turning
	}
	all := standIns()
	stands, seen := "", map[Material]bool{}
	for m := material; ; {
		for _, row := range feedTable.Rows() {
			if row.chosen && contains(row.operations, op) && contains(row.materials, m) && row.serves(diameter) {
				f := row.feed
				f.Stands = stands
				return f.forCutter(diameter), nil
			}
		}
		seen[m] = true
		next, ok := all[m]
		if !ok || seen[next.standIn] {
			break
		}
		m, stands = next.standIn, "as "+next.standIn.String()
	}
	if op == Drilling {
		return Feed{}, bad("drill", diameter.String(), "", "0.0135 in (0.34 mm) and larger", units.ErrOutOfRange)
	}
	if op == Turning { // on a small lathe the figure to start from is the finishing one
		if f, err := Feeds(FinishTurning, material, diameter); err == nil {
			return f, nil
		}
	}
	return Feed{}, bad("feed", fmt.Sprintf("%v in %v", op, material), "no figure is held", "another material or a stated feed", units.ErrUnknown)
}

// forCutter takes a feed per tooth down in proportion for cutters under 6 mm, for
// which the sources have no figure of their own.
func (f Feed) forCutter(diameter units.Length) Feed {
	if full := units.MM(6); f.PerTooth && diameter.Cmp(full) < 0 {
		f.Low, f.High = f.Low.Scale(diameter.Ratio(full)), f.High.Scale(diameter.Ratio(full))
		f.Note = join(f.Note, "taken down in proportion to the diameter below 6 mm, common practice")
	}
	return f
}

// PublishedFeeds returns every feed that was read for the operation, material
// and diameter. They disagree by a factor of two and more: those for milling
// were written for industrial machines. An operation or material that there is
// not, and a diameter that is not above zero, are an [*units.ArgumentError].
func PublishedFeeds(op Operation, material Material, diameter units.Length) ([]Feed, error) {
	if err := checkPairing(op, material, HSS); err != nil {
		return nil, err
	}
	if diameter.Sign() <= 0 {
		return nil, badDiameter(diameter)
	}
	var all []Feed
	for _, row := range feedTable.Rows() {
		if contains(row.operations, op) && contains(row.materials, material) && row.serves(diameter) {
			all = append(all, row.feed)
		}
	}
	return all, nil
}
