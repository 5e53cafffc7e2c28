package main

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// do runs the program; the output comes in one line.
func do(args ...string) (status int, out, errs string) {
	var stdout, stderr bytes.Buffer
	status = program().Do(args, &stdout, &stderr)
	return status, strings.Join(strings.Fields(stdout.String()), " "), stderr.String()
}

// asked answers in JSON.
func asked(t *testing.T, to any, args ...string) {
	t.Helper()
	status, out, errs := do(append([]string{"-json"}, args...)...)
	if status == 2 || errs != "" || json.Unmarshal([]byte(out), to) != nil {
		t.Fatalf("%v: status %d, %s: %s", args, status, errs, out)
	}
}

func near(t *testing.T, name string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g within %g", name, got, want, within)
	}
}

// EC-05: a shift of 1/64 in by a nut that seats in two places of a turn.
func TestHalfTurns(t *testing.T) {
	for _, test := range []struct {
		spindle          string
		turns, set, thou float64
	}{{"1/8x40 ME", 0.625, 0.5, 3.1}, {"5 BA", 0.67, 0.5, 4.0}, {"7 BA", 0.83, 1, -3.3}, {"M3", 0.79, 1, -4.1}} {
		var answer struct {
			Nut struct {
				Turns float64 `json:"turns"`
				Set   float64 `json:"set_turns"`
				Left  float64 `json:"left_mm"`
			}
		}
		asked(t, &answer, "-move", "1/64 in", "-spindle", test.spindle, "-nut-places", "2")
		near(t, test.spindle, answer.Nut.Turns, test.turns, 0.005)
		near(t, test.spindle+", set", answer.Nut.Set, test.set, 0)
		near(t, test.spindle+", left", answer.Nut.Left/0.0254, test.thou, 0.05)
	}
	_, out, _ := do("-move", "1/64 in", "-spindle", "M3", "-nut-places", "2")
	for _, other := range []string{"turn the spindle in its fork", "a shim behind the nut", "a pitch of 0.20 mm or less, 127 to the inch or more"} {
		if !strings.Contains(out, other) {
			t.Errorf("no %q in %s", other, out)
		}
	}
}

// EC-17: leads of the demonstration engine whose sheave has slipped back by 10 degrees,
// and whose valve stands 0.3 mm off, are told apart and put right; the answer is the
// first thing that is printed.
func TestLeadsRead(t *testing.T) {
	engine := check.Path(t, "../examples/enginebook/engines/demo.toml")
	type answer struct {
		Correction struct {
			Turn float64  `json:"turn_deg"`
			Arc  *float64 `json:"arc_mm"`
			Move float64  `json:"move_mm"`
			Nut  *struct {
				Set float64 `json:"set_turns"`
			}
			Head, Crank struct {
				Lead float64 `json:"lead_mm"`
			}
		}
	}
	var slipped, shifted answer
	asked(t, &slipped, "-head", "-0.239 mm", "-crank", "-0.397 mm", engine)
	near(t, "turn", slipped.Correction.Turn, 10, 0.05)
	near(t, "move", slipped.Correction.Move, 0, 0)
	near(t, "arc", *slipped.Correction.Arc, math.Pi*6*slipped.Correction.Turn/360, 1e-6)
	near(t, "head", slipped.Correction.Head.Lead, 0.272, 0.001)
	near(t, "crank", slipped.Correction.Crank.Lead, 0.134, 0.001)
	if slipped.Correction.Nut != nil {
		t.Error("a nut is turned that need not be")
	}
	asked(t, &shifted, "-head", "-0.028 mm", "-crank", "0.434 mm", engine)
	near(t, "turn", shifted.Correction.Turn, 0, 0)
	near(t, "move", shifted.Correction.Move, 0.3, 0.01)
	near(t, "nut", shifted.Correction.Nut.Set, 0.5, 0)
	if shifted.Correction.Arc != nil {
		t.Error("an arc of no turn")
	}
	_, out, _ := do("-head", "-0.239 mm", "-crank", "-0.397 mm", engine)
	answered := strings.Index(out, "Turn the sheave on the shaft by 10.0 deg forwards, the way the engine runs (clockwise seen from the flywheel)")
	if answered < 0 || answered > strings.Index(out, "1. Both dead centres") {
		t.Error(out)
	}
}

// EC-15: the demonstration of the program is a slip eccentric with a mean lead of 0.1 mm.
func TestSlip(t *testing.T) {
	var answer struct {
		Setting struct {
			Fasten struct {
				Travel float64 `json:"pin_travel_deg"`
				Slot   float64 `json:"slot_deg"`
			}
		}
	}
	asked(t, &answer)
	near(t, "travel of the pin", answer.Setting.Fasten.Travel, 139.0, 0.05)
	near(t, "slot", answer.Setting.Fasten.Slot, 139.03+2*math.Asin(3.0/16)*180/math.Pi, 0.01)
}

func TestRefuses(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{[]string{"-head", "0.1 mm"}, "-crank"},
		{[]string{"-crank", "0.1 mm"}, "-head"},
		{[]string{"-head", "0.1", "-crank", "0.1 mm"}, "-head"},
		{[]string{"-head", "9 mm", "-crank", "0.1 mm"}, "-head"},
		{[]string{"-head", "-2.9 mm", "-crank", "-2.9 mm"}, "-head, -crank"},
		{[]string{"-move", "1 m 1"}, "-move"},
		{[]string{"-move", "2 m"}, "-move"},
		{[]string{"-move", "1 mm", check.Path(t, "../examples/salvage/demo/long-valve.toml")}, "-move"},
		{[]string{"-nut-places", "2", check.Path(t, "../examples/salvage/demo/long-valve.toml")}, "-nut-places"},
		{[]string{"-nut-places", "99"}, "-nut-places"},
		{[]string{"-spindle", "5 XX"}, "-spindle"},
		{[]string{"a.toml", "b.toml"}, "2 files"},
		{[]string{"no-such-engine.toml"}, "no-such-engine.toml"},
	} {
		status, out, errs := do(test.args...)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) || !strings.HasPrefix(errs, "setting: ") {
			t.Errorf("%v: status %d, %q, %q", test.args, status, out, errs)
		}
	}
	// Set as it is drawn a gear may fail; then it ends with 1 and says so.
	if status, out, _ := do(check.Path(t, "../examples/enginebook/engines/wrong-cavity.toml")); status != 1 || !strings.Contains(out, "SETTING THE VALVE") {
		t.Errorf("status %d: %s", status, out)
	}
}
