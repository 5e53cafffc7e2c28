package engine_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/engine"
)

// What the sheave lacks, what cannot be, and a bore that is not the shaft's.
func TestSheave(t *testing.T) {
	const whole = "[sheave]\ndiameter = \"18 mm\"\nbore = \"6 mm\"\nbar = \"20 mm\"\n"
	for _, test := range []struct {
		name, text string
		want       []string
	}{
		{"none", "", nil},
		{"whole", whole + "lip = \"1 mm\"\nboss = \"11 mm\"\nscrew = \"2.5 mm\"\nstrap = \"5 mm\"\nclean = \"0.5 mm\"\nvee = \"60 deg\"\njaw = \"4 mm\"\npitch = \"1.5 mm\"\ndial = \"5 mm\"\n", nil},
		{"little", "[sheave]\njaw = \"4 mm\"\n", []string{"sheave.diameter: missing", "sheave.bore: missing", "sheave.bar: missing"}},
		{"below zero", whole + "lip = \"-1 mm\"\njaw = \"0 mm\"\n", []string{"sheave.lip: -1 mm", "sheave.jaw: 0 mm"}},
		{"same shaft", whole + "[setting]\nshaft = \"6.0 mm\"\n", nil},
		{"another shaft", whole + "[setting]\nshaft = \"1/4 in\"\n", []string{"6.35 mm"}},
		{"no such key", whole + "throw = \"3 mm\"\n", []string{"throw"}},
	} {
		e, err := engine.Parse("e.toml", []byte(test.text))
		err = engine.Join(err, e.ValidateSheave(), e.Cross())
		var got []string
		if err != nil {
			got = strings.Split(err.Error(), "\n")
		}
		if len(got) != len(test.want) {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		for i, want := range test.want {
			if !strings.Contains(got[i], want) {
				t.Errorf("%s: %q, want %q", test.name, got[i], want)
			}
		}
	}
}
