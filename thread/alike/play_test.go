package alike

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestAxialPlayProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pitch := rapid.Float64Range(0.3, 3).Draw(t, "pitch")
		d := pitch * rapid.Float64Range(5, 12).Draw(t, "diameters")
		half := rapid.Float64Range(20, 30).Draw(t, "half angle") * math.Pi / 180
		p := profile{major: d, pitchDiameter: d - 0.65*pitch, minor: d - 1.1*pitch, pitch: pitch, half: half}
		if play := axialPlay(p, p, 0); math.Abs(play) > 1e-12 {
			t.Fatalf("a thread in itself has play %g", play)
		}
		// Clearance on the diameter becomes axial play by the tangent of the angle.
		extra := rapid.Float64Range(0, 0.3).Draw(t, "extra")
		if play := axialPlay(p, p, extra); math.Abs(play-extra*math.Tan(half)) > 1e-12 {
			t.Fatalf("clearance %g makes play %g", extra, play)
		}
		if depth := sharedDepth(p, p); math.Abs(depth-1) > 0.1 {
			t.Fatalf("a thread shares %g of its own depth", depth)
		}
		other := p
		other.half = half + 0.03
		if play := axialPlay(p, other, 0); play >= 0 {
			t.Fatalf("another angle leaves play %g", play)
		}
	})
}
