package pages

import (
	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagram"
	"github.com/valvechest/valvechest/internal/book"
)

// curvesOf returns the pictures of what the valve does over a turn and over the stroke.
func curvesOf(g eccentric.Gear, o diagram.Options) ([]diagram.Picture, error) {
	var pictures []diagram.Picture
	for _, draw := range [...]func(eccentric.Gear, diagram.Options) (diagram.Picture, error){
		diagram.Displacement, diagram.Oval, diagram.Polar, diagram.PortOpenings,
	} {
		p, err := draw(g, o)
		if err != nil {
			return nil, err
		}
		pictures = append(pictures, p)
	}
	return pictures, nil
}

// figureOf is a picture of package diagram in a book.
func figureOf(p diagram.Picture) book.Figure {
	return book.Figure{Key: p.Name, Title: p.Title, Alt: p.Alt, Caption: p.Caption, Drawing: p.Drawing()}
}

// figuresOf is an item of pictures alone.
func figuresOf(pictures []diagram.Picture) book.Item {
	var item book.Item
	for _, p := range pictures {
		item.Figures = append(item.Figures, figureOf(p))
	}
	return item
}

// drawn returns what the tolerances do, as pictures.
func (t *tolerancing) drawn() (book.Item, error) {
	pictures, err := diagram.Bands(t.Study, diagramOptions(t.Engine))
	return figuresOf(pictures), t.complaint(err)
}
