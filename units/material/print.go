package material

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (f Figure[Q]) String() string { return show.Fields(f) }
