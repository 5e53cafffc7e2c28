package eccentric

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// passage returns how much of the middle port the valve leaves open when it has
// gone furthest towards opening one end to steam; not above zero where it shuts
// the port.
func (g Gear) passage(end End) units.Length {
	k := g.Kernel()
	return length(k.Passage(kernel.End(end)))
}

// seal returns how much of a bar the valve's outer edge still covers at the same
// moment; below zero it has run past the bar.
func (g Gear) seal(end End) units.Length {
	k := g.Kernel()
	return length(k.Seal(kernel.End(end)))
}

func (c *checker) middleThrottled(f *Finding) {
	full := End(c.k.Fed(kernel.End(f.End))) // the valve has gone furthest towards opening this end
	name, does := "exhaust port", "takes the exhaust of"
	if c.gear.InsideAdmission {
		name, does = "middle port", "feeds"
	}
	if passage := c.gear.passage(full); passage.Sign() <= 0 {
		f.Refs = source.Refs{} // a port that is shut needs no practice to say so
		f.tell("At full travel the valve shuts the %s altogether, %s past its edge, while it %s the %s end.",
			name, both(passage.Neg()), does, f.End)
	} else {
		f.tell("At full travel the valve leaves %s of the %s open while it %s the %s end, less than the cylinder port's %s.",
			both(passage), name, does, f.End, mm(c.gear.port(f.End)))
	}
	f.Remedies = c.clearMiddle(full, name)
}

func (c *checker) steamPastValve(f *Finding) {
	full := End(c.k.Land(kernel.End(f.End)))
	switch seal := c.gear.seal(full); {
	case f.Severity == finding.Fails:
		f.tell("At full travel the valve's outer edge at the %s end runs %s past the bar, and live steam goes straight to"+
			" exhaust behind it.",
			f.End, both(seal.Neg()))
	case seal.IsZero():
		f.tell("At full travel nothing of the bar at the %s end stays covered between live steam and exhaust; it will leak.",
			f.End)
	default:
		f.tell("At full travel only %s of the bar at the %s end stays covered between live steam and exhaust; it will leak.",
			both(seal), f.End)
	}
	f.Remedies = c.coverBar(full)
}

func (c *checker) foulsChest(f *Finding) {
	g := c.gear
	need := g.Sweep().Chest
	if f.Severity == finding.Fails {
		f.tell("The valve strikes the end of the chest %s before full travel: the chest is %s long and the valve sweeps %s."+
			" The engine jams or bends its valve rod.", both(f.Amount), mm(g.Chest), mm(need))
	} else {
		f.tell("At full travel the valve clears the end of the chest by %s; a nut, a gasket or a rod a little out takes"+
			" that up.",
			both(f.Amount))
	}
	f.remedy(c.then(longerChest(g), fmt.Sprintf("Make the chest %s long inside, for half a millimetre at each end.",
		size(need.Add(length(2*kernel.ChestMargin)), units.Up))))
}
