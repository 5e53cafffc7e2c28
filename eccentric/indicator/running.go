package indicator

import (
	"errors"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("indicator")

// A Running is an engine at work: its gear and cylinder, what it runs on, and how
// fast. Methods ask for no more than they need: those that ask for a size that may
// be left out say so.
type Running struct {
	Gear      eccentric.Gear
	Bore      units.Length
	PistonRod units.Length // its diameter, at the crank end; zero: no area is taken off for one

	Medium     Medium
	Chest      units.Pressure // in the steam chest, above the atmosphere
	Back       units.Pressure // that the exhaust leaves in the cylinder, above the atmosphere; zero: that of the open air
	Atmosphere units.Pressure // absolute; zero: 1.01325 bar
	Index      float64        // k, by which a pressure falls and rises while the ports are shut: p*V^k stays
	Clearance  Shares         // room at the dead centre, passage and all, as shares of that end's swept volume

	Speed units.RotationalSpeed // may be left out

	// Moving is what goes to and fro: the piston, its rod, the crosshead and about
	// a third of the connecting rod. It may be left out.
	Moving units.Mass

	// Cranks are how far those of further cylinders of the same sizes are ahead of
	// the first one's, in the direction of rotation: 90 degrees for the usual twin.
	// None: one cylinder.
	Cranks []units.Angle
}

// Shares are a share for each end of the cylinder.
type Shares struct{ Head, Crank float64 }

// Both returns the same share for both ends.
func Both(share float64) Shares { return Shares{share, share} }

// standardAtmosphere is the one of ISO 2533: 1.01325 bar.
const standardAtmosphere = 1.01325 * units.Bar

// What is accepted, and what is usual of that which must be stated. The usual
// clearances and the exhaust's pressure are those of Machinery's Reference Series
// No. 70, Steam Engines (1911), table I and chapter II.
const (
	mostPressure  = 40 * units.Bar
	leastAbsolute = 0.01 * units.Bar
	leastAir      = 0.4 * units.Bar // 7 km up
	mostAir       = 1.1 * units.Bar
	leastShare    = 0.001
	mostShare     = 1
	leastIndex    = 1
	mostIndex     = 1.4
	leastSpeed    = 0.001 * units.RevPerMinute
	mostSpeed     = 100_000 * units.RevPerMinute
	leastMoving   = 1e-6 * units.Kilogram
	mostMoving    = 1e6 * units.Kilogram
	mostCylinders = 12

	usualClearance = "above 0.001 to 1 of the swept volume; 0.03 to 0.10 is usual, and up to 0.15 on small engines"
	usualIndex     = "from 1 to 1.4: 1 as the old books have it, 1.135 for dry saturated steam, 1.3 for superheated, 1.4 for air without heat"
	usualChest     = "up to 40 bar absolute; 0.5 to 2 bar turns most small engines on air, 2 to 6 bar is usual on steam"
)

// Validate reports everything that no engine can have or that was left out and has
// no default, as [*units.ArgumentError] joined. All methods that return an error call
// it.
func (r Running) Validate() error {
	problems := []error{r.Gear.Validate()}
	refuse := func(err error) { problems = append(problems, err) }
	if r.Bore.IsZero() {
		refuse(fail.Missing("bore", "a length above zero"))
	} else {
		refuse(fail.Above(fault.Named("bore", r.Bore)))
	}
	switch {
	case r.PistonRod.Sign() < 0:
		refuse(fail.OutOfRange("piston rod", r.PistonRod, "a diameter above zero, or none"))
	case r.Bore.Sign() > 0 && r.PistonRod.Cmp(r.Bore) >= 0:
		refuse(fail.OutOfRange("piston rod", r.PistonRod, "thinner than the bore, "+r.Bore.String()))
	}
	if r.Medium == 0 {
		refuse(fail.Missing("medium", "air or steam"))
	} else if !mediumNames.Known(int(r.Medium)) {
		refuse(mediumNames.Unknown(int(r.Medium)))
	}
	refuse(r.validatePressures())
	switch k := r.Index; {
	case k == 0:
		refuse(fail.Missing("index of expansion", usualIndex))
	case !(k >= leastIndex && k <= mostIndex):
		refuse(fail.OutOfRange("index of expansion", k, usualIndex))
	}
	for _, end := range []struct {
		field string
		share float64
	}{{"clearance of the head end", r.Clearance.Head}, {"clearance of the crank end", r.Clearance.Crank}} {
		switch {
		case end.share == 0:
			refuse(fail.Missing(end.field, usualClearance))
		case !(end.share >= leastShare && end.share <= mostShare):
			refuse(fail.OutOfRange(end.field, end.share, usualClearance))
		}
	}
	if r.Speed != 0 && !(r.Speed >= leastSpeed && r.Speed <= mostSpeed) {
		refuse(fail.OutOfRange("speed", r.Speed, "from 0.001 to 100,000 rev/min, or none"))
	}
	if r.Moving != 0 && !(r.Moving >= leastMoving && r.Moving <= mostMoving) {
		refuse(fail.OutOfRange("mass of the moving parts", r.Moving, "from 1 mg to 1000 t, or none"))
	}
	if len(r.Cranks) >= mostCylinders {
		refuse(fail.OutOfRange("cylinders", len(r.Cranks)+1, "up to 12"))
	}
	for _, by := range r.Cranks {
		if !(math.Abs(float64(by)) <= 2*math.Pi) {
			refuse(fail.OutOfRange("angle between cranks", by, "from -360 to 360 degrees"))
		}
	}
	return errors.Join(problems...)
}

func (r *Running) validatePressures() error {
	air := r.air()
	if !(air >= leastAir && air <= mostAir) {
		return fail.OutOfRange("pressure of the atmosphere", air, "from 0.4 to 1.1 bar absolute, or none for 1.01325 bar")
	}
	chest, back := r.Chest+air, r.Back+air
	switch {
	case r.Chest == 0:
		return fail.Missing("pressure in the chest", usualChest)
	case !(chest >= leastAbsolute && chest <= mostPressure):
		return fail.OutOfRange("pressure in the chest", r.Chest, usualChest)
	case !(back >= leastAbsolute): // how high it may be the chest says
		return fail.OutOfRange("back pressure", r.Back, "from a vacuum, below zero, up to the pressure in the chest; 0 to 0.2 bar is usual into the open air")
	case !(chest > back):
		return fail.OutOfRange("back pressure", r.Back, "below the pressure in the chest, "+r.Chest.String())
	}
	return nil
}

// air returns the pressure of the atmosphere.
func (r *Running) air() units.Pressure {
	if r.Atmosphere == 0 {
		return standardAtmosphere
	}
	return r.Atmosphere
}

// Absolute returns a pressure above the atmosphere as one above nothing, and
// [Running.Gauge] the other way round.
func (r Running) Absolute(gauge units.Pressure) units.Pressure { return gauge + r.air() }

// Gauge returns an absolute pressure as a gauge shows it, above the atmosphere.
func (r Running) Gauge(absolute units.Pressure) units.Pressure { return absolute - r.air() }

// Cylinders returns how many there are.
func (r Running) Cylinders() int { return 1 + len(r.Cranks) }

// spinning is Validate for a question that asks for the speed.
func (r *Running) spinning() error {
	err := r.Validate()
	if err == nil && r.Speed == 0 {
		err = fail.Missing("speed", "above zero; 200 to 600 rev/min is usual on small engines")
	}
	return err
}
