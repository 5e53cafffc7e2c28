package check

import "testing"

func TestDiffering(t *testing.T) {
	for _, test := range []struct {
		got, want string
		line      int
	}{{"a\nb\n", "a\nb\n", 0}, {"a\nb\n", "a\nc\n", 2}, {"a\n", "a", 2}, {"a", "a\nb", 2}, {"", "x", 1}} {
		if line, now, was := differing(test.got, test.want); line != test.line || line > 0 && now == was {
			t.Errorf("%q and %q: line %d, %q, %q", test.got, test.want, line, now, was)
		}
	}
}
