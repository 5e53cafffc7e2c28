package speeds_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

func TestPlanRefuses(t *testing.T) {
	good := speeds.Job{Operation: speeds.Turning, Material: metal("brass"), Diameter: units.MM(20)}
	for name, change := range map[string]func(*speeds.Job){
		"no diameter":          func(j *speeds.Job) { j.Diameter = units.Length{} },
		"no operation":         func(j *speeds.Job) { j.Operation = 0 },
		"knurling in carbide":  func(j *speeds.Job) { j.Operation, j.Tool = speeds.Knurling, speeds.Carbide },
		"speeds reversed":      func(j *speeds.Job) { j.Min, j.Max = 2, 1 },
		"half a speed":         func(j *speeds.Job) { j.Max = 1 },
		"speed not a number":   func(j *speeds.Job) { j.Min, j.Max = units.Speed(math.NaN()), 1 },
		"limit of nothing":     func(j *speeds.Job) { j.Limits = []speeds.Limit{{Speed: 0, Reason: "?"}} },
		"negative depth":       func(j *speeds.Job) { j.Depth = units.MM(-1) },
		"negative height":      func(j *speeds.Job) { j.CentreHeight = units.MM(-1) },
		"negative reach":       func(j *speeds.Job) { j.Reach = units.MM(-1) },
		"overhang of what":     func(j *speeds.Job) { j.Overhang = units.MM(50) },
		"section of what":      func(j *speeds.Job) { j.Section = units.MM(10) },
		"speed of nobody":      func(j *speeds.Job) { j.Min, j.Max = 1e308, 1e308 },
		"negative deep speeds": func(j *speeds.Job) { j.Min, j.Max = -2, -1 },
	} {
		j := good
		change(&j)
		plan, err := j.Plan()
		var argument *units.ArgumentError
		if !errors.As(err, &argument) || plan.Max != 0 {
			t.Errorf("%s: %+v, %v", name, plan, err)
		}
	}
}

func TestLargestDiameter(t *testing.T) {
	j := speeds.Job{Operation: speeds.Facing, Material: metal("cast iron, skin on"), Diameter: units.MM(150)}
	d, err := j.LargestDiameter(210 * units.RevPerMinute)
	if err != nil || math.Abs(d.MM()-1000*18/(math.Pi*210)) > 1e-6 {
		t.Errorf("%v, %v", d, err)
	}
	if _, err := j.LargestDiameter(0); err == nil {
		t.Error("a spindle that stands still")
	}
}

// SP-04: a 12 mm drill in mild steel: 24 to 30 m/min are 637 to 796 rev/min, the rule
// 10,000 / D gives 833; at 2800 rev/min it ran at 106 m/min and went blue.
func TestBlueDrill(t *testing.T) {
	d := units.MM(12)
	for v, want := range map[float64]float64{24: 637, 30: 796} {
		n, err := speeds.SpindleSpeed(units.Speed(v)*units.MetrePerMinute, d)
		if err != nil || math.Abs(float64(n/units.RevPerMinute)/want-1) > 0.01 {
			t.Errorf("%v m/min: %v, %v", v, n, err)
		}
	}
	rule, err := speeds.TenThousandOverD.SpindleSpeed(30*units.MetrePerMinute, d)
	if err != nil || math.Abs(float64(rule/units.RevPerMinute)-833) > 0.5 {
		t.Errorf("rule: %v, %v", rule, err)
	}
	v, err := speeds.CuttingSpeed(2800*units.RevPerMinute, d)
	if err != nil || math.Abs(float64(v/units.MetrePerMinute)-106) > 1 {
		t.Errorf("at 2800: %v, %v", v, err)
	}
}

// A 12 mm drill in mild steel at an invented 2800 rev/min.
func ExampleJob_Check() {
	steel, _ := material.Lookup("mild steel")
	job := speeds.Job{Operation: speeds.Drilling, Material: steel, Diameter: units.MM(12)}
	findings, err := job.Check(2800 * units.RevPerMinute)
	for _, f := range findings {
		fmt.Println(f.Severity, f.Code, f.Text, f.Remedies, err)
	}
	// Output: caution edge-too-fast At 2800 rev/min the edge meets 105.6 m/min (346 ft/min), 3.1 times the most for mild steel with HSS: it burns the edge. [Run it at 889 rev/min or slower.] <nil>
}

func ExampleJob_LargestDiameter() {
	casting, _ := material.Lookup("cast iron, skin on")
	job := speeds.Job{Operation: speeds.Facing, Material: casting}
	d, err := job.LargestDiameter(210 * units.RevPerMinute)
	fmt.Println(d.Text(units.Millimetres, 1), err)
	// Output: 27.3 mm <nil>
}

func TestCheck(t *testing.T) {
	job := speeds.Job{
		Operation: speeds.Turning, Material: metal("mild steel"), Diameter: units.MM(20),
		Limits: []speeds.Limit{{Speed: 600 * units.RevPerMinute, Reason: "the speed marked on the chuck"}},
	}
	for n, want := range map[float64][]finding.Code{ // 398 to 716 rev/min suit the edge
		300: {speeds.SlowStep}, 500: nil, 650: {speeds.AboveLimit}, 900: {speeds.AboveLimit, speeds.EdgeTooFast},
	} {
		got, err := job.Check(units.RotationalSpeed(n) * units.RevPerMinute)
		var codes []finding.Code
		for _, f := range got {
			codes = append(codes, f.Code)
		}
		if err != nil || !slices.Equal(codes, want) {
			t.Errorf("%v: %v, %v", n, got, err)
		}
	}
	// The ends of the range are within it, whatever the rounding.
	for um := 1000; um < 100_000; um += 997 {
		job.Diameter, job.Limits = units.Micron(float64(um)), nil
		plan, err := job.Plan()
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range []units.RotationalSpeed{plan.Min, plan.Max} {
			if got, err := job.Check(n); got != nil || err != nil {
				t.Fatalf("%v on %v: %v, %v", n, job.Diameter, got, err)
			}
		}
	}
	for _, n := range []units.RotationalSpeed{0, -1, units.RotationalSpeed(math.NaN())} {
		if _, err := job.Check(n); err == nil {
			t.Errorf("judged %v", n)
		}
	}
	if _, err := (speeds.Job{}).Check(1); err == nil {
		t.Error("judged no job")
	}
}

// With a speed of the builder's own a job may be in a material that we have no
// figure for.
func TestOwnSpeed(t *testing.T) {
	job := speeds.Job{Operation: speeds.Drilling, Material: metal("cork"), Diameter: units.MM(6), Min: 1, Max: 2}
	plan, err := job.Plan()
	if err != nil || plan.Range.Material.Name != "cork" || !plan.Range.Refs.IsZero() || plan.Max <= plan.Min {
		t.Errorf("%+v, %v", plan, err)
	}
	job.Min, job.Max = 0, 0
	if _, err := job.Plan(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("cork at a published speed: %v", err)
	}
}

// What a job is, and what is planned for it, can be kept as JSON and read back.
func TestJSON(t *testing.T) {
	for _, job := range []speeds.Job{{}, {
		Operation: speeds.Facing, Material: metal("cast iron, skin on"), Diameter: units.MM(150),
		Machine: ladder(t, "cone 720 450 280 175, back gear 6.5:1"), Limits: []speeds.Limit{{Speed: 30, Reason: "marked"}},
	}} {
		var back speeds.Job
		data, err := json.Marshal(job)
		if err != nil || json.Unmarshal(data, &back) != nil || back.Material.Name != job.Material.Name ||
			back.Operation != job.Operation {
			t.Errorf("%s, %v came back as %+v", data, err, back)
		}
		plan, _ := job.Plan()
		var same speeds.Plan
		data, err = json.Marshal(plan)
		if err != nil || json.Unmarshal(data, &same) != nil || len(same.Findings) != len(plan.Findings) ||
			!same.Refs.Equal(plan.Refs) {
			t.Errorf("%s, %v came back as %+v", data, err, same)
		}
	}
}
