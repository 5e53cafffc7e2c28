package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/valvechest/valvechest/internal/check"
)

// do runs the program.
func do(args ...string) (stdout, stderr string, status int) {
	var out, errs strings.Builder
	status = program().Do(args, &out, &errs)
	return out.String(), errs.String(), status
}

// namesIn returns the names of what is in a folder.
func namesIn(t *testing.T, folder string) string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return strings.Join(names, " ")
}

func TestRun(t *testing.T) {
	for _, test := range []struct {
		name   string
		args   []string
		status int
		files  string
		wants  []string
	}{
		{
			"both parts", nil, 0, "chest-1.svg chest.dxf chest.pdf cover-1.svg cover.dxf cover.pdf",
			[]string{
				// pi/4 (36^2 - 20.5^2 - 6 x 3.4^2) and pi/4 36^2
				"gasket, area 633 mm2 0.982 in2", "inside the edge of it 1018 mm2",
				"least web 2.050 mm 0.0807 in from hole 1 to opening 1", // 14 - 1.7 - 10.25
				"F = p A = 4 bar x 1018 mm2 = 407 N", "F / n = 407 N / 6 = 67.9 N", "F / n = 477 N / 6 = 79.5 N",
				"13.5 MPa in 5.03 mm2 of M3x0.5", "0.3 x 580.0 MPa x 5.03 mm2 = 875 N, 12.9 times the load", "class 8.8", "ISO 898-1",
				"T = K F d = 0.2 x 875 N x 3.000 mm = 0.53 N m", "torque, dry 0.53 N m 4.6 lbf in", "pull by torque alone 569 to 1182 N",
				"pull at the spanner 11 N", "gasket, seated yes",
				"tighten in the order 1 4 2 5 3 6 ", // common practice: opposite pairs
				"tighten in the order 3 6 1 4 2 5 ", "three rounds", "cold and without pressure, after the first steaming",
				"6 3.40 mm 134 thou 3.5 mm", "Print at 100 %, and measure the bars before anything is cut.",
				"do not scrape, cut or sand it dry", "Prove a cover with cold water before steam", "licensed or club inspector",
			},
		},
		{
			"corrected cover on Letter", []string{"-part", "cover", "-paper", "Letter", "-drawn-x", "132 mm", "-printed-x", "114 mm"}, 0,
			"cover-1.svg cover.dxf cover.pdf",
			[]string{"correction X = drawn / printed = 132 mm / 114 mm = 1.1579", "along x 1.1579", "on 1 sheet of Letter"},
		},
		{
			// GA-07: my own gasket on paper, without writing code; 22 x 11 and a circle of 11, less 8 and two of 3.4
			"of my own", []string{"-thread", "M3", "-class", "8.8", "-cut", "demo/flange.csv"}, 0,
			"flange-1.svg flange-cut.dxf flange-cut.svg flange.dxf flange.pdf",
			[]string{"flange, 0.25 mm thick, on 1 sheet of A4", "over all, across 33.00 mm 1.299 in", "over all, up 11.00 mm",
				"flange: 2 studs M3x0.5", "gasket, area 269 mm2", "tighten in the order 1 2", "SVG, for a machine that cuts"},
		},
		{
			// 62 MPa on 5.547 mm2 to the millimetre strip at 1290 N over 3.75 mm; 0.3 of 970 MPa is 1464 N, and 67 N of the steam
			"of my own, studs too strong for cast iron", []string{"-thread", "M3", "-class", "12.9", "demo/flange.csv"}, 1,
			"flange-1.svg flange.dxf flange.pdf",
			[]string{"WILL NOT WORK - flange: The thread in cast iron, 3.75 mm engaged, strips at 1290 N, and a stud comes to 1531 N", "engage 6.0 mm of full thread or more",
				"Read DXF in as millimetres"},
		},
		{
			"the same in gunmetal", []string{"-thread", "M3", "-class", "12.9", "-tapped", "gunmetal", "demo/flange.csv"}, 0,
			"flange-1.svg flange.dxf flange.pdf", []string{"COSTS POWER OR LIFE - flange: By torque alone a stud may come to 2044 N", "tapped thread strips at 2018 N 453.6 lbf in gunmetal"},
		},
		{
			"of my own, its studs not known", []string{"-inch", "-name", "Steam flange", "demo/flange.csv"}, 0,
			"steam-flange-1.svg steam-flange.dxf steam-flange.pdf",
			[]string{"Steam flange, 0.25 mm thick", "Whether its studs hold the cover and seat the gasket was not asked. > Give -thread and -class"},
		},
		{
			"of an engine file", []string{"../enginebook/engines/demo.toml"}, 0,
			"cylinder-cover-1.svg cylinder-cover.dxf cylinder-cover.pdf steam-chest-1.svg steam-chest.dxf steam-chest.pdf",
			[]string{"Gaskets of Demonstration engine (invented)", "Cylinder cover gasket, 0.25 mm thick", "Steam chest gasket: 6 studs M3x0.5", "F / n = 477 N / 6 = 79.5 N"},
		},
		{
			"ten sheets and more sort by name", []string{"-part", "cover", "-times", "14", "-material", "cork", "-pressure", "0.01 bar"}, 0,
			"cover-01.svg cover-02.svg cover-03.svg cover-04.svg cover-05.svg cover-06.svg cover-07.svg cover-08.svg cover-09.svg cover-10.svg cover-11.svg cover-12.svg cover-13.svg cover.dxf cover.pdf",
			[]string{"on 13 sheets of A4"},
		},
		{
			"six times the size", []string{"-part", "chest", "-times", "6"}, 1,
			"chest-1.svg chest-2.svg chest-3.svg chest-4.svg chest-5.svg chest.dxf chest.pdf",
			[]string{"6 times the size WHAT IS WRONG", "CAN HURT SOMEBODY - Steam-chest cover gasket: ", "Each stud must hold", "on 5 sheets of A4"},
		},
		{
			"a name that clears the screen", []string{"-part", "cover", "-name", "\x1b[2JCover\u202e"}, 0,
			"cover-1.svg cover.dxf cover.pdf", []string{`\u001b[2JCover\u202e, 0.25 mm thick`},
		},
		{
			// GA-03: 132 over 114, and an A4 sheet inside a border of 3 mm by its height
			"GA-03, printed small", []string{"-part", "cover", "-drawn-x", "132 mm", "-printed-x", "114 mm", "-drawn-y", "40 mm", "-printed-y", "39.2 mm"}, 0,
			"cover-1.svg cover.dxf cover.pdf",
			[]string{"132 mm / 114 mm = 1.1579", "40 mm along y came out at 39.2 mm: The page was probably shrunk to fit", "40 mm / 39.2 mm = 1.0204", "measure the bars"},
		},
		{
			"shrunk to fit", []string{"-part", "cover", "-printed-y", "98 mm"}, 0, "cover-1.svg cover.dxf cover.pdf",
			[]string{"100 mm along y came out at 98 mm: The page was probably shrunk to fit", "correction Y"},
		},
		{
			"of paper", []string{"-part", "cover", "-material", "oiled brown paper"}, 1, "cover-1.svg cover.dxf cover.pdf",
			[]string{"WILL NOT WORK", "Oiled paper does not last at 152 °C", "gasket, made of oiled paper", "vegetable fibre 7.6 MPa"},
		},
		{
			"of paper, at low pressure", []string{"-part", "cover", "-material", "oiled brown paper", "-pressure", "2 bar"}, 0, "cover-1.svg cover.dxf cover.pdf",
			[]string{"COSTS POWER OR LIFE", "Oiled paper has a guide limit of 121 °C; here it is 134 °C", "gasket, seated yes"},
		},
		{
			"a narrow web", []string{"-part", "chest", "-times", "0.8", "-pressure", "80 bar"}, 1, "chest-1.svg chest.dxf chest.pdf",
			[]string{"the cover lifts", "Only 1.10 mm is left between"},
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			folder := t.TempDir()
			text, errs, status := do(append(test.args, "-out", folder)...)
			if status != test.status || errs != "" {
				t.Fatalf("status %d: %s", status, errs)
			}
			words := strings.Join(strings.Fields(text), " ")
			for _, want := range test.wants {
				if !strings.Contains(words, want) {
					t.Errorf("missing %q in\n%s", want, text)
				}
			}
			for line := range strings.Lines(text) {
				if n := utf8.RuneCountInString(line); n > 79 && !strings.Contains(line, folder) {
					t.Errorf("wider than 78: %s", line)
				}
			}
			if got := namesIn(t, folder); got != test.files {
				t.Errorf("files %s, want %s", got, test.files)
			}
			for _, name := range strings.Fields(test.files) {
				if !strings.Contains(text, filepath.Join(folder, name)) {
					t.Errorf("%s is not named", name)
				}
			}
		})
	}
}

func TestJSON(t *testing.T) {
	folder := t.TempDir()
	text, errs, status := do("-json", "-picture", "-out", folder)
	var all struct {
		Sheets []struct {
			Part    string
			Sheets  int
			Figures []string
			Holes   []struct {
				Count    int
				Diameter float64  `json:"diameter_mm"`
				Punch    *float64 `json:"punch_mm"`
			}
		}
		Joints []struct {
			Load   float64 `json:"load_n"`
			Torque float64 `json:"torque_nm"`
			Order  []string
		}
	}
	if err := json.Unmarshal([]byte(text), &all); err != nil || status != 0 || errs != "" || len(all.Sheets) != 2 || len(all.Joints) != 2 {
		t.Fatalf("%v, status %d, %s\n%s", err, status, errs, text)
	}
	for i, s := range all.Sheets {
		if len(s.Figures) != 4 || s.Sheets != 1 || len(s.Holes) != 1 || s.Holes[0].Count != 6 || s.Holes[0].Diameter != 3.4 || *s.Holes[0].Punch != 3.5 {
			t.Errorf("%+v", s)
		}
		for _, name := range s.Figures {
			if _, err := os.Stat(name); err != nil {
				t.Error(err)
			}
		}
		if j := all.Joints[i]; len(j.Order) != 6 || j.Load < 400 || j.Torque < 0.2 {
			t.Errorf("%+v", j)
		}
	}
}

// TestPicture checks that the picture kept beside the program is the one that it draws.
func TestPicture(t *testing.T) {
	folder := t.TempDir()
	if _, errs, status := do("-picture", "-part", "chest", "-out", folder); status != 0 {
		t.Fatalf("status %d: %s", status, errs)
	}
	got, err := os.ReadFile(filepath.Join(folder, "chest-picture.svg"))
	if err != nil {
		t.Fatal(err)
	}
	check.Kept(t, "../examples/template/demo/steam-chest.svg", string(got))
}

// The title block tells the size of the engine as it is drawn, and a sheet of a joint
// that does not hold says so itself.
func TestSheets(t *testing.T) {
	for _, test := range []struct {
		args         []string
		status       int
		file         string
		wants, avoid []string
	}{
		{[]string{"-part", "chest"}, 0, "chest-1.svg", []string{">Invented engine, 20 × 25 mm<", ">4 × R3<", ">4 × R2<"}, []string{"DO NOT CUT", "clipPath", `="100%"`}},
		{[]string{"-part", "cover", "-times", "1.5", "-material", "cork", "-pressure", "0.1 bar"}, 0, "cover-1.svg", []string{">Invented engine, 30 × 37.5 mm<"}, nil},
		{[]string{"-part", "cover", "-inch"}, 0, "cover-1.svg", []string{">Invented engine, 0.79 × 0.98 in<", ">X 4 in (101.6 mm)<"}, []string{">100<"}},
		{[]string{"-part", "cover", "-material", "oiled paper"}, 1, "cover-1.svg", []string{"DO NOT CUT BY THIS: Oiled paper does not last at 152 °C"}, nil},
		{[]string{"-part", "chest", "-times", "6"}, 1, "chest-3.svg", []string{"DO NOT CUT BY THIS: Each stud must hold"}, nil},
		{[]string{"-part", "chest", "-times", "6", "-material", "cork", "-pressure", "0.01 bar"}, 0, "chest-1.svg", []string{`class="MARKS"`, "filled marks: they are no holes", `<rect fill="none"`}, nil},
	} {
		folder := t.TempDir()
		_, errs, status := do(append(test.args, "-out", folder)...)
		text, err := os.ReadFile(filepath.Join(folder, test.file))
		if status != test.status || err != nil {
			t.Errorf("%v: status %d, %s, %v", test.args, status, errs, err)
		}
		for _, want := range test.wants {
			if !strings.Contains(string(text), want) {
				t.Errorf("%v: no %s", test.args, want)
			}
		}
		for _, other := range test.avoid {
			if strings.Contains(string(text), other) {
				t.Errorf("%v: %s", test.args, other)
			}
		}
	}
}

func TestRefuses(t *testing.T) {
	taken := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(taken, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		args  []string
		wants string
	}{
		{[]string{"-part", "boiler"}, `-part: part "boiler": unknown; accepted: chest, cover, both`},
		{[]string{"-paper", "A9"}, `-paper: paper "A9": unknown; accepted: A4, A3`},
		{[]string{"-thickness", "0.25"}, `-thickness: length "0.25": a number without a unit`},
		{[]string{"-thickness", "0 mm"}, "-thickness: thickness of the sheet 0 mm: out of range; accepted: above zero"},
		{[]string{"-times", "NaN"}, "-times: size NaN: out of range; accepted: 0.8 to 20"},
		{[]string{"-times", "21"}, "-times: size 21: out of range; accepted: 0.8 to 20"},
		{[]string{"-printed-x", "3 mm"}, "-printed-x: correction 33.33: out of range; accepted: 0.5 to 2"},
		{[]string{"-printed-x", "3.937 mm"}, "Inches were read as millimetres."},
		// GA-04: 25.4/96 and 25.4
		{[]string{"-drawn-x", "500 mm", "-printed-x", "132.292 mm"}, "Millimetres were read as pixels of 1/96 in."},
		{[]string{"-drawn-x", "479 mm", "-printed-x", "12166.6 mm"}, "Millimetres were read as inches."},
		{[]string{"-printed-y", "0 mm"}, "-printed-y: length"},
		{[]string{"-pressure", "-1 bar"}, "-pressure: pressure -1 bar"},
		{[]string{"-pressure", "400 bar"}, "-pressure: pressure of the steam 400 bar: out of range; accepted: 0 to 200 bar"},
		{[]string{"-pressure", "400 bar", "demo/flange.csv"}, "-pressure: pressure of the steam 400 bar: out of range"},
		{[]string{"-tapped", "cheese"}, `-tapped: material "cheese": unknown; accepted: `},
		{[]string{"-tapped", "brass", "demo/flange.csv"}, "-tapped is for studs; accepted: without a file, or with a list of corners, -thread and -class"},
		{[]string{"-pressure", "0 bar"}, "-pressure: pressure 0 bar: out of range; accepted: above zero"},
		{[]string{"-material", "brass"}, "-material: material of the gasket brass: unknown; accepted: cork"},
		{[]string{"-material", "asbestos"}, `-material: material "asbestos": never use it`},
		{[]string{"-name", strings.Repeat("long ", 13)}, "-name: 65 characters; accepted: up to 60"},
		{[]string{"extra.csv"}, "extra.csv: no such file"},
		{[]string{"one.csv", "two.csv"}, "number of files 2; accepted: one"},
		{[]string{"main.go"}, "main.go: column"},
		{[]string{"-part", "chest", "demo/flange.csv"}, "-part is for the invented engine; accepted: without a file"},
		{[]string{"-times", "2", "demo/flange.csv"}, "-times is for the invented engine"},
		{[]string{"-name", "x", "../enginebook/engines/demo.toml"}, "-name is for one part"},
		{[]string{"-thread", "M3"}, "-thread and -class are for a list of corners"},
		{[]string{"-thread", "M3", "demo/flange.csv"}, "-thread and -class go together"},
		{[]string{"-thread", "M3.14", "-class", "8.8", "demo/flange.csv"}, "-thread: "},
		{[]string{"-thread", "M3", "-class", "8.7", "demo/flange.csv"}, "-class: "},
		{[]string{"-thickness", "0 mm", "demo/flange.csv"}, "-thickness: "},
		{[]string{"-nonsense"}, "-nonsense: no such flag"},
		{[]string{"-out", taken}, "-out: "},
	} {
		folder := t.TempDir()
		args := test.args
		if args[0] != "-out" {
			args = append([]string{"-out", folder}, args...)
		}
		text, errs, status := do(args...)
		if status != 2 || text != "" || !strings.HasPrefix(errs, "template: ") || !strings.Contains(errs, test.wants) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%v: status %d, %q, %q; want 2 and %q", args, status, text, errs, test.wants)
		}
		if left := namesIn(t, folder); left != "" {
			t.Errorf("%v: left behind %s", args, left)
		}
	}
	_, errs, _ := do("-part", "boiler", "-times", "99", "-pressure", "0 bar", "-printed-x", "3 mm", "-out", t.TempDir())
	if strings.Count(errs, "\n") != 4 {
		t.Errorf("not all four mistakes:\n%s", errs)
	}
	text, errs, status := do("-h")
	if status != 0 || errs != "" || !strings.Contains(text, "-printed-x LENGTH") {
		t.Errorf("-h: status %d, %s\n%s", status, text, errs)
	}
}

// A file that is there stays as it is unless asked, and then none of the others is
// written; a link is never followed.
func TestOverwrite(t *testing.T) {
	folder := t.TempDir()
	mine := filepath.Join(folder, "cover.dxf")
	if err := os.WriteFile(mine, []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	if text, errs, status := do("-out", folder); status != 2 || text != "" || errs != "template: -out: cover.dxf: there already; accepted: another folder, -overwrite, or -force, which keeps it beside the new one\n" {
		t.Errorf("status %d, %s%s", status, text, errs)
	}
	if kept, _ := os.ReadFile(mine); string(kept) != "mine" || namesIn(t, folder) != "cover.dxf" {
		t.Errorf("%q, %s", kept, namesIn(t, folder))
	}
	for range 2 {
		if _, errs, status := do("-out", folder, "-overwrite"); status != 0 {
			t.Errorf("status %d, %s", status, errs)
		}
	}
	if written, _ := os.ReadFile(mine); len(written) < 1000 || namesIn(t, folder) != "chest-1.svg chest.dxf chest.pdf cover-1.svg cover.dxf cover.pdf" {
		t.Errorf("%d bytes, %s", len(written), namesIn(t, folder))
	}
	outside := filepath.Join(t.TempDir(), "outside")
	if err := os.Remove(mine); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, mine); err != nil {
		t.Skip(err)
	}
	if _, errs, status := do("-out", folder, "-overwrite"); status != 2 || !strings.Contains(errs, "not a regular file") {
		t.Errorf("status %d, %s", status, errs)
	}
	if _, err := os.Lstat(outside); err == nil {
		t.Error("the link was followed")
	}
}
