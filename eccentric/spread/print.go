package spread

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/show"
)

// String returns the length, the angle or the ratio, and "0" where it is none.
func (d Deviation) String() string {
	switch {
	case d.Angle != 0:
		return d.Angle.String()
	case d.Ratio != 0:
		return fault.Signed(d.Ratio, 4)
	case d.Length.IsZero():
		return "0"
	}
	return d.Length.String()
}

// String returns what there is, each field by its name.
func (t Tolerance) String() string { return show.Fields(t) }

// String returns what there is, each field by its name.
func (w Worst) String() string { return show.Fields(w) }

// String returns what there is, each field by its name.
func (w WorstPlace) String() string { return show.Fields(w) }

// String returns the least and the greatest.
func (l Limits) String() string { return l.Min.String() + " to " + l.Max.String() }

// String returns what is off, by name and amount.
func (o Off) String() string { return o.Dimension.String() + " " + o.By.String() }

// String returns what there is, each field by its name.
func (r Random) String() string { return show.Fields(r) }

// String returns what there is, each field by its name.
func (s Sensitivities) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s Sensitivity) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (c Change) String() string { return show.Fields(c) }

// String returns what there is, each field by its name.
func (s Share) String() string { return show.Fields(s) }

// String returns what there is, each field by its name.
func (s EventShare) String() string { return show.Fields(s) }

// String returns the dimension and what it does.
func (h Hold) String() string { return h.Tolerance.Dimension.String() + ": " + h.Text }

// String returns what there is, each field by its name.
func (w Widened) String() string { return show.Fields(w) }

// String returns what there is, each field by its name.
func (w WorstEvent) String() string { return show.Fields(w) }

// String returns what there is, each field by its name.
func (s EventSpread) String() string { return show.Fields(s) }
