package dividing_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/units"
)

func ExampleParseCircles() {
	circles, err := dividing.ParseCircles("15 16 17 / 21 23 27")
	fmt.Println(circles, err)
	// Output: [15 16 17 21 23 27] <nil>
}

// A head is kept as text and read back.
func TestHeadText(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "40:1": "40:1", "40:1, 17 15 / 16": "40:1, 15 16 17", " 90": "90:1",
	} {
		var h, back dividing.Head
		if err := h.UnmarshalText([]byte(text)); err != nil || h.String() != want {
			t.Errorf("%q is %v, %v", text, h, err)
		}
		marshalled, err := h.MarshalText()
		if err != nil || back.UnmarshalText(marshalled) != nil || back.String() != h.String() || back.Ratio() != h.Ratio() {
			t.Errorf("%q came back as %v, %v", marshalled, back, err)
		}
	}
	for _, text := range []string{"forty", "0:1", "361:1", "40:1,", "40:1, one", "40:2, 15",
		"40:1, " + strings.Repeat("20 ", 201)} {
		var h dividing.Head
		var bad *units.ParseError
		if err := h.UnmarshalText([]byte(text)); !errors.As(err, &bad) || bad.Package != "dividing" || bad.Accepted == "" {
			t.Errorf("%q: %v, %v", text, h, err)
		}
	}
}

func TestParseCirclesRefuses(t *testing.T) {
	for _, text := range []string{"fifteen", " / ", strings.Repeat("20 ", 1000), "15 1", "15 501"} {
		var bad *units.ParseError
		if _, err := dividing.ParseCircles(text); !errors.As(err, &bad) || bad.Text != text || bad.Accepted == "" {
			t.Errorf("%.20q: %v", text, err)
		}
	}
}

// What is handed out can be changed without changing the plates of others.
func TestPlatesAreCopies(t *testing.T) {
	for _, plates := range []func() dividing.Plates{dividing.TwoSidedPlate, dividing.ThreePlates} {
		first := plates()
		if first.Refs.IsZero() || first.Name == "" {
			t.Errorf("%+v", first)
		}
		first.Circles[0] = 1
		if plates().Circles[0] == 1 {
			t.Error("the plates have changed")
		}
	}
	if dividing.TwoSidedPlate().Refs.Recalled() || !dividing.ThreePlates().Refs.Recalled() {
		t.Error("who counted the holes")
	}
}

func FuzzHead(f *testing.F) {
	f.Add("40:1, 15 16 17 / 21 23 27")
	f.Add("90")
	f.Fuzz(func(t *testing.T, s string) {
		var h, back dividing.Head
		if h.UnmarshalText([]byte(s)) != nil {
			return
		}
		if err := back.UnmarshalText([]byte(h.String())); err != nil || back.String() != h.String() {
			t.Fatalf("%q is %v, and comes back as %v, %v", s, h, back, err)
		}
	})
}

func FuzzParseCircles(f *testing.F) {
	f.Add("15 16 17 18 19 20 / 21 23 27 29 31 33 / 37 39 41 43 47 49")
	f.Add("24,25;28")
	f.Fuzz(func(t *testing.T, s string) {
		circles, err := dividing.ParseCircles(s)
		if err != nil {
			return
		}
		if len(circles) > 200 {
			return
		}
		h, err := dividing.NewHead(40, circles...)
		if err != nil {
			t.Fatal(err)
		}
		if len(h.Circles()) == 0 {
			t.Fatal("circles lost")
		}
	})
}
