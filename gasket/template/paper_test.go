package template

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestPaper(t *testing.T) {
	for r := range check.Open(t, "gasket/template/paper.csv").Rows() {
		if r.ID == "A5" || r.ID == "A6" {
			r.Skip("too small for the bars and the title")
			continue
		}
		p, err := ParsePaper(strings.ToLower(r.ID))
		if err != nil {
			t.Error(err)
			continue
		}
		width, height := p.Size()
		r.Within("width_mm", width.MM(), 0) // exact by definition
		r.Within("height_mm", height.MM(), 0)
		r.Compare("width_pt", width.Inch()*72)
		r.Compare("height_pt", height.Inch()*72)
	}
}

func TestPaperNames(t *testing.T) {
	for _, p := range Papers() {
		var back Paper
		text, err := p.MarshalText()
		if err == nil {
			err = back.UnmarshalText(text)
		}
		if err != nil || back != p {
			t.Errorf("%v: %v, %v", p, back, err)
		}
	}
	for _, bad := range []string{"", "A5", "A44", "Quarto\x00"} {
		var unreadable *units.ParseError
		_, err := ParsePaper(bad)
		if !errors.As(err, &unreadable) || !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "A4, A3") {
			t.Errorf("%q: %v", bad, err)
		}
	}
	none := Paper(99)
	if _, err := none.MarshalText(); !errors.Is(err, units.ErrUnknown) || none.String() != "Paper(99)" {
		t.Errorf("%v: %v", none, err)
	}
}

func FuzzParsePaper(f *testing.F) {
	for _, p := range Papers() {
		f.Add(p.String())
	}
	f.Add("a4 ")
	f.Add("Paper(9)")
	f.Fuzz(func(t *testing.T, s string) {
		p, err := ParsePaper(s)
		if err != nil {
			var bad *units.ParseError
			if !errors.As(err, &bad) || p != 0 {
				t.Errorf("%q: %v, %v", s, p, err)
			}
			return
		}
		text, err := p.MarshalText()
		var back Paper
		if width, height := p.Size(); err != nil || back.UnmarshalText(text) != nil || back != p || width.Sign() <= 0 || height.Cmp(width) <= 0 {
			t.Errorf("%q: %v", s, p)
		}
	})
}
