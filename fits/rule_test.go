package fits_test

import (
	"errors"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
)

func TestRules(t *testing.T) {
	count := 0
	topics := fits.RuleTopics()
	if want := []string{"bearing", "piston", "ring gap", "gland", "press", "bond gap"}; !slices.Equal(topics, want) {
		t.Errorf("topics %q, want %q", topics, want)
	}
	for _, topic := range topics {
		list, err := fits.RulesFor(topic)
		if err != nil {
			t.Error(err)
		}
		count += len(list)
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
	if count != 24 {
		t.Errorf("%d rules, want 24", count)
	}
	if _, err := fits.RulesFor("boiler"); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}
