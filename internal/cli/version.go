package cli

import (
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
)

// Version is the version of the library that the programs are part of: the newest
// section of CHANGELOG.md.
const Version = "0.4.0"

// module is the path of the library among what a program is built from.
const module = "github.com/valvechest/valvechest"

// errVersion is what reading the flags ends with where the version is asked for.
var errVersion = errors.New("the version is asked for")

// version tells which version a program is of, in one line: of a released module
// its tag, of a checkout its revision, of a plain folder that there is none.
func version(program string) string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		info = new(debug.BuildInfo)
	}
	return fmt.Sprintf("%s of Valvechest %s, %s, %s", program, Version, built(info), runtime.Version())
}

// built tells from what a program is built.
func built(info *debug.BuildInfo) string {
	released := info.Main.Version
	for _, d := range info.Deps {
		if d.Path == module {
			released = d.Version
		}
	}
	set := map[string]string{}
	for _, s := range info.Settings {
		set[s.Key] = s.Value
	}
	revision := set["vcs.revision"]
	switch {
	case revision != "" && set["vcs.modified"] == "true":
		return "revision " + short(revision) + " with changes of your own"
	case revision != "":
		return "revision " + short(revision) + " of " + set["vcs.time"]
	case released != "" && released != "(devel)":
		return "module " + released
	}
	return "built from a folder without a revision"
}

// short is a revision as people write it.
func short(revision string) string { return revision[:min(len(revision), 12)] }
