package cli_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// demo is a program that doubles a length.
func demo() cli.Program {
	var length units.Length
	var count int
	var strict bool
	var slant *units.Angle
	return cli.Program{
		Name: "double", Arguments: "WORD", About: "Doubles a length. " + strings.Repeat("µµµ ", 20), Try: []string{`-d "3 mm" now`, `-count 12 -slant "1 deg and far more -than one" -strict -d "3 millimetres" now`},
		Define: func(f *cli.Flags) {
			f.Must(&length, "d", "LENGTH", `to double, such as "3 mm"`)
			f.Count(&count, "count", "NUMBER", "how often; 1 unless given")
			cli.Optional(f, &slant, "slant", "ANGLE", "of it")
			f.Switch(&strict, "strict", "fail")
		},
		Run: func(args []string) (book.Book, error) {
			if len(args) == 2 {
				return book.Book{}, cli.Named("word", errors.Join(
					&units.ParseError{Package: "one", What: "word", Text: args[0], Problem: "not this"},
					&units.ArgumentError{Package: "two", Field: "word", Problem: "nor that"},
				))
			}
			if len(args) != 1 {
				return book.Book{}, cli.ErrUsage("one word is wanted")
			}
			if args[0] == "twice" {
				return book.Book{}, errors.Join(errors.New("first"), errors.Join(errors.New("sec\u202eond"), errors.New("third")))
			}
			if args[0] == "never" {
				return book.Book{}, cli.Named("word", &units.ParseError{Package: "demo", What: "word", Text: args[0], Problem: "not that", Accepted: "now"})
			}
			b := book.Book{Title: args[0], Sections: []book.Section{{Key: "answer", Items: []book.Item{{Values: []book.Value{
				{Key: "double", Label: "double", What: book.Length(length.Scale(2), 3)},
			}}}}}}
			if slant != nil {
				b.Title += " at " + slant.String()
			}
			if strict {
				b.Findings = finding.List{{Code: "strict", Severity: finding.Fails, Text: "It fails."}}
			}
			return b, nil
		},
	}
}

func TestProgram(t *testing.T) {
	for _, test := range []struct {
		args           []string
		status         int
		stdout, stderr string // what stands in them; blank: nothing at all
	}{
		{[]string{"-d", "3 mm", "now"}, 0, "now\n\n  double   6.000 mm   0.2362 in\n", ""},
		{[]string{"now", "-d", "3 mm"}, 0, "6.000 mm", ""},
		{[]string{"-d=3 mm", "--", "-d"}, 0, "-d\n", ""},
		{[]string{"-strict", "now", "-d", "3 mm"}, 1, "WILL NOT WORK\n  - It fails.\n", ""},
		{[]string{"-slant", "0 deg", "now", "-d", "3 mm"}, 0, "now at 0 deg\n", ""},
		{[]string{"-slant", "2", "now", "-d", "3 mm"}, 2, "", `double: -slant: angle "2": a number without a unit`},
		{[]string{"-json", "now", "-d", "3 mm"}, 0, `"double_mm": 6`, ""},
		{[]string{"-h"}, 0, "usage: double [flags] WORD\nDoubles a length. µµµ µµµ µµµ µµµ µµµ µµµ µµµ µµµ µµµ µµµ µµµ µµµ µµµ µµµ µµµ\nµµµ µµµ µµµ µµµ µµµ\n", ""},
		{[]string{"-h"}, 0, "\n  double -count 12 -slant \"1 deg and far more -than one\" -strict \\\n      -d \"3 millimetres\" now\n", ""},
		{[]string{"now", "-help"}, 0, "  -d LENGTH\n      to double, such as \"3 mm\" (required)\n", ""},
		{[]string{"now"}, 2, "", "double: -d LENGTH: missing; see -h\n"},
		{[]string{"-d", "3 mm"}, 2, "", "double: one word is wanted; see -h\n"},
		{[]string{"-d", "3", "now"}, 2, "", `double: -d: length "3": a number without a unit; accepted: `},
		{[]string{"-d", "3 mm", "-d", "4 mm", "now"}, 2, "", "double: -d: given twice; accepted: once\n"},
		{[]string{"now", "-d"}, 2, "", "double: -d: without a value; see -h\n"},
		{[]string{"-colour", "now"}, 2, "", "double: -colour: no such flag; see -h\n"},
		{[]string{"-strict=maybe", "-d", "3 mm", "now"}, 2, "", "-strict"},
		{[]string{"-d", "3 mm", "-count", "1.5", "now"}, 2, "", `double: -count: count "1.5": not a whole number`},
		{[]string{"-d", "3 mm", "never"}, 2, "", `double: word: word "never": not that; accepted: now` + "\n"},
		{[]string{"-d", "3 mm", "twice"}, 2, "", "double: first\ndouble: sec\\u202eond\ndouble: third\n"},
		{[]string{"-d", "3 mm", "a", "b"}, 2, "", `double: word: word "a": not this; word: nor that` + "\n"},
		{[]string{"-d", "3\u202emm\n", "now"}, 2, "", `double: -d: length "3\u202emm\n": `},
		{[]string{"-b\u200bad", "now"}, 2, "", `double: -b\u200bad: no such flag`},
	} {
		var stdout, stderr bytes.Buffer
		status := demo().Do(test.args, &stdout, &stderr)
		if status != test.status || (test.stdout == "") != (stdout.Len() == 0) || (test.stderr == "") != (stderr.Len() == 0) ||
			!strings.Contains(stdout.String(), test.stdout) || !strings.Contains(stderr.String(), test.stderr) {
			t.Errorf("%q: status %d\n%s\n%s", test.args, status, &stdout, &stderr)
		}
		if n := strings.Count(stderr.String(), "\n"); n > 1 && !slices.Contains(test.args, "twice") {
			t.Errorf("%q: %d lines of complaint", test.args, n)
		}
	}
	var stdout bytes.Buffer
	var all map[string]any
	if demo().Do([]string{"-json", "now", "-d", "3 mm"}, &stdout, &stdout); json.Unmarshal(stdout.Bytes(), &all) != nil || all["program"] != "double" {
		t.Errorf("%s", &stdout)
	}
}

func TestShare(t *testing.T) {
	for _, test := range []struct {
		text, want string
	}{
		{"0.75", "0.75"}, {"75 %", "0.75"}, {" 75% ", "0.75"}, {"75", "75"}, {"-1e-3", "-0.001"},
		{"lots", `-of: share "lots": not a number; accepted: a share, such as 0.75, or "75 %"`},
		{"75 per cent", `share "75 per cent": not a number`}, {"%", "not a number"}, {"", "not a number"},
	} {
		var share float64
		p := cli.Program{
			Name: "share", Define: func(f *cli.Flags) { f.Share(&share, "of", "SHARE", "of it") },
			Run: func([]string) (book.Book, error) {
				return book.Book{Title: strconv.FormatFloat(share, 'g', -1, 64)}, nil
			},
		}
		var out bytes.Buffer
		p.Do([]string{"-of=" + test.text}, &out, &out)
		if !strings.Contains(out.String(), test.want) {
			t.Errorf("%q: %s; want %s", test.text, &out, test.want)
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// Where the answer cannot be printed, the files beside it are not left behind.
func TestFailedWriteLeavesNoFiles(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "new")
	p := cli.Program{Name: "files"}
	var flags *cli.Flags
	p.Define = func(f *cli.Flags) { flags = f }
	p.Run = func([]string) (book.Book, error) {
		flags.Files(folder, []cli.File{{Name: "a", Text: []byte("1")}}, false)
		return book.Book{Title: "files"}, nil
	}
	var stdout, stderr bytes.Buffer
	if status := p.Do(nil, full{}, &stderr); status != 2 {
		t.Errorf("%d, %s", status, &stderr)
	}
	if _, err := os.Lstat(folder); err == nil {
		t.Error("something is left behind")
	}
	if status := p.Do(nil, &stdout, &stderr); status != 0 {
		t.Errorf("%d, %s", status, &stderr)
	}
	if text, err := os.ReadFile(filepath.Join(folder, "a")); string(text) != "1" {
		t.Errorf("%q, %v", text, err)
	}
	if status := p.Do(nil, &stdout, &stderr); status != 2 || !strings.Contains(stderr.String(), "files: -out: a: there already") {
		t.Errorf("%d, %s", status, &stderr)
	}
}

func TestFailedWrite(t *testing.T) {
	var stderr bytes.Buffer
	if status := demo().Do([]string{"-d", "3 mm", "now"}, full{}, &stderr); status != 2 || stderr.String() != "double: the answer cannot be written: no space left on device\n" {
		t.Errorf("%d, %s", status, &stderr)
	}
}
