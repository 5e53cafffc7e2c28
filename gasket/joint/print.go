package joint

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (g Grip) String() string { return show.Fields(g) }

// String returns what there is, each field by its name.
func (l Loads) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (p Pressing) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (s Spacing) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (r SpacingRule) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (l StudLoad) String() string { return show.Fields(l) }
