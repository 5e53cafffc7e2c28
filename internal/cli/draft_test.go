package cli_test

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/cli"
)

// What a killed program has left is cleared away by the next that writes there, unless
// something in it is not of ours or a program is still at work on it.
func TestLeftOver(t *testing.T) {
	top := t.TempDir()
	do := func(args ...string) (int, string) {
		var errs bytes.Buffer
		status := writer("x").Do(append([]string{"-q"}, args...), io.Discard, &errs)
		return status, errs.String()
	}
	book := filepath.Join(top, "book")
	if status, errs := do("-o", book); status != 1 {
		t.Fatal(errs)
	}
	// leave puts a copy of the book under a hidden name, without its last file.
	leave := func(name string) string {
		name = filepath.Join(top, name)
		err := errors.Join(os.CopyFS(name, os.DirFS(book)), os.Remove(filepath.Join(name, "sheets", "b.svg")),
			os.WriteFile(filepath.Join(name, ".being-written"), []byte("half"), 0o666))
		if err != nil {
			t.Fatal(err)
		}
		return name
	}
	there := func(name string) bool {
		_, err := os.Lstat(name)
		return err == nil
	}
	dead, held, mine, changed := leave(".book.0123abcd"), leave(".a.html.ffffffff"), leave(".book.00000000"), leave(".book.00000001")
	named, listless := leave("book.00000002"), leave(".book.00000003")
	if err := errors.Join(os.WriteFile(filepath.Join(mine, "mine"), nil, 0o666),
		os.WriteFile(filepath.Join(changed, "book.txt"), nil, 0o666), os.Remove(filepath.Join(listless, "contents.sha256"))); err != nil {
		t.Fatal(err)
	}
	hold, err := cli.Hold(filepath.Join(held, "contents.sha256"))
	if errors.Is(err, errors.ErrUnsupported) {
		t.Skip("here it is not told whether a program is at work")
	}
	// A page in the same folder finds them too.
	for _, args := range [][]string{{"-o", book}, {"-html", filepath.Join(top, "answer.html")}} {
		status, errs := do(args...)
		if status != 1 || there(dead) || !there(held) || !there(mine) || !there(changed) || !there(named) || !there(listless) {
			t.Errorf("%q: %d, %s", args, status, errs)
		}
		if strings.Count(errs, "\n") != 2 || !strings.Contains(errs, cli.Short(mine)+": left by a program that was stopped") ||
			!strings.Contains(errs, cli.Short(changed)+": left") {
			t.Errorf("%q: %s", args, errs)
		}
		if !there(dead) {
			dead = leave(".book.0123abcd")
		}
	}
	if err := hold.Close(); err != nil {
		t.Fatal(err)
	}
	if status, _ := do("-o", book); status != 1 || there(held) || there(dead) {
		t.Error(status)
	}
}
