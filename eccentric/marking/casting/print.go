package casting

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (c Circle) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (c Centring) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (t Tilting) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (l Lie) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (m JawMove) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (m MandrelTaper) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (r RunOut) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (w Weight) String() string { return show.Fields(w) }
