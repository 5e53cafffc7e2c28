package gasket_test

import (
	"testing"

	"github.com/valvechest/valvechest/gasket"
)

func TestTexts(t *testing.T) {
	for _, v := range []gasket.Action{gasket.Open, gasket.Drill, gasket.Plug} {
		text, err := v.MarshalText()
		var back gasket.Action
		if err != nil || back.UnmarshalText(text) != nil || back != v {
			t.Errorf("%v came back as %v, %v", v, back, err)
		}
	}
	if (gasket.Work{Do: 9}).String() != "Action(9)" {
		t.Error("values without a name")
	}
}
