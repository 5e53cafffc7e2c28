package seal

import (
	"embed"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/material"
)

const fail = fault.Package("seal")

//go:embed tables/*.csv
var files embed.FS

// A printed row is what a source says of one material, or of several alike.
type printed[T any] struct {
	materials []string
	row       T
}

// A keyed table is one whose rows are looked up by material.
type keyed[T any] struct {
	table table.Table[printed[T]]
	name  func(row *T) *string // where the row has its material
	once  table.Once[[]T]
}

// all returns a row for each material and each printed row that speaks of it. The
// slice is shared.
func (k *keyed[T]) all() []T {
	return k.once.Get(func() []T {
		var all []T
		for _, p := range k.table.Rows() {
			for _, m := range p.materials {
				row := p.row
				*k.name(&row) = m
				all = append(all, row)
			}
		}
		return all
	})
}

// of returns the rows of a material; none is an error that lists the materials
// that have any.
func (k *keyed[T]) of(m material.Material) ([]T, error) {
	var rows []T
	all := k.all()
	for i := range all {
		if *k.name(&all[i]) == m.Name {
			rows = append(rows, all[i])
		}
	}
	switch {
	case m.Name == "":
		return nil, fail.Missing("material of the gasket", k.known())
	case rows == nil:
		return nil, fail.Unknown("material of the gasket", m.Name, k.known())
	}
	return rows, nil
}

// known lists the materials that have rows.
func (k *keyed[T]) known() string {
	var known []string
	all := k.all()
	for i := range all {
		if name := *k.name(&all[i]); !slices.Contains(known, name) {
			known = append(known, name)
		}
	}
	return strings.Join(known, ", ")
}

// readKeys returns the materials of a row.
func readKeys(r *table.Row) []string {
	keys := strings.Split(r.Text("material"), ";")
	for i := range keys {
		keys[i] = strings.TrimSpace(keys[i])
	}
	return keys
}
