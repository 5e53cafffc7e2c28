package speeds

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (c Choice) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (d DeepHole) String() string { return show.Fields(d) }

// String returns what there is, each field by its name.
func (f Feed) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (l Limit) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (p Pecks) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p Plan) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p Preferred) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p Published) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (r Range) String() string { return show.Fields(r) }
