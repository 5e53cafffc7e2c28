package pages

import (
	"bytes"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// bookletOf makes the booklet of an engine file.
func bookletOf(t *testing.T, name string, text []byte, paper template.Paper) (files map[string]string, leftOut []string, told int) {
	t.Helper()
	b, all, leftOut, err := Booklet(name, text, paper, func(string) { told++ })
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	files = map[string]string{}
	for _, f := range all {
		if files[f.Name] != "" {
			t.Errorf("%s: %s twice", name, f.Name)
		}
		files[f.Name] = string(f.Text)
	}
	section := b.Sections[len(b.Sections)-1]
	if section.Key != "sheets" {
		t.Fatalf("%s: the last section is %q", name, section.Key)
	}
	listed := 0
	for _, i := range section.Items {
		for _, f := range i.Figures {
			if listed++; files[f.File] == "" {
				t.Errorf("%s: %s is listed and not there", name, f.File)
			}
		}
	}
	if listed != len(files) || len(section.Intro) != len(leftOut) {
		t.Errorf("%s: %d files, %d listed; %d left out, %q in the book", name, len(files), listed, len(leftOut), section.Intro)
	}
	return files, leftOut, told
}

// sheetsNamed are the sheets in SVG of a part, read back with a reader that shares no code
// with the writer, each with bars of their length and nothing that cannot be read.
func sheetsNamed(t *testing.T, files map[string]string, part string, bar float64) []*check.Picture {
	t.Helper()
	var names []string
	for name := range files {
		if regexp.MustCompile("^sheets/" + part + `-\d+\.svg$`).MatchString(name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	var sheets []*check.Picture
	for _, name := range names {
		p := check.ReadPicture(t, files[name])
		check.LegibleFrom(t, p, 1.4, "CENTRES", "HOLES", "LINES", "HIDDEN", "CUT", "HATCH")
		bars := 0
		for _, s := range p.On("SCALE") {
			if a, b := s.Spots[0], s.Spots[1]; math.Abs(math.Hypot(b.X-a.X, b.Y-a.Y)-bar) < 1e-3 {
				bars++
			}
		}
		if bars != 2 {
			t.Errorf("%s: %d bars of %g mm", name, bars, bar)
		}
		sheets = append(sheets, p)
	}
	pdf := files["sheets/"+part+".pdf"]
	if n := strings.Count(pdf, "/Type /Page\n"); n != len(sheets) || n == 0 {
		t.Errorf("%s: %d pages in PDF, %d sheets in SVG", part, n, len(sheets))
	}
	return sheets
}

// Every engine of ours has its sheets: the ports and the ends of the valve are on the
// port face where the gear has them, and the holes of each cover on its marking out where
// they are in its gasket; the sizes are in the unit of the file.
func TestSheetsOfEngines(t *testing.T) {
	names, err := filepath.Glob("../../examples/enginebook/engines/*.toml")
	if err != nil || len(names) < 6 {
		t.Fatalf("%v, %v", names, err)
	}
	turned := 0
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		e, err := engine.Parse(name, text)
		if err != nil {
			t.Fatal(err)
		}
		files, leftOut, told := bookletOf(t, name, text, template.A4)
		bar, unit := 100.0, "mm"
		if e.Inches() {
			bar, unit = 101.6, "in"
		}
		if want := 2 + len(e.File.Covers); told != want {
			t.Errorf("%s: %d lines of progress, want %d", name, told, want)
		}
		if (len(e.File.Covers) == 0) != (len(leftOut) == 1) {
			t.Errorf("%s: %d covers, %q left out", name, len(e.File.Covers), leftOut)
		}
		if n := 1 + 2*len(e.File.Covers); strings.Count(strings.Join(namesOf(files), " "), ".dxf") != n {
			t.Errorf("%s: want %d parts, have %v", name, n, namesOf(files))
		}
		face := sheetsNamed(t, files, "port-face", bar)[0]
		if !face.Says(unit) {
			t.Errorf("%s: the sheet is not in %s", name, unit)
		}
		if faceTurned(t, e, face) {
			turned++
		}
		for i, c := range e.File.Covers {
			part := fileName(c.Where, "")
			sealed, err := coverGasket(e, i)
			if err != nil {
				t.Fatal(err)
			}
			for _, sheet := range []string{part + "-gasket", part + "-marking"} {
				p := sheetsNamed(t, files, sheet, bar)[0]
				for _, h := range sealed.outline.Holes {
					if !drawnHole(p, h.At.X.MM(), h.At.Y.MM(), h.Diameter.MM()/2) {
						t.Errorf("%s, %s: no hole at %v", name, sheet, h.At)
					}
				}
			}
		}
	}
	if turned != 1 { // that of Low's cylinder, whose valve is too long for the width of A4
		t.Errorf("%d port faces are turned", turned)
	}
}

func namesOf(files map[string]string) []string {
	var all []string
	for name := range files {
		all = append(all, name)
	}
	slices.Sort(all)
	return all
}

// drawnHole reports whether a hole is at a place from the middle of the outside.
func drawnHole(p *check.Picture, x, y, radius float64) bool {
	low, high := check.Spot{X: math.Inf(1), Y: math.Inf(1)}, check.Spot{X: math.Inf(-1), Y: math.Inf(-1)}
	reach := func(x, y float64) {
		low = check.Spot{X: min(low.X, x), Y: min(low.Y, y)}
		high = check.Spot{X: max(high.X, x), Y: max(high.Y, y)}
	}
	for _, s := range p.On("CUT") {
		for _, at := range s.Spots {
			reach(at.X, at.Y)
		}
	}
	for _, c := range p.Circles {
		if c.Layer == "CUT" {
			reach(c.Centre.X-c.Radius, c.Centre.Y-c.Radius)
			reach(c.Centre.X+c.Radius, c.Centre.Y+c.Radius)
		}
	}
	return slices.ContainsFunc(p.Circles, func(c check.Round) bool {
		return c.Layer == "HOLES" && math.Abs(c.Centre.X-(low.X+high.X)/2-x) < near &&
			math.Abs(c.Centre.Y-(low.Y+high.Y)/2-y) < near && math.Abs(c.Radius-radius) < near
	})
}

// faceTurned measures a port face: widths of ports and bars, and the way of the valve. It
// reports whether the travel is up the sheet, the head end above.
func faceTurned(t *testing.T, e *engine.Engine, p *check.Picture) bool {
	t.Helper()
	g, err := gearOf(e)
	if err != nil {
		t.Fatal(err)
	}
	ports := p.On("CUT")
	if len(ports) != 3 {
		t.Fatalf("%d ports", len(ports))
	}
	box := func(s check.Stroke) (low, high check.Spot) {
		low, high = s.Spots[0], s.Spots[0]
		for _, at := range s.Spots {
			low = check.Spot{X: min(low.X, at.X), Y: min(low.Y, at.Y)}
			high = check.Spot{X: max(high.X, at.X), Y: max(high.Y, at.Y)}
		}
		return low, high
	}
	first, _ := box(ports[0])
	last, _ := box(ports[2])
	turned := math.Abs(first.X-last.X) < near
	// along the travel from the head end
	var edges []float64
	for _, s := range ports {
		low, high := box(s)
		a, b, length := low.X, high.X, high.Y-low.Y
		if turned {
			a, b, length = -high.Y, -low.Y, high.X-low.X
		}
		edges = append(edges, a, b)
		if math.Abs(length-g.Ports.Length.MM()) > near {
			t.Errorf("a port is %.3f mm long", length)
		}
	}
	zero := (edges[2] + edges[3]) / 2
	crankSteam, crankBar := g.Ports.CrankSteam, g.Ports.CrankBar
	if crankSteam.IsZero() {
		crankSteam = g.Ports.Steam
	}
	if crankBar.IsZero() {
		crankBar = g.Ports.Bar
	}
	for i, want := range []units.Length{g.Ports.Steam, g.Ports.Bar, g.Ports.Exhaust, crankBar, crankSteam} {
		if got := edges[i+1] - edges[i]; math.Abs(got-want.MM()) > near {
			t.Errorf("%d: %.3f mm wide, want %v", i, got, want)
		}
	}
	// the ends of the valve: the ends of its way are those of all crank angles
	least, most := math.Inf(1), math.Inf(-1)
	for angle := range 3600 {
		x, err := g.Displacement(units.Angle(angle) * units.Degree / 10)
		if err != nil {
			t.Fatal(err)
		}
		least, most = min(least, x.MM()), max(most, x.MM())
	}
	half := g.Valve.Length.MM() / 2
	for _, want := range []float64{least - half, most - half, least + half, most + half} {
		if !slices.ContainsFunc(p.On("HIDDEN"), func(s check.Stroke) bool {
			got := s.Spots[0].X - zero
			if turned {
				got = -s.Spots[0].Y - zero
			}
			return math.Abs(got-want) < near
		}) {
			t.Errorf("no end of the valve at %.3f mm", want)
		}
	}
	return turned
}

// What is wrong with the gear or a joint stands on the sheets of its part, in the unit of
// the file, and nobody may cut by them; what costs power is to be minded.
func TestSheetsSayWhatIsWrong(t *testing.T) {
	for _, test := range []struct {
		old, put, sheet, says, other string
	}{
		{`cavity = "9 mm"`, `cavity = "11.8 mm"`, "port-face-1", "DO NOT CUT BY THIS: The cavity, 11.8 mm (0.465 in), is too long", "cylinder-cover-marking-1"},
		{`name = "Demo`, "units = \"inch\"\nname = \"Demo", "port-face-1", ">in<", ""},
		{`cover_thickness = "3 mm"`, `cover_thickness = "0.3 mm"`, "cylinder-cover-marking-1", "DO NOT CUT BY THIS: ", "port-face-1"},
	} {
		files, _, _ := bookletOf(t, "e.toml", []byte(strings.Replace(demoText(t), test.old, test.put, 1)), template.A4)
		if sheet := files["sheets/"+test.sheet+".svg"]; !strings.Contains(sheet, test.says) {
			t.Errorf("%s: %s does not say %s", test.put, test.sheet, test.says)
		}
		if other := files["sheets/"+test.other+".svg"]; strings.Contains(other, "DO NOT CUT") {
			t.Errorf("%s: %s says so too", test.put, test.other)
		}
	}
	var many finding.List
	for range 30 {
		many = append(many, finding.Finding{Severity: finding.Caution, Text: "It is off by 0.07 mm (2.7 thou)."})
	}
	many = append(many, finding.Finding{Severity: finding.Note, Text: "a note"}, finding.Finding{Severity: finding.Danger, Text: "It bursts."})
	warnings, remarks := saidOnSheet(many, true)
	if len(warnings) != 1 || warnings[0] != "It bursts." || len(remarks) < 10 || remarks[0] != "It is off by 2.7 thou (0.07 mm)." ||
		!strings.HasPrefix(remarks[len(remarks)-1], "More is in the book, 1") {
		t.Errorf("%q, %q", warnings, remarks)
	}
	// one that is longer than a sheet has room for still says that nobody may cut
	warnings, _ = saidOnSheet(finding.List{{Severity: finding.Fails, Text: strings.Repeat("long ", 400)}}, false)
	if len(warnings) != 1 || warnings[0] != "More is in the book, 1 in number." {
		t.Errorf("%q", warnings)
	}
}

func demoText(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(demonstration)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// A name that is no name of a file, and one that two covers have, are those of files all
// the same; the paper is the one that was asked for; what a file has not is left out.
func TestSheetNames(t *testing.T) {
	text := strings.Replace(demoText(t), `where = "steam chest"`+"\nshape", `where = "cylinder cover"`+"\nshape", 1)
	files, _, _ := bookletOf(t, "e.toml", []byte(text), template.Letter)
	if files["sheets/cylinder-cover-2-marking.dxf"] == "" || !strings.Contains(files["sheets/port-face-1.svg"], `width="215.9mm" height="279.4mm"`) {
		t.Errorf("%v", namesOf(files))
	}
	hostile := `</svg><script>é` + strings.Repeat("直", 200)
	text = strings.ReplaceAll(demoText(t), `"steam chest"`, `"../../`+hostile+`"`)
	text = strings.Replace(text, `gasket_thickness = "0.25 mm"`, "", 1)
	files, leftOut, _ := bookletOf(t, "e.toml", []byte(text), template.A4)
	for name, file := range files {
		if !regexp.MustCompile(`^sheets/[a-z0-9-]+\.(svg|pdf|dxf)$`).MatchString(name) || strings.HasSuffix(name, ".svg") && strings.Contains(file, "<script>") {
			t.Errorf("%q", name)
		}
	}
	if len(leftOut) != 1 || !strings.Contains(leftOut[0], "Cylinder cover gasket: the file has no gasket_thickness") ||
		files["sheets/cylinder-cover-gasket.pdf"] != "" || files["sheets/cylinder-cover-marking.pdf"] == "" {
		t.Errorf("%q, %v", leftOut, namesOf(files))
	}
}

// Whatever engine has a book has its sheets, or is told why it has none; and each is read
// again.
func TestSheetsOfSpoiltEngines(t *testing.T) {
	names, err := filepath.Glob("../../examples/enginebook/engines/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	length := regexp.MustCompile(`(?m)^(\w+ = ")[\d./ ]+ (mm|in)"`)
	r := rand.New(rand.NewPCG(16, 6))
	made, left := 0, 0
	for range many(60) {
		name := names[r.IntN(len(names))]
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		at := length.FindAllSubmatchIndex(text, -1)
		if len(at) == 0 {
			continue
		}
		one := at[r.IntN(len(at))]
		with := []string{`5000 mm"`, `0.01 mm"`, `17.777777 mm"`, `3 1/64 in"`, `40 mm"`}[r.IntN(5)]
		spoilt := []byte(string(text[:one[3]]) + with + string(text[one[1]:]))
		if _, err := EngineFile(name, spoilt); err != nil {
			continue
		}
		files, leftOut, _ := bookletOf(t, name, spoilt, template.Paper(r.IntN(8)))
		made, left = made+len(files), left+len(leftOut)
		for file, svg := range files {
			if strings.HasSuffix(file, ".svg") && !strings.Contains(svg, "<clipPath") {
				check.LegibleFrom(t, check.ReadPicture(t, svg), 1.4, "CENTRES", "HOLES", "LINES", "HIDDEN", "CUT", "HATCH")
			}
		}
		if t.Failed() {
			t.Fatalf("%s: %s", name, spoilt[one[0]:one[3]+len(with)])
		}
	}
	if made < many(100) || left == 0 {
		t.Errorf("%d files, %d left out", made, left)
	}
}

// A part that would take more sheets than there may be is left out, with the reason.
func TestSheetTooLarge(t *testing.T) {
	o, err := gasket.Round("Cover", units.MM(9000), units.Length{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	var s sheetMaker
	drawn, err := template.NewMarking(template.Marking{Face: o}, s.options)
	if err := s.add("cover-marking", "Cover, marking out", drawn, err); err != nil || len(s.files) > 0 {
		t.Errorf("%v, %d files", err, len(s.files))
	}
	if len(s.leftOut) != 1 || !regexp.MustCompile(`^Cover, marking out: part on \d+ sheets of A4: .*accepted: up to 200 sheets\.$`).MatchString(s.leftOut[0]) {
		t.Errorf("%q", s.leftOut)
	}
}

// The same engine gives the same files.
func TestSheetsAreTheSame(t *testing.T) {
	var files [2][]cli.File
	for i := range files {
		var err error
		if _, files[i], _, err = Booklet(demonstration, nil, template.A4, func(string) {}); err != nil {
			t.Fatal(err)
		}
	}
	if len(files[0]) != 15 || len(files[1]) != 15 {
		t.Fatalf("%d files", len(files[0]))
	}
	for i, f := range files[0] {
		if !bytes.Equal(f.Text, files[1][i].Text) || f.Name != files[1][i].Name || f.About == "" {
			t.Errorf("%s: not the same", f.Name)
		}
	}
	if _, _, _, err := Booklet("nowhere.toml", nil, template.A4, func(string) {}); err == nil || !strings.Contains(err.Error(), "accepted: an engine file") {
		t.Errorf("%v", err)
	}
}
