package finding

import (
	"strings"

	"github.com/valvechest/valvechest/units/source"
)

// A Code names what a finding is about, for programs: a few lower-case words
// with hyphens between them, such as "late-steam". The packages declare theirs
// as constants, and no two packages mean different things by one.
type Code string

// A Finding is one thing to be said, with what puts it right.
type Finding struct {
	Code     Code        `json:"code,omitempty"`
	Severity Severity    `json:"severity"`
	Where    string      `json:"where,omitempty"`    // the part or place, where the text does not name it: "cylinder cover"
	Text     string      `json:"text"`               // full sentences
	Remedies []string    `json:"remedies,omitempty"` // what puts it right, each a full sentence, the first choice first
	Refs     source.Refs `json:"sources,omitzero"`   // where the rule or the figure is from; none: arithmetic
	Slip     bool        `json:"slip,omitempty"`     // it looks like a slip in what was stated; told before what it explains
}

// Plain returns the finding itself; types that embed it have the method too.
func (f Finding) Plain() Finding { return f }

// String returns the finding in one line: severity, place, text, remedies and
// sources.
func (f Finding) String() string {
	var b strings.Builder
	b.WriteString(f.Severity.String())
	if f.Slip {
		b.WriteString(", or a slip")
	}
	b.WriteString(": ")
	if f.Where != "" {
		b.WriteString(f.Where + ": ")
	}
	b.WriteString(f.Text)
	for _, remedy := range f.Remedies {
		b.WriteString(" " + remedy)
	}
	if !f.Refs.IsZero() {
		b.WriteString(" (" + f.Refs.String() + ")")
	}
	return b.String()
}

// A Precaution is what to do, or not to do, so that work which can hurt somebody
// does not, whatever the sizes are.
type Precaution struct {
	Code Code       `json:"code,omitempty"`
	Text string     `json:"text"`
	Ref  source.Ref `json:"source,omitzero"`
}

// String returns the text of the precaution.
func (p Precaution) String() string { return p.Text }

// LocalCodes is the code of the precaution of [CodesOfThePlace].
const LocalCodes Code = "local-codes"

// CodesOfThePlace returns what stands below the other precautions of every program
// whose work can hurt somebody: the codes of the place come before its figures.
func CodesOfThePlace() Precaution {
	return Precaution{
		Code: LocalCodes,
		Text: "Local codes, the makers' limits and licensed practice, where they exist for this work, come before" +
			" anything printed here.",
		Ref: source.Practice(),
	}
}
