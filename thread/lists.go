package thread

import (
	"embed"
	"io/fs"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
)

//go:embed tables/*.csv
var tables embed.FS

// The lists are the series and their sizes, read on first use.
type lists struct {
	files         fs.FS // nil for those that are shipped
	seriesOnce    table.Once[*seriesTable]
	catalogueOnce table.Once[[]listing]
	labelsOnce    table.Once[[]label]
}

var shipped lists

// listed are the lists in use: the shipped ones, but in a test that adds a series.
var listed = &shipped

func (l *lists) fs() fs.FS {
	if l.files == nil {
		return &tables
	}
	return l.files
}

// A seriesTable is tables/series.csv and what follows from it.
type seriesTable struct {
	rows     []seriesRow // by series
	names    names.Set
	words    map[string]seriesSet // by what stands for them in a designation, normalised
	numbered seriesSet            // whose sizes are numbers alone
	inch     seriesSet            // whose sizes are inches or screw numbers
	mm       seriesSet            // in millimetres, with the name of the series behind
	bare     seriesSet            // in millimetres, and written without the name of the series
}

// A seriesRow is one line of tables/series.csv.
type seriesRow struct {
	name  string
	form  Form
	kind  sizeKind
	sizes string // the file of its sizes
	mark  string // between size and threads to the inch; blank where these are not written
	words []string
}

// mostSeries is how many a [seriesSet] holds.
const mostSeries = 64

func (l *lists) series() *seriesTable { return l.seriesOnce.Get(l.readSeriesTable) }

func (l *lists) readSeriesTable() *seriesTable {
	t := &seriesTable{
		names: names.Set{Package: "thread", Type: "Series", Field: "series"},
		words: map[string]seriesSet{},
	}
	_, _, err := table.Read(l.fs(), "tables/series.csv", func(r *table.Row) seriesRow {
		s, row := Series(len(t.rows)), l.readSeriesRow(t, r)
		t.rows = append(t.rows, row)
		t.enter(r, s, &row)
		return row
	})
	if err != nil {
		panic(err) // the tests read it first
	}
	t.words["uns"] = t.inch // any diameter and pitch
	return t
}

// readSeriesRow reads the line behind those that the table has.
func (l *lists) readSeriesRow(t *seriesTable, r *table.Row) seriesRow {
	row := seriesRow{
		name: r.Text("name"), kind: table.As(r, "kind", parseSizeKind), sizes: r.Optional("sizes"), mark: r.Optional("mark"),
	}
	r.Ref()
	if r.Has("form") {
		row.form = table.As(r, "form", ParseForm)
	}
	for word := range strings.SplitSeq(r.Optional("words"), ";") {
		if word = strings.TrimSpace(word); word != "" {
			row.words = append(row.words, word)
		}
	}
	switch row.mark {
	case "":
	case "x", "-":
		if row.kind != inchSizes && row.kind != unifiedSizes && row.kind != noSizes {
			r.Complain("mark %q goes with sizes in inches", row.mark)
		}
	default:
		r.Complain("mark %q is neither x nor -, nor blank", row.mark)
	}
	switch own := row.kind == metricSizes || row.kind == baSizes || row.kind.pipe(); {
	case len(t.rows) == mostSeries:
		r.Complain("there is room for %d series", mostSeries)
	case own && len(t.rows) > int(Acme):
		r.Complain("kind %q goes with the series that have it; of another it is inch, mm, number or unified", row.kind)
	case row.kind == noSizes:
		if row.sizes != "" {
			r.Complain("kind %q has no file of sizes", row.kind)
		}
		return row
	}
	if !slices.Contains(row.kind.forms(), row.form) {
		r.Complain("form %q does not go with sizes of the kind %q", r.Optional("form"), row.kind)
	}
	if _, err := fs.Stat(l.fs(), "tables/"+row.sizes); row.sizes == "" || err != nil {
		r.Complain("sizes %q: there is no such file in tables", row.sizes)
	}
	for i := range t.rows {
		if other := &t.rows[i]; other.sizes == row.sizes && (!row.kind.shared() || other.kind != row.kind) {
			r.Complain("sizes %q are those of the series %s", row.sizes, other.name)
		}
	}
	return row
}

// enter enters a series under its names.
func (t *seriesTable) enter(r *table.Row, s Series, row *seriesRow) {
	for i, word := range append([]string{row.name}, row.words...) {
		if v, err := t.names.Value(word); err == nil {
			r.Complain("%q is a name of the series %s", word, t.names.Texts[v])
		}
		if i == 0 {
			t.names.Texts = append(t.names.Texts, word)
		} else {
			t.names.Also = append(t.names.Also, names.Name{Text: word, Value: int(s)})
		}
	}
	switch row.kind {
	case noSizes, pipeSizes, nptSizes:
		return
	case numberSizes, baSizes:
		t.numbered |= setOf(s)
	case inchSizes, unifiedSizes:
		t.inch |= setOf(s)
	case metricSizes, mmSizes:
		if row.kind == metricSizes || s == Trapezoidal {
			t.bare |= setOf(s)
			return
		}
		t.mm |= setOf(s)
	}
	for _, word := range append([]string{row.name}, row.words...) {
		word = normalise(word)
		if problem := unfit(word); problem != "" {
			r.Complain("%q cannot stand for a series in a designation: %s", word, problem)
		}
		t.words[word] |= setOf(s)
	}
	if row.kind == unifiedSizes {
		t.words["un"] |= setOf(s)
	}
}

// inMillimetres returns the series of a form whose sizes are in millimetres.
func (t *seriesTable) inMillimetres(form Form) seriesSet {
	var set seriesSet
	for i := range t.rows {
		if t.rows[i].form == form {
			set |= setOf(Series(i))
		}
	}
	return set & (t.mm | t.bare)
}

// unfit says why normalised text cannot stand for a series in a designation.
func unfit(word string) string {
	switch last := word[strings.LastIndexByte(word, ' ')+1:]; {
	case strings.Trim(word, "abcdefghijklmnopqrstuvwxyz ") != "":
		return "it is not of letters alone"
	case strings.HasPrefix(word, "x"):
		return "an x begins the threads to the inch"
	case last == "special":
		return `behind a thread "special" says that its size is in no list`
	}
	switch word {
	case "", "m", "tr", "g", "r", "rc", "rp", "bsp", "bspp", "bspt", "npt", "un", "in", "inch", "mm", "tpi", "no", "number":
		return "it is read as something else"
	}
	return ""
}
