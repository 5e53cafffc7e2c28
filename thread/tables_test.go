package thread

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// cells returns the rows of a shipped table as they stand.
func cells(t *testing.T, name string, columns ...string) []map[string]string {
	t.Helper()
	rows, _, err := table.Read(tables, "tables/"+name, func(r *table.Row) map[string]string {
		row := map[string]string{"source": r.Text("source"), "locator": r.Optional("locator")}
		for _, column := range columns {
			row[column] = r.Optional(column)
		}
		return row
	})
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// parse reads a length of a cell.
func parse(t *testing.T, unit units.LengthUnit, text string) units.Length {
	t.Helper()
	v, err := unit.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Each drill of a chart is printed in a second work, or was read in the chart a
// second time; a list in inches and one in millimetres are at most 0.006 mm apart.
func TestChartDrillsPrintedElsewhere(t *testing.T) {
	columns := []string{"tapping", "tapping_named", "clearance", "clearance_named"}
	charts := cells(t, "tap_drills.csv", append([]string{"thread"}, columns...)...)
	for r := range check.Open(t, "thread/tap_drills.csv").Rows() {
		want, err := gauge.Parse(r.Text("drill"))
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		found := "no row of the chart"
		for _, row := range charts {
			if row["thread"] != r.Text("thread") || row["source"] != r.Text("chart") ||
				r.Has("series") && row["locator"] != "Appendix 1, Whitworth series "+r.Text("series") || row[r.Text("column")] == "" {
				continue
			}
			got, err := gauge.Parse(row[r.Text("column")])
			if found = row[r.Text("column")]; err == nil && math.Abs(got.Diameter.Sub(want.Diameter).MM()) <= 0.006 {
				found = r.Text("drill")
				break
			}
		}
		r.Equal("drill", found)
		// The thread hands out the drill.
		handed := slices.ContainsFunc(MustParse(r.Text("thread")).ChartDrills(), func(d ChartDrills) bool {
			return slices.ContainsFunc(append(d.Tapping, d.Clearance...), func(s gauge.Size) bool {
				return math.Abs(s.Diameter.Sub(want.Diameter).MM()) <= 0.006
			})
		})
		if !handed {
			t.Errorf("%s: not among the drills of the thread", r.ID)
		}
	}
}

// A chart that gives a drill in millimetres and one by name gives two that lie
// together, and clearance drills lie over the thread.
func TestChartDrillsSideBySide(t *testing.T) {
	for _, row := range charts.Rows() {
		for _, pair := range [][]gauge.Size{row.drills.Tapping, row.drills.Clearance} {
			if len(pair) == 2 && math.Abs(pair[0].Diameter.Sub(pair[1].Diameter).MM()) > 0.21 { // 2.5 mm and number 36
				t.Errorf("%s: %v and %v stand side by side", row.thread, pair[0], pair[1])
			}
		}
		th, err := Parse(row.thread)
		if err != nil || th.Designation() != row.thread {
			t.Errorf("a chart has %q, which reads as %v, %v", row.thread, th, err)
		}
		for _, drill := range row.drills.Clearance {
			if drill.Diameter.Cmp(th.major) <= 0 {
				t.Errorf("%s: clearance drill %v", row.thread, drill)
			}
		}
	}
}

// The clearance drills for BA that are recalled lie as near to those of a chart in
// numbers as the step of the numbers, 0.13 mm at most; numbers 13, 15 and 16 are in
// no chart, and lie a tenth of the diameter over the screw, as the others do.
func TestRecalledBAClearance(t *testing.T) {
	printed := map[string][]units.Length{}
	for _, row := range charts.Rows() {
		if row.drills.Refs.First().Kind == source.FromMemory {
			continue
		}
		for _, drill := range row.drills.Clearance {
			printed[row.thread] = append(printed[row.thread], drill.Diameter)
		}
	}
	for _, row := range charts.Rows() {
		if row.drills.Refs.First().Kind != source.FromMemory {
			continue
		}
		th := MustParse(row.thread)
		for _, drill := range row.drills.Clearance {
			near := slices.ContainsFunc(printed[row.thread], func(d units.Length) bool {
				return math.Abs(d.Sub(drill.Diameter).MM()) <= 0.131
			})
			over := drill.Diameter.Sub(th.major).Ratio(th.major)
			if len(printed[row.thread]) > 0 && !near || over < 0.015 || over > 0.14 {
				t.Errorf("%s: %v, %.1f %% over the screw, is not near %v", row.thread, drill, 100*over, printed[row.thread])
			}
		}
	}
}

// BS 93: depth 0.6 of the rounded pitch to the nearest 0.005 mm, the effective
// diameter that much below the major one, the minor diameter twice.
func TestBABySizes(t *testing.T) {
	for n, row := range cells(t, "ba.csv", "number", "pitch", "depth", "major", "effective", "minor") {
		if row["number"] != strconv.Itoa(n) {
			t.Errorf("%s BA stands where %d BA should", row["number"], n)
		}
		if row["depth"] == "" {
			continue
		}
		mm := func(column string) float64 { return parse(t, units.Millimetres, row[column]).MM() }
		depth := math.Round(0.6*mm("pitch")/0.005+1e-9) * 0.005
		for column, want := range map[string]float64{
			"depth": depth, "effective": mm("major") - depth, "minor": mm("major") - 2*depth,
		} {
			if math.Abs(mm(column)-want) > 1e-9 {
				t.Errorf("%s BA: %s %g, by rule %.4f", row["number"], column, mm(column), want)
			}
		}
	}
}

// Model engineers' threads have 40, 32 or 26 to the inch, brass 26. The fine pitches
// of each diameter from 42 mm up are 1.5, 2, 3 and 4 mm, as in the plan of ISO 261. (Both
// from memory.)
func TestConstantPitches(t *testing.T) {
	for _, series := range []Series{ME, BSB} {
		for th := range series.All() {
			if tpi := th.TPI(); tpi != 26 && (series == BSB || tpi != 32 && tpi != 40) {
				t.Errorf("%v has %g to the inch", th, tpi)
			}
		}
	}
	pitches := map[float64][]float64{}
	for th := range MetricFine.All() {
		if d := th.major.MM(); d >= 42 {
			pitches[d] = append(pitches[d], th.pitch.MM())
		}
	}
	for d, all := range pitches {
		if slices.Sort(all); !slices.Equal(all, []float64{1.5, 2, 3, 4}) {
			t.Errorf("M%g has the fine pitches %v", d, all)
		}
	}
}

// isoRanges are the ranges of diameter of ISO 965-1, table 4, and isoPitches the
// pitches of ISO 261 up to 6 mm.
var (
	isoRanges  = []string{"0.99", "1.4", "2.8", "5.6", "11.2", "22.4", "45", "90"}
	isoPitches = []float64{0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5,
		4, 4.5, 5, 5.5, 6}
)

// Ranges of diameter are those of the standard, from one end to the next, and each
// pitch stands once in each, smallest first.
func TestRangesOfTolerances(t *testing.T) {
	for _, name := range []string{"iso965_pitch_diameter.csv", "iso2903_external.csv", "iso2903_internal.csv"} {
		columns := map[string][]string{
			"iso965_pitch_diameter.csv": {"over", "to", "pitch", "td2"},
			"iso2903_external.csv":      {"over", "to", "pitch", "es", "td", "td2", "td3"},
			"iso2903_internal.csv":      {"over", "to", "pitch", "td2", "td1"},
		}[name]
		var last map[string]string
		for _, row := range cells(t, name, columns...) {
			at := slices.Index(isoRanges, row["over"])
			if at < 0 || at+1 == len(isoRanges) || isoRanges[at+1] != row["to"] {
				t.Errorf("%s: over %s to %s is no range of ISO 965-1", name, row["over"], row["to"])
			}
			p := parse(t, units.Millimetres, row["pitch"]).MM()
			if !slices.Contains(isoPitches, p) {
				t.Errorf("%s: pitch %g", name, p)
			}
			if last != nil {
				before := slices.Index(isoRanges, last["over"])
				if at < before || at == before && p <= parse(t, units.Millimetres, last["pitch"]).MM() {
					t.Errorf("%s: %s to %s, pitch %g stands after %v", name, row["over"], row["to"], p, last)
				}
			}
			last = row
		}
	}
	for _, name := range []string{"iso965_major.csv", "iso965_minor.csv"} {
		rows := cells(t, name, "pitch", map[string]string{"iso965_major.csv": "td", "iso965_minor.csv": "td1"}[name])
		for i, row := range rows {
			if p := parse(t, units.Millimetres, row["pitch"]).MM(); i >= len(isoPitches) || p != isoPitches[i] {
				t.Errorf("%s: pitch %g in row %d", name, p, i+1)
			}
		}
	}
}

// The formulas of ISO 965-1:1998, clause 13 (read in a public transcription), with P
// and d in millimetres and d the geometric mean of the range:
//
//	Td(6) = 180 P^(2/3) - 3.15 P^(-1/2)
//	TD1(6) = 433 P - 190 P^1.22 up to 0.8 mm, 230 P^0.7 from 1 mm
//	Td2(6) = 90 P^0.4 d^0.1
//	es(e) = 50 + 11 P, es(f) = 30 + 11 P, es(g) = EI(G) = 15 + 11 P, as numbers
//
// The tables smooth them: no tolerance is more than one step of the R40 series away,
// and no deviation more than the rounding to it but where the standard evens out
// neighbours, 5.6 um at most.
func TestTolerancesByFormula(t *testing.T) {
	rank := func(um float64) float64 { return 40 * math.Log10(um/10) }
	within := func(name string, p float64, cell isoCell, um float64) {
		if d := float64(cell.rank) - rank(um); math.Abs(d) > 1.02 {
			t.Errorf("%s of P %g: %d um, by formula %.1f um, %.2f steps apart", name, p, valueR40(cell.rank), um, d)
		}
	}
	tables := isoTables()
	for _, c := range tables.major {
		p := c.pitch.MM()
		within("Td", p, c, 180*math.Pow(p, 2.0/3)-3.15/math.Sqrt(p))
	}
	for _, c := range tables.minor {
		p := c.pitch.MM()
		if p < 0.3 {
			continue // there is no grade 6, and what ships continues grade 4
		}
		um := 230 * math.Pow(p, 0.7)
		if p <= 0.8 {
			um = 433*p - 190*math.Pow(p, 1.22)
		}
		within("TD1", p, c, um)
	}
	for _, c := range tables.pitchDiameter {
		p := c.pitch.MM()
		within("Td2", p, c, 90*math.Pow(p, 0.4)*math.Pow(c.over.MM()*c.to.MM(), 0.05))
	}
	for _, d := range tables.deviation {
		p := d.pitch.MM()
		um := map[byte]float64{'e': 50, 'f': 30, 'g': 15}[d.position] + 11*p
		if math.Abs(float64(d.micron)-um) > 5.6 {
			t.Errorf("%c of P %g: %d um, by formula %.1f um", d.position, p, d.micron, um)
		}
	}
	// The difference of two positions at one pitch is that of their constants, which
	// the smoothing moves by 4 um at most, and deviations grow with the pitch.
	last := map[byte]isoDeviation{}
	for _, d := range tables.deviation {
		if before, ok := last[d.position]; ok && (d.pitch.Cmp(before.pitch) <= 0 || d.micron < before.micron) {
			t.Errorf("%c of P %v: %d um after %d um of P %v", d.position, d.pitch, d.micron, before.micron, before.pitch)
		}
		last[d.position] = d
	}
}

// ASME B1.5: the allowance is 0.008 in times the root of the middle of the range,
// and the ranges join.
func TestAcmeAllowances(t *testing.T) {
	last := units.Length{}
	for _, a := range acmeAllowances.Rows() {
		if a.over != last || a.to.Cmp(a.over) <= 0 {
			t.Errorf("over %v to %v after %v", a.over, a.to, last)
		}
		want := 0.008 * math.Sqrt((a.over.Inch()+a.to.Inch())/2)
		if math.Abs(a.allowance.Inch()-want) > 0.00005 {
			t.Errorf("over %v to %v: %v, by rule %.5f in", a.over, a.to, a.allowance, want)
		}
		last = a.to
	}
}

// tolerancesIT are standard tolerances of ISO 286-1, table 1, in mm: over, IT13 to IT16.
var tolerancesIT = [][5]float64{
	{50, 0.46, 0.74, 1.2, 1.9}, {30, 0.39, 0.62, 1.0, 1.6}, {18, 0.33, 0.52, 0.84, 1.3}, {10, 0.27, 0.43, 0.7, 1.1},
	{6, 0.22, 0.36, 0.58, 0.9}, {3, 0.18, 0.30, 0.48, 0.75}, {0, 0.14, 0.25, 0.40, 0.60},
}

func toleranceIT(grade int, size float64) float64 {
	if size > 80 && grade == 16 {
		return 2.2
	}
	for _, row := range tolerancesIT {
		if size > row[0] {
			return row[grade-12]
		}
	}
	return 0
}

// ISO 4759-1 gives hexagon nuts the tolerances of ISO 286-1. Width across flats: h13
// up to M16, above it h15 to 60 mm and h16 beyond. Height: h14 up to M12, h15 to M18, h16
// beyond. (The rule is from memory, the figures hold all rows.)
func TestNutsByStandardTolerances(t *testing.T) {
	for _, row := range hexagonsISO.Rows() {
		grade, flats := 13, row.flats.MM()
		if row.diameter.Cmp(units.MM(16)) > 0 {
			grade = 15
			if flats > 60 {
				grade = 16
			}
		}
		if got := row.flats.Sub(row.least).MM(); math.Abs(got-toleranceIT(grade, flats)) > 1e-9 {
			t.Errorf("M%g: flats %v to %v are %.3f mm, h%d %.3f mm", row.diameter.MM(), row.least, row.flats, got, grade,
				toleranceIT(grade, flats))
		}
	}
	heights := map[string]units.Length{}
	for _, row := range nutHeights.Rows() {
		if row.diameter.Cmp(heights[row.standard]) <= 0 {
			t.Errorf("%s: %v stands after %v", row.standard, row.diameter, heights[row.standard])
		}
		heights[row.standard] = row.diameter
		if row.standard != "ISO 4032" {
			continue
		}
		grade, high := 14, row.height.Max.MM()
		switch {
		case row.diameter.Cmp(units.MM(18)) > 0:
			grade = 16
		case row.diameter.Cmp(units.MM(12)) > 0:
			grade = 15
		}
		if got := high - row.height.Min.MM(); math.Abs(got-toleranceIT(grade, high)) > 1e-9 {
			t.Errorf("M%g: height %v is %.3f mm, h%d %.3f mm", row.diameter.MM(), row.height, got, grade, toleranceIT(grade, high))
		}
	}
}

// Hexagons and nuts are listed for diameters that a thread has, and the size that
// people read is the diameter that counts.
func TestSizesOfHexagons(t *testing.T) {
	listed := map[units.Length]bool{}
	for _, l := range catalogue() {
		if l.series == MetricCoarse || l.form == FormWhitworth || l.Form() == FormUnified || l.series == BSW || l.series == BSF {
			listed[l.major] = true
		}
	}
	for _, rows := range [][]hexagonRow{hexagonsISO.Rows(), hexagonsBS.Rows(), hexagonsASME.Rows()} {
		for _, row := range rows {
			if !listed[row.diameter] {
				t.Errorf("no thread of %v has the hexagon of %v", row.diameter, row.flats)
			}
		}
	}
	for _, row := range nutHeights.Rows() {
		if !listed[row.diameter] {
			t.Errorf("%s: no thread of %v", row.standard, row.diameter)
		}
	}
	for _, row := range cells(t, "hexagons_asme.csv", "size", "diameter", "flats_max", "flats_min") {
		want := parse(t, units.Inches, row["size"]) // in inches, or the number of a screw
		if n, err := strconv.Atoi(row["size"]); err == nil && row["diameter"] < "0.25" {
			want = screwNumber(n)
		}
		if got := parse(t, units.Inches, row["diameter"]); got != want {
			t.Errorf("size %s has the diameter %v", row["size"], got)
		}
	}
}

// JIS B 0203 and ISO 7-1: the tolerance of a parallel hole is that of the gauge plane,
// one turn and a quarter to 0.01 mm, on the taper of 1 in 16; a fitting that is open
// behind has at least 0.8 of the useful thread of the shortest pipe, which is the gauge
// length less one turn and two and three quarters more. (The second rule is from
// memory; the catalogue's lengths of the sizes of ISO 7-1 follow it to 0.1 mm.)
func TestPipesByRule(t *testing.T) {
	iso := []string{"1/16", "1/8", "1/4", "3/8", "1/2", "3/4", "1"}
	for _, row := range pipeInternals.Rows() {
		th := MustParse("R " + row.size)
		p := math.Round(th.pitch.MM()*1000) / 1000
		axial := math.Round(1.25*p*100) / 100
		if want := math.Round(axial/16*1000) / 1000; math.Abs(row.tolerance.MM()-want) > 1e-9 {
			t.Errorf("%s: tolerance %v, by rule %g mm", row.size, row.tolerance, want)
		}
		if want := 0.8 * (th.gaugeLength.MM() + 1.75*p); slices.Contains(iso, row.size) && math.Abs(row.open.MM()-want) > 0.075 {
			t.Errorf("%s: %v where it is open behind, by rule %.2f mm", row.size, row.open, want)
		}
	}
}
