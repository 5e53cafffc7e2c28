package diagnosis_test

import (
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/units"
)

// Angles counted against the running way fit nothing: that is said, and no pair of
// faults is made up for them.
func TestMisfit(t *testing.T) {
	var rs []diagnosis.Reading
	for _, r := range readings(demo()) {
		if r.Kind <= diagnosis.Compression {
			r.Angle = -r.Angle
			if r.Angle < -180*units.Degree {
				r.Angle += 360 * units.Degree
			}
			rs = append(rs, r)
		}
	}
	rs = append(rs, lead(eccentric.HeadEnd, 0.27), lead(eccentric.CrankEnd, 0.13))
	v, d := verdict(t, rs...)
	if v.Sure || d.Fits || len(d.CannotTell) != 1 || d.Next == nil || !strings.Contains(d.Next.Text, "dead centres anew") {
		t.Errorf("%+v", d)
	}
}

// One wrong reading leaves the doubts of the others, without it.
func TestDoubtsWithoutTheWrongReading(t *testing.T) {
	rs := readings(demo())
	for i, r := range rs {
		if r.Kind == diagnosis.Release && r.End == eccentric.HeadEnd {
			rs[i].Angle += 100 * units.Degree
		}
	}
	_, d := verdict(t, rs...)
	if len(d.MeasureAgain) != 1 || strings.Contains(strings.Join(d.CannotTell, " "), "together with") {
		t.Errorf("%+v", d)
	}
}

// Only an admission is told as before its dead centre.
func TestAnglesAreTold(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 40))
	before := regexp.MustCompile(`(shuts to|cracks open to exhaust)[^.]*-\d+ degrees`)
	count := 0
	for i := range fewer(400) {
		d, _, e := planted(r, kinds[i%len(kinds)])
		c := diagnosis.Case{Gear: d.gear()}
		for _, one := range measured(e, r, 1).some(4) {
			c.Readings = append(c.Readings, one.asReading())
		}
		found, err := c.Diagnose()
		if err != nil {
			t.Fatal(err)
		}
		texts := found.CannotTell
		if found.Next != nil {
			texts = append(texts, found.Next.Text)
		}
		for _, text := range texts {
			if strings.Contains(text, " degrees with") {
				count++
			}
			if before.MatchString(text) {
				t.Error(text)
			}
		}
	}
	if count == 0 {
		t.Error("no angle was told")
	}
}
