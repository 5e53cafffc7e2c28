package thread

import (
	"errors"
	"regexp"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

// A misspelling is a way to write a thread that Parse does not read, with the
// text that it may stand for. Its problem is blank where the candidates say it
// all.
type misspelling struct {
	pattern *regexp.Regexp
	meant   []string
	problem string
}

var misspellingsOnce table.Once[[]misspelling]

func misspellings() []misspelling { return misspellingsOnce.Get(compileMisspellings) }

func compileMisspellings() []misspelling {
	const (
		d      = `(\d*\.?\d+)`
		class  = "the tolerance class or the hand stands with it; give the thread alone"
		starts = "a thread of several starts; give its pitch for the lead"
	)
	of := func(pattern, problem string, meant ...string) misspelling {
		return misspelling{regexp.MustCompile(pattern), meant, problem}
	}
	return []misspelling{
		of(`^(.*\d),(\d.*)$`, "a comma in the number; write a point for the decimal", "$1.$2"),
		of(`^(m|tr) ?`+d+`x(?:ph ?)?`+d+` ?-?\(?p ?`+d+`\)?(?:[ -].*|lh)?$`, starts, "$1${2}x$4"),
		of(`^(.*?)[ -]*(?:\d[efgh](?:\d[efgh])?|[123][abg]|lh|rh|left|right)$`, class, "$1"),
		of(`^(g.*\d)[ -]*[ab]$`, class, "$1"),
		of(`^m ?`+d+`[ /]`+d+`(?: ?mm)?$`, "", "m${1}x$2"),
		of(`^mf? ?`+d+`x`+d+`(?: fine| coarse)?$`, "", "m${1}x$2"),
		of(`^(?:m ?`+d+` (?:fine|mf)|mf ?`+d+`)$`, "", "m$1${2}x0.001"), // a pitch that none has brings all that there are
		of(`^m ?`+d+` coarse$`, "", "m$1"),
		of(`^`+d+` ?(?:mm)?x`+d+` ?(?:mm)?$`, "", "m${1}x$2"),
		of(`^`+d+` ?mm$`, "", "m$1"),
		of(`^oba$`, "", "0ba"),
		of(`^(#?[\d./]+(?: ?[\d/]+)?) (\d+)( ?[a-z]*)$`, "", "$1-$2$3"),
		of(`^(.*\d) ?(n[cf])(?:-?\d)?$`, "", "$1 u$2"),
		of(`^(.*\d) ?unj([cf]|ef)$`, "", "$1 un$2"),
		of(`^(?:rp|pf|ps) ?(.*)$`, "", "g $1"),
		of(`^pt ?(.*)$`, "", "r $1"),
		of(`^(.*\d) ?np(?:tf|s|sm|sf)$`, "", "$1 npt"),
		of(`^(.*\d) ?gas$`, "", "$1 bsp"),
		of(`^(.*\d) ?pipe$`, "", "$1 bsp", "$1 npt"),
	}
}

// mostMisspellings is how many of them one text is freed from.
const mostMisspellings = 3

// unreadable is the error for normalised text that is none of the ways to write
// a thread, with the threads that it may stand for.
func unreadable(s, text string) error {
	e := &ParseError{Text: s, Problem: "not a designation of a thread", Err: units.ErrSyntax}
	var problem string
	if e.Candidates, problem = mayStandFor(text, mostMisspellings); problem != "" {
		e.Problem = problem
	}
	return e
}

// mayStandFor returns the designations that text may stand for when up to so
// many misspellings are undone, and the problem of the first.
func mayStandFor(text string, undo int) (candidates []string, problem string) {
	if undo == 0 {
		return nil, ""
	}
	for _, m := range misspellings() {
		if !m.pattern.MatchString(text) {
			continue
		}
		for _, meant := range m.meant {
			meant = normalise(m.pattern.ReplaceAllString(text, meant))
			t, known, err := read(meant, meant)
			var e *ParseError
			switch {
			case !known:
				more, _ := mayStandFor(meant, undo-1)
				candidates = append(candidates, more...)
			case err == nil:
				candidates = append(candidates, t.Designation())
			case errors.As(err, &e):
				candidates = append(candidates, e.Candidates...)
			}
		}
		if m.problem != "" || candidates != nil {
			return candidates, m.problem
		}
	}
	return nil, ""
}
