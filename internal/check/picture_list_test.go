package check

import (
	"strings"
	"testing"
)

// A picture of a square of 10 mm with a text, a row of strokes that fills a space, and an
// arc: what is told of it, worked by hand. The middle of
// a quarter circle is 2*r/pi from its own, either way.
func TestPictureList(t *testing.T) {
	const svg = `<svg width="40mm" height="30mm" viewBox="0 0 40 30"><title>Square</title>
<g class="EDGES" stroke-width="0.5"><path d="M0 10L10 10L10 20L0 20Z"/><line x1="1" y1="1" x2="4.001" y2="5"/></g>
<g class="HATCH" stroke-width="0.13"><line x1="0" y1="30" x2="2" y2="30"/><line x1="0" y1="20" x2="2" y2="20"/></g>
<g class="CENTRES" stroke-width="0.18" stroke-dasharray="6 1"><path d="M20 30A10 10 0 0 0 30 20"/><circle cx="8" cy="9" r="2"/></g>
<g class="TEXT"><text x="3" y="4" font-size="4" textLength="6">Axe</text></g></svg>`
	const want = `Square: 40 x 30
  TEXT 2.75 high: 3,26 "Axe"
  EDGES 0.5 wide: 0,20 10,20 10,10 0,10 closed; 1,29 4,25
  HATCH 0.13 wide: 2, 4 long about 1,5 spread 0.58,5
  CENTRES 0.18 wide broken: 65 points from 20,0 to 30,10, 15.7 long about 26.37,3.63 spread 3.08,3.08
  circles CENTRES: 8,21 2
  arcs CENTRES: 20,10 10 from 20,0 to 30,10 turns 90
`
	if line, now, was := differing(ReadPicture(t, svg).List(), want); line > 0 {
		t.Errorf("line %d: %q, want %q", line, now, was)
	}
	var many strings.Builder
	for range listedStrokes + 1 {
		many.WriteString(`<line x1="1" y1="29" x2="2" y2="29"/>`)
	}
	text := ReadPicture(t, `<svg width="40mm" height="30mm" viewBox="0 0 40 30"><g class="EDGES" stroke-width="0.5">`+many.String()+`</g></svg>`).List()
	if want := "EDGES 0.5 wide: 81, 81 long about 1.5,1 spread 0.29,0"; !strings.Contains(text, want) {
		t.Errorf("%q, want %q", text, want)
	}
}
