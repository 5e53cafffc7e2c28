package template

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (h Holes) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (t Template) String() string { return show.Fields(t) }
