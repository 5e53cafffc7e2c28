package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units/source"
)

// An origin is a source and the figures that are from it.
type origin struct {
	ref     source.Ref
	figures []string
}

// origins returns where the speeds and feeds of all steps are from, each source
// once.
func origins(steps []*step) []origin {
	var all []origin
	add := func(ref source.Ref, figure string) {
		i := slices.IndexFunc(all, func(o origin) bool { return o.ref == ref })
		if i < 0 {
			i = len(all)
			all = append(all, origin{ref: ref})
		}
		if !slices.Contains(all[i].figures, figure) {
			all[i].figures = append(all[i].figures, figure)
		}
	}
	for _, s := range steps {
		r := s.plan.Range
		figure := fmt.Sprintf("speed of %v in %v", r.Operation, r.Material)
		if r.Basis != "" {
			figure += ", " + r.Basis
		}
		add(r.Refs.First(), figure)
		if s.feed.Min.Sign() > 0 {
			figure := "feed of " + r.Operation.String()
			if s.feed.Stands != "" {
				figure += " in " + r.Material.String() + ", " + s.feed.Stands
			}
			add(s.feed.Refs.First(), figure)
		}
	}
	return all
}

// A caution is a piece of advice and the parts that it is for.
type caution struct {
	safety bool
	text   string
	uses   []use
}

// A use is a part and those of its operations that a caution is for; none when
// it is for all of them.
type use struct {
	part       string
	operations []string
}

func (u use) String() string {
	if len(u.operations) == 0 {
		return u.part
	}
	return u.part + " (" + strings.Join(u.operations, ", ") + ")"
}

// advice returns what the packages say of the operation, with the source of what is
// not common practice.
func (s *step) advice() []caution {
	from := func(ref source.Ref) string {
		switch {
		case ref.Kind == source.CommonPractice:
			return ""
		case ref.Recalled():
			return fmt.Sprintf(" (%v: %s)", ref.Kind, ref.Title)
		}
		return " (" + ref.Title + ")"
	}
	var all []caution
	for _, p := range s.precautions {
		all = append(all, caution{safety: true, text: "safety: " + p.Text + from(p.Ref)})
	}
	for _, a := range s.plan.Range.Advice() {
		all = append(all, caution{text: a.Kind + ": " + a.Text + from(a.Refs.First())})
	}
	return all
}

// cautions returns the advice for all steps, each piece once, with what can hurt
// somebody first.
func cautions(steps []*step) []*caution {
	var all []*caution
	done := map[string][]string{} // by part
	for _, s := range steps {
		op := s.job.Operation.String()
		if part := s.entry.Part; !slices.Contains(done[part], op) {
			done[part] = append(done[part], op)
		}
		for _, a := range s.advice() {
			i := slices.IndexFunc(all, func(c *caution) bool { return c.text == a.text })
			if i < 0 {
				i = len(all)
				all = append(all, &caution{safety: a.safety, text: a.text})
			}
			c := all[i]
			j := slices.IndexFunc(c.uses, func(u use) bool { return u.part == s.entry.Part })
			if j < 0 {
				j = len(c.uses)
				c.uses = append(c.uses, use{part: s.entry.Part})
			}
			if !slices.Contains(c.uses[j].operations, op) {
				c.uses[j].operations = append(c.uses[j].operations, op)
			}
		}
	}
	for _, c := range all {
		for i, u := range c.uses {
			if len(u.operations) == len(done[u.part]) {
				c.uses[i].operations = nil
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *caution) int {
		switch {
		case a.safety == b.safety:
			return 0
		case a.safety:
			return -1
		}
		return 1
	})
	return all
}
