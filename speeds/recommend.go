package speeds

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Range is a cutting speed to start from, with all that is behind it.
type Range struct {
	Operation Operation
	Material  Material
	Tool      Tool
	Low, High units.Speed // surface speed
	Published Published   // the published figure it is, or is a share of
	Basis     string      // how it follows from that figure; blank when it is that figure
	Rules     source.Ref  // where the last step of Basis is from
}

// A Published is one source's range for a pairing, in its own words.
type Published struct {
	Low, High units.Speed
	Material  string // as the source calls it
	Tool      string // as the source calls it
	Period    string // "modern", or when it was practice: "1914"
	Bound     string // "upper limit" or "lower bound" where the source gives no more
	Note      string
	Ref       source.Ref
}

// Recommend returns the speed to start from for an operation on a material
// with a tool.
//
// Of the published ranges it takes the one that the table marks as the default:
// for turning a university's tutorial sheet or a small lathe's handbook, which
// suit light machines; for drilling a training manual's list; for stainless
// steel the table of a technical order. Where no source gives the pairing, it
// takes a published share of a neighbour (parting, of turning; carbide, of
// HSS), or the figure of the nearest material that has one, and says so in
// Basis. [PublishedRanges] has all the others. Sources differ by a factor of
// two or three; a range is where to begin, and the sound, the chip and the edge
// say where to go.
//
// Figures for carbon steel and for the first high-speed steels come from works
// of their time; where those have none, carbon steel takes half the speed of
// HSS, a training manual's share for drills, and Basis says so. A pairing that
// makes no sense, such as knurling with carbide, or of which nothing is known, is
// an [*units.ArgumentError]. No allocation after the first call for an operation.
func Recommend(op Operation, material Material, tool Tool) (Range, error) {
	if err := checkPairing(op, material, tool); err != nil {
		return Range{}, err
	}
	r := resolved[op].Get(func() []*Range { return resolve(op) })[place(material, tool)]
	if r == nil {
		return Range{}, bad("pairing", fmt.Sprintf("%v in %v with %v", op, material, tool), "no figure is held, nor one it would follow from", "another tool or a stated cutting speed", units.ErrUnknown)
	}
	return *r, nil
}

// Advice returns what to mind in this operation, what can hurt somebody first,
// then rake, lubricant, chips, holding.
func (r Range) Advice() []Advice { return adviceFor(r.Operation, r.Material, r.Tool) }

// PublishedRanges returns every range that was read for the pairing, in the
// order of the table; there may be none. They disagree, and are not averaged.
// An operation, material or tool that there is not is an
// [*units.ArgumentError].
func PublishedRanges(op Operation, material Material, tool Tool) ([]Published, error) {
	if err := checkPairing(op, material, tool); err != nil {
		return nil, err
	}
	var all []Published
	for _, row := range speedTable.Rows() {
		if row.has(op, material) && row.tool == tool {
			all = append(all, row.published)
		}
	}
	return all, nil
}

func (row speedRow) has(op Operation, m Material) bool {
	return contains(row.operations, op) && contains(row.materials, m)
}

// contains reports whether v is in the list; a nil list is "any".
func contains[T comparable](all []T, v T) bool {
	if all == nil {
		return true
	}
	for _, a := range all {
		if a == v {
			return true
		}
	}
	return false
}

func checkPairing(op Operation, material Material, tool Tool) error {
	switch {
	case !operationNames.Known(int(op)):
		return operationNames.Unknown(int(op))
	case !materialNames.Known(int(material)):
		return materialNames.Unknown(int(material))
	case !toolNames.Known(int(tool)):
		return toolNames.Unknown(int(tool))
	}
	problem, accepted := "", ""
	switch {
	case op == Knurling && tool == Carbide:
		problem, accepted = "a knurl presses and does not cut; its wheels are hardened steel", "HSS, carbon steel"
	case (op == Tapping || op == DieCutting) && tool == Carbide:
		problem, accepted = "solid carbide taps and dies break in a hand-held or hobby machine", "HSS, carbon steel"
	case op == CentreDrilling && tool == Carbide:
		problem, accepted = "the tip of a carbide centre drill breaks in a lathe that is not dead in line", "HSS"
	case (op == Knurling || op == DieCutting) && material == ChilledIron, op == Tapping && material == ChilledIron:
		problem, accepted = "chilled iron can be ground, and turned with carbide; it cannot be threaded or knurled", "facing, turning, boring"
	default:
		return nil
	}
	return bad("pairing", fmt.Sprintf("%v in %v with %v", op, material, tool), problem, accepted, units.ErrOutOfRange)
}

type pairing struct {
	op       Operation
	material Material
	tool     Tool
}

// resolved holds the answers of Recommend, nil where there is none, by operation
// and then as place has them: an operation is worked out when it is first asked
// for.
var resolved [Milling + 1]table.Once[[]*Range]

// place returns where the answer for a material and a tool stands.
func place(m Material, tool Tool) int { return int(m)*len(toolNames.Texts) + int(tool) }

func resolve(op Operation) []*Range {
	all := make([]*Range, place(Material(len(materialNames.Texts)), 0))
	published := map[pairing]*Published{}
	rows := speedTable.Rows()
	for i := range rows {
		for _, op := range rows[i].operations {
			for _, m := range rows[i].defaults {
				published[pairing{op, m, rows[i].tool}] = &rows[i].published
			}
		}
	}
	s := resolver{published, standIns()}
	for _, m := range Materials() {
		for _, tool := range Tools() {
			if r, ok := s.pairing(pairing{op, m, tool}); ok {
				r.Operation, r.Material, r.Tool = op, m, tool
				all[place(m, tool)] = &r
			}
		}
	}
	return all
}

type resolver struct {
	published map[pairing]*Published
	standIns  map[Material]standIn
}

func standIns() map[Material]standIn {
	all := map[Material]standIn{}
	for _, row := range standInTable.Rows() {
		all[row.material] = row
	}
	return all
}

// pairing looks for a figure of the pairing itself, then for a share of it by
// operation, then by tool, then all of that for the material that stands in.
func (s resolver) pairing(p pairing) (Range, bool) {
	var seen uint64 // a bit for each material asked
	var stands []string
	for m := p.material; ; {
		if r, ok := s.byTool(pairing{p.op, m, p.tool}); ok {
			r.Basis = join(strings.Join(stands, ", "), r.Basis)
			return r, true
		}
		seen |= 1 << m
		next, ok := s.standIns[m]
		if !ok || seen&(1<<next.standIn) != 0 {
			return Range{}, false
		}
		stands = append(stands, fmt.Sprintf("as %v: %s", next.standIn, next.why))
		m = next.standIn
	}
}

func (s resolver) byTool(p pairing) (Range, bool) {
	if r, ok := s.byOperation(p, 0); ok {
		return r, true
	}
	rows := toolTable.Rows()
	for i := range rows {
		if row := &rows[i]; row.item == p.tool && row.chosen {
			if r, ok := s.byOperation(pairing{p.op, p.material, row.of}, 0); ok {
				return row.share(r), true
			}
		}
	}
	return Range{}, false
}

// byOperation follows shares of other operations; seen has a bit for each one
// that has been asked, as roughing and turning stand for each other.
func (s resolver) byOperation(p pairing, seen uint64) (Range, bool) {
	if pub := s.published[p]; pub != nil {
		return Range{Low: pub.Low, High: pub.High, Published: *pub}, true
	}
	seen |= 1 << p.op
	rows := operationTable.Rows()
	for i := range rows {
		if row := &rows[i]; row.item == p.op && row.chosen && seen&(1<<row.of) == 0 {
			if r, ok := s.byOperation(pairing{row.of, p.material, p.tool}, seen); ok {
				return row.share(r), true
			}
		}
	}
	return Range{}, false
}

func join(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}
