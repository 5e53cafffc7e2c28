package gauge_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

func TestSystemText(t *testing.T) {
	for _, s := range append(gauge.Systems(), 0) {
		text, err := s.MarshalText()
		back := gauge.SWG
		if err != nil || back.UnmarshalText(text) != nil || back != s {
			t.Errorf("%v: text %q, back %v, %v", s, text, back, err)
		}
		if known, err := gauge.ParseSystem(s.String()); known != s || (err == nil) != (s != 0) {
			t.Errorf("%v reads back as %v, %v", s, known, err)
		}
	}
	if _, err := gauge.System(9).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("a system that there is not: %v", err)
	}
	if _, err := gauge.System(0).Size("16"); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("no system: %v", err)
	}
	for name, want := range map[string]gauge.System{"B&S": gauge.AWG, " b&s ": gauge.AWG, "ISWG": gauge.SWG} {
		if s, err := gauge.ParseSystem(name); s != want || err != nil {
			t.Errorf("%s is %v, %v", name, s, err)
		}
	}
	s := gauge.BWG
	var bad *units.ParseError
	if err := s.UnmarshalText([]byte("gauge")); !errors.As(err, &bad) || s != gauge.BWG {
		t.Errorf("%v, %v", s, err)
	}
}

// Sheet of 20 gauge is another thickness in every system.
func ExampleSystem_Size() {
	for _, system := range gauge.Systems() {
		size, err := system.Size("20")
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(size, "is", size.Diameter.Text(units.Millimetres, 3))
	}
	// Output:
	// 20 SWG is 0.914 mm
	// 20 AWG is 0.812 mm
	// 20 BWG is 0.889 mm
	// 20 MSG is 0.912 mm
	// gauge: gauge number "20": no such number in screw; accepted: whole numbers 000 to 14
}
