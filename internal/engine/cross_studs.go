package engine

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// studCount returns how many studs a cover has; 0 where the file does not say.
func (c Cover) studCount() int {
	switch {
	case c.Studs != nil:
		return *c.Studs
	case c.StudsAcross != nil && c.StudsAlong != nil: // both count the corners
		return 2 * (*c.StudsAcross + *c.StudsAlong - 2)
	}
	return 0
}

func sameThread(a, b thread.Thread) bool {
	return a.Form() == b.Form() && a.Major() == b.Major() && a.Pitch() == b.Pitch()
}

// studs compares the covers with the fasteners of the same place: one of these
// has the thread of the cover, and as many screws as there are studs in all
// covers of that name and thread, or a multiple where one cover stands for two.
func (e *Engine) studs() error {
	fasteners := map[string][]int{}
	for i, f := range e.File.Fasteners {
		if name := placeName(f.Where); name != "" && f.Thread != nil {
			fasteners[name] = append(fasteners[name], i)
		}
	}
	type set struct {
		place  string
		thread thread.Thread
	}
	var order []set
	alike := map[set][]int{}
	var all []error
	for i, c := range e.File.Covers {
		there := fasteners[placeName(c.Where)]
		if c.Thread == nil || len(there) == 0 {
			continue
		}
		fits := false
		for _, f := range there {
			fits = fits || sameThread(*e.File.Fasteners[f].Thread, *c.Thread)
		}
		if !fits {
			f := e.File.Fasteners[there[0]]
			cover, fastener := fmt.Sprintf("covers[%d].thread", i), fmt.Sprintf("fasteners[%d].thread", there[0])
			all = append(all, e.Contradicts(cover, studsOf(c), fastener, screwsOf(f),
				"one thread for the studs of one place"))
			continue
		}
		s := set{placeName(c.Where), *c.Thread}
		if alike[s] == nil {
			order = append(order, s)
		}
		alike[s] = append(alike[s], i)
	}
	for _, s := range order {
		all = append(all, e.countStuds(alike[s], fasteners[s.place]))
	}
	return Join(all...)
}

// TappedFor returns which fasteners are of the place of a cover and have its thread:
// what its studs are screwed into. There may be none.
func (e *Engine) TappedFor(cover int) []int {
	c := e.File.Covers[cover]
	var all []int
	for i, f := range e.File.Fasteners {
		if name := placeName(f.Where); name != "" && name == placeName(c.Where) &&
			f.Thread != nil && c.Thread != nil && sameThread(*f.Thread, *c.Thread) {
			all = append(all, i)
		}
	}
	return all
}

// countStuds compares the covers of one place and thread with the fasteners of
// that place.
func (e *Engine) countStuds(covers, fasteners []int) error {
	studs, screws, last := 0, 0, 0
	for _, i := range covers {
		n := e.File.Covers[i].studCount()
		if n < 1 || n > mostStuds { // refused elsewhere
			return nil
		}
		studs += n
	}
	thread := *e.File.Covers[covers[0]].Thread
	for _, i := range fasteners {
		f := e.File.Fasteners[i]
		if !sameThread(*f.Thread, thread) {
			continue
		}
		if f.Count < 1 || f.Count > mostScrews { // refused elsewhere
			return nil
		}
		screws, last = screws+f.Count, i
	}
	if screws%studs == 0 {
		return nil
	}
	cover := covers[len(covers)-1]
	key := fmt.Sprintf("covers[%d].studs", cover)
	if !e.Has(key) {
		key = fmt.Sprintf("covers[%d].studs_across", cover)
	}
	says := counted(studs, thread)
	if len(covers) > 1 {
		says += " in all covers of that name"
	}
	return e.Contradicts(key, says, fmt.Sprintf("fasteners[%d].count", last), counted(screws, thread),
		fmt.Sprintf("%d, or a multiple where more covers are alike, or another name for one of the two places", studs))
}

func studsOf(c Cover) string { return counted(c.studCount(), *c.Thread) }

func screwsOf(f Fastener) string { return counted(f.Count, *f.Thread) }

func counted(n int, t thread.Thread) string {
	if n > 0 {
		return fmt.Sprintf("%d of %v", n, t)
	}
	return t.String()
}

// holesDiffer is how much two statements of a clearance hole may differ: drills
// are named in tenths of a millimetre, and inch sizes lie between them.
var holesDiffer = units.Micron(100)

// clearanceHoles compares the holes of a cover with the clearance class that the
// fasteners of its place and thread name.
func (e *Engine) clearanceHoles() error {
	covers := map[string][]int{}
	for i, c := range e.File.Covers {
		if c.Hole != nil && c.Thread != nil && strings.TrimSpace(c.Where) != "" {
			covers[placeName(c.Where)] = append(covers[placeName(c.Where)], i)
		}
	}
	var all []error
	for i, f := range e.File.Fasteners {
		if f.Clearance == nil || f.Thread == nil {
			continue
		}
		clearance, err := f.Thread.ClearanceFor(*f.Clearance)
		if err != nil {
			continue // told where it is used
		}
		for _, k := range covers[placeName(f.Where)] {
			c := e.File.Covers[k]
			if sameThread(*c.Thread, *f.Thread) && c.Hole.Sub(clearance.Hole).Abs().Cmp(holesDiffer) > 0 {
				all = append(all, e.Contradicts(fmt.Sprintf("covers[%d].hole", k), fmt.Sprintf("holes of %v", *c.Hole),
					fmt.Sprintf("fasteners[%d].clearance", i), fmt.Sprintf("%v, holes of %v", *f.Clearance, clearance.Hole),
					fmt.Sprintf("the same within %v; or no clearance where the cover has its hole", holesDiffer)))
			}
		}
	}
	return Join(all...)
}
