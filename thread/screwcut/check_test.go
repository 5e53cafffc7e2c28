package screwcut

import (
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units/finding"
)

func TestLatheCheck(t *testing.T) {
	for _, tt := range []struct {
		name, leadscrew, lead string
		wheels                []int
		want                  finding.Code
		severity              finding.Severity
		text                  string
	}{
		{"exact", "8 tpi", "16 tpi", []int{20, 40}, "", 0, ""},
		{"near, and none to buy", "8 tpi", "1.25 mm", []int{25, 40, 63, 100}, NoExactTrain, finding.Caution, "12.5 um too long in 100 mm"},
		{"too short", "8 tpi", "1.25 mm", []int{85, 60, 25, 90}, NoExactTrain, finding.Caution, "46.3 um too short"},
		{"a wheel to buy", "8 tpi", "1 mm", []int{40, 60}, NoTrain, finding.Fails, "within 2 % of a lead of 1 mm"},
		{"fouls", "4 tpi", "10 tpi", []int{20, 30, 45, 60, 50, 75}, "", 0, ""},
	} {
		l := Lathe{Leadscrew: mustLead(t, tt.leadscrew), Wheels: tt.wheels}
		trains, err := l.Trains(mustLead(t, tt.lead))
		if err != nil {
			t.Fatal(err)
		}
		said, err := l.Check(trains)
		switch {
		case err != nil || (len(said) == 0) != (tt.want == ""):
			t.Errorf("%s: %v, %v", tt.name, said, err)
		case len(said) > 0 && (said[0].Code != tt.want || said[0].Severity != tt.severity || !strings.Contains(said[0].Text, tt.text)):
			t.Errorf("%s: %v", tt.name, said)
		}
		buy, err := l.WheelsToBuy(mustLead(t, tt.lead))
		if err != nil || len(said) > 0 && slices.ContainsFunc(said[0].Remedies, func(s string) bool { return strings.HasPrefix(s, "One more") }) != (len(buy) > 0) {
			t.Errorf("%s: %v with %v to buy, %v", tt.name, said, buy, err)
		}
	}
	// The best of the exact trains does not mount: what may foul, and what to buy.
	l := Lathe{Leadscrew: mustLead(t, "8 tpi"), Wheels: []int{10, 12, 14, 16, 56}}
	trains, err := l.Trains(mustLead(t, "15 in in 224 turns"))
	if err != nil {
		t.Fatal(err)
	}
	if said, err := l.Check(trains); err != nil || len(trains.Exact) == 0 || len(said) != 1 || said[0].Code != FoulsStud || len(said[0].Remedies) < 2 {
		t.Errorf("%v: %v, %v", trains.Exact, said, err)
	}
}
