package check

import (
	"math"
	"strings"
	"testing"
)

// drawn is an SVG by hand, 100 by 50 mm.
func drawn(inside string) string {
	return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="100mm" height="50mm" viewBox="0 0 100 50">
<title>By &lt;hand&gt;</title>
<rect class="PAPER" width="100" height="50" fill="#fff"/>
<g class="EDGES" fill="none" stroke="#000" stroke-width="0.5">` + inside + `</g></svg>`
}

// An arc comes out with its centre, radius and sweep for each of the four pairs of flags.
// The circle has its centre 30 mm to the right and 20 mm up and a radius of 10 mm; the arc
// runs from its right to its top, by the short or by the long way.
func TestReadPictureArcs(t *testing.T) {
	for name, tt := range map[string]struct {
		d             string
		centre        Spot
		sweep, length float64
	}{
		"short, anticlockwise": {"M40 30A10 10 0 0 0 30 20", Spot{30, 20}, 90, 15.708},
		"long, clockwise":      {"M40 30A10 10 0 1 1 30 20", Spot{30, 20}, -270, 47.124},
		"short, clockwise":     {"M40 30A10 10 0 0 1 30 20", Spot{40, 30}, -90, 15.708},
		"long, anticlockwise":  {"M40 30A10 10 0 1 0 30 20", Spot{40, 30}, 270, 47.124},
		"half a circle":        {"M40 30A10 10 0 0 0 20 30", Spot{30, 20}, 180, 31.416},
	} {
		p := ReadPicture(t, drawn(`<path d="`+tt.d+`"/>`))
		if p.Title != "By <hand>" || p.Width != 100 || p.Height != 50 || len(p.Arcs) != 1 || len(p.On("EDGES")) != 1 {
			t.Fatalf("%s: %+v", name, p)
		}
		a := p.Arcs[0]
		if math.Hypot(a.Centre.X-tt.centre.X, a.Centre.Y-tt.centre.Y) > 1e-9 || math.Abs(a.Sweep*180/math.Pi-tt.sweep) > 1e-9 ||
			math.Abs(a.Radius-10) > 1e-9 {
			t.Errorf("%s: %+v", name, a)
		}
		length, spots := 0.0, p.Strokes[0].Spots
		for i := 1; i < len(spots); i++ {
			length += math.Hypot(spots[i].X-spots[i-1].X, spots[i].Y-spots[i-1].Y)
		}
		if math.Abs(length-tt.length) > 0.005 {
			t.Errorf("%s: chords are %.3f long, want %.3f", name, length, tt.length)
		}
	}
}

// A picture that cannot be read is told, and one that can is not.
func TestLegible(t *testing.T) {
	text := func(x, y, size, turn string, value string) string {
		return `<text font-size="` + size + `" x="` + x + `" y="` + y + `" textLength="20" transform="rotate(` + turn + " " + x + " " + y + `)">` +
			value + `</text>`
	}
	for name, tt := range map[string]struct{ inside, want string }{
		"fine":               {text("10", "20", "4", "0", "one") + text("10", "16", "4", "0", "two") + `<line x1="9" y1="0" x2="9" y2="50"/>`, ""},
		"beside it, turned":  {text("10", "40", "4", "-90", "up") + `<line x1="11" y1="0" x2="11" y2="50"/>`, ""},
		"on another":         {text("10", "20", "4", "0", "one") + text("29", "22", "4", "0", "two"), "overlap"},
		"off the sheet":      {text("85", "20", "4", "0", "one"), "runs off"},
		"a tail off it":      {text("10", "50", "4", "0", "g"), "runs off"},
		"small":              {text("10", "20", "3", "0", "one"), "2.06 mm high"},
		"on its head":        {text("50", "20", "4", "180", "one"), "on its head"},
		"crossed":            {text("10", "20", "4", "0", "one") + `<line x1="0" y1="19" x2="100" y2="19"/>`, "runs through"},
		"crossed by a slant": {text("10", "20", "4", "0", "one") + `<line x1="28" y1="0" x2="31" y2="50"/>`, "runs through"},
		"in a circle":        {text("10", "20", "4", "0", "o") + `<circle cx="20" cy="20" r="30" />`, "runs off"},
		"on a circle":        {text("10", "20", "4", "0", "o") + `<circle cx="20" cy="20" r="10" />`, "runs through"},
		"a line off it":      {`<line x1="0" y1="0" x2="0" y2="50.1"/>`, "a line of EDGES runs off"},
	} {
		faults := strings.Join(ReadPicture(t, drawn(tt.inside)).illegible(smallestCapital, nil), "; ")
		if (tt.want == "") != (faults == "") || !strings.Contains(faults, tt.want) {
			t.Errorf("%s: %q, want %q", name, faults, tt.want)
		}
	}
	through := ReadPicture(t, drawn(text("10", "20", "4", "0", "one")+`<line x1="0" y1="19" x2="100" y2="19"/>`)).illegible(smallestCapital, []string{"EDGES"})
	if len(through) != 0 {
		t.Errorf("a line that may run through a text is told: %v", through)
	}
}
