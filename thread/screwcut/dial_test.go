package screwcut

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func TestPickUpOnDial(t *testing.T) {
	for _, tt := range []struct {
		leadscrew, lead        string
		teeth, threads, places int
		why                    string
	}{
		// An eight-thread leadscrew with a wheel of 32: four marks an inch apart.
		{"8 tpi", "8 tpi", 32, 1, 32, "as the leadscrew: anywhere"},
		{"8 tpi", "16 tpi", 32, 1, 32, "a multiple of the leadscrew: anywhere"},
		{"8 tpi", "12 tpi", 32, 2, 16, "even threads: every half mark"},
		{"8 tpi", "11 tpi", 32, 8, 4, "odd threads: a mark each inch"},
		{"8 tpi", "11.5 tpi", 32, 16, 2, "half threads: every second mark"},
		{"8 tpi", "1.5 mm", 32, 60, 0, "metric on inches: not on the dial"},
		{"3 mm", "1.5 mm", 0, 1, 0, "no dial"},
		{"3 mm", "1.25 mm", 15, 5, 3, "metric on metric, wheel of 15"},
		{"3 mm", "1.75 mm", 14, 7, 2, "metric on metric, wheel of 14"},
	} {
		p, err := PickUpOnDial(mustLead(t, tt.leadscrew), mustLead(t, tt.lead), tt.teeth)
		if err != nil || p.Threads != tt.threads || (tt.teeth > 0 && p.Places != tt.places) {
			t.Errorf("%s on %s, wheel of %d: every %d threads, %d places, %v; want %d, %d (%s)", tt.lead, tt.leadscrew, tt.teeth,
				p.Threads, p.Places, err, tt.threads, tt.places, tt.why)
		}
	}
}

func TestPickUpInWords(t *testing.T) {
	for p, want := range map[PickUp]string{
		{}:           "leave them closed; a near train never picks up. Withdraw the tool before you reverse the lathe",
		{Threads: 1}: "anywhere",
		{Threads: 5, Travel: units.MM(15), Places: 3}: "close them at every 5 threads of the leadscrew (15.000 mm), 3 places",
		{Threads: 60, Travel: units.MM(190.5)}:        "right every 60 threads of the leadscrew (190.500 mm); without a dial that shows it, leave them closed, and withdraw the tool before you reverse",
	} {
		if got := p.String(); !strings.Contains(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestPickUpRefuses(t *testing.T) {
	lead := mustLead(t, "8 tpi")
	odd := mustLead(t, "1.000001 mm")
	for _, tt := range []struct {
		name            string
		leadscrew, lead Lead
		teeth           int
		want            string
	}{
		{"no lead", lead, Lead{}, 32, "lead"},
		{"no leadscrew", Lead{}, lead, 32, "lead"},
		{"negative wheel", lead, lead, -1, "indicator"},
		{"nothing in common", lead, odd, 32, "no measure in common"},
	} {
		if p, err := PickUpOnDial(tt.leadscrew, tt.lead, tt.teeth); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %+v, %v; want %q", tt.name, p, err, tt.want)
		}
	}
}
