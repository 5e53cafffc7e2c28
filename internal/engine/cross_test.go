package engine_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/engine"
)

const (
	cover    = "[[covers]]\nwhere = \"cylinder cover\"\nthread = \"M3\"\nstuds = 6\n"
	chest    = "[[covers]]\nwhere = \"steam chest\"\nthread = \"M3\"\nstuds_across = 2\nstuds_along = 3\n"
	fastener = "[[fasteners]]\nwhere = \"cylinder covers\"\nthread = \"M3\"\ncount = 12\n"
	fit      = "[[fits]]\nwhere = \"main bearings\"\nshaft = \"crankshaft\"\nnominal = \"6 mm\"\n"
)

// With returns a table with lines replaced or added.
func with(table string, oldnew ...string) string {
	for i := 0; i < len(oldnew); i += 2 {
		if oldnew[i] == "" {
			table += oldnew[i+1] + "\n"
		} else if next := strings.Replace(table, oldnew[i], oldnew[i+1], 1); next != table {
			table = next
		} else {
			panic("no " + oldnew[i] + " in " + table)
		}
	}
	return table
}

// Two statements of one thing name both places; nothing is compared that is not
// known to be the same.
func TestCross(t *testing.T) {
	const bore = "[cylinder]\nbore = \"20 mm\"\n"
	for _, test := range []struct{ name, text, want string }{
		{"one cover stands for two", cover + fastener, ""},
		{"the studs once", with(cover, "= 6", "= 12") + fastener, ""},
		{"two covers of one name", cover + cover + fastener, ""},
		{"three covers of one name", cover + cover + cover + fastener,
			`engine.toml:16:9: fasteners[1].count: 12 of M3x0.5, but ` +
				`engine.toml:12:9: covers[3].studs: 18 of M3x0.5 in all covers of that name; accepted: 18, or a multiple`},
		{"8 studs and 12 screws", with(cover, "= 6", "= 8") + fastener,
			`engine.toml:8:9: fasteners[1].count: 12 of M3x0.5, but engine.toml:4:9: covers[1].studs: 8 of M3x0.5; accepted: 8, or a multiple`},
		{"another thread", with(fastener, "M3", "5 BA") + with(cover, "= 6", "= 8"),
			`engine.toml:7:10: covers[1].thread: 8 of M3x0.5, but engine.toml:3:10: fasteners[1].thread: 12 of 5 BA; accepted: one thread`},
		{"one thread by two names", with(fastener, "M3", "M3x0.5") + cover, ""},
		{"capitals and articles", with(fastener, "cylinder covers", "The Cylinder  Cover", "= 12", "= 10") + cover, "covers[1].studs: 6 of M3x0.5"},
		{"another place", with(fastener, "cylinder covers", "cylinder flange", "= 12", "= 10") + cover, ""},
		{"a plural of a plural", with(fastener, "cylinder covers", "bosses", "= 12", "= 10") + with(cover, "cylinder cover", "boss"), "6 of M3x0.5"},
		{"screws and a plug in one place", with(fastener, "= 12", "= 6") + with(fastener, "M3", "M5", "= 12", "= 1") + cover, ""},
		{"screws in two lots", with(fastener, "= 12", "= 4") + with(fastener, "= 12", "= 2") + cover, ""},
		{"screws in two lots, one too many", with(fastener, "= 12", "= 4") + with(fastener, "= 12", "= 3") + cover,
			`engine.toml:12:9: covers[1].studs: 6 of M3x0.5, but engine.toml:8:9: fasteners[2].count: 7 of M3x0.5`},
		{"corners counted once", chest + with(fastener, "cylinder covers", "steam chest", "12", "6"), ""},
		{"corners counted twice", chest + with(fastener, "cylinder covers", "steam chest", "12", "8"),
			`engine.toml:9:9: fasteners[1].count: 8 of M3x0.5, but engine.toml:4:16: covers[1].studs_across: 6 of M3x0.5`},
		{"no thread", with(cover, "thread = \"M3\"\n", "") + fastener, ""},
		{"no studs", with(cover, "studs = 6\n", "") + fastener, ""},
		{"no count", cover + with(fastener, "count = 12\n", ""), ""},
		{"studs below zero", with(cover, "= 6", "= -5") + fastener, ""},
		{"studs beyond reason", with(cover, "= 6", "= 9223372036854775807") + with(fastener, "= 12", "= 9223372036854775807"), ""},
		{"corners beyond reason", with(chest, "= 2", "= 9223372036854775807", "= 3", "= 9223372036854775807") +
			with(fastener, "cylinder covers", "steam chest"), ""},
		{"hole of the class", with(cover, "", `hole = "3.4 mm"`) + with(fastener, "", `clearance = "ISO 273 medium"`), ""},
		{"hole of the class, in inches", with(cover, "", `hole = "0.134 in"`) + with(fastener, "", `clearance = "ISO 273 medium"`), ""},
		{"hole of another class", with(cover, "", `hole = "3.6 mm"`) + with(fastener, "", `clearance = "ISO 273 medium"`),
			`engine.toml:10:13: fasteners[1].clearance: ISO 273 medium, holes of 3.4 mm, but engine.toml:5:8: covers[1].hole: holes of 3.6 mm; accepted: the same within 0.1 mm`},
		{"one shaft", fit + with(fit, "main bearings", "flywheel on crankshaft"), ""},
		{"one shaft by two names", fit + with(fit, "main bearings", "flywheel on crankshaft", "crankshaft\"\n", "Crankshaft\"\n", "6 mm", "6.0 mm"), ""},
		{"one shaft, two sizes", fit + with(fit, "main bearings", "flywheel", "6 mm", "7 mm"),
			`engine.toml:8:11: fits[2].nominal: 7 mm, but engine.toml:4:11: fits[1].nominal: 6 mm; accepted: one nominal size for the shaft "crankshaft"; or a name`},
		{"one bar, two classes", with(fit, "", `fit = "H8/f7"`) + with(fit, "main bearings", "flywheel", "", `fit = "H7/h6"`),
			`engine.toml:10:7: fits[2].fit: a shaft of h6, but engine.toml:5:7: fits[1].fit: a shaft of f7; accepted: one size for the shaft "crankshaft"`},
		{"one bar, one class", with(fit, "", `fit = "F8/h6"`) + with(fit, "main bearings", "flywheel", "", `fit = "H7/h6"`), ""},
		{"one shaft in two units", fit + with(fit, "main bearings", "flywheel", "6 mm", "1/4 in"), `fits[2].nominal: 6.35 mm`},
		{"two shafts", fit + with(fit, "main bearings", "flywheel", "crankshaft", "crankshaft, outer end", "6 mm", "7 mm"), ""},
		{"no shaft", with(fit, "shaft = \"crankshaft\"\n", "") + with(fit, "main bearings", "flywheel", "shaft = \"crankshaft\"\n", "", "6 mm", "7 mm"), ""},
		{"one shaft, two materials", with(fit, "", `shaft_material = "silver steel"`) + with(fit, "main bearings", "flywheel", "", `shaft_material = "brass"`),
			`engine.toml:10:18: fits[2].shaft_material: brass, but engine.toml:5:18: fits[1].shaft_material: silver steel; accepted: one material`},
		{"one shaft by two names of its material", with(fit, "", `shaft_material = "silver steel"`) + fit, ""},
		{"one fit, two sizes", with(fit, "shaft = \"crankshaft\"\n", "") + with(fit, "main bearings", "main bearing", "shaft = \"crankshaft\"\n", "", "6 mm", "7 mm"),
			`engine.toml:6:11: fits[2].nominal: 7 mm, but engine.toml:3:11: fits[1].nominal: 6 mm; accepted: one nominal size for "main bearing"`},
		{"one fit and shaft, two sizes, told once", fit + with(fit, "6 mm", "7 mm"), `for the shaft "crankshaft"`},
		{"piston of the bore", bore + with(fit, "main bearings", "piston in cylinder", "6 mm", "20.0 mm"), ""},
		{"piston of another size", with(fit, "main bearings", "Piston in its cylinder", "6 mm", "19 mm") + bore,
			`engine.toml:6:8: cylinder.bore: 20 mm, but engine.toml:4:11: fits[1].nominal: 19 mm; accepted: the bore as the nominal size`},
		{"piston to the bore", bore + with(fit, "main bearings", "piston to the bore", "6 mm", "19 mm"), "fits[1].nominal: 19 mm"},
		{"piston rod", bore + with(fit, "main bearings", "piston rod in cylinder gland", "6 mm", "19 mm"), ""},
		{"piston valve", bore + with(fit, "main bearings", "piston on rod", "6 mm", "19 mm"), ""},
		{"bored in steps", bore + "[[operations]]\npart = \"cylinder\"\noperation = \"boring\"\ndiameter = \"19.5 mm\"\n", ""},
		{"bored too large", bore + "[[operations]]\npart = \"cylinder\"\noperation = \"boring\"\ndiameter = \"20.5 mm\"\n",
			"engine.toml:6:12: operations[1].diameter: 20.5 mm, but engine.toml:2:8: cylinder.bore: 20 mm; accepted: up to the bore"},
		{"turned outside", bore + "[[operations]]\npart = \"cylinder\"\noperation = \"turning\"\ndiameter = \"30 mm\"\n", ""},
		{"gasket inside the bore", bore + with(cover, "", `opening = "19 mm"`), "engine.toml:7:11: covers[1].opening: 19 mm, but engine.toml:2:8: cylinder.bore: 20 mm"},
		{"gasket of the bore", bore + with(cover, "", `opening = "20 mm"`), ""},
		{"two speeds of one wheel", "[[operations]]\npart = \"flywheel\"\nruns_at = \"600 rev/min\"\n[[operations]]\npart = \"flywheel\"\nruns_at = \"500 rev/min\"\n",
			"engine.toml:6:11: operations[2].runs_at: 500 rev/min, but engine.toml:3:11: operations[1].runs_at: 600 rev/min; accepted: one speed"},
		{"wheel of another size", "[flywheel]\ndiameter = \"90 mm\"\n[[operations]]\npart = \"flywheel\"\noperation = \"facing\"\ndiameter = \"100 mm\"\n",
			"engine.toml:6:12: operations[1].diameter: 100 mm, but engine.toml:2:12: flywheel.diameter: 90 mm; accepted: the largest"},
		{"wheel with its hub faced", "[flywheel]\ndiameter = \"100 mm\"\n[[operations]]\npart = \"flywheel\"\noperation = \"facing\"\ndiameter = \"20 mm\"\n" +
			"[[operations]]\npart = \"flywheel\"\noperation = \"turning\"\ndiameter = \"100 mm\"\n", ""},
		{"engine faster than its wheel", "[running]\nspeed = \"700 rev/min\"\n[[operations]]\npart = \"flywheel\"\nruns_at = \"600 rev/min\"\n",
			"engine.toml:5:11: operations[1].runs_at: 600 rev/min, but engine.toml:2:9: running.speed: 700 rev/min; accepted: an engine no faster"},
		{"engine slower than its wheel", "[running]\nspeed = \"300 rev/min\"\n[[operations]]\npart = \"flywheel\"\nruns_at = \"600 rev/min\"\n", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			e, err := engine.Parse("engine.toml", []byte(test.text))
			if err != nil {
				t.Fatal(err)
			}
			err = e.Cross()
			if test.want == "" {
				if err != nil {
					t.Error(err)
				}
				return
			}
			if err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), "\n") {
				t.Errorf("%v\nwant %s", err, test.want)
			}
		})
	}
}

// Contradictions are told all at once, in order of the file, each once.
func TestCrossTellsAll(t *testing.T) {
	text := with(fit, "main bearings", "piston in cylinder", "6 mm", "19 mm") + with(cover, "= 6", "= 8") + fastener +
		with(fit, "6 mm", "7 mm") + "[cylinder]\nbore = \"20 mm\"\n"
	e, err := engine.Parse("engine.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Split(fmt.Sprint(engine.Join(e.Cross(), e.Errorf("cylinder.stroke", "missing"), e.Cross())), "\n")
	want := []string{"engine.toml:12:9: fasteners[1].count", "engine.toml:16:11: fits[2].nominal", "engine.toml:17:2: cylinder.stroke: missing", "engine.toml:18:8: cylinder.bore"}
	for i := range max(len(got), len(want)) {
		if i >= len(got) || i >= len(want) || !strings.HasPrefix(got[i], want[i]) {
			t.Fatalf("%s\nwant %s", strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
}
