package marking

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (c ClevisSize) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (c Correction) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (g Groove) String() string { return show.Fields(g) }

// String returns what there is, each field by its name.
func (h Heights) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (m Move) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (s NutSlotSize) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (p Packing) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (c PortCut) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (s Sheave) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s Sweep) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (c ThreeJaw) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (t Trued) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (t Turned) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (w Walls) String() string { return show.Fields(w) }
