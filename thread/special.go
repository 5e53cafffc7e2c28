package thread

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// New returns a thread of any size, with the basic diameters of its form. The
// forms that take any size are [FormISO], [FormUnified], [FormWhitworth],
// [FormTrapezoidal] and [FormAcme]. The diameter must be from 0.25 mm to 300 mm
// and the pitch from 0.05 mm to a quarter of the diameter, or to a half for the
// last two. The inch forms take diameters in whole 64ths or ten-thousandths of
// an inch and pitches of a whole, half or quarter number of threads to the inch.
// The series is [Special], or [UNS] for the Unified form.
func New(form Form, major, pitch units.Length) (Thread, error) {
	most := 0.25
	inch := form == FormUnified || form == FormWhitworth || form == FormAcme
	switch form {
	case FormTrapezoidal, FormAcme:
		most = 0.5
	case FormISO, FormUnified, FormWhitworth:
	default:
		return Thread{}, fail.Argument("form", form, "not a form that takes any size",
			"ISO metric, Unified, Whitworth, trapezoidal, Acme", units.ErrUnknown)
	}
	if major.Cmp(units.MM(0.25)) < 0 || major.Cmp(units.MM(300)) > 0 {
		return Thread{}, fail.OutOfRange("major diameter", major, "0.25 mm to 300 mm")
	}
	if limit := major.Scale(most); pitch.Cmp(units.MM(0.05)) < 0 || pitch.Cmp(limit) > 0 {
		return Thread{}, fail.OutOfRange("pitch", pitch, "0.05 mm to "+limit.Text(units.Millimetres, 3)+" on this diameter")
	}
	tpi := math.Round(4*25.4/pitch.MM()) / 4
	if inch && perInch(tpi) != pitch {
		return Thread{}, fail.OutOfRange("pitch", pitch,
			"a whole, half or quarter number of threads to the inch in this form")
	}
	var size string
	if inch {
		size = inches(major)
		if back, err := units.ParseLength(size + " in"); err != nil || back != major {
			return Thread{}, fail.OutOfRange("major diameter", major, "whole 64ths or ten-thousandths of an inch in this form")
		}
	}
	ref := source.Ref{Kind: source.Derived, Note: specialNotes[form]}
	var t Thread
	switch form {
	case FormISO:
		t = special(metric(major, pitch, ref), form, form.metricName(major, pitch)+" special")
	case FormUnified:
		if whole := major.Inch(); whole == math.Trunc(whole) && (whole > 2 || tpi >= 40) {
			size += ".0" // without it the inches read back as a screw number
		}
		t = unified(major, tpi, ref)
		t.series, t.name = UNS, UNS.row().inchName(size, tpi)
	case FormWhitworth:
		t = special(whitworth(major, tpi, ref), form, size+"x"+count(tpi)+" Whitworth")
	case FormTrapezoidal:
		t = special(trapezoidal(major, pitch, ref), form, form.metricName(major, pitch)+" special")
	case FormAcme:
		t = special(acme(major, tpi, ref), form, size+"-"+count(tpi)+" Acme special")
	}
	if t.root.Sign() <= 0 {
		return Thread{}, fail.Wrong("pitch", pitch, "the root clearance leaves no core on this diameter", "a larger diameter")
	}
	return t, nil
}

const byFormulas = "special size; basic diameters by the formulas of the "

// specialNotes say where the sizes of a special thread are from, by its form.
var specialNotes = [...]string{
	FormISO:         byFormulas + "ISO metric form",
	FormUnified:     byFormulas + "Unified form",
	FormWhitworth:   byFormulas + "Whitworth form",
	FormTrapezoidal: byFormulas + "trapezoidal form",
	FormAcme:        byFormulas + "Acme form",
}

func special(t Thread, form Form, name string) Thread {
	t.series, t.form, t.name = Special, form, name
	return t
}
