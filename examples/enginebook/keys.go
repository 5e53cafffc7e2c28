package main

import (
	"encoding"
	"reflect"
)

// A fieldKey is a key of the file, and whether its value is text.
type fieldKey struct {
	name string
	text bool
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
		text := reflect.PointerTo(inner).Implements(reflect.TypeFor[encoding.TextUnmarshaler]())
		if inner.Kind() == reflect.Struct && !text {
			keys = append(keys, fieldKeys(prefix+key+suffix, reflect.Zero(inner).Interface())...)
		} else {
			keys = append(keys, fieldKey{prefix + key, text || inner.Kind() == reflect.String})
		}
	}
	return keys
}
