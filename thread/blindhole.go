package thread

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Tap is a hand tap of a set, told by the length of its lead. The zero value
// is no tap.
type Tap int

// The taps of a set, with the usual length of their lead in pitches.
const (
	TaperTap     Tap = iota + 1 // 7 pitches
	SecondTap                   // 3 pitches
	BottomingTap                // 1.5 pitches
)

var (
	taps = names.Set{Package: "thread", Type: "Tap", Field: "tap", Texts: []string{
		TaperTap: "taper", SecondTap: "second", BottomingTap: "bottoming",
	}}
	tapLeads = [...]float64{TaperTap: 7, SecondTap: 3, BottomingTap: 1.5}
)

// String returns "taper", "second" or "bottoming".
func (t Tap) String() string { return taps.Text(int(t)) }

// ParseTap returns the tap of that name, in capitals or not; see [Tap.String].
func ParseTap(name string) (Tap, error) {
	v, err := taps.Value(name)
	return Tap(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (t Tap) MarshalText() ([]byte, error) { return taps.Marshal(int(t)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (t *Tap) UnmarshalText(text []byte) error { return names.Unmarshal(&taps, t, text) }

// Taps returns all of them, in order.
func Taps() []Tap { return []Tap{TaperTap, SecondTap, BottomingTap} }

func (t Tap) lead(pitch units.Length) (units.Length, error) {
	if !taps.Known(int(t)) {
		return units.Length{}, taps.Unknown(int(t))
	}
	return pitch.Scale(tapLeads[t]), nil
}

// A BlindHole is a tapped hole that does not go through. All lengths are along
// the full diameter of the hole, without the point of the drill.
type BlindHole struct {
	Depth     units.Length // drilled to full diameter
	Thread    units.Length // of full depth, with the chip room left free; zero where the hole holds none
	Jam       units.Length // at which the tap stands on the bottom: no chip room left
	Tap       Tap          `json:",omitzero"` // the last one that goes in
	Lead      units.Length // of the tap
	ChipRoom  units.Length // one pitch
	Diameters float64      // Thread in major diameters
	Findings  finding.List
	Refs      source.Refs
}

// Tip returns the depth of the tip of the drill that makes the hole: what the
// drill must be run to, and what must be left of metal below.
//
//	tip = depth + drill / (2 * tan(point/2))
//
// The point is its included angle; zero is the usual 118 degrees. It is from 60 to
// below 180 degrees, the drill above zero.
func (h BlindHole) Tip(drill units.Length, point units.Angle) (units.Length, error) {
	if err := fail.Above(fault.Named("drill", drill)); err != nil {
		return units.Length{}, err
	}
	if point == 0 {
		point = 118 * units.Degree
	}
	if !(point >= 60*units.Degree && point < 180*units.Degree) {
		return units.Length{}, fail.OutOfRange("point of the drill", point, "from 60 to below 180 degrees")
	}
	return h.Depth.Add(drill.Scale(1 / (2 * math.Tan(point.Radians()/2)))), nil
}

// Left returns what the drill's point leaves of metal that is so thick from the mouth of
// the hole to the port, passage or bore below it, and what is to be said of that.
//
//	left = metal - tip
//
// Below zero it comes through: what it opened leaks into the hole, and a stud that is
// run in pushes chips through. Half of the drill, and 1 mm at the least, is common
// practice in castings, which are porous. Drill and point are those of [BlindHole.Tip];
// the metal is above zero, up to 1 m.
func (h BlindHole) Left(drill units.Length, point units.Angle, metal units.Length) (units.Length, finding.List, error) {
	tip, err := h.Tip(drill, point)
	if err != nil {
		return units.Length{}, nil, err
	}
	if metal.Sign() <= 0 || metal.Cmp(units.MM(1000)) > 0 {
		return units.Length{}, nil, fail.OutOfRange("metal", metal, "above zero up to 1 m")
	}
	left, least := metal.Sub(tip), drill.Scale(0.5)
	if least.Cmp(units.MM(1)) < 0 {
		least = units.MM(1)
	}
	lack := least.Sub(left)
	if lack.Cmp(units.MM(0.05)) < 0 { // nobody drills to less
		return left, nil, nil
	}
	text := func(l units.Length) string {
		return l.Text(units.Millimetres, 2) + " (" + l.Decimal(units.Thousandths, 0) + " thou)"
	}
	f := finding.Finding{
		Code: ThinBelowHole, Severity: finding.Caution, Refs: source.Of(source.Practice()),
		Text: fmt.Sprintf("The point of the drill leaves %s of metal below the hole, and %s is usual: a pore in the casting leaks.",
			text(left), text(least)),
	}
	if left.Sign() <= 0 {
		f.Code, f.Severity = HoleBreaksThrough, finding.Fails
		f.Text = fmt.Sprintf("The point of the drill, %s deep, comes through the metal, %s: the hole leaks and its stud stands in what is below.",
			text(tip), text(metal))
	}
	if shallow, err := h.Depth.Sub(lack).Round(units.MM(0.1), units.Down); err == nil && shallow.Sign() > 0 {
		f.Remedies = append(f.Remedies, "Drill no deeper than "+text(shallow)+" to the full diameter.")
	}
	if saved := tip.Sub(h.Depth); saved.Cmp(lack) >= 0 {
		f.Remedies = append(f.Remedies, "Or leave the point short and square the bottom with a drill ground flat, which saves "+text(saved)+".")
	}
	f.Remedies = append(f.Remedies, "Make the metal there thicker by "+text(lack)+", or move the hole clear of what lies below.")
	return left, finding.List{f}, nil
}

var blindHoleRef = source.Ref{Kind: source.CommonPractice,
	Note: "lead of 7, 3 or 1.5 pitches and one pitch of chip room"}

// BlindHole returns the depth to drill for a length of full thread.
//
//	depth = thread + lead + one pitch for chips
//
// The lead is that of the last tap that goes in: 7 pitches for a taper tap, 3 for
// a second and 1.5 for a bottoming tap. These are common practice; measure the
// lead of the tap in hand where it matters. The length is above zero and up to
// 1 m.
func (t Thread) BlindHole(length units.Length, tap Tap) (BlindHole, error) {
	if err := t.Validate(); err != nil {
		return BlindHole{}, err
	}
	if length.Sign() <= 0 || length.Cmp(units.MM(1000)) > 0 {
		return BlindHole{}, fail.OutOfRange("length of thread", length, "above zero up to 1 m")
	}
	lead, err := tap.lead(t.pitch)
	if err != nil {
		return BlindHole{}, err
	}
	return t.blindHole(length.Add(lead).Add(t.pitch), lead, tap), nil
}

// ThreadInBlindHole returns the length of full thread that a hole of a given
// depth takes. A hole that leaves none behind the lead of the tap and the chip
// room has a finding that says so.
func (t Thread) ThreadInBlindHole(depth units.Length, tap Tap) (BlindHole, error) {
	if err := t.Validate(); err != nil {
		return BlindHole{}, err
	}
	lead, err := tap.lead(t.pitch)
	if err != nil {
		return BlindHole{}, err
	}
	if err := fail.Above(fault.Named("depth of hole for "+t.name, depth)); err != nil {
		return BlindHole{}, err
	}
	h := t.blindHole(depth, lead, tap)
	if h.Thread.Sign() > 0 {
		return h, nil
	}
	h.Thread, h.Diameters = units.Length{}, 0
	if h.Jam.Sign() < 0 { // the tap stands on the bottom before it cuts
		h.Jam = units.Length{}
	}
	h.Findings = finding.List{{
		Code: NoThread, Severity: finding.Fails,
		Text: fmt.Sprintf("A blind hole %s deep holds no full thread for %v:"+
			" the lead of the %v tap and the chips take all of it.",
			depth.Text(units.Millimetres, 3), t, tap),
		Remedies: []string{"Drill it deeper than " + lead.Add(t.pitch).Text(units.Millimetres, 3) +
			", or right through with a nut behind it."},
		Refs: h.Refs,
	}}
	return h, nil
}

func (t Thread) blindHole(depth, lead units.Length, tap Tap) BlindHole {
	length := depth.Sub(lead).Sub(t.pitch)
	return BlindHole{
		Depth: depth, Thread: length, Jam: depth.Sub(lead), Tap: tap, Lead: lead, ChipRoom: t.pitch,
		Diameters: length.Ratio(t.major), Refs: source.Shared(&blindHoleRef),
	}
}
