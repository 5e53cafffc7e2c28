package pages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
)

// The wheel of the demonstration engine, worked out by hand: 100 mm with a rim of 12 by
// 10 mm, 15 mm long in its bore, H7/h6 on 6 mm, which has 12 and 8 um.
func TestFlywheelPage(t *testing.T) {
	b, err := pageOf(demo(t, "", ""), pages.Flywheel)
	if err != nil {
		t.Fatal(err)
	}
	text, data := views(t, b)
	moment := 7200 * math.Pi / 4 * 0.08 * 0.08 * 0.012 * 0.0001 // kg m of an inside 0.1 mm off
	for key, want := range map[string]float64{
		"settings.edges_mm":         2 * 12 * 0.05 / 100,
		"settings.mandrel_least_mm": 100 * 0.0005 / 2,
		"settings.mandrel_most_mm":  100 * 0.01 / 12 / 2,
		"on_shaft.clearance_mm":     0.020,
		"on_shaft.offset_mm":        0.010,
		"on_shaft.rim_mm":           0.020,
		"on_shaft.face_mm":          100 * 0.020 / 15,
		"balance.drilled_g":         moment / 0.045 * 1000,
		"balance.force_n":           moment * math.Pow(300*2*math.Pi/60, 2),
		"balance.allowed_mm":        6.3 / (300 * 2 * math.Pi / 60),
		"settings.parallel_mm":      0.05,
		"balance.inside_off_mm":     0.1,
		"settings.rim_mm":           100,
	} {
		near(t, at(data, "making_flywheel."+key), want, 0.03*want) // the density that we have is near 7200 kg/m3
	}
	for _, want := range []string{"TURNING THE FLYWHEEL", "examples/chuck -rim -inside -face", "The second setting must repeat the first"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
}

// A disc without a hollow, no speed and no fit have no balance, no force and no seat.
func TestFlywheelPageWithLess(t *testing.T) {
	disc := strings.Replace(strings.Replace(demo(t, `rim_depth = "10 mm"`, `rim_depth = "47 mm"`), "boss = \"16 mm\"\nboss_width = \"15 mm\"\n", "", 1),
		"web = \"4 mm\"\n", "", 1)
	b, err := pageOf(disc, pages.Flywheel)
	if err != nil {
		t.Fatal(err)
	}
	if text, data := views(t, b); strings.Contains(text, "drilled") || at(data, "making_flywheel.balance") != nil {
		t.Error(text)
	} else {
		near(t, at(data, "making_flywheel.on_shaft.face_mm"), 100*0.020/12, 1e-6) // no boss: the bore is as long as the rim is wide
	}
	b, err = pageOf(strings.Replace(demo(t, "", ""), "flywheel on crankshaft", "crank web on crankshaft", 1), pages.Flywheel)
	if err != nil {
		t.Fatal(err)
	}
	if text, data := views(t, b); strings.Contains(text, "grub screw") || at(data, "making_flywheel.on_shaft") != nil {
		t.Error(text)
	}
	if _, err := pageOf(strings.Replace(demo(t, "", ""), `rim_depth = "10 mm"`, `rim_depth = "60 mm"`, 1), pages.Flywheel); err == nil ||
		!strings.Contains(err.Error(), "flywheel.rim_depth") {
		t.Errorf("%v", err)
	}
	if b, err := pageOf("[cylinder]\nbore = \"20 mm\"\nstroke = \"25 mm\"\n", pages.Flywheel); err != nil || len(b.Sections) > 0 {
		t.Errorf("%v, %v", b, err)
	}
}
