package cli_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/valvechest/valvechest/internal/cli"
)

// On a disk that is full, and on one that cannot be written to, the book that is
// there stays.
func TestBookletFullDisk(t *testing.T) {
	disk := t.TempDir()
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=256k"); err != nil {
		t.Skip("a disk of 256 KiB cannot be had:", err)
	}
	defer func() {
		if err := syscall.Unmount(disk, 0); err != nil {
			t.Error(err)
		}
	}()
	place := filepath.Join(disk, "book")
	do := func(text, place string) (status int, stdout, stderr string) {
		var out, errs bytes.Buffer
		status = writer(text).Do([]string{"-q", "-o", place}, &out, &errs)
		return status, out.String(), errs.String()
	}
	if status, _, errs := do("one", place); status != 1 {
		t.Fatal(errs)
	}
	large := strings.Repeat("large", 50<<10)
	for _, name := range []string{place, filepath.Join(disk, "a", "b", "new")} {
		status, out, errs := do(large, name)
		if status != 2 || out != "" || !strings.Contains(errs, "no space left on device") || tree(t, disk) != in("book", written("one")) {
			t.Errorf("%d, %s%s\n%s", status, out, errs, tree(t, disk))
		}
		if left, err := os.ReadDir(disk); err != nil || len(left) != 1 {
			t.Errorf("%v, %v", left, err)
		}
	}
	// Nor is a page or a folder of drawings written in part.
	page := filepath.Join(disk, "new", "answer.html")
	var out, errs bytes.Buffer
	if status := writer(large).Do([]string{"-html", page}, &out, &errs); status != 2 || out.Len() > 0 || !strings.Contains(errs.String(), "no space left on device") {
		t.Errorf("%d, %s%s", status, &out, &errs)
	}
	files := []cli.File{{Name: "a", Text: []byte("small")}, {Name: "b", Text: []byte(large)}}
	if err := writeFiles(filepath.Join(disk, "new"), files, true); err == nil || !strings.Contains(err.Error(), "no space left on device") {
		t.Error(err)
	}
	if left, err := os.ReadDir(disk); err != nil || len(left) != 1 {
		t.Errorf("%v, %v", left, err)
	}
	// The place itself is a disk: it cannot be moved.
	if status, _, errs := do("two", disk); status != 2 || tree(t, disk) != in("book", written("one")) {
		t.Errorf("%d, %s\n%s", status, errs, tree(t, disk))
	}
	if err := syscall.Mount("tmpfs", disk, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	if status, out, errs := do("two", place); status != 2 || out != "" || !strings.Contains(errs, "read-only") || tree(t, disk) != in("book", written("one")) {
		t.Errorf("%d, %s%s\n%s", status, out, errs, tree(t, disk))
	}
}
