package inch_test

import (
	"testing"

	"github.com/valvechest/valvechest/internal/inch"
)

// What is set is told as an inch builder sets it, where that is the metric figure too;
// a reading keeps its tenths. 25 thou are 0.635 mm, 7/16 in are 11.1125 mm; 0.502 mm,
// printed 0.50, are 19.8 thou.
func TestMove(t *testing.T) {
	for _, test := range []struct{ text, move, said string }{
		{"shim it by 0.64 mm (25.2 thou)", "shim it by 25 thou (0.64 mm)", "shim it by 25.2 thou (0.64 mm)"},
		{"by 0.27 mm (10.6 thou)", "by 10.5 thou (0.27 mm)", "by 10.6 thou (0.27 mm)"},
		{"by 0.26 mm (10.2 thou)", "by 10.2 thou (0.26 mm)", "by 10.2 thou (0.26 mm)"}, // neither 10 nor 10.5 are 0.26 mm
		{"a lead of 0.50 mm (19.8 thou)", "a lead of 19.8 thou (0.50 mm)", "a lead of 19.8 thou (0.50 mm)"},
		{"a cavity 11.11 mm (0.437 in) long", "a cavity 0.4375 in (11.11 mm) long", "a cavity 0.4375 in (11.11 mm) long"},
		{"a cavity 11.11 mm (0.438 in) long", "a cavity 0.4375 in (11.11 mm) long", "a cavity 0.4375 in (11.11 mm) long"},
		{"a cavity 9 mm (0.354 in) long", "a cavity 0.354 in (9 mm) long", "a cavity 0.354 in (9 mm) long"}, // no 64th
	} {
		if got := inch.Move(test.text); got != test.move {
			t.Errorf("%q: to do, %q, want %q", test.text, got, test.move)
		}
		if got := inch.Text(test.text); got != test.said {
			t.Errorf("%q: %q, want %q", test.text, got, test.said)
		}
	}
}
