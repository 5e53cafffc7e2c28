package fits_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestRules(t *testing.T) {
	for _, topic := range fits.RuleTopics() {
		list, err := fits.RulesFor(topic)
		if err != nil {
			t.Error(err)
		}
		for _, r := range list {
			a, err := r.Allowance(units.Inch(1))
			if err != nil || a.Min.Sign() <= 0 || a.Validate() != nil || a.Max.Thou() > 10 || r.Refs.First().Kind == 0 {
				t.Errorf("%+v: %v, %v", r, a, err)
			}
			if _, err := r.Allowance(units.Length{}); !errors.Is(err, units.ErrOutOfRange) {
				t.Error(err)
			}
		}
	}
	if _, err := fits.RulesFor("boiler"); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}

func TestRulesTwice(t *testing.T) {
	f := check.Open(t, "fits/rules.csv")
	spans := map[string]fits.Band{} // of 2 in, by what is printed
	for r := range f.Rows() {
		low := units.Thou(r.Float("constant_low") + 2*r.Float("per_inch_low"))
		high := units.Thou(r.Float("constant_high") + 2*r.Float("per_inch_high"))
		span, ok := spans[r.Text("topic")]
		if !ok || low.Cmp(span.Min) < 0 {
			span.Min = low
		}
		if !ok || high.Cmp(span.Max) > 0 {
			span.Max = high
		}
		spans[r.Text("topic")] = span
		list, err := fits.RulesFor(r.Text("topic"))
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(list, func(rule fits.Rule) bool { return rule.Name == r.Text("name") })
		if i < 0 {
			t.Errorf("%s: no such rule", r.ID)
			continue
		}
		// What it asks for at a diameter of none and of ten inches, exact.
		rule, ten := list[i], units.Inch(10)
		a, err := rule.Allowance(ten)
		if err != nil {
			t.Fatal(err)
		}
		r.Within("constant_low", rule.Constant.Min.Thou(), 0)
		r.Within("constant_high", rule.Constant.Max.Thou(), 0)
		r.Within("per_inch_low", a.Min.Sub(rule.Constant.Min).Thou()/10, 0)
		r.Within("per_inch_high", a.Max.Sub(rule.Constant.Max).Thou()/10, 0)
	}
	for topic, want := range spans {
		if got, refs, err := fits.RuleSpan(topic, units.Inch(2)); err != nil || got != want || refs.IsZero() {
			t.Errorf("%s at 2 in: %v, %v; the printed rules span %v", topic, got, err, want)
		}
	}
}

// What two rules for a bearing of 3/8 in come to.
func ExampleRule_Allowance() {
	rules, err := fits.RulesFor("bearing")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range rules {
		if r.Name != "a thou and a thou per inch" && r.Name != "journal of a small engine, hand oiled" {
			continue
		}
		allowance, err := r.Allowance(units.InchFraction(3, 8))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %.3f to %.3f thou\n", r.Name, allowance.Min.Thou(), allowance.Max.Thou())
	}
	// Output:
	// a thou and a thou per inch: 1.375 to 1.375 thou
	// journal of a small engine, hand oiled: 1.000 to 2.000 thou
}

// What all rules for press fits reach from and to on a pin of an inch.
func ExampleRuleSpan() {
	span, _, err := fits.RuleSpan("press", units.Inch(1))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f to %.1f thou\n", span.Min.Thou(), span.Max.Thou())
	_, _, err = fits.RuleSpan("boiler", units.Inch(1))
	fmt.Println(err)
	// Output:
	// 0.5 to 2.0 thou
	// fits: topic of the rules "boiler": unknown; accepted: bearing, piston, ring gap, gland, press, bond gap
}
