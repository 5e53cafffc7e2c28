package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"

	"github.com/valvechest/valvechest/internal/evidence"
	"github.com/valvechest/valvechest/internal/mistake"
)

// A library is the packages with their test binaries, compiled when they are asked for.
type library struct {
	scratch  string
	packages []*tested
}

type tested struct {
	*mistake.Package
	once   sync.Once
	binary string
	err    error
}

func newLibrary(scratch string) (*library, error) {
	packages, err := mistake.Library()
	l := &library{scratch: scratch}
	for _, p := range packages {
		l.packages = append(l.packages, &tested{Package: p})
	}
	return l, err
}

func (l *library) compile(p *tested) error {
	p.once.Do(func() {
		p.binary = filepath.Join(l.scratch, strings.ReplaceAll(p.Folder, "/", "+"))
		if out, err := exec.Command("go", "test", "-c", "-o", p.binary, "./"+p.Folder).CombinedOutput(); err != nil {
			p.err = fmt.Errorf("%s does not compile: %w\n%s", p.Folder, err, out)
			return
		}
		if _, err := os.Stat(p.binary); !errors.Is(err, os.ErrNotExist) { // as of a package without tests
			p.err = p.Measure(p.binary)
		}
	})
	return p.err
}

// A worker changes its own copies of the binaries.
type worker struct {
	*library
	name   string
	copies map[*tested]*binary
}

func newWorker(l *library, name string) *worker { return &worker{l, name, map[*tested]*binary{}} }

// A binary is a copy of a test binary with the places of the tables in it.
type binary struct {
	file   string
	tables map[string]int64
}

// notices returns the test that fails with the mistake of a cell, or nothing.
func (w *worker) notices(owner *tested, t *evidence.Table, c change) (string, error) {
	if test, err := w.fails(owner, owner, t, c); test != "" || err != nil {
		return test, err
	}
	for _, p := range w.packages {
		if p.Imports(owner.Package) {
			if test, err := w.fails(p, owner, t, c); test != "" || err != nil {
				return p.Folder + " " + test, err
			}
		}
	}
	return "", nil
}

// fails returns the test of a package that fails with the mistake, or nothing.
func (w *worker) fails(p, owner *tested, t *evidence.Table, c change) (test string, err error) {
	if err := w.compile(p); err != nil || !p.Tested() {
		return "", err
	}
	b, place, err := w.locate(p, owner, t)
	if err != nil || place < 0 {
		return "", err
	}
	if err := write(b.file, place+int64(c.at), c.digit); err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, write(b.file, place+int64(c.at), t.Text[c.at])) }()
	return p.Fails(b.file)
}

// locate returns the copy of the package's binary and the place of the table in it,
// below zero where a package that imports the owner does not link the table.
func (w *worker) locate(p, owner *tested, t *evidence.Table) (*binary, int64, error) {
	b := w.copies[p]
	if b != nil {
		if place, ok := b.tables[t.Path]; ok {
			return b, place, nil
		}
	}
	data, err := os.ReadFile(p.binary)
	if err != nil {
		return nil, 0, err
	}
	if b == nil {
		b = &binary{p.binary + "." + w.name, map[string]int64{}}
		if err := os.WriteFile(b.file, data, 0o777); err != nil {
			return nil, 0, err
		}
		w.copies[p] = b
	}
	place := int64(bytes.Index(data, t.Text))
	if times := bytes.Count(data, t.Text); times > 1 || times == 0 && p == owner {
		return nil, 0, fmt.Errorf("%s is in the tests of %s %d times", t.Path, p.Folder, times)
	}
	b.tables[t.Path] = place
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
