package book_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
)

// A node is an element of a page, or text in one.
type node struct {
	name string // blank for text
	attr map[string]string
	text string
	in   []*node
}

// parsePage reads a page of HTML by the strict rules of XML, by which every element
// is closed in order, every attribute is quoted and every character is escaped.
func parsePage(t *testing.T, text []byte) *node {
	t.Helper()
	root := &node{}
	open := []*node{root}
	decoder := xml.NewDecoder(bytes.NewReader(text))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return root
		}
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		last := open[len(open)-1]
		switch token := token.(type) {
		case xml.StartElement:
			n := &node{name: token.Name.Local, attr: map[string]string{}}
			for _, a := range token.Attr {
				if _, double := n.attr[a.Name.Local]; double {
					t.Errorf("%s: two attributes %s", n.name, a.Name.Local)
				}
				n.attr[a.Name.Local] = a.Value
			}
			last.in = append(last.in, n)
			open = append(open, n)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			last.in = append(last.in, &node{text: string(token)})
		}
	}
}

// all yields a node and those in it, in order.
func (n *node) all(yield func(*node) bool) bool {
	if !yield(n) {
		return false
	}
	for _, inner := range n.in {
		if !inner.all(yield) {
			return false
		}
	}
	return true
}

// named returns the elements of a name.
func (n *node) named(names ...string) []*node {
	var found []*node
	n.all(func(n *node) bool {
		if n.name != "" && slices.Contains(names, n.name) {
			found = append(found, n)
		}
		return true
	})
	return found
}

// words returns the text of a node in one line, cells apart.
func (n *node) words() string {
	var b strings.Builder
	var write func(n *node)
	write = func(n *node) {
		if n.name == "style" {
			return
		}
		b.WriteString(n.text)
		for _, inner := range n.in {
			write(inner)
		}
		if n.name == "td" || n.name == "th" {
			b.WriteString(" ")
		}
	}
	write(n)
	return strings.Join(strings.Fields(b.String()), " ")
}

func writePage(t *testing.T, b book.Book) []byte {
	t.Helper()
	var text bytes.Buffer
	if err := b.WriteHTML(&text); err != nil {
		t.Fatal(err)
	}
	return text.Bytes()
}

func pageText(t *testing.T, b book.Book) string {
	t.Helper()
	return parsePage(t, writePage(t, b)).words()
}
