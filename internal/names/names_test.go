package names

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

type colour int

var colours = Set{Package: "paint", Type: "colour", Field: "colour of the frame", Texts: []string{1: "dark green", 2: "red", 4: "black, matt"}}

func TestSet(t *testing.T) {
	for text, want := range map[string]int{"dark green": 1, " Dark-Green ": 1, "DARK_GREEN": 1, "red": 2, "black, matt": 4} {
		if got, err := colours.Value(text); err != nil || got != want {
			t.Errorf("%q = %d, %v", text, got, err)
		}
	}
	for _, v := range []int{-1, 3, 5} {
		if _, err := colours.Marshal(v); !errors.Is(err, units.ErrUnknown) || colours.Known(v) {
			t.Errorf("%d: %v", v, err)
		}
	}
	if got := colours.Text(3); got != "colour(3)" {
		t.Errorf("got %q", got)
	}
	if got := colours.Text(2); got != "red" {
		t.Errorf("got %q", got)
	}
	v := colour(2)
	if err := Unmarshal(&colours, &v, []byte("black, matt")); err != nil || v != 4 {
		t.Errorf("%v, %v", v, err)
	}
	if text, err := colours.Marshal(0); err != nil || len(text) != 0 || Unmarshal(&colours, &v, text) != nil || v != 0 {
		t.Errorf("no colour is %q, %v, and reads back as %v", text, err, v)
	}
	v = 4
	if _, err := colours.Value(""); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("blank text: %v", err)
	}
	for _, text := range []string{" ", "blue", strings.Repeat("x", 100)} {
		err := Unmarshal(&colours, &v, []byte(text))
		if !errors.Is(err, units.ErrUnknown) || v != 4 || len(err.Error()) > 180 || !strings.HasSuffix(err.Error(), "accepted: dark green; red; black, matt") || !strings.HasPrefix(err.Error(), "paint: colour of the frame") {
			t.Errorf("%q: %v, %v", text, v, err)
		}
	}
}

func TestOtherNames(t *testing.T) {
	set := Set{
		Package: "paint", Type: "colour", Field: "colour", Texts: []string{"", "red", "black"},
		Also: []Name{{"signal red", 1}, {"soot", 2}},
	}
	for text, want := range map[string]int{"signal red": 1, "Signal-Red": 1, " SOOT ": 2, "red": 1, "black": 2} {
		if got, err := set.Value(text); err != nil || got != want {
			t.Errorf("%q = %d, %v, want %d", text, got, err, want)
		}
	}
	var v colour
	if err := Unmarshal(&set, &v, []byte("soot")); err != nil || v != 2 {
		t.Errorf("soot reads as %d, %v", v, err)
	}
	if text, err := set.Marshal(2); err != nil || string(text) != "black" || set.Text(2) != "black" {
		t.Errorf("2 is written as %q and %q, %v", text, set.Text(2), err)
	}
	for _, text := range []string{"soo", "", "signal"} {
		if _, err := set.Value(text); !errors.Is(err, units.ErrUnknown) || !strings.HasSuffix(err.Error(), "accepted: red, black") {
			t.Errorf("%q: %v", text, err)
		}
	}
}
