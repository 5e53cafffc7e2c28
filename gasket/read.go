package gasket

import (
	"io"

	"github.com/valvechest/valvechest/units"
)

// ReadPattern reads a list of holes: comma-separated values, lines that start
// with # apart. The first line names the columns, x and y and, where wanted,
// hole (a name) and diameter, in capitals or not; a column of lengths may name its
// unit, and its cells are then plain numbers:
//
//	hole, x mm, y mm, diameter mm        hole, x, y
//	1, -24, -16, 3.4                     1, 15/16 in, 0.25 in
//
// Cells of a column without a unit carry their own. A blank diameter is not
// known; a blank name becomes the number of the row. Names are given once each and
// have at most 40 printable characters; there are up to 100,000 holes in 16 MB.
// A list that is not like this is a [*units.ParseError] that names the line. See
// the example.
func ReadPattern(r io.Reader) (Pattern, error) {
	var p Pattern
	seen := map[string]int{}
	err := readRows(r, []string{"x", "y"}, []string{"hole", "diameter"}, func(row *listRow) error {
		h := Hole{At: Point{row.length("x"), row.length("y")}}
		if row.text("diameter") != "" {
			if h.Diameter = row.length("diameter"); row.err == nil && h.Diameter.Sign() <= 0 {
				return row.complain("diameter", "not above zero", "a diameter above zero, or nothing")
			}
		}
		h.Name = row.name(len(p)+1, seen)
		p = append(p, h)
		return row.err
	})
	if err == nil && len(p) == 0 {
		err = fail.Text("list of holes", "", "names columns and has no line under them", "at least one hole", units.ErrMissing)
	}
	if err != nil {
		return nil, err
	}
	return p, nil
}

// ReadOutline reads the corners of an outline in the form of [ReadPattern], one
// corner or hole a line in order. The column part says what the line belongs to:
// outside, an opening by any other name, or hole. A corner may have a bulge, the
// tangent of a quarter of the angle of the arc to the next corner, positive
// anticlockwise; a hole has a diameter and may have a name in the column hole:
//
//	part, x mm, y mm, bulge, diameter mm
//	outside, 0, 0, , ,
//	outside, 60, 0, 1,
//	hole, 6, 20, , 3.4
//
// The outline need not be one that can be cut out; see [Outline.Validate]. Errors
// are those of ReadPattern. See the example.
func ReadOutline(name string, r io.Reader) (Outline, error) {
	o := Outline{Name: name}
	openings, seen := map[string]int{}, map[string]int{}
	last := ""
	err := readRows(r, []string{"part", "x", "y"}, []string{"bulge", "diameter", "hole"}, func(row *listRow) error {
		part := row.text("part")
		at := Point{row.length("x"), row.length("y")}
		if part == "hole" {
			if row.text("bulge") != "" {
				return row.complain("bulge", "a hole has none", "nothing")
			}
			name := row.name(len(o.Holes)+1, seen)
			o.Holes = append(o.Holes, Hole{Name: name, At: at, Diameter: row.length("diameter")})
			last = part
			return row.err
		}
		if part == "" {
			return row.complain("part", "blank", partNames)
		}
		if row.text("diameter") != "" {
			return row.complain("diameter", "a corner has none", "nothing")
		}
		v := Vertex{Point: at}
		if row.text("bulge") != "" {
			v.Bulge = row.number("bulge")
		}
		switch k, known := openings[part]; {
		case part == "outside":
			if last != part && len(o.Outside) > 0 {
				return row.complain("part", "the outside goes on after something else", inOneRow)
			}
			o.Outside = append(o.Outside, v)
		case known && last != part:
			return row.complain("part", "the opening goes on after something else", inOneRow)
		case known:
			o.Cutouts[k] = append(o.Cutouts[k], v)
		default:
			openings[part] = len(o.Cutouts)
			o.Cutouts = append(o.Cutouts, Loop{v})
		}
		last = part
		return row.err
	})
	if err == nil && len(o.Outside) == 0 {
		err = fail.Text("outline", name, "has no corners", "lines of the part outside", units.ErrMissing)
	}
	if err != nil {
		return Outline{}, err
	}
	return o, nil
}

// What a list may say, for errors.
const (
	partNames = "outside, hole, or the name of an opening"
	inOneRow  = "the corners of one part in lines that follow each other"
)
