package keys

import (
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// A TaperPin goes across a hub and its shaft.
type TaperPin struct {
	Name         string       // "1.5 x 14" of ISO 2339, which counts at the small end; "#6/0 x 1/2 in" of ASME B18.8.2, at the large one
	Small, Large units.Length // diameters of its ends
	Length       units.Length
	Drill        gauge.Size // for the hole, the largest that leaves the reamer its taper from end to end
	PerLength    float64    // of the diameter: 1/50 or 1/48
	Refs         source.Refs
}

// PinsFor returns the taper pins for a shaft and the hub on it, the metric one first:
// that whose middle comes nearest to a quarter of the shaft and that is nowhere thicker
// than a third of it, in the longest length that does not stand out of the hub.
//
//	D = d + L / 50     metric
//	D = d + L / 48     inch
//
//	d, D  diameters of the small and of the large end
//	L     length
//
// Drill the hole through both at once, to the small end, and ream it until the pin,
// pushed in by hand, stands out by what the blow of a hammer takes. Shafts from 4 to 25
// mm, hubs over 1.2 times the shaft up to 80 mm. Sources: ISO 2339; ASME B18.8.2; the
// quarter is common practice. See the Example.
func PinsFor(shaft, hub units.Length) ([]TaperPin, error) {
	if err := fail.Above(fault.Named("shaft", shaft), fault.Named("hub", hub)); err != nil {
		return nil, err
	}
	switch {
	case shaft.Cmp(units.MM(4)) < 0 || shaft.Cmp(units.MM(25)) > 0:
		return nil, fail.OutOfRange("shaft", shaft, "4 to 25 mm")
	case hub.Cmp(shaft.Scale(1.2)) < 0 || hub.Cmp(units.MM(80)) > 0:
		return nil, fail.OutOfRange("hub", hub, "1.2 times its shaft, "+shaft.Scale(1.2).String()+", up to 80 mm")
	}
	var pins []TaperPin
	quarter := shaft.Scale(0.25)
	for _, system := range pinSystems {
		length, fits := system.longest(hub)
		if !fits {
			continue
		}
		var best TaperPin
		off := shaft
		for _, row := range pinTable.Rows() {
			if row.inch != system.inch {
				continue
			}
			pin := row.of(length)
			if pin.Large.Cmp(shaft.Scale(1.0/3)) > 0 {
				continue
			}
			if o := pin.Small.Add(pin.Large).Scale(0.5).Sub(quarter).Abs(); pin.Small.Sign() > 0 && o.Cmp(off) < 0 {
				best, off = pin, o
			}
		}
		if pin, err := system.drilled(best); err == nil {
			pins = append(pins, pin)
		}
	}
	if pins == nil {
		return nil, fail.Argument("hub", hub, "no taper pin of the standards is so short and so thin", "a thicker hub or shaft", units.ErrOutOfRange)
	}
	return pins, nil
}

// PinFor returns the taper pin of a name, such as "1.5" of ISO 2339 or "#6/0" of ASME
// B18.8.2, in a length from twice its thickness up to 100 mm; see [PinsFor].
func PinFor(name string, length units.Length) (TaperPin, error) {
	var known []string
	for _, row := range pinTable.Rows() {
		known = append(known, row.name)
		if strings.TrimSpace(name) != row.name {
			continue
		}
		if length.Cmp(row.size.Scale(2)) < 0 || length.Cmp(units.MM(100)) > 0 {
			return TaperPin{}, fail.OutOfRange("length of the pin", length, "twice its thickness, "+row.size.Scale(2).String()+", up to 100 mm")
		}
		return pinSystem{inch: row.inch}.drilled(row.of(length))
	}
	return TaperPin{}, fail.Unknown("taper pin", name, strings.Join(known, ", "))
}

// A pinSystem is the lengths that pins are sold in.
type pinSystem struct {
	inch bool
	step []float64
}

var pinSystems = []pinSystem{
	{false, []float64{6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80}},
	{true, []float64{0.375, 0.5, 0.625, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 2.75, 3}},
}

// longest returns the longest pin that stays inside a hub, and whether one does.
func (s pinSystem) longest(hub units.Length) (best units.Length, fits bool) {
	for _, v := range s.step {
		if l := s.length(v); l.Cmp(hub) <= 0 {
			best, fits = l, true
		}
	}
	return best, fits
}

func (s pinSystem) length(v float64) units.Length {
	if s.inch {
		return units.Inch(v)
	}
	return units.MM(v)
}

// drilled adds the drill for the hole.
func (s pinSystem) drilled(pin TaperPin) (TaperPin, error) {
	drill, err := s.drills().AtMost(pin.Small)
	pin.Drill = drill
	return pin, err
}

// drills are those of the system.
func (s pinSystem) drills() gauge.Set {
	if !s.inch {
		return gauge.Metric()
	}
	all, err := gauge.Number().With(gauge.Fraction(), gauge.Letter())
	if err != nil {
		return gauge.Number()
	}
	return all
}

type pinRow struct {
	name string
	inch bool
	size units.Length // at the small end, of an inch pin at the large one
	refs source.Refs
}

// of returns the pin in a length.
func (p pinRow) of(length units.Length) TaperPin {
	pin := TaperPin{Length: length, Refs: p.refs.With(source.Shared(&quarterRef, &shorterRef))}
	if p.inch {
		pin.PerLength = 1.0 / 48
		pin.Large, pin.Small = p.size, p.size.Sub(length.Scale(pin.PerLength)) // d = D - L/48
		fraction, err := length.NearestFraction(8)
		if err == nil {
			pin.Name = p.name + " x " + fraction.String()
		}
		return pin
	}
	pin.PerLength = 1.0 / 50
	pin.Small, pin.Large = p.size, p.size.Add(length.Scale(pin.PerLength)) // D = d + L/50
	pin.Name = p.name + " x " + length.Decimal(units.Millimetres, 0)
	return pin
}

var pinTable = table.Table[pinRow]{FS: &files, Name: "tables/taper_pins.csv", Row: readPin}

func readPin(r *table.Row) pinRow {
	unit := table.As(r, "unit", units.ParseLengthUnit)
	return pinRow{
		name: r.Text("name"), inch: unit == units.Inches,
		size: table.As(r, "diameter", unit.Parse), refs: source.Of(r.Ref()),
	}
}
