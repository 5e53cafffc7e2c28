package engine_test

import (
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/engine"
)

// validate returns all that is wrong with a file, as the book has it.
func validate(e *engine.Engine) error {
	all := []error{e.ValidateGear(), e.Cross()}
	for i := range e.File.Fits {
		all = append(all, e.ValidateFit(i))
	}
	for i := range e.File.Fasteners {
		all = append(all, e.ValidateFastener(i))
	}
	for i := range e.File.Operations {
		all = append(all, e.ValidateOperation(i))
	}
	for i := range e.File.Covers {
		all = append(all, e.ValidateCover(i))
	}
	return engine.Join(all...)
}

// One run tells what cannot be read, what is missing and what contradicts itself,
// in order of the file, and nothing that follows from another mistake alone.
func TestWhatIsMissing(t *testing.T) {
	const gear = "[cylinder]\nbore = \"20 mm\"\nstroke = \"25 mm\"\n[motion]\nconnecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\"\n" +
		"[ports]\nsteam = \"2 mm\"\nbar = \"2.5 mm\"\nexhaust = \"4 mm\"\nlength = \"10 mm\"\n[valve]\nlength = \"15.4 mm\"\ncavity = \"9 mm\"\n" +
		"[eccentric]\ntravel = \"6.4 mm\"\nadvance = \"26 deg\"\n"
	for _, test := range []struct {
		name, text string
		want       []string
	}{
		{"nothing wrong", gear, nil},
		{"parts that are made", "made = [\"ports\", \"Valve\"]\n" + gear, nil},
		{"nothing made yet", "made = []\n" + gear, nil},
		{"made, no list", "made = \"valve\"\n" + gear, []string{`1:8: made: not of the right kind; accepted: a list of texts in quotes, such as ["ports", "valve"]`}},
		{"made, not text", "made = [\"valve\", 3, \"piston\"]\n" + gear, []string{
			"1:18: made: a bare 3; accepted: text in quotes", `1:21: made: part "piston": unknown; accepted: ports, valve, eccentric, rods`}},
		{"made twice", "made = [\"valve\",\n\"Valve\"]\n" + gear, []string{"2:1: made: Valve is given twice; accepted: once"}},
		{"nothing there", "", []string{
			"1:1: cylinder.bore: missing", "1:1: cylinder.stroke: missing", "1:1: motion.connecting_rod: missing", "1:1: motion.eccentric_rod: missing",
			"1:1: ports.steam: missing", "1:1: ports.bar: missing", "1:1: ports.exhaust: missing", "1:1: ports.length: missing",
			"1:1: valve.length: missing", "1:1: valve.cavity: missing", "1:1: eccentric.travel: missing", "1:1: eccentric.advance: missing"}},
		{"refused, and another missing", with(gear, `"20 mm"`, "20", "bar = \"2.5 mm\"\n", ""),
			[]string{"2:8: cylinder.bore: a bare 20", "7:2: ports.bar: missing"}},
		{"refused alone", with(gear, `"26 deg"`, `"26"`), []string{`17:11: eccentric.advance: angle "26"`}},
		{"misspelt", with(gear, "bore", "boore", "stroke = \"25 mm\"\n", ""), []string{"2:1: cylinder.boore: unknown key"}},
		{"misspelt, and missing elsewhere", with(gear, "bore", "boore", "cavity = \"9 mm\"\n", ""),
			[]string{"2:1: cylinder.boore: unknown key", "12:2: valve.cavity: missing"}},
		{"misspelt table", with(gear, "[motion]", "[motions]", "cavity = \"9 mm\"\n", ""),
			[]string{"4:2: motions: unknown key", "12:2: valve.cavity: missing"}},
		{"table as a list", with(gear, "[motion]", "[[motion]]"), []string{"4:3: motion: not of the right kind"}},
		{"table as a number", with(gear, "[cylinder]\nbore = \"20 mm\"\nstroke = \"25 mm\"\n", "cylinder = 3\n"), []string{"1:12: cylinder: not of the right kind"}},
		{"no quotes", with(gear, `"9 mm"`, "9 mm", "bar = \"2.5 mm\"\n", ""), []string{"7:2: ports.bar: missing", "13:12: text without quotes"}},
		{"a header cut short", with(gear, "[motion]", "[motion"), []string{"4:8: "}},
		{"not UTF-8", "\xff", []string{"1:1: not UTF-8"}},
		{"fit and fasteners", gear + with(fit, `"6 mm"`, "6") + "hole_at = \"60 degC\"\n[[fasteners]]\nwhere = \"\"\ncount = 0\ntap = \"third\"\n", []string{
			"18:3: fits[1].hole_material: missing", "18:3: fits[1].shaft_material: missing", "18:3: fits[1].shaft_at: missing", "18:3: fits[1].fit: missing",
			"21:11: fits[1].nominal: a bare 6",
			"23:3: fasteners[1].thread: missing", "23:3: fasteners[1].material: missing", "23:3: fasteners[1].through: missing",
			"24:9: fasteners[1].where: missing", "25:9: fasteners[1].count: 0; accepted", `26:7: fasteners[1].tap: `}},
		{"refused and contradicted", gear + with(fastener, "12", "\"12\"") + cover + "shape = 4\nhole = \"2 mm\"\nstud_class = \"4.6\"\npressure = \"4 bar\"\n",
			[]string{"21:9: fasteners[1].count: not of the right kind", "18:3: fasteners[1].material", "18:3: fasteners[1].through", "26:9: covers[1].shape: a bare 4", "27:8: covers[1].hole: 2 mm does not pass"}},
		{"more studs than anybody drills", gear + "[[covers]]\nwhere = \"a\"\nshape = \"round\"\ndiameter = \"2 m\"\nstud_circle = \"1 m\"\nstuds = 61\nthread = \"M3\"\nhole = \"3.4 mm\"\nstud_class = \"4.6\"\npressure = \"4 bar\"\n",
			[]string{"23:9: covers[1].studs: 61; accepted: up to 60 studs in all"}},
		{"more corners than anybody counts", gear + "[[covers]]\nwhere = \"a\"\nshape = \"rectangular\"\nwidth = \"2 m\"\nheight = \"1 m\"\nstud_width = \"1 m\"\nstud_height = \"1 m\"\n" +
			"studs_across = 50\nstuds_along = 50\nthread = \"M3\"\nhole = \"3.4 mm\"\nstud_class = \"4.6\"\npressure = \"4 bar\"\n" +
			"[[covers]]\nwhere = \"b\"\nshape = \"rectangular\"\nwidth = \"2 m\"\nheight = \"1 m\"\nstud_width = \"1 m\"\nstud_height = \"1 m\"\n" +
			"studs_across = 9223372036854775807\nstuds_along = 9223372036854775807\nthread = \"M3\"\nhole = \"3.4 mm\"\nstud_class = \"4.6\"\npressure = \"4 bar\"\n",
			[]string{"25:16: covers[1].studs_across: 196 studs in all; accepted: up to 60", "covers[2].studs_across: 9223372036854775807; accepted", "covers[2].studs_along: 9223372036854775807; accepted"}},
		{"contradicted and refused", with(gear, `"9 mm"`, "9") + with(fastener, "M3", "5 BA", "count", "material = \"brass\"\nblind = \"8 mm\"\ncount") + cover,
			[]string{"14:10: valve.cavity: a bare 9", "24:3: covers[1].shape: missing", "covers[1].hole", "covers[1].pressure", "covers[1].stud_class", "26:10: covers[1].thread: 6 of M3x0.5, but e.toml:20:10: fasteners[1].thread: 12 of 5 BA"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			e, err := engine.Parse("e.toml", []byte(test.text))
			err = engine.Join(err, validate(e))
			var got []string
			if err != nil {
				got = strings.Split(err.Error(), "\n")
				looksGood(t, err.Error())
			}
			for _, want := range test.want {
				found := false
				for _, line := range got {
					found = found || strings.Contains(line, want)
				}
				if !found {
					t.Errorf("no %q", want)
				}
			}
			if len(got) != len(test.want) {
				t.Errorf("%d complaints, want %d", len(got), len(test.want))
			}
			if t.Failed() {
				t.Log(strings.Join(got, "\n"))
			}
		})
	}
}

// Of very many complaints the first are told, and that there are more.
func TestVeryManyMissing(t *testing.T) {
	e, err := engine.Parse("e.toml", []byte(strings.Repeat("[[fits]]\n", 190)))
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Split(engine.Join(validate(e), validate(e)).Error(), "\n")
	if len(got) != 101 || !strings.HasPrefix(got[99], "e.toml:30:3: fits[30].where: missing") ||
		got[100] != "e.toml:30:3: more than 100 mistakes; the rest is not told" {
		t.Errorf("%d complaints, the last %s\n%s", len(got), got[99], got[len(got)-1])
	}
}

// A table that was refused is no table to work with, though all that is wrong with
// it was told.
func TestRefusedTableIsNotUsed(t *testing.T) {
	e, err := engine.Parse("e.toml", []byte(with(fit, `"6 mm"`, "6")+"fit = \"H7/g6\"\n"+with(fit, "shaft", "fit = \"H7/g6\"\nshaft")))
	if err == nil {
		t.Fatal("a bare 6")
	}
	if err := e.ValidateFit(0); err == nil || engine.Join(err) != nil {
		t.Errorf("%v", err)
	}
	if err := e.ValidateFit(1); err != nil {
		t.Error(err)
	}
}

// No key takes a value as long as a file may be, or a list as long, for more than
// it is worth.
func TestHostileValues(t *testing.T) {
	long := func(s string) string { return strings.Repeat(s, (256<<10-100)/len(s)) }
	texts := map[string]string{
		"covers of one name":      strings.Repeat(cover, 99) + strings.Repeat(fastener+"clearance = \"chart\"\n", 99),
		"covers of other threads": strings.Repeat(cover+"hole = \"9 mm\"\n", 99) + strings.Repeat(with(fastener, "M3", "M4"), 99),
		"fits of one shaft":       strings.Repeat(fit+with(fit, "6", "7"), 95),
		"nothing but fits":        strings.Repeat("[[fits]]\n", 190),
		"fits in braces":          "fits = [" + long("{},") + "]",
	}
	values := []string{
		`"` + long("1-99x0.1 mm, ") + `"`, `"` + long("\u00e9") + `"`, `"1` + strings.Repeat("0", 900) + `"`,
		long("9"), "[" + long("1,") + "]", "{" + long("a.") + "a = 1}",
	}
	for i, key := range engine.Keys(engine.File{}) {
		table, name, ok := strings.Cut(key, ".")
		if !ok {
			table, name = "", key
		} else {
			table = "[" + table + "]\n"
		}
		texts[key] = table + name + " = " + values[i%len(values)] + "\n"
		texts[key+", again"] = table + name + " = " + values[(i+1)%2] + "\n"
	}
	for name, text := range texts {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		e, err := engine.Parse("engine.toml", []byte(text))
		err = engine.Join(err, validate(e))
		runtime.ReadMemStats(&after)
		if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 50 {
			t.Errorf("%s: %d MiB for a file of %d KiB", name, used, len(text)>>10)
		}
		if err == nil || len(err.Error()) > 100000 {
			t.Errorf("%s: %.300v", name, err)
		} else {
			looksGood(t, err.Error())
		}
	}
}

// Whatever a file holds, it is read or complained of in lines that can be read.
func FuzzParse(f *testing.F) {
	for _, name := range []string{"demo.toml", "wrong-cavity.toml", "shims.toml", "as-built.toml", "inch.toml", "reversing-lever.toml", "low-1890.toml"} {
		text, err := os.ReadFile("../../examples/enginebook/engines/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Add([]byte(cover + fastener + fit + fit + "[cylinder]\nbore = 20\nstrok = \"1 in\"\n"))
	f.Add([]byte("units = \"inch\"\nfits = [{where = \"a\", nominal = 1}, {nominal = \"3/8\"}]\ncylinder.bore = 1\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		e, err := engine.Parse("fuzz.toml", text)
		if err := engine.Join(err, validate(e)); err != nil {
			looksGood(t, err.Error())
		}
	})
}
