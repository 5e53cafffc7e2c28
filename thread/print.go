package thread

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (h BlindHole) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (c ChartDrills) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (c Clearance) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (d DepthAdvice) String() string { return show.Fields(d) }

// String returns what there is, each field by its name.
func (d DieBlank) String() string { return show.Fields(d) }

// String returns what there is, each field by its name.
func (p DrillPlan) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (h FormingHole) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (h Hexagon) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (l Limits) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (n NutHeight) String() string { return show.Fields(n) }

// String returns what there is, each field by its name.
func (h PipeHole) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (t Taper) String() string { return show.Fields(t) }
