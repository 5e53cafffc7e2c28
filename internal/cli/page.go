package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/valvechest/valvechest/internal/book"
)

// pageOutput is a book as a page to be written to a file, in place of one of our own
// pages; of nothing else but by force.
func pageOutput(name string, b book.Book) (*output, error) {
	folder, base := filepath.Split(name)
	if base == "" || base == "." || base == ".." {
		return nil, fmt.Errorf("%q: no name of a file; accepted: the name of a file to write, such as answer.html", Short(name))
	}
	if folder == "" {
		folder = "."
	}
	var text bytes.Buffer
	if err := b.WriteHTML(&text); err != nil {
		return nil, err
	}
	return &output{
		flag: "-html", folder: folder, files: []File{{Name: base, Text: text.Bytes()}},
		mayReplace: isPage, refused: "there already, and no page of ours", instead: "another name",
	}, nil
}

// isPage reports whether a file begins as our pages do.
func isPage(name string) bool {
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	start := make([]byte, 1024)
	n, err := io.ReadFull(f, start)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) {
		return false
	}
	return bytes.HasPrefix(start, []byte("<!DOCTYPE html>\n")) && bytes.Contains(start[:n], []byte(`<meta name="generator" content="valvechest `))
}
