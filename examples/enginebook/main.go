// Enginebook reads the dimensions of a slide-valve steam engine from a file and
// prints what the engine will do: laps, the events of the valve at both ends,
// lead and openings, the offset of the eccentric, and first of all whatever is
// wrong with it, while it can still be put right on paper.
//
//	go run ./examples/enginebook [-json] [engine.toml]
//	go run ./examples/enginebook -demo >my-engine.toml
//
// Without a file it takes an invented engine; the second command writes its
// file, demo/engine.toml, which explains every key. It exits with 1 when
// something can hurt somebody or will not work, and with 2, and nothing printed
// but the reason, when the file cannot be used.
package main

import (
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"

	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units/finding"
)

//go:embed demo/engine.toml
var demo []byte

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("enginebook", flag.ContinueOnError)
	flags.SetOutput(stderr)
	asJSON := flags.Bool("json", false, "print the same figures as JSON, for programs")
	asFile := flags.Bool("demo", false, "print the file of the invented engine, which explains every key, to put your own sizes in")
	flags.Usage = func() {
		fmt.Fprintln(stderr, `usage: enginebook [-json] [engine.toml]
       enginebook -demo >my-engine.toml
Without a file it takes an invented engine. It exits with 0, with 1 when
something it found can hurt somebody or will not work, and with 2 when it cannot
use the file.`)
		flags.PrintDefaults()
	}
	switch err := flags.Parse(args); {
	case err == flag.ErrHelp:
		return 0
	case err != nil:
		return 2
	case flags.NArg() > 1, *asFile && (*asJSON || flags.NArg() > 0):
		flags.Usage()
		return 2
	case *asFile:
		if _, err := stdout.Write(demo); err != nil {
			fmt.Fprintln(stderr, "enginebook:", err)
			return 2
		}
		return 0
	}
	name, text := "demo/engine.toml", demo
	if flags.NArg() == 1 {
		name = flags.Arg(0)
		var err error
		if text, err = cli.ReadFile(name, engine.Largest); err != nil {
			fmt.Fprintln(stderr, "enginebook:", err)
			return 2
		}
	}
	in, err := parse(name, text)
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	b, err := compile(in)
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	if *asJSON {
		err = b.writeJSON(stdout)
	} else {
		err = b.writeText(stdout)
	}
	switch {
	case err != nil:
		fmt.Fprintln(stderr, "enginebook:", err)
		return 2
	case !b.findings.OK():
		return 1
	}
	return 0
}

// A page is one part of the book: one subject, from one part of the file.
type page struct {
	data     map[string]any // top-level keys of the JSON
	findings finding.List
	cautions []string // what can hurt somebody, as the text has it
	write    func(*printer)
}

const beforeSteam = "Turn the engine over by hand through two whole turns first, then run it on low-pressure air, clear of the flywheel, the crank and loose sleeves. Steam comes only from a boiler that is tested and certified by the rules of the place; those rules, and licensed practice where it is asked for, come before anything printed here. Engine, pipes and drains stay hot after the steam is shut off."

// pages make the parts of the book, in order. Each returns nil if the file has
// nothing for it, and an error made with input.errorAt if what is there cannot
// be used.
var pages = []func(*input) (*page, error){
	valvePage,
	fitsPage,
	fastenersPage,
	operationsPage,
	coversPage,
}

// A book is all pages of one engine.
type book struct {
	name, file string
	pages      []*page
	findings   finding.List // of all pages, the worst first
}

func compile(in *input) (*book, error) {
	b := &book{name: in.File.Name, file: in.Document.Name}
	problems := []error{in.Cross()}
	for _, make := range pages {
		p, err := make(in)
		problems = append(problems, err)
		if p != nil {
			b.pages = append(b.pages, p)
			b.findings = append(b.findings, p.findings...)
		}
	}
	if err := engine.Join(problems...); err != nil {
		return nil, err
	}
	b.findings.Sort()
	return b, nil
}

func (b *book) writeJSON(w io.Writer) error {
	all := map[string]any{"name": b.name, "findings": b.findings}
	if b.findings == nil {
		all["findings"] = finding.List{}
	}
	cautions := []string{}
	for _, p := range b.pages {
		cautions = append(cautions, p.cautions...)
		for key, value := range p.data {
			all[key] = value
		}
	}
	all["cautions"] = append(cautions, beforeSteam)
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(all)
}

func (b *book) writeText(w io.Writer) error {
	p := &printer{}
	p.line("ENGINE BOOK   " + b.name)
	p.line("from " + b.file)
	serious := 0
	for _, f := range b.findings {
		if f.Severity > finding.Note {
			serious++
		}
	}
	if serious > 0 {
		p.findings("WHAT IS WRONG", b.findings[:serious])
	} else {
		p.blank()
		p.line("Nothing found that can hurt somebody, stops the engine or costs it power.")
	}
	for _, page := range b.pages {
		page.write(p)
	}
	if serious < len(b.findings) {
		p.findings("WORTH KNOWING", b.findings[serious:])
	}
	p.heading("BEFORE STEAM")
	p.para(beforeSteam)
	_, err := w.Write(p.Bytes())
	return err
}
