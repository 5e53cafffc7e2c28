package check

import (
	"strings"
	"testing"
)

type skipped struct{}

// A skipper is a recorder that may be skipped.
type skipper struct{ recorder }

func (s *skipper) Skipf(format string, args ...any) {
	s.Logf(format, args...)
	panic(skipped{})
}

// peer calls Peer and returns "fatal", "skipped" or "found", and what it said.
func peer(t *testing.T, program string, modules ...string) (how, said string) {
	s := &skipper{recorder{TB: t}}
	defer func() {
		switch v := recover(); v {
		case nil:
			how = "found"
		case skipped{}:
			how = "skipped"
		case fatal{}:
			how = "fatal"
		default:
			panic(v)
		}
		said = strings.Join(append(s.errors, s.logs...), "\n")
	}()
	Peer(s, program, modules...)
	return
}

// What is not there is skipped with a reason, and missed where it is wanted.
func TestPeer(t *testing.T) {
	for _, test := range []struct{ peers, program, module, how, says string }{
		{"", "valvechest-no-such-program", "", "skipped", "valvechest-no-such-program is not installed"},
		{"1", "valvechest-no-such-program", "", "fatal", "valvechest-no-such-program is not installed"},
		{"0", "valvechest-no-such-program", "", "skipped", "VALVECHEST_PEERS=0"},
		{"1", "python3", "valvechest_no_such_module", "fatal", "python"},
	} {
		t.Setenv("VALVECHEST_PEERS", test.peers)
		how, said := peer(t, test.program, test.module)
		if how != test.how || !strings.Contains(said, test.says) {
			t.Errorf("VALVECHEST_PEERS=%s, %s %s: %s, %q; want %s, %q", test.peers, test.program, test.module, how, said, test.how, test.says)
		}
	}
}
