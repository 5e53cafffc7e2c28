package fits

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Rule is a rule of thumb of the trade for an allowance on a diameter. Rules
// are no standard; they are here to be seen beside one, and beside each other.
type Rule struct {
	Topic              string // one of [RuleTopics]
	Name               string
	Constant           Band
	ShareMin, ShareMax float64 // of the diameter: 0.001 is a thou per inch
	Refs               source.Refs
}

// RuleTopics returns what there are rules of thumb for: bearing (running
// clearance), piston (clearance in the bore), ring gap (cold end gap), gland
// (rod clearance), press (interference) and bond gap (clearance for a retaining
// compound).
func RuleTopics() []string {
	var topics []string
	for _, r := range rules.Rows() {
		if !slices.Contains(topics, r.Topic) {
			topics = append(topics, r.Topic)
		}
	}
	return topics
}

// RulesFor returns the rules of thumb on a topic; see [RuleTopics].
func RulesFor(topic string) ([]Rule, error) {
	var out []Rule
	for _, r := range rules.Rows() {
		if r.Topic == names.Plain(topic) {
			out = append(out, r)
		}
	}
	if out == nil {
		return nil, fail.UnknownName("topic of the rules", topic, strings.Join(RuleTopics(), ", "))
	}
	return out, nil
}

// Allowance returns the allowance at a diameter at both ends of the rule:
//
//	allowance = constant + share * diameter
//
// See the Example.
func (r Rule) Allowance(diameter units.Length) (Band, error) {
	if err := fail.Above(fault.Named("diameter", diameter)); err != nil {
		return Band{}, err
	}
	if err := fault.Of("allowance", r.Constant.validate("constant")); err != nil {
		return Band{}, err
	}
	if !(r.ShareMin >= -1 && r.ShareMin <= r.ShareMax && r.ShareMax <= 1) {
		return Band{}, fail.OutOfRange("share of the diameter", fmt.Sprintf("%g to %g", r.ShareMin, r.ShareMax),
			"-1 to 1, the least first")
	}
	return Band{r.Constant.Min.Add(diameter.Scale(r.ShareMin)), r.Constant.Max.Add(diameter.Scale(r.ShareMax))}, nil
}

// RuleSpan returns the least and the most that the rules of thumb on a topic ask
// for at a diameter, and where they are from; see [RuleTopics].
func RuleSpan(topic string, diameter units.Length) (Band, source.Refs, error) {
	list, err := RulesFor(topic)
	if err != nil {
		return Band{}, source.Refs{}, err
	}
	var span Band
	var refs source.Refs
	for i, r := range list {
		b, err := r.Allowance(diameter)
		if err != nil {
			return Band{}, source.Refs{}, err
		}
		if i == 0 {
			span = b
		}
		span = Band{shortest(span.Min, b.Min), longest(span.Max, b.Max)}
		refs = refs.With(r.Refs)
	}
	return span, refs, nil
}

var rules = table.Table[Rule]{FS: &tables, Name: "tables/rules.csv", Row: readRule}

func readRule(r *table.Row) Rule {
	return Rule{
		Topic: r.Text("topic"), Name: r.Text("name"), Refs: source.Of(r.Ref()),
		Constant: Band{
			table.As(r, "constant_low", units.Thousandths.Parse),
			table.As(r, "constant_high", units.Thousandths.Parse),
		},
		ShareMin: r.Float("per_inch_low") / 1000, ShareMax: r.Float("per_inch_high") / 1000,
	}
}
