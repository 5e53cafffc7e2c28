package units

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// The kinds of bad input. Errors of this module wrap one of them, so that a
// program can tell them apart with [errors.Is].
var (
	ErrSyntax      = errors.New("cannot be read")
	ErrUnknownUnit = errors.New("unknown unit")
	ErrOutOfRange  = errors.New("out of range")
	ErrNotFinite   = errors.New("not a finite number")
	ErrMissing     = errors.New("missing")
	ErrUnknown     = errors.New("unknown")
	ErrAmbiguous   = errors.New("ambiguous")
)

// A ParseError says which text could not be read, as what, why, and what would
// have been accepted or comes near. Every function of this module that reads
// text returns it, whichever package the text went to.
type ParseError struct {
	Package  string   // package that refuses: "thread"; blank for units
	What     string   // what was wanted: "length", "thread", "material"
	Text     string   // what was given
	Problem  string   // what is wrong with it; blank says only what Err says
	Accepted string   // what would have been right
	Near     []string // texts that would be read and come near, the likeliest first; may be empty
	Err      error    // one of the kinds above
}

// Error returns the error in one line; it quotes no more than 80 characters of
// the text. What does not print is escaped.
func (e *ParseError) Error() string {
	pkg, problem := e.Package, e.Problem
	if pkg == "" {
		pkg = "units"
	}
	if problem == "" && e.Err != nil {
		problem = e.Err.Error()
	}
	text := fmt.Sprintf("%s: %s %q: %s", pkg, e.What, cut(e.Text, 80), problem)
	switch {
	case len(e.Near) > 0:
		between := ", "
		for _, near := range e.Near {
			if strings.Contains(near, ",") {
				between = "; "
			}
		}
		text += "; near it: " + strings.Join(e.Near, between)
	case e.Accepted != "":
		text += "; accepted: " + e.Accepted
	}
	return oneLine(text)
}

// oneLine escapes what does not print, which may come from a reader's own text.
func oneLine(text string) string {
	unseen := func(r rune) bool { return !strconv.IsPrint(r) }
	if !strings.ContainsFunc(text, unseen) {
		return text
	}
	var line strings.Builder
	for _, r := range text {
		if unseen(r) {
			line.WriteString(strings.Trim(strconv.QuoteRune(r), "'"))
		} else {
			line.WriteRune(r)
		}
	}
	return line.String()
}

// Unwrap returns the kind of the error.
func (e *ParseError) Unwrap() error { return e.Err }

// An ArgumentError says which argument of a calculation cannot be used, and
// what is accepted. The packages of this module return it for bad input that is
// not text.
type ArgumentError struct {
	Package  string // package that refuses: "fits"
	Field    string // the argument, in the reader's words: "nominal size"
	Value    string // its value, with unit
	Problem  string // what is wrong with it; blank says only what Err says
	Accepted string // what would have been right
	Err      error  // one of the kinds above
}

// Error returns the error in one line, with what does not print escaped.
func (e *ArgumentError) Error() string {
	problem := e.Problem
	if problem == "" && e.Err != nil {
		problem = e.Err.Error()
	}
	text := e.Package + ": " + e.Field
	if e.Value != "" {
		text += " " + e.Value
	}
	text += ": " + problem
	if e.Accepted != "" {
		text += "; accepted: " + e.Accepted
	}
	return oneLine(text)
}

// Unwrap returns the kind of the error.
func (e *ArgumentError) Unwrap() error { return e.Err }
