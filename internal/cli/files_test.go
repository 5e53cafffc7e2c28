package cli_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/cli"
)

func TestWriteFiles(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "new", "folder")
	content := func() (all string) {
		entries, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			text, _ := os.ReadFile(filepath.Join(folder, e.Name()))
			all += e.Name() + "=" + string(text) + " "
		}
		return all
	}
	two := func(text string) []cli.File { return []cli.File{{"a", []byte(text)}, {"b", []byte(text)}} }
	if err := cli.WriteFiles(folder, two("1"), false); err != nil || content() != "a=1 b=1 " {
		t.Errorf("%s, %v", content(), err)
	}
	if err := cli.WriteFiles(folder, two("2"), false); err == nil || !strings.Contains(err.Error(), "a: there already") || content() != "a=1 b=1 " {
		t.Errorf("%s, %v", content(), err)
	}
	if err := cli.WriteFiles(folder, two("3"), true); err != nil || content() != "a=3 b=3 " {
		t.Errorf("%s, %v", content(), err)
	}
	// A folder in the place of the second file: the first stays as it was, and
	// nothing is left behind.
	if err := os.Mkdir(filepath.Join(folder, "c"), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := cli.WriteFiles(folder, []cli.File{{"a", []byte("4")}, {"c", []byte("4")}}, true); err == nil || content() != "a=3 b=3 c= " {
		t.Errorf("%s, %v", content(), err)
	}
	// A link is not followed, wherever it leads.
	outside := filepath.Join(t.TempDir(), "outside")
	if err := os.Symlink(outside, filepath.Join(folder, "link")); err != nil {
		t.Skip(err)
	}
	if err := cli.WriteFiles(folder, []cli.File{{"link", []byte("5")}}, true); err == nil || !strings.Contains(err.Error(), "not a regular file") {
		t.Error(err)
	}
	if _, err := os.Lstat(outside); err == nil {
		t.Error("the link was followed")
	}
}
