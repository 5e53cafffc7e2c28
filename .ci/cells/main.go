// Command cells changes one digit of one cell of a shipped table at a time and
// runs the tests, which must fail: a figure that can be mistyped without a test
// that notices is not checked.
//
//	go run ./.ci/cells [-every N] [-table PATTERN] [-floor SHARE] [-v] [-keep] [PACKAGE FOLDER...]
//
// Each package that embeds tables/*.csv is compiled once with its tests. The tables
// stand in that binary byte for byte, so that a cell is changed there, in place and
// at the same length, and the tree is not touched. A test that reads the file itself
// does not see the change, and a table that does not stand in the binary exactly
// once ends the run.
//
// What is changed: a filled cell that is a decimal number, a fraction or a mixed
// number, with mm or in behind it or not, of a column most of whose filled cells
// are. The header, the columns source and locator, and texts stay. Which digit
// becomes which is drawn from the table, the row and the column, so that every run
// tries the same.
//
// What counts as found: a test, an example or the seeds of a fuzz target fail, the
// table is refused when it is read, or the binary crashes or hangs. Tests that take
// more than a second are left out, and random tests draw anew, as always. A
// change that the package's own tests miss goes to the library's packages that
// import it; the pages of the programs, whose texts are kept from their own output,
// are no check and are not asked.
//
// It lists the changes that live, each table's share, and the whole, for which the
// share of each table counts by the number of its cells. It ends with 1 when the
// whole is below the floor.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/valvechest/valvechest/internal/evidence"
	"github.com/valvechest/valvechest/internal/mistake"
)

func main() {
	every := flag.Int("every", 1, "`number`: one cell of so many is tried, spread over each table")
	pattern := flag.String("table", "*", "`pattern` of the tables' names, such as bs*.csv")
	floor := flag.Float64("floor", 0.95, "`share` of the changes that must be found")
	told := flag.Bool("v", false, "tell which test finds each of the others too")
	keep := flag.Bool("keep", false, "write what was measured into "+evidence.CellsFile)
	flag.Parse()
	if *every < 1 {
		fail(fmt.Errorf("-every %d: 1 or more is accepted", *every))
	}
	scratch, err := os.MkdirTemp("", "cells")
	if err != nil {
		fail(err)
	}
	measures, err := try(scratch, flag.Args(), *pattern, *every, *told)
	if err == nil && *keep {
		err = evidence.Keep(evidence.CellsFile, measures)
	}
	if err := errors.Join(err, os.RemoveAll(scratch)); err != nil {
		fail(err)
	}
	os.Exit(report(measures, *floor))
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, "cells:", err)
	os.Exit(2)
}

// report prints the shares and returns the status to end with.
func report(measures []evidence.Measure, floor float64) int {
	for _, m := range measures {
		fmt.Printf("%-46s %v\n", m.Of, m)
	}
	share := evidence.Whole(measures)
	fmt.Printf("whole: %v, %.1f %% by the tables' cells, floor %.0f %%\n", evidence.Sum("", measures), 100*share, 100*floor)
	if !(share >= floor) {
		return 1
	}
	return 0
}

// try changes cells of the tables of the packages in the folders, or of all, and
// prints what lives as it goes.
func try(scratch string, folders []string, pattern string, every int, told bool) ([]evidence.Measure, error) {
	l, err := newLibrary(scratch)
	if err != nil {
		return nil, err
	}
	workers := []*worker{newWorker(l, "a"), newWorker(l, "b")}
	wanted := map[string]bool{}
	for _, folder := range folders {
		wanted[filepath.ToSlash(filepath.Clean(folder))] = true
	}
	var measures []evidence.Measure
	for _, p := range l.packages {
		if len(folders) > 0 && !wanted[p.Folder] {
			continue
		}
		for _, name := range p.Embeds {
			match, err := filepath.Match("tables/"+pattern, name)
			if err != nil {
				return nil, err
			}
			if strings.HasPrefix(name, "tables/") {
				delete(wanted, p.Folder)
			}
			if !match {
				continue
			}
			t, err := evidence.ReadTable(os.DirFS("."), p.Folder+"/"+name)
			if err != nil {
				return nil, err
			}
			m, err := tryTable(workers, p, t, every, told)
			if err != nil {
				return nil, err
			}
			if m.Tried > 0 {
				measures = append(measures, m)
			}
		}
	}
	for _, p := range l.packages {
		if p.Tested() {
			if test, err := p.Fails(p.binary); test != "" || err != nil {
				return nil, fmt.Errorf("%s: %s fails without a mistake (%v): leave the tree alone during a run", p.Folder, test, err)
			}
		}
	}
	for folder := range wanted {
		return nil, fmt.Errorf("%s is no package that embeds tables", folder)
	}
	return measures, nil
}

func tryTable(workers []*worker, p *tested, t *evidence.Table, every int, told bool) (evidence.Measure, error) {
	sample := changes(t, every)
	found := make([]string, len(sample))
	err := mistake.Two(len(sample), func(w, i int) (err error) {
		found[i], err = workers[w].notices(p, t, sample[i])
		return err
	})
	if err != nil {
		return evidence.Measure{}, err
	}
	m := evidence.Measure{Of: t.Path, All: len(t.Cells), Tried: len(sample)}
	for i, test := range found {
		c := sample[i]
		change := fmt.Sprintf("%s:%d %s %s -> %s", t.Path, c.line, c.column, c.was, c.now)
		switch {
		case test == "":
			fmt.Printf("%s lives (row %s)\n", change, c.row)
			continue
		case told:
			fmt.Printf("%s: %s\n", change, test)
		}
		m.Found++
	}
	return m, nil
}
