package sheet

// The lines of pictures of parts and of curves: two widths of ISO 128, wide for
// edges that are seen and narrow for all else, so that a photocopy keeps them apart.
var (
	Edge      = Layer{Name: "EDGES", Width: 0.5, Colour: 7}                     // seen, or cut through
	Curve     = Layer{Name: "CURVES", Width: 0.5, Colour: 1}                    // of a diagram
	Other     = Layer{Name: "OTHER", Width: 0.35, Pattern: Dashed, Colour: 1}   // a second curve beside it
	Hidden    = Layer{Name: "HIDDEN", Width: 0.25, Pattern: Dashed, Colour: 8}  // edges behind others
	Centre    = Layer{Name: "CENTRES", Width: 0.18, Pattern: Chain, Colour: 3}  // lines of symmetry, paths, circles of holes
	Hatching  = Layer{Name: "HATCH", Width: 0.13, Colour: 8}                    // metal that is cut through
	Steam     = Layer{Name: "STEAM", Width: 0.5, Pattern: Dotted, Colour: 1}    // dots: live steam fills it
	Exhaust   = Layer{Name: "EXHAUST", Width: 0.18, Pattern: Dashed, Colour: 4} // strokes: exhaust fills it
	Measure   = Layer{Name: "DIMENSIONS", Width: 0.18, Colour: 5}               // dimension lines, leaders, scales
	Lettering = Layer{Name: "TEXT", Width: 0.18, Colour: 2}                     // and what is written
)
