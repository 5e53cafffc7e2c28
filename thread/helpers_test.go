package thread_test

import (
	"testing"

	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

func set(t testing.TB, text string) gauge.Set {
	t.Helper()
	s, err := gauge.ParseSet(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func size(t testing.TB, text string) gauge.Size {
	t.Helper()
	s, err := gauge.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func metal(t testing.TB, name string) material.Material {
	t.Helper()
	m, err := material.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}
