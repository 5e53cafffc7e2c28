package dividing

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Position is where a rotary table stands for one of n divisions.
type Position struct {
	Angle   units.Angle // from the first
	Turns   int         // whole turns of the handwheel from the first
	Rest    units.Angle // and so much on its dial
	Degrees int         // Angle in degrees, minutes and seconds, to the nearest second
	Minutes int
	Seconds int
}

// String returns the angle in degrees, minutes and seconds with the handwheel
// beside it.
func (p Position) String() string {
	turns := "turns"
	if p.Turns == 1 {
		turns = "turn"
	}
	return fmt.Sprintf("%d°%02d'%02d\", handwheel %d %s and %s deg", p.Degrees, p.Minutes, p.Seconds, p.Turns, turns,
		fault.Decimal(p.Rest.Degrees(), 4))
}

// TablePositions returns the settings of a rotary table, without plates, for n
// divisions from zero; the handwheel makes ratio turns for one of the table
// (90: 4 degrees a turn). Every position is worked out from the first, so that
// rounding does not gather. Turn always the same way to each of them; when it
// was overrun, go back half a turn and come up again, which takes up the
// backlash. n from 1 to 10,000, ratio from 1 to 360. See the Example.
func TablePositions(ratio, n int) ([]Position, error) {
	if ratio < 1 || ratio > 360 {
		return nil, fail.OutOfRange("ratio", ratio, "1 to 360")
	}
	if n < 1 || n > 10_000 {
		return nil, fail.OutOfRange("divisions", n, "1 to 10,000")
	}
	all := make([]Position, n)
	for i := range all {
		turns := i * ratio / n // turns = i ratio/n, in whole numbers: exact
		seconds := int(math.Round(float64(i) * 360 * 3600 / float64(n)))
		all[i] = Position{
			Angle:   units.Angle(float64(i)/float64(n)) * 360 * units.Degree,
			Turns:   turns,
			Rest:    units.Angle(float64(i*ratio%n)/float64(n)) * 360 * units.Degree / units.Angle(ratio),
			Degrees: seconds / 3600, Minutes: seconds / 60 % 60, Seconds: seconds % 60,
		}
	}
	return all, nil
}
