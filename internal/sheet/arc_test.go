package sheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestBeziers checks how near the curves keep to the arc: with n to the turn the
// radial error is about 4/27 sin^6(a/4)/cos^2(a/4) of the radius, a = 360/n degrees,
// which for eight is 4.2e-6 (derived; a standard result for four is 2.73e-4).
func TestBeziers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := arc{Point{3, 4}, 10, rapid.Float64Range(0, 6).Draw(t, "start"), rapid.Float64Range(-2*math.Pi, 2*math.Pi).Draw(t, "sweep")}
		from := a.at(0)
		for _, b := range a.beziers() {
			for s := 0.0; s <= 1; s += 0.125 {
				u := 1 - s
				p := from.scale(u * u * u).add(b.control1.scale(3 * u * u * s))
				p = p.add(b.control2.scale(3 * u * s * s)).add(b.to.scale(s * s * s))
				if err := math.Abs(p.sub(a.centre).abs()-a.radius) / a.radius; err > 4.4e-6 {
					t.Fatalf("radius off by %.2g", err)
				}
			}
			from = b.to
		}
		if end := a.at(1); end.sub(from).abs() > 1e-9 {
			t.Fatalf("ends at %v, want %v", from, end)
		}
	})
}

// TestArcOfBulge checks centre, radius and bounds against points of a known arc.
func TestArcOfBulge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := arc{Point{rapid.Float64Range(-50, 50).Draw(t, "x"), 7}, rapid.Float64Range(1, 50).Draw(t, "r"),
			rapid.Float64Range(-3, 3).Draw(t, "start"), rapid.Float64Range(0.1, 6).Draw(t, "sweep")}
		if rapid.Bool().Draw(t, "clockwise") {
			want.sweep = -want.sweep
		}
		s := side{want.at(0), want.at(1), math.Tan(want.sweep / 4)}
		got := s.arc()
		off := got.centre.sub(want.centre).abs()
		if off > 1e-7 || math.Abs(got.radius-want.radius) > 1e-7 || math.Abs(got.sweep-want.sweep) > 1e-9 {
			t.Fatalf("got %+v, want %+v", got, want)
		}
		low, high := s.bounds()
		for share := 0.0; share <= 1; share += 1.0 / 64 {
			p := want.at(share)
			if p.X < low.X-1e-7 || p.Y < low.Y-1e-7 || p.X > high.X+1e-7 || p.Y > high.Y+1e-7 {
				t.Fatalf("%v lies outside %v %v", p, low, high)
			}
		}
	})
}
