package cli

import (
	"errors"
	"testing"
)

// InSteps has names exchanged in steps until the test ends, as where the system has
// no single one for it.
func InSteps(t *testing.T) {
	exchange = func(string, string) error { return errors.ErrUnsupported }
	t.Cleanup(func() { exchange = inOneStep })
}

// Hold holds a file as a program does that is still at work.
var Hold = hold
