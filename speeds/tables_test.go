package speeds_test

import (
	"cmp"
	"math"
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
			if len(got) == 0 {
				t.Errorf("%s: no share at all", r.ID)
				return
			}
			off := func(g [2]float64) float64 {
				return math.Abs(g[0]-r.Float("low")) + math.Abs(g[1]-r.Float("high"))
			}
			nearest := slices.MinFunc(got, func(a, b [2]float64) int { return cmp.Compare(off(a), off(b)) })
			// thirds, which the sources say in words, are held to two places as 0.33
			r.Within("low", nearest[0], 0.0034)
			r.Within("high", nearest[1], 0.0034)
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
		case "knurling speed":
			share(speeds.RatioOf(speeds.Knurling, speeds.Turning))
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

// The shares of the trade are by name the whole of another speed, at the diameter
// that is said; the share of parting that Recommend takes is inside what the other
// works say, and screwcutting, one quarter to one third, is as slow as knurling.
func TestShares(t *testing.T) {
	for op, of := range map[speeds.Operation]speeds.Operation{
		speeds.Facing: speeds.Turning, speeds.CentreDrilling: speeds.Drilling, speeds.FaceMilling: speeds.Milling,
		speeds.FlyCutting: speeds.Milling, speeds.Turning: speeds.RoughTurning,
	} { // common practice
		if got := speeds.RatioOf(op, of); !slices.Contains(got, [2]float64{1, 1}) {
			t.Errorf("%v of %v: %v", op, of, got)
		}
	}
	if got := speeds.RatioOf(speeds.Screwcutting, speeds.Turning); !slices.Equal(got, speeds.RatioOf(speeds.Knurling, speeds.Turning)) {
		t.Errorf("screwcutting %v", got)
	}
	parting := speeds.RatioOf(speeds.Parting, speeds.Turning)
	for i, p := range parting {
		others := slices.Delete(slices.Clone(parting), i, i+1)
		if !slices.ContainsFunc(others, func(o [2]float64) bool { return p[0] <= o[1] && o[0] <= p[1] || p[0] == 1 }) {
			t.Errorf("parting at %v, the others say %v", p, others)
		}
	}
	// A pocket-book's table, p. 439: iron bored at 80 in/min and turned at 160.
	if got := speeds.RatioOf(speeds.Boring, speeds.Turning); !slices.Contains(got, [2]float64{80.0 / 160, 1}) {
		t.Errorf("boring %v", got)
	}
}

// A cutter maker's table reams iron and steel at 0.60 to 0.71 of what it drills at.
// The half that Recommend takes where there is no more, an old rule, is below it.
func TestReamingOfCutterMaker(t *testing.T) {
	pairs := 0
	for _, name := range []string{"cast iron", "mild steel", "free-cutting mild steel", "medium carbon steel",
		"stainless steel 303", "stainless steel 304", "stainless steel 416"} {
		of := map[speeds.Operation]map[string]units.Speed{}
		for _, op := range []speeds.Operation{speeds.Drilling, speeds.Reaming} {
			all, err := speeds.PublishedFor(op, metal(name), speeds.HSS)
			if err != nil {
				t.Fatal(err)
			}
			of[op] = map[string]units.Speed{}
			for _, p := range all {
				if strings.HasPrefix(p.Refs.First().Title, "Cutter maker's reprint") {
					of[op][p.Material] = p.Max
				}
			}
		}
		for printed, reamed := range of[speeds.Reaming] {
			if drilled, ok := of[speeds.Drilling][printed]; ok {
				pairs++
				if share := float64(reamed / drilled); share < 0.595 || share > 0.715 {
					t.Errorf("%s: reamed at %.3f of drilling", printed, share)
				}
			}
		}
	}
	if pairs == 0 {
		t.Error("nothing was compared")
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
