package finding

import (
	"cmp"
	"slices"
)

// A Carrier is a Finding or a type that embeds one.
type Carrier interface{ Plain() Finding }

// A List is findings on one subject.
type List []Finding

// ListOf returns the findings that values of an embedding type carry.
func ListOf[C Carrier](carriers []C) List {
	if len(carriers) == 0 {
		return nil
	}
	list := make(List, len(carriers))
	for i, c := range carriers {
		list[i] = c.Plain()
	}
	return list
}

// Sort puts the worst first and keeps the order within one severity. It works on
// a List and on slices of types that embed Finding.
func Sort[S ~[]C, C Carrier](list S) {
	slices.SortStableFunc(list, func(a, b C) int { return cmp.Compare(b.Plain().Severity, a.Plain().Severity) })
}

// Worst returns the highest severity in the list; false for an empty one.
func (l List) Worst() (Severity, bool) {
	worst := Note
	for _, f := range l {
		worst = max(worst, f.Severity)
	}
	return worst, len(l) > 0
}

// OK reports whether nothing in the list fails or can hurt somebody.
func (l List) OK() bool {
	worst, _ := l.Worst()
	return worst < Fails
}

// Sort puts the worst first and keeps the order within one severity.
func (l List) Sort() { Sort(l) }

// At returns the findings with a place: where in front of the place that each
// has already.
func (l List) At(where string) List {
	placed := slices.Clone(l)
	for i, f := range placed {
		if placed[i].Where = where; f.Where != "" {
			placed[i].Where += ", " + f.Where
		}
	}
	return placed
}
