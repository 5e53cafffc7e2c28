package diagnosis_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/diagnosis"
)

// Each name is read back, in capitals too and in JSON, and what is none is refused.
func TestNamesThereAndBack(t *testing.T) {
	if n := len(diagnosis.Faults()); n != 11 {
		t.Errorf("%d faults", n)
	}
	for i, f := range diagnosis.Faults() {
		back, err := diagnosis.ParseFault(strings.ToUpper(f.String()))
		var read diagnosis.Fault
		data, err1 := json.Marshal(f)
		if err != nil || back != f || err1 != nil || json.Unmarshal(data, &read) != nil || read != f || int(f) != i+1 {
			t.Errorf("%v came back as %v and from %s as %v", f, back, data, read)
		}
		// The cure is to turn the sheave: of its angle and of each place that it may have been set to.
		if f.OfSheave() != (f.String() == "advance" || strings.HasPrefix(f.String(), "eccentric")) {
			t.Errorf("%v of the sheave: %v", f, f.OfSheave())
		}
	}
	if n := len(diagnosis.Kinds()); n != 10 {
		t.Errorf("%d kinds", n)
	}
	for _, k := range diagnosis.Kinds() {
		back, err := diagnosis.ParseKind(strings.ToUpper(k.String()))
		var read diagnosis.Kind
		data, err1 := json.Marshal(k)
		if err != nil || back != k || err1 != nil || json.Unmarshal(data, &read) != nil || read != k {
			t.Errorf("%v came back as %v and from %s as %v", k, back, data, read)
		}
	}
	if n := len(diagnosis.Sides()); n != 2 {
		t.Errorf("%d sides", n)
	}
	for _, s := range diagnosis.Sides() {
		back, err := diagnosis.ParseSide(strings.ToUpper(s.String()))
		var read diagnosis.Side
		data, err1 := json.Marshal(s)
		if err != nil || back != s || err1 != nil || json.Unmarshal(data, &read) != nil || read != s {
			t.Errorf("%v came back as %v and from %s as %v", s, back, data, read)
		}
	}
	_, err1 := diagnosis.ParseFault("rust")
	_, err2 := diagnosis.ParseKind("rust")
	_, err3 := diagnosis.ParseSide("rust")
	if err1 == nil || err2 == nil || err3 == nil {
		t.Error("rust is read")
	}
}
