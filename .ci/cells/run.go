package main

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
	"sync"
	"syscall"
	"time"
)

const module = "github.com/valvechest/valvechest/"

// A pkg is a package of this module that has tests.
type pkg struct {
	path, folder string
	tables       []string        // that it embeds, as its files name them
	imports      map[string]bool // of its files and its tests
	compiled     sync.Once
	binary       string     // with the tests
	tests        [][]string // their names, the quick ones and the slower ones
	err          error
}

// list returns the packages of the library, and who imports whom.
func list() ([]*pkg, error) {
	const format = `{{.ImportPath}};{{join .EmbedFiles ","}};` +
		`{{join .Imports ","}},{{join .TestImports ","}},{{join .XTestImports ","}}`
	out, err := exec.Command("go", "list", "-f", format, "./...").Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	var all []*pkg
	for line := range strings.Lines(string(out)) {
		fields := strings.Split(strings.TrimSpace(line), ";")
		folder, inside := strings.CutPrefix(fields[0], module)
		if !inside || strings.HasPrefix(folder, "internal/") || strings.HasPrefix(folder, "examples/") {
			continue
		}
		p := &pkg{path: fields[0], folder: folder, imports: map[string]bool{}}
		for name := range strings.SplitSeq(fields[1], ",") {
			if strings.HasPrefix(name, "tables/") && strings.HasSuffix(name, ".csv") {
				p.tables = append(p.tables, name)
			}
		}
		for path := range strings.SplitSeq(fields[2], ",") {
			p.imports[path] = true
		}
		all = append(all, p)
	}
	return all, nil
}

// passed is a line about a test, an example or a fuzz target that passed.
var passed = regexp.MustCompile(`^--- PASS: (\S+) \((\d+\.\d+)s\)$`)

// compile makes the binary, once, and measures which tests are quick. They must all
// pass as things are.
func (p *pkg) compile(scratch string) error {
	p.compiled.Do(func() {
		p.binary = filepath.Join(scratch, strings.ReplaceAll(p.folder, "/", "+"))
		if out, err := exec.Command("go", "test", "-c", "-o", p.binary, "./"+p.folder).CombinedOutput(); err != nil {
			p.err = fmt.Errorf("%s does not compile: %w\n%s", p.folder, err, out)
			return
		}
		if _, err := os.Stat(p.binary); errors.Is(err, os.ErrNotExist) {
			return // a package without tests
		}
		out, err := p.command(p.binary, "-test.v").CombinedOutput()
		if err != nil {
			p.err = fmt.Errorf("%s: the tests fail as things are: %w\n%s", p.folder, err, out)
			return
		}
		p.sort(out)
	})
	return p.err
}

// sort makes the quick tests and the slower ones from what a run of all says. The
// machine may have other work, so that what seems slow is asked again, alone, for
// the time that it computes.
func (p *pkg) sort(out []byte) {
	tests := make([][]string, 2)
	lines := bufio.NewScanner(bytes.NewReader(out))
	for lines.Scan() {
		m := passed.FindStringSubmatch(lines.Text())
		if m == nil {
			continue
		}
		if took, _ := strconv.ParseFloat(m[2], 64); took <= 0.02 {
			tests[0] = append(tests[0], m[1])
			continue
		} else if took > 0.5 {
			command := p.command(p.binary, "-test.run=^"+m[1]+"$")
			if p.err = errors.Join(p.err, command.Run()); p.err != nil {
				return
			}
			if command.ProcessState.UserTime() > time.Second {
				continue
			}
		}
		tests[1] = append(tests[1], m[1])
	}
	p.tests = slices.DeleteFunc(tests, func(names []string) bool { return len(names) == 0 })
}

// command runs tests of the package, in its folder.
func (p *pkg) command(binary string, arguments ...string) *exec.Cmd {
	arguments = append(arguments, "-test.short", "-test.timeout=2m")
	if p.imports["pgregory.net/rapid"] {
		arguments = append(arguments, "-rapid.seed=1", "-rapid.nofailfile", "-rapid.shrinktime=1ms")
	}
	command := exec.Command(binary, arguments...)
	command.Dir = filepath.FromSlash(p.folder)
	return command
}

// A worker changes its own copies of the binaries.
type worker struct {
	scratch, name string
	copies        map[*pkg]*binary
}

func newWorker(scratch, name string) *worker { return &worker{scratch, name, map[*pkg]*binary{}} }

// A binary is a copy of a test binary with the places of the tables in it.
type binary struct {
	file   string
	tables map[string]int64
}

// notices returns the test that fails with the mistake of a cell, or nothing.
func (w *worker) notices(packages []*pkg, owner *pkg, t *csvTable, c cell) (string, error) {
	if test, err := w.fails(owner, owner, t, c); test != "" || err != nil {
		return test, err
	}
	for _, p := range packages {
		if p.imports[owner.path] {
			if test, err := w.fails(p, owner, t, c); test != "" || err != nil {
				return p.folder + " " + test, err
			}
		}
	}
	return "", nil
}

// failed is the first line about a test that fails.
var failed = regexp.MustCompile(`(?m)^--- FAIL: (\S+)`)

// fails returns the test of a package that fails with the mistake, or nothing.
func (w *worker) fails(p, owner *pkg, t *csvTable, c cell) (test string, err error) {
	if err := p.compile(w.scratch); err != nil {
		return "", err
	}
	if len(p.tests) == 0 {
		return "", nil
	}
	b, place, err := w.locate(p, owner, t)
	if err != nil || place < 0 {
		return "", err
	}
	if err := write(b.file, place+int64(c.at), c.digit); err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, write(b.file, place+int64(c.at), t.text[c.at])) }()
	for _, names := range p.tests {
		run := "-test.run=^(" + strings.Join(names, "|") + ")$"
		out, err := p.command(b.file, "-test.failfast", run).CombinedOutput()
		for errors.Is(err, syscall.ETXTBSY) { // a process that is being started still has the file
			out, err = p.command(b.file, "-test.failfast", run).CombinedOutput()
		}
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			if m := failed.FindSubmatch(out); m != nil {
				return string(m[1]), nil
			}
			return "crash", nil
		} else if err != nil {
			return "", err
		}
	}
	return "", nil
}

// locate returns the copy of the package's binary and the place of the table in it,
// below zero where a package that imports the owner does not link the table.
func (w *worker) locate(p, owner *pkg, t *csvTable) (*binary, int64, error) {
	b := w.copies[p]
	if b == nil {
		b = &binary{p.binary + "." + w.name, map[string]int64{}}
		data, err := os.ReadFile(p.binary)
		if err == nil {
			err = os.WriteFile(b.file, data, 0o777)
		}
		if err != nil {
			return nil, 0, err
		}
		w.copies[p] = b
	}
	if place, ok := b.tables[t.name]; ok {
		return b, place, nil
	}
	data, err := os.ReadFile(p.binary)
	if err != nil {
		return nil, 0, err
	}
	place := int64(bytes.Index(data, t.text))
	if times := bytes.Count(data, t.text); times > 1 || times == 0 && p == owner {
		return nil, 0, fmt.Errorf("%s is in the tests of %s %d times", t.name, p.folder, times)
	}
	b.tables[t.name] = place
	return b, place, nil
}

func write(file string, at int64, digit byte) error {
	f, err := os.OpenFile(file, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.WriteAt([]byte{digit}, at)
	return errors.Join(err, f.Close())
}
