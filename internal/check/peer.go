package check

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Peer returns the path of an independent program that the test compares with.
// It skips the test unless VALVECHEST_PEERS is set, as continuous integration
// does after it has installed the programs; then one that is not there fails.
func Peer(t testing.TB, path string) string {
	t.Helper()
	if os.Getenv("VALVECHEST_PEERS") == "" {
		t.Skip("set VALVECHEST_PEERS=1 to compare with ", path)
	}
	found, err := exec.LookPath(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("independent program: %s", found) // continuous integration counts these lines
	return found
}

// Foreign returns what runs a program that was built for another processor, as
// the tests themselves are run then, or nothing: "qemu-aarch64-static".
func Foreign() []string { return strings.Fields(os.Getenv("VALVECHEST_EXEC")) }

// Command is [exec.Command] for a program that the test has built.
func Command(program string, args ...string) *exec.Cmd {
	line := append(Foreign(), append([]string{program}, args...)...)
	return exec.Command(line[0], line[1:]...)
}
