package units

import (
	"errors"
	"fmt"
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
)

// A ParseError says which text could not be read as a quantity, why, and what
// would have been accepted.
type ParseError struct {
	Quantity string // what was wanted: "length"
	Text     string // what was given
	Problem  string // what is wrong with it
	Accepted string // what would have been right
	Err      error  // ErrSyntax, ErrUnknownUnit, ErrOutOfRange or ErrNotFinite
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("units: %s %q: %s; accepted: %s", e.Quantity, cut(e.Text, 80), e.Problem, e.Accepted)
}

func (e *ParseError) Unwrap() error { return e.Err }

// An ArgumentError says which argument of a calculation cannot be used, and
// what is accepted. The packages of this module return it for bad input.
type ArgumentError struct {
	Package  string // package that refuses: "fits"
	Field    string // the argument, in the reader's words: "nominal size"
	Value    string // its value, with unit
	Problem  string // what is wrong with it; blank says only what Err says
	Accepted string // what would have been right
	Err      error  // ErrOutOfRange, ErrNotFinite, ErrMissing or ErrUnknown
}

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
	return text
}

func (e *ArgumentError) Unwrap() error { return e.Err }
