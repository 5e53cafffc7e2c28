package pages_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
)

// The demonstration engine with its sheave on the other hand, as EC-03 tells it.
const otherHand = `
symptoms = ["turns the wrong way"]

[[readings]]
kind = "lead"
end = "head"
value = "0.27 mm"

[[readings]]
kind = "lead"
end = "crank"
value = "0.13 mm"

[[readings]]
kind = "opens_next"
end = "head"
value = "exhaust"

[[readings]]
kind = "opens_next"
end = "crank"
value = "exhaust"
`

// What readings and symptoms say together stands beside what readings say alone, and
// the two name one part. The test parts the first from the second.
func TestExplainedBesideReadings(t *testing.T) {
	text := demo(t, "", "")
	book, err := pages.FirstRunFile("e.toml", []byte(text), "r.toml", []byte(otherHand))
	if err != nil {
		t.Fatal(err)
	}
	printed, data := views(t, book)
	all, verdict := data["explained"].([]any), data["verdict"].(map[string]any)
	first, second := all[0].(map[string]any), all[1].(map[string]any)
	if verdict["fault"] != "eccentric_other_hand" || first["fault"] != verdict["fault"] || first["fits"].(float64) < 0.9 {
		t.Errorf("%v; %v", verdict, first)
	}
	if first["test"] == "" || first["test"] != second["test"] || !strings.Contains(printed, "WHAT THE SYMPTOMS SPEAK FOR") {
		t.Errorf("%v, %v", first["test"], second["test"])
	}
	// Symptoms alone: nothing is said to be known, and the symptoms' part is pointed to.
	alone := `symptoms = ["jerks without turning", "hisses in some positions"]`
	if book, err = pages.FirstRunFile("e.toml", []byte(text), "r.toml", []byte(alone)); err != nil {
		t.Fatal(err)
	}
	printed, data = views(t, book)
	if first := data["explained"].([]any)[0].(map[string]any); first["fault"] != "eccentric_other_hand" ||
		!strings.Contains(strings.Join(strings.Fields(printed), " "), "what its symptoms speak for is told below") {
		t.Errorf("%v", first)
	}
	// No symptoms: none are explained.
	if book, err = pages.FirstRunFile("e.toml", []byte(text), "", nil); err != nil {
		t.Fatal(err)
	}
	if _, data = views(t, book); len(data["explained"].([]any)) != 0 {
		t.Errorf("%v", data["explained"])
	}
}

// What cannot be used is refused with its place, what comes near it and the list.
func TestSymptomsRefused(t *testing.T) {
	text := demo(t, "", "")
	for told, want := range map[string]string{
		`["weak", "wont turn"]`:     `r.toml:1:21: symptoms: symptom "wont turn": unknown; near it: will not turn`,
		`["sings"]`:                 `accepted: will not turn, jerks without turning`,
		`[""]`:                      `r.toml:1:13: symptoms: symptom "": unknown`,
		`[]`:                        `r.toml:1:1: symptoms: `,
		`["weak", "Weak"]`:          `r.toml:1:21: symptoms: Weak is given twice`,
		`["will not turn", "weak"]`: `r.toml:1:1: symptoms: symptoms weak: no engine "will not turn" and "weak" at once`,
		`"weak"`:                    `r.toml:1:12: symptoms: not of the right kind; accepted: a list`,
	} {
		_, err := pages.FirstRunFile("e.toml", []byte(text), "r.toml", []byte("symptoms = "+told+"\n"))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", told, err)
		}
	}
}
