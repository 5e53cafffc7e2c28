package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

func holes(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	code = program().Do(args, &out, &errs)
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
			"WILL NOT WORK - The first part does not go on: hole 2 lies 0.296 mm from its place over e and has room for 0.200 mm.",
			"goes on as it is no", "tightest hole 2 on e", "(hole 3.400 - stud 3.000)/2 = 0.200 mm",
			"3.000 + 2 (0.296 + 0.000) = 3.592 mm", "> Open hole 6 at (0.000, 16.000) mm to 4.123 mm for stud d.",
			"open 6 d 0.000 16.000 4.123 4.2 mm", "11.7 thou", "as small as it can be", "1.7020 deg", "60.265 mm", "44.975 mm",
			"0.461 mm", "0.183 mm", "2 e -0.290 0.058 0.296 0.200 3.592 no", "It lies equally well in 2 positions.",
		}},
		{"smaller studs", "", "", []string{"-stud", "2.75 mm"}, 0, []string{"goes on as it is yes"}},
		{"leaning studs", "", "", []string{"-stud", "2.75 mm", "-stud-length", "25 mm", "-tilt", "0.5 deg"}, 1, []string{"- lean 0.218 = 0.107 mm"}},
		// GA-02: a stud of 3 mm that leans by 0.564 degrees over 25.4 mm, 0.25 mm, wants 0.5 mm more
		{"GA-02, long studs", ell, ell, []string{"-stud", "3 mm", "-hole", "3.4 mm", "-stud-length", "25.4 mm", "-tilt", "0.5639 deg"}, 1, []string{
			"- lean 0.250 = -0.050 mm", "one size = stud + 2 (error + lean) = 3.000 + 2 (0.000 + 0.250) = 3.500 mm", "one size for all its holes 3.500 mm", "A cover with a spigot is located by that",
		}},
		{"loose bolts", "", "", []string{"-bolt", "3 mm", "-second-hole", "3.4 mm"}, 0, []string{"(hole 3.400 + hole 3.400)/2 - bolt 3.000 = 0.400 mm"}},
		{"holes of two sizes", "x mm,y mm,diameter mm\n0,0,3.2\n40,0,3.6\n", "x mm,y mm\n0,0\n40.2,0\n", []string{"-stud", "3 mm"}, 0, []string{"greatest error 0.200 mm 7.9 thou where the tightest hole has most room left", "off by 0.000 mm 0.0 thou and has room for 0.100 mm"}},
		{"long names", "hole,x mm,y mm\nnorth-west corner,0,0\nüber der Mitte,40,0\n", "hole,x mm,y mm\na,0,0\neleventh stud,41,0\n", []string{"-stud", "3 mm", "-hole", "3.4 mm"}, 1, []string{
			" north-w… a ", " über de… elevent…", "Open hole north-west corner at",
		}},
		{"no sizes", ell, ell, nil, 0, []string{"goes on as it is no verdict", "WORTH KNOWING", "There is no verdict without the sizes", "turned by 0.0000 deg"}},
		{"from the other side", ell, mirrored, []string{"-stud", "3 mm", "-hole", "3.4 mm"}, 1, []string{"COSTS POWER OR LIFE", "Turned over, the parts agree far better"}},
		{"turned over", ell, mirrored, []string{"-stud", "3 mm", "-hole", "3.4 mm", "-turn-over"}, 0, []string{"goes on as it is yes", "turned over yes"}},
		{"stud without a hole", three, ell, []string{"-stud", "3 mm", "-hole", "3.4 mm"}, 1, []string{"There are no holes for 4 and 5.", "Drill a hole of 3.400 mm at (0.000, 25.000) mm for stud 4", "drill 4 4 0.000 25.000 3.400", " - 4 - 5 ", "next position 3.309 mm"}},
		{"hole without a stud", ell, three, []string{"-stud", "3 mm", "-hole", "3.4 mm"}, 0, []string{"goes on as it is yes", "WORTH KNOWING", "- Hole 4 at (0.000, 25.000) mm and hole 5 at (12.000, 31.000) mm have no stud. > Plug them", "plug 4 - 0.000 25.000 ", " 4 - 5 - "}},
		{"nothing agrees", "x mm,y mm\n0,0\n1,0\n", "x mm,y mm\n0,0\n50,0\n", []string{"-stud", "3 mm"}, 1, []string{"WILL NOT WORK - No two holes of the first part agree"}},
		{"symmetric", "x mm,y mm\n0,0\n10,0\n", "x mm,y mm\n0,0\n10,0\n", nil, 0, []string{"equally well in 2 positions"}},
		{"flags behind the files", ell, ell, []string{"--"}, 0, nil},
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
				if utf8.RuneCountInString(line) > 79 { // with the end of the line
					t.Errorf("wider than 78: %s", line)
				}
			}
			for _, want := range test.want {
				if !strings.Contains(strings.Join(strings.Fields(stdout), " "), want) {
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
		{"one file", []string{two}, "number of files 1; accepted: two"},
		{"no such file", []string{two, two + "x"}, "list.csvx: no such file"},
		{"a folder", []string{two, filepath.Dir(two)}, "not a regular file"},
		{"bad list", []string{list(t, "x,y\n1,2\n"), two}, "list.csv: line 2, x"},
		{"one hole", []string{one, two}, "list.csv: holes of the first pattern 1"},
		{"two holes in one place", []string{two, list(t, "x mm,y mm\n0,0\n0,0\n")}, "two holes in one place"},
		{"no unit", []string{"-stud", "3"}, "-stud: length \"3\": a number without a unit"},
		{"no diameter", []string{"-stud", "0 mm"}, "-stud: diameter of the studs 0 mm: out of range; accepted: above zero"},
		{"stud and bolt", []string{"-stud", "3 mm", "-bolt", "3 mm"}, "studs fixed in one part, -bolt for loose bolts"},
		{"tilt alone", []string{"-tilt", "1 deg"}, "go together"},
		{"too much tilt", []string{"-tilt", "50 deg", "-stud-length", "20 mm"}, "-tilt: tilt of the stud 50 deg"},
		{"too far", []string{"-within", "2 km"}, "-within: "},
		{"unknown flag", []string{"-glue"}, "-glue: no such flag"},
	} {
		t.Run(test.name, func(t *testing.T) {
			stdout, stderr, code := holes(t, test.args...)
			if code != 2 || stdout != "" || !strings.Contains(stderr, test.want) || strings.Count(stderr, "\n") != 1 {
				t.Errorf("exit %d, printed %q, %q; want %q", code, stdout, stderr, test.want)
			}
		})
	}
	if stdout, stderr, code := holes(t, "-h"); code != 0 || stderr != "" || !strings.Contains(stdout, "usage: holes") {
		t.Errorf("-h: exit %d, %s", code, stderr)
	}
}

func TestJSON(t *testing.T) {
	stdout, stderr, code := holes(t, "-json")
	var answer struct {
		Verdict struct {
			Goes *bool   `json:"goes_on"`
			Off  float64 `json:"tightest_off_mm"`
		}
		Work struct {
			Rows []struct {
				Label, Hole, For, Drill string
				Size                    float64 `json:"size_mm"`
			} `json:"to_do"`
		}
		Pairs struct {
			Pairs []struct {
				Hole, On string
				Goes     *bool
			}
		}
		Position struct {
			Turn      float64 `json:"turn_deg"`
			Positions int
		}
	}
	if err := json.Unmarshal([]byte(stdout), &answer); err != nil || code != 1 || stderr != "" {
		t.Fatalf("exit %d, %s, %v", code, stderr, err)
	}
	a := answer
	if a.Verdict.Goes == nil || *a.Verdict.Goes || math.Abs(a.Verdict.Off-0.296) > 5e-4 || math.Abs(a.Position.Turn-1.702) > 5e-5 || a.Position.Positions < 2 {
		t.Errorf("%+v", a)
	}
	if len(a.Work.Rows) != 1 || a.Work.Rows[0].Label != "open" || a.Work.Rows[0].Drill != "4.2 mm" || a.Work.Rows[0].Size != 4.123 {
		t.Errorf("%+v", a.Work)
	}
	if p := a.Pairs.Pairs; len(p) != 8 || p[1].Hole != "2" || p[1].On != "e" || p[1].Goes == nil || *p[1].Goes {
		t.Errorf("%+v", a.Pairs)
	}
}
