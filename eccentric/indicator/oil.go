package indicator

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// An Oiling is how valve and piston get their oil.
type Oiling struct {
	// What a displacement lubricator gives, on steam; zero on air, or where its size is
	// not known.
	Min, Max           units.VolumeFlow
	MinDrops, MaxDrops float64 // the same in drops a minute
	Text               string  // what to do, in full sentences
	Refs               source.Refs
}

var lubricatorPage = source.Ref{
	Kind: source.Unreviewed, Title: "Displacement lubricators, guide of a supplier of small steam engines", Edition: "undated", Locator: "adjustment",
	Note: "one filling in 15 to 20 minutes of running",
}

const (
	drop         = 0.05 * units.CubicCentimetre // 20 drops to the millilitre: common practice
	shortFilling = 15 * 60                      // s
	longFilling  = 20 * 60
	mostPot      = 10 * units.Litre
)

// Oiling returns how the valve and the piston get their oil on what the engine runs
// on. A displacement lubricator of the given room for oil, zero where it is not known,
// is set so that steam empties it in 15 to 20 minutes:
//
//	Min = V / 20 min, Max = V / 15 min
//
//	V  room for oil, zero to 10 litres
//
// It is practice with no theory behind it, and the page that has it is unreviewed. On
// air no steam condenses, and such a lubricator gives nothing.
func (r Running) Oiling(pot units.Volume) (Oiling, error) {
	if r.Medium != Air && r.Medium != Steam {
		return Oiling{}, fail.Missing("medium", "air or steam")
	}
	if err := fault.Finite(fail, "room for oil", pot); err != nil {
		return Oiling{}, err
	}
	if pot < 0 || pot > mostPot {
		return Oiling{}, fail.OutOfRange("room for oil", pot, "zero to 10 litres; 1 to 10 ml is usual on small engines")
	}
	if r.Medium == Air {
		return Oiling{
			Text: "On air put a slug of light oil into the inlet before the start and again every few minutes: air carries none along," +
				" and a displacement lubricator gives nothing, because nothing condenses in it. Drain all of it before steam.",
			Refs: source.Of(source.Practice()),
		}, nil
	}
	least, most := float64(pot)/longFilling, float64(pot)/shortFilling
	perMinute := func(flow float64) float64 { return math.Round(600*flow/float64(drop)) / 10 }
	return Oiling{
		Min: units.VolumeFlow(least), Max: units.VolumeFlow(most), MinDrops: perMinute(least), MaxDrops: perMinute(most),
		Text: "On steam valve and piston want steam oil, which stays on hot wet iron, from a lubricator in the steam pipe;" +
			" one that works by displacement is set so that a filling lasts 15 to 20 minutes. Drain its water and fill it before each run;" +
			" too little oil scores the port face first.",
		Refs: source.Of(lubricatorPage, source.Practice()),
	}, nil
}
