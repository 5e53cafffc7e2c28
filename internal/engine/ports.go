package engine

import "github.com/valvechest/valvechest/speeds"

// PortMilling returns the operation that mills the part "steam ports", all three of
// them with one cutter; false where there is none.
func (e *Engine) PortMilling() (operation int, found bool) {
	for i, o := range e.File.Operations {
		if o.Operation == nil || o.Diameter == nil || *o.Operation != speeds.SlotMilling {
			continue
		}
		if part := placeName(o.Part); part == "steam port" || part == "port" {
			return i, true
		}
	}
	return 0, false
}
