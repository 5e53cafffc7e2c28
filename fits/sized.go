package fits

import "github.com/valvechest/valvechest/units"

// A SizedFit is a fit at a nominal size, as it stands on a drawing: 25H7/g6. The
// zero value is none.
type SizedFit struct {
	Nominal units.Length
	Fit     Fit
}

// ParseSizedFit reads a nominal size and a fit as they stand on a drawing, in
// millimetres unless a unit is given: "25H7/g6", "34 H11/c11", "1/2 in H7-g6";
// a diameter sign in front is passed over.
func ParseSizedFit(s string) (SizedFit, error) {
	nominal, fit, err := parseSized(s, "size and fit", `"25H7/g6", "34 mm H11/c11"`, ParseFit)
	return SizedFit{nominal, fit}, err
}

// Limits returns the limits of both parts and the fit they make; see
// [Fit.LimitsFor]. See the Example.
func (f SizedFit) Limits() (FitLimits, error) { return f.Fit.LimitsFor(f.Nominal) }

// String returns "25 mm H7/g6". The zero value is blank.
func (f SizedFit) String() string {
	if f == (SizedFit{}) {
		return ""
	}
	return f.Nominal.String() + " " + f.Fit.String()
}

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text,
// and what is not a hole and a shaft is an error.
func (f SizedFit) MarshalText() ([]byte, error) {
	if f == (SizedFit{}) {
		return nil, nil
	}
	text, err := f.Fit.MarshalText()
	if err == nil && len(text) == 0 {
		err = fail.Missing("fit", acceptedFit)
	}
	if err != nil {
		return nil, err
	}
	return append([]byte(f.Nominal.String()+" "), text...), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseSizedFit].
func (f *SizedFit) UnmarshalText(text []byte) error { return unmarshal(f, ParseSizedFit, text) }

// A SizedClass is a tolerance class at a nominal size, as it stands on a drawing:
// 25H7. The zero value is none.
type SizedClass struct {
	Nominal units.Length
	Class   Class
}

// ParseSizedClass reads a nominal size and a class as they stand on a drawing,
// in millimetres unless a unit is given: "25H7", "25 h6", "1/2 in H7"; a
// diameter sign in front is passed over.
func ParseSizedClass(s string) (SizedClass, error) {
	nominal, class, err := parseSized(s, "size and tolerance class", `"25H7", "25 mm h6"`, ParseClass)
	return SizedClass{nominal, class}, err
}

// Limits returns the limits of a part of the class; see [Class.LimitsFor].
func (c SizedClass) Limits() (Limits, error) { return c.Class.LimitsFor(c.Nominal) }

// String returns "25 mm H7". The zero value is blank.
func (c SizedClass) String() string {
	if c == (SizedClass{}) {
		return ""
	}
	return c.Nominal.String() + " " + c.Class.String()
}

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text.
func (c SizedClass) MarshalText() ([]byte, error) {
	if c != (SizedClass{}) && c.Class == (Class{}) {
		return nil, fail.Missing("tolerance class", "such as H7")
	}
	return []byte(c.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseSizedClass].
func (c *SizedClass) UnmarshalText(text []byte) error { return unmarshal(c, ParseSizedClass, text) }
