// Command mutants puts one mistake at a time into the code of packages and runs
// their tests, which must fail.
//
//	go run ./.ci/mutants [-every N] [-floor SHARE] [-own] [-v] [-keep] [PACKAGE FOLDER...]
//
// The mistakes are
//
//	comparison   < into <= or >=, == into !=, && into ||
//	arithmetic   + into -, * into /, += into -=, ++ into --
//	constant     a digit of a number changed, a small whole number one more
//	negation     ! or a minus sign dropped
//	return       a function returns zero values at once
//
// The tree is not touched: the compiler is given the changed file in place of the
// other. A mistake that does not compile is not counted. The tests that run the place
// are asked, with -short, quick ones first: those of the package, then of the packages
// that import it and of the engine book; a crash or a hang counts as found. Each test
// is run once by itself beforehand, to know what it runs. Which mistakes a sample has
// is drawn from their text and their file, so that every run tries the same.
//
// equivalent.csv beside this file lists mistakes that change nothing that can be
// told from outside, by the text of their line, each with the reason; they are not
// counted. A line of it that fits no mistake ends the run.
//
// It lists the mistakes that live, by file, each package's share, and the whole, and
// ends with 1 when the whole is below the floor.
package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/evidence"
	"github.com/valvechest/valvechest/internal/mistake"
)

func main() {
	every := flag.Int("every", 40, "`number`: one mistake of so many is tried")
	floor := flag.Float64("floor", 0.85, "`share` of the mistakes that must be found")
	told := flag.Bool("v", false, "tell which test finds each of the others too")
	own := flag.Bool("own", false, "ask the package's own tests alone")
	keep := flag.Bool("keep", false, "write what was measured into "+evidence.CodeFile)
	flag.Parse()
	if *every < 1 {
		fail(fmt.Errorf("-every %d: 1 or more is accepted", *every))
	}
	scratch, err := os.MkdirTemp("", "mutants")
	if err != nil {
		fail(err)
	}
	measures, err := (&run{scratch: scratch, own: *own, told: *told}).try(flag.Args(), *every)
	if err == nil && *keep {
		err = evidence.Keep(evidence.CodeFile, measures)
	}
	if err := errors.Join(err, os.RemoveAll(scratch)); err != nil {
		fail(err)
	}
	sum := evidence.Sum("", measures)
	fmt.Printf("whole: %v, floor %.0f %%\n", sum, 100**floor)
	if !(sum.Share() >= *floor) {
		os.Exit(1)
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, "mutants:", err)
	os.Exit(2)
}

// A run is the packages of the module with the tests that they have.
type run struct {
	scratch string
	all     []*mistake.Package
	code    []string // the folders that mistakes are made in
	suites  map[*mistake.Package]*mistake.Suite

	own, told bool
}

// try makes the mistakes in the packages in the folders, or in all of the library.
func (r *run) try(folders []string, every int) ([]evidence.Measure, error) {
	all, errAll := mistake.Module()
	library, errLibrary := mistake.Library()
	judged, err := readEquivalents()
	if err := errors.Join(errAll, errLibrary, err); err != nil {
		return nil, err
	}
	r.all, r.suites = all, map[*mistake.Package]*mistake.Suite{}
	for _, p := range library {
		r.code = append(r.code, p.Folder)
	}
	for i, folder := range folders {
		folders[i] = filepath.ToSlash(filepath.Clean(folder))
		if !slices.Contains(r.code, folders[i]) {
			return nil, fmt.Errorf("%s is no package of the library", folder)
		}
	}
	if len(folders) > 0 {
		r.code = folders
	}
	var measures []evidence.Measure
	before := 0
	for _, p := range all {
		if !slices.Contains(r.code, p.Folder) {
			continue
		}
		changes, err := mistakes(p)
		if err != nil {
			return nil, err
		}
		changes = judged.without(changes)
		m, err := r.tryPackage(p, sample(changes, before, every))
		if err != nil {
			return nil, err
		}
		m.All = len(changes)
		before += len(changes)
		if m.Tried == 0 {
			continue
		}
		fmt.Printf("%-32s %v\n", p.Folder, m)
		measures = append(measures, m)
	}
	return measures, judged.unused(folders)
}

// An outcome is what came of a mistake.
type outcome struct {
	compiles bool
	test     string // that fails, or nothing
}

func (r *run) tryPackage(p *mistake.Package, changes []change) (evidence.Measure, error) {
	m := evidence.Measure{Of: p.Folder}
	if len(changes) == 0 {
		return m, nil
	}
	suites, err := r.asked(p, len(changes) > few)
	if err != nil {
		return m, err
	}
	outcomes := make([]outcome, len(changes))
	err = mistake.Two(len(changes), func(worker, i int) (err error) {
		outcomes[i], err = changes[i].tell(filepath.Join(r.scratch, fmt.Sprint(worker)), p, suites)
		return err
	})
	if err != nil {
		return m, err
	}
	for i, o := range outcomes {
		switch {
		case !o.compiles:
			continue
		case o.test == "":
			fmt.Println(changes[i], "lives:", changes[i].text)
		default:
			m.Found++
			if r.told {
				fmt.Println(changes[i], "found by", o.test)
			}
		}
		m.Tried++
	}
	return m, nil
}

// For so few mistakes in a package it does not pay to measure its tests.
const few = 3

// asked returns the tests that may tell of a mistake in the package: its own, those of
// the package that it is internal to, of each that imports it, and of the engine book.
func (r *run) asked(p *mistake.Package, measured bool) ([]*mistake.Suite, error) {
	outer, _, _ := strings.Cut(p.Folder, "/internal/")
	var suites []*mistake.Suite
	for _, other := range r.all {
		far := !r.own && (other.Imports(p) || other.Folder == "examples/enginebook")
		if other != p && other.Folder != outer && !far {
			continue
		}
		if !measured && r.own && r.suites[other] == nil {
			suites = append(suites, &mistake.Suite{Package: other})
			continue
		}
		if r.suites[other] == nil {
			s, err := mistake.NewSuite(r.scratch, other, r.code)
			if err != nil {
				return nil, err
			}
			r.suites[other] = s
		}
		suites = append(suites, r.suites[other])
	}
	own := slices.IndexFunc(suites, func(s *mistake.Suite) bool { return s.Package == p })
	suites[0], suites[own] = suites[own], suites[0]
	return suites, nil
}

// tell compiles the mistake and runs the tests that run its place.
func (c change) tell(scratch string, p *mistake.Package, suites []*mistake.Suite) (outcome, error) {
	overlay, err := c.overlay(scratch)
	if err != nil {
		return outcome{}, err
	}
	if err := exec.Command("go", "build", "-overlay", overlay, "./"+p.Folder).Run(); err != nil {
		return outcome{}, nil
	}
	binary := filepath.Join(scratch, "binary")
	suites = slices.Clone(suites)
	slices.SortStableFunc(suites[1:], func(a, b *mistake.Suite) int { return cmp.Compare(a.Took(c.Place), b.Took(c.Place)) })
	for _, s := range suites {
		if !s.Covers(c.Place) {
			continue
		}
		if err := mistake.Compile(s.Package, binary, "-overlay", overlay); err != nil {
			return outcome{true, s.Folder + " that does not compile"}, nil
		}
		if test, err := s.Finds(binary, c.Place); test != "" || err != nil {
			return outcome{true, s.Folder + " " + test}, err
		}
	}
	return outcome{compiles: true}, nil
}

// sample draws one of so many, where so many stand before them in other packages.
func sample(all []change, before, every int) []change {
	drawn := slices.Clone(all)
	slices.SortFunc(drawn, func(a, b change) int { return strings.Compare(a.draw, b.draw) })
	drawn = drawn[:(before+len(all)+every/2)/every-(before+every/2)/every]
	slices.SortFunc(drawn, func(a, b change) int {
		return cmp.Or(strings.Compare(a.File, b.File), a.at-b.at)
	})
	return drawn
}
