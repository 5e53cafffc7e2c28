package joint

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

func TestPrecautions(t *testing.T) {
	seen := map[finding.Code]bool{}
	for _, p := range Precautions() {
		if seen[p.Code] || p.Code == "" || p.Ref != source.Practice() || !strings.HasSuffix(p.Text, ".") {
			t.Errorf("%+v", p)
		}
		seen[p.Code] = true
	}
	if !seen[EmptyFirst] || !seen[TightenCold] {
		t.Errorf("%v", seen)
	}
}
