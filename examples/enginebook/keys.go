package main

import (
	"encoding"
	"reflect"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// A fieldKey is a key of the file, and what its value is.
type fieldKey struct {
	name  string
	value valueKind
}

type valueKind int

const (
	number valueKind = iota
	text
	quantity // text that is a number with its unit
)

// accepted says what a value of the kind looks like.
func (k valueKind) accepted() string {
	switch k {
	case text:
		return "text in quotes"
	case quantity:
		return `text in quotes, a quantity with its unit, such as "20 mm", "3/4 in" or "26 deg"`
	}
	return "a plain number without quotes, such as 12 or -1.5"
}

// kindOf returns what a value of the type is in the file.
func kindOf(t reflect.Type) valueKind {
	switch unmarshals := reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()); {
	case t == reflect.TypeFor[eccentric.Rod](), unmarshals && t.PkgPath() == reflect.TypeFor[units.Length]().PkgPath():
		return quantity
	case unmarshals, t.Kind() == reflect.String:
		return text
	}
	return number
}

// fieldKeys returns the TOML keys of a struct and of the structs in it.
func fieldKeys(prefix string, v any) []fieldKey {
	var keys []fieldKey
	t := reflect.TypeOf(v)
	for i := range t.NumField() {
		field := t.Field(i)
		key := field.Tag.Get("toml")
		if key == "" {
			continue
		}
		inner, suffix := field.Type, "."
		if inner.Kind() == reflect.Slice {
			inner, suffix = inner.Elem(), "[]."
		}
		if inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		kind := kindOf(inner)
		if inner.Kind() == reflect.Struct && kind == number {
			keys = append(keys, fieldKeys(prefix+key+suffix, reflect.Zero(inner).Interface())...)
		} else {
			keys = append(keys, fieldKey{prefix + key, kind})
		}
	}
	return keys
}
