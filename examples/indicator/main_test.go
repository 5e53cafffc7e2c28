package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// ask runs the program on the demonstration engine with texts in place of others.
func ask(t *testing.T, oldNew []string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	demo, err := os.ReadFile("../enginebook/engines/demo.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(demo)
	for i := 0; i < len(oldNew); i += 2 {
		if !strings.Contains(text, oldNew[i]) {
			t.Fatalf("no %q in the demonstration", oldNew[i])
		}
		text = strings.Replace(text, oldNew[i], oldNew[i+1], 1)
	}
	path := filepath.Join(t.TempDir(), "engine.toml")
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	status = program().Do(append(args, path), &out, &errs)
	return status, out.String(), errs.String()
}

type arc struct {
	From float64 `json:"from_deg"`
	To   float64 `json:"to_deg"`
}

type answer struct {
	Mean struct{ Head, Crank float64 } `json:"mean_pressure_bar"`
	Work float64                       `json:"work_j_per_turn"`
	// Power is of all cylinders.
	Power  float64                          `json:"power_w"`
	Torque struct{ Mean, Max, Min float64 } `json:"torque_nm"`

	Negative, Starts []arc
	Air              *float64 `json:"free_air_l_min"`
	Steam            *float64 `json:"steam_kg_h"`
	Pressures        []struct {
		Turned float64 `json:"crank_deg"`
		Head   float64 `json:"head_bar"`
		Crank  float64 `json:"crank_bar"`
		Gauge  float64 `json:"head_gauge_bar"`
		Torque float64 `json:"torque_nm"`
	}
	Findings []struct{ Code, Severity, Where, Text string }
	Running  struct {
		Pressures struct {
			Head struct {
				Release struct {
					Gauge    float64 `json:"gauge_bar"`
					Absolute float64 `json:"absolute_bar"`
				}
			}
		} `json:"pressures_at"`
		Work struct{ Head struct{ Expansion float64 } }
		Face struct {
			Down  float64 `json:"down_n"`
			Up    float64 `json:"up_n"`
			Lifts bool
		} `json:"valve_face"`
		Starting struct {
			Kick float64 `json:"kick_deg"`
		}
		Pipes struct {
			Steam struct {
				Flow float64 `json:"flow_ml_s"`
				Bore float64 `json:"bore_mm"`
				Take float64 `json:"take_mm"`
			}
		}
		Oil struct {
			Water float64 `json:"water_g"`
		} `json:"oil_and_water"`
	}
}

func decode(t *testing.T, want int, oldNew []string, args ...string) (a answer) {
	t.Helper()
	status, stdout, stderr := ask(t, oldNew, append([]string{"-json"}, args...)...)
	if status != want || stderr != "" {
		t.Fatalf("exit %d, want %d: %s", status, want, stderr)
	}
	if err := json.Unmarshal([]byte(stdout), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g within %.3g", what, got, want, tolerance)
	}
}

// What other programs read hangs together: mean pressures by swept volumes are the
// work, the moment round the turn is too, and the lists have the whole turn.
func TestAnswer(t *testing.T) {
	a := decode(t, 0, nil)
	head := math.Pi / 4 * 20 * 20 * 25 / 1e4 // J for a bar
	crank := math.Pi / 4 * (20*20 - 5*5) * 25 / 1e4
	near(t, "work", a.Work, a.Mean.Head*head+a.Mean.Crank*crank, 1e-9)
	near(t, "power", a.Power, a.Work*5, 1e-9)
	near(t, "mean moment", a.Torque.Mean, a.Work/(2*math.Pi), 1e-12)
	if len(a.Pressures) != 360 || a.Air == nil || a.Steam != nil {
		t.Fatalf("%d pressures, air %v, steam %v", len(a.Pressures), a.Air, a.Steam)
	}
	sum := 0.0
	for i, p := range a.Pressures {
		near(t, "crank", p.Turned, float64(i), 1e-9)
		near(t, "gauge", p.Gauge, p.Head-1.01325, 1e-9)
		sum += p.Torque / 360
		if p.Torque > a.Torque.Max+1e-9 || p.Torque < a.Torque.Min-1e-9 || !(p.Head > 0 && p.Crank > 0) {
			t.Errorf("at %d degrees %+v", i, p)
		}
		within := false
		for _, n := range a.Negative {
			within = within || n.From < float64(i) && float64(i) < n.To
		}
		if within != (p.Torque < -1e-12) {
			t.Errorf("at %d degrees %v N m, negative: %v", i, p.Torque, within)
		}
	}
	near(t, "mean of the points", sum, a.Torque.Mean, 0.01)
	// 20 by 25 mm at 300 rev/min: 66 ml/s, 1.8 mm at 25 m/s, so 3 mm for the peak.
	near(t, "flow", a.Running.Pipes.Steam.Flow, 66, 0.5)
	near(t, "bore", a.Running.Pipes.Steam.Bore, 1.8, 0.05)
	near(t, "take", a.Running.Pipes.Steam.Take, 3, 0)
}

func TestSteam(t *testing.T) {
	a := decode(t, 0, []string{`stroke = "25 mm"`, "stroke = \"25 mm\"\niron = \"0.5 kg\""}, "-medium", "steam", "-index", "1.135")
	if a.Steam == nil || a.Air != nil {
		t.Fatalf("steam %v, air %v", a.Steam, a.Air)
	}
	near(t, "steam", *a.Steam, 0.394, 0.0005)
	// 0.5 kg of iron from 20 to 133.7 degrees C: 0.5 x 447 x 113.7 / 2163 kJ/kg.
	near(t, "water", a.Running.Oil.Water, 11.75, 0.02)
	wet := false
	for _, f := range a.Findings {
		wet = wet || f.Code == "water-in-cylinder"
	}
	if !wet {
		t.Error("nothing of the water that the clearance does not hold", a.Findings)
	}
}

// EC-13: a twin with its cranks at half a turn has the blind arcs of one cylinder; at
// right angles, with late cut-off, it starts from everywhere.
func TestTwin(t *testing.T) {
	one := decode(t, 0, nil)
	half := decode(t, 0, []string{`friction = "0.02 N m"`, "second_crank = \"180 deg\""})
	near(t, "EC-13 power of two", half.Power, 2*one.Power, 1e-9)
	if half.Running.Starting.Kick < 1 {
		t.Errorf("EC-13: cranks at half a turn, turned on by %v", half.Running.Starting.Kick)
	}
	square := decode(t, 0, []string{`friction = "0.02 N m"`, "second_crank = \"90 deg\""})
	if len(square.Starts) != 1 || square.Starts[0] != (arc{0, 360}) || square.Running.Starting.Kick != 0 {
		t.Errorf("EC-13: cranks at right angles start from %v", square.Starts)
	}
}

// EC-19: a valve of 12 by 10 mm with the chest 2 bar above the exhaust is held down by
// 24.0 N.
func TestFace(t *testing.T) {
	a := decode(t, 0, []string{`width = "16 mm"`, `width = "10 mm"`, `cavity_width = "11 mm"`, `cavity_width = "8 mm"`,
		`length = "15.4 mm"`, `length = "15.4 mm"`, `length = "10 mm"`, `length = "8 mm"`})
	near(t, "EC-19 down", a.Running.Face.Down, 24.0*15.4/12, 0.005)
	if a.Running.Face.Lifts || a.Running.Face.Up <= 0 {
		t.Errorf("EC-19: %+v", a.Running.Face)
	}
}

// EC-20: a cut-off at 25 per cent, release at 75 and a clearance of 10 expand 2.43
// times: 80 psi on the gauge fall to 24.1 psi, with 15 psi of the air. With endless
// rods an advance of 60 degrees and a lap of sin 60 of half the travel has that.
func TestExpansion(t *testing.T) {
	a := decode(t, 0, []string{
		`connecting_rod = "63 mm"`, `connecting_rod = "infinite"`, `eccentric_rod = "60 mm"`, `eccentric_rod = "infinite"`,
		`travel = "6.4 mm"`, `travel = "10 mm"`, `advance = "26 deg"`, `advance = "60 deg"`,
		`bar = "2.5 mm"`, `bar = "5 mm"`, `exhaust = "4 mm"`, `exhaust = "6 mm"`,
		`length = "15.4 mm"`, `length = "28.660254 mm"`, `cavity = "9 mm"`, `cavity = "16 mm"`, `cavity_width = "11 mm"`, `cavity_width = "12 mm"`,
		`pressure = "2 bar"`, "pressure = \"80 psi\"\natmosphere = \"15 psi\"", `clearance = "8 %"`, `clearance = "10 %"`, `index = 1.2`, `index = 1`,
		`pressure = "4 bar"`, `pressure = "8 bar"`, `where = "steam chest"
shape`, `where = "valve casing"
shape`,
	})
	const psi = 0.0689475729
	near(t, "EC-20 expansion", a.Running.Work.Head.Expansion, 0.85/0.35, 0.005)
	near(t, "EC-20 at release, psi", a.Running.Pressures.Head.Release.Gauge/psi, 24.1, 0.1)
	near(t, "EC-20 absolute, psi", a.Running.Pressures.Head.Release.Absolute/psi, 39.1, 0.1)
}

// A sheave in line with the crank does not run the engine, and is told its work a turn.
func TestDoesNotRun(t *testing.T) {
	a := decode(t, 1, []string{`advance = "26 deg"`, `advance = "-90 deg"`})
	told := false
	for _, f := range a.Findings {
		told = told || f.Code == "gear-does-not-run" && f.Severity == "fails" && strings.Contains(f.Text, "takes 0.774 J a turn out of the flywheel")
	}
	if !told || a.Work >= 0 {
		t.Errorf("work %v, findings %+v", a.Work, a.Findings)
	}
}

// More than the cylinder is declared for is a danger, and stands first; nothing declared
// is said.
func TestDeclared(t *testing.T) {
	a := decode(t, 1, nil, "-pressure", "4.5 bar")
	if f := a.Findings[0]; f.Code != "above-declared-pressure" || f.Severity != "danger" {
		t.Errorf("first %+v", f)
	}
	a = decode(t, 1, []string{`piston = "8 mm"`, `piston = "9.1 mm"`})
	if f := a.Findings[0]; f.Severity != "danger" || !strings.Contains(f.Text, "The piston has no room") {
		t.Errorf("first %+v", f)
	}
	a = decode(t, 0, []string{"pressure = \"4 bar\" # that it is declared for\n", ""}, "-pressure", "4.5 bar")
	told := false
	for _, f := range a.Findings {
		told = told || f.Code == "no-declared-pressure" && f.Severity == "note"
	}
	if !told {
		t.Errorf("%+v", a.Findings)
	}
}

// Flags win over the file, and what neither has is asked for with what is usual.
func TestFlagsAndFile(t *testing.T) {
	status, stdout, _ := ask(t, nil, "-pressure", "1 bar", "-speed", "240 rev/min", "-clearance", "0.12", "-back", "0.1 bar", "-index", "1.4")
	prose := strings.Join(strings.Fields(stdout), " ")
	for _, want := range []string{"speed 240 rev/min", "index of expansion 1.4 air without heat", "clearance, head end 12.0 %",
		"steam chest 1.00 bar 2.01 bar", "exhaust 0.10 bar 1.11 bar"} {
		if status != 0 || !strings.Contains(prose, want) {
			t.Errorf("exit %d, no %q in\n%s", status, want, stdout)
		}
	}
	// The room of the piston stands for a clearance that is not given.
	status, stdout, _ = ask(t, []string{"clearance = \"8 %\" # with what ports and passages hold\n", ""})
	if !strings.Contains(strings.Join(strings.Fields(stdout), " "), "clearance, head end 2.0 % piston to cover alone") {
		t.Errorf("exit %d\n%s", status, stdout)
	}
	for _, test := range []struct {
		oldNew, args []string
		want         string
	}{
		{[]string{"medium = \"air\"\n", ""}, nil, "running.medium: medium: missing; accepted: air or steam; or the flag -medium"},
		{[]string{"back = \"0 bar\"\n", ""}, nil, "running.back: back pressure: missing; accepted: 0 bar into the open air"},
		{[]string{"index = 1.2\n", ""}, nil, "1.135 for dry saturated steam"},
		{[]string{"clearance = \"8 %\" # with what ports and passages hold\n", "", "length = \"33.5 mm\" # between the covers\npiston = \"8 mm\"\n", ""}, nil,
			"running.clearance: clearance: missing; accepted: the share of the swept volume at each end, 3 % to 10 % is usual"},
		{[]string{"clearance = \"8 %\" # with what ports and passages hold\n", "", `piston = "8 mm"`, `piston = "9.1 mm"`}, nil,
			"cylinder.length: the piston strikes its covers"},
		{[]string{`material = "cast iron"
evenness`, `material = "paper"
evenness`}, nil, "flywheel.material: "},
		{nil, []string{"-pressure", "60 bar"}, "-pressure: pressure in the chest 60 bar: out of range"},
		{nil, []string{"-back", "3 bar"}, "-back: back pressure 3 bar: out of range; accepted: below the pressure in the chest, 2 bar"},
		{nil, []string{"-medium", "gas"}, "-medium: medium \"gas\": unknown; accepted: air, steam"},
		{[]string{`index = 1.2`, `index = 2.0`}, nil, "running.index: index of expansion 2: out of range"},
		{[]string{`piston_rod = "5 mm"`, `piston_rod = "21 mm"`}, nil, "cylinder.piston_rod: piston rod 21 mm: out of range; accepted: thinner than the bore"},
		{[]string{`rim_depth = "10 mm"`, `rim_depth = "60 mm"`}, nil, "flywheel.rim_depth: depth of the rim 60 mm: out of range"},
		{[]string{"rim_depth = \"10 mm\"\n", ""}, nil, "flywheel.rim_depth: missing"},
		{[]string{`evenness = "10 %"`, `evenness = "0 %"`}, nil, "flywheel.evenness: none"},
		{[]string{"cavity_width = \"11 mm\"\n", ""}, nil, "valve.width: accepted: width and cavity_width together"},
		{[]string{`pipe_velocity = "25 m/s"`, `pipe_velocity = "900 m/s"`}, nil, "running.pipe_velocity: velocity in the pipe 54000 m/min"},
		{[]string{`friction = "0.02 N m"`, `friction = "-1 N m"`}, nil, "running.friction: friction -1 N"},
	} {
		status, stdout, stderr := ask(t, test.oldNew, test.args...)
		if status != 2 || stdout != "" || !strings.Contains(stderr, test.want) {
			t.Errorf("exit %d, %q, want %q", status, stderr, test.want)
		}
	}
	var out, errs bytes.Buffer
	if status := program().Do(nil, &out, &errs); status != 2 || !strings.Contains(errs.String(), "accepted: one engine file") {
		t.Error(status, errs.String())
	}
}
