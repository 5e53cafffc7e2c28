package check

import (
	"errors"
	"testing"
)

// What a reader of tables refuses is an error, whichever way it says so.
func TestCaught(t *testing.T) {
	bad := errors.New("sizes.csv:7: no number")
	for _, c := range []struct {
		read func() error
		want string
	}{
		{func() error { return nil }, ""},
		{func() error { return bad }, bad.Error()},
		{func() error { panic(bad) }, bad.Error()},
	} {
		got := ""
		if err := caught(c.read); err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("caught %q, want %q", got, c.want)
		}
	}
}
