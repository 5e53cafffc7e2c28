package eccentric

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units/finding"
)

func TestFindingText(t *testing.T) {
	f := Finding{Finding: finding.Finding{
		Severity: finding.Caution, Text: "The lead is nothing.", Remedies: []string{"Advance the eccentric."},
	}}
	if got, want := f.String(), "caution: The lead is nothing. Advance the eccentric."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	f.Remedies = nil
	if got, want := f.String(), "caution: The lead is nothing."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Every code of the kernel has its finding, its words where a remedy may bring it
// on, and its place, and no two have the same.
func TestCodes(t *testing.T) {
	seen := map[string]bool{}
	for code, k := range known {
		if string(k.code) != kernel.Code(code).String() {
			t.Errorf("code %d is %s here and %v in the kernel", code, k.code, kernel.Code(code))
		}
		if k.code == "" || (k.words == "") != (kernel.Code(code) < kernel.Faults) || seen[string(k.code)] || strings.ToLower(string(k.code)) != string(k.code) {
			t.Errorf("code %d: %+v", code, k)
		}
		seen[string(k.code)] = true
	}
	for grade := kernel.Worth; grade <= kernel.Stops; grade++ {
		if int(severities[grade]) != int(grade)-int(kernel.Worth) {
			t.Errorf("grade %d has severity %v", grade, severities[grade])
		}
	}
}

// What a gear, its events and its findings are in JSON reads back as the same, the
// zero values too.
func TestJSON(t *testing.T) {
	g := demo()
	g.EccentricRod, g.LeverRatio = InfiniteRod(), -0.8
	for _, v := range []any{
		Gear{}, g, Finding{}, g.Check(), Events{}, events(t, g), Sweep{}, g.Sweep(), Openings{}, Laps{}, Rod{}, InfiniteRod(),
	} {
		data, err := json.Marshal(v)
		back := reflect.New(reflect.TypeOf(v))
		if err != nil || json.Unmarshal(data, back.Interface()) != nil {
			t.Errorf("%s: %v", data, err)
			continue
		}
		if again, err := json.Marshal(back.Interface()); err != nil || string(again) != string(data) {
			t.Errorf("%s reads back as %s, %v", data, again, err)
		}
	}
	data, err := json.Marshal(g)
	for _, want := range []string{`"ConnectingRod":"63 mm"`, `"EccentricRod":"infinite"`} {
		if err != nil || !strings.Contains(string(data), want) {
			t.Errorf("no %s in %s, %v", want, data, err)
		}
	}
}
