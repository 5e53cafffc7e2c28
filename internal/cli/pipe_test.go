//go:build unix

package cli_test

import (
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
