package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// intoChest is how far the edge of a gasket may stand into the chest, at both
// ends together, before the two are taken for two statements of one size.
var intoChest = units.MM(1)

// chest compares the valve in the chest with the opening of the chest's cover and
// its gasket: the valve sweeps along it, is wider than the ports are long, and
// runs in a chest of that length. Either side of the opening may lie along the
// travel; where neither does, the longer one is taken to. A piston valve runs in
// a liner and is not compared.
func (e *Engine) chest() error {
	if strings.EqualFold(e.Valve.Admission, "inside") {
		return nil
	}
	var all []error
	for i, c := range e.File.Covers {
		if !coversChest(c.Where) {
			continue
		}
		at := fmt.Sprintf("covers[%d].", i)
		ways := c.ways()
		wrong := make([]error, len(ways))
		for k, way := range ways {
			wrong[k] = Join(e.alongValve(at, way.along), e.acrossValve(at, way.across))
			if way.along == way.across && wrong[k] == nil {
				wrong[k] = e.cornersOfValve(at, way.along)
			}
		}
		if len(wrong) > 0 && !slices.Contains(wrong, nil) {
			all = append(all, wrong[0])
		}
	}
	return Join(all...)
}

// A side is one size of an opening, with its key.
type side struct {
	key  string
	size units.Length
}

// An opening is one way in which the opening of a cover may lie over the valve.
type opening struct{ along, across side }

// ways returns the ways in which the opening of a cover may lie over the
// valve, its longer side along the travel first.
func (c Cover) ways() []opening {
	switch {
	case c.OpeningWidth != nil && c.OpeningHeight != nil:
		w, h := side{"opening_width", *c.OpeningWidth}, side{"opening_height", *c.OpeningHeight}
		if w.size.Cmp(h.size) > 0 {
			return []opening{{w, h}, {h, w}}
		}
		return []opening{{h, w}, {w, h}}
	case c.Opening != nil:
		round := side{"opening", *c.Opening}
		return []opening{{round, round}}
	}
	return nil
}

// alongValve compares what an opening has along the travel with what the valve
// sweeps and with the length of the chest.
func (e *Engine) alongValve(at string, opening side) error {
	if !sound(&opening.size) {
		return nil
	}
	var all []error
	complain := func(other, says, accepted string) {
		all = append(all, e.Contradicts(at+opening.key, opening.size.String(), other, says, accepted))
	}
	if needs, says, ok := e.swept(); ok && opening.size.Cmp(needs) < 0 {
		complain("valve.length", says, fmt.Sprintf("an opening of at least %v along the travel%s", needs, e.doubled()))
	}
	if chest := e.Chest.Length; sound(chest) && chest.Sub(opening.size).Cmp(intoChest) > 0 {
		complain("chest.length", chest.String(),
			"an opening along the travel not smaller than the chest inside, so that the gasket does not stand into it")
	}
	return Join(all...)
}

// swept returns how long a chest must be for the valve, and how the file says so.
func (e *Engine) swept() (length units.Length, says string, ok bool) {
	valve, travel := e.Valve.Length, e.Eccentric.Travel
	if !sound(valve) || !sound(travel) {
		return units.Length{}, "", false
	}
	gear := eccentric.Gear{Travel: *travel, Valve: eccentric.Valve{Length: *valve}}
	moves := fmt.Sprintf("a travel of %v", *travel)
	if lost := e.Valve.LostMotion; sound(lost) && lost.Cmp(*travel) < 0 {
		gear.Valve.LostMotion = *lost
		moves += fmt.Sprintf(" less %v of lost motion", *lost)
	}
	offset := e.Valve.Offset
	if altered, ok := e.Gear(); ok { // shims and rods move the valve too
		offset = &altered.Valve.Offset
	}
	if offset != nil && !offset.IsZero() {
		gear.Valve.Offset = *offset
		moves += fmt.Sprintf(", %v off centre,", offset.Abs())
	}
	length = gear.Sweep().Chest
	return length, fmt.Sprintf("%v, which with %s sweeps %v", *valve, moves, length), true
}

// acrossValve compares what an opening has across the travel with the ports, which
// the valve covers with something to spare.
func (e *Engine) acrossValve(at string, opening side) error {
	length := e.Ports.Length
	if !sound(&opening.size) || !sound(length) || opening.size.Cmp(*length) > 0 {
		return nil
	}
	return e.Contradicts(at+opening.key, opening.size.String(), "ports.length", length.String(),
		fmt.Sprintf("an opening of more than %v across the travel, as the valve covers the ports", *length))
}

// cornersOfValve compares a round opening that is large enough along and across
// the travel with the corners of what the valve sweeps.
func (e *Engine) cornersOfValve(at string, round side) error {
	sweep, says, ok := e.swept()
	length := e.Ports.Length
	if !ok || !sound(&round.size) || !sound(length) {
		return nil
	}
	corners := math.Hypot(sweep.MM(), length.MM())
	if round.size.MM() > corners {
		return nil
	}
	return e.Contradicts(at+round.key, round.size.String(), "valve.length",
		fmt.Sprintf("%s, over ports %v long", says, *length),
		fmt.Sprintf("a round opening of more than %.2f mm, from corner to corner%s", corners, e.doubled()))
}

// sound reports whether a size is there and above zero; another is refused
// elsewhere.
func sound(l *units.Length) bool { return l != nil && l.Sign() > 0 }

// coversChest reports whether a cover is named as that of the chest in which the
// valve runs: "steam chest", "valve chest cover", "cover of the chest".
func coversChest(where string) bool {
	chest := false
	for _, word := range strings.FieldsFunc(placeName(where), func(r rune) bool { return !unicode.IsLetter(r) }) {
		switch {
		case word == "chest" || word == "steamchest":
			chest = true
		case !slices.Contains([]string{"steam", "valve", "slide", "cover", "lid", "of", "for", "gasket", "joint"}, word):
			return false
		}
	}
	return chest
}
