package check

import (
	"errors"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the kept texts of the tests anew; read what changed before it is sent")

// Kept compares a text with the one that is kept in a file, from testdata, and names
// the first line that differs. With -update the file is written anew. It tells of
// every change of an answer, and of none whether the answer is right: what is kept
// stands beside checks, not for them.
func Kept(t testing.TB, name, text string) {
	t.Helper()
	path := Path(t, name)
	if *update {
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o777), os.WriteFile(path, []byte(text), 0o666)); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	if line, now, was := differing(text, string(want)); line > 0 {
		t.Errorf("%s:%d:\n  now %q\n  was %q\nwhere the new text is right, run this test with -update, and read what changed",
			path, line, now, was)
	}
}

// differing returns the first line in which two texts differ, from 1, and what stands
// there; 0 where they are alike.
func differing(got, want string) (line int, now, was string) {
	nows, wants := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range max(len(nows), len(wants)) {
		now, was = "(the text has ended)", "(the text has ended)"
		if i < len(nows) {
			now = nows[i]
		}
		if i < len(wants) {
			was = wants[i]
		}
		if now != was {
			return i + 1, now, was
		}
	}
	return 0, "", ""
}
