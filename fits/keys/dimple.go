package keys

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Dimple is what a grub screw with a cup point sits in, or on: a spot drilled in the
// shaft through the tapped hole, or a flat.
type Dimple struct {
	Screw string
	Point units.Length // diameter of the cup's rim
	Tip   units.Length // of the drill, below the round of the shaft, when its cone is as wide as the cup
	Flat  units.Length // depth of a flat as wide as the screw, so that the burr stays below the bore
	Refs  source.Refs
}

// DimpleFor returns the dimple for a metric socket set screw with a cup point.
//
//	tip  = R - sqrt(R^2 - c^2/4) + (c/2) / tan(59 degrees)
//	flat = R - sqrt(R^2 - d^2/4)
//
//	R  radius of the shaft
//	c  rim of the cup
//	d  the screw
//
// Drill it through the hub with the tapping drill of the screw, 118 degrees, before the
// thread is tapped, or spot it with a drill that just passes the thread. Screws M1.6 to
// M10, on shafts from twice the screw up to 100 mm. Source: ISO 4029; the rest is
// geometry. See the Example.
func DimpleFor(screw string, shaft units.Length) (Dimple, error) {
	if err := fail.Above(fault.Named("shaft", shaft)); err != nil {
		return Dimple{}, err
	}
	var known []string
	for _, row := range pointTable.Rows() {
		known = append(known, row.screw)
		if !strings.EqualFold(strings.TrimSpace(screw), row.screw) {
			continue
		}
		if shaft.Cmp(row.diameter.Scale(2)) < 0 || shaft.Cmp(units.MM(100)) > 0 {
			return Dimple{}, fail.OutOfRange("shaft", shaft, "twice the screw, "+row.diameter.Scale(2).String()+", up to 100 mm")
		}
		d := Dimple{Screw: row.screw, Point: row.point, Refs: row.refs.With(source.Shared(&geometryRef))}
		d.Tip = round(shaft, row.point).Add(row.point.Scale(0.5 / math.Tan(59*math.Pi/180)))
		d.Flat = round(shaft, row.diameter)
		return d, nil
	}
	return Dimple{}, fail.Unknown("screw", screw, strings.Join(known, ", "))
}

// round is the height of a round over a chord.
func round(diameter, chord units.Length) units.Length {
	r, half := diameter.MM()/2, chord.MM()/2
	return units.MM(r - math.Sqrt(r*r-half*half))
}

type pointRow struct {
	screw           string
	diameter, point units.Length
	refs            source.Refs
}

var pointTable = table.Table[pointRow]{FS: &files, Name: "tables/cup_points.csv", Row: readPoint}

func readPoint(r *table.Row) pointRow {
	p := pointRow{screw: r.Text("screw"), diameter: table.As(r, "diameter", units.Millimetres.Parse),
		point: table.As(r, "point", units.Millimetres.Parse), refs: source.Of(r.Ref())}
	if p.point.Sign() <= 0 || p.point.Cmp(p.diameter) >= 0 {
		r.Complain("a point of %v on a screw of %v", p.point, p.diameter)
	}
	return p
}
