package hole

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (c Chain) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (d Drilled) String() string { return show.Fields(d) }

// String returns what there is, each field by its name.
func (d Drills) String() string { return show.Fields(d) }

// String returns what there is, each field by its name.
func (p Point) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (h Reaming) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (s Spotting) String() string { return show.Fields(s) }
