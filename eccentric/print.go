package eccentric

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (a Alteration) String() string { return show.Fields(a) }

// String returns what there is, each field by its name.
func (c Clearance) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (d Designed) String() string { return show.Fields(d) }

// String returns what there is, each field by its name.
func (e Events) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (g Gear) String() string { return show.Fields(g) }

// String returns what there is, each field by its name.
func (l Laps) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (m Made) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (o Openings) String() string { return show.Fields(o) }

// String returns what there is, each field by its name.
func (r Room) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (s Salvaged) String() string { return show.Fields(s) }

// String returns the sentence that says what is done.
func (s Step) String() string { return s.Text }

// String returns what there is, each field by its name.
func (s Sweep) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (v Valve) String() string { return show.Fields(v) }
