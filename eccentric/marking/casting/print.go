package casting

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (c Circle) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (c Centring) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (t Tilting) String() string { return show.Fields(t) }
