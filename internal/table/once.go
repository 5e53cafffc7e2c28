package table

import (
	"io/fs"
	"sync"
)

// A Once holds what is made on first use. Declared as a package-level variable
// it costs nothing in a program that never asks for it, where a
// [sync.OnceValue] allocates before main runs. The zero value is ready.
type Once[T any] struct {
	once  sync.Once
	value T
}

// Get returns what read made on the first call, whichever call that was.
func (o *Once[T]) Get(read func() T) T {
	o.once.Do(func() { o.value = read() })
	return o.value
}

// A Table is a table that is read on first use. Declared as
// a package-level variable it costs nothing before that; give FS as a pointer to
// the embedded files.
type Table[T any] struct {
	FS   fs.FS
	Name string
	Row  func(*Row) T
	rows Once[[]T]
}

// Rows returns the rows. The slice is shared: callers copy what they hand out.
// It panics on a table that [Read] refuses, which the package's own tests rule
// out.
func (t *Table[T]) Rows() []T { return t.rows.Get(t.read) }

func (t *Table[T]) read() []T {
	rows, _, err := Read(t.FS, t.Name, t.Row)
	if err != nil {
		panic(err)
	}
	return rows
}
