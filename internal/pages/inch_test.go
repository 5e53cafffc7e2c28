package pages_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
)

// engineFiles are the example engines by their names, each in millimetres and in
// inches.
func engineFiles(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob(check.Path(t, "../examples/enginebook/engines/*.toml"))
	if err != nil || len(names) < 5 {
		t.Fatal(len(names), err)
	}
	files := map[string]string{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(name)] = string(text)
	}
	return files
}

// inInches is an engine file whose book has inches first.
func inInches(file string) string {
	if strings.Contains(file, "\nunits = \"inch\"") {
		return file
	}
	return "units = \"inch\"\n" + strings.ReplaceAll(file, "\nunits = \"mm\"", "")
}

// aMetric is a figure in a metric unit that has one of the inch trade, with what
// stands before it.
var aMetric = regexp.MustCompile(`(\S+ \S*?)?([0-9.]+ (?:to |and |or |of )?)?[0-9.]*[0-9] ` +
	`(mm|um|mm2|mm3|ml|bar|MPa|kPa|N|N m|J|kJ|W|kg|g|m/s|m/min|mm/min|degrees C|degC)\b`)

// behindInch reports whether a text ends in a figure of the inch trade and what
// joins the other unit to it.
var behindInch = regexp.MustCompile(`\b(in|thou|in/min|in2|in3|psi|lbf|lbf in|ft lbf|hp|lb|oz|ft/min|degrees F) ?[(,] ?$`)

// In the book of an engine that is drawn in inches nothing stands in millimetres
// first, nor in bar, newtons, kilograms or degrees Celsius: not in a sentence, a
// formula, a heading or a label, and not in the first column. Names of what is sold
// by them stay: metric tubes and drills.
func TestInchesFirst(t *testing.T) {
	for name, file := range engineFiles(t) {
		b := engineBook(t, inInches(file))
		if !b.Inch {
			t.Fatalf("%s: not in inches", name)
		}
		told := map[string]bool{}
		inchesFirst := func(where, text string) {
			for _, at := range aMetric.FindAllStringSubmatchIndex(text, -1) {
				start := at[6] - 1 // of the unit; the number lies before it
				for start > 0 && strings.ContainsRune("0123456789.+- to", rune(text[start-1])) {
					start--
				}
				if behindInch.MatchString(strings.TrimRight(text[:start], " ")) || behindInch.MatchString(text[:start]) || told[text] {
					continue
				}
				told[text] = true
				t.Errorf("%s: %s: %q in %q", name, where, text[at[0]:at[1]], text)
			}
		}
		everyText(b, inchesFirst)
		for _, s := range b.Sections {
			for _, i := range s.Items {
				for _, f := range i.Figures {
					for _, text := range pictureTexts(t, f) {
						if !strings.HasPrefix(text, "drill ") { // its name
							inchesFirst("picture "+f.Key, text)
						}
					}
				}
			}
		}
		everyValue(b, func(v book.Value) {
			first, _, _ := strings.Cut(v.What.Text(), "  ")
			if v.Label != "" && !isName(v) { // or it is for programs alone
				inchesFirst(v.Key+" "+v.Label, first)
			}
		})
	}
}

var svgText = regexp.MustCompile(`(?s)<text[^>]*>(.*?)</text>`)

// pictureTexts are the texts that stand on a picture.
func pictureTexts(t *testing.T, f book.Figure) []string {
	t.Helper()
	var drawn strings.Builder
	if f.Drawing != nil {
		if err := sheet.WriteSVG(&drawn, f.Title, f.Drawing); err != nil {
			t.Fatal(err)
		}
	}
	var texts []string
	for _, found := range svgText.FindAllStringSubmatch(drawn.String(), -1) {
		texts = append(texts, found[1])
	}
	return texts
}

// isName reports whether a value is what something is called.
func isName(v book.Value) bool {
	for _, end := range []string{"tube_1", "tube_2", "drill.name", "drill", "name"} {
		if v.Key == end || strings.HasSuffix(v.Key, "."+end) {
			return true
		}
	}
	return false
}

// everyText gives f all texts of a book but its values and their labels of names.
func everyText(b book.Book, f func(where, text string)) {
	for _, one := range b.All() {
		f("finding", one.Text)
		for _, r := range one.Remedies {
			f("remedy", r)
		}
	}
	for _, p := range b.Precautions {
		f("precaution", p.Text)
	}
	for _, s := range b.Sections {
		f("section", s.Title)
		for _, text := range append(append([]string{}, s.Intro...), s.Notes...) {
			f("section "+s.Title, text)
		}
		for _, i := range s.Items {
			f("item", i.Title)
			for _, x := range i.Formulas {
				f("formula", x.Text)
			}
			for _, x := range i.Notes {
				f("note", x.Text)
			}
			for _, x := range i.Figures {
				f("figure", x.Title+"; "+x.Alt+"; "+x.Caption)
			}
			for _, table := range i.Tables {
				f("table", table.Title)
				for _, r := range table.Rows {
					f("row", r.Label)
					for _, text := range r.Below {
						f("row", text)
					}
				}
			}
		}
	}
	everyValue(b, func(v book.Value) { f("behind "+v.Label, v.Label+"; "+v.Column+"; "+v.Remark) })
}

func everyValue(b book.Book, f func(book.Value)) {
	for _, s := range b.Sections {
		for _, i := range s.Items {
			for _, v := range i.Values {
				f(v)
			}
			for _, table := range i.Tables {
				for _, r := range table.Rows {
					for _, v := range r.Values {
						f(v)
					}
				}
			}
		}
	}
}

// The numbers of the book are the same whichever unit is read first, but for those
// of what is stated in round steps of the unit: the micrometer, the spanner, what is
// put in to show what it does.
func TestInchesInJSON(t *testing.T) {
	file := engineFiles(t)["demo.toml"]
	_, metric := views(t, engineBook(t, file))
	_, inch := views(t, engineBook(t, inInches(file)))
	if metric["schema"] != inch["schema"] {
		t.Error("another dialect")
	}
	for _, path := range []string{"dimensions.bore_mm", "laps.steam_mm", "events.head.cut_off.stroke", "eccentric.offset_mm",
		"piston_room.head.clearance_mm", "running.work.per_turn_j", "before_steam.water_g"} {
		if at(metric, path) != at(inch, path) || at(inch, path) == nil {
			t.Errorf("%s: %v and %v", path, at(metric, path), at(inch, path))
		}
	}
}
