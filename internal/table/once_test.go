package table_test

import (
	"sync"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/internal/table"
)

func TestOnce(t *testing.T) {
	var made table.Once[int]
	calls := 0
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			if got := made.Get(func() int { calls++; return 7 }); got != 7 {
				t.Errorf("got %d", got)
			}
		})
	}
	wait.Wait()
	if calls != 1 {
		t.Errorf("made %d times", calls)
	}
}

func TestTable(t *testing.T) {
	files := fstest.MapFS{"a.csv": {Data: []byte("# title: t\n# edition: 1\n# unit: mm\n# held: as typed\n# errata: none\n# source trade | common practice | |\nsize,source,locator\n3,trade,\n4,trade,\n")}}
	sizes := table.Table[int]{FS: files, Name: "a.csv", Row: func(r *table.Row) int {
		r.Ref()
		return r.Int("size")
	}}
	if rows := sizes.Rows(); len(rows) != 2 || rows[1] != 4 || &rows[0] != &sizes.Rows()[0] {
		t.Error(rows)
	}
	defer func() {
		if recover() == nil {
			t.Error("a table that is not there was read")
		}
	}()
	(&table.Table[int]{FS: files, Name: "b.csv"}).Rows()
}
