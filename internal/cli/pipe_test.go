//go:build unix

package cli_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/valvechest/valvechest/internal/cli"
)

// Nobody writes into the pipe: a program that opened it would wait for ever.
func TestPipe(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := cli.ReadFile(pipe, 5); err == nil || !strings.Contains(err.Error(), "not a regular file") {
		t.Error(err)
	}
}

// Where nobody reads the answer any more, nothing is left of the page beside it. The
// test runs itself as the program, as only that has a standard output to lose.
func TestClosedPipe(t *testing.T) {
	const asked = "VALVECHEST_CLOSED_PIPE"
	if page := os.Getenv(asked); page != "" {
		os.Exit(demo().Do([]string{"-html", page, "now", "-d", "3 mm"}, os.Stdout, os.Stderr))
	}
	folder := t.TempDir()
	reader, writer, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	reader.Close()
	defer writer.Close()
	var stderr bytes.Buffer
	cmd := exec.Command(os.Args[0], "-test.run=^TestClosedPipe$")
	cmd.Env = append(os.Environ(), asked+"="+filepath.Join(folder, "answer.html"))
	cmd.Stdout, cmd.Stderr = writer, &stderr
	_ = cmd.Run() // its status is looked at
	if status := cmd.ProcessState.ExitCode(); status != 2 || !strings.Contains(stderr.String(), "double: the answer cannot be written: ") {
		t.Errorf("%d, %s", status, &stderr)
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) > 0 {
		t.Error(left, err)
	}
}
