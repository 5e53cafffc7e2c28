package dividing_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds/dividing"
)

func ExampleTablePositions() {
	all, err := dividing.TablePositions(90, 7)
	fmt.Println(all[1], err)
	// Output: 51°25'43", handwheel 12 turns and 3.4286 deg <nil>
}

func TestTablePositions(t *testing.T) {
	all, err := dividing.TablePositions(72, 11)
	if err != nil || len(all) != 11 {
		t.Fatal(err)
	}
	for i, p := range all {
		back := float64(p.Turns)*5 + p.Rest.Degrees()
		if math.Abs(back-p.Angle.Degrees()) > 1e-9 || math.Abs(p.Angle.Degrees()-360*float64(i)/11) > 1e-9 {
			t.Errorf("position %d: %+v", i, p)
		}
		dms := float64(p.Degrees) + float64(p.Minutes)/60 + float64(p.Seconds)/3600
		if math.Abs(dms-p.Angle.Degrees()) > 0.51/3600 || p.Minutes > 59 || p.Seconds > 59 {
			t.Errorf("position %d: %v", i, p)
		}
	}
}
