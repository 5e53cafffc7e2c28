package symptom

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What [Case.Explain] finds.
const (
	EarDecides  finding.Code = "ear-decides"     // a symptom is judged by ear; Note
	AsItIsDrawn finding.Code = "as-it-is-drawn"  // the engine as drawn shows what was told; Note
	ShownAlike  finding.Code = "shown-alike"     // several faults show it as well; Note
	WaterFirst  finding.Code = "water-first"     // water is among the first; Caution
	NotToRun    finding.Code = "not-to-run"      // a loose wheel or a piston that strikes is; Caution
	ShutBoiler  finding.Code = "shut-boiler"     // it turns with the stop valve shut; Caution
	Besides     finding.Code = "another-besides" // readings are sure of a fault that shows it hardly; Caution
	TryByHand   finding.Code = "try-by-hand"     // of Precautions
)

// Precautions returns what to mind when an engine that does not run right is tried:
// common practice.
func Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: TryByHand, Ref: source.Practice(),
		Text: "Look by hand first, with no air or steam on. Then low-pressure air, the flywheel blocked, and stand clear of what" +
			" turns: an engine that would not go starts all at once. Steam comes last, when it runs on air.",
	}}
}

// findings says what is to be kept in mind of an explanation.
func (x *explainer) findings(all []Explained) (list finding.List) {
	var heard []string
	for _, s := range x.c.Symptoms {
		if s.Heard() {
			heard = append(heard, fmt.Sprintf("%q", s.String()))
		}
	}
	if len(heard) > 0 {
		list = append(list, finding.Finding{Code: EarDecides, Refs: source.Of(source.Practice()),
			Text:     "The builder's ear decides on " + join(heard) + ": what one hears as a beat or a blow, another does not.",
			Remedies: []string{"Let another listen, with a tube to the ear, and clear of what turns."}})
	}
	first := all[0]
	if first.Fault == asDrawn {
		list = append(list, finding.Finding{Code: AsItIsDrawn,
			Text: "The engine as it is drawn shows this as well as any fault of the catalogue."})
	}
	alike := 0
	for _, e := range all[1:] {
		if e.Share > first.Share*0.8 {
			alike++
		}
	}
	if alike > 0 {
		list = append(list, finding.Finding{Code: ShownAlike,
			Text: fmt.Sprintf("%d more %s what was told as well as the first does, or nearly: do not take anything apart on this alone.",
				alike, verb(alike)),
			Remedies: []string{"Make the test that is named, or take a few readings."}})
	}
	near := all[:min(3, len(all))]
	if slices.ContainsFunc(near, func(e Explained) bool { return e.Fault == "water" }) {
		list = append(list, finding.Finding{Code: WaterFirst, Severity: finding.Caution, Refs: source.Of(source.Practice()),
			Text:     "Water may be shut in the cylinder. It does not give: a piston that is driven on to it breaks a cover, a rod or the crank.",
			Remedies: []string{"Open the drain cocks, shut the steam off and turn the engine by hand until no water comes."}})
	}
	for _, of := range []struct{ fault, text, remedy string }{
		{"wheel_loose", "The flywheel may be loose. One that comes off a running engine is thrown.",
			"Do not run it before the wheel was tried on its shaft by hand, with no air or steam on."},
		{"piston_strikes", "The piston may touch a cover. Under load that breaks the cover, the rod or the crank.",
			"Do not run it before it was turned by hand through two whole turns, with no air or steam on."},
	} {
		if slices.ContainsFunc(all[:min(6, len(all))], func(e Explained) bool { return e.Fault == of.fault }) {
			list = append(list, finding.Finding{Code: NotToRun, Severity: finding.Caution, Refs: source.Of(source.Practice()),
				Text: of.text, Remedies: []string{of.remedy}})
		}
	}
	if slices.Contains(x.c.Symptoms, TurnsWithShut) {
		list = append(list, finding.Finding{Code: ShutBoiler, Severity: finding.Caution, Refs: source.Of(source.Practice()),
			Text:     "The engine turns with its stop valve shut: it can start by itself while hands are in it.",
			Remedies: []string{"Shut it off at the boiler or the air line, open the drain cocks and block the wheel before anything is touched."}})
	}
	list.Sort()
	return list
}

// besides says what a fault of which the readings are sure does not show.
func (x *explainer) besides(all []Explained) finding.List {
	first := all[0]
	if !slices.Contains(x.surelyOf(), first.Fault) || len(first.Lacks) == 0 {
		return nil
	}
	var lacks []string
	for _, s := range first.Lacks {
		lacks = append(lacks, fmt.Sprintf("%q", s.String()))
	}
	return finding.List{{Code: Besides, Severity: finding.Caution,
		Text: "The part that the readings are sure of hardly shows " + join(lacks) + " by itself: something else may be wrong besides.",
		Remedies: []string{"Put right first what the readings name, then try the engine again, by hand first: what is left of the" +
			" symptoms speaks for the other."}}}
}

func verb(n int) string {
	if n == 1 {
		return "fault shows"
	}
	return "faults show"
}

func join(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
