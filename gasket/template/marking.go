package template

import (
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// A Marking is a face of metal to mark out: a cover with its holes, or a port face
// with its ports and lines.
type Marking struct {
	Face     gasket.Outline // its Name heads the sheet; it has no Outside, and no Holes, where the edge is not known
	Engine   string         // what the part belongs to; may be blank
	Material string         // may be blank
	Depth    units.Length   // how thick the part is; zero: not said
	Unseen   []gasket.Loop  // edges of what lies on the face or behind it, dashed
	Lines    []Line         // to scribe from side to side of a face whose edge is not known
	Notes    []string       // what the sheet says beside its list of holes
	Warnings []string       // what is wrong with the part, as of [Part]
	Remarks  []string
}

// A Line is a straight line over the whole face. One to scribe through the datum is a
// centre line.
type Line struct {
	Name   string       // what it is
	Level  bool         // along X; otherwise along Y
	At     units.Length // from the datum, which is where X and Y are zero
	Unseen bool         // dashed: not to scribe, but where something else comes
}

// letters name the lines; I and O are left out, as on drawings.
const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// NewMarking lays out the marking of a face at full size, as [New] does a part, with
// a list of the places of all holes and lines from the datum and from an edge: the
// lowest and leftmost of the face, or where that is not known the first lines to
// scribe. It takes a face that [gasket.Outline.Validate] takes; or one without an
// Outside that has openings or lines, up to 24 of them. Mark out by the figures, not
// through the paper, which stretches. See the example.
func NewMarking(m Marking, o Options) (*Template, error) {
	if err := m.validate(); err != nil {
		return nil, err
	}
	x, y, err := o.Correction.scale()
	if err != nil {
		return nil, err
	}
	m.Unseen, m.Lines, m.Notes = slices.Clone(m.Unseen), slices.Clone(m.Lines), slices.Clone(m.Notes)
	part := Part{
		Outline: copied(m.Face), Engine: m.Engine, Material: m.Material, Thickness: m.Depth,
		Warnings: slices.Clone(m.Warnings), Remarks: slices.Clone(m.Remarks),
	}
	t := &Template{part: part, marking: &m, unit: rulerOf(o.Inch), holes: bySize(part.Outline.Holes, nil)}
	return t.laidOut(o.Paper, x, y)
}

func (m Marking) validate() error {
	if m.Face.Name == "" {
		return fail.Missing("name of the face", "some text")
	}
	if m.Depth.Sign() < 0 {
		return fail.OutOfRange("depth", m.Depth, "zero or more")
	}
	for _, l := range m.Unseen {
		if err := (gasket.Outline{Outside: l}).Validate(); err != nil {
			return err
		}
	}
	if len(m.Face.Outside) > 0 {
		if len(m.Lines) > 0 {
			return fail.Wrong("lines", nil, "are on a face whose edge is known", "holes, or a face without an outside")
		}
		return m.Face.Validate()
	}
	switch {
	case len(m.Face.Holes) > 0:
		return fail.Missing("outside of the face", "one, where it has holes")
	case len(m.Face.Cutouts)+len(m.Lines) == 0:
		return fail.Missing("face", "an outside, openings or lines")
	case len(m.Lines) > len(letters):
		return fail.OutOfRange("lines", len(m.Lines), fmt.Sprintf("up to %d", len(letters)))
	}
	for _, l := range m.Face.Cutouts {
		if err := (gasket.Outline{Outside: l}).Validate(); err != nil {
			return err
		}
	}
	return nil
}

// ordered are the lines in the order of their letters: from the left, then from below.
func (m Marking) ordered() []Line {
	lines := slices.Clone(m.Lines)
	slices.SortStableFunc(lines, func(a, b Line) int {
		if a.Level != b.Level {
			if b.Level {
				return -1
			}
			return 1
		}
		return a.At.Cmp(b.At)
	})
	return lines
}

// edges are the lines that the second places are counted from, of those to scribe the
// first either way; their numbers in the order, below zero for none.
func edges(lines []Line) (upright, level int) {
	first := func(want bool) int {
		return slices.IndexFunc(lines, func(l Line) bool { return l.Level == want && !l.Unseen })
	}
	return first(false), first(true)
}
