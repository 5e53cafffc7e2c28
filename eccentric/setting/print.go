package setting

import (
	"github.com/valvechest/valvechest/internal/show"
	"github.com/valvechest/valvechest/units"
)

// String returns what is done, in sentences.
func (c Correction) String() string { return c.Text }

// String returns what there is, each field by its name.
func (d DeadCentre) String() string { return show.Fields(d) }

// String returns what there is, each field by its name.
func (l Leads) String() string { return show.Fields(l) }

// String returns what there is, each field by its name.
func (m Milled) String() string { return show.Fields(m) }

// String returns what there is, each field by its name.
func (n Nut) String() string { return show.Fields(n) }

// String returns the turns of the nut, and where it cannot be set so, the nearest and
// what that leaves.
func (t NutTurn) String() string {
	text := turns(t.Turns) + " of the nut"
	switch {
	case t.Left.Abs().Cmp(units.Micron(1)) < 0: // nothing that could be read
		return turns(t.Set) + " of the nut"
	case t.Set == 0:
		return text + ", and no turn is the nearest that it can be set, which leaves all of it"
	}
	left := "short"
	if (t.Left.Sign() < 0) == (t.Turns > 0) {
		left = "too far"
	}
	return text + "; the nearest that it can be set is " + turns(t.Set) + ", which leaves it " + mmThou(t.Left.Abs()) + " " + left
}

// String returns what there is, each field by its name.
func (s Setting) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s Sheet) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s Slip) String() string { return show.Fields(s) }

// String returns what is done and read.
func (s Stage) String() string { return s.Title + ": " + s.Text }

// String returns what there is, each field by its name.
func (s Stop) String() string { return show.Fields(s) }
