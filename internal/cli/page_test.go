package cli_test

import (
	"bytes"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/cli"
)

// The answer is written as a page beside what is printed, whichever view that is,
// and with status 1 too.
func TestPage(t *testing.T) {
	name := filepath.Join(t.TempDir(), "new", "answer.html")
	var stdout, stderr bytes.Buffer
	if status := demo().Do([]string{"-html", name, "-strict", "-json", "now", "-d", "3 mm"}, &stdout, &stderr); status != 1 || stderr.Len() > 0 {
		t.Fatalf("%d, %s", status, &stderr)
	}
	var all map[string]any
	if err := json.Unmarshal(stdout.Bytes(), &all); err != nil {
		t.Error(err)
	}
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	page, err := check.ReadPage(text)
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range page.Faults() {
		t.Error(fault)
	}
	for _, want := range []string{"It fails.", "double 6.000 mm 0.2362 in"} {
		if !strings.Contains(page.Words(), want) {
			t.Errorf("no %q in %q", want, page.Words())
		}
	}
	// The next answer takes its place.
	if status := demo().Do([]string{"-html=" + name, "later", "-d", "4 mm"}, &stdout, &stderr); status != 0 {
		t.Fatalf("%d, %s", status, &stderr)
	}
	if text, err := os.ReadFile(name); err != nil || !bytes.Contains(text, []byte("8.000 mm")) || bytes.Contains(text, []byte("6.000 mm")) {
		t.Errorf("%v\n%s", err, text)
	}
	if entries, err := os.ReadDir(filepath.Dir(name)); err != nil || len(entries) != 1 {
		t.Error(entries, err)
	}
}

// What is no page of ours stays as it is, and nothing is printed or left behind
// where the page cannot be written.
func TestPageRefused(t *testing.T) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	const foreign = "<!DOCTYPE html>\n<html><title>mine</title></html>\n"
	if err := os.WriteFile(at("mine.html"), []byte(foreign), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(at("empty.html"), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(at("folder"), 0o777); err != nil {
		t.Fatal(err)
	}
	linked := os.Symlink("mine.html", at("link.html"))
	for name, want := range map[string]string{
		at("mine.html"):  "there already, and no page of ours",
		at("empty.html"): "there already, and no page of ours",
		at("folder"):     "not a regular file",
		at("folder") + string(filepath.Separator): "no name of a file",
		"":                                       "no name of a file",
		at("link.html"):                          "not a regular file",
		filepath.Join(at("mine.html"), "a.html"): "-html: ",
	} {
		if linked != nil && strings.HasSuffix(name, "link.html") {
			continue
		}
		var stdout, stderr bytes.Buffer
		status := demo().Do([]string{"-html", name, "now", "-d", "3 mm"}, &stdout, &stderr)
		if status != 2 || stdout.Len() > 0 || !strings.HasPrefix(stderr.String(), "double: -html: ") || !strings.Contains(stderr.String(), want) {
			t.Errorf("%q: %d %s %s; want %q", name, status, &stdout, &stderr, want)
		}
	}
	if text, err := os.ReadFile(at("mine.html")); err != nil || string(text) != foreign {
		t.Errorf("%q, %v", text, err)
	}
	// Nothing of an answer that cannot be used or printed.
	var stdout, stderr bytes.Buffer
	if status := demo().Do([]string{"-html", at("new.html"), "now"}, &stdout, &stderr); status != 2 {
		t.Error(status)
	}
	if status := demo().Do([]string{"-html", at("new.html"), "now", "-d", "3 mm"}, full{}, &stderr); status != 2 {
		t.Error(status)
	}
	if status := demo().Do([]string{"-html", at("new.html"), "-h"}, &stdout, &stderr); status != 0 {
		t.Error(status)
	}
	if entries, err := os.ReadDir(folder); err != nil || len(entries) != 4-b2i(linked != nil) {
		t.Error(entries, err)
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// By force a page goes over whatever file is there, which is kept beside it; where the
// answer cannot be printed then, all is as it was.
func TestPageForced(t *testing.T) { bothWays(t, testPageForced) }

func testPageForced(t *testing.T) {
	folder := t.TempDir()
	name := filepath.Join(folder, "answer.html")
	for _, file := range []string{name, name + ".kept-1"} {
		if err := os.WriteFile(file, []byte("mine"), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	do := func(stdout io.Writer) (int, string) {
		var stderr bytes.Buffer
		return demo().Do([]string{"-html", name, "-force", "now", "-d", "3 mm"}, stdout, &stderr), stderr.String()
	}
	const before = "answer.html.kept-1=mine\nanswer.html=mine"
	if status, errs := do(full{}); status != 2 || tree(t, folder) != before {
		t.Errorf("%d, %s\n%s", status, errs, tree(t, folder))
	}
	status, errs := do(io.Discard)
	if status != 0 || !strings.Contains(errs, "what was in "+cli.Short(name)+" is now in "+cli.Short(name+".kept-2")) {
		t.Errorf("%d, %s", status, errs)
	}
	if text, err := os.ReadFile(name); err != nil || !bytes.Contains(text, []byte("6.000 mm")) {
		t.Error(err)
	}
	if text, err := os.ReadFile(name + ".kept-2"); err != nil || string(text) != "mine" {
		t.Errorf("%q, %v", text, err)
	}
	// A page of ours is replaced without a word, and stays where the next is not printed.
	page := tree(t, folder)
	if status, errs := do(full{}); status != 2 || tree(t, folder) != page {
		t.Errorf("%d, %s", status, errs)
	}
	if status, errs := do(io.Discard); status != 0 || errs != "" || tree(t, folder) != page {
		t.Errorf("%d, %s", status, errs)
	}
}

// A page beside files of the program's own, and in place of one: both are written or
// neither is.
func TestPageAndFiles(t *testing.T) {
	folder := t.TempDir()
	p := cli.Program{Name: "files"}
	var flags *cli.Flags
	p.Define = func(f *cli.Flags) { flags = f }
	p.Run = func(args []string) (book.Book, error) {
		if len(args) > 0 {
			flags.Raw([]byte("raw"))
			return book.Book{}, nil
		}
		flags.Files(filepath.Join(folder, "out"), []cli.File{{Name: "a", Text: []byte("1")}}, false)
		return book.Book{Title: "files"}, nil
	}
	var stdout, stderr bytes.Buffer
	name := filepath.Join(folder, "answer.html")
	if status := p.Do([]string{"-html", name, "raw"}, &stdout, &stderr); status != 2 || stdout.Len() > 0 || !strings.Contains(stderr.String(), "-html") {
		t.Errorf("%d, %s", status, &stderr)
	}
	if status := p.Do([]string{"-html", filepath.Join(folder, "out")}, &stdout, &stderr); status == 0 {
		t.Error("a page in the place of a folder")
	}
	// Nor in that of one of the files, which is seen when it is put there.
	stdout.Reset()
	stderr.Reset()
	if status := p.Do([]string{"-html", filepath.Join(folder, "out", "a")}, &stdout, &stderr); status != 2 || stdout.Len() > 0 ||
		!strings.Contains(stderr.String(), "-html: ") || !strings.Contains(stderr.String(), "a was written meanwhile") {
		t.Errorf("%d, %s%s", status, &stdout, &stderr)
	}
	if entries, err := os.ReadDir(folder); err != nil || len(entries) != 0 {
		t.Error(entries, err)
	}
	if status := p.Do([]string{"-html", name}, &stdout, &stderr); status != 0 {
		t.Errorf("%d, %s", status, &stderr)
	}
	if _, err := os.ReadFile(filepath.Join(folder, "out", "a")); err != nil {
		t.Error(err)
	}
	if _, err := os.ReadFile(name); err != nil {
		t.Error(err)
	}
}

// A page is not put into a folder that is written whole, which has one.
func TestPageInBooklet(t *testing.T) {
	place := filepath.Join(t.TempDir(), "book")
	for _, page := range []string{filepath.Join(place, "a.html"), place, filepath.Join(place, "sheets", "..", "b.html")} {
		var stdout, stderr bytes.Buffer
		if status := writer("x").Do([]string{"-q", "-o", place, "-html", page}, &stdout, &stderr); status != 2 || stdout.Len() > 0 ||
			!strings.Contains(stderr.String(), "in the folder of -o") {
			t.Errorf("%q: %d, %s", page, status, &stderr)
		}
	}
	var stderr bytes.Buffer
	if status := writer("x").Do([]string{"-q", "-o", place, "-html", place + ".html"}, io.Discard, &stderr); status != 1 || stderr.Len() > 0 {
		t.Errorf("%d, %s", status, &stderr)
	}
}
