// Command mutants puts one mistake at a time into the code of packages and runs
// their tests, which must fail.
//
//	go run ./.ci/mutants [-every N] [-floor SHARE] [-v] [-keep] [PACKAGE FOLDER...]
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
// other. A mistake that does not compile is not counted. The tests are those of the
// package, with -short, quick ones first, and a package below another's internal
// folder has the tests of that one's too; a crash or a hang counts as found. Which
// mistakes a sample has is drawn from their text and their file, so that every run
// tries the same.
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
	keep := flag.Bool("keep", false, "write what was measured into "+evidence.CodeFile)
	flag.Parse()
	if *every < 1 {
		fail(fmt.Errorf("-every %d: 1 or more is accepted", *every))
	}
	scratch, err := os.MkdirTemp("", "mutants")
	if err != nil {
		fail(err)
	}
	measures, err := try(scratch, flag.Args(), *every, *told)
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

// try makes the mistakes in the packages in the folders, or in all of the library.
func try(scratch string, folders []string, every int, told bool) ([]evidence.Measure, error) {
	packages, err := mistake.Library()
	if err != nil {
		return nil, err
	}
	judged, err := readEquivalents()
	if err != nil {
		return nil, err
	}
	var measures []evidence.Measure
	wanted := map[string]bool{}
	for _, folder := range folders {
		wanted[filepath.ToSlash(filepath.Clean(folder))] = true
	}
	for _, p := range packages {
		if len(folders) > 0 && !wanted[p.Folder] {
			continue
		}
		delete(wanted, p.Folder)
		all, err := mistakes(p)
		if err != nil {
			return nil, err
		}
		all = judged.without(all)
		m, err := tryPackage(scratch, packages, p, sample(all, every), told)
		if err != nil {
			return nil, err
		}
		m.All = len(all)
		fmt.Printf("%-32s %v\n", p.Folder, m)
		measures = append(measures, m)
	}
	for folder := range wanted {
		return nil, fmt.Errorf("%s is no package of the library", folder)
	}
	return measures, judged.unused(folders)
}

// An outcome is what came of a mistake.
type outcome struct {
	compiles bool
	test     string // that fails, or nothing
}

func tryPackage(
	scratch string, packages []*mistake.Package, p *mistake.Package, all []change, told bool,
) (evidence.Measure, error) {
	m := evidence.Measure{Of: p.Folder}
	if len(all) == 0 {
		return m, nil
	}
	tests := []*mistake.Package{p}
	if outer, _, inside := strings.Cut(p.Folder, "/internal/"); inside {
		for _, other := range packages {
			if other.Folder == outer {
				tests = append(tests, other)
			}
		}
	}
	for _, other := range tests {
		binary := filepath.Join(scratch, "whole")
		if !other.Tested() && compile(other, binary) == nil {
			if err := other.Measure(binary); err != nil {
				return m, err
			}
		}
	}
	outcomes := make([]outcome, len(all))
	err := mistake.Two(len(all), func(worker, i int) (err error) {
		outcomes[i], err = all[i].tell(filepath.Join(scratch, fmt.Sprint(worker)), tests)
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
			fmt.Println(all[i], "lives:", all[i].line)
		default:
			m.Found++
			if told {
				fmt.Println(all[i], "found by", o.test)
			}
		}
		m.Tried++
	}
	return m, nil
}

func compile(p *mistake.Package, binary string, flags ...string) error {
	arguments := append([]string{"test", "-c", "-vet=off", "-ldflags=-s -w", "-o", binary}, flags...)
	if err := exec.Command("go", append(arguments, "./"+p.Folder)...).Run(); err != nil {
		return err
	}
	_, err := os.Stat(binary) // which a package without tests has not
	return err
}

// tell compiles the mistake and runs the tests.
func (c change) tell(scratch string, tests []*mistake.Package) (outcome, error) {
	overlay, err := c.overlay(scratch)
	if err != nil {
		return outcome{}, err
	}
	binary := filepath.Join(scratch, "binary")
	for _, p := range tests {
		if !p.Tested() {
			continue
		}
		if compile(p, binary, "-overlay", overlay) != nil {
			return outcome{}, nil
		}
		if test, err := p.Fails(binary, true); test != "" || err != nil {
			return outcome{true, test}, err
		}
	}
	return outcome{compiles: true}, nil
}

// sample draws one of so many.
func sample(all []change, every int) []change {
	drawn := slices.Clone(all)
	slices.SortFunc(drawn, func(a, b change) int { return strings.Compare(a.draw, b.draw) })
	drawn = drawn[:(len(drawn)+every/2)/every]
	slices.SortFunc(drawn, func(a, b change) int {
		return cmp.Or(strings.Compare(a.file, b.file), a.at-b.at)
	})
	return drawn
}
