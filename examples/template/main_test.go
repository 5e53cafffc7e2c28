package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
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
			"six times the size", []string{"-part", "chest", "-times", "6"}, 1,
			"chest-1.svg chest-2.svg chest-3.svg chest-4.svg chest-5.svg chest.dxf chest.pdf",
			[]string{"6 times the size WHAT IS WRONG", "CAN HURT SOMEBODY - Steam-chest cover gasket: ", "Each stud must hold", "on 5 sheets of A4"},
		},
		{
			"a name that clears the screen", []string{"-part", "cover", "-name", "\x1b[2JCover\u202e"}, 0,
			"cover-1.svg cover.dxf cover.pdf", []string{`\u001b[2JCover\u202e, 0.25 mm thick`},
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

var update = flag.Bool("update", false, "write demo/steam-chest.svg anew: go test ./examples/template -update")

// TestPicture checks that the picture kept beside the program is the one that it
// draws, byte for byte.
func TestPicture(t *testing.T) {
	folder := t.TempDir()
	if _, errs, status := do("-picture", "-part", "chest", "-out", folder); status != 0 {
		t.Fatalf("status %d: %s", status, errs)
	}
	got, err := os.ReadFile(filepath.Join(folder, "chest-picture.svg"))
	if err != nil {
		t.Fatal(err)
	}
	const kept = "demo/steam-chest.svg"
	if *update {
		if err := os.WriteFile(kept, got, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(kept)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is not what the program draws; when the new drawing is right, run go test ./examples/template -update", kept)
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
		{[]string{"-printed-y", "0 mm"}, "-printed-y: length"},
		{[]string{"-pressure", "-1 bar"}, "-pressure: pressure -1 bar"},
		{[]string{"-pressure", "0 bar"}, "-pressure: pressure 0 bar: out of range; accepted: above zero"},
		{[]string{"-material", "brass"}, "-material: material of the gasket brass: unknown; accepted: cork"},
		{[]string{"-material", "asbestos"}, `-material: material "asbestos": never use it`},
		{[]string{"-name", strings.Repeat("long ", 13)}, "-name: 65 characters; accepted: up to 60"},
		{[]string{"extra"}, `"extra": the program takes flags only`},
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
	if text, errs, status := do("-out", folder); status != 2 || text != "" || errs != "template: -out: cover.dxf: there already; accepted: another folder, or -overwrite\n" {
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
