package steam

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (s Saturated) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s State) String() string { return show.Fields(s) }
