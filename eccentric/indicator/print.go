package indicator

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (a AirUse) String() string { return show.Fields(a) }

// String returns where the arc begins and ends.
func (a Arc) String() string { return show.Fields(a) }

// String returns what there is, each field by its name.
func (e ColdEngine) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (c Cycle) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (e EndCycle) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (f EndFlow) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (e Evenness) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (e Excess) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (e Expansion) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (f Flywheel) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (f Forces) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (h Hold) String() string { return show.Fields(h) }

// String returns what there is, each field by its name.
func (i Inertia) String() string { return show.Fields(i) }

// String returns what there is, each field by its name.
func (m Moment) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (o Oiling) String() string { return show.Fields(o) }

// String returns what there is, each field by its name.
func (p Pipe) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p Point) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p PortFlow) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p PortLimit) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (p Power) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (r Running) String() string { return show.Fields(r) }

// String returns the shares, each by the name of its end.
func (s Shares) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s Starting) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s SteamUse) String() string { return show.Fields(s) }

// String returns the tube as it is asked for: outside by wall.
func (t Tube) String() string { return t.Outside.String() + " x " + t.Wall.String() }

// String returns what there is, each field by its name.
func (t Turning) String() string { return show.Fields(t) }
