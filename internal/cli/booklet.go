package cli

import (
	"bytes"
	"io"
	"path/filepath"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units/finding"
)

// A booklet is a folder with the book in every view and what belongs to it.
type booklet struct {
	folder string
	files  []File // beside the book; at last all of them
	left   []string
	force  bool
	quiet  bool
	say    func(string) // says something on standard error
}

// Booklet gives the program the flag -o, a folder for the book in every view and
// for the files of [Flags.Beside], which is written whole; and -q, which goes
// with it.
func (f *Flags) Booklet() {
	f.Word(&f.folder, "o", "DIR", "write the whole book into this folder: the page to print, text, JSON, and drawings where the program makes them; "+
		"all of it or nothing, and over no folder but a book written so")
	f.Switch(&f.quiet, "q", "say nothing on the way")
}

// Wanted reports whether a folder is wanted, to which [Flags.Beside] adds files.
func (f *Flags) Wanted() bool { return f.Given("o") }

// Beside puts files beside the book, with slashes in their names for folders in
// its folder.
func (f *Flags) Beside(files ...File) { f.files = append(f.files, files...) }

// LeftOut says, where what was written is listed, what was not and why.
func (f *Flags) LeftOut(texts ...string) { f.left = append(f.left, texts...) }

// Progress says on standard error what a program that writes a folder is about to do.
func (f *Flags) Progress(text string) {
	if f.Wanted() && !f.quiet {
		f.say(text)
	}
}

// bind puts the views of a book before the files beside it.
func (f *Flags) bind(b book.Book) error {
	f.Progress("the book: for print, text, JSON")
	var views []File
	for _, view := range []struct {
		name, about string
		write       func(io.Writer) error
	}{
		{"book.html", "to look at and to print", b.WriteHTML},
		{"book.txt", "to read", b.WriteText},
		{"book.json", "for programs", b.WriteJSON},
	} {
		var text bytes.Buffer
		if err := view.write(&text); err != nil {
			return err
		}
		views = append(views, File{Name: view.name, Text: text.Bytes(), About: view.about})
	}
	f.files = append(views, f.files...)
	return nil
}

// written is what is told of a book that was written: what is wrong, and the files.
func (f *Flags) written(b book.Book) book.Book {
	short := book.Book{Program: b.Program, Title: b.Title, From: b.From, Inch: b.Inch}
	for _, found := range b.All() {
		if found.Severity > finding.Note {
			short.Findings = append(short.Findings, found)
		}
	}
	files := book.Section{Key: "written", Title: "WRITTEN", Items: []book.Item{{}}}
	for _, file := range f.files {
		files.Items[0].Figures = append(files.Items[0].Figures, book.Figure{
			Title: file.About, File: filepath.Join(f.folder, filepath.FromSlash(file.Name)),
		})
	}
	if len(short.Findings) == 0 {
		files.Intro = []string{"Nothing wrong was found."}
	}
	for _, text := range f.left {
		files.Notes = append(files.Notes, "Left out: "+text)
	}
	short.Sections = []book.Section{files}
	return short
}
