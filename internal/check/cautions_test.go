package check_test

import (
	"encoding/json"
	"go/ast"
	"go/token"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// harmless lists the programs whose work hurts nobody, each with the reason. All
// others say what to mind.
var harmless = map[string]string{
	"evidence": "it counts what the tests compare, and tells nobody to do anything",
}

// checkPrecautions wants what to mind from a program, and below it, in both views,
// that the codes of the place come first.
func checkPrecautions(t *testing.T, program, text, data string) {
	t.Helper()
	var b struct{ Precautions []finding.Precaution }
	if err := json.Unmarshal([]byte(data), &b); err != nil {
		t.Fatal(err)
	}
	if len(b.Precautions) == 0 {
		if harmless[program] == "" {
			t.Error("the program says nothing of what to mind, and is not listed as harmless")
		}
		return
	}
	place := finding.CodesOfThePlace()
	last := b.Precautions[len(b.Precautions)-1]
	if len(b.Precautions) < 2 || last.Code != place.Code || last.Text != place.Text ||
		!strings.Contains(strings.Join(strings.Fields(text), " "), place.Text) ||
		!strings.Contains(place.Text, "Local codes") || !strings.Contains(place.Text, "licensed practice") {
		t.Errorf("the precautions do not end with the codes of the place: %+v", b.Precautions)
	}
}

// turnedByHand is somebody with his hands, or a handle, on a spindle that a motor
// could start.
var turnedByHand = regexp.MustCompile(`(?i)mandrel handle|(chuck|spindle)[^.:]* by hand|by hand[^.:]* (chuck|spindle)|chuck pulled round`)

// stopped is how the motor is kept from starting.
var stopped = regexp.MustCompile(`(?i)isolate|belt off|spindle stopped|before the motor starts|fed by hand`)

// Whoever is told to turn a chuck or a spindle by hand is told in the same text to
// isolate the motor, and to take a mandrel handle off again.
func TestByHandMeansIsolated(t *testing.T) {
	texts := 0
	look := func(where, text string) {
		if !turnedByHand.MatchString(text) {
			return
		}
		texts++
		if !stopped.MatchString(text) {
			t.Errorf("%s: nobody isolates the motor in %q", where, text)
		}
		if strings.Contains(text, "mandrel handle") && !strings.Contains(text, "before the power comes on") {
			t.Errorf("%s: the handle stays on the spindle in %q", where, text)
		}
	}
	for _, files := range sources(t) {
		for _, file := range files {
			ast.Inspect(file.syntax, func(n ast.Node) bool {
				text := joined(n)
				look(file.name, text)
				return text == ""
			})
		}
	}
	root := os.DirFS(check.Path(t, ".."))
	tables, err := fs.Glob(root, "*/tables/*.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range tables {
		text, err := fs.ReadFile(root, name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(text)) {
			if !strings.HasPrefix(line, "#") && strings.HasPrefix(name, "speeds/") {
				look(name, line)
			}
		}
	}
	if texts < 7 {
		t.Errorf("%d texts tell somebody to turn a spindle by hand; there were 7 and more", texts)
	}
}

// joined returns the text of a string, or of strings with pluses between them;
// blank for anything else.
func joined(n ast.Node) string {
	switch n := n.(type) {
	case *ast.BasicLit:
		if n.Kind == token.STRING {
			text, _ := strconv.Unquote(n.Value)
			return text
		}
	case *ast.BinaryExpr:
		if n.Op == token.ADD {
			return joined(n.X) + joined(n.Y)
		}
	}
	return ""
}

// A gland is taken up with the engine stopped and the steam off, never while it
// runs.
func TestGlandStopped(t *testing.T) {
	packing, err := seal.StuffingBox{Rod: units.MM(5), Bore: units.MM(9)}.Packing()
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(packing.Findings, func(f finding.Finding) bool { return f.Code == seal.PackingGland })
	if text := packing.Findings[i].Text; !strings.Contains(text, "only with the engine stopped and the steam shut off") {
		t.Errorf("a gland is taken up so: %s", text)
	}
}

// The speed of a chuck without a mark is remembered, and whoever is shown the limit
// is told.
func TestRecalledLimitSaysSo(t *testing.T) {
	limit, err := holding.UnmarkedChuck(units.MM(100))
	if err != nil || !limit.Ref.Recalled() || !strings.Contains(limit.Reason, "from memory") {
		t.Errorf("%+v, %v", limit, err)
	}
	found, err := limit.Check(5000 * units.RevPerMinute)
	if err != nil || len(found) != 1 || found[0].Severity != finding.Danger || !strings.Contains(found[0].Text, "from memory") {
		t.Errorf("%v, %v", found, err)
	}
}

// Metals that hold lead are told of as such, whatever is done to them.
func TestLeadInSwarf(t *testing.T) {
	for name, leaded := range map[string]bool{"brass": true, "gunmetal": true, "bearing bronze": true, "free-cutting mild steel": true,
		"mild steel": false, "cast iron": false} {
		for _, op := range []speeds.Operation{speeds.Turning, speeds.Drilling, speeds.Milling} {
			r, err := speeds.Recommend(op, must(material.Lookup(name)), speeds.HSS)
			if err != nil {
				t.Fatal(err)
			}
			if told := slices.ContainsFunc(r.Precautions(), func(p finding.Precaution) bool {
				return p.Code == "lead-in-swarf" && strings.Contains(p.Text, "white metal")
			}); told != leaded {
				t.Errorf("%v %s: told of lead %t, want %t", op, name, told, leaded)
			}
		}
		if told := len(speeds.MaterialPrecautions(must(material.Lookup(name)))) == 1; told != leaded {
			t.Errorf("%s by itself: told of lead %t, want %t", name, told, leaded)
		}
	}
}

// The program that taps a leaded metal says so too.
func TestTappingLeadedBrass(t *testing.T) {
	for name, want := range map[string]bool{"brass": true, "cast iron": false} {
		m := must(material.Lookup(name))
		b, err := pages.Tapping(pages.TappingQuestion{Thread: "M3", Material: &m})
		if err != nil {
			t.Fatal(err)
		}
		if told := slices.ContainsFunc(b.Precautions, func(p finding.Precaution) bool { return p.Code == "lead-in-swarf" }); told != want {
			t.Errorf("%s: told of lead %t, want %t", name, told, want)
		}
	}
}
