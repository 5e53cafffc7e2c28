package pages

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// judge adds to a plan what is wrong with the cutter, so that no speed is set for one
// that breaks.
func judge(plan *speeds.Plan, c cutting.Cut) error {
	found, err := c.Check()
	plan.Findings = append(plan.Findings, found...)
	plan.Findings.Sort()
	return err
}

// slotOf is how a slot is milled: the depth of a pass, and the chain of holes that is
// drilled before.
func slotOf(c cutting.Cut, drawer gauge.Set) ([]book.Value, error) {
	pass, err := cutting.SlotPassFor(c.Diameter)
	if err != nil {
		return nil, err
	}
	deep := c.Deep
	if deep.IsZero() {
		deep = pass.Start
	}
	values := []book.Value{{Key: "pass", Label: "depth of a pass", What: book.LengthThou(deep, 2, 0), Refs: pass.Refs,
		Remark: fmt.Sprintf("%s to %s mm for this cutter", figures(pass.Start.MM(), 2), figures(pass.Most.MM(), 2))}}
	chain, err := chainOf(c, drawer)
	return append(values, chain...), err
}

// chainOf is the chain of holes along a slot of a known length and width, with the
// largest drill of the drawer that stays inside it; an empty drawer is the metric drills
// of BS 328, as before a reamer.
func chainOf(c cutting.Cut, drawer gauge.Set) ([]book.Value, error) {
	if c.Width.IsZero() || c.Length.Cmp(c.Width) <= 0 {
		return nil, nil
	}
	drill, err := hole.ChainDrill(c.Width)
	if err != nil {
		return nil, err
	}
	if drawer.Len() == 0 {
		drawer = gauge.Metric()
	}
	inside, err := drawer.Between(drill.Scale(0.5), drill)
	if err != nil || len(inside) == 0 {
		return nil, err
	}
	drill = inside[len(inside)-1].Diameter
	chain, err := hole.ChainFor(c.Length, c.Width, drill)
	if err != nil {
		return nil, err
	}
	var at []string
	for _, l := range chain.Centres {
		at = append(at, l.Decimal(units.Millimetres, 2))
	}
	return []book.Value{
		{Key: "chain_drill", Label: "chain drill first", What: book.Length(drill, 2), Refs: chain.Refs,
			Remark: fmt.Sprintf("at %s mm from one end; its tip no deeper than the slot", strings.Join(at, ", "))},
		{Key: "chain_pitch", What: book.Length(chain.Pitch, 3)},
	}, nil
}
