package fits

import (
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Fit is a hole and a shaft of ISO 286 that go together: H7/g6.
type Fit struct{ Hole, Shaft Class }

// A Result is what two parts with limits make of each other. Clearance is hole
// less shaft, on the diameter; below zero it is interference.
type Result struct {
	Hole, Shaft  Limits
	MinClearance units.Length // smallest hole on the largest shaft
	MaxClearance units.Length // largest hole on the smallest shaft
	Kind         Kind
}

// At returns the limits of both parts at a nominal size and the fit they make;
// see [Class.At] for range, source and errors.
func (f Fit) At(nominal units.Length) (Result, error) {
	if !f.known() {
		return Result{}, badFit(f.String())
	}
	hole, err := f.Hole.At(nominal)
	if err != nil {
		return Result{}, err
	}
	shaft, err := f.Shaft.At(nominal)
	if err != nil {
		return Result{}, err
	}
	return mate(hole, shaft), nil
}

// Mate returns the fit of a hole and a shaft with any limits: a reamed hole and
// a ground bar, or two parts that have been measured (see [Exact]). Limits that
// are no part's are an [*units.ArgumentError].
func Mate(hole, shaft Limits) (Result, error) {
	if err := hole.check("limits of the hole"); err != nil {
		return Result{}, err
	}
	if err := shaft.check("limits of the shaft"); err != nil {
		return Result{}, err
	}
	return mate(hole, shaft), nil
}

func mate(hole, shaft Limits) Result {
	r := Result{Hole: hole, Shaft: shaft, MinClearance: hole.Min.Sub(shaft.Max), MaxClearance: hole.Max.Sub(shaft.Min)}
	switch {
	case r.MinClearance.Sign() >= 0:
		r.Kind = Clearance
	case r.MaxClearance.Sign() <= 0:
		r.Kind = Interference
	default:
		r.Kind = Transition
	}
	return r
}

// MeanClearance returns the clearance of two parts that are both at their mean
// size.
func (r Result) MeanClearance() units.Length { return r.Hole.Mean().Sub(r.Shaft.Mean()) }

// String returns the fit as it stands on a drawing: "H7/g6".
func (f Fit) String() string { return f.Hole.String() + "/" + f.Shaft.String() }

// ParseFit reads a fit, the hole in front of the shaft: H7/g6, H7-g6, with or
// without spaces round the stroke. Other text is an [*units.ArgumentError].
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
	f := Fit{h, c}
	if !f.known() {
		return Fit{}, badFit(s)
	}
	return f, nil
}

// known reports whether it is a hole and a shaft.
func (f Fit) known() bool { return f.Hole.Feature() == Hole && f.Shaft.Feature() == Shaft }

// ParseSizedFit reads a nominal size and a fit as they stand on a drawing, in
// millimetres unless a unit is given: "25H7/g6", "34 H11/c11", "1/2 in H7-g6";
// a diameter sign in front is passed over. Other text is an
// [*units.ArgumentError].
func ParseSizedFit(s string) (nominal units.Length, f Fit, err error) {
	return parseSized(s, "size and fit", `"25H7/g6", "34 mm H11/c11"`, ParseFit)
}

// MarshalText implements [encoding.TextMarshaler]. What is not a hole and a shaft
// is an error.
func (f Fit) MarshalText() ([]byte, error) {
	if !f.known() {
		return nil, badFit(f.String())
	}
	return []byte(f.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseFit].
func (f *Fit) UnmarshalText(text []byte) error { return unmarshal(f, ParseFit, text) }

func badFit(s string) error {
	return &units.ArgumentError{Package: "fits", Field: "fit", Value: quoted(s), Problem: "not a hole and a shaft", Accepted: "the class of the hole, a stroke, the class of the shaft: H7/g6 or H7-g6", Err: units.ErrUnknown}
}

// A Kind says what a fit does whichever way the parts come out.
type Kind int

// The kinds of fit, ISO 286-1. The zero value is none.
const (
	Clearance    Kind = iota + 1 // never less than none
	Transition                   // clearance or interference
	Interference                 // never clearance
)

var kinds = names.Set{Package: "fits", Type: "Kind", Field: "kind of fit", Texts: []string{"", "clearance", "transition", "interference"}}

// String returns "clearance", "transition" or "interference".
func (k Kind) String() string { return kinds.Text(int(k)) }

// ParseKind returns the kind of that name. Another text is an
// [*units.ArgumentError] that lists the accepted ones.
func ParseKind(s string) (Kind, error) {
	v, err := kinds.Value(s)
	return Kind(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (k Kind) MarshalText() ([]byte, error) { return kinds.Marshal(int(k)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (k *Kind) UnmarshalText(text []byte) error { return unmarshal(k, ParseKind, text) }
