package check

import (
	"encoding/csv"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/internal/table"
)

// Cells reads a table, tables/NAME.csv, with other texts in a cell of its first row, of
// which some must be refused and the others accepted. They have no comma and no quote.
func Cells[T any](
	t testing.TB, tables fs.FS, name string, row func(*table.Row) T, column string, refused, accepted []string,
) {
	t.Helper()
	name = "tables/" + name + ".csv"
	for i, text := range slices.Concat(refused, accepted) {
		_, _, err := table.Read(withCell(t, tables, name, column, text), name, row)
		if (err != nil) != (i < len(refused)) {
			t.Errorf("%s: %s of %q: %v", name, column, text, err)
		}
	}
}

// withCell returns a table with another text in a cell of its first row.
func withCell(t testing.TB, fsys fs.FS, name, column, text string) fs.FS {
	t.Helper()
	data, err := fs.ReadFile(fsys, name)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(data), "\n")
	head := slices.IndexFunc(lines, func(line string) bool { return line != "" && line[0] != '#' })
	rows, err := csv.NewReader(strings.NewReader(lines[head] + "\n" + lines[head+1])).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	i := slices.Index(rows[0], column)
	if i < 0 {
		t.Fatalf("%s has no column %q", name, column)
	}
	rows[1][i] = text
	var line strings.Builder
	w := csv.NewWriter(&line)
	if err := w.Write(rows[1]); err != nil {
		t.Fatal(err)
	}
	w.Flush()
	lines[head+1] = strings.TrimSuffix(line.String(), "\n")
	return fstest.MapFS{name: {Data: []byte(strings.Join(lines, "\n"))}}
}
