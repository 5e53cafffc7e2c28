package cli_test

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
)

// writeFiles has a program write files and returns what it says.
func writeFiles(folder string, files []cli.File, overwrite bool) error {
	var flags *cli.Flags
	p := cli.Program{Name: "p", Define: func(f *cli.Flags) { flags = f }}
	p.Run = func([]string) (book.Book, error) {
		flags.Files(folder, files, overwrite)
		return book.Book{}, nil
	}
	var said bytes.Buffer
	if p.Do(nil, io.Discard, &said) == 0 {
		return nil
	}
	return errors.New(strings.TrimSuffix(strings.TrimPrefix(said.String(), "p: -out: "), "\n"))
}

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
	two := func(text string) []cli.File {
		return []cli.File{{Name: "a", Text: []byte(text)}, {Name: "b", Text: []byte(text)}}
	}
	if err := writeFiles(folder, two("1"), false); err != nil || content() != "a=1 b=1 " {
		t.Errorf("%s, %v", content(), err)
	}
	if err := writeFiles(folder, two("2"), false); err == nil || !strings.Contains(err.Error(), "a: there already") || content() != "a=1 b=1 " {
		t.Errorf("%s, %v", content(), err)
	}
	if err := writeFiles(folder, two("3"), true); err != nil || content() != "a=3 b=3 " {
		t.Errorf("%s, %v", content(), err)
	}
	// A folder in the place of the second file: the first stays as it was, and
	// nothing is left behind.
	if err := os.Mkdir(filepath.Join(folder, "c"), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := writeFiles(folder, []cli.File{{Name: "a", Text: []byte("4")}, {Name: "c", Text: []byte("4")}}, true); err == nil || content() != "a=3 b=3 c= " {
		t.Errorf("%s, %v", content(), err)
	}
	// A file in the place of the folder.
	file := filepath.Join(folder, "a")
	if err := writeFiles(file, two("4"), true); err == nil ||
		err.Error() != cli.Short(file)+": not a directory; accepted: a folder that can be written to" {
		t.Errorf("%v", err)
	}
	// Folders that were made for files that cannot be written go too.
	parent := t.TempDir()
	for _, name := range []string{"a/b", strings.Repeat("long", 100)} {
		files := []cli.File{{Name: "a", Text: []byte("5")}, {Name: name, Text: []byte("5")}}
		if err := writeFiles(filepath.Join(parent, "one", "two"), files, true); err == nil {
			t.Errorf("wrote %s", name)
		}
		if left, err := os.ReadDir(parent); err != nil || len(left) != 0 {
			t.Errorf("%v, %v", left, err)
		}
	}
	// A link is not followed, wherever it leads.
	outside := filepath.Join(t.TempDir(), "outside")
	if err := os.Symlink(outside, filepath.Join(folder, "link")); err != nil {
		t.Skip(err)
	}
	if err := writeFiles(folder, []cli.File{{Name: "link", Text: []byte("5")}}, true); err == nil || !strings.Contains(err.Error(), "not a regular file") {
		t.Error(err)
	}
	if _, err := os.Lstat(outside); err == nil {
		t.Error("the link was followed")
	}
}

func TestReadFile(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "list\u202e.csv")
	if err := os.WriteFile(file, []byte("12345"), 0o666); err != nil {
		t.Fatal(err)
	}
	if text, err := cli.ReadFile(file, 5); string(text) != "12345" || err != nil {
		t.Errorf("%q, %v", text, err)
	}
	if _, err := cli.ReadFile(large(t, 2<<10+1), 2<<10); err == nil || !strings.Contains(err.Error(), "larger than 2 KiB") {
		t.Error(err)
	}
	for _, test := range []struct{ name, want string }{
		{file, `list\u202e.csv: larger than 4 bytes`},
		{file + "x", `list\u202e.csvx: no such file`},
		{folder, "not a regular file"},
	} {
		if _, err := cli.ReadFile(test.name, 4); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: %v, want %q", test.name, err, test.want)
		}
	}
}

// large returns the name of a file of so many bytes.
func large(t *testing.T, bytes int) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "large")
	if err := os.WriteFile(name, make([]byte, bytes), 0o666); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestShort(t *testing.T) {
	for name, want := range map[string]string{
		"demo/cover.csv":                 "demo/cover.csv",
		"a\x1bb":                         `a\u001bb`,
		strings.Repeat("x", 99) + ".csv": "..." + strings.Repeat("x", 96) + ".csv",
	} {
		if got := cli.Short(name); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
