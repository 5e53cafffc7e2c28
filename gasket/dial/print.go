package dial

import "github.com/valvechest/valvechest/internal/show"

// String returns what there is, each field by its name.
func (t TableSetting) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (s TurnSetting) String() string { return show.Fields(s) }
