// Package show gives results their String: every field by its name in plain words,
// so that a program's author who prints a result sees what it holds.
package show

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode"
)

// Fields returns the exported fields of a struct in their order, as "min 5.978 mm,
// max 5.99 mm, from ISO 286". A field prints as its own String has it; a plain
// number to six significant digits; a struct without a String of its own in round
// brackets and a list in square ones. Sources, in a field Refs, are told once: not
// again of the parts of a result that has some. Fields that hold nothing, a nil, an
// empty list or text or a struct that is all zeros, are left out; a length, a number
// or a truth value that is zero is an answer and stays, unless JSON leaves it out too.
func Fields(result any) string {
	return fields(reflect.ValueOf(result), true)
}

func fields(of reflect.Value, sources bool) string {
	refs, told := of.Type().FieldByName("Refs")
	own := len(refs.Index) == 1
	var parts []string
	for i := range of.NumField() {
		field, value := of.Type().Field(i), of.Field(i)
		switch {
		case !field.IsExported() || empty(value) || field.Name == "Refs" && !sources:
		case value.IsZero() && strings.Contains(field.Tag.Get("json"), ",omit"):
		case field.Anonymous && value.Kind() == reflect.Struct:
			parts = append(parts, fields(value, sources && !own))
		default:
			parts = append(parts, words(field.Name)+" "+text(value, sources && !told))
		}
	}
	return strings.Join(parts, ", ")
}

// empty reports whether a value holds nothing that could be an answer.
func empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface, reflect.Func:
		return v.IsNil()
	case reflect.Slice, reflect.Map, reflect.String:
		return v.Len() == 0
	case reflect.Struct:
		return v.IsZero() && !opaque(v.Type())
	}
	return false
}

// opaque reports whether a struct shows no field, as a quantity does: its zero is a
// figure, unless it is a list.
func opaque(t reflect.Type) bool {
	for i := range t.NumField() {
		if f := t.Field(i); f.IsExported() || f.Type.Kind() == reflect.Pointer || f.Type.Kind() == reflect.Slice {
			return false
		}
	}
	return true
}

func text(v reflect.Value, sources bool) string {
	printer, prints := v.Interface().(fmt.Stringer)
	if v.Kind() == reflect.Struct && (!prints || printer.String() == fields(v, true)) {
		return "(" + fields(v, sources) + ")"
	}
	if prints {
		return printer.String()
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		return text(v.Elem(), sources)
	case reflect.Slice, reflect.Array:
		all := make([]string, v.Len())
		for i := range all {
			all[i] = text(v.Index(i), sources)
		}
		return "[" + strings.Join(all, "; ") + "]"
	case reflect.Bool:
		if v.Bool() {
			return "yes"
		}
		return "no"
	case reflect.Float64:
		return strconv.FormatFloat(v.Float()+0, 'g', 6, 64)
	}
	return fmt.Sprint(v.Interface())
}

// words returns a field's name as words: "shaft hot" for ShaftHot, "max mm" for
// MaxMM; what a result is from for Refs.
func words(name string) string {
	if name == "Refs" {
		return "from"
	}
	letters := []rune(name)
	var b strings.Builder
	for i, r := range letters {
		if i > 0 && unicode.IsUpper(r) &&
			(!unicode.IsUpper(letters[i-1]) || i+1 < len(letters) && unicode.IsLower(letters[i+1])) {
			b.WriteByte(' ')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}
