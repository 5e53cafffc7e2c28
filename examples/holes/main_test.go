package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func holes(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(args, &out, &errs)
	return out.String(), errs.String(), code
}

func list(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "list.csv")
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestHoles(t *testing.T) {
	const ell = "x mm,y mm\n0,0\n30,0\n30,18\n0,25\n12,31\n"
	const mirrored = "x mm,y mm\n0,0\n-30,0\n-30,18\n0,25\n-12,31\n"
	const three = "hole,x mm,y mm\nA,0,0\nB,30,0\nC,30,18\n"
	for _, test := range []struct {
		name          string
		first, second string // blank: the demonstration
		args          []string
		code          int
		want          []string
	}{
		{"demonstration", "", "", nil, 1, []string{
			"fails: The first part does not go on: hole 2 lies 0.296 mm from its place over e and has room for 0.200 mm.",
			"hole 2 on e, 0.296 mm off with room for 0.200 mm", "(hole 3.400 - stud 3.000)/2 = 0.200 mm",
			"3.000 + 2 (0.296 + 0.000) = 3.592 mm", "Open hole 6 at (0.000, 16.000) mm to 4.123 mm for stud d.",
			"Next metric drill for hole 6: 4.2 mm", "11.7 thou", "as small as it can be",
		}},
		{"smaller studs", "", "", []string{"-stud", "2.75 mm"}, 0, []string{"IT GOES ON"}},
		{"leaning studs", "", "", []string{"-stud", "2.75 mm", "-stud-length", "25 mm", "-tilt", "0.5 deg"}, 1, []string{"- lean 0.218 = 0.107 mm"}},
		{"loose bolts", "", "", []string{"-bolt", "3 mm", "-second-hole", "3.4 mm"}, 0, []string{"(hole 3.400 + hole 3.400)/2 - bolt 3.000 = 0.400 mm"}},
		{"holes of two sizes", "x mm,y mm,diameter mm\n0,0,3.2\n40,0,3.6\n", "x mm,y mm\n0,0\n40.2,0\n", []string{"-stud", "3 mm"}, 0, []string{"Greatest error where most room is left  0.200 mm", "0.000 mm off with room for 0.100 mm"}},
		{"long names", "hole,x mm,y mm\nnorth-west corner,0,0\nüber der Mitte,40,0\n", "hole,x mm,y mm\na,0,0\neleventh stud,41,0\n", []string{"-stud", "3 mm", "-hole", "3.4 mm"}, 1, []string{
			"\nnorth-w… a  ", "\nüber de… elevent…", "Open hole north-west corner at",
		}},
		{"no sizes", ell, ell, nil, 0, []string{"note: There is no verdict without the sizes", "turned by 0.0000 deg"}},
		{"from the other side", ell, mirrored, []string{"-stud", "3 mm", "-hole", "3.4 mm"}, 1, []string{"caution: Turned over, the parts agree far better"}},
		{"turned over", ell, mirrored, []string{"-stud", "3 mm", "-hole", "3.4 mm", "-turn-over"}, 0, []string{"IT GOES ON", "Best position, turned over"}},
		{"stud without a hole", three, ell, []string{"-stud", "3 mm", "-hole", "3.4 mm"}, 1, []string{"There are no holes for 4 and 5.", "Drill a hole of 3.400 mm at (0.000, 25.000) mm for stud 4", "-        4"}},
		{"hole without a stud", ell, three, []string{"-stud", "3 mm", "-hole", "3.4 mm"}, 0, []string{"IT GOES ON", "note: Hole 4 at (0.000, 25.000) mm and hole 5 at (12.000, 31.000) mm have no stud. Plug them"}},
		{"nothing agrees", "x mm,y mm\n0,0\n1,0\n", "x mm,y mm\n0,0\n50,0\n", []string{"-stud", "3 mm"}, 1, []string{"fails: No two holes of the first part agree"}},
		{"symmetric", "x mm,y mm\n0,0\n10,0\n", "x mm,y mm\n0,0\n10,0\n", nil, 0, []string{"equally well in 2 positions"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			args := test.args
			if test.first != "" {
				args = append(args, list(t, test.first), list(t, test.second))
			}
			stdout, stderr, code := holes(t, args...)
			if code != test.code || stderr != "" {
				t.Errorf("exit %d, %s", code, stderr)
			}
			for line := range strings.Lines(stdout) {
				if len(line) > 79 && !strings.Contains(line, ".csv") && test.name != "long names" { // with the end of the line
					t.Errorf("wider than 78: %s", line)
				}
			}
			for _, want := range test.want {
				if !strings.Contains(stdout, want) && !strings.Contains(strings.ReplaceAll(stdout, "\n  ", " "), want) {
					t.Errorf("no %q in\n%s", want, stdout)
				}
			}
		})
	}
}

func TestRefuses(t *testing.T) {
	one := list(t, "x mm,y mm\n0,0\n")
	two := list(t, "x mm,y mm\n0,0\n1,0\n")
	for _, test := range []struct {
		name string
		args []string
		want string
	}{
		{"one file", []string{two}, "1 files; accepted: two"},
		{"no such file", []string{two, two + "x"}, "no such file"},
		{"bad list", []string{list(t, "x,y\n1,2\n"), two}, "list.csv: gasket: line 2, x"},
		{"one hole", []string{one, two}, "holes of the first pattern 1"},
		{"no unit", []string{"-stud", "3"}, "a number without a unit"},
		{"stud and bolt", []string{"-stud", "3 mm", "-bolt", "3 mm"}, "studs fixed in one part, or loose bolts"},
		{"tilt alone", []string{"-tilt", "1 deg"}, "go together"},
		{"unknown flag", []string{"-glue"}, "-glue"},
	} {
		t.Run(test.name, func(t *testing.T) {
			stdout, stderr, code := holes(t, test.args...)
			if code != 2 || stdout != "" || !strings.Contains(stderr, test.want) {
				t.Errorf("exit %d, printed %q, %q; want %q", code, stdout, stderr, test.want)
			}
		})
	}
	if _, stderr, code := holes(t, "-h"); code != 0 || !strings.Contains(stderr, "usage: holes") {
		t.Errorf("-h: exit %d, %s", code, stderr)
	}
}
