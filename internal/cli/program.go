package cli

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units/finding"
)

// A Program is one example program.
type Program struct {
	Name      string
	Arguments string   // as the usage has them: "THREAD"
	About     string   // what it answers, in a sentence or two
	Try       []string // commands to try, without the name of the program
	Define    func(*Flags)
	// Run makes the book of the arguments that are no flags. An error is told in
	// one line, errors that are joined in one each. Where the book has precautions,
	// the codes of the place are put below them.
	Run func(args []string) (book.Book, error)
}

// Main runs the program with the arguments and streams of the process.
func (p Program) Main() { end(p.Do(os.Args[1:], os.Stdout, os.Stderr)) }

// Do runs the program and returns the exit status; of one that a signal has stopped,
// the one that a shell tells.
func (p Program) Do(args []string, stdout, stderr io.Writer) int {
	var out bytes.Buffer
	fail := func(err error) int {
		for _, e := range each(err) {
			fmt.Fprintf(stderr, "%s: %s\n", p.Name, Explain(e))
		}
		return 2
	}
	flags := &Flags{set: flag.NewFlagSet(p.Name, flag.ContinueOnError)}
	flags.say = func(text string) { fmt.Fprintf(stderr, "%s: %s\n", p.Name, fault.Visible(text)) }
	status, err := p.run(args, flags, &out)
	if err != nil {
		return fail(err)
	}
	if err := flags.write(&out, stdout); err != nil {
		status := fail(err)
		var by *interruption
		if errors.As(err, &by) {
			status = statusOf(by.signal)
		}
		return status
	}
	return status
}

func (p Program) run(args []string, flags *Flags, out *bytes.Buffer) (status int, err error) {
	flags.set.SetOutput(io.Discard)
	asJSON, page := false, ""
	if p.Define != nil {
		p.Define(flags)
	}
	flags.Switch(&asJSON, "json", "print the answer as JSON, for programs")
	flags.Word(&page, "html", "FILE", "write the answer to a file too, as a page with its pictures to look at or to print; "+
		"one of our own pages is replaced, and no other file unless by -force")
	flags.Switch(&flags.force, "force", "write although something else is there already, which is kept beside the new one; never over a link")
	flags.Switch(&flags.version, "version", "print the version of the library and end")
	rest, err := flags.parse(args)
	switch {
	case errors.Is(err, errVersion):
		fmt.Fprintln(out, version(p.Name))
		return 0, nil
	case errors.Is(err, flag.ErrHelp):
		p.help(out, flags)
		return 0, nil
	case err != nil:
		return 2, err
	case flags.Wanted(): // before all the work
		if _, err := placeOf(flags.folder, flags.force); err != nil {
			return 2, Named("-o", err)
		}
	}
	b, err := p.Run(rest)
	if err != nil {
		return 2, err
	}
	if flags.raw != nil { // a file in place of a book
		if flags.Given("html") {
			return 2, ErrUsage("-html and a file that is printed as it is; accepted: one of them")
		}
		out.Write(flags.raw)
		return 0, nil
	}
	b.Program = p.Name
	if b.From == "" && !b.Inch && flags.inches() {
		b = b.InchFirst()
	}
	if len(b.Precautions) > 0 {
		b.Precautions = append(slices.Clip(b.Precautions), finding.CodesOfThePlace())
	}
	whole := b
	if flags.Wanted() {
		if err := flags.bind(b); err != nil {
			return 2, err
		}
		if !asJSON {
			b = flags.written(b)
		}
	}
	write := b.WriteText
	if asJSON {
		write = b.WriteJSON
	}
	if err := write(out); err != nil {
		return 2, err
	}
	if flags.Given("html") {
		o, err := pageOutput(page, whole)
		if err == nil && flags.Wanted() {
			err = apart(page, flags.folder)
		}
		if err != nil {
			return 2, Named("-html", err)
		}
		flags.outputs = append(flags.outputs, o)
	}
	if !whole.OK() {
		return 1, nil
	}
	return 0, nil
}

func (p Program) help(w io.Writer, flags *Flags) {
	fmt.Fprintf(w, "usage: %s\n", strings.TrimRight(p.Name+" [flags] "+p.Arguments, " "))
	paragraph(w, "", p.About)
	if len(p.Try) > 0 {
		fmt.Fprintln(w, "\nTry")
		for _, t := range p.Try {
			fmt.Fprintln(w, command(strings.TrimRight("  "+p.Name+" "+t, " ")))
		}
	}
	fmt.Fprintln(w, "\nFlags")
	for _, f := range flags.all {
		head := "  -" + f.name
		if f.wants != "" {
			head += " " + f.wants
		}
		fmt.Fprintln(w, head)
		paragraph(w, "      ", f.about)
	}
	fmt.Fprint(w, `
It ends with 0; with 1 where something will not work or can hurt somebody; and
with 2 where it cannot use what it was given.
`)
}

// command breaks a long command before a flag, as a shell reads on behind a
// backslash.
func command(line string) string {
	const on = " \\"
	if utf8.RuneCountInString(line) <= width {
		return line
	}
	end := 0
	for i := range line {
		if strings.HasPrefix(line[i:], " -") && strings.Count(line[:i], `"`)%2 == 0 && strings.TrimSpace(line[:i]) != "" &&
			utf8.RuneCountInString(line[:i]+on) <= width {
			end = i
		}
	}
	if end == 0 {
		return line
	}
	return line[:end] + on + "\n" + command("     "+line[end:])
}

// paragraph writes text in lines that fit the page, each behind an indent.
func paragraph(w io.Writer, indent, text string) {
	line := ""
	for word := range strings.FieldsSeq(text) {
		if line != "" && utf8.RuneCountInString(indent+line+" "+word) > width {
			fmt.Fprintln(w, indent+line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	fmt.Fprintln(w, indent+line)
}

const width = 78 // characters of a line

// ErrUsage is wrong use that names no flag or argument.
func ErrUsage(format string, args ...any) error {
	return fmt.Errorf(format+"; see -h", args...)
}

// Named returns an error about a flag or an argument with its name: "-d" or
// "thread".
func Named(name string, err error) error {
	if err == nil {
		return nil
	}
	return &named{name, err}
}

type named struct {
	name string
	err  error
}

func (n *named) Error() string { return n.name + ": " + Explain(n.err) }
func (n *named) Unwrap() error { return n.err }

// Explain returns an error in one line, in the words of a person who ran a
// program: without the package that refuses, each character that does not print
// as an escape.
func Explain(err error) string {
	if byName, ok := err.(*named); ok {
		return fault.Visible(byName.Error())
	}
	var texts []string
	for _, one := range each(err) {
		texts = append(texts, fault.Plain(one))
	}
	return strings.Join(texts, "; ")
}

// Visible returns a text with every character that does not print, or that
// changes how others are shown, as an escape.
func Visible(text string) string { return fault.Visible(text) }

// each returns the errors that are joined in one, which are told a line each.
func each(err error) []error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	var all []error
	for _, e := range joined.Unwrap() {
		all = append(all, each(e)...)
	}
	return all
}
