package thread

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Form is the profile of a thread. The zero value is no form.
type Form int

// The forms of thread.
const (
	FormISO         Form = iota + 1 // ISO metric, 60 degrees (ISO 68-1)
	FormUnified                     // Unified, 60 degrees (ASME B1.1)
	FormWhitworth                   // Whitworth, 55 degrees (BS 84): BSW, BSF, model engineer, brass, British pipe
	FormBA                          // British Association, 47.5 degrees (BS 93)
	FormCycle                       // British Standard Cycle, 60 degrees, rounded crest and root
	FormNPT                         // American pipe, 60 degrees, truncated (ASME B1.20.1)
	FormTrapezoidal                 // ISO metric trapezoidal, 30 degrees (ISO 2901)
	FormAcme                        // general purpose Acme, 29 degrees (ASME B1.5)
)

var forms = [...]struct {
	name    string
	degrees float64 // included angle
}{
	FormISO:         {"ISO metric", 60},
	FormUnified:     {"Unified", 60},
	FormWhitworth:   {"Whitworth", 55},
	FormBA:          {"BA", 47.5},
	FormCycle:       {"Cycle", 60},
	FormNPT:         {"NPT", 60},
	FormTrapezoidal: {"trapezoidal", 30},
	FormAcme:        {"Acme", 29},
}

func (f Form) known() bool { return f > 0 && int(f) < len(forms) }

// String returns the name of the form: "ISO metric", "Unified", "Whitworth",
// "BA", "Cycle", "NPT", "trapezoidal" or "Acme".
func (f Form) String() string {
	if !f.known() {
		return fmt.Sprintf("Form(%d)", int(f))
	}
	return forms[f].name
}

// ParseForm returns the form of that name, in capitals or not; see
// [Form.String].
func ParseForm(name string) (Form, error) {
	for f, def := range forms {
		if f > 0 && strings.EqualFold(def.name, strings.TrimSpace(name)) {
			return Form(f), nil
		}
	}
	var names []string
	for _, def := range forms[1:] {
		names = append(names, def.name)
	}
	return 0, &units.ArgumentError{Package: "thread", Field: "form", Value: fmt.Sprintf("%q", name), Accepted: strings.Join(names, ", "), Err: units.ErrUnknown}
}

// MarshalText implements [encoding.TextMarshaler].
func (f Form) MarshalText() ([]byte, error) {
	if !f.known() {
		return nil, &units.ArgumentError{Package: "thread", Field: "form", Value: f.String(), Err: units.ErrUnknown}
	}
	return []byte(f.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Form) UnmarshalText(text []byte) error {
	v, err := ParseForm(string(text))
	if err == nil {
		*f = v
	}
	return err
}

// Angle returns the included angle between the flanks, zero for no form.
func (f Form) Angle() units.Angle {
	if !f.known() {
		return 0
	}
	return units.Angle(forms[f].degrees) * units.Degree
}

// FundamentalHeight returns H, the height of the sharp triangle on pitch p:
//
//	H = p / (2 tan(a/2))
//
// with the included angle a. It is zero for no form.
func (f Form) FundamentalHeight(p units.Length) units.Length {
	if !f.known() {
		return units.Length{}
	}
	return p.Scale(1 / (2 * math.Tan(f.Angle().Radians()/2)))
}
