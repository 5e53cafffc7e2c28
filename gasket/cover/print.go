package cover

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (h HeadRule) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (h HeadStress) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (h Hoop) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (l Lame) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (p Plate) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p TestPractice) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (t ThinLimit) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (t Thinned) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (w Walls) String() string { return show.Fields(w) }
