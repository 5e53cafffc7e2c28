package thread_test

import (
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// R 1/8 with its gauge length of 4.0 mm: the pitch diameter falls by 4/16 mm to
// the small end.
func TestTaper(t *testing.T) {
	taper, ok := thread.MustParse("R 1/8").Taper()
	if !ok || taper.GaugeLength != units.MM(4) || taper.SmallEnd != units.MM(9.147-0.25) {
		t.Errorf("%v, %v", taper, ok)
	}
	if _, ok := thread.MustParse("G 1/8").Taper(); ok {
		t.Error("G is parallel")
	}
}
