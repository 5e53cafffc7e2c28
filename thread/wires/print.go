package wires

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (m Measurement) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (r Range) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (w Window) String() string { return show.Fields(w) }
