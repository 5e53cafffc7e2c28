package speeds_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

func TestTables(t *testing.T) {
	check.Tables(t, speeds.Tables, "tables/*.csv")
	if n := len(speeds.PublishedRows()); n != 237 {
		t.Errorf("%d published ranges, want 231", n)
	}
	seen := map[[3]string]bool{}
	for _, d := range speeds.Defaults() {
		if seen[d] {
			t.Errorf("%v has two defaults", d)
		}
		seen[d] = true
	}
}

// TestBench compares bench practice: shares of one speed that another is, deep
// holes, words of advice.
func TestBench(t *testing.T) {
	f := check.Open(t, "speeds/bench.csv")
	for r := range f.Rows() {
		share := func(got [][2]float64) {
			t.Helper()
			if !slices.ContainsFunc(got, func(g [2]float64) bool {
				return near(g[0], r.Float("low")) && near(g[1], r.Float("high"))
			}) {
				t.Errorf("%s: %s to %s is not among %v", r.ID, r.Text("low"), r.Text("high"), got)
				return
			}
			r.Within("low", r.Float("low"), 0) // found above: counts the row
		}
		switch topic := r.Text("topic"); topic {
		case "reaming speed":
			of := speeds.Drilling
			if strings.Contains(r.Text("unit"), "milling") {
				of = speeds.Milling
			}
			share(speeds.RatioOf(speeds.Reaming, of))
		case "parting speed":
			share(speeds.RatioOf(speeds.Parting, speeds.Turning))
		case "grooving speed":
			share(speeds.RatioOf(speeds.Grooving, speeds.Turning))
		case "countersinking speed":
			share(speeds.RatioOf(speeds.Countersinking, speeds.Drilling))
		case "finish turning":
			share(speeds.RatioOf(speeds.FinishTurning, speeds.RoughTurning))
		case "carbide":
			share(speeds.ToolRatios(speeds.Carbide))
		case "carbon steel tools":
			share(speeds.ToolRatios(speeds.CarbonSteel))
		case "deep hole reduction":
			depth := r.Text("item")[len("depth "):][:1]
			d, err := speeds.DeepHoleFor(units.MM(5).Scale(float64(depth[0]-'0')), units.MM(5))
			if err != nil {
				t.Fatal(err)
			}
			r.Within("low", 100*(1-d.Speed), 1e-9)
			r.Within("high", 100*(1-d.Feed), 1e-9)
		case "flywheel turning speed":
			got, err := speeds.Recommend(speeds.Turning, metal("cast iron, skin on"), speeds.HSS)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("low", float64(got.Min/units.MetrePerMinute))
			r.Compare("high", float64(got.Max/units.MetrePerMinute))
		case "spindle speed choice": // the next slower one
			choice, err := ladder(t, "100 200 300").Choose(299 * units.RevPerMinute)
			if err != nil {
				t.Fatal(err)
			}
			r.Within("low", float64(choice.Step.Speed/units.RevPerMinute)/100-3, 1e-9)
		default:
			if w, ok := inWords(topic, r.Optional("item")); !ok {
				r.Skip("not in this package: " + topic)
			} else if !advised(t, w) {
				t.Errorf("%s: no advice on %v in %v says %q", r.ID, w.op, w.m, w.word)
			} else {
				r.Skip("in words, which the advice has: " + topic)
			}
		}
	}
}

// A word is what the advice on an operation has to say, after a source that
// gives no figure.
type word struct {
	op   speeds.Operation
	m    material.Material
	word string
}

func inWords(topic, item string) (word, bool) {
	w, ok := map[string]word{
		"lubricant, aluminium: turning, boring, threading, reaming":                                                    {speeds.Reaming, metal("aluminium"), "lubricant: Paraffin"},
		"lubricant, aluminium and magnesium: lathe work":                                                               {speeds.Turning, metal("aluminium"), "lubricant: Paraffin"},
		"lubricant, copper and brass: lathe work":                                                                      {speeds.Turning, metal("copper"), "lubricant: Paraffin oil, which is a mineral oil"},
		"lubricant, cast iron: tapping":                                                                                {speeds.Tapping, metal("cast iron"), "kerosene"},
		"lubricant, cast iron, brass, aluminium: general cutting":                                                      {speeds.Turning, metal("cast iron"), "lubricant: Dry"},
		"lubricant, cast iron, brass: reaming":                                                                         {speeds.Reaming, metal("cast iron"), "lubricant: Dry"},
		"lubricant, wrought iron, steel: reaming":                                                                      {speeds.Reaming, metal("mild steel"), "Oil or drilling compound"},
		"lubricant, steel: parting, threading, deep drilling":                                                          {speeds.Screwcutting, metal("mild steel"), "Lard oil"},
		"lubricant, steel: rough cutting":                                                                              {speeds.RoughTurning, metal("mild steel"), "Soluble oil and water"},
		"lubricant, brass, bronze: reaming":                                                                            {speeds.Reaming, metal("bearing bronze"), "never dry"},
		"parting, cast iron and brass dry, everything else wet with cutting oil":                                       {speeds.Parting, metal("brass"), "lubricant: Dry"},
		"drill rake for brass and plastics, flat on each cutting lip, parallel to drill axis (zero rake)":              {speeds.Drilling, metal("plastic"), "0.8 mm (1/32 in) wide on each cutting lip, parallel to the axis"},
		"drill rake for brass, zero or slightly negative helix for cartridge brass; dub the lips of an ordinary drill": {speeds.Drilling, metal("brass"), "flat about 0.8 mm"},
		"drill for brass, copper, white metal, straight-fluted drill":                                                  {speeds.Drilling, metal("copper"), "straight-fluted"},
		"lathe tool clearance for brass by hand feeding, 12 to 14 degrees":                                             {speeds.Turning, metal("brass"), "12 to 14 degrees"},
		"chuck speed, clamping force left at the DIN 6386 reference speed":                                             {speeds.Turning, metal("brass"), "Never above the speed marked on the chuck, whatever a calculation allows"},
	}[topic+", "+item]
	return w, ok
}

func advised(t *testing.T, w word) bool {
	t.Helper()
	r, err := speeds.Recommend(w.op, w.m, speeds.HSS)
	if err != nil {
		t.Fatal(err)
	}
	return slices.ContainsFunc(r.Advice(), func(a speeds.Advice) bool {
		return strings.Contains(a.Kind+": "+a.Text,
			w.word)
	}) ||
		slices.ContainsFunc(r.Precautions(), func(p finding.Precaution) bool { return strings.Contains(p.Text, w.word) })
}

func near(a, b float64) bool { return a-b < 0.005 && b-a < 0.005 } // thirds are held as 0.33
