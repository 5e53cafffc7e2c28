package seal

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/material"
)

// of returns the material of a name.
func of(t testing.TB, name string) material.Material {
	t.Helper()
	m, err := material.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestTables(t *testing.T) {
	check.Tables(t, files, "tables/*.csv")
	for name, id := range map[string][]string{
		"limits.csv": {"material", "printed", "source"}, "m_y.csv": {"material", "printed"}, "pressed.csv": {"material", "printed"},
		"sheet.csv": {"printed"}, "oring.csv": {"size"}, "groove.csv": {"section", "duty"},
	} {
		data, err := files.ReadFile("tables/" + name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			if !strings.HasPrefix(line, "#") && strings.Contains(strings.ToLower(line), "asbestos") && !strings.Contains(line, "without asbestos") {
				t.Errorf("%s: a row for asbestos: %s", name, line)
			}
		}
		seen := map[string]bool{}
		_, _, err = table.Read(files, "tables/"+name, func(r *table.Row) int {
			// every column is read by the package; here only the name of the row
			for column := range strings.SplitSeq(columns(string(data)), ",") {
				r.Optional(column)
			}
			var key string
			for _, c := range id {
				key += r.Optional(c) + "|"
			}
			if seen[key] {
				r.Complain("%s is given twice", key)
			}
			seen[key] = true
			return 0
		})
		if err != nil {
			t.Error(err)
		}
	}
	var keys []string
	for _, l := range Limits() {
		keys = append(keys, l.Material)
	}
	for _, f := range Factors() {
		keys = append(keys, f.Material)
	}
	for _, s := range Sheets() {
		keys = append(keys, s.Material)
	}
	for _, p := range pressed.all() {
		keys = append(keys, p.Material)
	}
	for _, key := range keys {
		if m, err := material.Lookup(key); err != nil || m.Name != key {
			t.Errorf("material %q: %v, %v", key, m, err)
		}
	}
}

func columns(data string) string {
	for line := range strings.Lines(data) {
		if !strings.HasPrefix(line, "#") {
			return strings.TrimSpace(line)
		}
	}
	return ""
}

// What is handed out can be changed without changing the table.
func TestCopies(t *testing.T) {
	rows, err := LimitsFor(of(t, "paper"))
	if err != nil {
		t.Fatal(err)
	}
	rows[0].Material, Factors()[0].Material, Sheets()[0].Material = "changed", "changed", "changed"
	if Limits()[0].Material == "changed" || Factors()[0].Material == "changed" || Sheets()[0].Material == "changed" {
		t.Error("a table has changed")
	}
}
