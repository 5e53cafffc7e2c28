package check

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
)

// A Picture is what a reader of SVG that shares no code with the writer finds in a
// file: lines, circles, arcs, filled shapes and texts, in millimetres with the origin in
// the lower left corner and Y up.
type Picture struct {
	Width, Height float64
	Title         string
	Strokes       []Stroke
	Circles       []Round
	Arcs          []Round // also those that are parts of strokes
	Fills         []Stroke
	Texts         []Writing
}

// A Spot is a point of a picture.
type Spot struct{ X, Y float64 }

// A Stroke is a line through points; an arc in it is a chain of chords of at most 1/256
// of a turn.
type Stroke struct {
	Layer  string
	Width  float64
	Dashed bool
	Closed bool
	Spots  []Spot
}

// A Round is a circle or an arc; of an arc From and To are its ends, and Sweep is its
// angle in radians, positive anticlockwise as it is seen.
type Round struct {
	Layer    string
	Centre   Spot
	Radius   float64
	From, To Spot
	Sweep    float64
}

// A Writing is a text and the box that its capitals and, if it has any, the tails of its
// letters fill: lower left, lower right, upper right and upper left as it is read.
type Writing struct {
	Layer   string
	Value   string
	Capital float64 // height of its capitals
	Turn    float64 // degrees, anticlockwise
	Box     [4]Spot
}

// ReadPicture reads an SVG file. What it does not know (another element, a path command,
// a size without its unit) ends the test.
func ReadPicture(t testing.TB, svg string) *Picture {
	t.Helper()
	r := pictureReader{decoder: xml.NewDecoder(strings.NewReader(svg)), picture: &Picture{}}
	for {
		token, err := r.decoder.Token()
		if err == io.EOF {
			break
		}
		if err == nil {
			err = r.token(token)
		}
		if err != nil {
			t.Fatalf("picture: %v", err)
		}
	}
	if len(r.groups) != 0 || r.picture.Width == 0 {
		t.Fatal("picture: no whole SVG")
	}
	return r.picture
}

type pictureReader struct {
	decoder *xml.Decoder
	picture *Picture
	groups  []pictureGroup
	text    *Writing
	title   bool
	clip    bool
	anchor  Spot
	span    float64
	side    string
}

// A pictureGroup is what an element hands on to those in it.
type pictureGroup struct {
	layer          string
	width          float64
	dashed         bool
	scaleX, scaleY float64
}

func (r *pictureReader) token(token xml.Token) error {
	switch e := token.(type) {
	case xml.StartElement:
		return r.start(e)
	case xml.EndElement:
		switch e.Name.Local {
		case "text":
			r.endText()
		case "title":
			r.title = false
		case "clipPath":
			r.clip = false
		}
		r.groups = r.groups[:len(r.groups)-1]
	case xml.CharData:
		switch {
		case r.title && len(r.groups) == 2:
			r.picture.Title += string(e)
		case r.text != nil:
			r.text.Value += string(e)
		case strings.TrimSpace(string(e)) != "" && !r.title:
			return fmt.Errorf("text %q outside a text element", e)
		}
	}
	return nil
}

func (r *pictureReader) start(e xml.StartElement) error {
	attrs := map[string]string{}
	for _, a := range e.Attr {
		attrs[a.Name.Local] = a.Value
	}
	here := pictureGroup{scaleX: 1, scaleY: 1}
	if len(r.groups) > 0 {
		here = r.groups[len(r.groups)-1]
	}
	number := func(name string) float64 {
		v, err := strconv.ParseFloat(attrs[name], 64)
		if err != nil {
			return math.NaN()
		}
		return v
	}
	if class, ok := attrs["class"]; ok {
		here.layer = class
	}
	if _, ok := attrs["stroke-width"]; ok {
		here.width = number("stroke-width")
	}
	if dashes, ok := attrs["stroke-dasharray"]; ok {
		here.dashed = dashes != "none"
	}
	r.groups = append(r.groups, here)
	spot := func(x, y float64) Spot { return Spot{x * here.scaleX, r.picture.Height - y*here.scaleY} }
	var numbers []float64
	switch e.Name.Local {
	case "svg":
		var box [4]float64
		if _, err := fmt.Sscan(attrs["viewBox"], &box[0], &box[1], &box[2], &box[3]); err != nil {
			return fmt.Errorf("viewBox %q: %v", attrs["viewBox"], err)
		}
		for i, side := range [...]string{"width", "height"} {
			value, ok := strings.CutSuffix(attrs[side], "mm")
			if v, err := strconv.ParseFloat(value, 64); !ok || err != nil || math.Abs(v-box[2+i]) > 1e-6 || box[i] != 0 {
				return fmt.Errorf("%s %q does not match viewBox %v", side, attrs[side], box)
			}
		}
		r.picture.Width, r.picture.Height = box[2], box[3]
	case "title", "desc":
		r.title = true
	case "clipPath":
		r.clip = true
	case "g":
		if turn := attrs["transform"]; turn != "" {
			top := &r.groups[len(r.groups)-1]
			if _, err := fmt.Sscanf(turn, "scale(%g %g)", &top.scaleX, &top.scaleY); err != nil {
				return fmt.Errorf("transform %q of a group", turn)
			}
		}
	case "rect":
		if !r.clip && attrs["class"] != "PAPER" {
			return fmt.Errorf("a rectangle that is neither paper nor clips: %v", attrs)
		}
	case "line":
		numbers = []float64{number("x1"), number("y1"), number("x2"), number("y2")}
		r.picture.Strokes = append(r.picture.Strokes, Stroke{here.layer, here.width, here.dashed, false,
			[]Spot{spot(numbers[0], numbers[1]), spot(numbers[2], numbers[3])}})
	case "circle":
		numbers = []float64{number("cx"), number("cy"), number("r")}
		r.picture.Circles = append(r.picture.Circles,
			Round{Layer: here.layer, Centre: spot(numbers[0], numbers[1]), Radius: numbers[2] * here.scaleX})
	case "path":
		return r.path(attrs["d"], attrs["fill"], here)
	case "text":
		numbers = []float64{number("x"), number("y"), number("font-size"), number("textLength")}
		r.anchor, r.span, r.side = spot(numbers[0], numbers[1]), numbers[3], attrs["text-anchor"]
		r.text = &Writing{Layer: here.layer, Capital: numbers[2] * 1409 / 2048} // OS/2 table of Liberation Sans
		if turn := attrs["transform"]; turn != "" {
			var x, y float64
			if _, err := fmt.Sscanf(turn, "rotate(%g %g %g)", &r.text.Turn, &x, &y); err != nil || x != numbers[0] || y != numbers[1] {
				return fmt.Errorf("transform %q of a text", turn)
			}
			r.text.Turn *= -1
		}
	default:
		return fmt.Errorf("element %s", e.Name.Local)
	}
	for _, v := range numbers {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%s lacks a number: %v", e.Name.Local, attrs)
		}
	}
	return nil
}

// tails are the letters that hang below the line.
const tails = "gjpqy,;()[]{}|_@Qøµμ"

func (r *pictureReader) endText() {
	w := *r.text
	r.text = nil
	left := 0.0
	switch r.side {
	case "middle":
		left = -r.span / 2
	case "end":
		left = -r.span
	}
	low := 0.0
	if strings.ContainsAny(w.Value, tails) {
		low = -0.3 * w.Capital
	}
	sin, cos := math.Sincos(w.Turn * math.Pi / 180)
	for i, c := range [4]Spot{{left, low}, {left + r.span, low}, {left + r.span, w.Capital}, {left, w.Capital}} {
		w.Box[i] = Spot{r.anchor.X + c.X*cos - c.Y*sin, r.anchor.Y + c.X*sin + c.Y*cos}
	}
	r.picture.Texts = append(r.picture.Texts, w)
}

// path reads the commands M, L, A and Z of a path.
func (r *pictureReader) path(d, fill string, here pictureGroup) error {
	stroke := Stroke{Layer: here.layer, Width: here.width, Dashed: here.dashed}
	spot := func(x, y float64) Spot { return Spot{x * here.scaleX, r.picture.Height - y*here.scaleY} }
	rest := d
	for rest != "" {
		command := rest[0]
		end := strings.IndexAny(rest[1:], "MLAZmlaz") + 1
		if end == 0 {
			end = len(rest)
		}
		var n []float64
		for field := range strings.FieldsFuncSeq(rest[1:end], func(c rune) bool { return c == ' ' || c == ',' }) {
			v, err := strconv.ParseFloat(field, 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("path %q: %q is no number", d, field)
			}
			n = append(n, v)
		}
		rest = rest[end:]
		switch {
		case command == 'M' && len(n) == 2 && len(stroke.Spots) == 0, command == 'L' && len(n) == 2 && len(stroke.Spots) > 0:
			stroke.Spots = append(stroke.Spots, spot(n[0], n[1]))
		case command == 'A' && len(n) == 7 && len(stroke.Spots) > 0:
			from := stroke.Spots[len(stroke.Spots)-1]
			arc := roundBetween(from, spot(n[5], n[6]), n[0]*here.scaleX, n[3] != 0, n[4] == 0)
			arc.Layer = here.layer
			r.picture.Arcs = append(r.picture.Arcs, arc)
			chords := math.Ceil(math.Abs(arc.Sweep) / (2 * math.Pi / 256))
			first := math.Atan2(from.Y-arc.Centre.Y, from.X-arc.Centre.X)
			for i := 1.0; i < chords; i++ {
				sin, cos := math.Sincos(first + arc.Sweep*i/chords)
				stroke.Spots = append(stroke.Spots, Spot{arc.Centre.X + arc.Radius*cos, arc.Centre.Y + arc.Radius*sin})
			}
			stroke.Spots = append(stroke.Spots, arc.To)
		case command == 'Z' && len(n) == 0:
			stroke.Closed = true
		default:
			return fmt.Errorf("path %q: command %c with %d numbers", d, command, len(n))
		}
	}
	if n := len(stroke.Spots) - 1; stroke.Closed && n > 1 && stroke.Spots[n] == stroke.Spots[0] {
		stroke.Spots = stroke.Spots[:n] // the last side was drawn before it was closed
	}
	if len(stroke.Spots) < 2 {
		return fmt.Errorf("path %q leads nowhere", d)
	}
	if fill != "" && fill != "none" {
		r.picture.Fills = append(r.picture.Fills, stroke)
		return nil
	}
	r.picture.Strokes = append(r.picture.Strokes, stroke)
	return nil
}

// roundBetween returns the arc between two points (SVG 1.1, appendix F.6.5, for circles).
func roundBetween(from, to Spot, radius float64, large, anticlockwise bool) Round {
	half := Spot{(to.X - from.X) / 2, (to.Y - from.Y) / 2}
	chord := math.Hypot(half.X, half.Y)
	radius = max(radius, chord)
	rise := math.Sqrt(radius*radius-chord*chord) / chord
	if large == anticlockwise { // the centre is to the right of the way
		rise = -rise
	}
	centre := Spot{from.X + half.X - half.Y*rise, from.Y + half.Y + half.X*rise}
	sweep := math.Atan2(to.Y-centre.Y, to.X-centre.X) - math.Atan2(from.Y-centre.Y, from.X-centre.X)
	switch {
	case anticlockwise && sweep <= 0:
		sweep += 2 * math.Pi
	case !anticlockwise && sweep >= 0:
		sweep -= 2 * math.Pi
	}
	return Round{Centre: centre, Radius: radius, From: from, To: to, Sweep: sweep}
}

// On returns the strokes of a layer.
func (p *Picture) On(layer string) []Stroke {
	var on []Stroke
	for _, s := range p.Strokes {
		if s.Layer == layer {
			on = append(on, s)
		}
	}
	return on
}

// Says reports whether a text of the picture is the given one.
func (p *Picture) Says(text string) bool {
	for _, w := range p.Texts {
		if w.Value == text {
			return true
		}
	}
	return false
}
