package diagnosis

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (r Reading) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (p Part) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (s Suspect) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (d Diagnosis) String() string { return show.Fields(d) }

// String returns what there is, each field by its name.
func (t Trial) String() string { return show.Fields(t) }
