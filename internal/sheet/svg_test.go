package sheet

import (
	"bytes"
	"testing"
)

func TestSVG(t *testing.T) {
	var b bytes.Buffer
	if err := WriteSVG(&b, `Cover "A" & B`, everything()); err != nil {
		t.Fatal(err)
	}
	// Y is turned over on a sheet of 297 mm; the half circle runs anticlockwise,
	// which is sweep flag 0, and the last side clockwise, which is 1.
	const want = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="210mm" height="297mm" viewBox="0 0 210 297">
<title>Cover &quot;A&quot; &amp; B</title>
<rect class="PAPER" width="210" height="297" fill="#fff"/>
<g class="THICK" fill="none" stroke="#000" stroke-linejoin="round" stroke-width="0.35">
<line x1="10" y1="277" x2="110" y2="277"/>
<circle cx="50" cy="197" r="20"/>
<path d="M0 297L10 297A5 5 0 0 0 10 287L0 287A6.25 6.25 0 0 1 0 297Z"/>
<path fill="#000" stroke="none" d="M1 296L2 296L2 294Z"/>
</g>
<g class="THIN" fill="none" stroke="#000" stroke-linejoin="round" stroke-width="0.18" stroke-dasharray="6 0.8 1.2 0.8">
<path d="M80 197A30 30 0 0 0 71.2132 175.7868A30 30 0 0 0 50 167"/>
<text fill="#000" stroke="none" font-family="Liberation Sans, Arial, Helvetica, sans-serif" font-size="3.6338" x="100" y="97" textLength="18.4233" lengthAdjust="spacingAndGlyphs" text-anchor="middle" transform="rotate(-90 100 97)">ø36 &lt;&amp;&gt; 5°</text>
</g>
</svg>
`
	if got := b.String(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
