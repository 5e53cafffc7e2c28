package engine

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
)

// A Document is an engine file that was read, with the place of each key, so
// that every complaint about it can name it.
type Document struct {
	Name string              // of the file
	at   map[string]position // of values and tables, by key: "ports.steam", "fasteners[1].thread"

	refused map[string]bool // keys whose values could not be read
	unclear map[string]bool // tables that have something nobody understands; blank for the file
	partly  map[string]bool // tables of which something could not be read
	cut     bool            // the end was not read
}

func newDocument(name string) *Document {
	return &Document{
		Name: name, at: map[string]position{},
		refused: map[string]bool{}, unclear: map[string]bool{}, partly: map[string]bool{},
	}
}

// refuse marks a key whose value could not be read.
func (d *Document) refuse(key string) {
	d.refused[key] = true
	d.partly[tableOf(key)] = true
}

// tableOf returns the table that holds a key; blank for the file.
func tableOf(key string) string { return key[:max(strings.LastIndexByte(key, '.'), 0)] }

// doubtful reports whether a key that is not there may be meant by something that
// could not be read.
func (d *Document) doubtful(key string) bool {
	table := tableOf(key)
	return d.cut || d.unclear[table] || d.unclear[""] && !d.Has(table)
}

// spoilt reports whether something of a table could not be read.
func (d *Document) spoilt(table string) bool {
	return d.partly[table] || d.doubtful(table+".")
}

// Whole reports whether all of the file could be read.
func (d *Document) Whole() bool {
	return !d.cut && len(d.refused) == 0 && len(d.unclear) == 0 && len(d.partly) == 0
}

// A position is that of a person's editor: both count from one, columns in
// characters.
type position struct{ line, column int }

// Has reports whether the file has the key.
func (d *Document) Has(key string) bool {
	_, ok := d.at[key]
	return ok
}

// Errorf returns a complaint about a key, at the place of its value in the file.
// For a key that is missing it names the place of the table that should hold it.
// An error of a package is told without the name of the package.
func (d *Document) Errorf(key, format string, args ...any) error {
	for i, arg := range args {
		if err, ok := arg.(error); ok {
			args[i] = fault.Plain(err)
		}
	}
	return d.complaint(d.placeOf(key), shown(key)+": "+fmt.Sprintf(format, args...))
}

// shown returns a key as people count: the first of [[covers]] is covers[1].
func shown(key string) string {
	name, rest, ok := strings.Cut(key, "[")
	if !ok {
		return key
	}
	number, rest, _ := strings.Cut(rest, "]")
	if i, err := strconv.Atoi(number); err == nil {
		number = strconv.Itoa(i + 1)
	}
	return name + "[" + number + "]" + rest
}

// placeOf returns the place of a key, of the table that should hold it, or of the
// file.
func (d *Document) placeOf(key string) position {
	for {
		if p, ok := d.at[key]; ok {
			return p
		}
		end := strings.LastIndexAny(key, ".[") // [fits] in place of [[fits]] is fits[0] too
		if end < 0 {
			return position{1, 1}
		}
		key = key[:end]
	}
}

// Errors returns a complaint about a key for each of the errors joined in err;
// nil for none.
func (d *Document) Errors(key string, err error) error {
	if err == nil {
		return nil
	}
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

// Contradicts returns a complaint about two keys that do not go together. It
// stands at the one that comes later in the file and names the place of the other
// too. Says is what the key at its place says, "8 studs".
func (d *Document) Contradicts(key, says, other, otherSays, accepted string) error {
	at, otherAt := d.placeOf(key), d.placeOf(other)
	if comparePlaces(at, otherAt) < 0 {
		key, says, at, other, otherSays, otherAt = other, otherSays, otherAt, key, says, at
	}
	known := d.complaint(otherAt, shown(other)+": "+otherSays)
	return d.complaint(at, fmt.Sprintf("%s: %s, but %v; accepted: %s", shown(key), says, known, accepted))
}

func (d *Document) complaint(p position, said string) error {
	return &complaint{fault.FileName(d.Name), p, said}
}

// A complaint is one mistake of a file, at its place.
type complaint struct {
	file string
	position
	said string
}

func (c *complaint) Error() string {
	return fmt.Sprintf("%s:%d:%d: %s", c.file, c.line, c.column, c.said)
}

func comparePlaces(a, b position) int {
	return cmp.Or(cmp.Compare(a.line, b.line), cmp.Compare(a.column, b.column))
}

// Join joins the complaints about one file, those that are joined already too, in
// order of the file and each once. Errors that name no place of it follow. Of very
// many it keeps the first.
func Join(all ...error) error {
	var places []*complaint
	var others []error
	var walk func(error)
	walk = func(err error) {
		switch e := err.(type) {
		case nil:
		case *complaint:
			places = append(places, e)
		case interface{ Unwrap() []error }:
			for _, inner := range e.Unwrap() {
				walk(inner)
			}
		default:
			if err != errTold {
				others = append(others, err)
			}
		}
	}
	walk(errors.Join(all...))
	slices.SortStableFunc(places, func(a, b *complaint) int { return comparePlaces(a.position, b.position) })
	var sorted []error
	told := map[complaint]bool{}
	for _, c := range places {
		if told[*c] {
			continue
		}
		if len(sorted) == mostTold {
			const format = "more than %d mistakes; the rest is not told"
			sorted = append(sorted, &complaint{c.file, c.position, fmt.Sprintf(format, mostTold)})
			break
		}
		told[*c] = true
		sorted = append(sorted, c)
	}
	return errors.Join(append(sorted, others...)...)
}
