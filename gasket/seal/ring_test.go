package seal

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestRings(t *testing.T) {
	f := check.Open(t, "gasket/seal/oring.csv")
	for r := range f.Rows() {
		if r.Has("size") {
			ring, err := LookupRing(r.Text("size"))
			if err != nil {
				t.Error(err)
				continue
			}
			r.Compare("inside_in", ring.Inside.Inch())
			r.Compare("section_in", ring.Section.Inch())
			continue
		}
		alike := false
		for _, ring := range Rings() {
			if ring.Section == units.Inch(r.Float("section_in")) {
				r.Compare("section_tolerance_in", ring.SectionTolerance.Inch())
				alike = true
			}
		}
		if !alike {
			r.Skip("no ring of that section is shipped")
		}
	}
}

// The inside diameters step as the fractions do that the size numbers stand for. Rings of
// one fraction have one tolerance in the two series of thin section, whatever that is.
func TestRingSeries(t *testing.T) {
	thin := map[string]Ring{}
	f := check.Open(t, "gasket/seal/oring_series.csv")
	for r := range f.Rows() {
		ring, err := LookupRing(r.Text("size"))
		if err != nil {
			r.Skip("the size is not shipped")
			continue
		}
		r.Compare("inside_in", ring.Inside.Inch())
		r.Compare("section_in", ring.Section.Inch())
		nominal, err := units.ParseLength(r.Text("nominal_in") + " in")
		if d := nominal.Sub(ring.Inside); err != nil || d.Sign() <= 0 || d.Cmp(ring.Section) > 0 {
			t.Errorf("%s: %v inside, nominal %v, %v", r.ID, ring.Inside, nominal, err)
		}
		if ring.Section.Cmp(units.Inch(0.103)) > 0 {
			continue
		}
		if other, ok := thin[nominal.String()]; ok && other.InsideTolerance != ring.InsideTolerance {
			t.Errorf("%s and %s: tolerances %v and %v", other.Size, ring.Size, other.InsideTolerance, ring.InsideTolerance)
		}
		thin[nominal.String()] = ring
	}
}

// What holds of the whole list: sizes and inside diameters rise together in a section,
// the tolerance of the inside never falls as they do and is finer than the step to the
// next size, the first digit of the size tells the section, and a section has one
// tolerance.
func TestRingList(t *testing.T) {
	sections, tolerances := map[string]units.Length{}, map[units.Length]units.Length{}
	last := map[units.Length]Ring{}
	for _, r := range Rings() {
		n, err := strconv.Atoi(r.Size)
		if err != nil || len(r.Size) != 3 {
			t.Errorf("size %q", r.Size)
		}
		if n >= 4 { // 001 to 003 have sections of their own
			if s, ok := sections[r.Size[:1]]; ok && s != r.Section {
				t.Errorf("%s: section %v, where %s.. has %v", r.Size, r.Section, r.Size[:1], s)
			}
			sections[r.Size[:1]] = r.Section
		}
		if tol, ok := tolerances[r.Section]; ok && tol != r.SectionTolerance {
			t.Errorf("%s: tolerance of the section %v, and %v before", r.Size, r.SectionTolerance, tol)
		}
		tolerances[r.Section] = r.SectionTolerance
		if before, ok := last[r.Section]; ok {
			m, _ := strconv.Atoi(before.Size)
			if n <= m || r.Inside.Cmp(before.Inside) <= 0 || r.InsideTolerance.Cmp(before.InsideTolerance) < 0 {
				t.Errorf("%s after %s: inside %v and %v, tolerances %v and %v", r.Size, before.Size, r.Inside, before.Inside, r.InsideTolerance, before.InsideTolerance)
			}
			if r.InsideTolerance.Cmp(r.Inside.Sub(before.Inside)) >= 0 {
				t.Errorf("%s: tolerance %v, and only %v above the size before", r.Size, r.InsideTolerance, r.Inside.Sub(before.Inside))
			}
		}
		last[r.Section] = r
	}
}

func TestMisprints(t *testing.T) {
	small := math.NaN()
	if r, err := LookupRing("104"); err == nil {
		small = r.Inside.Inch()
	}
	p, err := StuffingBox{Rod: units.Inch(2), Bore: units.Inch(4)}.Packing()
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "gasket/seal", map[string]float64{"oring-104-inside": small, "root-cause-ring": p.Cut.Inch()})
}

func TestLookupRing(t *testing.T) {
	// A web chart has a size 200, which there is not.
	var bad *units.ParseError
	if _, err := LookupRing("200"); !errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) {
		t.Errorf("200: %v", err)
	}
	for text, near := range map[string]string{"-012": "012", "12": "012", "0230": "230", "0": "", "": ""} {
		if _, err := LookupRing(text); !errors.As(err, &bad) || strings.Join(bad.Near, " ") != near {
			t.Errorf("%q: %v, want %q near it", text, err, near)
		}
	}
	// every size is named in the error, alone or in a run
	for _, r := range Rings() {
		named := slices.ContainsFunc(strings.Split(sizes(), ", "), func(run string) bool {
			from, to, ok := strings.Cut(run, " to ")
			return run == r.Size || ok && from <= r.Size && r.Size <= to
		})
		if !named {
			t.Errorf("%s is not in %s", r.Size, sizes())
		}
	}
	if runs := sizes(); strings.Contains(runs, "029") || strings.Contains(runs, "101") || !strings.Contains(runs, ", 220, ") {
		t.Errorf("sizes %s", runs)
	}
}
