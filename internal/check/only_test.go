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
		same   bool
	}{{0, bad, true}, {nil, bad, true}, {[]int(nil), bad, true}, {1, bad, false}, {"x", bad, false}, {1, nil, true}, {struct{ a int }{}, bad, true}} {
		if got := Only(test.answer, test.err); (got == test.err) != test.same {
			t.Errorf("%v, %v: %v", test.answer, test.err, got)
		}
	}
}
