package cli_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
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
