package seal

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (c Change) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (f Factor) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (g Groove) String() string { return show.Fields(g) }

// String returns what there is, each field by its name.
func (l Limit) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (p Packing) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p Pressed) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (r Ring) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (s Seat) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s Sheet) String() string { return show.Fields(s) }
