package pages_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/finding"
)

func engineBook(t *testing.T, text string) book.Book {
	t.Helper()
	b, err := pages.EngineFile("engine.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// What is done before steam, in its order, with the water that cold iron makes
// beside the room that the piston leaves for it. By hand: 0.5 kg x 447 J/(kg K) x
// 110 K is 24.6 kJ, which is 11.7 g at 2108 kJ/kg; 0.5 mm of pi/4 x 20 x 20 mm is
// 0.157 ml.
func TestBeforeSteam(t *testing.T) {
	b := engineBook(t, demo(t, "", ""))
	text, data := views(t, b)
	if last := b.Sections[len(b.Sections)-1]; last.Key != "before_steam" {
		t.Errorf("the last section is %s", last.Key)
	}
	_, rest, _ := strings.Cut(text, "BEFORE STEAM")
	rest, _, _ = strings.Cut(rest, "WORTH KNOWING")
	for _, want := range []string{
		"Oil before the first turn", "by hand through two whole turns", "drain cocks open", "low-pressure air",
		"block the flywheel", "Warm it through, with the drain cocks open", "0.500 kg an example", "4.00 bar", "24.6 kJ from 20 degrees C to 130",
		"11.7 g", "11.0 to 14.2 g", "0.16 ml piston to cover, 2 % of the 7.9 ml swept", "= 11.7 g", "By hand until dry", "no water",
	} {
		_, after, found := strings.Cut(rest, want)
		if !found {
			t.Fatalf("no %q, or not in its turn, before %q", want, rest)
		}
		rest = after
	}
	near(t, at(data, "before_steam.water_g"), 11.66, 0.01)
	near(t, at(data, "before_steam.water_by_other_prints_g.max"), 14.2, 0.01)
	near(t, at(data, "before_steam.clearance_ml"), 0.1571, 0.0001)

	// Without the room of the piston an example: 8 % of pi/4 x 20 x 20 x 25 mm.
	text, data = views(t, engineBook(t, noRoom(demo(t, "", ""))))
	mustShow(t, text, "0.63 ml taken as 8 % of the 7.9 ml swept")
	near(t, at(data, "before_steam.clearance_ml"), 0.6283, 0.0001)

	// The engine's own iron, at the pressure of its covers, to the heat of the steam
	// where the file does not say how hot the cylinder gets: 1 kg x 447 x (120.43 - 20) K
	// at 2201.1 kJ/kg of a boiler at 1 bar.
	own := strings.NewReplacer(`stroke = "25 mm"`, "stroke = \"25 mm\"\niron = \"1 kg\"", `pressure = "4 bar" # that`, `pressure = "4 bar" # that`,
		`pressure = "4 bar"`, `pressure = "1 bar"`).Replace(demo(t, "", ""))
	text, data = views(t, engineBook(t, own))
	if strings.Contains(text, "an example") || !strings.Contains(text, "1.000 kg") {
		t.Error("the engine's own iron is an example")
	}
	near(t, at(data, "before_steam.water_g"), 20.4, 0.05)
}

// An engine that can hurt somebody is told not to run, and nothing in what follows
// says run it: here a flywheel above the limit of its rim.
func TestDangerDoesNotRun(t *testing.T) {
	b := engineBook(t, demo(t, `runs_at = "600 rev/min"`, `runs_at = "6000 rev/min"`))
	if worst, _ := b.All().Worst(); worst != finding.Danger || b.OK() {
		t.Fatal("the wheel is no danger", b.All())
	}
	text, _ := views(t, b)
	if !strings.Contains(text, "CAN HURT SOMEBODY - flywheel, facing: The wheel may fly apart") {
		t.Error("the wheel is not told of")
	}
	_, rest, _ := strings.Cut(text, "BEFORE STEAM")
	if !strings.Contains(rest, "Do not run this engine, on air or on steam") {
		t.Errorf("it is not told not to run: %s", rest)
	}
	rest = strings.Replace(rest, "Do not run this engine, on air or on steam", "", 1)
	if bad := regexp.MustCompile(`(?i)\brun (it|this|the engine)\b|low-pressure air|let it start`).FindString(rest); bad != "" {
		t.Errorf("the book of a wheel that flies apart says %q", bad)
	}
	if !strings.Contains(rest, "tested and certified") {
		t.Error("nothing of the boiler")
	}
}

// An engine that will not work is put right before it is run.
func TestFailsFirst(t *testing.T) {
	b := engineBook(t, demo(t, `cavity = "9 mm"`, `cavity = "11.8 mm"`))
	if worst, _ := b.All().Worst(); worst != finding.Fails {
		t.Fatal("the long cavity works", b.All())
	}
	text, _ := views(t, b)
	if !strings.Contains(text, "BEFORE STEAM "+strings.Repeat("-", 78)+" Put right first what will not work") {
		t.Error("nothing says what comes first")
	}
}

// A reading with air on wants the flywheel blocked, whatever the gear.
func TestReadingsWithAirOn(t *testing.T) {
	b, err := pageOf(demo(t, "", ""), pages.Valve)
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Precautions) == 0 || !strings.Contains(b.Precautions[0].Text, "with air on") ||
		!strings.Contains(b.Precautions[0].Text, "block the flywheel") {
		t.Errorf("%v", b.Precautions)
	}
}

func TestIronOfTheCylinder(t *testing.T) {
	for _, bad := range []string{"0 kg", "-1 kg", "2 t", "1", "1001 kg"} {
		_, err := pages.EngineFile("engine.toml", []byte(demo(t, `stroke = "25 mm"`, "stroke = \"25 mm\"\niron = \""+bad+"\"")))
		if err == nil || !strings.Contains(err.Error(), "cylinder.iron") {
			t.Errorf("%s: %v", bad, err)
		}
	}
}

// The rim of a wheel is what is turned of it, whichever of its operations the file
// has its speed with: not the hole that is reamed there.
func TestRimIsWhatIsTurned(t *testing.T) {
	hole := "part = \"flywheel\"\noperation = \"reaming\"\n"
	elsewhere := strings.NewReplacer("runs_at = \"600 rev/min\"\n", "", hole, hole+"runs_at = \"6000 rev/min\"\n")
	b := engineBook(t, elsewhere.Replace(demo(t, "", "")))
	text, _ := views(t, b)
	if !strings.Contains(text, "flywheel, reaming: The wheel may fly apart: its rim runs at 31.4 m/s") {
		t.Errorf("the rim of 100 mm is not judged: %.900s", text)
	}
	alone := strings.Replace(elsewhere.Replace(demo(t, "", "")), "part = \"flywheel\"\noperation = \"facing\"", "part = \"disc\"\noperation = \"facing\"", 1)
	_, err := pages.EngineFile("engine.toml", []byte(alone))
	if err == nil || !strings.Contains(err.Error(), "operations[2].runs_at: 6000 rev/min, and nothing turns or faces the rim") {
		t.Errorf("a wheel without a rim: %v", err)
	}
}
