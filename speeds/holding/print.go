package holding

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (r RimCheck) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (r RimLimit) String() string { return show.Fields(r) }
