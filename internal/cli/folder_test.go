package cli_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units/finding"
)

// writer is a program that writes a folder with two files beside its book.
func writer(text string) cli.Program {
	var flags *cli.Flags
	return cli.Program{
		Name: "w",
		Define: func(f *cli.Flags) {
			flags = f
			f.Booklet()
		},
		Run: func([]string) (book.Book, error) {
			flags.Progress("drawing")
			flags.Beside(
				cli.File{Name: "sheets/a.svg", Text: []byte(text), About: "sheet a"},
				cli.File{Name: "sheets/b.svg", Text: []byte(text)},
			)
			flags.LeftOut("Sheet c: there is none.")
			return book.Book{Title: text, Findings: finding.List{
				{Code: "c", Severity: finding.Fails, Text: "It fails."}, {Code: "n", Text: "A note."}}}, nil
		},
	}
}

// tree returns what lies in a folder, a line each: "sheets/a.svg=text".
func tree(t *testing.T, folder string) string {
	t.Helper()
	var all []string
	err := filepath.WalkDir(folder, func(name string, e fs.DirEntry, err error) error {
		inside, _ := filepath.Rel(folder, name)
		switch {
		case err != nil:
			return err
		case e.Type().IsRegular():
			text, err := os.ReadFile(name)
			if strings.HasPrefix(filepath.Base(name), "book.") || filepath.Base(name) == "contents.sha256" {
				text = nil
			}
			all = append(all, filepath.ToSlash(inside)+"="+string(text))
			return err
		case !e.IsDir():
			all = append(all, filepath.ToSlash(inside)+"=?")
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(all)
	return strings.Join(all, "\n")
}

// written is the folder that the writer writes.
func written(text string) string {
	return "book.html=\nbook.json=\nbook.txt=\ncontents.sha256=\nsheets/a.svg=" + text + "\nsheets/b.svg=" + text
}

// in puts a folder's name before each file of a tree.
func in(folder, tree string) string {
	return folder + "/" + strings.ReplaceAll(tree, "\n", "\n"+folder+"/")
}

func TestBooklet(t *testing.T) { bothWays(t, testBooklet) }

// bothWays runs a test with names exchanged at once, where the system can, and in steps.
func bothWays(t *testing.T, test func(*testing.T)) {
	t.Run("at once", test)
	t.Run("in steps", func(t *testing.T) {
		cli.InSteps(t)
		test(t)
	})
}

func testBooklet(t *testing.T) {
	top := t.TempDir()
	place := filepath.Join(top, "new", "book")
	do := func(text string, args ...string) (status int, stdout, stderr string) {
		var out, errs bytes.Buffer
		status = writer(text).Do(append([]string{"-o", place}, args...), &out, &errs)
		return status, out.String(), errs.String()
	}
	status, out, errs := do("one")
	if status != 1 || tree(t, top) != in("new/book", written("one")) {
		t.Errorf("%d, %s\n%s", status, errs, tree(t, top))
	}
	for _, want := range []string{"It fails.", "Left out: Sheet c: there is none.", "  to read: " + cli.Short(filepath.Join(place, "book.txt")),
		"  sheet a: " + filepath.Join(place, "sheets", "a.svg")} {
		if !strings.Contains(strings.ReplaceAll(out, "\n    ", " "), want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	if strings.Contains(out, "A note.") || !strings.Contains(errs, "w: drawing\n") {
		t.Errorf("%s\n%s", out, errs)
	}
	// As it was written, it is replaced; and -q says nothing.
	if status, _, errs := do("two", "-q"); status != 1 || errs != "" || tree(t, top) != in("new/book", written("two")) {
		t.Errorf("%d, %s\n%s", status, errs, tree(t, top))
	}
	// The list is what sha256sum reads.
	if tool, err := exec.LookPath("sha256sum"); err == nil {
		check := exec.Command(tool, "-c", "contents.sha256")
		check.Dir = place
		if said, err := check.CombinedOutput(); err != nil || bytes.Count(said, []byte(": OK")) != 5 {
			t.Errorf("%v: %s", err, said)
		}
	}
	if _, out, _ := do("three", "-json"); !strings.HasPrefix(out, "{") || !strings.Contains(out, `"title": "three"`) {
		t.Error(out)
	}
	// A file that is missing is no loss.
	if err := os.Remove(filepath.Join(place, "sheets", "a.svg")); err != nil {
		t.Fatal(err)
	}
	if status, _, errs := do("four", "-q"); status != 1 || tree(t, top) != in("new/book", written("four")) {
		t.Errorf("%d, %s\n%s", status, errs, tree(t, top))
	}
}

// What is not as a book was written stays, and is named; -force keeps it beside.
func TestBookletForeign(t *testing.T) { bothWays(t, testBookletForeign) }

func testBookletForeign(t *testing.T) {
	file := func(name, text string) func(string) error {
		return func(place string) error {
			name := filepath.Join(place, name)
			return errors.Join(os.MkdirAll(filepath.Dir(name), 0o777), os.WriteFile(name, []byte(text), 0o666))
		}
	}
	link := func(name string) func(string) error {
		return func(place string) error {
			_ = os.Remove(filepath.Join(place, name))
			return os.Symlink(t.TempDir(), filepath.Join(place, name))
		}
	}
	for _, test := range []struct {
		name   string
		change func(place string) error
		want   string
	}{
		{"a file more", file("mine.txt", "1"), "mine.txt; accepted"},
		{"deeper", file("sheets/mine.txt", "1"), "sheets/mine.txt; accepted"},
		{"a folder more", file("mine/1.txt", "1"), "mine; accepted"},
		{"changed", file("sheets/b.svg", "onE"), "sheets/b.svg (changed); accepted"},
		{"a link more", link("mine"), "mine; accepted"},
		{"a link for a file", link("book.txt"), "book.txt (not a file); accepted"},
		{"many", func(place string) error {
			return errors.Join(file("1", "")(place), file("2", "")(place), file("3", "")(place), file("4", "")(place))
		}, "1, 2, 3, and more; accepted"},
		{"no list", func(place string) error { return os.Remove(filepath.Join(place, "contents.sha256")) },
			"there already, and not a book that was written here: book.html, book.json, book.txt, and more; accepted"},
		{"another list", file("contents.sha256", "0  book.txt\n"), "not a book that was written here"},
		{"a link for the list", link("contents.sha256"), "not a book that was written here"},
		{"a list that leads out", func(place string) error {
			name := filepath.Join(place, "contents.sha256")
			text, err := os.ReadFile(name)
			return errors.Join(err, os.WriteFile(name, append(text, "0  ../outside\n"...), 0o666))
		}, "not a book that was written here"},
	} {
		t.Run(test.name, func(t *testing.T) {
			top := t.TempDir()
			place := filepath.Join(top, "book")
			do := func(text string, args ...string) (int, string) {
				var errs bytes.Buffer
				return writer(text).Do(append([]string{"-q", "-o", place}, args...), io.Discard, &errs), errs.String()
			}
			if status, errs := do("one"); status != 1 {
				t.Fatal(errs)
			}
			if err := test.change(place); err != nil {
				t.Skip(err)
			}
			before := tree(t, place)
			if status, errs := do("two"); status != 2 || !strings.Contains(errs, test.want) || tree(t, place) != before {
				t.Errorf("%d, %s\n%s", status, errs, tree(t, place))
			}
			if _, err := os.Lstat(filepath.Join(top, "outside")); err == nil {
				t.Error("outside")
			}
			if status, errs := do("two", "-force"); status != 1 || tree(t, place) != written("two") ||
				!strings.Contains(errs, "book.kept-1") || tree(t, place+".kept-1") != before {
				t.Errorf("%d, %s\n%s\n%s", status, errs, tree(t, place), tree(t, place+".kept-1"))
			}
			if entries, err := os.ReadDir(top); err != nil || len(entries) != 2 {
				t.Errorf("%v, %v", entries, err)
			}
		})
	}
}

// A place that cannot be had: nothing is printed, and nothing left behind.
func TestBookletPlace(t *testing.T) {
	top := t.TempDir()
	t.Chdir(top)
	t.Setenv("HOME", filepath.Join(top, "home", "me"))
	outside := t.TempDir()
	for _, err := range []error{
		os.WriteFile("file", nil, 0o666), os.MkdirAll("home/me/x", 0o777), os.Mkdir("empty", 0o777), os.Symlink(outside, "link"),
	} {
		if err != nil {
			t.Skip(err)
		}
	}
	for _, test := range []struct{ place, want string }{
		{"file", "w: -o: file: a file is there; accepted: a folder\n"},
		{"file/book", "w: -o: file/book: not a directory\n"},
		{"link", "w: -o: link: a symbolic link, which is not followed; accepted: a folder by its own name\n"},
		{"link/", "w: -o: link/: a symbolic link, which is not followed"},
		{".", "w: -o: .: the folder that the program runs in is in it"},
		{top, "the folder that the program runs in is in it"},
		{"", "the folder that the program runs in is in it"},
		{"/", "the folder that the program runs in is in it"},
		{"home", "w: -o: home: a home folder is in it"},
		{"home/me", "w: -o: home/me: a home folder is in it"},
		{strings.Repeat("long", 100), "too long"},
		{"nul\x00", `nul\u0000: invalid argument`},
		{".book.01234abc", "a name as of a folder that is still being written"},
	} {
		before := tree(t, top)
		var out, errs bytes.Buffer
		status := writer("x").Do([]string{"-q", "-force", "-o", test.place}, &out, &errs)
		if status != 2 || out.Len() > 0 || !strings.Contains(errs.String(), test.want) || tree(t, top) != before {
			t.Errorf("%q: %d, %s\n%s", test.place, status, &errs, tree(t, top))
		}
	}
	if left, err := os.ReadDir(outside); err != nil || len(left) > 0 {
		t.Errorf("the link was followed: %v, %v", left, err)
	}
	// An empty folder is a place.
	var errs bytes.Buffer
	if status := writer("x").Do([]string{"-q", "-o", "empty"}, io.Discard, &errs); status != 1 || errs.Len() > 0 || tree(t, "empty") != written("x") {
		t.Errorf("%d, %s\n%s", status, &errs, tree(t, "empty"))
	}
}

// Nor is the folder that the program runs in replaced while it is empty, which would
// leave the shell in a folder that is gone.
func TestBookletHere(t *testing.T) {
	top := t.TempDir()
	t.Chdir(top)
	t.Setenv("HOME", filepath.Join(top, "me"))
	if err := os.Mkdir("me", 0o777); err != nil {
		t.Fatal(err)
	}
	for place, want := range map[string]string{".": "the folder that the program runs in", "me": "a home folder"} {
		if place == "." {
			t.Chdir(t.TempDir())
		} else {
			t.Chdir(top)
		}
		var out, errs bytes.Buffer
		status := writer("x").Do([]string{"-q", "-force", "-o", place}, &out, &errs)
		if status != 2 || out.Len() > 0 || !strings.Contains(errs.String(), want) || tree(t, ".") != "" {
			t.Errorf("%q: %d, %s\n%s", place, status, &errs, tree(t, "."))
		}
	}
}

// Where the answer cannot be printed, all is as it was.
func TestBookletNotPrinted(t *testing.T) { bothWays(t, testBookletNotPrinted) }

func testBookletNotPrinted(t *testing.T) {
	top := t.TempDir()
	place := filepath.Join(top, "in", "book")
	args := []string{"-q", "-o", place}
	if status := writer("one").Do(args, full{}, io.Discard); status != 2 || tree(t, top) != "" {
		t.Errorf("%d, %s", status, tree(t, top))
	}
	if _, err := os.Lstat(filepath.Dir(place)); err == nil {
		t.Error("a folder is left behind")
	}
	writer("one").Do(args, io.Discard, io.Discard)
	if status := writer("two").Do(args, full{}, io.Discard); status != 2 || tree(t, top) != in("in/book", written("one")) {
		t.Errorf("%d, %s", status, tree(t, top))
	}
}

// TestBookletWriter is no test: [TestBookletKilled] runs it as a program to kill.
func TestBookletWriter(t *testing.T) {
	place := os.Getenv("BOOKLET_PLACE")
	if place == "" {
		t.Skip("run by another test only")
	}
	fmt.Println("begun")
	for i := range 1000 {
		text := strings.Repeat(string(rune('a'+i%26)), 1<<20)
		if status := writer(text).Do([]string{"-q", "-o", place}, io.Discard, os.Stderr); status != 1 {
			os.Exit(3)
		}
	}
}

// A program that is killed at any moment leaves a whole book, this one or the one
// before.
func TestBookletKilled(t *testing.T) {
	top := t.TempDir()
	place := filepath.Join(top, "book")
	if status := writer("first").Do([]string{"-q", "-o", place}, io.Discard, os.Stderr); status != 1 {
		t.Fatal(status)
	}
	times := 20
	if testing.Short() {
		times = 4
	}
	for i := range times {
		c := exec.Command(os.Args[0], "-test.run=^TestBookletWriter$", "-test.v")
		c.Env = append(os.Environ(), "BOOKLET_PLACE="+place)
		said, err := c.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := c.Start(); err != nil {
			t.Skip(err)
		}
		for line := make([]byte, 256); !bytes.Contains(line, []byte("begun")); {
			if _, err := said.Read(line); err != nil {
				t.Fatal(err)
			}
		}
		time.Sleep(time.Duration(i) * 1700 * time.Microsecond) // some moment: the test holds for each
		if err := c.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = c.Wait()
		text, err := os.ReadFile(filepath.Join(place, "sheets", "a.svg"))
		if err != nil || tree(t, place) != written(string(text)) {
			t.Fatalf("kill %d: %v; %d bytes", i, err, len(text))
		}
	}
	// What they left beside it does not disturb the next, which clears it away.
	if status := writer("last").Do([]string{"-q", "-o", place}, io.Discard, os.Stderr); status != 1 || tree(t, place) != written("last") {
		t.Error(status)
	}
	if left, err := os.ReadDir(top); runtime.GOOS == "linux" && (err != nil || len(left) != 1) {
		t.Errorf("%v, %v", left, err)
	}
}
