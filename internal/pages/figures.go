package pages

import (
	"slices"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagram"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
)

// A placedDrawing is one of the gear with the section of the book that it shows.
type placedDrawing struct {
	section string // its key
	first   bool   // before its items, and not behind them
	draw    func(eccentric.Gear, diagram.Options) ([]diagram.Picture, error)
}

// gearDrawings are the pictures of the gear, in the order in which they stand.
var gearDrawings = []placedDrawing{
	{"dimensions", true, single(diagram.Valve)},
	{"events", false, diagram.Positions}, {"events", false, curvesOf},
	{"eccentric", false, diagram.Drive},
}

// single is a drawing of one picture.
func single(
	draw func(eccentric.Gear, diagram.Options) (diagram.Picture, error),
) func(eccentric.Gear, diagram.Options) ([]diagram.Picture, error) {
	return func(g eccentric.Gear, o diagram.Options) ([]diagram.Picture, error) {
		p, err := draw(g, o)
		if err != nil {
			return nil, err
		}
		return []diagram.Picture{p}, nil
	}
}

// diagramOptions are those of the pictures of an engine.
func diagramOptions(e *engine.Engine) diagram.Options {
	o := diagram.Options{Inch: e.Inches(), SeenFrom: e.Setting.SeenFrom}
	if e.Setting.Rotation != nil {
		o.Rotation = *e.Setting.Rotation
	}
	return o
}

// placeDrawings puts the pictures of the gear into the sections that they show, where
// the book has those, in items of their own.
func placeDrawings(e *engine.Engine, g eccentric.Gear, sections []book.Section) error {
	o := diagramOptions(e)
	for _, d := range gearDrawings {
		at := slices.IndexFunc(sections, func(s book.Section) bool { return s.Key == d.section && !s.List })
		if at < 0 {
			continue
		}
		pictures, err := d.draw(g, o)
		if err != nil {
			return err
		}
		item := figuresOf(pictures)
		if s := &sections[at]; d.first {
			s.Items = slices.Insert(s.Items, 0, item)
		} else {
			s.Items = append(s.Items, item)
		}
	}
	return nil
}
