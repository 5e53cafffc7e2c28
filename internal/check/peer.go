package check

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// Peer returns the path of an independent program that the test compares with:
// "units", which must be GNU units, or "python3" or "node" with the modules. Where
// it is not there the test is skipped and says what was missing, and fails if
// VALVECHEST_PEERS is 1, as it is in continuous integration. With VALVECHEST_PEERS=0
// nothing is compared.
func Peer(t testing.TB, program string, modules ...string) string {
	t.Helper()
	want := os.Getenv("VALVECHEST_PEERS")
	if want == "0" {
		t.Skipf("VALVECHEST_PEERS=0: not compared with %s", program)
	}
	found, why := find(program, modules)
	switch {
	case found == "" && want != "":
		t.Fatal(why)
	case found == "":
		t.Skipf("%s: not compared", why)
	}
	t.Logf("independent program: %s", strings.Join(append([]string{found}, modules...), " ")) // continuous integration counts these lines
	return found
}

// LongPeer is [Peer] for a comparison that takes a second and more, which -short leaves out
// unless VALVECHEST_PEERS is 1.
func LongPeer(t testing.TB, program string, modules ...string) string {
	t.Helper()
	if testing.Short() && os.Getenv("VALVECHEST_PEERS") != "1" {
		t.Skipf("a comparison of a second and more with %s, which -short leaves out", program)
	}
	return Peer(t, program, modules...)
}

// find returns the path of the program, or why there is none.
func find(program string, modules []string) (path, why string) {
	names := []string{program}
	if program == "python3" { // that of the system's packages need not be the first of the path
		names = []string{"/usr/bin/python3", program, "python"}
	}
	why = fmt.Sprintf("%s is not installed", program)
	for _, name := range names {
		found, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		probe := exec.Command(found, "--version")
		switch program {
		case "python3":
			probe = exec.Command(found, slices.Concat([]string{"-c",
				"import sys, importlib.util as u; sys.exit(any(u.find_spec(m) is None for m in sys.argv[1:]))"}, modules)...)
		case "node":
			probe = exec.Command(found, slices.Concat([]string{"-e", `const p = require('path')
				const places = { paths: [process.cwd(), p.join(p.dirname(process.execPath), '..', 'lib')] }
				process.argv.slice(1).forEach(m => require.resolve(m, places))`}, modules)...)
		}
		switch out, err := probe.Output(); {
		case program == "units" && !strings.Contains(string(out), "GNU Units"):
			why = fmt.Sprintf("%s is not GNU units", found)
		case err != nil:
			why = fmt.Sprintf("%s has no %s", found, strings.Join(modules, " or no "))
		default:
			return found, ""
		}
	}
	return "", why
}

// Foreign returns what runs a program that was built for another processor, as
// the tests themselves are run then, or nothing: "qemu-aarch64-static".
func Foreign() []string { return strings.Fields(os.Getenv("VALVECHEST_EXEC")) }

// Command is [exec.Command] for a program that the test has built.
func Command(program string, args ...string) *exec.Cmd {
	line := append(Foreign(), append([]string{program}, args...)...)
	return exec.Command(line[0], line[1:]...)
}
