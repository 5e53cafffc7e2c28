package thread_test

import (
	"errors"
	"math"
	"os"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

func TestTables(t *testing.T) {
	check.Tables(t, os.DirFS("."), "tables/*.csv")
	total := 0
	for _, test := range []struct {
		series      thread.Series
		want        int
		first, last string
	}{
		{thread.MetricCoarse, 40, "M1x0.25", "M68x6"},
		{thread.MetricFine, 101, "M1x0.2", "M68x4"},
		{thread.MetricOld, 3, "M1.7x0.35", "M2.6x0.45"},
		{thread.UNC, 25, "1-64 UNC", "2-4.5 UNC"},
		{thread.UNF, 24, "0-80 UNF", "1 1/2-12 UNF"},
		{thread.UNEF, 14, "12-32 UNEF", "1-20 UNEF"},
		{thread.BSW, 29, "1/16 BSW", "3 BSW"},
		{thread.BSF, 18, "3/16 BSF", "1 1/2 BSF"},
		{thread.BA, 26, "0 BA", "25 BA"},
		{thread.ME, 20, "1/8x40 ME", "1/2x26 ME"},
		{thread.BSB, 6, "1/4 BSB", "1/2 BSB"},
		{thread.BSC, 20, "1/8x40 BSC", "3/4x20 BSC"},
		{thread.BSPParallel, 15, "G 1/16", "G 2"},
		{thread.BSPTaper, 10, "R 1/16", "R 1 1/8"},
		{thread.NPT, 12, "1/16-27 NPT", "3-8 NPT"},
		{thread.Trapezoidal, 22, "Tr 8x1.5", "Tr 40x7"},
		{thread.Acme, 25, "1/4-16 Acme", "1 1/2-4 Acme"},
		{thread.Special, 0, "", ""},
		{thread.UNS, 0, "", ""},
	} {
		var all []thread.Thread
		kinds := map[source.Kind]int{}
		for th := range test.series.All() {
			all = append(all, th)
			kinds[th.Refs().First().Kind]++
			if th.Refs().IsZero() || th.Series() != test.series {
				t.Errorf("%v: source %v, series %v", th, th.Refs(), th.Series())
			}
			if n := len(all); n > 1 && test.series != thread.BA && th.Major().Cmp(all[n-2].Major()) < 0 {
				t.Errorf("%v stands after %v", th, all[n-2])
			}
			if math.Abs(th.TPI()*th.Pitch().Inch()-1) > 1e-9 {
				t.Errorf("%v: %v to the inch on a pitch of %v", th, th.TPI(), th.Pitch())
			}
		}
		total += len(all)
		if len(all) != test.want || len(all) > 0 && (all[0].Designation() != test.first ||
			all[len(all)-1].Designation() != test.last) {
			t.Errorf("%v: %d threads, want %d from %s to %s; got %v", test.series, len(all), test.want, test.first, test.last,
				all)
		}
		t.Logf("%v: %d published, %d from memory", test.series, kinds[source.Published], kinds[source.FromMemory])
	}
	t.Logf("%d threads", total)
}

// open runs the rows of a file whose designation is in the given column.
func open(t *testing.T, name, column string, compare func(*check.Row, thread.Thread)) {
	t.Helper()
	for row := range check.Open(t, "thread/"+name).Rows() {
		text := row.ID
		if column != "id" {
			text = row.Text(column)
		}
		th, err := thread.Parse(text)
		if errors.Is(err, units.ErrUnknown) { // sizes that catalogues have and ISO 261 has not
			th, err = thread.Parse(text + " special")
		}
		if err != nil {
			th, err = thread.Parse(text + " UNS")
		}
		if err != nil {
			t.Error(err)
			continue
		}
		compare(row, th)
	}
}

// exact is the tolerance where the package rounds as the standard does: what is
// left is float64 itself.
const exact = 1e-9

// Misprints in the sources of the first half of the package stay out.
func TestMisprintsOfSizesAndLimits(t *testing.T) {
	limits := func(name, class string) thread.Limits {
		l, err := thread.MustParse(name).Limits(class)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	taper := func(name string) thread.Taper {
		v, _ := thread.MustParse(name).Taper()
		return v
	}
	number46, err := gauge.Parse("#46")
	if err != nil {
		t.Fatal(err)
	}
	percent, err := thread.MustParse("0-80").DepthOfThread(units.Inch(0.0492),
		thread.ThreeQuarterHeight) // as printed for 1.25 mm
	if err != nil {
		t.Fatal(err)
	}
	clearance, err := thread.MustParse("1 3/4 BSW").ClearanceFor(thread.ChartClearance)
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "thread", map[string]float64{
		"thread-m9x1-6g-major":       limits("M9x1", "6g").Major.Max.MM(),
		"thread-m2.5x0.35-6g-minor":  limits("M2.5x0.35", "6g").Minor.Min.MM(),
		"thread-m9x1-6h-pitch":       limits("M9x1", "6H").PitchDiameter.Max.MM(),
		"thread-m11x1.5-6h-pitch":    limits("M11x1.5", "6H").PitchDiameter.Max.MM(),
		"thread-m12x0.5-6h-pitch":    limits("M12x0.5 special", "6H").PitchDiameter.Max.MM(),
		"thread-bsw-1-3-4-clearance": clearance.Hole.Inch(),
		"thread-bsw-1-8-core":        thread.MustParse("1/8 BSW").Minor().Inch(),
		"thread-bsw-5-16-depth":      thread.MustParse("5/16 BSW").Depth().Inch(),
		"thread-bsf-3-16-tpi":        thread.MustParse("3/16 BSF").TPI(),
		"thread-npt-3-8-l2":          taper("3/8 NPT").EffectiveLength.Inch(),
		"thread-npt-1-1-2-l1":        taper("1 1/2 NPT").GaugeLength.Inch(),
		"thread-unc-2-56-2b-minor":   limits("2-56 UNC", "2B").Minor.Min.Inch(),
		"thread-unc-3-48-2b-pitch":   limits("3-48 UNC", "2B").PitchDiameter.Max.Inch(),
		"thread-unc-1-2-2b-minor":    limits("1/2-13 UNC", "2B").Minor.Min.Inch(),
		"thread-unc-9-16-2b-pitch":   limits("9/16-12 UNC", "2B").PitchDiameter.Max.Inch(),
		"thread-unc-1-1-2-2b-pitch":  limits("1 1/2-6 UNC", "2B").PitchDiameter.Max.Inch(),
		"thread-percent-3-56-drill":  number46.Diameter.Inch(),
		"thread-percent-0-80":        100 * percent,
		"thread-acme-10-pitch":       thread.MustParse("1/2-10 Acme").Pitch().Inch(),
		"thread-ba-11-tpi":           thread.MustParse("11 BA").TPI(),
		"thread-tr-9x2-root":         thread.MustParse("Tr 9x2").Root().MM(),
		"thread-uns-19-64-threads":   thread.MustParse("19/64-36 UNS").TPI(),
	})
}
