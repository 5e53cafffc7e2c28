package check

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// caseID is how a test names a bench question of testdata/cases.csv.
var caseID = regexp.MustCompile(`\b(EC|TH|FI|SP|GA|UN)-[0-9]{2}\b`)

// TestCases holds the list of bench questions and the tests against each other:
// a question that is answered is named in a test of the place that answers it, one
// that is not says why, and no test names a question that is not in the list.
func TestCases(t *testing.T) {
	namedIn := casesNamed(t)
	listed := map[string]bool{}
	for _, c := range read(t, "cases.csv", "id", "question", "status", "place", "program", "note") {
		id := c["id"]
		if !caseID.MatchString(id) || listed[id] {
			t.Errorf("cases.csv: id %q is none, or given twice", id)
		}
		listed[id] = true
		if n := utf8.RuneCountInString(c["question"]); n < 20 || n > 110 || !strings.HasSuffix(c["question"], "?") {
			t.Errorf("cases.csv: %s: %q is no short question", id, c["question"])
		}
		if c["program"] != "" {
			if _, err := os.Stat(filepath.Join(root(t), "examples", c["program"], "main.go")); err != nil {
				t.Errorf("cases.csv: %s: program %q: %v", id, c["program"], err)
			}
		}
		places := strings.Fields(c["place"])
		switch c["status"] {
		case "answered":
			if len(places) == 0 {
				t.Errorf("cases.csv: %s is answered, and no place is named", id)
			}
			for _, place := range places {
				if !namedIn[id][place] {
					t.Errorf("cases.csv: %s is said to be answered in %s, and no test there names it", id, place)
				}
			}
		case "not yet":
			if c["program"] != "" || len(places) > 0 || c["note"] == "" {
				t.Errorf("cases.csv: %s is not yet answered: a place is named, or no reason", id)
			}
		default:
			t.Errorf("cases.csv: %s: status %q is neither answered nor not yet", id, c["status"])
		}
	}
	for _, id := range slices.Sorted(maps.Keys(namedIn)) {
		if !listed[id] {
			t.Errorf("%s is named in %v and is not in cases.csv", id, slices.Sorted(maps.Keys(namedIn[id])))
		}
	}
}

// casesNamed returns the packages whose tests name each question.
func casesNamed(t *testing.T) map[string]map[string]bool {
	t.Helper()
	named := map[string]map[string]bool{}
	walkGo(t, func(path string) {
		if !strings.HasSuffix(path, "_test.go") {
			return
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		folder, err := filepath.Rel(root(t), filepath.Dir(path))
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range caseID.FindAllString(string(data), -1) {
			if named[id] == nil {
				named[id] = map[string]bool{}
			}
			named[id][filepath.ToSlash(folder)] = true
		}
	})
	return named
}
