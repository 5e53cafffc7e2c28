package keys

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Key is a parallel key with its two seats, for one shaft.
type Key struct {
	Standard      string       // "DIN 6885-1", "ASME B17.1"
	Over, To      units.Length // shafts that it is for, over the one and up to the other
	Width, Height units.Length

	// ShaftDepth and HubDepth are as the standard has them: from the round of shaft and
	// bore in the metric one, at the side of the key in the inch one.
	ShaftDepth, HubDepth units.Length

	// ShaftOver is measured from the bottom of the seat to the far side of the shaft, and
	// HubOver from the bottom of the hub's to the far side of its bore.
	ShaftOver, HubOver units.Length

	Refs source.Refs
}

// For returns the key that each standard has for a shaft, the metric one first.
//
//	metric   shaft over = d - t1,             hub over = d + t2
//	inch     shaft over = d - y - H/2,        hub over = d - y + H/2 + 0.005 in
//	         y = (d - sqrt(d^2 - W^2)) / 2
//
//	d       shaft
//	t1, t2  depth in shaft and hub
//	W, H    width and height of the key
//	y       height of the round over a chord as wide as the key
//
// Shafts over 6 up to 22 mm, or over 5/16 up to 7/8 in, of which the standard says
// nothing below: there a taper pin or a grub screw does. Sources: DIN 6885-1, which is
// ISO 773; ASME B17.1, whose 0.005 in is room over the key. See the Example.
func For(shaft units.Length) ([]Key, error) {
	if err := fail.Above(fault.Named("shaft", shaft)); err != nil {
		return nil, err
	}
	var found []Key
	for _, k := range keyTable.Rows() {
		if shaft.Cmp(k.Over) > 0 && shaft.Cmp(k.To) <= 0 {
			found = append(found, k.on(shaft))
		}
	}
	if found == nil {
		return nil, fail.OutOfRange("shaft", shaft, "over 6 up to 22 mm, or over 5/16 up to 7/8 in, for which the standards have keys")
	}
	return found, nil
}

// inchRoom is the room over the key that ASME B17.1 leaves in the hub of a parallel key.
func inchRoom() units.Length { return units.Inch(0.005) }

// on works out what is measured over the seats on a shaft.
func (k keyRow) on(shaft units.Length) Key {
	key := k.Key
	if !k.atSide { // DIN 6885-1
		key.ShaftOver, key.HubOver = shaft.Sub(key.ShaftDepth), shaft.Add(key.HubDepth)
		return key
	}
	d, w := shaft.MM(), key.Width.MM()
	y := units.MM((d - math.Sqrt(d*d-w*w)) / 2)
	key.ShaftOver = shaft.Sub(y).Sub(key.ShaftDepth)             // S = D - y - H/2
	key.HubOver = shaft.Sub(y).Add(key.HubDepth).Add(inchRoom()) // T = D - y + H/2 + 0.005
	key.Refs = key.Refs.With(source.Shared(&geometryRef))
	return key
}

type keyRow struct {
	Key
	atSide bool // depths are at the side of the key
}

var keyTable = table.Table[keyRow]{FS: &files, Name: "tables/keys.csv", Row: readKey}

func readKey(r *table.Row) keyRow {
	unit := table.As(r, "unit", units.ParseLengthUnit)
	k := keyRow{Key: Key{
		Standard: r.Text("standard"), Over: table.As(r, "over", unit.Parse), To: table.As(r, "to", unit.Parse),
		Width: table.As(r, "width", unit.Parse), Height: table.As(r, "height", unit.Parse),
		ShaftDepth: table.As(r, "shaft_depth", unit.Parse), HubDepth: table.As(r, "hub_depth", unit.Parse),
		Refs: source.Of(r.Ref()),
	}, atSide: unit == units.Inches}
	if k.Over.Cmp(k.To) >= 0 || k.Width.Sign() <= 0 || k.Width.Cmp(k.Over) >= 0 ||
		k.ShaftDepth.Sign() <= 0 || k.HubDepth.Sign() <= 0 {
		r.Complain("want shafts in order and a key that is smaller than they are")
	}
	return k
}
