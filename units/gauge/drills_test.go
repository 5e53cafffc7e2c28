package gauge_test

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units/gauge"
)

func TestPrintedSizes(t *testing.T) {
	drills, err := gauge.Number().With(gauge.Letter())
	if err != nil || drills.Len() != gauge.Number().Len()+26 {
		t.Fatal(drills, err)
	}
	for _, name := range []string{"units/gauge/drills.csv", "units/gauge/drills_dealer.csv", "units/gauge/wire.csv", "units/gauge/wire_handbook.csv"} {
		f := check.Open(t, name)
		for row := range f.Rows() {
			size, err := gauge.Parse(row.ID)
			if err != nil {
				t.Error(err)
				continue
			}
			row.Compare("diameter_in", size.Diameter.Inch())
			// The set has it under its name, and a gauge under its number.
			number, name, wire := strings.Cut(row.ID, " ")
			set := drills
			if system, err := gauge.ParseSystem(name); wire && err == nil {
				set = system.Set()
				of, err := system.Size(number)
				if err != nil {
					t.Errorf("%s: %v", row.ID, err)
				}
				row.Compare("diameter_in", of.Diameter.Inch())
			}
			listed, err := set.Lookup(row.ID)
			if err != nil {
				t.Errorf("%s: %v", row.ID, err)
			}
			row.Compare("diameter_in", listed.Diameter.Inch())
		}
	}
}

// The gauge for sheet steel is defined by the weight of a square foot, 41.820 lb
// for an inch of thickness.
func TestSheetWeights(t *testing.T) {
	f := check.Open(t, "units/gauge/sheet_weights.csv")
	for row := range f.Rows() {
		row.Compare("weight_lb_per_ft2", 41.820*size(t, row.ID).Diameter.Inch())
	}
}

func TestMisprints(t *testing.T) {
	check.Errata(t, "units/gauge", map[string]float64{
		"gauge-drill-40": size(t, "#40").Diameter.Inch(),
		"gauge-msg-10":   size(t, "10 MSG").Diameter.Inch(),
		"gauge-msg-29":   size(t, "29 MSG").Diameter.Inch(),
		"gauge-swg-28":   size(t, "28 SWG").Diameter.Inch(),
		"gauge-swg-6":    size(t, "6 SWG").Diameter.Inch(),
	})
}

func TestTables(t *testing.T) {
	check.Tables(t, os.DirFS("."), "tables/*.csv")
	for _, test := range []struct {
		name      string
		set       gauge.Set
		numbered  bool   // without a gap from its least to its largest
		thin, fat string // ends; blank of a shipped table, which may grow
		want      int    // sizes; zero of a shipped table
	}{
		{"number", gauge.Number(), true, "", "", 0},
		{"letter", gauge.Letter(), false, "A", "Z", 26},
		{"fraction", gauge.Fraction(), false, "1/64 in", "1 in", 64},
		{"metric", gauge.Metric(), false, "0.2 mm", "25 mm", 227},
		{"SWG", gauge.SWG.Set(), true, "", "", 0},
		{"AWG", gauge.AWG.Set(), true, "40 AWG", "4/0 AWG", 44},
		{"BWG", gauge.BWG.Set(), true, "", "", 0},
		{"MSG", gauge.MSG.Set(), true, "", "", 0},
		{"screw", gauge.ScrewNumber.Set(), false, "#000 screw", "#14 screw", 17},
	} {
		t.Run(test.name, func(t *testing.T) {
			sizes := slices.Collect(test.set.All())
			if thin, fat := sizes[0].Name, sizes[len(sizes)-1].Name; test.want > 0 && (len(sizes) != test.want || thin != test.thin || fat != test.fat) {
				t.Fatalf("%d sizes from %v to %v, want %d from %s to %s", len(sizes), thin, fat, test.want, test.thin, test.fat)
			}
			for i, s := range sizes {
				if i > 0 && s.Diameter.Cmp(sizes[i-1].Diameter) <= 0 {
					t.Errorf("%v is not above %v", s, sizes[i-1])
				}
				if i > 0 && test.numbered && rank(t, s) != rank(t, sizes[i-1])-1 {
					t.Errorf("%v follows %v", s, sizes[i-1])
				}
				if s.Refs.IsZero() {
					t.Errorf("%v has no source", s)
				}
				if back, err := gauge.Parse(s.Name); err != nil || back.Name != s.Name || back.Diameter != s.Diameter {
					t.Errorf("%q reads back as %v %v, %v", s.Name, back, back.Diameter, err)
				}
			}
		})
	}
}

// rank is the number of a size, of which 2/0 is -1.
func rank(t *testing.T, s gauge.Size) int {
	t.Helper()
	number, _, _ := strings.Cut(strings.TrimPrefix(s.Name, "#"), " ")
	zeros, many := strings.CutSuffix(number, "/0")
	n, err := strconv.Atoi(zeros)
	if err != nil {
		t.Errorf("%v: %v", s, err)
	}
	if many {
		return 1 - n
	}
	return n
}

// The program GNU units holds the same sizes.
func TestAgainstGNUUnits(t *testing.T) {
	program := check.Peer(t, "units")
	var want []gauge.Size
	var ask strings.Builder
	add := func(set gauge.Set, unit func(gauge.Size) string) {
		for s := range set.All() {
			want = append(want, s)
			fmt.Fprintf(&ask, "%s\nin\n", unit(s))
		}
	}
	numbered := func(function string) func(gauge.Size) string {
		return func(s gauge.Size) string {
			return fmt.Sprintf("%s((%d))", function, rank(t, s))
		}
	}
	add(gauge.Number(), numbered("drillgauge"))
	add(gauge.Letter(), func(s gauge.Size) string { return "drill" + s.Name })
	add(gauge.SWG.Set(), numbered("brwiregauge"))
	add(gauge.AWG.Set(), numbered("wiregauge"))
	cmd := exec.Command(program, "-t", "-o", "%.10g")
	cmd.Stdin = strings.NewReader(ask.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	answers := strings.Fields(string(out))
	if len(answers) != len(want) {
		t.Fatalf("%d answers for %d sizes", len(answers), len(want))
	}
	for i, s := range want {
		inches, err := strconv.ParseFloat(answers[i], 64)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Diameter.Inch(); got-inches > 1e-9 || inches-got > 1e-9 {
			t.Errorf("%v is %.10f in, GNU units has %s", s, got, answers[i])
		}
	}
}

func size(t *testing.T, name string) gauge.Size {
	t.Helper()
	s, err := gauge.Parse(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
