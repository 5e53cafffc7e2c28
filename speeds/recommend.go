package speeds

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Range is a cutting speed to start from, with all that is behind it.
type Range struct {
	Operation Operation
	Material  material.Material
	Tool      Tool
	Min, Max  units.Speed // surface speed
	Published Published   // the published figure it is, or is a share of
	Basis     string      // how it follows from that figure; blank when it is that figure
	Refs      source.Refs // of that figure, then of the steps of Basis; none when the builder gave the speed
}

// Contains reports whether a surface speed lies in the range.
func (r Range) Contains(v units.Speed) bool { return r.Min <= v && v <= r.Max }

// Differing returns what other sources give for the pairing where it is twofold or
// more away from the range: published figures and published shares of the speed of
// another operation, the slowest first. There may be none. Reaming is where it
// matters: for the bronzes a handbook prints a tenth of what half the drilling speed
// makes, and [Recommend] starts from the slowest. Errors are those of Recommend.
// See the Example.
func (r Range) Differing() ([]Range, error) {
	own, err := Recommend(r.Operation, r.Material, r.Tool)
	if err != nil {
		return nil, err
	}
	var all []Range
	add := func(other Range) {
		if other.Max >= 2*own.Max || 2*other.Max <= own.Max {
			other.Operation, other.Material, other.Tool = r.Operation, r.Material, r.Tool
			all = append(all, other)
		}
	}
	rows, err := PublishedFor(r.Operation, r.Material, r.Tool)
	if err != nil {
		return nil, err
	}
	for _, p := range rows {
		add(Range{Min: p.Min, Max: p.Max, Published: p, Refs: p.Refs})
	}
	shares := operationTable.Rows()
	for i := range shares {
		if row := &shares[i]; row.item == r.Operation {
			if of, err := Recommend(row.of, r.Material, r.Tool); err == nil {
				add(row.share(of))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Range) int { return cmp.Compare(a.Max, b.Max) })
	return all, nil
}

// Recommend returns the speed to start from for an operation on a material
// with a tool.
//
// Of the published ranges it takes the one that the table marks as the default:
// for turning a university's tutorial sheet or a small lathe's handbook, which
// suit light machines; for drilling a training manual's list; for reaming a table of
// its own, of a cutter maker and a handbook, or a published share of drilling or milling
// where that is half of it and less; for stainless steel the table of a technical
// order. Where no source gives the pairing, it takes a published share of a neighbour (parting, of turning; carbide, of
// HSS), or the figure of a material that stands in, and says so in Basis.
// [PublishedFor] has all the others. Sources differ by a factor of two or
// three; a range is where to begin, and the sound, the chip and the edge say
// where to go.
//
// Figures for carbon steel and for the first high-speed steels come from works
// of their time; where those have none, carbon steel takes half the speed of
// HSS, a training manual's share for drills, and Basis says so. Figures for tapping
// are of machine taps, whatever [Job.Plan] makes of them; dies are turned by hand and
// have none. A pairing that makes no sense, such as knurling with carbide, a material
// without a figure and a pairing of which nothing is known are errors. No allocation after the
// first call for an operation. See the Examples.
func Recommend(op Operation, m material.Material, tool Tool) (r Range, err error) {
	if operationNames.Known(int(op)) && toolNames.Known(int(tool)) {
		answers := resolved[op].Get(func() map[string][]*Range { return resolve(op) })[m.Name]
		if answers != nil && answers[tool] != nil {
			a := answers[tool] // field by field: a whole Range is large to copy
			r.Operation, r.Material, r.Tool, r.Min, r.Max = op, m, tool, a.Min, a.Max
			r.Published, r.Basis, r.Refs = a.Published, a.Basis, a.Refs
			return r, nil
		}
	}
	if err := checkPairing(op, m, tool); err != nil {
		return Range{}, err
	}
	if op == DieCutting {
		return Range{}, fail.Argument("operation", op, "dies are turned by hand and have no cutting speed", "another operation", units.ErrUnknown)
	}
	return Range{}, fail.Argument("pairing", describe(op, m, tool), "we have no figure, nor one it would follow from",
		"another tool or a stated cutting speed", units.ErrUnknown)
}

func describe(op Operation, m material.Material, tool Tool) string {
	return fmt.Sprintf("%v in %v with %v", op, m, tool)
}

// checkPairing returns an error for a pairing that is none: an operation,
// material or tool that is not in the tables, or three that do not go together.
func checkPairing(op Operation, m material.Material, tool Tool) error {
	if err := checkWords(op, tool); err != nil {
		return err
	}
	if err := checkMaterial(m); err != nil {
		return err
	}
	return checkSense(op, m, tool)
}

func checkWords(op Operation, tool Tool) error {
	switch {
	case !operationNames.Known(int(op)):
		return operationNames.Unknown(int(op))
	case !toolNames.Known(int(tool)):
		return toolNames.Unknown(int(tool))
	}
	return nil
}

// checkSense returns an error for a pairing that breaks the tool or cannot be done.
func checkSense(op Operation, m material.Material, tool Tool) error {
	problem, accepted := "", ""
	switch {
	case op == Knurling && tool == Carbide:
		problem, accepted = "a knurl presses and does not cut; its wheels are hardened steel", "HSS, carbon steel"
	case (op == Tapping || op == DieCutting) && tool == Carbide:
		problem, accepted = "solid carbide taps and dies break in a hand-held or hobby machine", "HSS, carbon steel"
	case op == CentreDrilling && tool == Carbide:
		problem, accepted = "the tip of a carbide centre drill breaks in a lathe that is not dead in line", "HSS"
	case (op == Knurling || op == DieCutting || op == Tapping) && m.Name == chilledIron:
		problem = "chilled iron can be ground, and turned with carbide; it cannot be threaded or knurled"
		accepted = "facing, turning, boring"
	default:
		return nil
	}
	return fail.Wrong("pairing", describe(op, m, tool), problem, accepted)
}

// resolved holds the answers of Recommend by operation, name of the material and
// tool, nil where there is none: an operation is worked out when it is first
// asked for.
var resolved [SlotMilling + 1]table.Once[map[string][]*Range]

func resolve(op Operation) map[string][]*Range {
	s := resolver{map[figure]*Published{}, standIns()}
	rows := speedTable.Rows()
	for i := range rows {
		for _, op := range rows[i].operations {
			for _, name := range rows[i].defaults {
				s.published[figure{op, name, rows[i].tool}] = &rows[i].published
			}
		}
	}
	answers := map[string][]*Range{}
	for _, m := range Materials() {
		answers[m.Name] = make([]*Range, len(toolNames.Texts))
		for _, tool := range Tools() {
			f := figure{op, m.Name, tool}
			r, ok := s.pairing(f)
			if ok && op == Reaming {
				r = s.slowest(f, r)
			}
			if ok && checkSense(op, m, tool) == nil {
				r.Operation, r.Tool = op, tool
				answers[m.Name][tool] = &r
			}
		}
	}
	return answers
}

// A figure is what a published figure is for.
type figure struct {
	op       Operation
	material string
	tool     Tool
}

type resolver struct {
	published map[figure]*Published
	standIns  map[string]*standIn
}

// pairing looks for a figure of the pairing itself, then for a share of it by
// operation, then by tool, then all of that for the material that stands in.
func (s resolver) pairing(f figure) (Range, bool) {
	seen := map[string]bool{}
	basis, refs := "", source.Refs{}
	for name := f.material; ; {
		if r, ok := s.byTool(figure{f.op, name, f.tool}); ok {
			r.Basis = join(basis, r.Basis, "; ")
			r.Refs = r.Refs.With(refs)
			return r, true
		}
		seen[name] = true
		next := s.standIns[name]
		if next == nil || seen[next.standIn] {
			return Range{}, false
		}
		basis = join(basis, fmt.Sprintf("as %s: %s", next.standIn, next.why), ", ")
		refs = refs.With(next.refs)
		name = next.standIn
	}
}

// slowest returns the slowest of the range and of every share of another operation's
// speed, where they are twofold and more apart.
func (s resolver) slowest(f figure, r Range) Range {
	best := r
	rows := operationTable.Rows()
	for i := range rows {
		if row := &rows[i]; row.item == f.op {
			if of, ok := s.pairing(figure{row.of, f.material, f.tool}); ok {
				if other := row.share(of); 2*other.Max <= r.Max && other.Max < best.Max {
					best = other
				}
			}
		}
	}
	return best
}

func (s resolver) byTool(f figure) (Range, bool) {
	if r, ok := s.byOperation(f, 0); ok {
		return r, true
	}
	rows := toolTable.Rows()
	for i := range rows {
		if row := &rows[i]; row.item == f.tool && row.chosen {
			if r, ok := s.byOperation(figure{f.op, f.material, row.of}, 0); ok {
				return row.share(r), true
			}
		}
	}
	return Range{}, false
}

// byOperation follows shares of other operations; seen has a bit for each one
// that has been asked, as roughing and turning stand for each other.
func (s resolver) byOperation(f figure, seen uint64) (Range, bool) {
	if pub := s.published[f]; pub != nil {
		return Range{Min: pub.Min, Max: pub.Max, Published: *pub, Refs: pub.Refs}, true
	}
	seen |= 1 << f.op
	rows := operationTable.Rows()
	for i := range rows {
		if row := &rows[i]; row.item == f.op && row.chosen && seen&(1<<row.of) == 0 {
			if r, ok := s.byOperation(figure{row.of, f.material, f.tool}, seen); ok {
				return row.share(r), true
			}
		}
	}
	return Range{}, false
}

// share returns the range that follows from r by the ratio.
func (row *ratio[T]) share(r Range) Range {
	r.Min *= units.Speed(row.low)
	r.Max *= units.Speed(row.high)
	r.Basis = join(r.Basis, row.basis, "; ")
	r.Refs = r.Refs.With(row.refs)
	return r
}

func join(a, b, between string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + between + b
}
