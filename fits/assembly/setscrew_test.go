package assembly_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The seating torques against other works: of a size that has two, the nearer.
func TestSetScrews(t *testing.T) {
	seating := map[string][]units.Torque{}
	for _, s := range assembly.SetScrews() {
		seating[s.Name] = append(seating[s.Name], s.Seating)
	}
	f := check.Open(t, "fits/assembly/setscrews.csv")
	for r := range f.Rows() {
		name, unit := r.Text("name"), units.NewtonMetre
		if r.Text("unit") == "in" {
			unit = units.PoundForceInch
		}
		column, share := "torque", 1.0
		if r.Has("stainless") {
			column, share = "stainless", 0.8
		}
		nearest := math.Inf(1)
		for _, torque := range seating[name] {
			if got := share * float64(torque/unit); math.Abs(got-r.Float(column)) < math.Abs(nearest-r.Float(column)) {
				nearest = got
			}
		}
		r.Compare(column, nearest)
	}
	// Where makers differ all figures are there, the lowest first.
	for name, list := range seating {
		if !slices.IsSorted(list) || len(slices.Compact(slices.Clone(list))) < len(list) {
			t.Errorf("%s: %v", name, list)
		}
	}
}

// What a cup point holds along and about the shaft, against prints: the torque of
// [assembly.GrubScrew] is its axial force at the radius, as the sheet's are.
func TestHolding(t *testing.T) {
	f := check.Open(t, "fits/assembly/holding.csv")
	for r := range f.Rows() {
		i := slices.IndexFunc(assembly.SetScrews(), func(s assembly.SetScrew) bool {
			return s.Name == r.Text("screw") && s.Holding > 0
		})
		if i < 0 {
			t.Errorf("%s: no holding power of %s", r.ID, r.Text("screw"))
			continue
		}
		s := assembly.SetScrews()[i]
		if r.Has("note") {
			r.Skip(r.Text("note"))
			continue
		}
		if r.Has("axial") {
			r.Compare("axial", float64(s.Holding/units.PoundForce))
			continue
		}
		g, err := assembly.GrubScrew{Screw: s.Diameter, Shaft: units.Inch(r.Float("shaft_in")), Tightening: s.Seating}.Solve()
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		arms := []float64{float64(g.Torque.Min) / float64(g.Axial.Min), float64(g.Torque.Max) / float64(g.Axial.Max)}
		for _, arm := range arms {
			// The sheet cuts off what is behind the last place.
			r.Within("torque", float64(s.Holding)*arm/float64(units.PoundForceInch), 2*check.HalfLastPlace(r.Text("torque")))
		}
	}
}

// The diameter is that of the thread: of a number 0.060 in and 0.013 in for each more
// (ASME B1.1), of a fraction and of a metric size what the name says.
func TestSetScrewDiameters(t *testing.T) {
	for _, s := range assembly.SetScrews() {
		want, err := units.ParseLength(strings.TrimPrefix(s.Name, "M") + " mm")
		if number, ok := strings.CutPrefix(s.Name, "#"); ok {
			n, bad := strconv.Atoi(number)
			want, err = units.Thou(60+13*float64(n)), bad
		} else if !strings.HasPrefix(s.Name, "M") {
			want, err = units.ParseLength(s.Name + " in")
		}
		if err != nil || s.Diameter != want {
			t.Errorf("%s is %v thick, want %v (%v)", s.Name, s.Diameter, want, err)
		}
	}
}

// The holding powers of the sizes that are a fraction of an inch rise by 500 lbf a
// sixteenth, over none at an eighth (the table of the same book, from memory).
func TestHoldingRises(t *testing.T) {
	for _, s := range assembly.SetScrews() {
		if strings.Contains(s.Name, "/") && s.Holding > 0 && strings.Contains(s.Refs.First().Title, "Shigley") {
			if want := 8000*s.Diameter.Inch() - 1000; math.Abs(float64(s.Holding/units.PoundForce)-want) > 1e-6 {
				t.Errorf("%s: %v, want %g lbf", s.Name, s.Holding, want)
			}
		}
	}
}
