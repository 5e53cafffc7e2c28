package thread

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

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
//	tan b = p / (pi d2)
//
// with the pitch p and the pitch diameter d2. It is zero for no thread.
func (t Thread) LeadAngle() units.Angle {
	if t.pitchDiameter.IsZero() {
		return 0
	}
	return units.Angle(math.Atan(t.pitch.Ratio(t.pitchDiameter) / math.Pi))
}

// Ref returns where the size comes from. The diameters follow from the size by
// the formulas of the standard that the form names.
func (t Thread) Ref() source.Ref { return t.ref }

// A Taper holds what a taper pipe thread has beside its diameters at the gauge
// plane. The taper is 1 in 16 on the diameter.
type Taper struct {
	GaugeLength     units.Length // from the small end to the gauge plane; L1 of NPT
	SmallEnd        units.Length // pitch diameter at the small end; E0 of NPT
	Outside         units.Length // outside diameter of the pipe; zero for R
	EffectiveLength units.Length // of the external thread, L2 = (0.80 D + 6.8) p of NPT; zero for R
}

// Taper returns the taper of an R or NPT thread and reports whether the thread
// has one.
func (t Thread) Taper() (Taper, bool) {
	switch t.series {
	case NPT:
		effective := t.pitch.Scale(0.80*t.outside.Inch() + 6.8)
		return Taper{t.gaugeLength, t.smallEnd, t.outside, round(effective, units.Thou(0.1))}, true
	case BSPTaper:
		return Taper{GaugeLength: t.gaugeLength, SmallEnd: t.pitchDiameter.Sub(t.gaugeLength.Scale(taperOnDiameter))}, true
	}
	return Taper{}, false
}

// New returns a thread of any size, with the basic diameters of its form. The
// forms that take any size are [FormISO], [FormUnified], [FormWhitworth],
// [FormTrapezoidal] and [FormAcme]. The diameter must be from 0.25 mm to 300 mm
// and the pitch from 0.05 mm to a quarter of the diameter, or to a half for the
// last two. The inch forms take diameters in whole 64ths or ten-thousandths of
// an inch and pitches of a whole, half or quarter number of threads to the inch.
// Anything else is an [*units.ArgumentError]. The series is [Special], or [UNS]
// for the Unified form.
func New(form Form, major, pitch units.Length) (Thread, error) {
	most := 0.25
	inch := form == FormUnified || form == FormWhitworth || form == FormAcme
	switch form {
	case FormTrapezoidal, FormAcme:
		most = 0.5
	case FormISO, FormUnified, FormWhitworth:
	default:
		return Thread{}, wrong("form", form.String(), "not a form that takes any size", "ISO metric, Unified, Whitworth, trapezoidal, Acme", units.ErrUnknown)
	}
	if major.Cmp(units.MM(0.25)) < 0 || major.Cmp(units.MM(300)) > 0 {
		return Thread{}, argument("major diameter", major.String(), "0.25 mm to 300 mm", units.ErrOutOfRange)
	}
	if limit := major.Scale(most); pitch.Cmp(units.MM(0.05)) < 0 || pitch.Cmp(limit) > 0 {
		return Thread{}, argument("pitch", pitch.String(), "0.05 mm to "+limit.Text(units.Millimetres, 3)+" on this diameter", units.ErrOutOfRange)
	}
	tpi := math.Round(4*25.4/pitch.MM()) / 4
	if inch && perInch(tpi) != pitch {
		return Thread{}, argument("pitch", pitch.String(), "a whole, half or quarter number of threads to the inch in this form", units.ErrOutOfRange)
	}
	size := inches(major)
	if inch {
		if back, err := units.ParseLength(size + " in"); err != nil || back != major {
			return Thread{}, argument("major diameter", major.String(), "whole 64ths or ten-thousandths of an inch in this form", units.ErrOutOfRange)
		}
	}
	ref := source.Ref{Kind: source.Derived, Note: "special size; basic diameters by the formulas of the " + form.String() + " form"}
	var t Thread
	switch form {
	case FormISO:
		t = special(metric(Special, major, pitch, ref), form, "M"+number(major)+"x"+number(pitch)+" special")
	case FormUnified:
		if whole := major.Inch(); whole == math.Trunc(whole) && (whole > 2 || tpi >= 40) {
			size += ".0" // without it the inches read back as a screw number
		}
		t = unified(UNS, size, major, tpi, ref)
	case FormWhitworth:
		t = special(whitworth(Special, major, tpi, ref), form, size+"x"+count(tpi)+" Whitworth")
	case FormTrapezoidal:
		t = special(trapezoidal(major, pitch, ref), form, "Tr "+number(major)+"x"+number(pitch)+" special")
	case FormAcme:
		t = special(acme(major, tpi, ref), form, size+"-"+count(tpi)+" Acme special")
	}
	if t.root.Sign() <= 0 {
		return Thread{}, wrong("pitch", pitch.String(), "the root clearance leaves no core on this diameter", "a larger diameter", units.ErrOutOfRange)
	}
	return t, nil
}

func special(t Thread, form Form, name string) Thread {
	t.series, t.form, t.name = Special, form, name
	return t
}
