package engine

import (
	"errors"
	"fmt"
	"strings"
)

// A Document is an engine file that was read, with the place of each key, so
// that every complaint about it can name it.
type Document struct {
	Name string              // of the file
	at   map[string]position // by key: "ports.steam", "fasteners[1].thread"
}

// A position is that of a person's editor: both count from one, columns in
// characters.
type position struct{ line, column int }

// Has reports whether the file has the key.
func (d *Document) Has(key string) bool {
	_, ok := d.at[key]
	return ok
}

// Errorf returns a complaint about a key, at its place in the file. For a key
// that is missing it names the place of the table that should hold it.
func (d *Document) Errorf(key, format string, args ...any) error {
	said := key + ": " + fmt.Sprintf(format, args...)
	for k := key; ; {
		if p, ok := d.at[k]; ok {
			return d.complaint(p, said)
		}
		end := strings.LastIndexAny(k, ".[") // [fits] in place of [[fits]] is fits[0] too
		if end < 0 {
			return d.complaint(position{1, 1}, said)
		}
		k = k[:end]
	}
}

// Errors returns a complaint about a key for each of the errors joined in err.
func (d *Document) Errors(key string, err error) error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return d.Errorf(key, "%v", err)
	}
	var all []error
	for _, e := range joined.Unwrap() {
		all = append(all, d.Errors(key, e))
	}
	return errors.Join(all...)
}

// Missing complains of each key that is not there.
func (d *Document) Missing(accepted string, keys ...string) error {
	var all []error
	for _, key := range keys {
		if !d.Has(key) {
			all = append(all, d.Errorf(key, "missing; accepted: %s", accepted))
		}
	}
	return errors.Join(all...)
}

func (d *Document) complaint(p position, said string) error {
	return fmt.Errorf("%s:%d:%d: %s", d.Name, p.line, p.column, said)
}
