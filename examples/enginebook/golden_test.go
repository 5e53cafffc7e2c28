package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/internal/sheet"
)

// The text of the book of the demonstration is that of testdata/demo.txt, line by line.
func TestGolden(t *testing.T) {
	got, _, code := book1(t)
	if code != 0 {
		t.Fatalf("exit %d", code)
	}
	check.Kept(t, "../examples/enginebook/testdata/demo.txt", got)
}

// The picture of the valve that the README shows is that of the book.
func TestValvePicture(t *testing.T) {
	const key = "valve-over-its-ports"
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
	if got.Len() == 0 {
		t.Fatalf("no picture %s in the book", key)
	}
	check.Kept(t, "../examples/enginebook/engines/valve.svg", got.String())
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
	_, after, okEnd := strings.Cut(rest, ends)
	if !ok || !okEnd {
		t.Fatalf("no %q and %q in the README", begins, ends)
	}
	check.Kept(t, "../README.md", before+begins+want+ends+after)
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
