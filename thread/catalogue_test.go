package thread_test

import (
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
	for _, series := range thread.ListSeries() {
		var last thread.Thread
		n, kinds := 0, map[source.Kind]int{}
		seen := map[string]bool{}
		for th := range series.All() {
			n++
			kinds[th.Refs().First().Kind]++
			if th.Refs().IsZero() || th.Series() != series || seen[th.Designation()] {
				t.Errorf("%v: source %v, series %v, given twice: %v", th, th.Refs(), th.Series(), seen[th.Designation()])
			}
			seen[th.Designation()] = true
			if n > 1 && series != thread.BA && th.Major().Cmp(last.Major()) < 0 {
				t.Errorf("%v stands after %v", th, last)
			}
			if math.Abs(th.TPI()*th.Pitch().Inch()-1) > 1e-9 {
				t.Errorf("%v: %v to the inch on a pitch of %v", th, th.TPI(), th.Pitch())
			}
			last = th
		}
		total += n
		if any := series != thread.Special && series != thread.UNS; any != (n > 0) {
			t.Errorf("%v lists %d threads", series, n)
		}
		t.Logf("%v: %d threads, %d published, %d from memory", series, n, kinds[source.Published], kinds[source.FromMemory])
	}
	t.Logf("%d threads", total)
}

// open runs the rows of a file whose designation is in the given column. A thread
// that no series lists says so there, as "M5x0.9 special" does: a listed one that has
// gone from its table is an error.
func open(t *testing.T, name, column string, compare func(*check.Row, thread.Thread)) {
	t.Helper()
	for row := range check.Open(t, "thread/"+name).Rows() {
		text := row.ID
		if column != "id" {
			text = row.Text(column)
		}
		th, err := thread.Parse(text)
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
