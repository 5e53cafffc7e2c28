package diagnosis

import (
	"errors"
	"strconv"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("diagnosis")

// A Case is an engine that is looked into.
type Case struct {
	Gear       eccentric.Gear     // on the drawing
	Tolerances []spread.Tolerance // of its sizes; what has none: 0.1 mm and 3 degrees either way
	Readings   []Reading
}

// mostReadings is more than anybody takes.
const mostReadings = 200

// Validate reports what cannot be used as an [*units.ArgumentError], joined: of the
// gear, of the tolerances, and of each reading by its number. [Case.Diagnose] calls
// it.
func (c Case) Validate() error {
	if err := (spread.Study{Gear: c.Gear, Tolerances: c.Tolerances}).Validate(); err != nil {
		return err
	}
	var problems []error
	if n := len(c.Readings); n > mostReadings {
		return fail.OutOfRange("number of readings", n, "up to 200")
	}
	for i := range c.Readings {
		if err := c.Readings[i].validate(); err != nil {
			problems = append(problems, fault.Of("reading "+strconv.Itoa(i+1), err))
		}
	}
	return errors.Join(problems...)
}

// A Part is one part of the gear that may be wrong, and by how much beside the
// drawing. Either the angle or the length is for it, with its standard deviation;
// [AsDrawn] has neither.
type Part struct {
	Fault Fault         `json:"fault"`
	End   eccentric.End `json:"end"`

	// Of the sheave's advance, in the direction of rotation, from -180 to 180 degrees.
	Angle   units.Angle `json:"angle,omitzero"`
	AngleSD units.Angle `json:"angle_sd,omitzero"`

	// Of the valve's place towards the crank, its full travel, a lap, or the lost motion.
	Length   units.Length `json:"length,omitzero"`
	LengthSD units.Length `json:"length_sd,omitzero"`
}

// A Suspect is a fault, or a pair of them, with how well it explains the readings.
type Suspect struct {
	Part
	Also *Part `json:"also,omitempty"` // of a pair the other part; nil of a single fault

	Sure        bool    `json:"sure"`        // that this part is wrong, though not that nothing else is; of the verdict alone
	Probability float64 `json:"probability"` // of this and nothing else, among all suspects
	Odds        float64 `json:"odds"`        // to 1, up to a million; of the verdict that its part is wrong, which Sure goes by

	Gear eccentric.Gear `json:"-"` // as it then stands
}

// A Diagnosis is what the readings say.
type Diagnosis struct {
	Suspects []Suspect // the most probable first, which is the verdict

	Fits      bool    // whether the verdict explains the readings as well as they may be out
	ChiSquare float64 // of the verdict, with as many degrees of freedom as there are readings

	// MeasureAgain are the readings, counted from 0, without which the others agree,
	// the most suspicious first. There are some only where the verdict does not fit.
	MeasureAgain []int

	// CannotTell says, in a sentence each, what the verdict cannot be told from, why,
	// and which reading would part the two.
	CannotTell []string

	Next *Next // what to read next; nil where the verdict is sure, or all has been read
}

// Verdict returns the first of the suspects, of a diagnosis that was never made none.
func (d Diagnosis) Verdict() Suspect {
	if len(d.Suspects) == 0 {
		return Suspect{}
	}
	return d.Suspects[0]
}
