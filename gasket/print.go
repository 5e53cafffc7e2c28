package gasket

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (e Edge) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (m Matching) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (m Measures) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (o Outline) String() string { return show.Fields(o) }

// String returns what there is, each field by its name.
func (p Pair) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p Point) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (s Span) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s Stepping) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (v Vertex) String() string { return show.Fields(v) }

// String returns what there is, each field by its name.
func (w Web) String() string { return show.Fields(w) }

// String returns what there is, each field by its name.
func (z Zones) String() string { return show.Fields(z) }
