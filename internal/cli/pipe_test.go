//go:build unix

package cli_test

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"os/signal"
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

// A program that is stopped while nobody reads its answer on leaves all as it was, and
// ends as the system has it. The test runs itself as the program.
func TestStopped(t *testing.T) {
	const asked = "VALVECHEST_STOPPED"
	large := strings.Repeat("answer ", 1<<15) // more than a pipe holds
	if args := os.Getenv(asked); args != "" {
		os.Args = append(os.Args[:1], strings.Split(args, "\n")...)
		writer(large).Main()
	}
	for _, stop := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		if signal.Ignored(stop) {
			continue // the program is started to ignore it too
		}
		for _, before := range []string{"", "one"} {
			top := t.TempDir()
			args := []string{"-json", "-q", "-o", filepath.Join(top, "book"), "-html", filepath.Join(top, "new", "answer.html")}
			if before != "" {
				if status := writer(before).Do(args, io.Discard, os.Stderr); status != 1 {
					t.Fatal(status)
				}
			}
			was := tree(t, top)
			reader, to, err := os.Pipe()
			if err != nil {
				t.Fatal(err)
			}
			cmd := exec.Command(os.Args[0], "-test.run=^TestStopped$")
			cmd.Env = append(os.Environ(), asked+"="+strings.Join(args, "\n"))
			var stderr bytes.Buffer
			cmd.Stdout, cmd.Stderr = to, &stderr
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			to.Close()
			// The first of the answer: the files are in their places.
			if _, err := io.ReadFull(reader, make([]byte, 100)); err != nil {
				t.Fatal(err)
			}
			if tree(t, top) == was {
				t.Error("the answer is printed before the files are there")
			}
			if err := cmd.Process.Signal(stop); err != nil {
				t.Fatal(err)
			}
			_ = cmd.Wait() // its status is looked at
			reader.Close()
			how := cmd.ProcessState.Sys().(syscall.WaitStatus)
			if bySignal := how.Signaled() && how.Signal() == stop; !bySignal && how.ExitStatus() != 128+int(stop) {
				t.Errorf("%v: %v", stop, cmd.ProcessState)
			}
			if tree(t, top) != was || !strings.Contains(stderr.String(), "no file written") {
				t.Errorf("%v: %s", stop, &stderr)
			}
			if entries, err := os.ReadDir(top); err != nil || len(entries) != 2*len(before)/len("one") {
				t.Error(entries, err)
			}
		}
	}
}
