package seal_test

import (
	"testing"

	"github.com/valvechest/valvechest/gasket/seal"
)

// A size that is read is found again by the name that it has in the table.
func FuzzLookupRing(f *testing.F) {
	for _, size := range []string{"012", "-012", "12", "AS568-012", "BS 012", " 012 ", "9999", ""} {
		f.Add(size)
	}
	f.Fuzz(func(t *testing.T, size string) {
		ring, err := seal.LookupRing(size)
		if err != nil {
			return
		}
		if back, err := seal.LookupRing(ring.Size); err != nil || back.Size != ring.Size {
			t.Fatalf("%q is %q, which is %q, %v", size, ring.Size, back.Size, err)
		}
	})
}
