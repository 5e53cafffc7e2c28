package sheet

// A View shows part of one drawing on another, at the same scale, and nothing
// beyond its box.
type View struct {
	Of   *Drawing
	Box  Box   // where on this drawing
	From Point // the place of Of that is shown at the lower left corner of the box
}

// View shows part of another drawing. DXF refuses a drawing with a view: a file
// to be cut from holds the whole drawing.
func (d *Drawing) View(v View) {
	if v.Of == nil || v.Of == d || v.Of.clipped {
		d.refuse(fail.Missing("view", "another drawing, without views"))
		return
	}
	if v.Of.err != nil {
		d.refuse(v.Of.err)
		return
	}
	if !(v.Box.Max.X > v.Box.Min.X && v.Box.Max.Y > v.Box.Min.Y) {
		d.refuse(fail.OutOfRange("box of a view", nil, "a box with some width and height"))
		return
	}
	d.clipped = true
	d.add(nil, 2, v, v.Box.Min, v.Box.Max)
}

// whole reports whether all of the other drawing is inside the box, its lines with
// their width and texts with some room for another font.
func (v View) whole() bool {
	const round = 0.5 // mm
	window := v.window()
	low, high := v.Of.low.At(-round, -round), v.Of.high.At(round, round)
	return low.X >= window.Min.X && low.Y >= window.Min.Y && high.X <= window.Max.X && high.Y <= window.Max.Y
}

// window is the box in the axes of the other drawing.
func (v View) window() Box { return Box{v.From, v.From.add(v.Box.Max.sub(v.Box.Min))} }

// shown yields the shapes of the other drawing that can be seen in the view.
func (v View) shown(layer int) func(yield func(shape) bool) {
	window := v.window()
	return func(yield func(shape) bool) {
		for _, s := range v.Of.shapes {
			if s.layer == layer && window.overlaps(s.low.At(-5, -5), s.high.At(5, 5)) && !yield(s) {
				return
			}
		}
	}
}
