package engine_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/engine"
)

// The opening over the valve lets it sweep, is wider than the ports are long and
// shows the chest as long as it is, whichever way it lies.
func TestCrossChest(t *testing.T) {
	const (
		gear  = "[ports]\nlength = \"10 mm\"\n[valve]\nlength = \"15.4 mm\"\n[eccentric]\ntravel = \"6.4 mm\"\n" // sweeps 21.8
		whole = "[cylinder]\nbore = \"20 mm\"\nstroke = \"25 mm\"\n[motion]\nconnecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\"\n" +
			"[ports]\nsteam = \"2 mm\"\nbar = \"2.5 mm\"\nexhaust = \"4 mm\"\nlength = \"10 mm\"\n" +
			"[valve]\nlength = \"15.4 mm\"\ncavity = \"9 mm\"\n[eccentric]\ntravel = \"6.4 mm\"\nadvance = \"26 deg\"\n"
		ring = "[[covers]]\nwhere = \"chest\"\nopening = \"26 mm\"\n"
		room = "[chest]\nlength = \"26 mm\"\n"
	)
	size := func(width, height string) string {
		return fmt.Sprintf("[[covers]]\nwhere = \"steam chest\"\nopening_width = %q\nopening_height = %q\n", width, height)
	}
	over := size("16 mm", "26 mm")
	for _, test := range []struct{ name, text, want string }{
		{"sound", gear + over + room, ""},
		{"lying the other way", gear + size("26 mm", "16 mm") + room, ""},
		{"just enough", gear + size("10.001 mm", "21.8 mm"), ""},
		{"too short for the sweep", gear + size("16 mm", "20 mm"),
			`engine.toml:10:18: covers[1].opening_height: 20 mm, but engine.toml:4:10: valve.length: 15.4 mm, which with a travel ` +
				`of 6.4 mm sweeps 21.8 mm; accepted: an opening of at least 21.8 mm along the travel`},
		{"too short, lying the other way", gear + size("20 mm", "16 mm"), `engine.toml:9:17: covers[1].opening_width: 20 mm, but engine.toml:4:10: valve.length`},
		{"the valve stands later in the file", size("16 mm", "20 mm") + gear,
			`engine.toml:8:10: valve.length: 15.4 mm, which with a travel of 6.4 mm sweeps 21.8 mm, but engine.toml:4:18: covers[1].opening_height: 20 mm; accepted`},
		{"a travel that looks doubled", with(whole, "6.4 mm", "12.8 mm") + over,
			`which with a travel of 12.8 mm sweeps 28.2 mm; accepted: an opening of at least 28.2 mm along the travel; or a travel of 6.4 mm, as this one looks doubled`},
		{"and round", with(whole, "6.4 mm", "12.8 mm") + with(ring, "26 mm", "29 mm"), "from corner to corner; or a travel of 6.4 mm"},
		{"a travel that is only large", with(whole, "6.4 mm", "7.6 mm") + size("16 mm", "22 mm"), "at least 23 mm along the travel"},
		{"too short for a valve off centre", with(gear, "15.4 mm\"", "15.4 mm\"\noffset = \"-0.2 mm\"") + size("16 mm", "22 mm"),
			`which with a travel of 6.4 mm, 0.2 mm off centre, sweeps 22.2 mm; accepted: an opening of at least 22.2 mm`},
		{"enough for a valve with lost motion", with(gear, "15.4 mm\"", "15.4 mm\"\nlost_motion = \"0.4 mm\"") + size("16 mm", "21.4 mm"), ""},
		{"too short for one with lost motion", with(gear, "15.4 mm\"", "15.4 mm\"\nlost_motion = \"0.4 mm\"") + size("16 mm", "21.3 mm"),
			`which with a travel of 6.4 mm less 0.4 mm of lost motion sweeps 21.4 mm; accepted: an opening of at least 21.4 mm`},
		{"too narrow for the ports", gear + size("8 mm", "26 mm"),
			`engine.toml:9:17: covers[1].opening_width: 8 mm, but engine.toml:2:10: ports.length: 10 mm; accepted: an opening of more than 10 mm across the travel`},
		{"as narrow as the ports", gear + size("10 mm", "26 mm"), "ports.length: 10 mm"},
		{"long ports across the longer side", with(gear, "10 mm", "24 mm") + size("22 mm", "26 mm"), ""},
		{"long ports across neither", with(gear, "10 mm", "24 mm") + size("22 mm", "23 mm"), "covers[1].opening_width: 22 mm, but engine.toml:2:10: ports.length: 24 mm"},
		{"too small both ways, in another unit", gear + size("1/4 in", "1/2 in"), "covers[1].opening_height: 12.7 mm"},
		{"round", gear + ring, ""},
		{"round, for the sweep", gear + with(ring, "26 mm", "20 mm"), `engine.toml:9:11: covers[1].opening: 20 mm, but engine.toml:4:10: valve.length`},
		{"round, for the ports", gear + with(ring, "26 mm", "8 mm"), "covers[1].opening: 8 mm, but engine.toml:2:10: ports.length"},
		{"round, for the corners of the valve", gear + with(ring, "26 mm", "23 mm"),
			"covers[1].opening: 23 mm, but engine.toml:4:10: valve.length: 15.4 mm, which with a travel of 6.4 mm sweeps 21.8 mm, over ports 10 mm long; " +
				"accepted: a round opening of more than 23.98 mm, from corner to corner"},
		{"the second cover", gear + over + size("16 mm", "20 mm"), "covers[2].opening_height: 20 mm"},
		{"two of one name, both wrong", gear + size("16 mm", "20 mm") + size("8 mm", "26 mm"), "covers[2].opening_width: 8 mm"},
		{"a chest longer than the opening", gear + over + with(room, "26 mm", "30 mm"),
			`engine.toml:12:10: chest.length: 30 mm, but engine.toml:10:18: covers[1].opening_height: 26 mm; accepted: an opening along the travel not smaller`},
		{"a chest a little longer", gear + over + with(room, "26 mm", "27 mm"), ""},
		{"a chest shorter than the opening", gear + over + with(room, "26 mm", "24 mm"), ""},
		{"cylinder cover", gear + with(size("8 mm", "9 mm"), "steam chest", "cylinder cover"), ""},
		{"inspection cover", gear + with(size("8 mm", "9 mm"), "steam chest", "steam chest drain"), ""},
		{"by another name", gear + with(size("8 mm", "26 mm"), "steam chest", "The cover of the Valve-Chest"), "opening_width: 8 mm"},
		{"piston valve", with(gear, "15.4 mm\"", "15.4 mm\"\nadmission = \"Inside\"") + size("8 mm", "9 mm"), ""},
		{"no gear", size("8 mm", "9 mm"), ""},
		{"no travel", with(gear, "travel = \"6.4 mm\"\n", "") + size("16 mm", "18 mm"), ""},
		{"openings of the ports", gear + "[[covers]]\nwhere = \"steam chest\"\nport_margin = \"1 mm\"\n", ""},
		{"half an opening", gear + with(over, "opening_height = \"26 mm\"\n", "", "16 mm", "8 mm"), ""},
		{"below zero", gear + size("-8 mm", "26 mm"), ""},
		{"the longest that a file may have", with(gear, "10 mm", "1000 m", "15.4 mm\"", "1000 m\"\noffset = \"-1000 m\"", "6.4 mm", "1000 m") + over + with(room, "26 mm", "1000 m"), "sweeps 4000000 mm"},
	} {
		t.Run(test.name, func(t *testing.T) {
			e, err := engine.Parse("engine.toml", []byte(test.text))
			if err != nil {
				t.Fatal(err)
			}
			err = e.Cross()
			if test.want == "" && err != nil || test.want != "" && !strings.Contains(fmt.Sprint(err), test.want) {
				t.Errorf("%v\nwant %s", err, test.want)
			}
			if suspects := strings.Contains(fmt.Sprint(err), "; or a travel of"); suspects != strings.Contains(test.want, "; or a travel of") {
				t.Errorf("suspects the travel %v: %v", suspects, err)
			}
		})
	}
}
