package keys

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (k Key) String() string { return show.Fields(k) }

// String returns what there is, each field by its name.
func (p TaperPin) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (d Dimple) String() string { return show.Fields(d) }
