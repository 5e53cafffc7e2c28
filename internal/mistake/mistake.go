// Package mistake runs the tests of this module's packages for the tools in .ci
// that put a mistake into a table or into code and want a test to fail. A package is
// measured once as things are, so that its quick tests are asked first.
package mistake

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"
)

const module = "github.com/valvechest/valvechest/"

// A Package is a package of this module.
type Package struct {
	Path, Folder  string   // the folder from the module's root, with slashes
	Files, Embeds []string // of its own, without tests
	imports       []string // of its files and its tests
	stages        []stage
}

// A stage is tests that are run together.
type stage struct {
	names []string
	took  time.Duration
	slow  bool // more than a second each
}

// Library returns the packages that others import from this module: neither
// programs nor what serves them or the tests.
func Library() ([]*Package, error) {
	const format = `{{.ImportPath}};{{join .GoFiles ","}};{{join .EmbedFiles ","}};` +
		`{{join .Imports ","}},{{join .TestImports ","}},{{join .XTestImports ","}}`
	out, err := exec.Command("go", "list", "-f", format, "./...").Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	var all []*Package
	for line := range strings.Lines(string(out)) {
		fields := strings.Split(strings.TrimSpace(line), ";")
		folder, inside := strings.CutPrefix(fields[0], module)
		if !inside || strings.HasPrefix(folder, "internal/") || strings.HasPrefix(folder, "examples/") {
			continue
		}
		all = append(all, &Package{
			Path: fields[0], Folder: folder, Files: strings.Split(fields[1], ","),
			Embeds: strings.Split(fields[2], ","), imports: strings.Split(fields[3], ","),
		})
	}
	return all, nil
}

// Imports reports whether the package or its tests import the other.
func (p *Package) Imports(other *Package) bool { return slices.Contains(p.imports, other.Path) }

// Tested reports whether Measure found a test.
func (p *Package) Tested() bool { return len(p.stages) > 0 }

var (
	passed = regexp.MustCompile(`^--- PASS: (\S+) \((\d+\.\d+)s\)$`)
	failed = regexp.MustCompile(`(?m)^--- FAIL: (\S+)`)
)

// Measure runs all tests, examples and seeds of fuzz targets in the package's
// binary, which must pass, and learns which are quick. The machine may have other
// work, so that what seems slow is asked again, alone, for the time that it computes.
func (p *Package) Measure(binary string) error {
	out, err := p.Command(binary, 10*time.Minute, "-test.v").CombinedOutput()
	if err != nil {
		return fmt.Errorf("%s: the tests fail as things are: %w\n%s", p.Folder, err, out)
	}
	stages := make([]stage, 3) // quick, up to a second, slow
	lines := bufio.NewScanner(bytes.NewReader(out))
	for lines.Scan() {
		m := passed.FindStringSubmatch(lines.Text())
		if m == nil {
			continue
		}
		seconds, err := strconv.ParseFloat(m[2], 64)
		took := time.Duration(seconds * float64(time.Second))
		if took > time.Second/2 {
			alone := p.Command(binary, 10*time.Minute, Only(m[1]))
			if err = errors.Join(err, alone.Run()); err == nil {
				took = alone.ProcessState.UserTime()
			}
		}
		if err != nil {
			return fmt.Errorf("%s: %s: %w", p.Folder, m[1], err)
		}
		i := 0
		if took > time.Second {
			i = 2
		} else if took > time.Second/50 {
			i = 1
		}
		stages[i].names = append(stages[i].names, m[1])
		stages[i].took += took
	}
	stages[2].slow = true
	p.stages = slices.DeleteFunc(stages, func(s stage) bool { return len(s.names) == 0 })
	return nil
}

// Fails returns the first test that fails in a binary with a mistake in it, "crash"
// where it stops or hangs without naming one, or nothing. Tests that compute for more
// than a second are left out.
func (p *Package) Fails(binary string) (string, error) {
	for _, s := range p.stages {
		if s.slow {
			continue
		}
		if test, err := p.FailsOf(binary, s.names, s.took); test != "" || err != nil {
			return test, err
		}
	}
	return "", nil
}

// FailsOf returns the first of some tests that fails, as Fails does; together they take
// so long as things are.
func (p *Package) FailsOf(binary string, tests []string, took time.Duration, environment ...string) (string, error) {
	for {
		command := p.Command(binary, 20*time.Second+20*took, "-test.failfast", Only(tests...))
		command.Env = append(os.Environ(), environment...)
		out, err := command.CombinedOutput()
		var exit *exec.ExitError
		switch m := failed.FindSubmatch(out); {
		case err == nil:
			return "", nil
		case errors.Is(err, syscall.ETXTBSY): // a process that another has just started still has the file
		case !errors.As(err, &exit):
			return "", err
		case m != nil:
			return string(m[1]), nil
		default:
			return "crash", nil
		}
	}
}

// Only is the flag for the tests of those names.
func Only(names ...string) string { return "-test.run=^(" + strings.Join(names, "|") + ")$" }

// Command runs tests in the package's folder. Random tests draw anew each time, as
// always, and do not look for a shorter case.
func (p *Package) Command(binary string, limit time.Duration, arguments ...string) *exec.Cmd {
	arguments = append(arguments, "-test.short", "-test.timeout="+limit.String())
	if slices.Contains(p.imports, "pgregory.net/rapid") {
		arguments = append(arguments, "-rapid.nofailfile", "-rapid.shrinktime=1ms")
	}
	command := exec.Command(binary, arguments...)
	command.Dir = filepath.FromSlash(p.Folder)
	return command
}

// Two does a piece of work for each number below n, two at a time, and returns what
// went wrong.
func Two(n int, do func(worker, i int) error) error {
	next := make(chan int)
	errs := make(chan error)
	for worker := range 2 {
		go func() {
			var failed error
			for i := range next {
				if failed == nil {
					failed = do(worker, i)
				}
			}
			errs <- failed
		}()
	}
	for i := range n {
		next <- i
	}
	close(next)
	return errors.Join(<-errs, <-errs)
}
