package check

import (
	"errors"
	"testing"
)

func TestOnly(t *testing.T) {
	bad := errors.New("bad")
	for _, test := range []struct {
		answer any
		err    error
		panics bool
	}{{0, bad, false}, {nil, bad, false}, {[]int(nil), bad, false}, {1, bad, true}, {"x", bad, true}, {1, nil, false},
		{struct{ a int }{}, bad, false}} {
		func() {
			defer func() {
				if panicked := recover() != nil; panicked != test.panics {
					t.Errorf("%v, %v: panics %v", test.answer, test.err, panicked)
				}
			}()
			if got := Only(test.answer, test.err); got != test.err {
				t.Errorf("%v, %v: %v", test.answer, test.err, got)
			}
		}()
	}
}
