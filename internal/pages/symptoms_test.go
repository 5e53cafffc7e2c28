package pages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/diagnosis/symptom"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/pages"
)

// All faults are in the answer with what fits and the test that tells; the page prints
// the first of them.
func TestExplainedPage(t *testing.T) {
	ask := func(told ...symptom.Symptom) func(*engine.Engine) (*pages.Page, error) {
		return func(e *engine.Engine) (*pages.Page, error) { return pages.Explained(e, told, nil) }
	}
	b, err := pageOf(demo(t, "", ""), ask(symptom.JerksOnly, symptom.RanWell))
	if err != nil {
		t.Fatal(err)
	}
	text, data := views(t, b)
	for _, want := range []string{"WHAT THE SYMPTOMS SPEAK FOR", "1. The valve does not follow its spindle", "116 degrees ahead of the crank",
		"25 more faults were tried", "steam comes last"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
	all := data["explained"].([]any)
	first := all[0].(map[string]any)
	if len(all) != 33 || first["fault"] != "valve_not_driven" || math.Abs(first["fits"].(float64)-0.775) > 0.005 || first["effort"] != "by hand" || first["test"] == "" {
		t.Errorf("%d: %v", len(all), first)
	}
	if _, err := pageOf(demo(t, "", ""), ask(symptom.WillNotTurn, symptom.Weak)); err == nil || !strings.Contains(err.Error(), "symptoms") {
		t.Errorf("told of an engine that does not turn, and turns: %v", err)
	}
	if _, err := pageOf(demo(t, `pressure = "2 bar"`, ""), ask(symptom.Weak)); err == nil || !strings.Contains(err.Error(), "pressure") {
		t.Errorf("no pressure: %v", err)
	}
}
