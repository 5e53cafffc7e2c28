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
	for _, name := range []string{"units/gauge/drills.csv", "units/gauge/wire.csv"} {
		f := check.Open(t, name)
		for row := range f.Rows() {
			size, err := gauge.Parse(row.ID)
			if err != nil {
				t.Error(err)
				continue
			}
			row.Compare("diameter_in", size.Diameter.Inch())
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
		"gauge-swg-6":    size(t, "6 SWG").Diameter.Inch(),
	})
}

func TestTables(t *testing.T) {
	check.Tables(t, os.DirFS("."), "tables/*.csv")
	for _, test := range []struct {
		name        string
		set         gauge.Set
		want        int
		first, last string
	}{
		{"number", gauge.Number(), 97, "#97", "#1"},
		{"letter", gauge.Letter(), 26, "A", "Z"},
		{"fraction", gauge.Fraction(), 64, "1/64 in", "1 in"},
		{"metric", gauge.Metric(), 227, "0.2 mm", "25 mm"},
		{"SWG", gauge.SWG.Set(), 57, "50 SWG", "7/0 SWG"},
		{"AWG", gauge.AWG.Set(), 44, "40 AWG", "4/0 AWG"},
		{"BWG", gauge.BWG.Set(), 37, "33 BWG", "4/0 BWG"},
		{"MSG", gauge.MSG.Set(), 24, "30 MSG", "7 MSG"},
		{"screw", gauge.ScrewNumber.Set(), 17, "#000 screw", "#14 screw"},
	} {
		t.Run(test.name, func(t *testing.T) {
			sizes := slices.Collect(test.set.All())
			if len(sizes) != test.want || sizes[0].Name != test.first || sizes[len(sizes)-1].Name != test.last {
				t.Fatalf("%d sizes from %v to %v, want %d from %s to %s", len(sizes), sizes[0], sizes[len(sizes)-1], test.want, test.first, test.last)
			}
			for i, s := range sizes {
				if i > 0 && s.Diameter.Cmp(sizes[i-1].Diameter) <= 0 {
					t.Errorf("%v is not above %v", s, sizes[i-1])
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
			number, _, _ := strings.Cut(strings.TrimPrefix(s.Name, "#"), " ")
			if zeros, ok := strings.CutSuffix(number, "/0"); ok {
				n, _ := strconv.Atoi(zeros)
				number = fmt.Sprintf("(-%d)", n-1)
			}
			return fmt.Sprintf("%s(%s)", function, number)
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
