// Package check compares what this module computes with figures printed
// elsewhere. It reads the files below testdata, takes the tolerance from the
// digits as printed, and refuses a row that does not say where it is from.
//
// Every file has the columns id, source (a key of testdata/sources.csv),
// locator and how: read (seen in the source), memory (recalled), computed (by
// the independent program that the locator names) or practice (common practice
// of the trade, no source). Lines that start with # are comments.
package check

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

// A File is one file of printed figures in the course of a test. When the test
// ends it logs how many values were compared and where the largest difference
// was; a file of which nothing was compared fails.
type File struct {
	t        testing.TB
	name     string
	rows     []*Row
	compared int
	by       map[string]int // rows compared, by how they are known
	worst    float64        // difference as a share of the tolerance
	worstAt  string
	skipped  map[string]int // reason -> rows
	told     []string       // of each comparison, for VALVECHEST_COMPARED
}

// Open reads testdata/name, such as "eccentric/events.csv".
func Open(t testing.TB, name string) *File {
	t.Helper()
	f := &File{t: t, name: name, by: map[string]int{}, skipped: map[string]int{}}
	sources := readKeys(t)
	seen := map[string]bool{}
	for _, cells := range read(t, name, "id", "source", "locator", "how") {
		r := &Row{file: f, cells: cells, ID: cells["id"]}
		switch how := cells["how"]; {
		case r.ID == "" || seen[r.ID]:
			t.Errorf("%s: id %q is blank or given twice", name, r.ID)
		case how != "read" && how != "memory" && how != "computed" && how != "practice":
			t.Errorf("%s: %s: how %q is none of read, memory, computed, practice", name, r.ID, how)
		case how != "practice" && !sources[cells["source"]]:
			t.Errorf("%s: %s: source %q is not in sources.csv", name, r.ID, cells["source"])
		case how == "read" && cells["locator"] == "":
			t.Errorf("%s: %s: read, but the locator does not say where", name, r.ID)
		}
		seen[r.ID] = true
		f.rows = append(f.rows, r)
	}
	t.Cleanup(f.report)
	return f
}

// Given reads testdata/name, a file of what other rows are worked from: nothing of it
// is compared. It has the columns id, source and locator, and no how.
func Given(t testing.TB, name string) []*Row {
	t.Helper()
	f := &File{t: t, name: name}
	sources := readKeys(t)
	for _, cells := range read(t, name, "id", "source", "locator") {
		if !sources[cells["source"]] {
			t.Errorf("%s: %s: source %q is not in sources.csv", name, cells["id"], cells["source"])
		}
		f.rows = append(f.rows, &Row{file: f, cells: cells, ID: cells["id"]})
	}
	return f.rows
}

// Rows yields the rows of the file in order.
func (f *File) Rows() iter.Seq[*Row] { return slices.Values(f.rows) }

func (f *File) report() {
	f.t.Helper()
	if folder := os.Getenv("VALVECHEST_COMPARED"); folder != "" {
		f.tell(folder)
	}
	if f.compared == 0 {
		f.t.Errorf("%s: nothing was compared", f.name)
		return
	}
	rows := 0
	var by []string
	for _, how := range slices.Sorted(maps.Keys(f.by)) {
		by = append(by, fmt.Sprintf("%d %s", f.by[how], how))
		rows += f.by[how]
	}
	if least := leastRows(f.t)[f.name]; rows < least && !f.t.Failed() {
		f.t.Errorf("%s: only %d rows were compared, and rows.csv wants %d: a check that goes takes its reason along", f.name, rows, least)
	}
	text := fmt.Sprintf("%s: %d values in %d rows compared (%s)", f.name, f.compared, rows, strings.Join(by, ", "))
	if f.worstAt != "" {
		text += fmt.Sprintf(", largest difference %s", f.worstAt)
	}
	for _, why := range slices.Sorted(maps.Keys(f.skipped)) {
		text += fmt.Sprintf("; %d not compared: %s", f.skipped[why], why)
	}
	f.t.Log(text)
}

// tell writes what was compared into a file of the folder, for internal/evidence: the
// check file, row and column, the difference as a share of the tolerance, and the
// tolerance in halves of the last printed place.
func (f *File) tell(folder string) {
	f.t.Helper()
	out, err := os.CreateTemp(folder, "*.csv")
	if err == nil {
		_, err = out.WriteString(strings.Join(f.told, ""))
		err = errors.Join(err, out.Close())
	}
	if err != nil {
		f.t.Error(err)
	}
}

// leastRows returns how many rows of each check file every test that opens it
// compares at the least, from testdata/rows.csv.
func leastRows(t testing.TB) map[string]int {
	t.Helper()
	least := map[string]int{}
	for _, cells := range read(t, "rows.csv", "file", "least") {
		n, err := strconv.Atoi(cells["least"])
		if err != nil || n < 1 {
			t.Errorf("rows.csv: %s: least %q is no number above zero", cells["file"], cells["least"])
		}
		least[cells["file"]] = n
	}
	return least
}

// A Row is one row of printed figures.
type Row struct {
	ID      string
	file    *File
	cells   map[string]string
	counted bool
}

// Has reports whether the column is not blank.
func (r *Row) Has(column string) bool { return r.Optional(column) != "" }

// Optional returns a cell that may be blank.
func (r *Row) Optional(column string) string {
	r.file.t.Helper()
	s, ok := r.cells[column]
	if !ok {
		r.file.t.Fatalf("%s: no column %q", r.file.name, column)
	}
	return s
}

// Text returns a cell that must not be blank.
func (r *Row) Text(column string) string {
	r.file.t.Helper()
	s := r.Optional(column)
	if s == "" {
		r.file.t.Fatalf("%s: %s: column %q is blank", r.file.name, r.ID, column)
	}
	return s
}

// Float returns the number in a cell.
func (r *Row) Float(column string) float64 {
	r.file.t.Helper()
	v, err := strconv.ParseFloat(r.Text(column), 64)
	if err != nil {
		r.file.t.Fatalf("%s: %s: column %q: %v", r.file.name, r.ID, column, err)
	}
	return v
}

// Skip notes that the row is not compared, and why.
func (r *Row) Skip(why string) { r.file.skipped[why]++ }

// Compare checks got against the figure in a cell to the tolerance of the row, if
// its file has that column and the row fills it, or else to half of the figure's
// last printed place.
func (r *Row) Compare(column string, got float64) {
	r.file.t.Helper()
	tolerance := HalfLastPlace(r.Text(column))
	if r.cells["tolerance"] != "" {
		tolerance = r.Float("tolerance")
	}
	r.Within(column, got, tolerance)
}

// Within checks got against the figure in a cell to the given tolerance, for
// figures that their source rounds more coarsely than it prints them, or holds
// exact (tolerance zero). Say why beside the call.
func (r *Row) Within(column string, got, tolerance float64) {
	r.file.t.Helper()
	want := r.Float(column)
	difference := math.Abs(got - want)
	slack := 1e-12 * max(math.Abs(want), math.Abs(got)) // of float64 itself
	if !(difference <= tolerance+slack) {
		r.file.t.Errorf("%s: %s: %s = %.10g, printed %s (%s, %s), tolerance %.3g",
			r.file.name, r.ID, column, got, r.Text(column), r.cells["source"], r.cells["locator"], tolerance)
	}
	share := difference / max(tolerance, slack, math.SmallestNonzeroFloat64)
	r.count(column, share, tolerance/HalfLastPlace(r.Text(column)))
	if share > r.file.worst {
		r.file.worst = share
		r.file.worstAt = fmt.Sprintf("%.3g of %.3g allowed (%s %s)", difference, tolerance, r.ID, column)
	}
}

// Equal checks got against the text of a cell.
func (r *Row) Equal(column, got string) {
	r.file.t.Helper()
	if want := r.Text(column); got != want {
		r.file.t.Errorf("%s: %s: %s = %q, printed %q (%s, %s)",
			r.file.name, r.ID, column, got, want, r.cells["source"], r.cells["locator"])
	}
	r.count(column, 0, 0)
}

func (r *Row) count(column string, share, wide float64) {
	r.file.told = append(r.file.told, fmt.Sprintf("%q,%q,%q,%.3g,%.3g\n", r.file.name, r.ID, column, share, wide))
	r.file.compared++
	if !r.counted {
		r.counted = true
		r.file.by[r.cells["how"]]++
	}
}

// HalfLastPlace returns half a unit of the last place of a decimal number as
// printed: 0.05 for "12.3", 0.5 for "12".
func HalfLastPlace(printed string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(printed), "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	power, _ := strconv.Atoi(exponent)
	return 0.5 * math.Pow(10, float64(power-len(decimals)))
}

// Refuses checks that err is an [units.ArgumentError] of a kind, such as
// [units.ErrOutOfRange], with want in its text.
func Refuses(t testing.TB, name string, err, kind error, want string) {
	t.Helper()
	var bad *units.ArgumentError
	if !errors.As(err, &bad) || !errors.Is(err, kind) || !strings.Contains(fmt.Sprint(err), want) {
		t.Errorf("%s: error %v, want %v with %q", name, err, kind, want)
	}
}

// Errata checks the misprints that testdata/errata.csv lists for a package.
// The computed value of each must agree with the right value, to its digits,
// and not with the printed one; every erratum must be computed.
func Errata(t testing.TB, pkg string, computed map[string]float64) {
	t.Helper()
	sources := readKeys(t)
	left := maps.Clone(computed)
	count := 0
	for _, cells := range read(t, "errata.csv", "id", "package", "quantity", "printed", "right", "why", "source", "locator") {
		if cells["package"] != pkg {
			continue
		}
		count++
		id := cells["id"]
		if !sources[cells["source"]] || cells["locator"] == "" || cells["why"] == "" {
			t.Errorf("errata.csv: %s: source, locator or reason missing", id)
		}
		got, ok := left[id]
		delete(left, id)
		printed, errP := strconv.ParseFloat(cells["printed"], 64)
		right, errR := strconv.ParseFloat(cells["right"], 64)
		switch {
		case !ok:
			t.Errorf("errata.csv: %s: nothing computes it", id)
		case errP != nil || errR != nil:
			t.Errorf("errata.csv: %s: %v", id, errors.Join(errP, errR))
		case math.Abs(got-right) > HalfLastPlace(cells["right"])*(1+1e-9):
			t.Errorf("errata.csv: %s: %s = %.10g, right value %s", id, cells["quantity"], got, cells["right"])
		case math.Abs(got-printed) <= HalfLastPlace(cells["printed"]):
			t.Errorf("errata.csv: %s: the misprint %s has come back", id, cells["printed"])
		}
	}
	for id := range left {
		t.Errorf("errata.csv: %s is computed but not listed for %s", id, pkg)
	}
	if count == 0 {
		t.Errorf("errata.csv lists nothing for %s", pkg)
	}
	t.Logf("errata.csv: %d misprints of %s stay out", count, pkg)
}

// Tables checks the shipped tables that match pattern in fsys as tables: the
// header is whole and every source it declares is a work of
// testdata/sources.csv with the same title. The package's own test says what
// must hold of the rows.
func Tables(t testing.TB, fsys fs.FS, pattern string) {
	t.Helper()
	names, err := fs.Glob(fsys, pattern)
	if err != nil || len(names) == 0 {
		t.Fatalf("no tables match %q (%v)", pattern, err)
	}
	titles := map[string]string{}
	for _, cells := range read(t, "sources.csv", "key", "title") {
		titles[cells["key"]] = cells["title"]
	}
	for _, name := range names {
		header, err := table.ReadHeader(fsys, name)
		if err != nil {
			t.Error(err)
		}
		for key, ref := range header.Sources {
			if title, ok := titles[key]; !ok || title != ref.Title {
				t.Errorf("%s: source %q, %q: sources.csv has %q", name, key, ref.Title, title)
			}
		}
	}
}

// Path returns the path of a file below testdata.
func Path(t testing.TB, name string) string {
	t.Helper()
	dir, err := os.Getwd()
	for err == nil {
		if _, missing := os.Stat(filepath.Join(dir, "go.mod")); missing == nil {
			return filepath.Join(dir, "testdata", filepath.FromSlash(name))
		}
		if dir == filepath.Dir(dir) {
			break
		}
		dir = filepath.Dir(dir)
	}
	t.Fatalf("no go.mod above the test (%v)", err)
	return ""
}

func readKeys(t testing.TB) map[string]bool {
	t.Helper()
	keys := map[string]bool{}
	for _, cells := range read(t, "sources.csv", "key", "title") {
		keys[cells["key"]] = true
	}
	return keys
}

// read returns the rows of a CSV file below testdata by column name.
func read(t testing.TB, name string, must ...string) []map[string]string {
	t.Helper()
	f, err := os.Open(Path(t, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	records, err := r.ReadAll()
	if err != nil || len(records) == 0 {
		t.Fatalf("%s: no rows (%v)", name, err)
	}
	for _, column := range must {
		if !slices.Contains(records[0], column) {
			t.Fatalf("%s: no column %q", name, column)
		}
	}
	var rows []map[string]string
	for _, record := range records[1:] {
		cells := map[string]string{}
		for i, column := range records[0] {
			cells[column] = strings.TrimSpace(record[i])
		}
		rows = append(rows, cells)
	}
	return rows
}
