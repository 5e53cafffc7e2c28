package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestRun(t *testing.T) {
	tests := []struct {
		name  string
		args  []string
		code  int
		files []string
		wants []string
	}{
		{
			"both parts", nil, 0,
			[]string{"chest-1.svg", "chest.dxf", "chest.pdf", "cover-1.svg", "cover.dxf", "cover.pdf"},
			[]string{
				// pi/4 (36^2 - 20.5^2 - 6 x 3.4^2) and pi/4 36^2
				"area      633 mm2 of gasket, 1018 mm2 inside its edge",
				// 14 - 1.7 - 10.25
				"least web 2.05 mm (81 thou)",
				"F = p A = 4 bar x 1018 mm2 = 407 N",
				"407 / 6 = 67.9 N",
				"tighten   1 4 2 5 3 6,", // common practice: opposite pairs
				"6 of 3.40 mm (134 thou): punch 3.5 mm",
			},
		},
		{
			"corrected cover on Letter", []string{"-part", "cover", "-paper", "Letter", "-drawn-x", "132 mm", "-printed-x", "114 mm"}, 0,
			[]string{"cover-1.svg", "cover.dxf", "cover.pdf"},
			[]string{"correction X = drawn / printed = 132 mm / 114 mm = 1.1579", "on 1 sheet of Letter"},
		},
		{
			"six times the size", []string{"-part", "chest", "-times", "6"}, 1,
			[]string{"chest-1.svg", "chest-2.svg", "chest-3.svg", "chest-4.svg", "chest-5.svg", "chest.dxf", "chest.pdf"},
			[]string{"on 5 sheets of A4\n  danger: ", "danger: Each stud must hold"},
		},
		{"a name that clears the screen", []string{"-part", "cover", "-name", "\x1b[2JCover\u202e"}, 0, []string{"cover-1.svg", "cover.dxf", "cover.pdf"}, []string{"\n\ufffd[2JCover\ufffd, 0.25 mm thick"}},
		{"shrunk to fit", []string{"-part", "cover", "-printed-y", "98 mm"}, 0, []string{"cover-1.svg", "cover.dxf", "cover.pdf"}, []string{"probably shrunk to fit", "correction Y"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			folder := t.TempDir()
			var out, errs strings.Builder
			if code := run(append(tt.args, "-out", folder), &out, &errs); code != tt.code || errs.Len() > 0 {
				t.Fatalf("code %d: %s", code, errs.String())
			}
			for _, want := range tt.wants {
				if !strings.Contains(out.String(), want) {
					t.Errorf("missing %q in\n%s", want, out.String())
				}
			}
			for line := range strings.Lines(out.String()) {
				if len(line) > 79 {
					t.Errorf("wider than 78: %s", line)
				}
			}
			entries, err := os.ReadDir(folder)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, e := range entries {
				got = append(got, e.Name())
			}
			if strings.Join(got, " ") != strings.Join(tt.files, " ") {
				t.Errorf("files %v, want %v", got, tt.files)
			}
		})
	}
}

var update = flag.Bool("update", false, "write demo/steam-chest.svg anew: go test ./examples/template -update")

// TestPicture checks that the picture kept beside the program is the one that it
// draws, byte for byte.
func TestPicture(t *testing.T) {
	folder := t.TempDir()
	var out, errs strings.Builder
	if code := run([]string{"-picture", "-part", "chest", "-out", folder}, &out, &errs); code != 0 {
		t.Fatalf("code %d: %s", code, errs.String())
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

func TestRunRefuses(t *testing.T) {
	taken := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(taken, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		args []string
		text string
	}{
		{[]string{"-part", "boiler"}, "chest, cover, both"},
		{[]string{"-paper", "A9"}, "A4, A3"},
		{[]string{"-thickness", "0.25"}, "mm"},
		{[]string{"-thickness", "0 mm"}, "above zero"},
		{[]string{"-times", "NaN"}, "0.8 to 20"},
		{[]string{"-printed-x", "3 mm"}, "0.5 to 2"},
		{[]string{"-pressure", "-1 bar"}, "pressure"},
		{[]string{"-pressure", "0 bar"}, "above zero"},
		{[]string{"extra"}, "flags only"},
		{[]string{"-nonsense"}, "nonsense"},
		{[]string{"-out", taken}, "not a directory"},
	} {
		var out, errs strings.Builder
		args := append([]string{"-out", t.TempDir()}, tt.args...)
		if code := run(args, &out, &errs); code != 2 || !strings.Contains(errs.String(), tt.text) {
			t.Errorf("%v: code %d, %q; want 2 and %q", tt.args, code, errs.String(), tt.text)
		}
	}
	var out, errs strings.Builder
	if code := run([]string{"-h"}, &out, &errs); code != 0 || !strings.Contains(errs.String(), "-printed-x length") {
		t.Errorf("-h: code %d, %s", code, errs.String())
	}
}
