package pages

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/diagnosis/symptom"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
)

// explanations are how many faults are told; the answer has all of the catalogue.
const explanations = 8

// Explained is the page on the faults that explain what was told of an engine, with a
// diagnosis from readings or nil. The faults are tried on the engine's own cycle, with
// what it runs on; where the file says nothing of that, on the air of a first run.
func Explained(e *engine.Engine, told []symptom.Symptom, read *diagnosis.Diagnosis) (*Page, error) {
	gear, err := gearOf(e)
	if err != nil {
		return nil, err
	}
	return explained(e, gear, e.Document, told, read)
}

// explained is that page, of symptoms that may stand in another file, and of the gear
// that was meant.
func explained(
	e *engine.Engine, gear eccentric.Gear, from *engine.Document, told []symptom.Symptom, read *diagnosis.Diagnosis,
) (*Page, error) {
	ask := RunningQuestion{}
	if !e.Has("running") {
		ask = firstAir(e)
	}
	a, err := atWork(e, ask, nil)
	if errors.Is(err, errNoRoom) {
		err = e.Errorf("cylinder.length", "the piston strikes its covers; accepted: room for it at both dead centres, before symptoms"+
			" are looked into")
	}
	if err != nil || a == nil {
		return nil, err
	}
	a.run.Gear = gear
	found, err := symptom.Case{Running: a.run, Symptoms: told, Readings: read}.Explain()
	if err != nil {
		var bad *units.ArgumentError
		if errors.As(err, &bad) && strings.HasPrefix(bad.Field, "symptom") {
			return nil, from.Errorf("symptoms", "%v", bad)
		}
		return nil, placed(e, err, runningKeys)
	}
	section := book.Section{Key: "explained", Title: "WHAT THE SYMPTOMS SPEAK FOR", List: true, Intro: []string{
		"Faults by how well they show what was told, as this engine's own cycle and the books have it. This ranks them; it" +
			" proves nothing. Look by hand first, then on low-pressure air with the flywheel blocked, and stand clear;" +
			" steam comes last.",
	}}
	if !e.Has("running") {
		section.Intro = append(section.Intro, "The file has no [running], so the faults are tried on the air of a first run: "+a.said()+".")
	}
	for i, c := range found.Causes {
		section.Items = append(section.Items, explainedItem(i, c))
	}
	if more := len(found.Causes) - explanations; more > 0 {
		section.Notes = []string{fmt.Sprintf("%d more faults were tried and show it less well.", more)}
	}
	return &Page{Sections: []book.Section{section}, Findings: found.Findings, Precautions: found.Precautions}, nil
}

// firstAir is what a first run is tried on, where the file does not say what the engine
// runs on: common practice. It ranks faults, and no other figure rests on it.
func firstAir(e *engine.Engine) RunningQuestion {
	pressure, back, index := 1*units.Bar, units.Pressure(0), 1.25
	speed, medium := 200*units.RevPerMinute, indicator.Air
	ask := RunningQuestion{Pressure: &pressure, Back: &back, Speed: &speed, Medium: &medium, Index: &index}
	if _, known, err := roomOf(e); err == nil && !known {
		clearance := engine.Share(0.1)
		ask.Clearance = &clearance
	}
	return ask
}

// said says what it runs on.
func (a *engineAtWork) said() string {
	r := &a.run
	return fmt.Sprintf("%v at %.3g bar above the atmosphere, an index of expansion of %.4g, %.0f rev/min, clearance of %.1f %% at the head"+
		" end and %.1f %% at the crank end", r.Medium, r.Chest.In(units.Bar), r.Index, r.Speed.In(units.RevPerMinute),
		100*r.Clearance.Head, 100*r.Clearance.Crank)
}

// explainedItem is one fault; those far down are in JSON alone.
func explainedItem(i int, c symptom.Explained) book.Item {
	values := []book.Value{
		{Key: "fault", What: book.Word(c.Fault)}, {Key: "end", What: book.Word(c.End.String())},
		{Key: "way", What: book.Word(c.Way)},
		{Key: "fits", Label: "fits", What: book.Number(c.Fits, 2, "", ""), Remark: "1 shows all that was told"},
		{Key: "probability", Label: "share of all faults", What: book.Number(c.Share, 2, "", "")},
		{Key: "test", What: book.Word(c.Test.Text)}, {Key: "effort", What: book.Word(effortOf(c.Test))},
		{Key: "ear", What: book.Answer(c.Test.Ear)}, {Key: "text", What: book.Word(c.Text)},
		{Key: "cure", What: book.Word(c.Cure)},
		{Key: "lacks", What: book.Words(words(c.Lacks))}, {Key: "also", What: book.Words(words(c.Also))},
	}
	if i >= explanations {
		return book.Item{Values: unprinted(values)}
	}
	item := book.Item{Title: fmt.Sprintf("%d. %s", i+1, c.Text), Values: values}
	if c.Cure != "" {
		item.Notes = append(item.Notes, book.Note{Text: c.Cure, Refs: c.Refs})
	}
	if c.Test.Effort != 0 {
		item.Notes = append(item.Notes, book.Note{Text: "To tell: " + c.Test.Text, Refs: c.Test.Refs})
	}
	return item
}

func effortOf(t symptom.Test) string {
	if t.Effort == 0 {
		return "none"
	}
	return t.Effort.String()
}

func words[T fmt.Stringer](all []T) []string {
	texts := []string{}
	for _, v := range all {
		texts = append(texts, v.String())
	}
	return texts
}
