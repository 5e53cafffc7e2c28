package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/internal/sheet"
)

var update = flag.Bool("update", false, "write what is kept anew: go test ./examples/enginebook -update")

const renew = "where the new text is right, run go test ./examples/enginebook -update, and read what changed"

// The text of the book of the demonstration is that of testdata/demo.txt, line by line.
func TestGolden(t *testing.T) {
	const kept = "testdata/demo.txt"
	got, _, code := book1(t)
	if code != 0 {
		t.Fatalf("exit %d", code)
	}
	if *update {
		if err := os.WriteFile(kept, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(kept)
	if err != nil {
		t.Fatal(err)
	}
	if line, now, was := differing(got, string(want)); line > 0 {
		t.Errorf("%s:%d:\n  now %q\n  was %q\n%s", kept, line, now, was, renew)
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

func TestDiffering(t *testing.T) {
	for _, test := range []struct {
		got, want string
		line      int
	}{{"a\nb\n", "a\nb\n", 0}, {"a\nb\n", "a\nc\n", 2}, {"a\n", "a", 2}, {"a", "a\nb", 2}, {"", "x", 1}} {
		if line, now, was := differing(test.got, test.want); line != test.line || line > 0 && now == was {
			t.Errorf("%q and %q: line %d, %q, %q", test.got, test.want, line, now, was)
		}
	}
}

// The picture of the valve that the README shows is that of the book.
func TestValvePicture(t *testing.T) {
	const kept, key = "engines/valve.svg", "valve-over-its-ports"
	b, err := pages.EngineFile("engines/demo.toml", demo)
	if err != nil {
		t.Fatal(err)
	}
	var got bytes.Buffer
	for _, s := range b.Sections {
		for _, i := range s.Items {
			for _, f := range i.Figures {
				if f.Key != key {
					continue
				}
				if err := sheet.WriteSVG(&got, f.Title, f.Drawing); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	if *update {
		if err := os.WriteFile(kept, got.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(kept)
	if err != nil {
		t.Fatal(err)
	}
	if got.Len() == 0 || !bytes.Equal(got.Bytes(), want) {
		t.Errorf("%s is not the picture %s of the book, of %d bytes; %s", kept, key, got.Len(), renew)
	}
}

// The README shows the bench card of the demonstration as the book has it.
func TestReadmeCard(t *testing.T) {
	const name, begins, ends = "../../README.md", "<!-- bench card -->\n", "<!-- end of the bench card -->"
	b, err := pages.EngineFile("engines/demo.toml", demo)
	if err != nil {
		t.Fatal(err)
	}
	want := cardOf(t, b)
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), begins)
	got, after, okEnd := strings.Cut(rest, ends)
	if !ok || !okEnd {
		t.Fatalf("no %q and %q in the README", begins, ends)
	}
	if *update {
		if err := os.WriteFile(name, []byte(before+begins+want+ends+after), 0o666); err != nil {
			t.Fatal(err)
		}
		got = want
	}
	if line, now, was := differing(want, got); line > 0 {
		t.Errorf("README.md, line %d of the bench card:\n  now %q\n  was %q\n%s", line, now, was, renew)
	}
}

// cardOf returns the bench card of a book as a table of Markdown.
func cardOf(t *testing.T, b book.Book) string {
	t.Helper()
	var text strings.Builder
	for _, s := range b.Sections {
		if s.Key != "bench_card" {
			continue
		}
		for _, table := range s.Items[0].Tables {
			heads := []string{table.Group, "done", table.Label}
			for _, v := range table.Rows[0].Values {
				heads = append(heads, v.Label)
			}
			fmt.Fprintf(&text, "| %s |\n|%s\n", strings.Join(heads, " | "), strings.Repeat("---|", len(heads)))
			group := ""
			for _, r := range table.Rows {
				cells := []string{"", "[ ]", r.Label}
				if r.Group != group {
					group = r.Group
					cells[0] = group
				}
				for _, v := range r.Values {
					cells = append(cells, strings.TrimSpace(v.What.Text()+" "+v.Remark))
				}
				for i, cell := range cells {
					cells[i] = strings.ReplaceAll(cell, "|", `\|`)
				}
				fmt.Fprintf(&text, "| %s |\n", strings.Join(cells, " | "))
			}
		}
	}
	if strings.Count(text.String(), "\n") < 30 {
		t.Fatalf("no bench card: %s", text.String())
	}
	return text.String()
}
