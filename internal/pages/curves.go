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
