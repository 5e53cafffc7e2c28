package thread

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units/source"
)

// Limits are read only if every figure behind them was.
func TestLimitsRefOwnsUpToMemory(t *testing.T) {
	for _, test := range []struct {
		thread, class string
		kind          source.Kind
		says          string
	}{
		{"M3", "6g", source.Published, "p. 2025"},
		{"M12", "6g", source.FromMemory, "the fundamental deviation and the tolerance of the crest diameter recalled"},
		{"M12", "6h", source.FromMemory, "the tolerance of the crest diameter recalled"},
		{"M3", "6H", source.Published, "p. 2025"},
		{"M10", "6H", source.FromMemory, "read in Machinery's Handbook"},
		{"M10x1.25", "6e", source.FromMemory, "the fundamental deviation recalled"},
		{"1/4-20 UNC", "2A", source.FromMemory, "Tables 3 to 6"},
		{"2 BA", "normal", source.Published, "p. 2115"},
		{"1/4 BSF", "medium", source.FromMemory, "recalled"},
		{"1-5 Acme", "2G", source.FromMemory, "recalled"},
		{"1-5 Acme", "2G nut", source.FromMemory, "recalled"},
		{"Tr 10x2", "7e", source.Published, "rows Tr9x2"},
		{"Tr 10x2", "7H", source.FromMemory, "recalled"},
	} {
		l, err := MustParse(test.thread).Limits(test.class)
		if err != nil {
			t.Error(err)
			continue
		}
		if l.Ref.Kind != test.kind || !strings.Contains(l.Ref.String(), test.says) {
			t.Errorf("%s %s: %v", test.thread, test.class, l.Ref)
		}
	}
	compared := 0
	for series := range 2 {
		for th := range (MetricCoarse + Series(series)).All() {
			for _, class := range []string{"6g", "6h", "6e", "6H", "6G", "5H"} {
				l, err := th.Limits(class)
				if err != nil {
					continue
				}
				crest, memory := isoTables().minor, false
				if l.External {
					crest = isoTables().major
				}
				for _, c := range crest {
					memory = memory || c.pitch == th.pitch && c.ref.Kind == source.FromMemory
				}
				if memory && l.Ref.Kind != source.FromMemory {
					t.Errorf("%v %s: %v", th, class, l.Ref)
				}
				compared++
			}
		}
	}
	if compared < 200 {
		t.Errorf("only %d limits", compared)
	}
}
