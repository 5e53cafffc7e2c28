package eccentric

import "github.com/valvechest/valvechest/units"

// A Sweep is where the ends of the valve run on the port face, measured from the
// middle of the face.
type Sweep struct {
	Min, Max units.Length // how near an end of the valve comes, and how far both go
	Ports    units.Length // where the cylinder ports end
}

// Sweep returns where the ends of the valve run:
//
//	Min   = (length - travel) / 2 - |Offset|
//	Max   = (length + travel) / 2 - |Offset|
//	Ports = exhaust / 2 + bar + steam
//
// A relief groove, if there is one, starts beyond the ports and a land that seals,
// and short of Max: the valve then runs over its edge at both ends and wears no
// ridge. It is geometry. See the Example.
func (g Gear) Sweep() Sweep {
	k := g.Kernel()
	nearest, furthest := k.Sweep()
	return Sweep{Min: length(nearest), Max: length(furthest), Ports: length(k.PortsEnd())}
}
