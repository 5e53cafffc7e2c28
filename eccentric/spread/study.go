package spread

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("spread")

// A Study is a gear whose dimensions have tolerances.
type Study struct {
	Gear       eccentric.Gear // on the drawing
	Tolerances []Tolerance    // at most one of each dimension, in any order

	// What follows is for the random run alone.
	Runs       int                // engines drawn, up to a million; zero: 100,000
	Seed       uint64             // of the random numbers; any is as good as another
	EventsOnly bool               // leave out the findings
	Placed     bool               // the eccentric was given by where it stands: the findings are those of Gear.CheckPlaced
	Workers    int                // goroutines at most; zero: one for each core
	Progress   func(done, of int) // called after some engines, by one goroutine at a time; nil: not
}

const (
	usualRuns = 100_000
	mostRuns  = 1_000_000
)

// Validate reports every tolerance that cannot be used as an [*units.ArgumentError],
// joined, or what [eccentric.Gear.Validate] says of the gear: a dimension that is
// named twice or that the gear has not got, and tolerances that allow sizes from
// which there is no gear, such as a rod that does not go over its dead centres.
// All methods that return an error call it.
func (s Study) Validate() error {
	_, err := s.box()
	return err
}

// A varied is a dimension that is not exact, in the numbers of the kernel.
type varied struct {
	dimension    Dimension
	drawn        float64 // on the drawing
	lower, upper float64 // the least and the greatest size
	both         bool    // the same dimension of the crank end goes with it
}

// in returns where a gear has the dimension, and where its crank end has it if it
// goes with it.
func (v *varied) in(k *kernel.Gear) (at, also *float64) {
	at = v.dimension.in(k)
	switch {
	case v.both && v.dimension == PortSteam:
		also = &k.CrankSteamPort
	case v.both && v.dimension == PortBar:
		also = &k.CrankBar
	}
	return at, also
}

// set gives a gear that size.
func (v *varied) set(k *kernel.Gear, size float64) {
	at, also := v.in(k)
	*at = size
	if also != nil {
		*also = size
	}
}

// A box is all gears that the tolerances allow.
type box struct {
	drawn  kernel.Gear
	varied []varied // by dimension, whatever their order in the study
}

func (s *Study) box() (b box, err error) {
	if err := s.Gear.Validate(); err != nil {
		return b, err
	}
	var problems []error
	refuse := func(err error) { problems = append(problems, err) }
	b.drawn = s.Gear.Kernel()
	b.drawn.Placed = s.Placed
	named := map[Dimension]bool{}
	for _, t := range s.Tolerances {
		d := t.Dimension
		if err := t.validate(); err != nil {
			refuse(err)
			continue
		}
		switch {
		case named[d]:
			refuse(fail.Wrong("tolerance of "+d.String(), t.Upper, "it is given twice", "one of each dimension"))
		case d.absent(&s.Gear):
			refuse(fail.Argument("tolerance of "+d.String(), t.Upper, "the gear has no such size",
				"tolerances of sizes that are given", units.ErrMissing))
		}
		named[d] = true
		drawn := *d.in(&b.drawn)
		lower, upper := drawn+d.count(t.Lower), drawn+d.count(t.Upper)
		b.varied = append(b.varied, varied{dimension: d, drawn: drawn, lower: lower, upper: upper})
	}
	switch {
	case s.Runs < 0 || s.Runs > mostRuns:
		refuse(fail.OutOfRange("number of runs", s.Runs, "1 to 1,000,000, or zero for 100,000"))
	case s.Workers < 0:
		refuse(fail.OutOfRange("number of workers", s.Workers, "1 or more, or zero for one each core"))
	}
	if len(problems) > 0 {
		return b, errors.Join(problems...)
	}
	for i := range b.varied {
		switch v := &b.varied[i]; v.dimension {
		case PortSteam:
			v.both = s.Gear.Ports.CrankSteam.IsZero() && !named[CrankSteam]
		case PortBar:
			v.both = s.Gear.Ports.CrankBar.IsZero() && !named[CrankBar]
		}
	}
	slices.SortFunc(b.varied, func(x, y varied) int { return cmp.Compare(x.dimension, y.dimension) })
	return b, s.sound(&b)
}

// sound refuses a box that holds a gear that is not sound. Each thing that a sound
// gear keeps to is the more in danger the greater the stroke, the travel and the
// cavity are and the smaller the rest, or the other way round, and the further the
// cavity is off, so that these two corners of the box decide for all of it.
func (s *Study) sound(b *box) error {
	for _, great := range [...]bool{false, true} {
		g := s.Gear
		for _, v := range b.varied {
			size := v.corner(great)
			switch l := v.dimension; {
			case size*v.drawn <= 0 && (l == LeverRatio || l == ChestLength || l == CrankSteam || l == CrankBar): // zero is none
				return fail.Wrong("tolerance of "+l.String(), l.deviation(size-v.drawn), "it leaves nothing of the size",
					"tolerances below the size itself")
			case l.measure() == aLength && math.Abs(size) > kernel.Longest:
				return fail.Wrong("tolerance of "+l.String(), l.deviation(size-v.drawn), "the size would be beyond 1 km", "sizes up to 1 km")
			}
			v.dimension.put(&g, size)
		}
		if err := g.Validate(); err != nil {
			var bad *units.ArgumentError
			if !errors.As(err, &bad) {
				return err
			}
			return fail.Argument("tolerances", nil, "they allow a gear that cannot be ("+fault.Plain(bad)+")",
				"tolerances that leave every gear a sound one", bad.Err)
		}
	}
	return nil
}

// corner returns the size in one of the two corners of the box that decide.
func (v *varied) corner(great bool) float64 {
	switch v.dimension {
	case Stroke, Travel, ValveCavity:
		great = !great
	case LeverRatio:
		great = great == (v.drawn > 0) // by its amount
	case CavityOffset:
		great = math.Abs(v.upper) > math.Abs(v.lower) // takes the land that the cavity leaves, whichever way it is
	}
	if great {
		return v.upper
	}
	return v.lower
}
