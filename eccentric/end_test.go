package eccentric

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// The ends and the states of a port go over to the kernel and back by their value.
func TestKernelValues(t *testing.T) {
	ends := []End{End(kernel.Both), End(kernel.Head), End(kernel.Crank)}
	if !slices.Equal(Ends(), ends) || len(ends) != kernel.Ends {
		t.Errorf("the ends of the kernel are %v", ends)
	}
	states := []PortState{PortState(kernel.OpensAndCloses), PortState(kernel.NeverOpens), PortState(kernel.NeverCloses)}
	if !slices.Equal(PortStates(), states) {
		t.Errorf("the states of a port in the kernel are %v", states)
	}
}

func TestNames(t *testing.T) {
	for i, e := range Ends() {
		text, err := e.MarshalText()
		var back End
		if err != nil || back.UnmarshalText(text) != nil || back != e || int(e) != i {
			t.Errorf("%v: %s %v %v", e, text, back, err)
		}
		if back, err := ParseEnd(strings.ToUpper(e.String())); err != nil || back != e {
			t.Errorf("%v: %v %v", e, back, err)
		}
	}
	for i, s := range PortStates() {
		text, err := s.MarshalText()
		var back PortState
		if err != nil || back.UnmarshalText(text) != nil || back != s || int(s) != i {
			t.Errorf("%v: %s %v %v", s, text, back, err)
		}
		if back, err := ParsePortState(strings.ToUpper(s.String())); err != nil || back != s {
			t.Errorf("%v: %v %v", s, back, err)
		}
	}
	for _, set := range []interface{ UnmarshalText([]byte) error }{new(End), new(PortState), new(Rod)} {
		var bad *units.ParseError
		if err := set.UnmarshalText([]byte("sideways")); !errors.As(err, &bad) || bad.Accepted == "" {
			t.Errorf("%T: %v", set, err)
		}
	}
	if _, err := End(3).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}
