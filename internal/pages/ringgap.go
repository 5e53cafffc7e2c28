package pages

import (
	"cmp"
	"fmt"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A RingGapQuestion asks what gap a piston ring needs so that its ends never meet.
type RingGapQuestion struct {
	Bore           units.Length
	Gap            *units.Length      // that is filed; nil: the question
	Ring, Cylinder *material.Material // nil: cast iron
	Room           *units.Temperature // nil: 20 degrees C
	RingAt         units.Temperature
	CylinderAt     *units.Temperature // nil: that of the ring
}

// RingGap answers the question.
func RingGap(ask RingGapQuestion) (book.Book, error) {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		return book.Book{}, err
	}
	room := units.Celsius(20)
	g := assembly.RingGap{
		Bore: ask.Bore, Ring: *cmp.Or(ask.Ring, &iron), Cylinder: *cmp.Or(ask.Cylinder, &iron),
		Room: *cmp.Or(ask.Room, &room), RingHot: ask.RingAt, CylinderHot: *cmp.Or(ask.CylinderAt, &ask.RingAt),
	}
	if ask.Gap != nil {
		if g.Cold = *ask.Gap; g.Cold.Sign() <= 0 {
			return book.Book{}, cli.Named("-gap", fmt.Errorf("%v: out of range; accepted: above zero", g.Cold))
		}
	}
	r, err := g.Solve()
	if err != nil {
		return book.Book{}, flagged(err, ringGapFlags)
	}
	butts := book.Value{Key: "butts", Label: "the ends meet", What: book.Answer(!r.Findings.OK())}
	gap := book.Value{Key: "gap", Label: "gap, cold", What: book.LengthThou(g.Cold, 3, 1)}
	hot := book.Value{Key: "gap_hot", Label: "gap at work", What: book.LengthThou(r.Hot, 3, 1)}
	if ask.Gap == nil {
		butts.Label, gap.Label, hot.Label = "", "", ""
		for _, v := range []*book.Value{&butts, &gap, &hot} {
			v.What = book.Never(v.What, "no gap given")
		}
	}
	least := book.Value{
		Key: "least_gap", Label: "least gap, cold", What: book.LengthThou(r.Least, 3, 1),
		Remark: "ring hot, cylinder still cold", Refs: source.Of(g.Ring.Expansion.Refs.First()),
	}
	closes := book.Value{Key: "closes", Label: "closes at work by", What: book.LengthThou(r.Closes, 3, 1), Refs: r.Refs}
	if r.Closes.Sign() < 0 {
		closes.Label, closes.What = "opens at work by", closes.What.Shown(r.Closes.Neg().Text(units.Millimetres, 3)).
			And(book.Word(r.Closes.Neg().Text(units.Thousandths, 1)))
	}
	rules, err := ringGapRules(ask.Bore, r.Least)
	if err != nil {
		return book.Book{}, err
	}
	return book.Book{
		Title: fmt.Sprintf("Ring of %s in a bore of %s of %s, ring at %s, cylinder at %s", g.Ring, ask.Bore, g.Cylinder,
			degreesBoth(g.RingHot), degreesBoth(g.CylinderHot)),
		Findings: r.Findings, Precautions: []finding.Precaution{measureAtRest},
		Sections: []book.Section{{Key: "ring_gap", Items: []book.Item{{Values: []book.Value{butts, gap, hot, least, closes}}}},
			rules, workingOfRingGap(g, r)},
	}, nil
}

// ringGapRules are the rules of thumb, and whether each is as much as the ring may
// close its gap by.
func ringGapRules(bore, least units.Length) (book.Section, error) {
	list, err := fits.RulesFor("ring gap")
	if err != nil {
		return book.Section{}, err
	}
	item := book.Item{}
	for _, rule := range list {
		span, err := rule.Allowance(bore)
		if err != nil {
			return book.Section{}, err
		}
		v := book.Value{Key: snake(rule.Name), Label: "enough", What: clearanceThou(span), Remark: rule.Name, Refs: rule.Refs}
		switch {
		case span.Max.Cmp(least) < 0:
			v.Label = "less"
		case span.Min.Cmp(least) < 0:
			v.Label = "at its most"
		}
		item.Values = append(item.Values, v)
	}
	return book.Section{
		Key: "rules", Title: "RULES OF THUMB, held against that least gap", Items: []book.Item{item},
		Notes: []string{"They differ by a factor of eight, as they stand for different differences of temperature."},
	}, nil
}

func workingOfRingGap(g assembly.RingGap, r assembly.RingGapResult) book.Section {
	kelvin := func(t units.Temperature) float64 { return t.Sub(g.Room).In(units.KelvinDifference) }
	return book.Section{Key: "working", Title: "WORKING", Items: []book.Item{{Formulas: []book.Formula{
		{Text: fmt.Sprintf("closes = pi d (alpha_r (T_r - T0) - alpha_c (T_c - T0)) = pi x %v x (%v x %.0f K - %v x %.0f K) = %s",
			g.Bore, g.Ring.Expansion.Value, kelvin(g.RingHot), g.Cylinder.Expansion.Value, kelvin(g.CylinderHot),
			fineBoth(r.Closes)), Refs: r.Refs},
		{Text: fmt.Sprintf("least gap, the cylinder still at %.0f degrees C = pi x %v x %v x %.0f K = %s", g.Room.Celsius(),
			g.Bore, g.Ring.Expansion.Value, kelvin(g.RingHot), fineBoth(r.Least)),
			Refs: source.Of(g.Ring.Expansion.Refs.First())},
	}}}}
}

// ringGapFlags are the flags of what the package refuses.
var ringGapFlags = map[string]string{
	"bore":                                "-d",
	"gap at room temperature":             "-gap",
	"material of the ring":                "-ring",
	"material of the cylinder":            "-cylinder",
	"room temperature":                    "-room",
	"working temperature of the ring":     "-ring-at",
	"working temperature of the cylinder": "-cylinder-at",
}
