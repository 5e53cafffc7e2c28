package mistake

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// A Suite is the tests of a package, each with the time that it takes and the code
// that it runs. One that was not measured has them all together.
type Suite struct {
	*Package
	tests  []test
	blocks map[string][]block // of the code asked for, by file, run or not
}

type test struct {
	name string
	took time.Duration
	runs map[string][]block // by file, from the module's root
}

// A block is code without a branch, from one place of a file to another.
type block struct{ from, to position }

func (b block) holds(at position) bool { return b.from.compare(at) <= 0 && at.compare(b.to) < 0 }

type position struct{ line, column int }

func (a position) compare(b position) int { return cmp.Or(a.line-b.line, a.column-b.column) }

// A Place is one of a file, from the module's root, and the lines of the function
// around it, which are zero where there is none.
type Place struct {
	File         string
	Line, Column int
	First, Last  int
}

// NewSuite runs each test, example and seeds of fuzz targets of the package by
// itself. They must pass, and what they run of the folders of code is kept.
func NewSuite(scratch string, p *Package, code []string) (*Suite, error) {
	s := &Suite{Package: p, tests: []test{}}
	binary, err := filepath.Abs(filepath.Join(scratch, "measured"))
	if err != nil {
		return nil, err
	}
	var paths []string
	for _, folder := range code {
		paths = append(paths, module+folder)
	}
	if err := Compile(p, binary, "-cover", "-coverpkg="+strings.Join(paths, ",")); err != nil {
		if _, missing := os.Stat(binary); missing == nil {
			return nil, err
		}
		return s, nil // a package without tests
	}
	defer os.Remove(binary)
	list, err := p.command(binary, time.Minute, "-test.list=.").Output()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.Folder, err)
	}
	for name := range strings.FieldsSeq(string(list)) {
		if !strings.HasPrefix(name, "Benchmark") {
			s.tests = append(s.tests, test{name: name})
		}
	}
	err = Two(len(s.tests), func(worker, i int) error {
		t := &s.tests[i]
		profile := fmt.Sprint(binary, worker)
		one := p.command(binary, 10*time.Minute, only(t.name), "-test.coverprofile="+profile)
		if out, err := one.CombinedOutput(); err != nil {
			return fmt.Errorf("%s: %s fails as things are: %w\n%s", p.Folder, t.name, err, out)
		}
		t.took = one.ProcessState.UserTime() + one.ProcessState.SystemTime()
		text, err := os.ReadFile(profile)
		t.runs = readProfile(string(text), true)
		if i == 0 {
			s.blocks = readProfile(string(text), false)
		}
		return errors.Join(err, os.Remove(profile))
	})
	return s, err
}

// Compile makes the binary of the package's tests; there is none without tests.
func Compile(p *Package, binary string, flags ...string) error {
	if err := os.Remove(binary); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	arguments := append([]string{"test", "-c", "-vet=off", "-ldflags=-s -w", "-o", binary}, flags...)
	out, err := exec.Command("go", append(arguments, "./"+p.Folder)...).CombinedOutput()
	if err != nil {
		return fmt.Errorf("%s: %w\n%s", p.Folder, err, out)
	}
	_, err = os.Stat(binary)
	return err
}

var blockLine = regexp.MustCompile(`^(\S+):(\d+)\.(\d+),(\d+)\.(\d+) \d+ (\d+)`)

func readProfile(text string, run bool) map[string][]block {
	blocks := map[string][]block{}
	for line := range strings.Lines(text) {
		m := blockLine.FindStringSubmatch(line)
		if m == nil || run && m[6] == "0" {
			continue
		}
		var b block
		fmt.Sscan(strings.Join(m[2:6], " "), &b.from.line, &b.from.column, &b.to.line, &b.to.column)
		name := strings.TrimPrefix(m[1], module)
		blocks[name] = append(blocks[name], b)
	}
	return blocks
}

// covers reports whether a test runs the place. What stands between blocks, such as
// the expressions of cases, counts as run where anything of its function is, and what
// stands outside functions always.
func (s *Suite) covers(t test, p Place) bool {
	at := position{p.Line, p.Column}
	inside := func(b block) bool { return b.holds(at) }
	if p.First == 0 || slices.ContainsFunc(t.runs[p.File], inside) {
		return true
	}
	return !slices.ContainsFunc(s.blocks[p.File], inside) && slices.ContainsFunc(t.runs[p.File], func(b block) bool {
		return p.First <= b.from.line && b.to.line <= p.Last
	})
}

// Finds runs the tests that run the place, quick ones first, in a binary with a
// mistake there, and returns the first that fails, "crash" where it stops or hangs
// without naming one, or nothing.
func (s *Suite) Finds(binary string, p Place) (string, error) {
	return s.fails(binary, s.covering(p))
}

// Covers reports whether any test runs the place.
func (s *Suite) Covers(p Place) bool { return len(s.covering(p)) > 0 }

// Took is how long the tests take that run the place.
func (s *Suite) Took(p Place) (took time.Duration) {
	for _, stage := range s.covering(p) {
		took += stage.took
	}
	return took
}

func (s *Suite) covering(p Place) []stage {
	if s.tests == nil {
		return []stage{{names: []string{".*"}, took: 5 * time.Second}}
	}
	stages := make([]stage, 3)
	for _, t := range s.tests {
		if !s.covers(t, p) {
			continue
		}
		i := 0
		if t.took > time.Second {
			i = 2
		} else if t.took > time.Second/10 {
			i = 1
		}
		stages[i].names = append(stages[i].names, t.name)
		stages[i].took += t.took
	}
	return slices.DeleteFunc(stages, func(s stage) bool { return len(s.names) == 0 })
}
