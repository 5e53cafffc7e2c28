package cover

import (
	"embed"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A TestPractice is how some body tests a boiler or vessel.
type TestPractice struct {
	Case   string
	Ratio  float64 // of the test pressure to the working pressure
	Medium string  // hydraulic or steam
	Note   string
	Refs   source.Refs
}

//go:embed tables/*.csv
var files embed.FS

var practices = table.Table[TestPractice]{FS: &files, Name: "tables/test_pressure.csv", Row: func(r *table.Row) TestPractice {
	p := TestPractice{Case: r.Text("case"), Ratio: r.Float("ratio"), Medium: r.Text("medium"), Note: r.Text("note")}
	p.Refs = source.Of(r.Ref())
	if p.Ratio < 1 || p.Ratio > 3 {
		r.Complain("ratio %g", p.Ratio)
	}
	return p
}}

// TestPractices returns what is done with boilers and vessels: by clubs in the
// United Kingdom, and by two states of America. They differ, and none of it is a
// rule for an engine cylinder or a steam chest: no source was found that fixes a
// ratio for those. Local codes, the insurer, and the club's or licensed inspector
// decide.
func TestPractices() []TestPractice { return slices.Clone(practices.Rows()) }

// Pressure returns the test pressure of the practice for a working pressure
// above that outside.
//
//	test pressure = ratio * working pressure
//
// Show [TestPrecautions] beside it. See the example.
func (p TestPractice) Pressure(working units.Pressure) (units.Pressure, error) {
	if err := fault.Positive(fail, "working pressure", working); err != nil {
		return 0, err
	}
	if !(p.Ratio > 0 && p.Ratio < 100) {
		return 0, fail.OutOfRange("ratio of the practice", p.Ratio, "above zero, below 100: take one of TestPractices")
	}
	return working * units.Pressure(p.Ratio), nil
}

// The codes of the precautions of a pressure test.
const (
	CodesFirst  finding.Code = "codes-first"
	ProveCovers finding.Code = "prove-covers"
	TestByWater finding.Code = "test-by-water"
	NoAirLeft   finding.Code = "no-air-left"
	StandClear  finding.Code = "stand-clear"
)

// TestPrecautions returns what to mind in any pressure test: common practice, to
// be shown wherever a test pressure is, or a cover that has still to be proved.
func TestPrecautions() []finding.Precaution {
	by := source.Practice()
	return []finding.Precaution{
		{Code: CodesFirst, Text: "Local codes, your insurer and a licensed or club inspector decide how a boiler or " +
			"vessel is tested, not a figure given here.", Ref: by},
		{Code: ProveCovers, Text: "Prove a cover with cold water before steam. No published figure was found for " +
			"engine cylinders and chests, so that how far is for the same people to say.", Ref: by},
		{Code: TestByWater, Text: "Test with water, never with compressed air or steam: what bursts full of water only leaks.", Ref: by},
		{Code: NoAirLeft, Text: "Fill it right up and let all air out; raise the pressure in stages, hold it at least " +
			"10 minutes, and look for weeping and for lasting bulges.", Ref: by},
		{Code: StandClear, Text: "Stand clear of covers and plugs, wear eye protection, and never tighten a nut under pressure.", Ref: by},
	}
}
