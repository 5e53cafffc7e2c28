package strength

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units/source"
)

// An alum bath dissolves steel: it is for the other metals, and its dangers come
// before it.
func TestBrokenTap(t *testing.T) {
	for name, bath := range map[string]bool{"aluminium": true, "brass": true, "gunmetal": true, "steel": false,
		"cast iron": false} {
		at := map[string]int{}
		for i, p := range BrokenTap(metal(t, name)) {
			if p.Ref != source.Practice() || !strings.HasSuffix(p.Text, ".") {
				t.Errorf("%s: %+v", name, p)
			}
			at[string(p.Code)] = i + 1
		}
		if (at["alum-bath"] > 0) != bath || (at["no-alum-bath"] > 0) == bath || bath &&
			at["alum-bath-gas"] > at["alum-bath"] {
			t.Errorf("%s: %v", name, at)
		}
	}
}
