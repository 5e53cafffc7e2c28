package engine

import (
	"encoding"
	"reflect"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// A kind is what stands at a place of the file.
type kind int

const (
	number kind = iota
	text
	quantity // text that is a number with its unit
	length   // a quantity that may go without its unit where the file names one
	measured // text that is a length or of another measure, by what else stands beside it
	words    // a list of texts
	table
	list // of tables
)

// accepted says what a value of the kind looks like.
func (k kind) accepted() string {
	switch k {
	case length:
		return `text in quotes, a length with its unit, such as "20 mm" or "3/4 in"`
	case text:
		return "text in quotes"
	case measured:
		return `text in quotes, in the measure of the reading, such as "-4 deg", "87 %", "never", "0.2 mm" or "steam"`
	case words:
		return `a list of texts in quotes, such as ["ports", "valve"]`
	case quantity:
		return `text in quotes, a quantity with its unit, such as "20 mm", "3/4 in" or "26 deg"`
	}
	return "a plain number without quotes, such as 12 or -1.5"
}

// A place is a key of the schema, with the keys in it where it is a table.
type place struct {
	key   string // as it is written
	field int    // of the struct that holds it
	kind  kind
	keys  map[string]*place
	order []*place
}

// schemaOf returns the places of a struct.
func schemaOf(t reflect.Type) *place {
	s := &place{kind: table, keys: map[string]*place{}}
	for i := range t.NumField() {
		key := t.Field(i).Tag.Get("toml")
		if key == "" {
			continue
		}
		inner := t.Field(i).Type
		p := &place{}
		switch k := kindOf(elementOf(inner)); {
		case k != table:
			p.kind = k
		case inner.Kind() == reflect.Slice:
			p = schemaOf(inner.Elem())
			p.kind = list
		default:
			p = schemaOf(elementOf(inner))
		}
		p.key, p.field = key, i
		s.keys[key] = p
		s.order = append(s.order, p)
	}
	return s
}

// elementOf returns what a pointer points to.
func elementOf(t reflect.Type) reflect.Type {
	if t.Kind() == reflect.Pointer {
		return t.Elem()
	}
	return t
}

// kindOf returns what a value of the type is in the file.
func kindOf(t reflect.Type) kind {
	reads := reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]())
	switch {
	case t.Kind() == reflect.Slice && kindOf(t.Elem()) == text:
		return words
	case t == reflect.TypeFor[Measured]():
		return measured
	case t == reflect.TypeFor[units.Length](), t == reflect.TypeFor[eccentric.Rod](), t == reflect.TypeFor[OffBy]():
		return length
	case reads && t.PkgPath() == reflect.TypeFor[units.Length]().PkgPath():
		return quantity
	case reads, t.Kind() == reflect.String:
		return text
	case t.Kind() == reflect.Struct, t.Kind() == reflect.Slice:
		return table
	}
	return number
}

// names lists the keys of a table in order of the alphabet; those of the file
// itself in the brackets that they are written in.
func (p *place) names() string {
	var all []string
	for _, inner := range p.order {
		switch inner.kind {
		case table:
			all = append(all, "["+inner.key+"]")
		case list:
			all = append(all, "[["+inner.key+"]]")
		default:
			all = append(all, inner.key)
		}
	}
	slices.Sort(all)
	return strings.Join(all, ", ")
}

// accepted says what belongs at the place.
func (p *place) accepted() string {
	switch p.kind {
	case table:
		return "one table, under [" + p.key + "]"
	case list:
		return "a table for each, under [[" + p.key + "]]"
	}
	return p.kind.accepted()
}

// Keys returns the keys of a struct with toml tags as a file has them, those of
// a table behind the name of the table: "cylinder.bore", "fits.nominal".
func Keys(file any) []string {
	var keys []string
	var walk func(prefix string, p *place)
	walk = func(prefix string, p *place) {
		for _, inner := range p.order {
			if inner.kind == table || inner.kind == list {
				walk(prefix+inner.key+".", inner)
			} else {
				keys = append(keys, prefix+inner.key)
			}
		}
	}
	walk("", schemaOf(reflect.TypeOf(file)))
	return keys
}
