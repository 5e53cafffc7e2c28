package check_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/valvechest/valvechest/internal/check"
)

// An asked is a program with what it is asked: commands that it answers, and one
// whose argument it cannot use.
type asked struct {
	name string
	good []command
	bad  []string
}

type command struct {
	status int
	args   []string
}

func ask(status int, args ...string) command { return command{status, args} }

// programs lists them, all that are under examples/.
func programs(t *testing.T) []asked {
	engines := check.Path(t, "../examples/enginebook/engines")
	return []asked{
		{"alike", []command{
			ask(0, "-own", "metric coarse", "7 BA"), ask(1, "0 BA"), ask(1, "-in", "M8", "5/16-18 UNC"), ask(0, "-pitch", "26 tpi", "-d", "6.3 mm"),
			ask(0, "-pitch", "10 mm in 20 turns", "-angle", "60deg"), ask(0, "-pitch", "26 tpi", "-nut", "-d", "5.5 mm"), ask(0, "-show", "20", "1/4x40"),
		}, []string{"M3y"}},
		{"boltcircle", []command{
			ask(0, "-d", "36 mm", "6"), ask(0, "-d", "4 in", "-straddle", "-inch", "-screw", "0.1 in", "-divisions", "100", "3"),
			ask(1, "-d", "36 mm", "-hole", "20 mm", "-rotary", "1 arcmin", "7"),
		}, []string{"-d", "36 mm", "6.5"}},
		{"bond", []command{
			ask(0, "-d", "6 mm", "-seat", "6 mm", "H7/f7"), ask(1, "-hole", "6.3 mm", "-shaft", "6 mm", "-seat", "6 mm"),
			ask(0, "-d", "6 mm", "-seat", "6 mm", "-shear", "20 MPa", "-gap-least", "0 mm", "-gap-most", "0.1 mm", "-service", "150 degC", "H7/f7"),
		}, []string{"-seat", "6 mm"}},
		{"changewheels", []command{
			ask(0, "M8"), ask(0, "-leadscrew", "3 mm", "-dial", "15", "1.25 mm"), ask(1, "-leadscrew", "8 tpi", "-own", "10,12,14,16", "15 in in 224 turns"), ask(0, "1/8 NPT"), ask(0, "-tip", "flat 3 thou", "1/4x40"),
		}, []string{"M8y"}},
		{"chuck", []command{
			ask(0, "-blank", "20 mm", "-offset", "3.5 mm", "-mass", "0.1 kg", "-weight-at", "35 mm"),
			ask(0, "-rim", "0 0.35 0.95 1.10 0.85 0.25 mm", "-face", "0.3 0 -0.3 0 mm", "-back", "0 1 2 1 mm", "-face-d", "90 mm"),
			ask(1, "-rim", "0 2 5 3 1 thou", "-inside", "0 2 9 3 1 thou", "-stock", "1 thou", "-inside-stock", "0 thou", "-d", "4 in"),
			ask(0, "-blank", "20 mm", "-offset", "3.5 mm"), ask(0, "-blank", "3 3/8 in", "-offset", "0.313 in", "-jaw", "1/4 in"),
			ask(1, "-blank", "20 mm", "-offset", "7 mm", "-jaw", "1 mm", "-opens", "25 mm", "-n", "1500 rev/min"),
			ask(0, "-blank", "20 mm", "-jaw", "6 mm", "-packing", "4.8 mm", "-reads", "6.2 mm", "-range", "5 mm", engines+"/demo.toml"),
			ask(0, "-dial", "0 12 30 20 thou", "-pitch", "1.5 mm", "-falls", "-bore"), ask(0, "-dial", "0 0.1 0.2 0.1 0 mm", "-blank", "20 mm", "-offset", "3.5 mm", "-towards", "2"),
			ask(0, "-reads", "6.3 mm", engines+"/demo.toml"),
		}, []string{"-blank", "20 mm", "-offset", "12 mm"}},
		{"clevis", []command{
			ask(0, "-pin", "3 mm", "-width", "6 mm", "-swing", "8 deg"), ask(0, "-pin", "3 mm", "-width", "6 mm", engines+"/demo.toml"),
			ask(1, "-pin", "3 mm", "-width", "6 mm", "-swing", "8 deg", "-slot", "3.2 mm", "-thick", "3 mm", "-gap", "3.1 mm"),
			ask(0, "-pin", "3 mm", "-width", "6 mm", "-beyond", "3 mm", "-corner", "3 mm", "-fork", "7 mm", "-fork-beyond", "4 mm", "-fork-corner", "1 mm",
				"-swing", "30 deg", "-shoulder", "6 mm"),
		}, []string{"-pin", "3 mm", "-width", "6 mm"}},
		{"design", []command{
			ask(0), ask(0, check.Path(t, "../examples/design/demo/engine.toml")),
		}, []string{"no-such-engine.toml"}},
		{"dividing", []command{
			ask(0, "-own", "15 16 17 18 19 20 / 21 23 27 29 31 33", "7"), ask(1, "127"), ask(0, "-angle", "24arcmin", "-own", "20 23"),
			ask(0, "-table", "-ratio", "90", "-d", "40 mm", "7"), ask(0, "-d", "22.23 mm", "-flats", "18 mm", "6"),
		}, []string{"0"}},
		{"enginebook", []command{
			ask(0), ask(1, engines+"/wrong-cavity.toml"), ask(0, engines+"/shims.toml"), ask(0, engines+"/as-built.toml"),
		}, []string{"no-such-engine.toml"}},
		{"evidence", []command{
			ask(0, check.Path(t, "..")), ask(0, "-missing", check.Path(t, "..")),
		}, []string{"no-such-folder"}},
		{"firstrun", []command{
			ask(0), ask(0, engines+"/demo.toml"), ask(0, engines+"/demo.toml", engines+"/../../firstrun/demo/readings.toml"),
			ask(1, engines+"/wrong-cavity.toml"),
		}, []string{"no-such-engine.toml"}},
		{"fitting", []command{
			ask(0, "-d", "10 mm", "H7/g6"), ask(0, "-d", "3/4 in", "RC4"), ask(0, "-own", "9.5-10.5x0.01 mm", "-bar", "h8", "10H7/f7"),
			ask(0, "-d", "9.5 mm", "-least", "0.5 thou", "-most", "2 thou"), ask(0, "-d", "10 mm", "H7/s6"),
			ask(0, "-d", "6 mm", "-bar", "h6", "-own", "6 mm", "-least", "0.01 mm", "-most", "0.03 mm"), ask(1, "-hole", "20.03 mm", "-shaft", "20 mm", "-least", "0.01 mm", "-most", "0.02 mm"),
			ask(0, "-hole", "20.03 mm", "-packing", "soft packing"), ask(0, "-shaft", "6.01 mm", "-own", "6 mm, 6.02 mm", "-least", "0.01 mm", "-most", "0.04 mm"),
		}, []string{"-d", "10 mm", "H7/&6"}},
		{"holes", []command{
			ask(1), ask(0, "-stud", "2.75 mm"), ask(0, "-bolt", "3 mm", "-second-hole", "3.4 mm"), ask(1, "-stud-length", "25 mm", "-tilt", "2 deg"),
		}, []string{"one.csv", "two.csv"}},
		{"indicator", []command{
			ask(0, engines+"/demo.toml"), ask(0, "-medium", "steam", "-index", "1.135", "-pressure", "3 bar", "-speed", "400 rev/min", engines+"/demo.toml"),
			ask(1, "-pressure", "5 bar", engines+"/demo.toml"), ask(0, "-clearance", "12 %", "-back", "0.1 bar", engines+"/demo.toml"),
		}, []string{"no-such-engine.toml"}},
		{"keys", []command{
			ask(0, "-d", "8 mm"), ask(0, "-d", "6 mm", "-hub", "14 mm", "-screw", "M3"), ask(0, "-d", "1/2 in", "-hub", "1 in"),
		}, []string{"-d", "6 mm", "-screw", "4 BA"}},
		{"marking", []command{
			ask(0, "-bar", "20 mm", "-offset", "3.5 mm"), ask(0, "-bar", "3/4 in", "-is", "0.748 in", "-top", "2.031 in", "-offset", "3/32 in"),
			ask(0, "-bar", "20 mm", "-vee", "60 deg", engines+"/demo.toml"),
		}, []string{"-bar", "20 mm", "-offset", "12 mm"}},
		{"nutslot", []command{
			ask(0, "-height", "8 mm", "-cavity", "3 mm", "-rod", "2.5 mm", "-rod-at", "7.5 mm", "-thick", "5 mm", "-high", "5 mm", "-long", "8 mm",
				engines+"/demo.toml"),
			ask(1, "-height", "8 mm", "-cavity", "3 mm", "-rod", "2.5 mm", "-rod-at", "5.5 mm", "-thick", "5 mm", "-high", "5 mm", "-long", "8 mm",
				"-length", "15 mm", "-width", "16 mm", "-play", "0.1 mm", "-lift", "1 mm", "-wear", "0.5 mm"),
		}, []string{"-height", "8 mm"}},
		{"portface", []command{
			ask(0, "-cutter", "1.5 mm"), ask(0, "-cutter", "2 mm", "-depth", "3 mm", engines+"/demo.toml"),
			ask(0, "-cutter", "1.5 mm", "-centre-x", "20 mm", "-centre-y", "12 mm", "-screw", "2 mm", "-divisions", "80", "-past", "0.5 mm"),
		}, []string{"-cutter", "2.5 mm"}},
		{"ringgap", []command{
			ask(0, "-d", "2 in", "-ring-at", "150 degC"), ask(1, "-d", "30 mm", "-gap", "0.05 mm", "-ring", "bronze", "-ring-at", "150 degC"),
		}, []string{"-d", "2 in", "-ring-at", "150"}},
		{"salvage", []command{
			ask(0), ask(1, engines+"/wrong-cavity.toml"), ask(0, engines+"/demo.toml"),
		}, []string{"no-such-engine.toml"}},
		{"setting", []command{
			ask(0), ask(0, "-head", "0.10 mm", "-crank", "0.55 mm", engines+"/demo.toml"), ask(1, engines+"/wrong-cavity.toml"),
			ask(0, "-move", "1/64 in", "-spindle", "M3", "-nut-places", "2"),
		}, []string{"-head", "0.1 mm"}},
		{"shrink", []command{
			ask(0, "-d", "20 mm", "-over", "0.02 mm", "-hub-at", "392 degF", "-outside", "40 mm", "-seat", "20 mm", "-mu", "0.12"),
			ask(1, "-d", "3/8 in", "-over", "1 thou", "-clear", "0.3 thou", "-hub", "mild steel", "-shaft", "phosphor bronze", "-hub-at", "200 degC", "-shaft-at", "-18 degC"),
		}, []string{"-d", "20 mm", "-over", "0.02 mm", "-hub-at", "200"}},
		{"spindle", []command{
			ask(0, "-machine", "cone 720 450 280 175, back gear 6.5:1", "-d", "80 mm", "-material", "cast iron", "facing"),
			ask(1, "-machine", "450 280 175", "-d", "150 mm", "-material", "cast iron, skin on", "facing"),
			ask(1, "-machine", "50-2500", "-d", "80 mm", "-material", "cast iron", "-n", "2400 rev/min", "-chuck", "2000 rev/min", "facing"),
			ask(0, "-d", "6 mm", "-material", "brass", "-depth", "40 mm", "-length", "40 mm", "-own", "1-13x0.1 mm", "-published", "reaming"),
		}, []string{"-d", "80 mm", "-material", "unobtainium", "facing"}},
		{"spread", []command{
			ask(0, "-runs", "1000"), ask(0, "-runs", "1000", "-seed", "7", engines+"/demo.toml"),
		}, []string{"-runs", "0"}},
		{"studs", []command{ask(0), ask(0, engines+"/demo.toml")}, []string{"no-such-engine.toml"}},
		{"tapping", []command{
			ask(0, "-own", "1-6x0.1 mm", "M3"), ask(0, "-own", "#1-#60, 1/16-1/2x1/64 in", "-material", "brass", "1/4-20"),
			ask(0, "-blind", "6 mm", "-tap", "second", "M3"), ask(1, "-own", "5 mm", "M3"),
			ask(0, "-hole", "7 mm", "-tap", "bottoming", "-metal", "12 mm", "-spot", "M3"), ask(1, "-hole", "7 mm", "-metal", "7.5 mm", "-spot", "-clear", "#30", "M3"), ask(0, "-die", "M3"),
		}, []string{"M3.14"}},
		{"template", []command{
			ask(0), ask(0, "-part", "cover", "-drawn-x", "132 mm", "-printed-x", "114 mm", "-out", "corrected"),
			ask(0, "-part", "cover", "-printed-y", "98 mm", "-material", "oiled paper", "-pressure", "2 bar"),
			ask(1, "-material", "oiled paper"), ask(0, "-cut", engines+"/demo.toml"),
			ask(0, "-inch", "-thread", "M3", "-class", "8.8", check.Path(t, "../examples/template/demo/flange.csv")), ask(1, "-part", "chest", "-times", "6", "-picture"),
		}, []string{"-paper", "B9"}},
		{"wires", []command{
			ask(0, "M8"), ask(1, "-wire", "0.0395in", "-class", "2A", "-reads", "0.586in", "9/16-18 UNF"), ask(0, "-lead", "helicoid", "Tr 10x2"),
		}, []string{"M8.8.8"}},
	}
}

// Every program keeps to one manner: help, two views that say the same, one line of
// complaint, lines that fit, and nothing unseen.
func TestPrograms(t *testing.T) {
	if testing.Short() {
		t.Skip("builds every program")
	}
	folder := t.TempDir()
	build := exec.Command("go", "build", "-o", folder, "./examples/...")
	build.Dir = check.Path(t, "..")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	all := programs(t)
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var built, listed []string
	for _, e := range entries {
		built = append(built, strings.TrimSuffix(e.Name(), ".exe"))
	}
	for _, p := range all {
		listed = append(listed, p.name)
	}
	if !slices.Equal(built, listed) {
		t.Errorf("programs %v are asked, and %v are there", listed, built)
	}
	for _, p := range all {
		t.Run(p.name, func(t *testing.T) {
			run := func(t *testing.T, args ...string) ran { return runProgram(t, folder, p.name, args) }
			flags := checkHelp(t, p, run(t, "-h"))
			for _, c := range p.good {
				t.Run(strings.Join(c.args, " "), func(t *testing.T) {
					page := filepath.Join(t.TempDir(), "page.html")
					text, data := run(t, append([]string{"-html", page}, c.args...)...), run(t, append([]string{"-json"}, c.args...)...)
					if text.status != c.status || data.status != c.status || text.errs+data.errs != "" {
						t.Fatalf("%v and %v, want status %d", text, data, c.status)
					}
					checkLines(t, text.out)
					checkViews(t, p.name, text.out, data.out)
					checkPrecautions(t, p.name, text.out, data.out)
					checkPage(t, page, text.out)
				})
			}
			checkTries(t, folder, run(t, "-h").out)
			checkComplaint(t, p.name, run(t, p.bad...), "")
			checkComplaint(t, p.name, run(t, append([]string{"-colour"}, p.good[0].args...)...), "-colour: no such flag")
			checkHostile(t, p.good[0].args, flags, run)
		})
	}
}

// A ran is how a program ended.
type ran struct {
	status    int
	out, errs string
}

func (r ran) String() string { return fmt.Sprintf("status %d\n%s\n%s", r.status, r.out, r.errs) }

// runProgram runs a program in a folder of its own, as it may write.
func runProgram(t *testing.T, folder, name string, args []string) ran {
	t.Helper()
	var out, errs bytes.Buffer
	cmd := check.Command(filepath.Join(folder, name), args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = t.TempDir(), &out, &errs
	var exit *exec.ExitError
	if err := cmd.Run(); err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return ran{cmd.ProcessState.ExitCode(), out.String(), errs.String()}
}

var flagName = regexp.MustCompile(`^-[a-z-]+$`)

var flagLine = regexp.MustCompile(`(?m)^  -([a-z-]+)( [A-Z].*)?$`)

// checkHelp checks the help and returns the flags that it names, those that take
// a value with true.
func checkHelp(t *testing.T, p asked, help ran) map[string]bool {
	t.Helper()
	if help.status != 0 || help.errs != "" || !strings.HasPrefix(help.out, "usage: "+p.name) {
		t.Errorf("-h: %v", help)
	}
	checkLines(t, help.out)
	flags := map[string]bool{}
	for _, line := range flagLine.FindAllStringSubmatch(help.out, -1) {
		if _, twice := flags[line[1]]; twice {
			t.Errorf("-h names -%s twice", line[1])
		}
		flags[line[1]] = line[2] != ""
	}
	if takes, there := flags["json"]; !there || takes {
		t.Errorf("-h does not name -json:\n%s", help.out)
	}
	for _, c := range p.good {
		for _, arg := range c.args {
			if _, there := flags[strings.TrimPrefix(arg, "-")]; flagName.MatchString(arg) && !there {
				t.Errorf("-h does not name %s", arg)
			}
		}
	}
	return flags
}

// checkTries gives the commands to try, as the help prints them, to a shell, one
// after the other in one folder. A file of the reader's own is not there.
func checkTries(t *testing.T, folder, help string) {
	t.Helper()
	shell, err := exec.LookPath("sh")
	if err != nil || check.Foreign() != nil {
		t.Log("no shell that runs the programs, so that the commands to try are not tried")
		return
	}
	_, tries, _ := strings.Cut(help, "\nTry\n")
	tries, _, found := strings.Cut(strings.ReplaceAll(tries, "\\\n", " "), "\n\nFlags\n")
	if !found {
		t.Fatalf("no commands to try in\n%s", help)
	}
	here := t.TempDir()
	for try := range strings.Lines(tries) {
		var errs bytes.Buffer
		cmd := exec.Command(shell, "-c", try)
		cmd.Dir, cmd.Stderr = here, &errs
		cmd.Env = append(os.Environ(), "PATH="+folder+string(os.PathListSeparator)+os.Getenv("PATH"))
		var exit *exec.ExitError
		if err := cmd.Run(); err != nil && !errors.As(err, &exit) {
			t.Fatal(err)
		}
		if status := cmd.ProcessState.ExitCode(); status > 1 && !notThere.MatchString(errs.String()) {
			t.Errorf("%s: status %d, %s", strings.TrimSpace(try), status, &errs)
		}
	}
}

var notThere = regexp.MustCompile(`\.(csv|toml): no such file or directory\n$`)

// negativeZero is a zero with a sign before it.
var negativeZero = regexp.MustCompile(`(^|[^0-9A-Za-z.+-])-0(\.0*)?([^0-9.]|$)`)

func checkLines(t *testing.T, text string) {
	t.Helper()
	if minus := negativeZero.FindString(text); minus != "" {
		t.Errorf("a zero with a sign, %q, in\n%s", minus, text)
	}
	for line := range strings.Lines(text) {
		if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > 78 {
			t.Errorf("%d characters: %s", n, line)
		}
	}
}

// checkViews checks that the JSON is what it should be and that its sentences stand
// in the text.
func checkViews(t *testing.T, name, text, data string) {
	t.Helper()
	var all map[string]any
	if err := json.Unmarshal([]byte(data), &all); err != nil {
		t.Fatalf("-json: %v\n%s", err, data)
	}
	if minus := negativeZero.FindString(data); minus != "" {
		t.Errorf("-json: a zero with a sign, %q", minus)
	}
	if all["schema"] != 1.0 || all["program"] != name {
		t.Errorf("-json: schema %v of program %v", all["schema"], all["program"])
	}
	told := []any{all["title"]}
	for key, fields := range map[string][]string{"findings": {"text", "remedies"}, "precautions": {"text"}, "sources": {"title"}} {
		list, ok := all[key].([]any)
		if !ok {
			t.Errorf("-json: %s is no list", key)
		}
		for _, one := range list {
			object, _ := one.(map[string]any)
			for _, field := range fields {
				told = append(told, object[field])
			}
		}
	}
	told = append(told, sentences(all)...)
	folded := fold(text)
	for _, sentence := range flat(told) {
		if !strings.Contains(folded, fold(sentence)) {
			t.Errorf("not in the text: %s\n%s", sentence, text)
		}
	}
	if title, _ := all["title"].(string); title == "" {
		t.Error("no title")
	}
}

// checkPage checks how the page of an answer is made, and that what stands in its text
// stands in it, word for word where a word is no mark or rule: a title in capitals may
// be that of a part.
func checkPage(t *testing.T, name, answer string) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	page, err := check.ReadPage(text)
	if err != nil {
		t.Fatalf("the page: %v", err)
	}
	for _, fault := range page.Faults() {
		t.Errorf("the page: %s", fault)
	}
	words := strings.ToLower(page.Words())
	for word := range strings.FieldsSeq(strings.ToLower(answer)) {
		if word = strings.Trim(word, "-[]().,:;>=|"); !strings.Contains(words, word) {
			t.Errorf("the page has no %q", word)
		}
	}
}

// sentences returns what stands under formulas and notes, wherever they are.
func sentences(v any) []any {
	var found []any
	switch v := v.(type) {
	case map[string]any:
		for key, inner := range v {
			if key == "sources" { // has the numbers of works under the same keys
				continue
			}
			if key == "formulas" || key == "notes" {
				found = append(found, inner)
			}
			found = append(found, sentences(inner)...)
		}
	case []any:
		for _, inner := range v {
			found = append(found, sentences(inner)...)
		}
	}
	return found
}

// flat returns the texts in lists of texts.
func flat(v any) []string {
	switch v := v.(type) {
	case string:
		return []string{v}
	case []any:
		var texts []string
		for _, inner := range v {
			texts = append(texts, flat(inner)...)
		}
		return texts
	}
	return nil
}

func fold(text string) string { return strings.Join(strings.Fields(text), " ") }

func checkComplaint(t *testing.T, name string, r ran, want string) {
	t.Helper()
	if r.status != 2 || r.out != "" || !strings.HasPrefix(r.errs, name+": ") || strings.Count(r.errs, "\n") != 1 || !strings.Contains(r.errs, want) {
		t.Errorf("not one line of complaint with %q: %v", want, r)
	}
}

// hostile would clear a screen, hide, turn round or break what is shown.
const hostile = "x\x1b[2J\a\r\n\u0085\u00ad\u200b\u2028\u202e\u2066\ufeff\U000e0041\xffy"

// checkHostile puts it in the place of an argument and of the value of each flag.
func checkHostile(t *testing.T, good []string, flags map[string]bool, run func(*testing.T, ...string) ran) {
	t.Helper()
	tries := [][]string{append([]string{hostile}, good...), {hostile}, {hostile, hostile}, {"-" + hostile}}
	for flag, takes := range flags {
		if !takes {
			tries = append(tries, append([]string{"-" + flag + "=" + hostile}, good...))
			continue
		}
		try := []string{"-" + flag, hostile}
		for i := 0; i < len(good); i++ {
			if good[i] == "-"+flag {
				i++ // and its value
				continue
			}
			try = append(try, good[i])
		}
		tries = append(tries, try, append([]string{"-json"}, try...))
	}
	for _, args := range tries {
		r := run(t, args...)
		for stream, text := range map[string]string{"standard output": r.out, "standard error": r.errs} {
			unseen := func(c rune) bool { return c != '\n' && !unicode.IsPrint(c) }
			if !utf8.ValidString(text) || strings.ContainsFunc(text, unseen) {
				t.Errorf("%q: raw on %s: %q", args, stream, text)
			}
		}
		if r.status == 2 && (r.out != "" || strings.Count(r.errs, "\n") != 1) {
			t.Errorf("%q: not one line of complaint: %v", args, r)
		}
	}
}
