package assembly

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (a Adhesive) String() string { return show.Fields(a) }

// String returns what there is, each field by its name.
func (b BondResult) String() string { return show.Fields(b) }

// String returns what there is, each field by its name.
func (c ExpansionCurve) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (f Friction) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (g GrubScrewResult) String() string { return show.Fields(g) }

// String returns what there is, each field by its name.
func (h Hold) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (r PressResult) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (r RingGapResult) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (r RunningResult) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (s SetScrew) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (r ShrinkResult) String() string { return show.Fields(r) }
