package cutting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Finish is the roughness that feed and nose leave on turned work at best:
// expect about twice that from a good tool on a small lathe, and more from a
// torn or built-up one.
type Finish struct {
	Peak    units.Length // from peak to valley, exact for a round nose
	Rule    units.Length // the same by the rule f^2/(8 r)
	Average units.Length // Ra
}

// TurnedFinish returns the theoretical finish of a nose radius r and feed f:
//
//	Rt = r - sqrt(r^2 - f^2/4)
//	Ra = f^2 / (18 * sqrt(3) * r)
//
// Rt is about f^2/(8 r), and Ra f^2/(31.18 r).
// Ra is that of a parabola, 0.1 % from the circle while f is below r/2; the
// shop's f^2/(32 r) lies 2.6 % below it. An insert maker gives the rule as 125
// f^2/r in micrometres, valid for feeds above 0.1 mm. Feeds up to twice the
// radius: beyond, the nose does not meet its last cut. See the Example.
func TurnedFinish(feed, nose units.Length) (Finish, error) {
	if err := fail.Above(fault.Named("feed", feed), fault.Named("nose radius", nose)); err != nil {
		return Finish{}, err
	}
	if feed.Cmp(nose.Scale(2)) > 0 {
		return Finish{}, fail.Wrong("feed", feed, "more than twice the nose radius: it cuts a thread", "up to "+nose.Scale(2).String())
	}
	f, r := feed.MM(), nose.MM()
	peak := f * f / 4 / (r + math.Sqrt(r*r-f*f/4)) // = r - sqrt(r^2 - f^2/4), without the cancellation
	var out Finish
	var err error
	for _, v := range []struct {
		to *units.Length
		mm float64
	}{
		{&out.Peak, peak},
		{&out.Rule, f * f / (8 * r)},                    // Rt = f^2/(8 r)
		{&out.Average, f * f / (18 * math.Sqrt(3) * r)}, // Ra = f^2/(18 sqrt(3) r)
	} {
		if *v.to, err = units.Millimetres.Of(v.mm); err != nil {
			return Finish{}, err
		}
	}
	return out, nil
}
