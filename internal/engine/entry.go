package engine

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// An entry collects what is to be said of one table of a file. It says nothing
// of a key that was refused when it was read, and not that one is missing where a
// key that nobody knows may be meant for it.
type entry struct {
	*Document
	path string // with a point behind it
	all  []error
}

func (d *Document) entry(format string, args ...any) *entry {
	return &entry{Document: d, path: fmt.Sprintf(format, args...) + "."}
}

// has reports whether the file has a key, read or refused.
func (t *entry) has(key string) bool { return t.Has(t.path + key) }

func (t *entry) complain(key, format string, args ...any) {
	if !t.refused[t.path+key] {
		t.all = append(t.all, t.Errorf(t.path+key, format, args...))
	}
}

// need complains of keys that are missing.
func (t *entry) need(accepted string, keys ...string) {
	for _, key := range keys {
		if !t.has(key) && !t.doubtful(t.path+key) {
			t.complain(key, "missing; accepted: %s", accepted)
		}
	}
}

// needText is need for text, which must not be blank.
func (t *entry) needText(key, value, accepted string) {
	if t.has(key) && strings.TrimSpace(value) == "" {
		t.complain(key, "missing; accepted: %s", accepted)
	}
	t.need(accepted, key)
}

// needOne complains where neither of two keys is there, or both are.
func (t *entry) needOne(key, other, accepted string) {
	switch {
	case t.has(key) && t.has(other):
		t.complain(other, "%s is given too; accepted: one of the two", key)
	case !t.has(other):
		t.need(accepted, key)
	}
}

// together complains where one of two keys is given alone.
func (t *entry) together(key, other string) {
	if t.has(key) != t.has(other) && !t.doubtful(t.path+key) {
		t.complain(key, "accepted: %s and %s together", key, other)
	}
}

// above complains of a length that is not above zero.
func (t *entry) above(key string, value *units.Length, accepted string) {
	if value != nil && value.Sign() <= 0 {
		t.complain(key, "%v; accepted: %s", *value, accepted)
	}
}

// said returns all that was to be said of some tables. Where that is nothing, but
// some of their keys could not be read, it is errTold.
func said(tables ...*entry) error {
	var all []error
	whole := true
	for _, t := range tables {
		all = append(all, t.all...)
		whole = whole && !t.spoilt(strings.TrimSuffix(t.path, "."))
	}
	if err := Join(all...); err != nil || whole {
		return err
	}
	return errTold
}

// errTold is the error of a table whose mistakes were told when it was read.
var errTold = errors.New("told already")
