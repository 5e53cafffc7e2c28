package fits

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (a AsCut) String() string { return show.Fields(a) }

// String returns what there is, each field by its name.
func (b Band) String() string { return show.Fields(b) }

// String returns what there is, each field by its name.
func (c Choice) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (r FitLimits) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (g Gauges) String() string { return show.Fields(g) }

// String returns what there is, each field by its name.
func (i InchChoice) String() string { return show.Fields(i) }

// String returns what there is, each field by its name.
func (r InchLimits) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (l Limits) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (m Measurable) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (p PreferredFit) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (r ReamerChoice) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (r Rule) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (s StackResult) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (t Tolerance) String() string { return show.Fields(t) }
