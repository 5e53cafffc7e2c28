package joint

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A SpacingRule is a rule of thumb for the distance between neighbouring studs.
type SpacingRule struct {
	Name        string
	Least, Most units.Length
	Ref         source.Ref
}

// Keeps reports whether a distance lies within the rule.
func (r SpacingRule) Keeps(spacing units.Length) bool {
	return spacing.Cmp(r.Least) >= 0 && spacing.Cmp(r.Most) <= 0
}

// SpacingRules returns the rules for studs of a diameter. They disagree, most
// of all for small studs, for which the rule with the root was not made: for 3
// mm they are 9 to 18, 15 to 30 and 33 to 49 mm. The lower limit of the first
// two is room for a spanner. Source: as each rule's Ref says. A diameter that
// is not above zero, or above 1 m, is an [*units.ArgumentError].
func SpacingRules(diameter units.Length) ([]SpacingRule, error) {
	if err := accept(number{"diameter of the studs", diameter.MM(), diameter.String(), true}); err != nil {
		return nil, err
	}
	if diameter.Cmp(units.MM(1000)) > 0 {
		return nil, bad("diameter of the studs", diameter.String(), "up to 1 m")
	}
	root := units.MM(math.Sqrt(diameter.MM()))
	return []SpacingRule{
		{"3 to 6 diameters", diameter.Scale(3), diameter.Scale(6), source.Ref{Kind: source.Unreviewed, Title: "Machine design project sheet"}},
		{"5 to 10 diameters", diameter.Scale(5), diameter.Scale(10), source.Ref{Kind: source.Published, Title: "University notes on threaded fasteners", Locator: "problems", Note: "5 for the spanner, 10 for the flange"}},
		{"19 to 28.5 times the root of the diameter in mm", root.Scale(19), root.Scale(28.5), source.Ref{Kind: source.Published, Title: "Machine design text on the heads of engine cylinders", Locator: "cylinder heads", Note: "the root sign was lost in the text seen and is from memory"}},
	}, nil
}
