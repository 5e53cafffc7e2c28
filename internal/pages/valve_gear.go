package pages

import (
	"errors"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
)

// gearOf returns the valve gear of an engine file, and complains of all that it
// lacks and of all sizes that no gear can have.
func gearOf(e *engine.Engine) (eccentric.Gear, error) {
	incomplete := e.ValidateGear()
	gear, ok := e.Gear()
	if !ok {
		return eccentric.Gear{}, incomplete
	}
	drawn, _ := e.Drawn()
	if err := errors.Join(incomplete, gearError(e, drawn.Validate())); err != nil {
		return eccentric.Gear{}, err
	}
	if _, err := drawn.Altered(e.Alteration()); err != nil {
		return eccentric.Gear{}, alterationError(e, err)
	}
	var err error
	switch {
	case e.Eccentric.Lead != nil:
		gear, err = gear.WithLead(*e.Eccentric.Lead, eccentric.BothEnds)
	case e.Eccentric.Stands != nil:
		gear, err = gear.WithEccentricAt(*e.Eccentric.Stands)
	}
	return gear, gearError(e, err)
}

// gearKeys are the keys of what package eccentric names in its errors. Those of
// the length of the ports and of the chest are told when the file is validated.
var gearKeys = map[string]string{
	"stroke": "cylinder.stroke", "connecting rod": "motion.connecting_rod", "eccentric rod": "motion.eccentric_rod",
	"lever ratio": "motion.lever_ratio", "steam port width": "ports.steam", "bar width": "ports.bar",
	"exhaust port width": "ports.exhaust", "port length": "", "valve length": "valve.length",
	"valve cavity": "valve.cavity", "valve travel": "eccentric.travel", "angle of advance": "eccentric.advance",
	"lead": "eccentric.lead", "chest length": "", "place of the eccentric": "eccentric.stands",
	"steam port width of the crank end": "", "bar width of the crank end": "",
	"cavity offset": "valve.cavity_offset", "lost motion": "valve.lost_motion",
}

// alterationError gives what an alteration leaves of no gear the place of a key of
// it.
func alterationError(e *engine.Engine, err error) error {
	for _, key := range []string{"motion.shims", "motion.connecting_rod_longer", "motion.eccentric_rod_longer"} {
		if e.Has(key) {
			return e.Errors(key, err)
		}
	}
	return err
}

// gearError gives an error of package eccentric the place of the key that it is
// about.
func gearError(e *engine.Engine, err error) error { return placed(e, err, gearKeys) }

// placed gives an error of package eccentric, and each of those joined in one,
// the place of the key that it is about.
func placed(e *engine.Engine, err error, keys map[string]string) error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, inner := range joined.Unwrap() {
			all = append(all, placed(e, inner, keys))
		}
		return errors.Join(all...)
	}
	var bad *units.ArgumentError
	if !errors.As(err, &bad) {
		return err
	}
	switch key, known := keys[bad.Field]; {
	case !known:
		return e.Errorf("cylinder", "%v", bad)
	case key != "":
		return e.Errorf(key, "%v", bad)
	}
	return nil
}
