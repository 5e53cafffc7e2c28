package speeds_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// What to mind when drilling brass: a drill that screws itself in, and a hand
// that holds what it should clamp.
func ExampleRange_Advice() {
	brass, _ := material.Lookup("brass")
	r, err := speeds.Recommend(speeds.Drilling, brass, speeds.HSS)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range r.Precautions() {
		fmt.Println(p.Text)
	}
	fmt.Println(r.Advice()[0])
	// Output:
	// Clamp the work or stop it with a bar: drills snatch when they break through. No gloves, sleeves or rag near a turning spindle.
	// This metal is alloyed with lead in the grades that cut freely, and white metal and old bearings hold more: wash before you eat or smoke, wipe up chips and dust wet, no air line, and keep them out of the house.
	// Hair tied back, eye protection on; no gloves, rings, tie or loose sleeves near anything that turns.
	// rake: Stone a flat about 0.8 mm (1/32 in) wide on each cutting lip, parallel to the axis of the drill, so that it cannot screw itself in. Keep such drills apart from those for steel. (Article in a woodworking magazine, no. 153, 2006, p. 24)
}

// Every piece of advice and every precaution reaches a recommendation, and brass
// gets its flat on the drill.
func TestAdvice(t *testing.T) {
	advice, precautions := map[string]bool{}, map[string]finding.Code{}
	for _, op := range speeds.Operations() {
		for _, m := range speeds.Materials() {
			for _, tool := range speeds.Tools() {
				r, err := speeds.Recommend(op, m, tool)
				if op == speeds.DieCutting { // which has no speed, and advice all the same
					r, err = speeds.Range{Operation: op, Material: m, Tool: tool}, nil
				}
				if err != nil {
					continue
				}
				for _, a := range r.Advice() {
					advice[a.Text] = true
					if a.Refs.IsZero() {
						t.Errorf("no source: %v", a)
					}
				}
				for _, p := range r.Precautions() {
					precautions[p.Text] = p.Code
					if p.Code == "" || p.Ref.Kind == 0 {
						t.Errorf("no code or source: %+v", p)
					}
				}
			}
		}
	}
	if len(advice) != 39 || len(precautions) != 11 {
		t.Errorf("%d pieces of advice and %d precautions reach a pairing, want all 39 and 11", len(advice), len(precautions))
	}
	r, err := speeds.Recommend(speeds.Drilling, metal("brass"), speeds.HSS)
	if err != nil {
		t.Fatal(err)
	}
	if first := r.Precautions()[0]; first.Code != "drill-snatches" || !strings.Contains(first.Text, "snatch") {
		t.Errorf("drilling brass begins with %v", first)
	}
	if !slices.ContainsFunc(r.Advice(), func(a speeds.Advice) bool {
		return a.Kind == "rake" &&
			strings.Contains(a.Text, "0.8 mm")
	}) {
		t.Error("no flat of 0.8 mm for drilling brass")
	}
}

func TestAdviceIsACopy(t *testing.T) {
	r, err := speeds.Recommend(speeds.Drilling, metal("brass"), speeds.HSS)
	if err != nil {
		t.Fatal(err)
	}
	r.Advice()[0].Text = "changed"
	r.Precautions()[0].Text = "changed"
	if r.Advice()[0].Text == "changed" || r.Precautions()[0].Text == "changed" {
		t.Error("the caller can change the advice of others")
	}
}
