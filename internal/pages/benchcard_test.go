package pages_test

import (
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/pages"
)

// numbersOf gathers the numbers below a value of JSON.
func numbersOf(v any, all map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for _, inner := range v {
			numbersOf(inner, all)
		}
	case []any:
		for _, inner := range v {
			numbersOf(inner, all)
		}
	case float64:
		all[fmt.Sprint(v)] = true
	}
}

// exampleBooks yields the book of every engine of the examples by the name of its file.
func exampleBooks(t *testing.T) iter.Seq2[string, book.Book] {
	t.Helper()
	engines, err := filepath.Glob("../../examples/enginebook/engines/*.toml")
	if err != nil || len(engines) < 4 {
		t.Fatal(engines, err)
	}
	return func(yield func(string, book.Book) bool) {
		for _, name := range engines {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			b, err := pages.EngineFile(name, text)
			if err != nil {
				t.Fatal(err)
			}
			if !yield(name, b) {
				return
			}
		}
	}
}

// Every figure of the bench card stands on another page of the book, with all its
// digits: none is worked out twice. What is given for a cover stands in the file.
func TestBenchCardTakesFigures(t *testing.T) {
	for name, b := range exampleBooks(t) {
		_, data := views(t, b)
		rows := at(data, "bench_card.steps").([]any)
		delete(data, "bench_card")
		elsewhere := map[string]bool{}
		numbersOf(data, elsewhere)
		for _, where := range []string{"28", "3.4", "34.925", "3.571875"} { // stud circles and holes of covers
			elsewhere[where] = true
		}
		compared := 0
		for _, row := range rows {
			mine := map[string]bool{}
			numbersOf(row, mine)
			for number := range mine {
				if compared++; !elsewhere[number] {
					t.Errorf("%s: %s of %v stands nowhere else", name, number, row)
				}
			}
		}
		if len(rows) < 5 || compared < len(rows) {
			t.Errorf("%s: %d rows with %d figures", name, len(rows), compared)
		}
	}
}

// The card has the parts in the order in which they are made, what is set at the
// machine, the drill and the limits on the micrometer, in the unit that is read first.
func TestBenchCard(t *testing.T) {
	b, err := pages.EngineFile("e.toml", []byte(demo(t, "", "")))
	if err != nil {
		t.Fatal(err)
	}
	text, _ := views(t, b)
	_, card, _ := strings.Cut(text, "BENCH CARD")
	card, _, _ = strings.Cut(card, "DIMENSIONS AS GIVEN")
	if strings.Contains(card, "Before metal is cut") {
		t.Error("a good engine is told to be wrong")
	}
	card = strings.Join(strings.Fields(card), " ")
	for _, want := range []string{ // from the pages of the parts
		"cylinder [ ] boring 20 mm set 450 rev/min, cone step 2, open belt; feed 0.127 to 0.254 mm/rev; limits 20.00 to 20.03 mm",
		"[ ] along, head end set -5.750 to -5.250 mm; limits 2.000 mm",
		"[ ] drill 12, to the tip set 7.751 mm; drill 2.5 mm [ ] tap M3x0.5, jams at set 6.250 mm",
		"[ ] clearance hole drill 3.3 mm, from memory",
		"cylinder cover [ ] drill 6, on a circle of set 28.000 mm; drill 3.400 mm; limits 3.00 mm thick",
		"piston [ ] turn to limits 19.94 mm only",
		"[ ] length, outer edges set 15.400 mm; limits +/- 0.03 mm",
		"[ ] packing in three jaws set 4.770 mm, unreviewed",
		"[ ] dial goes over, by hand limits 6.400 mm",
		"[ ] reaming 6 mm set 280 rev/min, cone step 3, open belt, by power; feed by feel; drill 5.7 mm; limits 6.00 to 6.01 mm",
		"[ ] cut 6 to set 10.2 mm; limits 3.75 mm engaged",
		"[ ] tighten, dry set 0.53 N m, order 1 4 2 5 3 6",
		"[ ] sheave ahead of crank set 116.00 deg, 6.07 mm on the shaft",
		"[ ] lead at the head end limits 0.272 mm",
	} {
		_, rest, found := strings.Cut(card, want)
		if !found {
			t.Errorf("no %q, in its order, in\n%s", want, card)
			continue
		}
		card = rest
	}
}

// A card for an engine that does not run says so, and one whose ports cannot be
// milled, or whose spindle has no step, does not give a figure for it.
func TestBenchCardOfWhatIsWrong(t *testing.T) {
	for name, test := range map[string]struct{ old, replacement, want, not string }{
		"cavity":  {`cavity = "9 mm"`, `cavity = "11.8 mm"`, "Before metal is cut: this book has told that something is wrong.", "limits never"},
		"cutter":  {`diameter = "1.5 mm" # smaller`, `diameter = "3 mm" # smaller`, "BENCH CARD", "along, head end"},
		"spindle": {`speeds = "cone 720 450 280 175, back gear 6.5:1"`, `speeds = "900"`, "facing 100 mm set no step will do", "facing 100 mm set 4"},
		"lathe":   {"[lathe]\nspeeds = \"cone 720 450 280 175, back gear 6.5:1\"\n", "[lathe]\n", "boring 20 mm set 175.1 to 477.5 rev/min", "cone step"},
	} {
		b, err := pages.EngineFile("e.toml", []byte(demo(t, test.old, test.replacement)))
		if err != nil {
			t.Fatal(name, err)
		}
		text, _ := views(t, b)
		_, card, _ := strings.Cut(text, "BENCH CARD")
		card, _, _ = strings.Cut(card, "DIMENSIONS AS GIVEN")
		card = strings.Join(strings.Fields("BENCH CARD"+card), " ")
		if !strings.Contains(card, test.want) || strings.Contains(card, test.not) {
			t.Errorf("%s: %q, not %q, in\n%s", name, test.want, test.not, card)
		}
	}
}
