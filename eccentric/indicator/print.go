package indicator

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (c Cycle) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (e EndCycle) String() string { return show.Fields(e) }

// String returns the shares, each by the name of its end.
func (s Shares) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (e Expansion) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (a AirUse) String() string { return show.Fields(a) }

// String returns what there is, each field by its name.
func (s SteamUse) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (e ColdEngine) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (o Oiling) String() string { return show.Fields(o) }

// String returns what there is, each field by its name.
func (p Pipe) String() string { return show.Fields(p) }
