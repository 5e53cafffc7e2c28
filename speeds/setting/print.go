package setting

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (f Flats) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (t Taper) String() string { return show.Fields(t) }
