package screwcut

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (c CutDepth) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (g GroundTip) String() string { return show.Fields(g) }

// String returns what there is, each field by its name.
func (t Trains) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (t Translation) String() string { return show.Fields(t) }
