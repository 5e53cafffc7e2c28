package eccentric

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Sweep is where the ends of the valve run on the port face, measured from the
// middle of the face.
type Sweep struct {
	Min, Max  units.Length // how near an end of the valve comes, and how far both go
	Ports     units.Length // where the head end's port ends
	CrankPort units.Length // where the crank end's port ends
	Chest     units.Length // how long a chest that is centred on the middle port must be inside, with nothing to spare
}

// Sweep returns where the ends of the valve run:
//
//	Min   = (length - travel) / 2 - |Offset|
//	Max   = (length + travel) / 2 - |Offset|
//	Ports = exhaust / 2 + bar + steam
//	Chest = length + travel + 2*|Offset|
//
// with the travel less LostMotion, and bar and steam those of the end.
// A relief groove, if there is one, starts beyond the ports and a land that seals,
// and short of Max: the valve then runs over its edge at both ends and wears no
// ridge. It is geometry. See the Example.
func (g Gear) Sweep() Sweep {
	k := g.Kernel()
	nearest, furthest := k.Sweep()
	return Sweep{Min: length(nearest), Max: length(furthest), Ports: length(k.PortsEnd(kernel.Head)),
		CrankPort: length(k.PortsEnd(kernel.Crank)), Chest: length(k.Swept())}
}
