package thread

import (
	"math"

	"github.com/valvechest/valvechest/internal/names"
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

var forms = names.Set{Package: "thread", Type: "Form", Field: "form", Texts: []string{
	FormISO: "ISO metric", FormUnified: "Unified", FormWhitworth: "Whitworth", FormBA: "BA", FormCycle: "Cycle",
	FormNPT: "NPT", FormTrapezoidal: "trapezoidal", FormAcme: "Acme",
}}

// formAngles are the included angles between the flanks in degrees.
var formAngles = [...]float64{
	FormISO: 60, FormUnified: 60, FormWhitworth: 55, FormBA: 47.5, FormCycle: 60, FormNPT: 60,
	FormTrapezoidal: 30, FormAcme: 29,
}

// String returns the name of the form: "ISO metric", "Unified", "Whitworth",
// "BA", "Cycle", "NPT", "trapezoidal" or "Acme".
func (f Form) String() string { return forms.Text(int(f)) }

// ParseForm returns the form of that name, in capitals or not; see
// [Form.String].
func ParseForm(name string) (Form, error) {
	v, err := forms.Value(name)
	return Form(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (f Form) MarshalText() ([]byte, error) { return forms.Marshal(int(f)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Form) UnmarshalText(text []byte) error { return names.Unmarshal(&forms, f, text) }

// Forms returns all of them, in order.
func Forms() []Form {
	return []Form{FormISO, FormUnified, FormWhitworth, FormBA, FormCycle, FormNPT, FormTrapezoidal, FormAcme}
}

// Angle returns the included angle between the flanks, zero for no form.
func (f Form) Angle() units.Angle {
	if !forms.Known(int(f)) {
		return 0
	}
	return units.Angle(formAngles[f]) * units.Degree
}

// FundamentalHeight returns H, the height of the sharp triangle on pitch p:
//
//	H = p / (2 * tan(a/2))
//
//	a  included angle
//
// It is zero for no form.
func (f Form) FundamentalHeight(p units.Length) units.Length {
	if !forms.Known(int(f)) {
		return units.Length{}
	}
	return p.Scale(1 / (2 * math.Tan(f.Angle().Radians()/2)))
}
