package dividing

import (
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// Plates are the circles of a set of index plates, as a source gives them.
type Plates struct {
	Name    string
	Circles []int // holes of each, from the fewest
	Refs    source.Refs
}

// TwoSidedPlate returns the circles of the plate of US Army OD1644 (figure 11),
// with 24 to 43 holes on one side and 46 to 66 on the other.
func TwoSidedPlate() Plates {
	return Plates{
		Name:    "two-sided plate",
		Circles: []int{24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43, 46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66},
		Refs:    source.Of(source.Ref{Kind: source.Published, Title: "US Army OD1644, Milling Machine Operations", Locator: "figure 11"}),
	}
}

// ThreePlates returns the circles of the usual set of three plates with six
// circles each, as a hobby society's article on compound indexing gives them.
func ThreePlates() Plates {
	return Plates{
		Name:    "usual three plates",
		Circles: []int{15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49},
		Refs: source.Of(source.Ref{
			Kind: source.Unreviewed, Title: "A hobby society's article on compound indexing", Edition: "undated",
			Note: "count the holes of yours",
		}),
	}
}

// ParseCircles reads the circles of plates, such as "15 16 17 18 19 20 / 21 23
// 27 29 31 33": numbers from 2 to 500, parted by spaces, commas or slashes.
func ParseCircles(s string) ([]int, error) {
	const accepted = `whole numbers of holes from 2 to 500, such as "15 16 17 / 21 23 27"`
	if len(s) > 2000 {
		return nil, fail.Unreadable("circles", s, "longer than 2000 characters", accepted)
	}
	var circles []int
	for field := range strings.FieldsFuncSeq(s, func(r rune) bool { return strings.ContainsRune(" ,;/\t\n", r) }) {
		c, err := strconv.Atoi(field)
		if err != nil || c < 2 || c > 500 {
			return nil, fail.Unreadable("circles", s, strconv.Quote(field)+" is no circle", accepted)
		}
		circles = append(circles, c)
	}
	if circles == nil {
		return nil, fail.Text("circles", s, "none given", accepted, units.ErrMissing)
	}
	return circles, nil
}

// String returns the head as UnmarshalText reads it: "40:1, 24 25 28"; the zero
// Head is blank.
func (h Head) String() string {
	if h.ratio == 0 {
		return ""
	}
	text := strconv.Itoa(h.ratio) + ":1"
	for i, c := range h.circles {
		if i == 0 {
			text += ","
		}
		text += " " + strconv.Itoa(c)
	}
	return text
}

// MarshalText implements [encoding.TextMarshaler] with [Head.String].
func (h Head) MarshalText() ([]byte, error) { return []byte(h.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] for a ratio and the circles
// of the plates, such as "40:1, 15 16 17 / 21 23 27"; blank text is the zero Head.
func (h *Head) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*h = Head{}
		return nil
	}
	ratio, plates, with := strings.Cut(string(text), ",")
	n, err := strconv.Atoi(strings.TrimSuffix(strings.TrimSpace(ratio), ":1"))
	if err != nil || n < 1 || n > 360 {
		return fail.Unreadable("dividing head", string(text), strconv.Quote(ratio)+" is no ratio", `a ratio up to 360:1 and circles, such as "40:1, 15 16 17"`)
	}
	var circles []int
	if with {
		if circles, err = ParseCircles(plates); err != nil {
			return err
		}
	}
	v, err := NewHead(n, circles...)
	if err != nil {
		return fail.Unreadable("dividing head", string(text), "more than 200 circles", "up to 200 circles")
	}
	*h = v
	return nil
}

// GobEncode implements [gob.GobEncoder] with [Head.MarshalText].
func (h Head) GobEncode() ([]byte, error) { return h.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Head.UnmarshalText].
func (h *Head) GobDecode(text []byte) error { return h.UnmarshalText(text) }
