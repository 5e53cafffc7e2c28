package main

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/mistake"
)

//go:embed switches.txt
var switches string

// A source is the code of a package, its tests left out.
type source struct {
	*mistake.Package
	files []*file
	fset  *token.FileSet
	info  *types.Info
	types *types.Package
}

func readSource(p *mistake.Package) (*source, error) {
	s := &source{Package: p, fset: token.NewFileSet(), info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}}
	var syntax []*ast.File
	for _, name := range p.Files {
		if name == "" {
			continue
		}
		f := &file{name: p.Folder + "/" + name}
		var err error
		if f.text, err = os.ReadFile(filepath.FromSlash(f.name)); err != nil {
			return nil, err
		}
		if f.syntax, err = parser.ParseFile(s.fset, f.name, f.text, parser.SkipObjectResolution); err != nil {
			return nil, err
		}
		s.files = append(s.files, f)
		syntax = append(syntax, f.syntax)
	}
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}} {{.Export}}", "./"+p.Folder).Output()
	if err != nil {
		return nil, fmt.Errorf("go list of %s: %w", p.Folder, err)
	}
	exports := map[string]string{}
	for line := range strings.Lines(string(out)) {
		path, export, _ := strings.Cut(strings.TrimSpace(line), " ")
		exports[path] = export
	}
	open := func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) }
	s.types, err = (&types.Config{Importer: importer.ForCompiler(s.fset, "gc", open)}).Check(p.Path, s.fset, syntax, s.info)
	return s, err
}

// edited is the text of a file with its mistakes, each to be switched on.
func (f *file) edited() []byte {
	order := make([]int, len(f.edits))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		a, b := f.edits[i], f.edits[j]
		switch {
		case a.at != b.at:
			return a.at - b.at
		case a.closes != b.closes && a.closes:
			return -1
		case a.closes != b.closes:
			return 1
		case a.closes: // what was read later lies within
			return j - i
		}
		return i - j
	})
	var text bytes.Buffer
	at := 0
	for _, i := range order {
		e := f.edits[i]
		text.Write(f.text[at:e.at])
		text.WriteString(e.put)
		at = e.at + e.takes
	}
	text.Write(f.text[at:])
	return text.Bytes()
}

// An overlay gives the compiler other files in the place of the tree's.
type overlay struct {
	scratch string
	replace map[string]string // by the path in the tree
	names   []string          // of the files, from the module's root, in the order of the other ones
}

func newOverlay(scratch string) *overlay {
	return &overlay{scratch: scratch, replace: map[string]string{}}
}

func (o *overlay) put(name string, text []byte) error {
	path, err := filepath.Abs(filepath.FromSlash(name))
	other := filepath.Join(o.scratch, fmt.Sprintf("overlay%d.go", len(o.names)))
	o.replace[path], o.names = other, append(o.names, name)
	return errors.Join(err, os.WriteFile(other, text, 0o666))
}

// named returns which file the compiler speaks of, by either of its paths.
func (o *overlay) named(path string) string {
	for i, name := range o.names {
		if strings.HasSuffix(path, name) || filepath.Base(path) == fmt.Sprintf("overlay%d.go", i) ||
			filepath.Dir(path) == "." && filepath.Base(path) == filepath.Base(name) {
			return name
		}
	}
	return ""
}

var complaint = regexp.MustCompile(`(?m)^(\S+\.go):(\d+):`)

// compile makes the binary of the package's tests. Without success it returns what the
// compiler says.
func (o *overlay) compile(p *mistake.Package, binary string) (says string, err error) {
	list := filepath.Join(o.scratch, "overlay.json")
	data, err := json.Marshal(map[string]any{"Replace": o.replace})
	if err := errors.Join(err, os.WriteFile(list, data, 0o666)); err != nil {
		return "", err
	}
	if err := os.Remove(binary); err != nil && !errors.Is(err, os.ErrNotExist) {
		return "", err
	}
	out, err := exec.Command("go", "test", "-c", "-vet=off", "-gcflags=-e", "-ldflags=-s -w",
		"-overlay", list, "-o", binary, "./"+p.Folder).CombinedOutput()
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		return string(out), nil
	}
	return "", err
}

// switched compiles the tests of packages with all mistakes of the source in one, which
// the environment switches. Mistakes that do not go with it are left to be made alone.
func (s *source) switched(scratch string, tests []*mistake.Package) (changes []*change, binaries []string, err error) {
	alone := map[string]bool{}
	for {
		changes = s.read(alone)
		o := newOverlay(scratch)
		err := o.put(s.Folder+"/mistakes_switched.go", []byte(strings.Replace(switches, "PACKAGE", s.types.Name(), 1)))
		for _, f := range s.files {
			err = errors.Join(err, o.put(f.name, f.edited()))
		}
		if err != nil {
			return nil, nil, err
		}
		binaries = nil
		says := ""
		for i, p := range tests {
			binary := filepath.Join(scratch, "switched"+strconv.Itoa(i))
			if says, err = o.compile(p, binary); err != nil {
				return nil, nil, err
			} else if says != "" {
				break
			}
			binaries = append(binaries, binary)
		}
		if says == "" {
			return changes, binaries, nil
		}
		before := len(alone)
		for _, m := range complaint.FindAllStringSubmatch(says, -1) {
			if name := o.named(m[1]); name != "" {
				alone[name+":"+m[2]] = true
			}
		}
		if len(alone) == before {
			return nil, nil, fmt.Errorf("%s with all its mistakes does not compile:\n%s", s.Folder, says)
		}
	}
}
