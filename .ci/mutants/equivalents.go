package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Equivalents are the mistakes judged to change nothing that can be told from
// outside.
type equivalents []*equivalent

type equivalent struct {
	file, line, what string
	fits             bool
}

const equivalentsFile = ".ci/mutants/equivalent.csv"

func readEquivalents() (equivalents, error) {
	f, err := os.Open(filepath.FromSlash(equivalentsFile))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", equivalentsFile, err)
	}
	if len(rows) == 0 || !slices.Equal(rows[0], []string{"file", "line", "what", "reason"}) {
		return nil, fmt.Errorf("%s: the columns are file, line, what, reason", equivalentsFile)
	}
	var all equivalents
	for _, row := range rows[1:] {
		if slices.Contains(row, "") {
			return nil, fmt.Errorf("%s: a cell is blank in %q", equivalentsFile, row)
		}
		all = append(all, &equivalent{file: row[0], line: row[1], what: row[2]})
	}
	return all, nil
}

// numbered is a change with its place in the list of all.
type numbered struct {
	*change
	id int
}

// without returns the changes that are not among them.
func (all equivalents) without(changes []*change) []numbered {
	var rest []numbered
	for id, c := range changes {
		judged := false
		for _, e := range all {
			if e.file == c.file && e.line == c.text && e.what == c.what {
				e.fits, judged = true, true
			}
		}
		if !judged {
			rest = append(rest, numbered{c, id})
		}
	}
	return rest
}

// unused complains of those in the folders that fit nothing.
func (all equivalents) unused(folders []string) error {
	var errs []error
	for _, e := range all {
		folder := filepath.ToSlash(filepath.Dir(e.file))
		asked := len(folders) == 0 || slices.ContainsFunc(folders, func(f string) bool {
			return filepath.ToSlash(filepath.Clean(f)) == folder
		})
		if asked && !e.fits {
			errs = append(errs, fmt.Errorf("%s: %s fits no mistake: %s: %s",
				equivalentsFile, e.file, e.what, strings.TrimSpace(e.line)))
		}
	}
	return errors.Join(errs...)
}
