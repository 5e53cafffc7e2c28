package strength

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (b Bolt) String() string { return show.Fields(b) }

// String returns what there is, each field by its name.
func (c CutStud) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (e Engagement) String() string { return show.Fields(e) }

// String returns what there is, each field by its name.
func (f FullThread) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (k NutFactor) String() string { return show.Fields(k) }

// String returns what there is, each field by its name.
func (s StressArea) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s StudLength) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (t TappingTorque) String() string { return show.Fields(t) }
