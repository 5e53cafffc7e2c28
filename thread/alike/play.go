package alike

import (
	"math"

	"github.com/valvechest/valvechest/units/source"
)

// profile is a thread as a kernel needs it, in millimetres at basic sizes.
type profile struct {
	major, pitchDiameter, minor float64 // minor: of the internal thread, its crest
	pitch, half                 float64
}

// axialPlay returns how far a bolt could move along a nut, were the pitches the
// same: twice the least gap between flanks over the depth they share. It is
// negative where the bolt's ridge is thicker than the nut's groove.
//
// At radius r the ridge of the bolt is P/4 - (r - E/2) tan A thick to either
// side and the groove of the nut as wide; the difference is linear in r, so the
// least is at the nut's crest or at the bolt's. extra is a clearance on the
// diameter that tolerances add to the basic sizes.
func axialPlay(bolt, nut profile, extra float64) float64 {
	gap := func(r float64) float64 {
		ridge := bolt.pitch/4 - (r-bolt.pitchDiameter/2)*math.Tan(bolt.half)
		groove := nut.pitch/4 - (r-(nut.pitchDiameter+extra)/2)*math.Tan(nut.half)
		return groove - ridge
	}
	return 2 * min(gap(nut.minor/2), gap(bolt.major/2))
}

// sharedDepth returns the depth over which the threads overlap, as a share of
// the depth of the nut's own thread; zero when the bolt falls through, or its core is
// larger than the nut.
func sharedDepth(bolt, nut profile) float64 {
	return max(0, (min(bolt.major, nut.major)-max(nut.minor, 2*bolt.pitchDiameter-bolt.major))/(nut.major-nut.minor))
}

var loosenessRef = source.Ref{
	Kind: source.FromMemory, Title: "ASME B1.1", Edition: "2003",
	Note: "pitch diameter tolerance of class 2A, for an engagement of one diameter; the rest is geometry",
}

// looseness returns the clearance on the pitch diameter between a bolt at the
// bottom of its tolerance and a nut at the top, beyond the basic sizes, in
// millimetres: 2.6 times the tolerance of Unified class 2A, which is 1.3 below
// for the bolt and 1.3 above for the nut.
//
//	tolerance = 0.0015 * D^(1/3) + 0.0015 * D^(1/2) + 0.015 * P^(2/3)  inch
//
// Other standards are near it; worn or home-cut threads are looser.
func looseness(p profile) float64 {
	d, pitch := p.major/25.4, p.pitch/25.4
	return 2.6 * 25.4 * (0.0015*math.Cbrt(d) + 0.0015*math.Sqrt(d) + 0.015*math.Pow(pitch, 2.0/3)) // ASME B1.1, class 2A
}
