package screwcut

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
)

// A PickUp says where the half nuts may be closed so that the tool falls into
// the groove of the pass before.
type PickUp struct {
	Threads int          // of the leadscrew from one such place to the next
	Travel  units.Length // the same as travel of the saddle

	// Places is the number of them in one turn of the indicator dial. Zero:
	// the dial does not come round to them; keep the half nuts closed and
	// reverse the lathe.
	Places int
}

// String says where to close the half nuts, in words; of the zero PickUp, that of
// a near train, that they stay closed.
func (p PickUp) String() string {
	every := fmt.Sprintf("every %d threads of the leadscrew (%s)", p.Threads, p.Travel.Text(units.Millimetres, 3))
	switch {
	case p.Threads == 0:
		return "leave them closed; a near train never picks up. Withdraw the tool before you reverse the lathe to come back"
	case p.Threads == 1:
		return "close them anywhere"
	case p.Places > 0:
		return fmt.Sprintf("close them at %s, %d places in a turn of the dial", every, p.Places)
	}
	return "right " + every + "; without a dial that shows it, leave them closed, and withdraw the tool before you reverse the lathe to come back"
}

// PickUpOnDial returns where the half nuts may be closed to cut a lead, with an
// indicator whose wheel has so many teeth on the leadscrew (zero: no
// indicator).
//
//	lead / leadscrew = a / b in lowest terms; every a threads of the leadscrew
//
// The saddle has then moved b whole leads of the work while the leadscrew made
// a whole turns. Places = teeth / a where that is whole: 1 means always the
// same mark, as many as the wheel has teeth means anywhere. It is derived from
// that proportion. A lead of L millimetres on a leadscrew of n threads to the
// inch has a / b = 5 L n / 127, so that a is large and the dial of no use.
// Wheels that only come near the lead never pick it up. Leads with no common
// measure within a million threads are an error.
func PickUpOnDial(leadscrew, lead Lead, teeth int) (PickUp, error) {
	if leadscrew.turns == 0 || lead.turns == 0 {
		return PickUp{}, fail.Missing("lead", leadAccepted)
	}
	if teeth < 0 || teeth > mostTeeth {
		return PickUp{}, fail.OutOfRange("teeth of the indicator wheel", teeth, "1 to 400, or 0 for none")
	}
	threads, _, ok := lead.over(leadscrew)
	if !ok || threads > 1_000_000 {
		return PickUp{}, fail.Wrong("lead", lead,
			fmt.Sprintf("has no measure in common with a leadscrew of %v within a million threads", leadscrew), leadAccepted)
	}
	p := PickUp{Threads: int(threads), Travel: leadscrew.Length().Scale(float64(threads))}
	if teeth%p.Threads == 0 {
		p.Places = teeth / p.Threads
	}
	return p, nil
}
