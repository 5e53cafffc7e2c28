package check

import (
	"fmt"
	"os"
	"testing"
)

// Main is what the TestMain of a package with tables does: it reads them first, so that
// a bad cell fails the tests by file and line before one of them stumbles on it. A
// panic of the reader counts as its error.
func Main(m *testing.M, read func() error) {
	if err := caught(read); err != nil {
		fmt.Println("--- FAIL:", err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

func caught(read func() error) (err error) {
	defer func() {
		if problem := recover(); problem != nil {
			err = fmt.Errorf("%v", problem)
		}
	}()
	return read()
}
