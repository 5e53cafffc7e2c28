package check_test

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

// Every type of the module that stands in an answer is kept as JSON and read
// back to the same JSON, as it was answered and as its zero value.
func TestAnswersReadBack(t *testing.T) {
	seen := map[reflect.Type]bool{}
	for name, ask := range questions {
		collect(reflect.ValueOf(ask()), func(v reflect.Value) {
			again(t, name, v)
			if zero := reflect.Zero(v.Type()); !seen[v.Type()] {
				seen[v.Type()] = true
				again(t, name+", zero value", zero)
			}
		})
	}
	if len(seen) < 60 {
		t.Errorf("only %d types were looked at", len(seen))
	}
}

// again marshals a value, reads it into a new one and marshals that.
func again(t *testing.T, name string, v reflect.Value) {
	t.Helper()
	first, err := json.Marshal(v.Interface())
	if err != nil {
		t.Errorf("%s: %v: %v", name, v.Type(), err)
		return
	}
	back := reflect.New(v.Type())
	if err := json.Unmarshal(first, back.Interface()); err != nil {
		t.Errorf("%s: %v: %s: %v", name, v.Type(), first, err)
		return
	}
	if second, err := json.Marshal(back.Interface()); err != nil || !bytes.Equal(first, second) {
		t.Errorf("%s: %v: %.300s reads back as %.300s (%v)", name, v.Type(), first, second, err)
	}
}

// collect calls do with every value in v, as deep as a caller from outside can
// go, whose type this module declares.
func collect(v reflect.Value, do func(reflect.Value)) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		if !v.IsNil() {
			collect(v.Elem(), do)
		}
		return
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				collect(v.Field(i), do)
			}
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			collect(v.Index(i), do)
		}
	}
	if v.IsValid() && strings.HasPrefix(v.Type().PkgPath(), strings.TrimSuffix(module, "/")) {
		do(v)
	}
}
