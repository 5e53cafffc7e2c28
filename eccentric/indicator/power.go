package indicator

import (
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Power is what all cylinders together give.
type Power struct {
	Indicated units.Power // of the ideal cycle
	Min, Max  units.Power // at the shaft, as books have it

	MinShare, MaxShare float64 // of the ideal cycle that they are

	Refs source.Refs
}

// What is left of the ideal diagram in the cylinder, and of that at the shaft.
const (
	leastDiagram, mostDiagram       = 0.75, 0.90
	leastEfficiency, mostEfficiency = 0.80, 0.90
)

var (
	series70 = source.Ref{
		Kind: source.Published, Title: "Machinery's Reference Series, no. 70, Steam Engines", Edition: "1911",
		Locator: "chapters I and II",
		Note:    "0.75 to 0.90 of the theoretical diagram, 0.80 to 0.90 of the indicated power, of engines of industry",
	}
	modelsLess = source.Ref{
		Kind: source.CommonPractice, Note: "engines of a few watts have less at the shaft, some of them hardly what turns them",
	}
)

// Power returns the power at Speed, which must be there:
//
//	indicated = work of all cylinders a turn * revolutions
//	shaft     = indicated * 0.60 to 0.81
//
// The ideal cycle gives the first. Of it 0.75 to 0.90 is left by ports, leaks and cold
// walls, and of that 0.80 to 0.90 by friction: Machinery's Reference Series No. 70,
// Steam Engines, chapters I and II, for engines of industry. Small ones give less, and
// we have no figure for them. An engine that does no work gives nothing at the shaft.
// See the Example.
func (r Running) Power() (Power, error) {
	if err := r.spinning(); err != nil {
		return Power{}, err
	}
	c := r.model().cycle()
	indicated := float64(c.Work) * float64(r.Cylinders()) * turns(r.Speed)
	p := Power{
		Indicated: units.Power(indicated), Refs: source.Shared(&series70, &modelsLess),
		MinShare: leastDiagram * leastEfficiency, MaxShare: mostDiagram * mostEfficiency,
	}
	if indicated > 0 {
		p.Min, p.Max = units.Power(indicated*p.MinShare), units.Power(indicated*p.MaxShare)
	}
	return p, nil
}
