package eccentric

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// made draws which parts are made: all of them as often as not.
func (p pool) made() Made {
	if p.one(2) {
		return Made{true, true, true, true}
	}
	return Made{Ports: p.one(2), Valve: p.one(2), Eccentric: p.one(2), Rods: p.one(2)}
}

// keep writes cures whose steps say something new, and counts all of them.
func (s *shelf) keep(of string, cures []Cure, counts map[string]int) {
	told := ""
	for _, c := range cures {
		var changes []string
		said := ""
		for _, st := range c.Steps {
			changes = append(changes, st.Part+" "+st.Change)
			if text := s.first(st.Text); text != "" {
				said += fmt.Sprintf("\n    %.4g mm %.4g deg: %s", st.Amount.MM()+0, st.Turn.Degrees()+0, text)
			}
		}
		place := [...]string{right: "right", livedWith: "lived with", notCured: "not cured"}[c.grade.place]
		name := fmt.Sprintf("%s: %s, %d finding(s)", strings.Join(changes, ", "), place, len(c.Left))
		counts[name]++
		if left := s.first("leaves " + cmp.Or(strings.Join(c.Leaves(), ", "), "nothing") + "."); left != "" {
			said += "\n    " + left
		}
		if said != "" {
			told += fmt.Sprintf("  %s, sets %v, restates %v, right %v%s\n  then %s\n", name, c.Sets(), c.Restates(), c.Right(), said,
				sizes(c.Gear))
		}
	}
	if told != "" {
		s.WriteString(of + "\n" + told)
	}
}

func (s *shelf) counted(counts map[string]int) {
	for _, name := range slices.Sorted(maps.Keys(counts)) {
		fmt.Fprintf(s, "%d times %s\n", counts[name], name)
	}
}

// What Salvage names, each sentence once, with the gear that it is done to and what
// the gear is after it, and how often each cure comes among all the gears of the pool.
func TestCuresKept(t *testing.T) {
	kept, counts := shelf{had: map[string]bool{}}, map[string]int{}
	p := newPool(2)
	for range 120 {
		g, made, placed := p.gear(), p.made(), p.one(4)
		if g.Validate() != nil {
			continue
		}
		saved, err := salvage(g, made, placed)
		if err != nil {
			t.Fatal(err)
		}
		counts["tried"] += saved.Tried
		kept.keep(fmt.Sprintf("%s made %v", sizes(g), made), saved.Cures, counts)
	}
	kept.counted(counts)
	check.Kept(t, "eccentric/kept/cures.txt", kept.String())
}

// What Restored names for gears with one or two sizes out of their drawing.
func TestRestoredKept(t *testing.T) {
	kept, counts := shelf{had: map[string]bool{}}, map[string]int{}
	p := newPool(3)
	for range 95 {
		drawn, made := p.gear(), p.made()
		g := drawn
		for range 1 + p.IntN(2) {
			p.spoil(&g)
		}
		if drawn.Validate() != nil || g.Validate() != nil {
			continue
		}
		list, err := g.Restored(drawn, made)
		if err != nil {
			t.Fatal(err)
		}
		kept.keep(fmt.Sprintf("%s made %v\ndrawn %s", sizes(g), made, sizes(drawn)), list, counts)
	}
	kept.counted(counts)
	check.Kept(t, "eccentric/kept/restored.txt", kept.String())
}

// room draws a room with a piston that has too little of it, enough or much.
func (p pool) room() Room {
	g := p.gear()
	g.Stroke = units.MM(25)
	r := Room{Gear: g, Length: p.mm(32.8, []float64{34, 36, 42}[p.IntN(3)]), Piston: units.MM(8), Shift: p.mm(-0.6, 0.6)}
	if p.one(2) {
		r.Gaskets = p.mm(0, 1)
	}
	if p.one(2) {
		r.Wear = p.mm(0, 0.4)
	}
	if p.one(2) {
		r.Least = p.mm(0.1, 1)
	}
	return r
}

// What Check says of the room of the piston, and the ways of sharing it.
func TestRoomKept(t *testing.T) {
	kept, counts := shelf{had: map[string]bool{}}, map[string]int{}
	p := newPool(4)
	for range 300 {
		r := p.room()
		if r.Validate() != nil {
			continue
		}
		told := ""
		for _, f := range r.Check() {
			counts[fmt.Sprintf("%s %s %s, %d remedies", f.Code, f.Severity, f.End, len(f.Remedies))]++
			said := kept.first(f.Text)
			for _, remedy := range f.Remedies {
				if remedy = kept.first(remedy); remedy != "" {
					said += "\n    - " + remedy
				}
			}
			if refs := kept.first(fmt.Sprintf("%s %v.", f.Code, f.Refs)); refs != "" && !f.Refs.IsZero() {
				said += "\n    " + refs
			}
			if said != "" {
				told += fmt.Sprintf("  %s %s %s %.4g mm: %s\n", f.Code, f.Severity, f.End, f.Amount.MM()+0, said)
			}
		}
		ways, err := r.ToShare()
		if err != nil {
			t.Fatal(err)
		}
		counts[fmt.Sprintf("%d ways to share", len(ways))]++
		if told != "" {
			fmt.Fprintf(&kept, "between covers %.5g gaskets %.5g shift %.5g wear %.5g least %.5g; %s\n%s", r.Length.MM(),
				r.Gaskets.MM(), r.Shift.MM()+0, r.Wear.MM(), r.Least.MM(), sizes(r.Gear), told)
		}
	}
	kept.counted(counts)
	check.Kept(t, "eccentric/kept/room.txt", kept.String())
}
