package fits

import (
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Fit is a hole and a shaft of ISO 286 that go together: H7/g6. The zero value
// is none.
type Fit struct{ Hole, Shaft Class }

// FitLimits are what two parts with limits make of each other.
type FitLimits struct {
	Hole, Shaft Limits
	Clearance   Band // from the smallest hole on the largest shaft to the largest on the smallest
	Kind        Kind
	Refs        source.Refs `json:",omitzero"` // of both parts
}

// LimitsFor returns the limits of both parts at a nominal size and the fit they
// make; see [Class.LimitsFor] for range and source. See the Example.
func (f Fit) LimitsFor(nominal units.Length) (FitLimits, error) {
	if !f.known() {
		return FitLimits{}, fail.Argument("fit", f.String(), notAFit, acceptedFit, units.ErrUnknown)
	}
	hole, ofHole, err := f.Hole.at(nominal)
	if err != nil {
		return FitLimits{}, err
	}
	shaft, ofShaft, err := f.Shaft.at(nominal)
	if err != nil {
		return FitLimits{}, err
	}
	t := iso()
	r := FitLimits{
		Hole:  Limits{nominal, hole.Min, hole.Max, *t.part(ofHole)},
		Shaft: Limits{nominal, shaft.Min, shaft.Max, *t.part(ofShaft)},
		Refs:  *t.fit(ofHole, ofShaft),
	}
	r.clear()
	return r, nil
}

// Mate returns the fit of a hole and a shaft with any limits: a reamed hole and
// a ground bar, or two parts that have been measured (see [Exact]).
// See the Example.
func Mate(hole, shaft Limits) (FitLimits, error) {
	if err := hole.validate("limits of the hole"); err != nil {
		return FitLimits{}, err
	}
	if err := shaft.validate("limits of the shaft"); err != nil {
		return FitLimits{}, err
	}
	return mate(hole, shaft), nil
}

func mate(hole, shaft Limits) FitLimits {
	r := FitLimits{Hole: hole, Shaft: shaft, Refs: hole.Refs.With(shaft.Refs)}
	r.clear()
	return r
}

// clear works out what the limits of both parts make of each other.
func (r *FitLimits) clear() {
	r.Clearance = Band{r.Hole.Min.Sub(r.Shaft.Max), r.Hole.Max.Sub(r.Shaft.Min)}
	switch {
	case r.Clearance.Min.Sign() >= 0:
		r.Kind = Clearance
	case r.Clearance.Max.Sign() <= 0:
		r.Kind = Interference
	default:
		r.Kind = Transition
	}
}

// MeanClearance returns the clearance of two parts that are both at their mean
// size.
func (r FitLimits) MeanClearance() units.Length { return r.Hole.Mean().Sub(r.Shaft.Mean()) }

// Check says whether the tightest parts are more than a press fit, by
// [CheckInterference], and whether the limits rest on figures that nobody has read
// in a reviewed work.
func (r FitLimits) Check() finding.List {
	list := r.checkTightest()
	if !r.Refs.Recalled() {
		return list
	}
	return append(list, finding.Finding{
		Code: LimitsRecalled, Text: "Figures behind these limits are from memory.",
		Remedies: []string{"Hold them against the standard before metal is cut."}, Refs: r.Refs,
	})
}

// String returns the fit as it stands on a drawing: "H7/g6". The zero value is
// blank.
func (f Fit) String() string {
	if f == (Fit{}) {
		return ""
	}
	return f.Hole.String() + "/" + f.Shaft.String()
}

// ParseFit reads a fit, the hole in front of the shaft: H7/g6, H7-g6, with or
// without spaces round the stroke.
func ParseFit(s string) (Fit, error) {
	hole, shaft, ok := strings.Cut(s, "/")
	if !ok {
		hole, shaft, ok = strings.Cut(s, "-")
	}
	if !ok {
		return Fit{}, badFit(s)
	}
	h, err := ParseClass(hole)
	if err != nil {
		return Fit{}, err
	}
	c, err := ParseClass(shaft)
	if err != nil {
		return Fit{}, err
	}
	f, turned := Fit{h, c}, Fit{c, h}
	switch {
	case f.known():
		return f, nil
	case turned.known():
		return Fit{}, badFit(s, turned.String())
	}
	return Fit{}, badFit(s)
}

// known reports whether it is a hole and a shaft.
func (f Fit) known() bool { return f.Hole.Feature() == Hole && f.Shaft.Feature() == Shaft }

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text,
// and what is not a hole and a shaft is an error.
func (f Fit) MarshalText() ([]byte, error) {
	if f != (Fit{}) && !f.known() {
		return nil, fail.Argument("fit", f.String(), notAFit, acceptedFit, units.ErrUnknown)
	}
	return []byte(f.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseFit].
func (f *Fit) UnmarshalText(text []byte) error { return unmarshal(f, ParseFit, text) }

// GobEncode implements [gob.GobEncoder] with [Fit.MarshalText].
func (f Fit) GobEncode() ([]byte, error) { return f.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Fit.UnmarshalText].
func (f *Fit) GobDecode(text []byte) error { return f.UnmarshalText(text) }

const (
	notAFit     = "not a hole and a shaft"
	acceptedFit = "the class of the hole, a stroke, the class of the shaft: H7/g6 or H7-g6"
)

func badFit(s string, near ...string) error {
	return fail.Text("fit", s, notAFit, acceptedFit, units.ErrUnknown, near...)
}
