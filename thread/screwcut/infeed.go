package screwcut

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
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
// cross-slide reads 60.5. Set, for which there is [SlideAngleFor], is not more than half
// the angle of the thread, or the trailing flank comes out stepped: 29 to 30 degrees for
// a 60 degree thread, 27 to 27.5 for 55, 23.5 to 23.75 for BA; [CheckSlide] has it.
// Source: geometry.
func InfeedAlongSlide(depth units.Length, set units.Angle) (units.Length, error) {
	if depth.Sign() <= 0 || depth.Cmp(units.MM(100)) > 0 {
		return units.Length{}, fail.OutOfRange("depth of thread", depth, "above zero up to 100 mm")
	}
	if err := fault.Finite(fail, "angle of the topslide", set); err != nil {
		return units.Length{}, err
	}
	if set < 0 || set > 45*units.Degree {
		return units.Length{}, fail.OutOfRange("angle of the topslide", set, "0 to 45 deg from the line of the "+
			"cross-slide; where the slide is graduated from the lathe's axis, 90 deg less what it reads")
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

// SlideOverset is the finding of [CheckSlide]: the topslide is set over by more than
// half the angle of the thread.
const SlideOverset finding.Code = "slide-overset"

// CheckSlide says what a topslide does to a thread that is set over from the line of
// the cross-slide by more than half its angle: the tool leaves the trailing flank,
// which comes out in steps and leans with the slide.
//
//	wide = depth * (tan set - tan A)   of the groove, at the crests
//
//	A  half the angle of thread
//
// Errors are those of [InfeedAlongSlide]. Source: geometry.
func CheckSlide(t thread.Thread, depth units.Length, set units.Angle) (finding.List, error) {
	if err := t.Validate(); err != nil {
		return nil, err
	}
	if _, err := InfeedAlongSlide(depth, set); err != nil {
		return nil, err
	}
	half := t.Form().Angle() / 2
	if set <= half+1e-9*units.Degree { // 27.5 deg typed is a little more than half of 55
		return nil, nil
	}
	wide := depth.Scale(math.Tan(set.Radians()) - math.Tan(half.Radians()))
	return finding.List{{
		Code: SlideOverset, Severity: finding.Caution,
		Text: fmt.Sprintf("The topslide is set over by %.4g degrees, more than half the angle of the %v form, %.4g: the trailing flank comes out "+
			"in steps, and the groove %s (%s) too wide at the crests.", set.Degrees(), t.Form(), half.Degrees(),
			wide.Text(units.Millimetres, 3), wide.Text(units.Thousandths, 1)),
		Remedies: []string{fmt.Sprintf("Set it over by %.4g degrees.", SlideAngleFor(t).Degrees())},
		Refs:     source.Of(source.Practice()),
	}}, nil
}
