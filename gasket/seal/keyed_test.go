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
	for name, want := range map[string]struct {
		rows int
		id   []string
	}{
		"limits.csv": {21, []string{"material", "printed", "source"}},
		"m_y.csv":    {15, []string{"material", "printed"}},
		"sheet.csv":  {5, []string{"printed"}},
		"oring.csv":  {55, []string{"size"}},
		"groove.csv": {21, []string{"section", "duty"}},
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
		rows, _, err := table.Read(files, "tables/"+name, func(r *table.Row) int {
			// every column is read by the package; here only the name of the row
			for column := range strings.SplitSeq(columns(string(data)), ",") {
				r.Optional(column)
			}
			var id string
			for _, c := range want.id {
				id += r.Optional(c) + "|"
			}
			if seen[id] {
				t.Errorf("%s: %s is given twice", name, id)
			}
			seen[id] = true
			return 0
		})
		if err != nil || len(rows) != want.rows {
			t.Errorf("%s: %d rows, want %d; %v", name, len(rows), want.rows, err)
		}
	}
	// two of the limits are of paper and of oiled paper, and one of soft copper and
	// soft brass; of the factors three are of five rubbers, three of soft copper and
	// soft brass and one of both papers
	if len(Limits()) != 21+3 || len(Factors()) != 15+3*4+3+1 || len(Sheets()) != 5 || len(Rings()) != 55 || len(Grooves()) != 21 {
		t.Error("a table is not handed out whole")
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
