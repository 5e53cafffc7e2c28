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
// The tree is not touched. A package is compiled once with all its mistakes in it, each
// switched on by the environment; what cannot be switched, such as a const, is compiled
// by itself, and what does not compile is not counted. Each test of the package is run
// once without a mistake, to know which places it runs. Then each mistake goes to the
// tests that run its place, with -short, quick ones first; a package below another's
// internal folder has the tests of that one's too. A crash or a hang counts as found.
// Which mistakes a sample has is drawn from their text and their file, so that every
// run tries the same.
//
// equivalent.csv beside this file lists mistakes that change nothing that can be
// told from outside, by the text of their line, each with the reason; they are not
// counted. A line of it that fits no mistake ends the run.
//
// It lists the mistakes that live, by file, each package's share, and the whole, and
// ends with 1 when the whole is below the floor.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/evidence"
	"github.com/valvechest/valvechest/internal/mistake"
)

func main() {
	every := flag.Int("every", 1, "`number`: one mistake of so many is tried")
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
	packages, errPackages := mistake.Library()
	judged, err := readEquivalents()
	if err := errors.Join(errPackages, err); err != nil {
		return nil, err
	}
	for i, folder := range folders {
		folders[i] = filepath.ToSlash(filepath.Clean(folder))
		if !slices.ContainsFunc(packages, func(p *mistake.Package) bool { return p.Folder == folders[i] }) {
			return nil, fmt.Errorf("%s is no package of the library", folder)
		}
	}
	var measures []evidence.Measure
	before := 0
	for _, p := range packages {
		if len(folders) > 0 && !slices.Contains(folders, p.Folder) {
			continue
		}
		s, err := readSource(p)
		if err != nil {
			return nil, err
		}
		lot := sample(judged.without(s.read(nil)), before, every)
		before += lot.of
		m, err := tryPackage(scratch, packages, s, lot, told)
		if err != nil {
			return nil, err
		}
		if m.Tried > 0 {
			fmt.Printf("%-32s %v\n", p.Folder, m)
			measures = append(measures, m)
		}
	}
	return measures, judged.unused(folders)
}

// asked returns the packages whose tests may tell of a mistake in one: its own, and of
// one below another's internal folder that one's too.
func asked(packages []*mistake.Package, p *mistake.Package) []*mistake.Package {
	all := []*mistake.Package{p}
	if outer, _, inside := strings.Cut(p.Folder, "/internal/"); inside {
		for _, other := range packages {
			if other.Folder == outer {
				all = append(all, other)
			}
		}
	}
	return all
}

func tryPackage(
	scratch string, packages []*mistake.Package, s *source, lot drawn, told bool,
) (evidence.Measure, error) {
	m := evidence.Measure{Of: s.Folder, All: lot.of}
	if len(lot.ids) == 0 {
		return m, nil
	}
	tests := asked(packages, s.Package)
	changes, binaries, err := s.switched(scratch, tests)
	if err != nil {
		return m, err
	}
	var suites []*suite
	for i, p := range tests {
		one, err := newSuite(scratch, p, binaries[i])
		if err != nil {
			return m, err
		}
		suites = append(suites, one)
	}
	found := make([]string, len(lot.ids))
	err = mistake.Two(len(lot.ids), func(worker, i int) (err error) {
		id := lot.ids[i]
		if changes[id].alone {
			found[i], err = changes[id].apart(scratch, worker, s, suites)
			return err
		}
		for _, one := range suites {
			if found[i] == "" && err == nil {
				found[i], err = one.finds(id)
			}
		}
		return err
	})
	if err != nil {
		return m, err
	}
	for i, id := range lot.ids {
		switch c := changes[id]; {
		case found[i] == doesNotCompile:
			continue
		case found[i] == "":
			fmt.Println(c, "lives:", c.text)
		default:
			m.Found++
			if told {
				fmt.Println(c, "found by", found[i])
			}
		}
		m.Tried++
	}
	return m, nil
}

const doesNotCompile = "the compiler"

// apart compiles the mistake by itself and runs all tests.
func (c *change) apart(scratch string, worker int, s *source, suites []*suite) (string, error) {
	own := filepath.Join(scratch, "alone"+strconv.Itoa(worker))
	if err := os.MkdirAll(own, 0o777); err != nil {
		return "", err
	}
	o := newOverlay(own)
	for _, f := range s.files {
		if f.name == c.file {
			if err := o.put(f.name, []byte(string(f.text[:c.at])+c.now+string(f.text[c.at+len(c.was):]))); err != nil {
				return "", err
			}
		}
	}
	binary := filepath.Join(own, "binary")
	for i, one := range suites {
		says, err := o.compile(one.Package, binary)
		if says != "" && i == 0 {
			return doesNotCompile, err
		} else if says != "" || err != nil {
			return "tests that do not compile", err
		}
		if test, err := one.findsAlone(binary); test != "" || err != nil {
			return test, err
		}
	}
	return "", nil
}

// drawn are the mistakes of a sample, by their places in the list of all, and of how
// many they were drawn.
type drawn struct {
	ids []int
	of  int
}

// sample draws one of so many, where so many stand before them in other packages.
func sample(all []numbered, before, every int) drawn {
	d := drawn{of: len(all)}
	slices.SortFunc(all, func(a, b numbered) int { return strings.Compare(b.draw, a.draw) })
	for _, c := range all[:(before+len(all)+every/2)/every-(before+every/2)/every] {
		d.ids = append(d.ids, c.id)
	}
	slices.Sort(d.ids)
	return d
}
