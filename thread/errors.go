package thread

import "github.com/valvechest/valvechest/units"

// argument returns the error for an argument that cannot be used.
func argument(field, value, accepted string, kind error) error {
	return wrong(field, value, "", accepted, kind)
}

// wrong is argument with what the problem is, where the kind does not say it all.
func wrong(field, value, problem, accepted string, kind error) error {
	return &units.ArgumentError{Package: "thread", Field: field, Value: value, Problem: problem, Accepted: accepted, Err: kind}
}

// noThread is the error of a calculation on the zero Thread.
func noThread() error {
	return argument("thread", "", "a thread from Parse, New or a series", units.ErrMissing)
}
