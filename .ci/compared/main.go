// Command compared runs the tests and keeps, for testdata/EVIDENCE.md, which columns
// of the check files they compare, how near, and what of them they leave out.
//
//	go run ./.ci/compared [-short] [PACKAGE...]
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"

	"github.com/valvechest/valvechest/internal/evidence"
)

func main() {
	short := flag.Bool("short", false, "with a part of the random cases")
	flag.Parse()
	packages := flag.Args()
	if len(packages) == 0 {
		packages = []string{"./..."}
	}
	if err := keep(packages, *short); err != nil {
		fmt.Fprintln(os.Stderr, "compared:", err)
		os.Exit(1)
	}
}

func keep(packages []string, short bool) error {
	scratch, err := os.MkdirTemp("", "compared")
	if err != nil {
		return err
	}
	arguments := append([]string{"test", "-count=1", fmt.Sprintf("-short=%t", short)}, packages...)
	tests := exec.Command("go", arguments...)
	tests.Env = append(os.Environ(), "VALVECHEST_COMPARED="+scratch)
	tests.Stdout, tests.Stderr = os.Stdout, os.Stderr
	if err = tests.Run(); err == nil {
		err = evidence.KeepCompared(scratch)
	}
	return errors.Join(err, os.RemoveAll(scratch))
}
