package template

import (
	"bytes"
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestDXFHoles checks that circles stand where the pattern has its holes, each
// with a cross, and that the file is never corrected.
func TestDXFHoles(t *testing.T) {
	outline := cover(t)
	var plain, corrected bytes.Buffer
	if err := errors.Join(
		layoutOf(t, outline, Options{}).WriteDXF(&plain),
		layoutOf(t, outline, Options{Correction: Correction{1.1, 1.2}}).WriteDXF(&corrected),
	); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(plain.Bytes(), corrected.Bytes()) {
		t.Error("the correction of a printer is in the DXF file")
	}
	file := strings.ReplaceAll(plain.String(), "\r\n", "|")
	circles := regexp.MustCompile(`0\|CIRCLE\|8\|HOLES\|10\|([^|]*)\|20\|([^|]*)\|30\|0\.0\|40\|([^|]*)\|`).FindAllStringSubmatch(file, -1)
	if !strings.Contains(file, "|1|Jointing of unknown age may hold asbestos:|") {
		t.Error("no caution")
	}
	if len(circles) != 6 {
		t.Fatalf("%d circles on the layer of holes", len(circles))
	}
	for i, c := range circles {
		var v [3]float64
		for j := range v {
			v[j], _ = strconv.ParseFloat(c[j+1], 64)
		}
		angle := math.Pi/2 + float64(i)*math.Pi/3
		if want := [3]float64{14 * math.Cos(angle), 14 * math.Sin(angle), 1.7}; !cmp.Equal(v, want, nearly) {
			t.Errorf("hole %d at %v, want %v", i+1, v, want)
		}
		arms := regexp.MustCompile(`0\|LINE\|8\|CENTRES\|10\|`+c[1]+`\|20\|`+c[2]+`\|30\|0\.0\|11\|([^|]*)\|21\|([^|]*)\|`).FindAllStringSubmatch(file, -1)
		if len(arms) != 4 {
			t.Errorf("hole %d: %d arms of the cross", i+1, len(arms))
		}
		for _, arm := range arms {
			x, _ := strconv.ParseFloat(arm[1], 64)
			y, _ := strconv.ParseFloat(arm[2], 64)
			if past := math.Hypot(x-v[0], y-v[1]) - v[2]; past < 1 {
				t.Errorf("hole %d: an arm reaches %.3f mm past its edge", i+1, past)
			}
		}
	}
	for _, layer := range regexp.MustCompile(`\|8\|([^|]*)\|`).FindAllStringSubmatch(file, -1) {
		if layer[1] != strings.ToUpper(layer[1]) {
			t.Fatalf("layer %s", layer[1])
		}
	}
}

var nearly = cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-8 })
