package engine_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/engine"
)

// What a design asks of a file is less than what the book asks, and what is
// wished too often or not at all is told with its place.
func TestWanted(t *testing.T) {
	const least = "[cylinder]\nstroke = \"25 mm\"\n[motion]\nconnecting_rod = \"63 mm\"\neccentric_rod = \"infinite\"\n" +
		"[wanted]\ncut_off = \"75 %\"\nopening = \"2 mm\"\n"
	for _, test := range []struct {
		name, text string
		want       []string
	}{
		{"least", least, nil},
		{"all", least + "cut_off_at = \"Head\"\nlead = \"-0.1 mm\"\ncompression = \"0.08\"\nequal = \"cut-off\"\nstep = \"1/64 in\"\n", nil},
		{"nothing there", "", []string{
			"1:1: cylinder.stroke: missing", "1:1: motion.connecting_rod: missing", "1:1: motion.eccentric_rod: missing",
			"1:1: wanted.cut_off: missing", "1:1: wanted.opening: missing; accepted: the greatest opening to steam"}},
		{"a rule in place of the opening", with(least, "opening", "speed", "2 mm", "300 rev/min", "[motion]", "bore = \"20 mm\"\n[motion]"), nil},
		{"a rule without the bore", with(least, "opening", "speed", "2 mm", "300 rev/min"), []string{"6:2: wanted.opening: missing"}},
		{"two that fix one thing", least + "travel = \"6 mm\"\nexhaust_lap = \"0 mm\"\ncompression = \"8 %\"\n", []string{
			"9:10: wanted.travel: opening is given too", "11:15: wanted.compression: exhaust_lap is given too"}},
		{"shares", with(least, "75 %", "75"), []string{`7:11: wanted.cut_off: share "75": out of range; accepted: a share in per cent`}},
		{"no share", with(least, "75 %", "late"), []string{`share "late": not a number`}},
		{"names", least + "cut_off_at = \"top\"\nequal = \"all\"\n", []string{"accepted: mean, head, crank", "accepted: lead, cut_off"}},
		{"out of range", least + "step = \"0 mm\"\n[valve]\nadmission = \"both\"\n[ports]\nbar = \"-1 mm\"\n[chest]\nlength = \"0 mm\"\n", []string{
			"wanted.step: 0 mm", "valve.admission", "ports.bar: -1 mm", "chest.length: 0 mm"}},
	} {
		e, err := engine.Parse("e.toml", []byte(test.text))
		err = engine.Join(err, e.ValidateWanted())
		var got []string
		if err != nil {
			got = strings.Split(err.Error(), "\n")
		}
		if len(got) != len(test.want) {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		for i, want := range test.want {
			if !strings.Contains(got[i], want) {
				t.Errorf("%s: %q, want %q", test.name, got[i], want)
			}
		}
	}
}

// A file is in inches where it says so, or where its sizes are those of an inch
// rule and of no other.
func TestInches(t *testing.T) {
	for text, want := range map[string]bool{
		"units = \"inch\"\n": true, "units = \"mm\"\n[cylinder]\nbore = \"5/8 in\"\n": false,
		"[cylinder]\nbore = \"5/8 in\"\nstroke = \"3/4 in\"\n": true, "[cylinder]\nbore = \"20 mm\"\nstroke = \"25 mm\"\n": false,
		"[cylinder]\nstroke = \"25.4 mm\"\n": false, "": false,
	} {
		e, err := engine.Parse("e.toml", []byte(text))
		if err != nil || e.Inches() != want {
			t.Errorf("%q: %t, %v", text, e.Inches(), err)
		}
	}
}
