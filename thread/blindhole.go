package thread

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
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
	taps     = names.Set{Package: "thread", Type: "Tap", Field: "tap", Texts: []string{TaperTap: "taper", SecondTap: "second", BottomingTap: "bottoming"}}
	tapLeads = [...]float64{TaperTap: 7, SecondTap: 3, BottomingTap: 1.5}
)

// String returns "taper", "second" or "bottoming".
func (t Tap) String() string { return taps.Text(int(t)) }

// ParseTap returns the tap of that name, in capitals or not; see [Tap.String].
// Another text is an [*units.ArgumentError] that lists the accepted ones.
func ParseTap(name string) (Tap, error) {
	v, err := taps.Value(name)
	return Tap(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (t Tap) MarshalText() ([]byte, error) { return taps.Marshal(int(t)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (t *Tap) UnmarshalText(text []byte) error { return unmarshal(t, text, ParseTap) }

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
	Thread    units.Length // of full depth, with the chip room left free
	Jam       units.Length // at which the tap stands on the bottom: no chip room left
	Lead      units.Length // of the tap
	ChipRoom  units.Length // one pitch
	Diameters float64      // Thread in major diameters
	Ref       source.Ref
}

// BlindHoleFor returns the depth to drill for a length of full thread:
//
//	depth = thread + lead + one pitch for chips
//
// with the lead of the last tap that goes in: 7 pitches for a taper tap, 3 for
// a second and 1.5 for a bottoming tap. These are common practice; measure the
// lead of the tap in hand where it matters. The length must be above zero and
// up to 1 m. Another length, and a tap that there is not, are an
// [*units.ArgumentError].
func (t Thread) BlindHoleFor(length units.Length, tap Tap) (BlindHole, error) {
	if t.Form() == 0 {
		return BlindHole{}, noThread()
	}
	if length.Sign() <= 0 || length.Cmp(units.MM(1000)) > 0 {
		return BlindHole{}, argument("length of thread", length.String(), "above zero up to 1 m", units.ErrOutOfRange)
	}
	lead, err := tap.lead(t.pitch)
	if err != nil {
		return BlindHole{}, err
	}
	return t.blindHole(length.Add(lead).Add(t.pitch), lead), nil
}

// ThreadInBlindHole returns the length of full thread that a hole of a given
// depth takes. A hole that leaves none behind the lead of the tap and the chip
// room is an [*units.ArgumentError].
func (t Thread) ThreadInBlindHole(depth units.Length, tap Tap) (BlindHole, error) {
	if t.Form() == 0 {
		return BlindHole{}, noThread()
	}
	lead, err := tap.lead(t.pitch)
	if err != nil {
		return BlindHole{}, err
	}
	if least := lead.Add(t.pitch); depth.Cmp(least) <= 0 {
		return BlindHole{}, wrong("depth of hole for "+t.name, depth.String(), "all of it goes to the lead of the "+tap.String()+" tap and the chips", "deeper than "+least.String(), units.ErrOutOfRange)
	}
	return t.blindHole(depth, lead), nil
}

func (t Thread) blindHole(depth, lead units.Length) BlindHole {
	length := depth.Sub(lead).Sub(t.pitch)
	return BlindHole{
		Depth: depth, Thread: length, Jam: depth.Sub(lead), Lead: lead, ChipRoom: t.pitch, Diameters: length.Ratio(t.major),
		Ref: source.Ref{Kind: source.CommonPractice, Note: "lead of 7, 3 or 1.5 pitches and one pitch of chip room"},
	}
}

// TappingCautions returns the usual cautions for tapping by hand: some hold for
// every tap, some for small ones and for blind holes. They are common practice.
func (t Thread) TappingCautions(blind bool) []string {
	cautions := []string{
		"start the tap square, with a guide or in the drill spindle turned by hand; wear eye protection, a broken tap is brittle",
		"turn back to break the chip, and clear the flutes; cutting oil for steel, paraffin for aluminium, dry for cast iron",
	}
	if t.major.Cmp(units.MM(3)) <= 0 {
		cautions = append(cautions, "a tap of 3 mm and below breaks at less than a hand can feel: a small wrench held by its middle, a sharp tap, and the larger drill if in doubt")
	}
	if blind {
		cautions = append(cautions, "mark the depth on the tap, and stop before it stands on the bottom; take it out and clear the hole")
	}
	return cautions
}

// BrokenTap returns what is commonly tried to get a broken tap of carbon or high
// speed steel out of a part.
func BrokenTap(part material.Material) []string {
	tries := []string{"grip what stands out, or turn it with a tap extractor in the flutes, back and forth, with penetrating oil; wear eye protection"}
	switch part.Family {
	case material.Aluminium, material.Brass, material.Bronze:
		tries = append(tries,
			"a hot bath of alum dissolves the steel and leaves "+part.Name+" (certain for aluminium, reported for brass and bronze): hours to days, topped up with hot water, and the finish suffers; take every steel part off first",
			"the bath gives off gas and can spit: outdoors or under extraction, gloves and goggles, no naked flame, and never in a kitchen pot that is used again")
	default:
		tries = append(tries, "an alum bath is for aluminium, brass and bronze only: it would dissolve a steel or iron part with the tap", "spark erosion by a firm that does it")
	}
	return append(tries, "remake the part if it holds pressure and the hole has suffered")
}
