package template

import (
	"testing"

	"github.com/valvechest/valvechest/gasket/seal"
)

// The precaution on the sheets is in short the one of package seal.
func TestPrecautions(t *testing.T) {
	ours, whole := Precautions(), seal.Precautions()
	if len(ours) != 1 || ours[0].Code != whole[0].Code || ours[0].Ref != whole[0].Ref {
		t.Errorf("%+v, want the code and source of %+v", ours, whole[0])
	}
	if lines := caution(); len(lines) != 2 || lines[0]+" "+lines[1] != ours[0].Text {
		t.Errorf("%q is not %q", lines, ours[0].Text)
	}
}
