package speeds

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// An Operation is something done to metal with an edge.
type Operation int

// The operations. The zero value is none.
const (
	Turning Operation = iota + 1
	RoughTurning
	FinishTurning
	Facing
	Boring
	Parting
	Grooving
	Screwcutting // with a single-point tool
	DieCutting
	Knurling
	Drilling
	CentreDrilling
	Countersinking
	Reaming
	Tapping
	Milling     // with the side or the end of an end mill
	FaceMilling // with a cutter of several teeth, over a flat
	FlyCutting  // with a single tool that swings round, over a flat
	SlotMilling // of a slot or a port with a slot drill, the whole cutter buried
)

var operationNames = names.Set{
	Package: "speeds", Type: "Operation", Field: "operation",
	Texts: []string{
		"", "turning", "rough turning", "finish turning", "facing", "boring", "parting", "grooving", "screwcutting",
		"die cutting", "knurling", "drilling", "centre drilling", "countersinking", "reaming", "tapping", "milling",
		"face milling", "fly cutting", "slot milling",
	},
	Also: []names.Name{
		{Text: "parting off", Value: int(Parting)},
		{Text: "threading", Value: int(Screwcutting)},
		{Text: "screw cutting", Value: int(Screwcutting)},
		{Text: "end milling", Value: int(Milling)},
		{Text: "flycutting", Value: int(FlyCutting)},
		{Text: "slot drilling", Value: int(SlotMilling)},
		{Text: "slotting", Value: int(SlotMilling)},
	},
}

// Operations returns all of them, in order.
func Operations() []Operation {
	return sequence[Operation](len(operationNames.Texts))
}

// String returns the name in the trade: "centre drilling".
func (op Operation) String() string { return operationNames.Text(int(op)) }

// GoverningDiameter says in words which diameter sets the spindle speed: the
// largest one that an edge meets, so that no part of the cut runs faster than
// the figure.
func (op Operation) GoverningDiameter() string {
	switch op {
	case Turning, RoughTurning, FinishTurning, Parting, Grooving, Screwcutting, DieCutting, Knurling:
		return "the work, outside, before the cut"
	case Facing:
		return "the work at the rim: the largest diameter faced"
	case Boring:
		return "the bore, after the cut"
	case Drilling:
		return "the drill"
	case Reaming:
		return "the reamer"
	case Tapping:
		return "the tap"
	case CentreDrilling, Countersinking:
		return "the countersink where it cuts widest"
	case Milling, SlotMilling:
		return "the cutter"
	case FaceMilling:
		return "the cutter over its teeth"
	case FlyCutting:
		return "the circle that the tip of the tool sweeps"
	}
	return "none"
}

// ByHandToo reports whether the operation is as often done by hand, for which the
// spindle speed is not; see [Operation.ByHand] for what is never done otherwise.
func (op Operation) ByHandToo() bool { return op == Reaming || op == Tapping || op == DieCutting }

// ByHand reports whether the operation is for the hand, with no speed to set:
// taps up to 4 mm, to the hundredth of a millimetre, which break before a hand is at
// the switch, and dies of every size (common practice; the precautions say how).
func (op Operation) ByHand(diameter units.Length) bool {
	return op == DieCutting || op == Tapping && diameter.Cmp(units.MM(4.005)) < 0 // 0.1575 in is M4 too
}

// TurnsWork reports whether the work turns and the tool stands still: the lathe's own
// operations, though it drills, reams and taps too.
func (op Operation) TurnsWork() bool { return op >= Turning && op <= Knurling }

// Mills reports whether the tool turns and the work moves under it: milling of every
// sort.
func (op Operation) Mills() bool { return op >= Milling && op <= SlotMilling }

// ParseOperation returns the operation of that name, as [Operation.String] has it or
// in another word of the trade, such as "slot drilling" for slot milling. Any other
// text is a [*units.ParseError] that lists the names of [Operation.String].
func ParseOperation(s string) (Operation, error) {
	i, err := operationNames.Value(s)
	return Operation(i), err
}

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text.
func (op Operation) MarshalText() ([]byte, error) { return operationNames.Marshal(int(op)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (op *Operation) UnmarshalText(text []byte) error {
	return names.Unmarshal(&operationNames, op, text)
}

func sequence[T ~int](n int) []T {
	all := make([]T, n-1)
	for i := range all {
		all[i] = T(i + 1)
	}
	return all
}
