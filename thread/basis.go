package thread

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Basis says what counts as a full depth of thread, of which a tapped hole
// leaves a share. Three of them are in print, and a share without its basis
// means three different holes: M6 in a 5 mm hole is 81.5 % of the full depth,
// 92.4 % of the internal height and 77.0 % of three quarters of the height. The
// zero value is no basis.
type Basis int

// The bases. Full depth is 1.2269 pitches on the diameter for ISO metric and
// 1.1908 for Unified (UNR), internal height 1.0825 for both, and three quarters of
// the height 1.2990, as charts from the USA have it.
const (
	FullDepth          Basis = iota + 1 // depth of the screw: Thread.Depth
	InternalHeight                      // height of the basic form of the nut: 5H/8 for 60 degrees
	ThreeQuarterHeight                  // 3H/4 of the 60-degree forms
)

// threeQuarters is three quarters of the height of a 60-degree thread on the
// diameter, in pitches.
const threeQuarters = 1.2990381057 // 3/2 H

var bases = names.Set{Package: "thread", Type: "Basis", Field: "basis of the depth", Texts: []string{
	FullDepth: "full depth", InternalHeight: "internal height", ThreeQuarterHeight: "three-quarter height",
}}

// String returns "full depth", "internal height" or "three-quarter height".
func (b Basis) String() string { return bases.Text(int(b)) }

// ParseBasis returns the basis of that name, in capitals or not; see
// [Basis.String].
func ParseBasis(name string) (Basis, error) {
	v, err := bases.Value(name)
	return Basis(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (b Basis) MarshalText() ([]byte, error) { return bases.Marshal(int(b)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (b *Basis) UnmarshalText(text []byte) error { return names.Unmarshal(&bases, b, text) }

// Bases returns all of them, in order.
func Bases() []Basis { return []Basis{FullDepth, InternalHeight, ThreeQuarterHeight} }

// fullOn returns the full depth on the diameter, in pitches, by the form
// unrounded.
func (t Thread) fullOn(basis Basis) (float64, error) {
	if err := t.Validate(); err != nil {
		return 0, err
	}
	if _, taper := t.Taper(); taper {
		return 0, fail.Argument("thread", t.name, "a taper thread has no one depth on a drilled hole",
			"parallel threads; PipeHoles has the holes of a taper pipe", units.ErrUnknown)
	}
	var full, internal float64
	switch t.Form() {
	case FormISO:
		full, internal = 1.2268693220, 1.0825317547 // 17/12 H, 5/4 H
	case FormUnified:
		full, internal = 1.19078493, 1.08253175 // UNR, 5/4 H
	case FormWhitworth:
		full, internal = 1.280654, 1.280654 // 4/3 H
	case FormBA:
		full, internal = 1.2, 1.2
	case FormCycle:
		full, internal = 1.0653, 1.0653
	case FormTrapezoidal, FormAcme:
		full, internal = t.depth.Scale(2).Ratio(t.pitch), 1
	}
	switch basis {
	case FullDepth:
		return full, nil
	case InternalHeight:
		return internal, nil
	case ThreeQuarterHeight:
		if t.Form() != FormISO && t.Form() != FormUnified {
			return 0, fail.Argument("basis of the depth", basis, "belongs to the ISO metric and Unified forms",
				"full depth or internal height for "+t.name, units.ErrUnknown)
		}
		return threeQuarters, nil
	}
	return 0, bases.Unknown(int(basis))
}

// DepthOfThread returns the share of a full thread that a cutting tap leaves in
// a drilled hole:
//
//	share = (D - hole) / (k * p)
//
//	D  major diameter
//	p  pitch
//	k  full depth on the diameter, in pitches, of the basis
//
// The share is above 1 when the hole is smaller than the basis allows; no cutting
// tap can work there. The hole is the one that is there: a drill cuts over its
// size. It is between zero and the major diameter. A taper thread is an error
// and, for forms other than ISO metric and Unified, the three-quarter height.
//
// Both 5H/8 and 3H/4 stand in Machinery's Handbook, 31st edition: the first in
// the formula, the second in the table of p. 2155.
func (t Thread) DepthOfThread(hole units.Length, basis Basis) (float64, error) {
	k, err := t.fullOn(basis)
	if err != nil {
		return 0, err
	}
	if hole.Sign() <= 0 || hole.Cmp(t.major) >= 0 {
		return 0, fail.Wrong("hole for "+t.name, hole, "leaves no thread",
			"above zero and below the major diameter "+t.major.String())
	}
	return t.major.Sub(hole).Ratio(t.pitch) / k, nil // Machinery's Handbook, 31st edition, p. 2155
}

// TappingHole returns the hole that leaves the given share of a full thread for
// a cutting tap.
//
//	hole = D - share * k * p
//
// The symbols are those of [Thread.DepthOfThread]. A share is 0.75 and not 75. One
// that needs a hole below the minor diameter of the nut is an error that names the
// most there is on that basis.
func (t Thread) TappingHole(share float64, basis Basis) (units.Length, error) {
	k, err := t.fullOn(basis)
	if err != nil {
		return units.Length{}, err
	}
	if err := checkShare(share); err != nil {
		return units.Length{}, err
	}
	internal, _ := t.fullOn(InternalHeight) // the thread is good, or k would have failed
	if share*k > internal*(1+1e-9) {
		return units.Length{}, fail.Wrong("depth of thread", fmt.Sprintf("%.4g", share),
			"needs a hole below the minor diameter of the nut, "+t.minor.String(), fmt.Sprintf("up to %.3f of the %v",
				internal/k, basis))
	}
	return t.major.Sub(t.pitch.Scale(share * k)), nil
}

// ConvertDepth returns the share on another basis that means the same hole. The
// share is above zero and up to 10: it may be above 1, as DepthOfThread may return it.
func (t Thread) ConvertDepth(share float64, from, to Basis) (float64, error) {
	a, err := t.fullOn(from)
	if err != nil {
		return 0, err
	}
	b, err := t.fullOn(to)
	if err != nil {
		return 0, err
	}
	if err := fault.Finite(fail, "depth of thread", share); err != nil {
		return 0, err
	}
	if share <= 0 || share > 10 {
		return 0, fail.OutOfRange("depth of thread", share, "a share above 0, up to 10")
	}
	return share * a / b, nil
}

func checkShare(share float64) error {
	const accepted = "a share above 0 and up to 1, such as 0.75"
	switch {
	case math.IsNaN(share) || math.IsInf(share, 0):
		return fail.Argument("depth of thread", share, "", accepted, units.ErrNotFinite)
	case share >= 10 && share <= 100: // nobody means a tenth and less by a smaller one
		return fail.Wrong("depth of thread", share, fmt.Sprintf("looks like per cent; write %.4g", share/100), accepted)
	case share <= 0 || share > 1:
		return fail.OutOfRange("depth of thread", share, accepted)
	}
	return nil
}
