package cutting

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (f Finish) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (f Force) String() string { return show.Fields(f) }

// String returns what there is, each field by its name.
func (k Kienzle) String() string { return show.Fields(k) }

// String returns what there is, each field by its name.
func (l Load) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (m MotorCheck) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (p Path) String() string { return show.Fields(p) }

// String returns what there is, each field by its name.
func (s SlotPass) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (u UnitPower) String() string { return show.Fields(u) }
