package check

import (
	"os"
	"os/exec"
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
	return found
}
