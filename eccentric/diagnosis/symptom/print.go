package symptom

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (e Explained) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (e Explanation) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (t Test) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (c Case) String() string { return show.Fields(c) }
