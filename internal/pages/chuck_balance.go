package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
)

// outOfBalance is the force that goes round with work of a known mass, and the weight that
// balances it.
func outOfBalance(ask ChuckQuestion, offset units.Length, limit units.RotationalSpeed) ([]book.Value, error) {
	if ask.Mass == nil {
		return nil, nil
	}
	work := holding.Work{Mass: *ask.Mass, Offset: offset}
	n, at := limit, "at that speed"
	if ask.Speed != nil {
		n, at = *ask.Speed, fmt.Sprintf("at %.0f rev/min", ask.Speed.In(units.RevPerMinute))
	}
	force, err := work.Force(n)
	if err != nil {
		return nil, flagged(err, map[string]string{"mass": "-mass", "speed": "-n"})
	}
	values := []book.Value{{Key: "force", Label: "force that goes round with it", What: book.Number(float64(force), 1, "N", "n"), Remark: at}}
	if ask.WeightAt == nil {
		return values, nil
	}
	weight, err := work.Counterweight(*ask.WeightAt)
	if err != nil {
		return nil, flagged(err, map[string]string{"radius of the counterweight": "-weight-at"})
	}
	return append(values, book.Value{Key: "counterweight", Label: "weight that balances it", What: book.Number(weight.In(units.Gram), 1, "g", "g"),
		Remark: "on the other side, its middle at " + ask.WeightAt.String()}), nil
}
