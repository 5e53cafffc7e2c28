package thread

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("thread")

// A Thread is the basic form and size of one screw thread. Make one with
// [Parse], [New] or [Series.All]; the zero value is no thread. Threads are
// single-start and may be compared with ==.
type Thread struct {
	series                             Series
	form                               Form // of a special thread; the series knows the others
	name                               string
	major, pitch, pitchDiameter, minor units.Length
	root, depth                        units.Length
	gaugeLength, outside, smallEnd     units.Length // taper pipe only
	tpi                                float64      // as designated; zero for metric pitches
	number                             int          // of a BA thread
	ref                                source.Ref
}

// Designation returns the name that [Parse] reads back: "M3x0.5",
// "1/4-20 UNC", "2 BA", "1/4x40 ME", "G 1/8", "Tr 10x2".
func (t Thread) Designation() string { return t.name }

// String returns the designation.
func (t Thread) String() string { return t.name }

// Series returns the series that the thread belongs to; [Special] if it was
// made by [New].
func (t Thread) Series() Series { return t.series }

// Form returns the profile of the thread.
func (t Thread) Form() Form {
	if t.form != 0 {
		return t.form
	}
	return t.series.Form()
}

// Major returns the basic major diameter, of screw and nut. Of a taper pipe
// thread it is the one at the gauge plane.
func (t Thread) Major() units.Length { return t.major }

// Pitch returns the distance from one thread to the next. Pitches given as
// threads to the inch are 25.4 mm divided by their number, to the nearest
// picometre.
func (t Thread) Pitch() units.Length { return t.pitch }

// TPI returns the threads to the inch, 25.4 mm divided by the pitch.
func (t Thread) TPI() float64 {
	if t.tpi != 0 {
		return t.tpi
	}
	if t.pitch.IsZero() {
		return 0
	}
	return 25.4 / t.pitch.MM()
}

// PitchDiameter returns the basic pitch (effective) diameter. Of a taper pipe
// thread it is the one at the gauge plane, which is the plane of hand-tight
// engagement of NPT (E1).
func (t Thread) PitchDiameter() units.Length { return t.pitchDiameter }

// Minor returns the basic minor diameter of the internal thread: the smallest
// bore that the standard's form allows a nut.
func (t Thread) Minor() units.Length { return t.minor }

// Root returns the minor diameter of the external thread at the root of its
// design profile: with the rounded root for ISO metric (d3) and Unified (UNR),
// with the clearance for trapezoidal and Acme, and equal to Minor for the
// Whitworth, BA, cycle and pipe forms.
func (t Thread) Root() units.Length { return t.root }

// Depth returns the radial depth of the external thread from its major diameter
// to its root, as a single-point tool cuts it. It is not rounded as the
// diameters are, save where the standard itself gives a rounded depth (BA,
// British pipe).
func (t Thread) Depth() units.Length { return t.depth }

// LeadAngle returns the angle of the helix at the pitch diameter,
//
//	tan b = p / (pi * d2)
//
//	p   pitch
//	d2  pitch diameter
//
// It is zero for no thread.
func (t Thread) LeadAngle() units.Angle {
	if t.pitchDiameter.IsZero() {
		return 0
	}
	return units.Angle(math.Atan(t.pitch.Ratio(t.pitchDiameter) / math.Pi))
}

// Refs returns where the size comes from. The diameters follow from the size by
// the formulas of the standard that the form names.
func (t Thread) Refs() source.Refs { return source.Of(t.ref) }

// Validate says whether there is a thread: the zero value is none.
func (t Thread) Validate() error {
	if t.Form() == 0 {
		return fail.Missing("thread", "a thread from Parse, New or a series")
	}
	return nil
}
