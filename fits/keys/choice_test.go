package keys_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits/keys"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// named returns the names of the pins for a shaft and a hub.
func named(t *testing.T, shaft, hub units.Length) []string {
	t.Helper()
	pins, err := keys.PinsFor(shaft, hub)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, p := range pins {
		names = append(names, p.Name)
	}
	return names
}

// The lengths that pins are sold in, from memory: the metric ones go up by 2 mm to 32,
// are then 35 and go on by fives; the inch ones go up by eighths from 3/8 to 3/4 and on
// by quarters. The longest that a hub covers is taken, and a picometre less of hub is one
// shorter.
func TestPinLengths(t *testing.T) {
	var metric, inch []units.Length
	for l := 6; l <= 80; l++ {
		if l <= 32 && l%2 == 0 || l >= 35 && l%5 == 0 {
			metric = append(metric, units.MM(float64(l)))
		}
	}
	for eighths := 3; eighths <= 24; eighths++ {
		if eighths <= 6 || eighths%2 == 0 {
			inch = append(inch, units.InchFraction(eighths, 8))
		}
	}
	for which, lengths := range [][]units.Length{metric, inch} {
		for i, want := range lengths {
			for _, less := range []units.Length{{}, units.Picometres(1)} {
				hub := want.Sub(less)
				if !less.IsZero() {
					if i == 0 {
						continue
					}
					want = lengths[i-1]
				}
				// A shaft as thick as the hub allows has a pin of either system.
				shaft := hub.Scale(0.8)
				if most := units.MM(25); shaft.Cmp(most) > 0 {
					shaft = most
				}
				pins, err := keys.PinsFor(shaft, hub)
				found := slices.ContainsFunc(pins, func(p keys.TaperPin) bool {
					return p.PerLength == []float64{1.0 / 50, 1.0 / 48}[which] && p.Length == want
				})
				if err != nil || !found {
					t.Errorf("a hub of %v on %v: no pin of %v in %v, %v", hub, shaft, want, pins, err)
				}
			}
		}
	}
}

// A pin as thick as a third of its shaft is still taken, and of two that are as near to a
// quarter the thinner: 0.6 + 40/50 is a third of 4.2 mm, and a quarter of 4.4 mm lies midway
// between 0.8 and 1 mm with 10/50 more.
func TestPinChoice(t *testing.T) {
	if names := named(t, units.MM(4.2), units.MM(40)); names[0] != "0.6 x 40" {
		t.Error(names)
	}
	if pins, err := keys.PinsFor(units.MM(4.2).Sub(units.Picometres(3)), units.MM(40)); err == nil &&
		pins[0].PerLength == 1.0/50 {
		t.Error(pins)
	}
	if names := named(t, units.MM(4.4), units.MM(20)); names[0] != "0.8 x 20" {
		t.Error(names)
	}
}

// What is printed of a result, and said of what is refused: every field and every figure.
func TestTexts(t *testing.T) {
	var text strings.Builder
	tell := func(v any, err error) {
		said, _, _ := strings.Cut(fmt.Sprint(v), ", from ")
		fmt.Fprintln(&text, said, err)
	}
	all := func(pins []keys.TaperPin, err error) {
		for _, p := range pins {
			tell(p, err)
		}
		if err != nil {
			tell(pins, err)
		}
	}
	for _, shaft := range []units.Length{units.MM(8), units.InchFraction(3, 8), units.MM(22), units.MM(22.3)} {
		found, err := keys.For(shaft)
		for _, k := range found {
			tell(k, err)
		}
		if err != nil {
			tell(found, err)
		}
	}
	for _, hub := range []float64{12, 13, 14, 15.9, 18, 30, 81, 7.1} {
		all(keys.PinsFor(units.MM(6), units.MM(hub)))
	}
	all(keys.PinsFor(units.MM(4), units.MM(5)))
	tell(keys.PinFor("2", units.MM(20)))
	tell(keys.PinFor("#2/0", units.InchFraction(5, 8)))
	tell(keys.PinFor("2", units.MM(3.9)))
	tell(keys.PinFor("2.2", units.MM(20)))
	tell(keys.DimpleFor("M10", units.MM(19)))
	tell(keys.DimpleFor("M1.7", units.MM(19)))
	// A flat of 6 mm on 12 mm is 6 - sqrt(27) deep; the rim of the cup, 3 mm, lies 6 - sqrt(33.75) down.
	tell(keys.DimpleFor("M6", units.MM(12)))
	pins, err := keys.PinsFor(units.MM(6), units.MM(14))
	fmt.Fprintln(&text, pins, err)
	check.Kept(t, "fits/keys/kept/texts.txt", check.Rounded(text.String()))
}
