package speeds_test

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
)

// The spindle speeds of a geared head, of ratio 1.41.
func ExamplePreferredNumbers() {
	all, err := speeds.PreferredNumbers(20, 3, 31.5, 500)
	fmt.Println(all.Numbers, err)
	fmt.Println(all.Refs.Recalled())
	// Output:
	// [31.5 45 63 90 125 180 250 355 500] <nil>
	// true
}

func TestPreferredNumbers(t *testing.T) {
	f := check.Open(t, "speeds/preferred_numbers.csv")
	for r := range f.Rows() {
		series := map[string]int{"R5": 5, "R10": 10, "R20": 20, "R40": 40}[r.Text("series")]
		all, err := speeds.PreferredNumbers(series, 1, 1, 10)
		if err != nil || len(all.Numbers) != series+1 {
			t.Fatalf("%s: %d numbers, %v", r.ID, len(all.Numbers), err)
		}
		r.Compare("rounded", all.Numbers[int(r.Float("index"))])
		// Exact and rounded are within 1.26 % of each other, as the standard says.
		r.Within("exact", all.Numbers[int(r.Float("index"))], 0.0127*r.Float("exact"))
	}
}
