package thread

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units/source"
)

// Limits name the source of every figure behind them, and which was recalled.
func TestLimitsRefsOwnUpToMemory(t *testing.T) {
	for _, test := range []struct {
		thread, class string
		kind          source.Kind // FromMemory: of one at least
		says          string
	}{
		{"M3", "6g", source.Published, "p. 2025"},
		{"M12", "6g", source.FromMemory, "fundamental deviation recalled, and printed limits agree where they were compared); from memory: ISO 965-1, 1998 (tolerance of the crest"},
		{"M12", "6h", source.FromMemory, "tolerance of the crest diameter recalled"},
		{"M3", "6H", source.Published, "p. 2025"},
		{"M10", "6H", source.Published, "Machinery's Handbook"},
		{"M5", "6H", source.FromMemory, "tolerance of the crest diameter recalled"},
		{"M10x1.25", "6e", source.FromMemory, "fundamental deviation recalled"},
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
		if remembered(l.Refs) != (test.kind == source.FromMemory) || !strings.Contains(l.Refs.String(), test.says) {
			t.Errorf("%s %s: %v", test.thread, test.class, l.Refs)
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
				if memory && !remembered(l.Refs) {
					t.Errorf("%v %s: %v", th, class, l.Refs)
				}
				compared++
			}
		}
	}
	if compared < 200 {
		t.Errorf("only %d limits", compared)
	}
}

// remembered reports whether one of the sources is memory.
func remembered(refs source.Refs) bool {
	for ref := range refs.All() {
		if ref.Kind == source.FromMemory {
			return true
		}
	}
	return false
}
