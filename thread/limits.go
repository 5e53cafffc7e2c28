package thread

import (
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Range is the smallest and the largest size that a diameter may have. A zero
// Min or Max means that the standard sets no limit on that side, and is absent in
// JSON.
type Range struct {
	Min units.Length `json:",omitzero"`
	Max units.Length `json:",omitzero"`
}

// Contains reports whether d lies within the range.
func (r Range) Contains(d units.Length) bool {
	return d.Cmp(r.Min) >= 0 && (r.Max.IsZero() || d.Cmp(r.Max) <= 0)
}

// Tolerance returns the largest size less the smallest; zero where there is no limit on
// one side.
func (r Range) Tolerance() units.Length {
	if r.Min.IsZero() || r.Max.IsZero() {
		return units.Length{}
	}
	return r.Max.Sub(r.Min)
}

// String returns "2.9 mm to 3 mm", "from 3 mm", "up to 3 mm" or "no limits".
func (r Range) String() string {
	switch {
	case r == Range{}:
		return "no limits"
	case r.Max.IsZero():
		return "from " + r.Min.String()
	case r.Min.IsZero():
		return "up to " + r.Max.String()
	}
	return r.Min.String() + " to " + r.Max.String()
}

// Limits are the limits of size of a screw or a nut.
type Limits struct {
	Class         string // tolerance class: "6g", "2B", "close"
	External      bool   // of the screw; otherwise of the nut or tapped hole
	Major         Range
	PitchDiameter Range
	Minor         Range
	Refs          source.Refs // of the tolerances, that of the pitch diameter first, with the formula or a doubt in a note
}

// Name returns the class as one says it: "class 6H" and "class 2G"; "normal class" of
// a screw, and "nut limits" or "normal nut limits" where a class of nuts goes by words.
func (l Limits) Name() string {
	nut, isNut := strings.CutSuffix(l.Class, "nut")
	switch {
	case strings.ContainsAny(l.Class, "0123456789"):
		return "class " + strings.TrimSpace(nut)
	case isNut:
		return nut + "nut limits"
	}
	return l.Class + " class"
}

// Limits returns the limits of size in a tolerance class:
//
//	ISO metric    external 6g, 6h, 4g6g, 6e ...; internal 6H, 5H, 4H5H, 6G ... (ISO 965-1)
//	Unified       external 1A, 2A, 3A; internal 1B, 2B, 3B (ASME B1.1)
//	BSW, BSF      external close, medium, free; internal medium nut, normal nut (BS 84)
//	BA            external close (0 to 10), normal (0 to 16); internal nut (BS 93)
//	trapezoidal   external 7e, internal 7H, diameters over 5.6 to 22.4 mm (ISO 2903)
//	Acme          external 2G, internal 2G nut (ASME B1.5)
//
// ISO limits come from the tolerance tables and not from the formulas behind
// them, which round elsewhere: the diameters are rounded to a micrometre first
// and whole micrometres are added. Unified limits follow the worked calculation
// of ASME B1.1 with its order of rounding. BS 84, Acme, 7H, the coefficients for
// Unified, ISO crest tolerances from a pitch of 1.75 mm up and many ISO deviations
// are from memory, and Refs says so of each.
//
// Coatings are not allowed for. A class that the form does not have, or a
// diameter and pitch outside the tables, is an error; nothing is extrapolated.
// Model engineer, brass, cycle and pipe threads have no limits here, as no source
// was found.
func (t Thread) Limits(class string) (Limits, error) {
	switch t.Form() {
	case 0:
		return Limits{}, t.Validate()
	case FormISO:
		return t.limitsISO(class)
	case FormUnified:
		return t.limitsUnified(class)
	case FormTrapezoidal:
		return t.limitsTrapezoidal(class)
	case FormAcme:
		return t.limitsAcme(class)
	}
	switch t.series {
	case BSW, BSF:
		return t.limitsWhitworth(class)
	case BA:
		return t.limitsBA(class)
	}
	return Limits{}, fail.Argument("limits of "+t.name, "", "no source for them",
		"ISO metric, Unified, BSW, BSF, BA, trapezoidal and Acme threads", units.ErrUnknown)
}

// noClass is the error for a tolerance class that the thread does not have.
func (t Thread) noClass(class string, accepted ...string) error {
	return fail.Text("tolerance class", class, "not one of "+t.name, strings.Join(accepted, ", "), units.ErrUnknown)
}

// below returns the range from less below the top up to the top.
func below(top, less units.Length) Range { return Range{Min: top.Sub(less), Max: top} }

// above returns the range from the bottom to more above it.
func above(bottom, more units.Length) Range { return Range{Min: bottom, Max: bottom.Add(more)} }

// UsualClasses returns the classes of ordinary screws and nuts; blank for a thread
// that has none in [Thread.Limits]. Metric ones are 6g and 6H, up to a diameter of
// 1.4 mm 6h and 5H, as ISO 965-2 has them. BA from 17 upwards have no limits in
// theirs, and fine pitches of 0.25 mm and below no nut.
func (t Thread) UsualClasses() (screw, nut string) {
	switch {
	case t.Form() == FormISO && t.major.Cmp(units.MM(1.4)) <= 0: // ISO 965-2, medium quality
		return "6h", "5H"
	case t.Form() == FormISO:
		return "6g", "6H"
	case t.Form() == FormUnified:
		return "2A", "2B"
	case t.series == BA:
		return "normal", "nut"
	case t.Series() == BSW, t.Series() == BSF:
		return "medium", "normal nut"
	case t.Form() == FormTrapezoidal:
		return "7e", "7H"
	case t.Form() == FormAcme:
		return "2G", "2G nut"
	}
	return "", ""
}
