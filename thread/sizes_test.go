package thread_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

func TestBasicSizesPrinted(t *testing.T) {
	t.Run("metric", func(t *testing.T) {
		for row := range check.Open(t, "thread/basic_metric.csv").Rows() {
			designation := row.Text("designation")
			th, err := thread.Parse(designation)
			if err != nil {
				t.Error(err)
				continue
			}
			row.Within("d2_mm", th.PitchDiameter().MM(), exact)
			if row.Has("d1_mm") {
				row.Within("d1_mm", th.Minor().MM(), exact)
			}
			if row.Has("d3_mm") {
				row.Within("d3_mm", th.Root().MM(), exact)
				row.Compare("h3_mm", th.Depth().MM())
			}
		}
	})
	t.Run("Unified", func(t *testing.T) {
		open(t, "basic_unified.csv", "designation", func(row *check.Row, th thread.Thread) {
			if row.Has("d2_in") {
				row.Within("d2_in", th.PitchDiameter().Inch(), exact)
			}
			if row.Has("d1_in") {
				row.Within("d1_in", th.Minor().Inch(), exact)
			}
			if row.Has("d3_in") {
				// The handbook takes 0.10825 p, to four decimals, from the minor diameter
				// of the nut; the standard takes 1.19078 p from the major diameter.
				row.Within("d3_in", th.Root().Inch(), 0.0001+exact)
			}
			if row.Has("lead_deg") {
				printed := row.Float("lead_deg")*60 + row.Float("lead_min")
				if got := th.LeadAngle().Degrees() * 60; math.Abs(got-printed) > 0.5 {
					t.Errorf("%s: lead angle %.2f minutes, printed %.0f", row.ID, got, printed)
				}
			}
			if row.Has("stress_area_in2") {
				area := float64(strength.StressAreaOf(th).Area / units.SquareInch)
				if row.ID == "6-32 UNC (27th)" {
					row.Within("stress_area_in2", area, 6e-6)
				} else {
					row.Compare("stress_area_in2", area)
				}
			}
		})
	})
	t.Run("BA", func(t *testing.T) {
		open(t, "basic_ba.csv", "id", func(row *check.Row, th thread.Thread) {
			row.Compare("major_in", th.Major().Inch())
			row.Within("tpi", th.TPI(), 1.02*check.HalfLastPlace(row.Text("tpi")))
		})
		open(t, "basic_ba_tpi.csv", "id", func(row *check.Row, th thread.Thread) {
			row.Within("tpi", th.TPI(), 1.02*check.HalfLastPlace(row.Text("tpi"))) // 43.051 is printed 43.0
		})
	})
	t.Run("Whitworth", func(t *testing.T) {
		open(t, "basic_whitworth.csv", "designation", func(row *check.Row, th thread.Thread) {
			tolerance := row.Float("tolerance") * 1.0001
			row.Within("tpi", th.TPI(), 0)
			for column, d := range map[string]units.Length{"effective_in": th.PitchDiameter(), "minor_in": th.Minor(),
				"depth_in": th.Depth()} {
				if row.Has(column) {
					row.Within(column, d.Inch(), tolerance)
				}
			}
		})
	})
	t.Run("cycle", func(t *testing.T) {
		open(t, "basic_cycle.csv", "designation", func(row *check.Row, th thread.Thread) {
			row.Compare("minor_in", th.Minor().Inch())
		})
	})
	t.Run("British pipe", func(t *testing.T) {
		open(t, "basic_bsp.csv", "designation", func(row *check.Row, th thread.Thread) {
			row.Within("tpi", th.TPI(), 0)
			if row.Has("major_mm") {
				row.Within("major_mm", th.Major().MM(), exact)
			}
			if row.Has("pitch_mm") {
				row.Compare("pitch_mm", th.Pitch().MM())
			}
			if row.Has("pitch_diameter_mm") {
				row.Within("pitch_diameter_mm", th.PitchDiameter().MM(), exact)
			}
			if row.Has("minor_mm") {
				row.Within("minor_mm", th.Minor().MM(), exact)
			}
		})
	})
	t.Run("American pipe", func(t *testing.T) {
		open(t, "basic_npt.csv", "designation", func(row *check.Row, th thread.Thread) {
			taper, _ := th.Taper()
			for column, got := range map[string]float64{"pitch_in": th.Pitch().Inch(), "height_in": th.Depth().Inch(),
				"l1_in": taper.GaugeLength.Inch(), "l2_in": taper.EffectiveLength.Inch()} {
				if row.Has(column) {
					row.Compare(column, got)
				}
			}
			for column, got := range map[string]float64{"e0_in": taper.SmallEnd.Inch(), "e1_in": th.PitchDiameter().Inch()} {
				if row.Has(column) {
					row.Within(column, got, 0.0000101) // one of the last place: E1 is printed from the rounded E0
				}
			}
		})
	})
	t.Run("trapezoidal", func(t *testing.T) {
		open(t, "basic_trapezoidal.csv", "id", func(row *check.Row, th thread.Thread) {
			row.Within("d2_mm", th.PitchDiameter().MM(), exact)
			row.Within("D1_mm", th.Minor().MM(), exact)
			row.Within("d3_mm", th.Root().MM(), exact)
		})
		open(t, "basic_trapezoidal_din103.csv", "id", func(row *check.Row, th thread.Thread) {
			row.Within("d2_mm", th.PitchDiameter().MM(), exact)
		})
		open(t, "basic_trapezoidal_nut.csv", "id", func(row *check.Row, th thread.Thread) {
			nut, err := th.Limits("7H")
			if err != nil {
				t.Error(err)
				return
			}
			row.Within("d2_mm", nut.PitchDiameter.Min.MM(), exact)
			row.Within("D4_mm", nut.Major.Min.MM(), exact)
			row.Within("D1_mm", nut.Minor.Min.MM(), exact)
			if row.Has("d3_mm") {
				row.Within("d3_mm", th.Root().MM(), exact)
			}
		})
	})
	t.Run("Acme", func(t *testing.T) {
		for row := range check.Open(t, "thread/acme_form.csv").Rows() {
			tpi := row.Float("tpi")
			th, err := thread.New(thread.FormAcme, units.Inch(1), units.Inch(1/tpi))
			if err != nil {
				t.Error(err)
				continue
			}
			p, tan := th.Pitch().Inch(), math.Tan(th.Form().Angle().Radians()/2)
			allowance := 2*th.Depth().Inch() - p
			row.Within("height_in", th.Depth().Inch(), 0.00006) // 0.04071 is printed 0.0407, 0.09333 0.0933
			row.Within("crest_flat_in", p/2-p/2*tan, 0.00006)   // 0.3707 p
			row.Within("root_flat_in", p/2-p/2*tan-allowance*tan,
				0.00007) // less 0.259 of the allowance; 0.04116 and 0.06897 are printed cut off
		}
	})
}

// Metric sizes that ISO 261 has dropped and that stand on old instruments are known
// without their pitch.
func TestOldMetricSizes(t *testing.T) {
	open(t, "sizes_metric_old.csv", "id", func(row *check.Row, th thread.Thread) {
		row.Compare("diameter", th.Major().MM())
		row.Compare("pitch", th.Pitch().MM())
		if th.Series() != thread.MetricOld || th.Refs().First().Kind != source.Published {
			t.Errorf("%v: %v, %v", th, th.Series(), th.Refs())
		}
	})
}

// What holds of every listed thread.
func TestBasicSizeIdentities(t *testing.T) {
	for s := thread.MetricCoarse; s <= thread.Acme; s++ {
		for th := range s.All() {
			if th.Root().Cmp(th.Minor()) > 0 || th.Minor().Cmp(th.PitchDiameter()) >= 0 ||
				th.PitchDiameter().Cmp(th.Major()) >= 0 {
				t.Errorf("%v: %v, %v, %v, %v are out of order", th, th.Root(), th.Minor(), th.PitchDiameter(), th.Major())
			}
			// The root is the depth below the major diameter, but for rounding:
			// half a thousandth of a millimetre or two ten-thousandths of an inch,
			// 0.01 mm where BA is listed to two decimals.
			slack := 0.0055
			if off := math.Abs(th.Major().Sub(th.Depth().Scale(2)).Sub(th.Root()).MM()); off > slack {
				t.Errorf("%v: major less twice the depth is %.4f mm off the root", th, off)
			}
			if h := th.Form().FundamentalHeight(th.Pitch()); th.Form() != thread.FormTrapezoidal &&
				th.Form() != thread.FormAcme && th.Depth().Cmp(h) >= 0 {
				t.Errorf("%v: depth %v is not below the sharp height %v", th, th.Depth(), h)
			}
		}
	}
}

func TestBAPitchLaw(t *testing.T) {
	// The series of 1884: p = 0.9^n mm and D = 6 p^1.2 mm, each to two figures.
	n := 0
	for th := range thread.BA.All() {
		p := math.Pow(0.9, float64(n))
		d := 6 * math.Pow(p, 1.2)
		two := func(v float64) float64 {
			unit := math.Pow(10, math.Floor(math.Log10(v))-1)
			return math.Round(v/unit) * unit
		}
		if math.Abs(th.Pitch().MM()-two(p)) > 1e-9 || math.Abs(th.Major().MM()-two(d)) > 1e-9 {
			t.Errorf("%v: pitch %v and major %v, the law gives %.3g and %.2g mm", th, th.Pitch(), th.Major(), two(p), two(d))
		}
		n++
	}
}

func TestPipe(t *testing.T) {
	for _, s := range thread.ListSeries() {
		want := s == thread.BSPParallel || s == thread.BSPTaper || s == thread.NPT
		if s.Pipe() != want {
			t.Errorf("%v: pipe %v", s, s.Pipe())
		}
	}
}

// The rule of the BA series: the pitch is 0.9 to the power of the number, and the
// diameter 6 times the unrounded pitch to the power of 1.2, both in millimetres to
// two significant figures. It holds on all 26, whatever list they came from.
func TestBASeriesByItsRule(t *testing.T) {
	two := func(v float64) float64 {
		place := math.Pow(10, math.Floor(math.Log10(v))-1)
		return math.Round(v/place) * place
	}
	n := 0
	for th := range thread.BA.All() {
		p := math.Pow(0.9, float64(n))
		if pitch := th.Pitch().MM(); math.Abs(pitch-two(p)) > 1e-9 {
			t.Errorf("%v: pitch %g, by rule %.4f", th, pitch, p)
		}
		if d := th.Major().MM(); math.Abs(d-two(6*math.Pow(p, 1.2))) > 1e-9 {
			t.Errorf("%v: diameter %g, by rule %.4f", th, d, 6*math.Pow(p, 1.2))
		}
		n++
	}
	if n != 26 {
		t.Errorf("%d sizes", n)
	}
}

// No table and no check of threads rests on the list of an encyclopaedia, which is
// a copyleft compilation.
func TestNoListOfAnEncyclopaedia(t *testing.T) {
	for _, s := range thread.ListSeries() {
		for th := range s.All() {
			refs := th.Refs()
			if taper, ok := th.Taper(); ok {
				refs = refs.With(taper.Refs)
			}
			if h, err := th.Hexagon(); err == nil {
				refs = refs.With(h.Refs)
			}
			for _, c := range th.ChartDrills() {
				refs = refs.With(c.Refs)
			}
			for _, h := range th.PipeHoles() {
				refs = refs.With(h.Refs)
			}
			for ref := range refs.All() {
				text := strings.ToLower(ref.String())
				if strings.Contains(text, "encyclop") || strings.Contains(text, "wiki") {
					t.Errorf("%v: %v", th, ref)
				}
			}
		}
	}
}
