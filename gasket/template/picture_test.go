package template

import (
	"bytes"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
)

// TestPicture checks what stands on a picture, and that many holes are left to
// the DXF file.
func TestPicture(t *testing.T) {
	bare := cover(t)
	bare.Holes = nil
	for name, tt := range map[string]struct {
		outline gasket.Outline
		wants   []string
	}{
		"cover":    {cover(t), []string{`class="PAPER"`, ">Cylinder cover<", ">HOLES FROM THE MIDDLE, mm<", ">3.5 (+0.1)<", ">X 100 mm (3.937 in)<", ">not to cut from<", "asbestos"}},
		"no holes": {bare, []string{">none<"}},
		"many":     {plate(t, 6), []string{"Places of the 36 holes: in the DXF file"}},
	} {
		var b bytes.Buffer
		if err := layoutOf(t, tt.outline, Options{Correction: Correction{1.1, 1.2}}).WritePicture(&b); err != nil {
			t.Fatal(err)
		}
		for _, want := range tt.wants {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: missing %s", name, want)
			}
		}
		if across, up := barEnds(t, b.String()); across != 1 || up != 0 {
			t.Errorf("%s: %d bars across and %d up, want 1 and 0", name, across, up)
		}
		if strings.Contains(b.String(), "scale(") {
			t.Errorf("%s: the correction of a printer is in the picture", name)
		}
	}
}
