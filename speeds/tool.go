package speeds

import "github.com/valvechest/valvechest/internal/names"

// A Tool is what the edge is made of. Speeds for one say nothing of another:
// a book of 1914 gives brass 25 to 50 ft/min, and means carbon steel.
type Tool int

// The tool materials. The zero value is none.
const (
	CarbonSteel Tool = iota + 1 // hardened plain carbon steel, soft above some 200 degrees C
	EarlyHSS                    // high-speed and self-hardening steels of about 1900 to 1920
	HSS                         // high-speed steel as sold today
	Carbide                     // brazed or with inserts
)

var toolNames = names.Set{
	Package: "speeds", Type: "Tool", Field: "tool material",
	Texts: []string{"", "carbon steel", "early HSS", "HSS", "carbide"},
}

// Tools returns all of them, in order.
func Tools() []Tool { return sequence[Tool](len(toolNames.Texts)) }

// String returns "carbon steel", "early HSS", "HSS" or "carbide".
func (t Tool) String() string { return toolNames.Text(int(t)) }

// ParseTool returns the tool material of that name; see [Tool.String]. "High
// speed steel" is HSS. Another text is a [*units.ParseError] that lists the
// accepted ones.
func ParseTool(s string) (Tool, error) {
	if names.Plain(s) == "high speed steel" {
		return HSS, nil
	}
	i, err := toolNames.Value(s)
	return Tool(i), err
}

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text.
func (t Tool) MarshalText() ([]byte, error) { return toolNames.Marshal(int(t)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (t *Tool) UnmarshalText(text []byte) error {
	if len(text) > 0 {
		v, err := ParseTool(string(text))
		if err == nil {
			*t = v
		}
		return err
	}
	return names.Unmarshal(&toolNames, t, text)
}
