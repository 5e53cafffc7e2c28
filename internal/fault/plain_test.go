package fault_test

import (
	"errors"
	"testing"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

func TestPlain(t *testing.T) {
	_, short := units.ParseLength("3")
	for _, test := range []struct {
		err  error
		want string
	}{
		{fault.Package("fits").OutOfRange("nominal size", "-1 mm", "above zero"), "nominal size -1 mm: out of range; accepted: above zero"},
		{fault.Package("thread").Unreadable("thread", "M\u200b3", "not one", "M3"), `thread "M\u200b3": not one; accepted: M3`},
		{errors.New("a\nb\x1b[2J"), `a; b\u001b[2J`},
	} {
		if got := fault.Plain(test.err); got != test.want {
			t.Errorf("%s; want %s", got, test.want)
		}
	}
	if got := fault.Plain(short); got[:11] != `length "3":` {
		t.Error(got)
	}
}

func TestVisible(t *testing.T) {
	for text, want := range map[string]string{
		"3/8 in, \u00f83.4 \u00b0": "3/8 in, \u00f83.4 \u00b0", "a\x1b[31mb": `a\u001b[31mb`, "a\u202eb": `a\u202eb`, "a\u200bb": `a\u200bb`,
		"\u00ad\u2060\ufeff": `\u00ad\u2060\ufeff`, "a\u3164b\ufe0f": `a\u3164b\ufe0f`, "\xff\u0085\u2028": `\xff\u0085\u2028`, "\ufffd": "\ufffd",
	} {
		if got := fault.Visible(text); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}
