package screwcut

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// InfeedAlongSlide returns how far the topslide travels to carry the tool to a
// depth, when it is set over and the cross-slide stays where it is.
//
//	travel = depth / cos set
//
//	depth  from the work's diameter to the bottom of the groove, above zero up to 100 mm
//	set    angle between the topslide and the cross-slide's line, 0 to 45 degrees
//
// Many slides are graduated from the lathe's axis instead: there 29.5 degrees off the
// cross-slide reads 60.5. Set, for which there is [SlideAngleFor], is not more than half the angle of the thread, or
// the trailing flank comes out stepped: 29 to 30 degrees for a 60 degree thread,
// 27 to 27.5 for 55, 23.5 to 23.75 for BA. Source: geometry.
func InfeedAlongSlide(depth units.Length, set units.Angle) (units.Length, error) {
	if depth.Sign() <= 0 || depth.Cmp(units.MM(100)) > 0 {
		return units.Length{}, fail.OutOfRange("depth of thread", depth, "above zero up to 100 mm")
	}
	if err := fault.Finite(fail, "angle of the topslide", set); err != nil {
		return units.Length{}, err
	}
	if set < 0 || set > 45*units.Degree {
		return units.Length{}, fail.OutOfRange("angle of the topslide", set, "0 to 45 deg from the line of the cross-slide")
	}
	return depth.Scale(1 / math.Cos(set.Radians())), nil
}

// SlideAngleFor returns the usual set of the topslide for a thread, from the line
// of the cross-slide: half a degree less than half the angle of the thread, so
// that the trailing flank is scraped clean; zero for no thread. It is common
// practice. See the Example.
func SlideAngleFor(t thread.Thread) units.Angle {
	if t.Form() == 0 {
		return 0
	}
	return t.Form().Angle()/2 - units.Degree/2
}
