package screwcut

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func TestParseWheels(t *testing.T) {
	got, err := ParseWheels("20, 20 25-40x5,63")
	if want := []int{20, 20, 25, 30, 35, 40, 63}; err != nil || fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%v, %v; want %v", got, err, want)
	}
	for _, bad := range []string{"", "20", "20 to 40", "20-40", "20-41x5", "40-20x5", "20-40x0", "20-40x-5", "-20,30",
		"20,1e2", "8-400x1", "20,500", "20,0"} {
		if got, err := ParseWheels(bad); err == nil {
			t.Errorf("ParseWheels(%q) = %v", bad, got)
		}
	}
}

func FuzzParseWheels(f *testing.F) {
	for _, s := range []string{"24, 24-100x4, 63", "20-20x1", "8-400x200"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		wheels, err := ParseWheels(s)
		if err != nil {
			return
		}
		lead, _ := NewLead(units.MM(1), 1)
		if _, err := (Lathe{Leadscrew: lead, Wheels: wheels[:min(len(wheels), 4)]}).Trains(lead); err != nil {
			t.Errorf("%q gives %v, which ChangeWheels refuses: %v", s, wheels, err)
		}
	})
}
