package dividing

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (near Near) String() string { return show.Fields(near) }

// String returns what there is, each field by its name.
func (p Plates) String() string { return show.Fields(p) }
