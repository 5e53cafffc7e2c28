package cli

import (
	"os"
	"regexp"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units"
)

// The newest section of the changelog is the version that the programs tell.
func TestVersionIsThatOfTheChangelog(t *testing.T) {
	text, err := os.ReadFile("../../CHANGELOG.md")
	if err != nil {
		t.Fatal(err)
	}
	newest := regexp.MustCompile(`(?m)^## (\S+)$`).FindSubmatch(text)
	if newest == nil || string(newest[1]) != Version {
		t.Errorf("CHANGELOG.md begins with %q, the programs say %s", newest, Version)
	}
}

// The version is told without the flags and arguments that an answer would need.
func TestVersion(t *testing.T) {
	p := Program{Name: "turning", Define: func(f *Flags) {
		var d units.Length
		f.Must(&d, "d", "LENGTH", "diameter")
	}, Run: func([]string) (book.Book, error) {
		t.Error("the work was done too")
		return book.Book{}, nil
	}}
	var out, errs strings.Builder
	status := p.Do([]string{"-version"}, &out, &errs)
	if status != 0 || errs.Len() != 0 || strings.Count(out.String(), "\n") != 1 ||
		!strings.HasPrefix(out.String(), "turning of Valvechest "+Version+", ") {
		t.Errorf("exit %d, %q, %q", status, out.String(), errs.String())
	}
}

func TestBuilt(t *testing.T) {
	setting := func(pairs ...string) (all []debug.BuildSetting) {
		for i := 0; i < len(pairs); i += 2 {
			all = append(all, debug.BuildSetting{Key: pairs[i], Value: pairs[i+1]})
		}
		return all
	}
	const revision = "0123456789abcdef0123"
	for _, c := range []struct {
		name string
		info debug.BuildInfo
		want string
	}{
		{"nothing known", debug.BuildInfo{}, "built from a folder without a revision"},
		{"a folder", debug.BuildInfo{Main: debug.Module{Path: module, Version: "(devel)"}}, "built from a folder without a revision"},
		{"a release", debug.BuildInfo{Main: debug.Module{Path: module, Version: "v0.4.0"}}, "module v0.4.0"},
		{"in another program", debug.BuildInfo{Main: debug.Module{Path: "example.org/mill", Version: "v9.9.9"},
			Deps: []*debug.Module{{Path: module, Version: "v0.3.1"}}}, "module v0.3.1"},
		{"a checkout", debug.BuildInfo{Main: debug.Module{Path: module, Version: "v0.4.1-0.20261101"},
			Settings: setting("vcs.revision", revision, "vcs.time", "2026-11-01T10:00:00Z", "vcs.modified", "false")},
			"revision 0123456789ab of 2026-11-01T10:00:00Z"},
		{"a changed checkout", debug.BuildInfo{Settings: setting("vcs.revision", revision, "vcs.modified", "true")},
			"revision 0123456789ab with changes of your own"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := built(&c.info); got != c.want {
				t.Errorf("built = %q, want %q", got, c.want)
			}
		})
	}
}
