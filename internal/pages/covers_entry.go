package pages

import (
	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
)

// circleThatDoes says where the studs of a round cover may stand, or how large
// the cover must be for them; nothing where their circle is not at fault.
func circleThatDoes(e *engine.Engine, key string, c engine.Cover) error {
	web := gasket.LeastWeb(orZero(c.Thickness))
	least, greatest, err := gasket.StudCircles(*c.Diameter, orZero(c.Opening), *c.Hole, web)
	if err != nil {
		return e.Errorf(key+".diameter", "%v", err)
	}
	if c.StudCircle.Cmp(least) >= 0 && c.StudCircle.Cmp(greatest) <= 0 {
		return nil
	}
	return e.Errorf(key+".stud_circle", "%v; accepted: %v to %v, which leave %v on both sides of the holes",
		*c.StudCircle, least, greatest, web)
}

func orZero(l *units.Length) units.Length {
	if l == nil {
		return units.Length{}
	}
	return *l
}

// coverOutline draws the gasket. Openings of the ports are those of the engine,
// side by side along the width, a margin larger all round so that the gasket
// cannot blind them.
func coverOutline(e *engine.Engine, key string, c engine.Cover) (gasket.Outline, error) {
	misshapen := func(err error) error { return e.Errors(key+".shape", err) }
	if c.Shape == "round" {
		first := 90 * units.Degree
		if c.FirstStud != nil {
			first = *c.FirstStud
		}
		studs, err := gasket.BoltCircle(*c.Studs, *c.StudCircle, first)
		if err != nil {
			return gasket.Outline{}, misshapen(err)
		}
		o, err := gasket.Round(c.Where, *c.Diameter, orZero(c.Opening), studs.Drilled(*c.Hole))
		return o, misshapen(err)
	}
	studs, err := gasket.Rectangle(*c.StudsAcross, *c.StudsAlong, *c.StudWidth, *c.StudHeight)
	if err != nil {
		return gasket.Outline{}, misshapen(err)
	}
	var openings []gasket.Rect
	switch {
	case c.OpeningWidth != nil:
		openings = []gasket.Rect{{Width: *c.OpeningWidth, Height: *c.OpeningHeight, Corner: orZero(c.OpeningCorner)}}
	case c.PortMargin != nil:
		gear, err := gearOf(e)
		if err != nil {
			return gasket.Outline{}, err
		}
		openings = portOpenings(gear.Ports, *c.PortMargin)
	}
	outside := gasket.Rect{Width: *c.Width, Height: *c.Height, Corner: orZero(c.Corner)}
	o, err := gasket.Rectangular(c.Where, outside, openings, studs.Drilled(*c.Hole))
	return o, misshapen(err)
}

func portOpenings(p eccentric.Ports, margin units.Length) []gasket.Rect {
	around := margin.Scale(2)
	off := p.Exhaust.Add(p.Steam).Scale(0.5).Add(p.Bar)
	height := p.Length.Add(around)
	return []gasket.Rect{
		{Centre: gasket.Point{X: off.Neg()}, Width: p.Steam.Add(around), Height: height},
		{Width: p.Exhaust.Add(around), Height: height},
		{Centre: gasket.Point{X: off}, Width: p.Steam.Add(around), Height: height},
	}
}
