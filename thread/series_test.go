package thread

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// The constants are the places of the lines in tables/series.csv, by the names that
// they have had since the first edition.
func TestSeriesConstants(t *testing.T) {
	names := map[Series]string{
		Special: "special", MetricCoarse: "metric coarse", MetricFine: "metric fine", MetricOld: "metric old",
		UNC: "UNC", UNF: "UNF", UNEF: "UNEF", UNS: "UNS", BSW: "BSW", BSF: "BSF", BA: "BA", ME: "ME", BSB: "BSB", BSC: "BSC",
		BSPParallel: "G", BSPTaper: "R", NPT: "NPT", Trapezoidal: "Tr", Acme: "Acme",
	}
	forms := map[Form][]Series{
		0: {Special}, FormISO: {MetricCoarse, MetricFine, MetricOld}, FormUnified: {UNC, UNF, UNEF, UNS},
		FormWhitworth: {BSW, BSF, ME, BSB, BSPParallel, BSPTaper}, FormBA: {BA}, FormCycle: {BSC}, FormNPT: {NPT},
		FormTrapezoidal: {Trapezoidal}, FormAcme: {Acme},
	}
	all := ListSeries()
	if len(all) < len(names) || len(names) != int(Acme)+1 {
		t.Fatalf("%d series, %d constants up to %d", len(all), len(names), Acme)
	}
	for i, s := range all {
		if int(s) != i || s <= Acme && s.String() != names[s] {
			t.Errorf("line %d of the table is %v, the constant %q: series more go to the end", i, s, names[s])
		}
		if back, err := ParseSeries(" " + strings.ToUpper(s.String())); err != nil || back != s {
			t.Errorf("%v reads back as %v, %v", s, back, err)
		}
		if pipe := s == BSPParallel || s == BSPTaper || s == NPT; pipe != s.Pipe() {
			t.Errorf("%v: pipe is %v", s, s.Pipe())
		}
	}
	for form, series := range forms {
		for _, s := range series {
			if s.Form() != form {
				t.Errorf("%v has the form %v, want %v", s, s.Form(), form)
			}
		}
	}
	for _, s := range []Series{-1, Series(len(all))} {
		if s.Form() != 0 || s.Pipe() || s.String() != fmt.Sprintf("Series(%d)", int(s)) {
			t.Errorf("%v has the form %v, pipe %v", s, s.Form(), s.Pipe())
		}
	}
}

// A thread is read by its designation, and with every word for its series behind the
// size and in front of it.
func TestWordsOfSeries(t *testing.T) { testWords(t) }

func testWords(t *testing.T) {
	t.Helper()
	for _, s := range ListSeries() {
		row := s.row()
		for th := range s.All() {
			if back, err := Parse(th.name); err != nil || back != th {
				t.Errorf("%v: %q reads back as %v, %v", s, th.name, back, err)
			}
		}
		next := 0
		for th := range s.All() {
			size, named := strings.CutSuffix(th.name, " "+row.name)
			if next++; next > 3 || !named || s.Pipe() {
				break
			}
			for _, word := range append([]string{row.name}, row.words...) {
				texts := []string{size + " " + word, strings.ToUpper(size + word)}
				if row.form != FormISO && row.form != FormTrapezoidal {
					texts = append(texts, word+" "+size)
				}
				for _, text := range texts {
					if back, err := Parse(text); err != nil || back != th {
						t.Errorf("%q: %v, %v; want %v", text, back, err, th)
					}
				}
				if back, err := ParseSeries(word); err != nil || back != s {
					t.Errorf("%q is read as the series %v, %v; want %v", word, back, err, s)
				}
			}
		}
	}
}

// Series that are invented, one of each kind that a line of the table can have.
const inventedSeries = `Bench,Whitworth,inch,bench.csv,x,bench fine; Bnch,invented,
Lantern Brass,Whitworth,inch,lantern.csv,,,invented,
Instrument,ISO metric,mm,instrument.csv,,optician,invented,
Dial,BA,number,dial.csv,,clock;quartz,invented,
Micro,ISO metric,number,micro.csv,,,invented,
Quick,Acme,inch,quick.csv,-,,invented,
Fine Lead,trapezoidal,mm,lead.csv,,,invented,
Crank,Cycle,inch,crank.csv,x,,invented,
UNI,Unified,unified,uni.csv,-,,invented,
Harbour,Unified,inch,harbour.csv,-,,invented,
`

const inventedHead = `# title: Invented
# edition: none
# unit: none
# held: invented, for a test
# errata: none
# source invented | common practice | | | invented
`

var inventedFiles = map[string]string{
	"bench.csv":      "size,tpi,source,locator\n3/32,60,invented,\n1/4,40,invented,\n1/4,60,invented,\n5/16,60,invented,\n",
	"lantern.csv":    "size,tpi,source,locator\n5/16,22,invented,\n11/32,22,invented,\n",
	"instrument.csv": "diameter,pitch,source,locator\n6,0.45,invented,\n10,0.65,invented,\n11,0.65,invented,\n",
	"dial.csv":       "number,pitch,major,source,locator\n1,0.55,3.3,invented,\n2,0.5,2.9,invented,\n12,0.2,0.9,invented,\n",
	"micro.csv":      "number,pitch,major,source,locator\n3,0.3,1.3,invented,\n",
	"quick.csv":      "size,tpi,source,locator\n1/2,5,invented,\n",
	"lead.csv":       "diameter,pitch,source,locator\n10,1,invented,\n",
	"crank.csv":      "size,tpi,source,locator\n3/8,30,invented,\n",
	"uni.csv":        "size,kind,tpi,series,source,locator\n4,number,60,UNI,invented,\n1/4,inch,36,UNI,invented,\n",
	"harbour.csv":    "size,tpi,source,locator\n5/16,48,invented,\n",
}

// withLines returns the shipped tables with lines more in series.csv and files more.
func withLines(t *testing.T, lines string, files map[string]string) fstest.MapFS {
	t.Helper()
	all := fstest.MapFS{}
	names, err := fs.Glob(tables, "tables/*.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		data, err := tables.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all[name] = &fstest.MapFile{Data: data}
	}
	head := "# source invented | common practice | | | invented\n"
	all["tables/series.csv"].Data = []byte(head + string(all["tables/series.csv"].Data) + lines)
	for name, text := range files {
		all["tables/"+name] = &fstest.MapFile{Data: []byte(inventedHead + text)}
	}
	return all
}

// invented adds the invented series for the time of a test.
func invented(t *testing.T) {
	t.Helper()
	listed = &lists{files: withLines(t, inventedSeries, inventedFiles)}
	t.Cleanup(func() { listed = &shipped })
}

// A line and a file are enough: the series is listed, read and written, and its
// threads are those of its form.
func TestSeriesMore(t *testing.T) {
	shippedOnes, sizes := ListSeries(), len(catalogue())
	invented(t)
	if got := ListSeries(); len(got) != len(shippedOnes)+10 || !slices.Equal(got[:len(shippedOnes)], shippedOnes) {
		t.Fatalf("series %v", got)
	}
	if got := len(catalogue()); got != sizes+19 {
		t.Errorf("%d sizes, and %d are invented", got, got-sizes)
	}
	testWords(t)
	for _, test := range []struct{ series, written, special string }{
		{"bench", "1/4x60 Bench", "1/4x60 Whitworth"},
		{"lantern-brass", "5/16 Lantern Brass", "5/16x22 Whitworth"},
		{"OPTICIAN", "M10x0.65 Instrument", "M10x0.65 special"},
		{"fine lead", "Tr 10x1 Fine Lead", "Tr 10x1 special"},
		{"quick", "1/2-5 Quick", "1/2-5 Acme special"},
		{"uni", "4-60 UNI", "4-60 UNS"},
		{"uni", "1/4-36 UNI", "1/4-36 UNS"},
		{"harbour", "5/16-48 Harbour", "5/16-48 UNS"},
		{"micro", "3 Micro", "M1.3x0.3 special"},
	} {
		s, err := ParseSeries(test.series)
		th, errThread := Parse(test.written)
		if err != nil || errThread != nil || th.Series() != s || th.name != test.written || th.Form() != s.Form() {
			t.Errorf("%s: %v, %v; %v of the series %v, form %v, %v", test.series, s, err, th, th.Series(), th.Form(), errThread)
		}
		want := MustParse(test.special)
		if want.Form() != th.Form() || want.major != th.major || want.pitch != th.pitch || want.pitchDiameter != th.pitchDiameter ||
			want.minor != th.minor || want.root != th.root || want.depth != th.depth || want.TPI() != th.TPI() {
			t.Errorf("%v has %v %v %v %v, %v %v %v %v", th, th.major, th.pitchDiameter, th.minor, th.root,
				want, want.pitchDiameter, want.minor, want.root)
		}
		if refs := th.Refs(); refs.First().Note != "invented" {
			t.Errorf("%v is from %v", th, refs)
		}
	}
	// 0.6 of the pitch to 0.005 mm, as BS 93 has it.
	dial := MustParse("no 2 clock")
	for _, text := range []string{"2 quartz.", "2 Q.u.a.r.t.z.", "quartz 2", "clock-2", "#2dial", "dial 2"} {
		if th, err := Parse(text); err != nil || th != dial {
			t.Errorf("%q: %v, %v", text, th, err)
		}
	}
	if dial.major != units.MM(2.9) || dial.pitch != units.MM(0.5) || dial.depth != units.MM(0.3) || dial.minor != units.MM(2.3) {
		t.Errorf("%v: %v", dial, dial.minor)
	}
	crank := MustParse("crank 3/8")
	if crank.name != "3/8x30 Crank" || crank.Form() != FormCycle || crank.major != units.Inch(0.375) {
		t.Error(crank)
	}
}

// What is not in the series is refused with what comes near, and texts without its
// name go where they went before.
func TestReadingASeriesMore(t *testing.T) {
	was := map[string]string{}
	texts := []string{"1/4x40", "1/4x40 ME", "M10", "M6x0.75", "2", "2 BA", "#4-40", "5/16", "1 in", "1/4 in UNC", "1/4inx40",
		"Tr 10x2", "1/2-10 Acme", "3/8x26", "1/4 brass", "M6", "1/4-28 UN"}
	for _, text := range texts {
		th, err := Parse(text)
		was[text] = fmt.Sprint(th, err)
	}
	invented(t)
	for _, text := range texts {
		th, err := Parse(text)
		if got := fmt.Sprint(th, err); got != was[text] && text != "2" && text != "5/16" {
			t.Errorf("%q: %s; it was %s", text, got, was[text])
		}
	}
	for _, test := range []struct {
		text string
		want error
		says string
	}{
		{"1/4x41 Bench", units.ErrUnknown, `no such pitch is listed on this diameter; write "1/4x41 Whitworth" for this size of ` +
			`the Whitworth form; near it: 1/4x40 Bench, 1/4x60 Bench, 1/4x41 Whitworth`},
		{"1/4 Bench", units.ErrAmbiguous, "near it: 1/4x40 Bench, 1/4x60 Bench"},
		{"3/8x60 bnch", units.ErrUnknown, "near it: 5/16x60 Bench, 1/4x40 Bench, 1/4x60 Bench"},
		{"7/16 lantern brass", units.ErrUnknown, "near it: 11/32 Lantern Brass, 5/16 Lantern Brass"},
		{"M10x0.65", units.ErrAmbiguous, "belongs to a series that goes by its name; add it; near it: M10x0.65 Instrument"},
		{"M12x0.65 Instrument", units.ErrUnknown, "near it: M11x0.65 Instrument, M10x0.65 Instrument"},
		{"M6 Instrument special", units.ErrSyntax, "not a designation"}, {"M6x0.45 special Instrument", units.ErrSyntax, "not a designation"},
		{"Tr 10x2 Instrument", units.ErrSyntax, "not a designation"},
		{"Tr 10x2 fine lead", units.ErrUnknown, "near it: Tr 10x1 Fine Lead"},
		{"M6x0.45 Bench", units.ErrSyntax, "not a designation"},
		{"Dial 3", units.ErrUnknown, "Dial numbers run from 1 to 12"},
		{"2 Dialx", units.ErrSyntax, "not a designation"},
		{"2", units.ErrAmbiguous, ", 2 BSW, 2 BA, 2 Dial"},
		{"1/2-6 Quick", units.ErrUnknown, "near it: 1/2-5 Quick, 1/2-6 Acme special"},
		{"12-60 UNI", units.ErrUnknown, "near it: 1/4-36 UNI, 4-60 UNI"},
		{"1/4 40 bench fine", units.ErrSyntax, "not a designation"},
		{"1/4 40 bench", units.ErrSyntax, "near it: 1/4x40 Bench"},
	} {
		_, err := Parse(test.text)
		if !errors.Is(err, test.want) || !strings.Contains(err.Error(), test.says) {
			t.Errorf("Parse(%q): %v; want %v saying %q", test.text, err, test.want, test.says)
		}
	}
	if th, err := Parse("11/32x22"); err != nil || th.name != "11/32 Lantern Brass" {
		t.Errorf("no series: %v, %v", th, err)
	}
	if _, err := ParseSeries("bench medium"); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), ", Bench, Lantern Brass") {
		t.Error(err)
	}
}

// What the library does not know of a series it refuses as it does for ME, and the
// rest it works out from form and size.
func TestAnswersForASeriesMore(t *testing.T) {
	me := MustParse("1/4x40 ME")
	_, noLimits := me.Limits("medium")
	_, noHexagon := me.Hexagon()
	_, noNut := me.NutHeight()
	own, err := gauge.ParseSet("4-6x0.1 mm")
	if err != nil {
		t.Fatal(err)
	}
	mePlan, err := me.PlanDrill(own, TapDepth{Share: 0.7, Basis: FullDepth})
	if err != nil {
		t.Fatal(err)
	}
	meDie, err := me.DieBlank()
	if err != nil {
		t.Fatal(err)
	}
	invented(t)
	bench := MustParse("1/4x40 Bench")
	same := func(what string, got, want error) {
		t.Helper()
		if got == nil || got.Error() != strings.ReplaceAll(want.Error(), me.name, bench.name) {
			t.Errorf("%s of %v: %v; of ME: %v", what, bench, got, want)
		}
	}
	_, err = bench.Limits("medium")
	same("limits", err, noLimits)
	_, err = bench.Hexagon()
	same("hexagon", err, noHexagon)
	_, err = bench.NutHeight()
	same("nut", err, noNut)
	if screw, nut := bench.UsualClasses(); screw+nut != "" {
		t.Errorf("classes %q and %q", screw, nut)
	}
	if got, err := bench.DieBlank(); err != nil || got.Turn != meDie.Turn {
		t.Errorf("blank for the die %v, %v; of ME %v", got, err, meDie)
	}
	plan, err := bench.PlanDrill(own, TapDepth{Share: 0.7, Basis: FullDepth})
	if got := strings.ReplaceAll(fmt.Sprint(plan), bench.name, me.name); err != nil || got != fmt.Sprint(mePlan) {
		t.Errorf("drills for %v: %v, %v; for ME %v", bench, plan, err, mePlan)
	}
	if got, err := bench.UsualClearance(); err != nil || got.Hole.Cmp(bench.major) <= 0 {
		t.Errorf("clearance hole %v, %v", got, err)
	}
	for _, name := range []string{"2 Dial", "3/8x30 Crank"} {
		th := MustParse(name)
		if _, err := th.Limits("normal"); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "no source for them") {
			t.Errorf("limits of %s: %v", name, err)
		}
		if screw, nut := th.UsualClasses(); screw+nut != "" {
			t.Errorf("classes of %s: %q and %q", name, screw, nut)
		}
	}
	// Tolerances go by form and size where the standard has them so.
	for name, special := range map[string]string{"M10x0.65 Instrument": "M10x0.65 special", "1/4-36 UNI": "1/4-36 UNS"} {
		class, _ := MustParse(special).UsualClasses()
		got, err := MustParse(name).Limits(class)
		want, errWant := MustParse(special).Limits(class)
		if got.PitchDiameter != want.PitchDiameter || got.Major != want.Major || fmt.Sprint(err != nil) != fmt.Sprint(errWant != nil) {
			t.Errorf("%s: %v, %v; want %v, %v", name, got, err, want, errWant)
		}
		if _, err := MustParse(name).Hexagon(); !errors.Is(err, units.ErrUnknown) {
			t.Errorf("hexagon of %s: %v", name, err)
		}
	}
	if th, err := bench.Series().UnionFor(units.MM(4)); err != nil || th.name != "1/4x60 Bench" {
		t.Errorf("union: %v, %v", th, err)
	}
}

// A line that cannot be is told by file and line, and so is a size.
func TestBadLinesOfSeries(t *testing.T) {
	files := map[string]string{"a.csv": "size,tpi,source,locator\n1/4,40,invented,\n"}
	last := 1 + len(strings.Split(strings.TrimSpace(string(withLines(t, "", nil)["tables/series.csv"].Data)), "\n"))
	if last < 30 {
		t.Fatal(last)
	}
	const good = "Bench,Whitworth,inch,a.csv,x,,invented,\n"
	for _, test := range []struct{ line, says string }{
		{",Whitworth,inch,a.csv,x,,invented,", `column "name" is blank`},
		{"Bench,Whitwort,inch,a.csv,x,,invented,", `form "Whitwort"`},
		{"Bench,Whitworth,thou,a.csv,x,,invented,", `kind of sizes "thou"`},
		{"Bench,,inch,a.csv,x,,invented,", `form "" does not go with sizes of the kind "inch"`},
		{"Bench,ISO metric,inch,a.csv,x,,invented,", `form "ISO metric" does not go with sizes of the kind "inch"`},
		{"Bench,Whitworth,mm,a.csv,,,invented,", `form "Whitworth" does not go with sizes of the kind "mm"`},
		{"Bench,Whitworth,number,a.csv,,,invented,", `form "Whitworth" does not go with sizes of the kind "number"`},
		{"Bench,Whitworth,unified,a.csv,-,,invented,", `form "Whitworth" does not go with sizes of the kind "unified"`},
		{"Bench,Whitworth,inch,b.csv,x,,invented,", `sizes "b.csv": there is no such file in tables`},
		{"Bench,Whitworth,inch,,x,,invented,", `sizes "": there is no such file in tables`},
		{"Bench,Whitworth,inch,me.csv,x,,invented,", `sizes "me.csv" are those of the series ME`},
		{"Bench,ISO metric,mm,metric.csv,,,invented,", `sizes "metric.csv" are those of the series metric coarse`},
		{"Bench,Whitworth,inch,a.csv,/,,invented,", `mark "/" is neither x nor -, nor blank`},
		{"Bench,ISO metric,mm,a.csv,x,,invented,", `mark "x" goes with sizes in inches`},
		{"Bench,Whitworth,pipe,a.csv,,,invented,", `kind "pipe" goes with the series that have it`},
		{"Bench,NPT,NPT,a.csv,,,invented,", `kind "NPT" goes with the series that have it`},
		{"Bench,BA,BA,a.csv,,,invented,", `kind "BA" goes with the series that have it`},
		{"Bench,ISO metric,metric,a.csv,,,invented,", `kind "metric" goes with the series that have it`},
		{"Bench,,none,a.csv,,,invented,", `kind "none" has no file of sizes`},
		{"bsw,Whitworth,inch,a.csv,x,,invented,", `"bsw" is a name of the series BSW`},
		{"Brass,Whitworth,inch,a.csv,x,,invented,", `"Brass" is a name of the series BSB`},
		{"Bench,Whitworth,inch,a.csv,x,banc;cycle,invented,", `"cycle" is a name of the series BSC`},
		{"Bench,Whitworth,inch,a.csv,x,banc;bench,invented,", `"bench" is a name of the series Bench`},
		{"Bench 40,Whitworth,inch,a.csv,x,,invented,", `"bench 40" cannot stand for a series in a designation: it is not of letters alone`},
		{"Xylo,Whitworth,inch,a.csv,x,,invented,", "an x begins the threads to the inch"},
		{"Bench special,Whitworth,inch,a.csv,x,,invented,", `behind a thread "special" says that its size is in no list`},
		{"Bench,Whitworth,inch,a.csv,x,un,invented,", `"un" cannot stand for a series in a designation: it is read as something else`},
		{"Bench,Whitworth,inch,a.csv,x,rc,invented,", "it is read as something else"},
		{"Bench,Whitworth,inch,a.csv,x,,elsewhere,", `source "elsewhere" is not declared`},
		{good + "Bank,Whitworth,inch,a.csv,x,,invented,", `sizes "a.csv" are those of the series Bench`},
		{good + "Bench,Whitworth,inch,a.csv,x,,invented,", `"Bench" is a name of the series Bench`},
	} {
		l := &lists{files: withLines(t, test.line+"\n", files)}
		line := last + strings.Count(test.line, "\n")
		if got := panicOf(func() { l.series() }); !strings.Contains(got, fmt.Sprintf(`"tables/series.csv:%d"`, line)) ||
			!strings.Contains(got, test.says) {
			t.Errorf("%s: %s; want line %d, %q", test.line, got, line, test.says)
		}
	}
	if got := panicOf(func() { (&lists{files: withLines(t, good, files)}).series() }); got != "" {
		t.Error(got)
	}
	// 64 is what the set of series holds.
	var many, more strings.Builder
	for i := len(ListSeries()); i < mostSeries; i++ {
		fmt.Fprintf(&many, "S%d,,none,,,,invented,\n", i)
	}
	more.WriteString(many.String() + "More,,none,,,,invented,\n")
	if got := panicOf(func() { (&lists{files: withLines(t, many.String(), nil)}).series() }); got != "" {
		t.Error(got)
	}
	if got := panicOf(func() { (&lists{files: withLines(t, more.String(), nil)}).series() }); !strings.Contains(got, "there is room for 64 series") {
		t.Error(got)
	}
}

func TestBadSizesOfASeries(t *testing.T) {
	const inch, number = "Bench,Whitworth,inch,a.csv,,,invented,\n", "Bench,BA,number,a.csv,,,invented,\n"
	for _, test := range []struct{ line, sizes, says string }{
		{inch, "size,tpi,source,locator\n1/4,40,invented,\n1/4,60,invented,\n", "a.csv:9\": 1/4 Bench is given twice; where a size has two pitches"},
		{inch, "size,tpi,source,locator\n1/4,x40,invented,\n", "a.csv:8\": column \"tpi\""},
		{inch, "size,tpi,source,locator\n1/4,0,invented,\n", "a.csv:8\""},
		{inch, "size,tpi,source,locator\n1/64,40,invented,\n", "a.csv:8\": 1/64 Bench has no core"},
		{inch, "size,pitch,source,locator\n1/4,40,invented,\n", "no column \"tpi\""},
		{inch, "size,tpi,depth,source,locator\n1/4,40,1,invented,\n", "column \"depth\" is in the table but nothing reads it"},
		{number, "number,pitch,major,source,locator\n1.5,0.5,3,invented,\n", "a.csv:8\": column \"number\""},
		{number, "number,pitch,major,source,locator\n1,0.5,3,invented,\n1,0.6,3.5,invented,\n", "a.csv:9\": 1 Bench is given twice"},
		{"Bench,Unified,unified,a.csv,-,,invented,\n", "size,kind,tpi,series,source,locator\n1/4,inch,40,UNC,invented,\n", "a.csv:8\": the series UNC has its sizes elsewhere"},
		{"Bench,Unified,unified,a.csv,-,,invented,\n", "size,kind,tpi,series,source,locator\n1/4,metre,40,Bench,invented,\n", "a.csv:8\": kind \"metre\" is neither"},
	} {
		listed = &lists{files: withLines(t, test.line, map[string]string{"a.csv": test.sizes})}
		if got := panicOf(func() { catalogue() }); !strings.Contains(got, test.says) {
			t.Errorf("%s: %s; want %q", test.sizes, got, test.says)
		}
		listed = &shipped
	}
}

// panicOf returns what a function panics of, blank for nothing.
func panicOf(do func()) (problem string) {
	defer func() {
		if p := recover(); p != nil {
			problem = fmt.Sprint(p)
		}
	}()
	do()
	return ""
}
