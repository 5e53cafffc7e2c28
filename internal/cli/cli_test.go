package cli

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestFit(t *testing.T) {
	long := strings.Repeat("x", 90)
	row := "  " + strings.Repeat("ab ", 25) + "c" // 78 characters
	words := strings.Repeat("ab ", 24) + "a"
	for _, test := range []struct{ name, text, want string }{
		{"nothing", "", ""},
		{"short", "  a  b\n\nc", "  a  b\n\nc"},
		{"just fits", row + "\n", row + "\n"},
		{"hangs two in", row + "d e\n", row[:76] + "\n    cd e\n"},
		{"item of a list", "  - " + words + " tail\n", "  - " + words + "\n    tail\n"},
		{"numbered", " 1. " + words + " tail", " 1. " + words + "\n    tail"},
		{"no space", long + "\n", long + "\n"},
		{"long word", "a " + long + " b", "a " + long + " b"},
		{"micrometres", strings.Repeat("µ", 77) + " b\n", strings.Repeat("µ", 77) + "\n  b\n"},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := Fit(test.text); got != test.want {
				t.Errorf("%q, want %q", got, test.want)
			}
		})
	}
}

// No word is lost, and only a word that is itself too long makes a long line.
func TestFitKeepsWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[ ]{0,6}(- )?([a-zµ]{1,30}[ ]{1,3}){0,20}\n?`).Draw(t, "text")
		got := Fit(text)
		if a, b := strings.Fields(text), strings.Fields(got); strings.Join(a, " ") != strings.Join(b, " ") {
			t.Fatalf("%q became %q", text, got)
		}
		for line := range strings.SplitSeq(got, "\n") {
			if line = strings.TrimRight(line, " "); utf8.RuneCountInString(line) > Width {
				t.Fatalf("%q", line)
			}
		}
	})
}
