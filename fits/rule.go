package fits

import (
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Rule is a rule of thumb of the trade for an allowance on a diameter. Rules
// are no standard; they are here to be seen beside one, and beside each other.
type Rule struct {
	Topic                     string // "bearing", "piston", "ring gap", "gland", "press", "bond gap"
	Name                      string
	ConstantLow, ConstantHigh units.Length
	ShareLow, ShareHigh       float64 // of the diameter: 0.001 is a thou per inch
	Ref                       source.Ref
}

// Rules returns the rules of thumb on a topic: bearing (running clearance),
// piston (clearance in the bore), ring gap (cold end gap), gland (rod
// clearance), press (interference), bond gap (clearance for a retaining
// compound). Another topic is an [*units.ArgumentError].
func Rules(topic string) ([]Rule, error) {
	var out []Rule
	var topics []string
	for _, r := range rules.Rows() {
		if r.Topic == topic {
			out = append(out, r)
		}
		if !slices.Contains(topics, r.Topic) {
			topics = append(topics, r.Topic)
		}
	}
	if out == nil {
		return nil, &units.ArgumentError{Package: "fits", Field: "topic of the rules", Value: quoted(topic), Accepted: list(topics), Err: units.ErrUnknown}
	}
	return out, nil
}

// At returns the allowance at a diameter, constant + share x diameter, at both
// ends of the rule. A diameter that is not above zero is an
// [*units.ArgumentError].
func (r Rule) At(diameter units.Length) (low, high units.Length, err error) {
	if err := positive("diameter", diameter); err != nil {
		return units.Length{}, units.Length{}, err
	}
	return r.ConstantLow.Add(diameter.Scale(r.ShareLow)), r.ConstantHigh.Add(diameter.Scale(r.ShareHigh)), nil
}

var rules = table.Table[Rule]{FS: &tables, Name: "tables/rules.csv", Row: readRule}

func readRule(r *table.Row) Rule {
	return Rule{
		Topic: r.Text("topic"), Name: r.Text("name"), Ref: r.Ref(),
		ConstantLow: table.As(r, "constant_low", units.Thousandths.Parse), ConstantHigh: table.As(r, "constant_high", units.Thousandths.Parse),
		ShareLow: r.Float("per_inch_low") / 1000, ShareHigh: r.Float("per_inch_high") / 1000,
	}
}

// positive refuses a length that is not above zero.
func positive(field string, l units.Length) error {
	if l.Sign() > 0 {
		return nil
	}
	e := &units.ArgumentError{Package: "fits", Field: field, Value: l.String(), Accepted: "a length above zero", Err: units.ErrOutOfRange}
	if l.IsZero() {
		e.Value, e.Err = "", units.ErrMissing
	}
	return e
}
