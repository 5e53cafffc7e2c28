package sheet

import (
	"bytes"
	"encoding/xml"
	"errors"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func TestFit(t *testing.T) {
	long := "A cover with a very long name that never ends"
	got := Fit(long, 2.5, 40)
	if TextWidth(got, 2.5) > 40 || !strings.HasSuffix(got, "…") || !strings.HasPrefix(long, strings.TrimSuffix(got, "…")) {
		t.Errorf("%q", got)
	}
	if Fit("M3", 2.5, 40) != "M3" || Fit("M3", 2.5, 0.1) != "" {
		t.Error("short text changed, or text in no room kept")
	}
	// Seven characters of DXF for a letter: 35 of them and three points are 248.
	got = FitDXF(strings.Repeat("Ж", 100), 2.5, 1000)
	if len(escapeDXF(got)) > mostDXFText || got != strings.Repeat("Ж", 36)+"…" || FitDXF(long, 2.5, 1000) != long {
		t.Errorf("%q is %d characters of DXF", got, len(escapeDXF(got)))
	}
	// widths of the letters in Liberation Sans, 2048 units to the em: H 1479, i 455
	if got, want := TextWidth("Hi", 2.5), (1479.0+455)/2048*2.5/capHeight; math.Abs(got-want) > 0.01 {
		t.Errorf("width %.4f, want %.4f", got, want)
	}
}

// FuzzText holds that no text breaks out of its place in any format, and that
// what can be shown reads back.
func FuzzText(f *testing.F) {
	for _, s := range []string{"Cover", `<script>alert("x")</script>`, "a & b 'c'", "%%c20 50 % ^J %ø %%%%° ^ ^^ \\ \\U+0041", "\x00\r\nSECTION\r\n", "\u202egnp.exe", "ø ° ± ½ 直径 🚂 20 × 25 – 3 …", "]]>", "\xff\xfe", ") Tj ET (", "\ufffe\u2028"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 1000 {
			s = s[:1000]
		}
		shown := printable(s)
		d := New(100, 100)
		d.Text(thick, Text{At: Point{1, 1}, Height: 0.1, Value: s})
		if d.Err() != nil {
			t.Skip(d.Err()) // wider than a sheet may be
		}
		var svg bytes.Buffer
		if err := WriteSVG(&svg, s, d); err != nil {
			t.Fatal(err)
		}
		var doc struct {
			Title string `xml:"title"`
			Text  string `xml:"g>text"`
		}
		if err := xml.Unmarshal(svg.Bytes(), &doc); err != nil {
			t.Fatalf("%v in\n%s", err, svg.String())
		}
		if doc.Title != shown || doc.Text != shown {
			t.Errorf("SVG reads back %q and %q, want %q", doc.Title, doc.Text, shown)
		}
		value := escapeDXF(shown)
		for _, c := range []byte(value) {
			if c < ' ' || c > '~' {
				t.Fatalf("DXF holds byte %#x", c)
			}
		}
		want := strings.NewReplacer("Ø", "ø", "⌀", "ø", "×", "x", "–", "-", "—", "-", "…", "...").Replace(shown)
		apart := func(two string) string { return "% " + two[1:] }
		for range 2 { // once more for three in a row
			want = regexp.MustCompile(`%[%ø°±]`).ReplaceAllStringFunc(want, apart)
		}
		if got := decodeDXF(value); got != want {
			t.Errorf("DXF reads back %q, want %q", got, want)
		}
		var dxf bytes.Buffer
		if err := WriteDXF(&dxf, d); err != nil {
			if !errors.Is(err, units.ErrOutOfRange) {
				t.Fatal(err)
			}
		} else if lines := strings.Count(dxf.String(), "\r\n"); lines%2 != 0 {
			t.Errorf("DXF of %d lines: not pairs", lines)
		}
		var pdf bytes.Buffer
		if err := WritePDF(&pdf, s, d); err != nil {
			t.Fatal(err)
		}
	})
}

func TestPrintable(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"ø3.4 × 6, 90° ± ½", "ø3.4 × 6, 90° ± ½"},
		{"a\x00b\tc\nd", "a�b�c�d"},
		{"\u202Etxt.exe", "�txt.exe"},
		{"zero\u200bwidth", "zero�width"},
		{"engine 🚂", "engine �"},
		{"\xff", "�"},
	} {
		if got := printable(tt.in); got != tt.want {
			t.Errorf("%q: %q, want %q", tt.in, got, tt.want)
		}
	}
}
