package template

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Paper is a size of sheet, upright.
type Paper int

// The sizes. A0 to A4 are those of ISO 216; Letter, Legal and Tabloid are 8.5 x
// 11, 8.5 x 14 and 11 x 17 in.
const (
	A4 Paper = iota
	A3
	A2
	A1
	A0
	Letter
	Legal
	Tabloid
)

var paperNames = names.Set{
	Package: "template", Type: "Paper", Field: "paper",
	Texts: []string{"A4", "A3", "A2", "A1", "A0", "Letter", "Legal", "Tabloid"},
}

// Papers returns all of them.
func Papers() []Paper { return []Paper{A4, A3, A2, A1, A0, Letter, Legal, Tabloid} }

// Size returns the width and height of the sheet, ISO 216 and the North American
// sizes; zero for a paper that there is none of.
func (p Paper) Size() (width, height units.Length) {
	switch p {
	case A4:
		return units.MM(210), units.MM(297)
	case A3:
		return units.MM(297), units.MM(420)
	case A2:
		return units.MM(420), units.MM(594)
	case A1:
		return units.MM(594), units.MM(841)
	case A0:
		return units.MM(841), units.MM(1189)
	case Letter:
		return units.Inch(8.5), units.Inch(11)
	case Legal:
		return units.Inch(8.5), units.Inch(14)
	case Tabloid:
		return units.Inch(11), units.Inch(17)
	}
	return units.Length{}, units.Length{}
}

// String returns "A4" or "Letter".
func (p Paper) String() string { return paperNames.Text(int(p)) }

// ParsePaper returns the paper of that name, in capitals or not.
func ParsePaper(s string) (Paper, error) {
	v, err := paperNames.Value(s)
	return Paper(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (p Paper) MarshalText() ([]byte, error) { return paperNames.Marshal(int(p)) }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParsePaper].
func (p *Paper) UnmarshalText(text []byte) error { return names.Unmarshal(&paperNames, p, text) }
