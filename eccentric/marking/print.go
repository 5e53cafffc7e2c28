package marking

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (p Packing) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (c ThreeJaw) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (c ClevisSize) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (s NutSlotSize) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (c PortCut) String() string { return show.Fields(c) }
