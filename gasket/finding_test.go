package gasket_test

import (
	"errors"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

func TestTexts(t *testing.T) {
	for _, v := range []gasket.Severity{gasket.Unsafe, gasket.Fails, gasket.WorthKnowing} {
		text, err := v.MarshalText()
		var back gasket.Severity
		if err != nil || back.UnmarshalText(text) != nil || back != v {
			t.Errorf("%v came back as %v, %v", v, back, err)
		}
	}
	for _, v := range []gasket.Action{gasket.Open, gasket.Drill, gasket.Plug} {
		text, err := v.MarshalText()
		var back gasket.Action
		if err != nil || back.UnmarshalText(text) != nil || back != v {
			t.Errorf("%v came back as %v, %v", v, back, err)
		}
	}
	f := gasket.Finding{Severity: gasket.Fails, Text: "The web is 1 mm.", Remedy: "Move the hole.", Ref: source.Ref{Kind: source.CommonPractice}}
	if got, want := f.String(), "fails: The web is 1 mm. Move the hole. (common practice)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	var s gasket.Severity
	if err := s.UnmarshalText([]byte("dire")); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("dire: %v", err)
	}
	if gasket.Severity(7).String() != "Severity(7)" || (gasket.Work{Do: 9}).String() != "Action(9)" {
		t.Error("values without a name")
	}
}
