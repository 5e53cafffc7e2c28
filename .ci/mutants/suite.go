package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/valvechest/valvechest/internal/mistake"
)

// A suite is the tests of a package in a binary that has the mistakes of a package to
// be switched on.
type suite struct {
	*mistake.Package
	binary string
	tests  []*test
}

type test struct {
	name string
	took time.Duration
	runs map[int]bool // mistakes whose places it runs
}

// newSuite runs each test, example and seeds of fuzz targets by itself, without a
// mistake. One that then fails, as it counts what is allocated, or figures that the
// compiler would round otherwise, is left out.
func newSuite(scratch string, p *mistake.Package, binary string) (*suite, error) {
	s := &suite{Package: p, binary: binary}
	if _, err := os.Stat(binary); errors.Is(err, fs.ErrNotExist) {
		return s, nil // a package without tests
	}
	list, err := p.Command(binary, time.Minute, "-test.list=.").Output()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.Folder, err)
	}
	for name := range strings.FieldsSeq(string(list)) {
		if !strings.HasPrefix(name, "Benchmark") {
			s.tests = append(s.tests, &test{name: name, runs: map[int]bool{}})
		}
	}
	err = mistake.Two(len(s.tests), func(worker, i int) error {
		return s.measure(s.tests[i], filepath.Join(scratch, "run"+strconv.Itoa(worker)))
	})
	s.tests = slices.DeleteFunc(s.tests, func(t *test) bool { return t.took == 0 })
	return s, err
}

func (s *suite) measure(t *test, file string) error {
	if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	one := s.Command(s.binary, 10*time.Minute, mistake.Only(t.name))
	one.Env = append(os.Environ(), "MISTAKES_RUN="+file)
	if out, err := one.CombinedOutput(); err != nil {
		fmt.Printf("%s: %s is left out, as it fails without a mistake: %s\n", s.Folder, t.name, firstLines(out))
		return nil
	}
	t.took = max(1, one.ProcessState.UserTime()+one.ProcessState.SystemTime())
	text, err := os.ReadFile(file)
	for line := range strings.FieldsSeq(string(text)) {
		if id, err := strconv.Atoi(line); err == nil {
			t.runs[id] = true
		}
	}
	return err
}

func firstLines(out []byte) string {
	lines := strings.SplitN(strings.TrimSpace(string(out)), "\n", 4)
	return strings.Join(lines[:min(len(lines), 3)], "; ")
}

// finds switches a mistake on, and returns the first test that fails of those that run
// its place, quick ones first, and nothing where none does.
func (s *suite) finds(id int) (string, error) {
	return s.first(s.binary, func(t *test) bool { return t.runs[id] }, "MISTAKE="+strconv.Itoa(id))
}

// findsAlone asks all tests, in a binary that has one mistake.
func (s *suite) findsAlone(binary string) (string, error) {
	return s.first(binary, func(*test) bool { return true })
}

func (s *suite) first(binary string, asked func(*test) bool, environment ...string) (string, error) {
	for _, speed := range []struct{ over, to time.Duration }{
		{0, time.Second / 10}, {time.Second / 10, time.Second}, {time.Second, time.Hour},
	} {
		var names []string
		took := time.Duration(0)
		for _, t := range s.tests {
			if asked(t) && t.took > speed.over && t.took <= speed.to {
				names = append(names, t.name)
				took += t.took
			}
		}
		if len(names) == 0 {
			continue
		}
		if test, err := s.FailsOf(binary, names, took, environment...); test != "" || err != nil {
			return test, err
		}
	}
	return "", nil
}
