package pages_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/finding"
)

// demo returns the file of the invented engine with a text put in place of
// another, which must be in it.
func demo(t *testing.T, old, replacement string) string {
	t.Helper()
	text, err := os.ReadFile(check.Path(t, "../examples/enginebook/engines/demo.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), old) {
		t.Fatalf("no %q in the demonstration", old)
	}
	return strings.Replace(string(text), old, replacement, 1)
}

// pageOf makes the book of one page of an engine file.
func pageOf(text string, make func(*engine.Engine) (*pages.Page, error)) (book.Book, error) {
	e, err := engine.Parse("engine.toml", []byte(text))
	if err != nil {
		return book.Book{}, err
	}
	p, err := make(e)
	if err != nil || p == nil {
		return book.Book{}, err
	}
	return book.Book{Sections: p.Sections, Findings: p.Findings, Precautions: p.Precautions}, nil
}

// views returns the text of a book, in one line, and its JSON.
func views(t *testing.T, b book.Book) (text string, data map[string]any) {
	t.Helper()
	var plain, raw bytes.Buffer
	if err := b.WriteText(&plain); err != nil {
		t.Fatal(err)
	}
	if err := b.WriteJSON(&raw); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw.Bytes(), &data); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(plain.String()), " "), data
}

// at returns what JSON has at a path of keys.
func at(data any, path string) any {
	for key := range strings.SplitSeq(path, ".") {
		object, _ := data.(map[string]any)
		data = object[key]
	}
	return data
}

// The figures that other programs read keep their names, places and values: these
// are those of the first edition, whose events scipy checked.
var valveFigures = map[string]any{
	"dimensions.advance_deg":                   26.0,
	"dimensions.bar_mm":                        2.5,
	"dimensions.bore_mm":                       20.0,
	"dimensions.cavity_mm":                     9.0,
	"dimensions.connecting_rod_mm":             63.0,
	"dimensions.eccentric_rod_mm":              60.0,
	"dimensions.exhaust_port_mm":               4.0,
	"dimensions.inside_admission":              false,
	"dimensions.port_length_mm":                10.0,
	"dimensions.steam_port_mm":                 2.0,
	"dimensions.stroke_mm":                     25.0,
	"dimensions.travel_mm":                     6.4,
	"dimensions.valve_mm":                      15.4,
	"dimensions.valve_offset_mm":               0.0,
	"eccentric.turn_to_reverse_deg":            128.0,
	"eccentric.advance_deg":                    26.0,
	"eccentric.dial_reading_mm":                6.4,
	"eccentric.leads_crank_deg":                116.00000000000001,
	"eccentric.mean_lead_mm":                   0.20278767,
	"eccentric.offset_mm":                      3.2,
	"eccentric.valve_offset_for_equal_lead_mm": -0.068974535,
	"events.crank.admission.crank_deg":         -2.5800563812823736,
	"events.crank.admission.piston_mm":         0.010158344,
	"events.crank.admission.stroke":            0.0004063337700194128,
	"events.crank.compression.crank_deg":       335.5280685946107,
	"events.crank.compression.piston_mm":       0.909786687,
	"events.crank.compression.stroke":          0.03639146749623111,
	"events.crank.cut_off.crank_deg":           130.58005638128233,
	"events.crank.cut_off.piston_mm":           19.911942311,
	"events.crank.cut_off.stroke":              0.7964776924309944,
	"events.crank.exhaust_opening_mm":          2.0,
	"events.crank.lead_mm":                     0.133813134,
	"events.crank.opening_mm":                  2.0,
	"events.crank.release.crank_deg":           152.47193140538923,
	"events.crank.release.piston_mm":           23.319349911,
	"events.crank.release.stroke":              0.9327739964416603,
	"events.crank.steam_edge_past_port_mm":     0.0,
	"events.head.admission.crank_deg":          -5.413832861324404,
	"events.head.admission.piston_mm":          0.066799557,
	"events.head.admission.stroke":             0.0026719822824858622,
	"events.head.compression.crank_deg":        332.4719314053892,
	"events.head.compression.piston_mm":        1.680650089,
	"events.head.compression.stroke":           0.06722600355834006,
	"events.head.cut_off.crank_deg":            133.41383286132438,
	"events.head.cut_off.piston_mm":            21.74857263,
	"events.head.cut_off.stroke":               0.8699429051988525,
	"events.head.exhaust_opening_mm":           2.0,
	"events.head.lead_mm":                      0.271762205,
	"events.head.opening_mm":                   2.0,
	"events.head.release.crank_deg":            155.52806859461074,
	"events.head.release.piston_mm":            24.090213313,
	"events.head.release.stroke":               0.9636085325037692,
	"events.head.steam_edge_past_port_mm":      0.0,
	"laps.exhaust_mm":                          0.0,
	"laps.steam_mm":                            1.2,
	"sweep.inner_mm":                           4.5,
	"sweep.outer_mm":                           10.9,
	"sweep.ports_end_mm":                       6.5,
}

// What is other with a cavity of 11.8 mm.
var longCavityFigures = map[string]any{
	"dimensions.cavity_mm":               11.8,
	"events.crank.compression.crank_deg": 361.2949252514538,
	"events.crank.compression.piston_mm": 0.002558996,
	"events.crank.compression.stroke":    0.00010235985741257697,
	"events.crank.release.crank_deg":     126.70507474854621,
	"events.crank.release.piston_mm":     19.169022357,
	"events.crank.release.stroke":        0.7667608942803602,
	"events.head.compression.crank_deg":  358.5459169998859,
	"events.head.compression.piston_mm":  0.004823754,
	"events.head.compression.stroke":     0.00019295014480044835,
	"events.head.release.crank_deg":      129.45408300011405,
	"events.head.release.piston_mm":      21.186959414,
	"events.head.release.stroke":         0.8474783765427064,
	"laps.exhaust_mm":                    -1.4,
}

func TestValveJSON(t *testing.T) {
	long := maps.Clone(valveFigures)
	maps.Copy(long, longCavityFigures)
	for _, test := range []struct {
		file    string
		figures map[string]any
	}{{"demo.toml", valveFigures}, {"wrong-cavity.toml", long}} {
		text, err := os.ReadFile("../../examples/enginebook/engines/" + test.file)
		if err != nil {
			t.Fatal(err)
		}
		_, data := valve(t, string(text))
		for path, want := range test.figures {
			got := at(data, path)
			g, number := got.(float64)
			w, wantNumber := want.(float64)
			if number != wantNumber || !number && got != want || number && math.Abs(g-w) > 1e-12*math.Abs(w) {
				t.Errorf("%s: %s = %v, want %v", test.file, path, got, want)
			}
		}
	}
}

// valve returns the views of the valve page of an engine file.
func valve(t *testing.T, file string) (text string, data map[string]any) {
	t.Helper()
	b, err := pageOf(file, pages.Valve)
	if err != nil {
		t.Fatal(err)
	}
	return views(t, b)
}

// mustShow complains of texts that are not in a view.
func mustShow(t *testing.T, text string, wants ...string) {
	t.Helper()
	for _, want := range wants {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

func TestValveText(t *testing.T) {
	text, _ := valve(t, demo(t, "", ""))
	mustShow(t, text,
		"stroke 25.000 mm 0.9843 in 1.25 bores", "eccentric rod 60.000 mm 2.3622 in 18.75 offsets", "angle of advance 26.00 deg",
		"steam lap 1.200 mm 0.0472 in exhaust lap 0.000 mm 0.0000 in",
		"= (15.4 - 2 x 2 - 2 x 2.5 - 4) / 2 = 1.2 mm", "(2 x 2.5 + 4 - 9) / 2 = 0 mm",
		"cut-off 133.41 deg 86.99 % 21.75 mm 130.58 deg 79.65 % 19.91 mm", "lead 0.272 mm 0.0107 in 0.134 mm 0.0053 in",
		"S / half travel = 1.2 / 3.2, the sine of 22.02 deg, for admission at t = 22.02 - 26.00 = -3.98 deg and cut-off at t ="+
			" 180 - 22.02 - 26.00 = 131.98 deg", "both rods at their true length. [", "] The Theory of Machines, by T. Bevan",
		"comes in to 4.500 mm 0.1772 in and goes out to 10.900 mm 0.4291 in the ports end at 6.500 mm", "chest inside, more than 21.800 mm",
		"offset of the sheave 3.200 mm 0.1260 in", "dial reading over one turn 6.400 mm 0.2520 in",
		"offset = travel / 2 = 6.4 / 2 = 3.2 mm", "116.00 deg ahead of the crank", "angle of advance d 26.00 deg",
		"3.2 x sin 26.00 - 1.2 = 0.203 mm", "shows 0.27 mm (10.7 thou), at the other the crank port 0.13 mm (5.3 thou)",
		"With the valve set 0.07 mm (2.7 thou) away from the crank, both ends have that mean lead",
	)
	if strings.Contains(text, "times the bore") {
		t.Error("the demonstration is out of proportion")
	}
}

// A size that does not go with the bore is told before anything else, as it is
// most often a slip of the pen.
func TestValveProportions(t *testing.T) {
	for _, test := range []struct{ old, replacement, want string }{
		{`bore = "20 mm"`, `bore = "0.787 mm"`, "the stroke, 25.00 mm (0.984 in), is 32 times the bore (usual: 0.7 to 4); the steam port's width"},
		{`stroke = "25 mm"`, `stroke = "12.5 mm"`, "For a bore of 20.00 mm (0.787 in) the stroke, 12.50 mm (0.492 in), is 0.62 times the bore"},
		{`length = "15.4 mm"`, `length = "15.4 in"`, "the valve, 391.16 mm (15.400 in), is 20 times the bore (usual: 0.2 to 3)"},
		{`length = "10 mm"`, `length = "0.4 mm"`, "the length of the ports, 0.40 mm (0.016 in), is 0.02 times the bore"},
	} {
		text, _ := valve(t, demo(t, test.old, test.replacement))
		wrong, _, _ := strings.Cut(text, "DIMENSIONS AS GIVEN")
		mustShow(t, wrong, test.want, "25.4 times too small")
	}
}

func TestValveLongCavity(t *testing.T) {
	b, err := pageOf(demo(t, `cavity = "9 mm"`, `cavity = "11.8 mm"`), pages.Valve)
	if err != nil {
		t.Fatal(err)
	}
	if f := b.All()[0]; b.OK() || f.Code != eccentric.NarrowLand || f.Severity != finding.Fails || f.Where != "" ||
		!strings.Contains(f.Text, "cavity") || len(f.Remedies) != 2 || !strings.Contains(f.Remedies[0], "9 mm") || !strings.Contains(f.Remedies[1], "9 mm") {
		t.Errorf("first finding %+v", f)
	}
	text, _ := views(t, b)
	mustShow(t, text, "A compression past 360 deg is none", "exhaust lap -1.400 mm -0.0551 in clearance")
	if wrong, dims := strings.Index(text, "WHAT IS WRONG"), strings.Index(text, "DIMENSIONS"); wrong < 0 || wrong > dims {
		t.Error("what is wrong does not come first")
	}
}

// An event that does not happen is null in JSON, and said to be never.
func TestValveNever(t *testing.T) {
	text, data := valve(t, demo(t, `travel = "6.4 mm"`, `travel = "2.2 mm"`))
	for _, path := range []string{"head.admission", "head.cut_off", "crank.admission", "crank.cut_off"} {
		event, ok := at(data, "events."+path).(map[string]any)
		for _, key := range []string{"crank_deg", "stroke", "piston_mm"} {
			if value, there := event[key]; !ok || !there || value != nil {
				t.Errorf("%s.%s = %v", path, key, value)
			}
		}
	}
	for _, path := range []string{"events.head.release.crank_deg", "events.crank.compression.piston_mm", "events.head.lead_mm"} {
		if _, number := at(data, path).(float64); !number {
			t.Errorf("%s = %v", path, at(data, path))
		}
	}
	mustShow(t, text, "admission never never", "WILL NOT WORK")
	if strings.Contains(text, "NaN") || strings.Contains(text, "With endless rods") {
		t.Error(text)
	}
}

func TestValveRemedyOfBothEndsStandsOnce(t *testing.T) {
	text, _ := valve(t, demo(t, `exhaust = "4 mm"`, `exhaust = "2 mm"`))
	if both, once := strings.Count(text, "port is still shut by"), strings.Count(text, "an advance of 43.4 deg"); both != 2 || once != 1 {
		t.Errorf("%d findings, %d remedies in\n%s", both, once, text)
	}
}

// Every figure that the file gives stands among the dimensions; what is worked out
// of it stands where it is used.
func TestValveOptions(t *testing.T) {
	const cavity, rods = `cavity = "9 mm"`, "connecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\""
	for _, test := range []struct {
		name, old, replacement string
		wants                  []string
		not                    string
	}{
		{"lead in place of advance", `advance = "26 deg"`, `lead = "0.1 mm"`,
			[]string{"lead 0.100 mm 0.0039 in mean of both ends", "angle of advance d 23.97 deg", "- 1.2 = 0.1 mm;"}, "angle of advance 23.97"},
		{"offset, inside admission, chest", cavity, cavity + "\noffset = \"-0.2 mm\"\nadmission = \"Inside\"\n[chest]\nlength = \"30 mm\"",
			[]string{"valve off centre 0.200 mm 0.0079 in away from crank", "admission past the inner edges yes", "chest, inside 30.000 mm", "middle port", "between inner edges"}, "relief groove"},
		{"offset the other way", cavity, cavity + "\noffset = \"0.2 mm\"", []string{"valve off centre 0.200 mm 0.0079 in towards crank"}, "With endless rods"},
		{"fraction of an inch", `steam = "2 mm"`, `steam = "3/32 in"`, []string{"steam ports 2.381 mm 0.0938 in 3/32 in bars"}, "25.000 mm 0.9843 in,"},
		{"fraction of an inch, and more to say", `stroke = "25 mm"`, `stroke = "1 1/16 in"`, []string{"stroke 26.988 mm 1.0625 in 1 1/16 in, 1.35 bores"}, ""},
		{"advance below zero", `advance = "26 deg"`, `advance = "-26 deg"`,
			[]string{"22.02 - (-26.00) = 48.02 deg and cut-off at t = 180 - 22.02 - (-26.00) = 183.98 deg"}, "To prove it"},
		{"outside admission", cavity, cavity + "\nadmission = \"outside\"", []string{"relief groove"}, ""},
		{"piston valve", "length = \"15.4 mm\"\n" + cavity, "length = \"13 mm\"\ncavity = \"6.6 mm\"\nadmission = \"inside\"",
			[]string{"64.00 deg behind the crank", "for admission at t = 22.02 - 26.00 = -3.98 deg"}, "116.00 deg"},
		{"lever", `eccentric_rod = "60 mm"`, "eccentric_rod = \"60 mm\"\nlever_ratio = -1.6",
			[]string{"64.00 deg behind the crank", "offset = travel / 2 / lever ratio = 6.4 / 2 / 1.6 = 2 mm", "lever ratio -1.6", "at t = 22.02 - 26.00 = -3.98 deg"}, ""},
		{"lever of many digits", `eccentric_rod = "60 mm"`, "eccentric_rod = \"60 mm\"\nlever_ratio = 1.3333333333",
			[]string{"lever ratio 1.3333333333 ", "6.4 / 2 / 1.3333333333 = 2.4 mm"}, ""},
		{"infinite rods", rods, "connecting_rod = \"infinite\"\neccentric_rod = \"infinite\"", []string{"connecting rod infinite", "eccentric rod infinite"}, "cranks"},
		// The mean lead, and what makes it differ at the two ends.
		{"slant", cavity, cavity + "\noffset = \"0 mm\"", []string{"the slant of the eccentric rod makes it 0.272 at the head end and 0.134 at the crank end"}, "compression past 360"},
		{"slant and offset", cavity, cavity + "\noffset = \"0.1 mm\"",
			[]string{"the slant of the eccentric rod and the valve off centre make it 0.372 at the head end and 0.034 at the crank end"}, ""},
		{"set right", cavity, cavity + "\noffset = \"-0.069 mm\"", nil, "both ends have that mean lead"},
		{"infinite and set right", `eccentric_rod = "60 mm"`, `eccentric_rod = "infinite"`, []string{"- 1.2 = 0.203 mm Ahead", "To prove it"}, "both ends have that mean lead"},
	} {
		text, _ := valve(t, demo(t, test.old, test.replacement))
		mustShow(t, text, test.wants...)
		if test.not != "" && strings.Contains(text, test.not) {
			t.Errorf("%s: %q in\n%s", test.name, test.not, text)
		}
	}
	for _, test := range []struct{ offset, want string }{
		{"-0.1 mm", "0.203 mm; the valve off centre makes it 0.103 at the head end and 0.303 at the crank end"},
		{"0.1 mm", "With the valve moved 0.10 mm (3.9 thou) away from the crank, to its centre, both ends have that mean lead"},
	} {
		file := strings.Replace(demo(t, `eccentric_rod = "60 mm"`, `eccentric_rod = "infinite"`), cavity, cavity+"\noffset = \""+test.offset+`"`, 1)
		text, _ := valve(t, file)
		mustShow(t, text, test.want)
	}
}

func TestValveOptionsJSON(t *testing.T) {
	_, data := valve(t, demo(t, `advance = "26 deg"`, `lead = "0.1 mm"`))
	near(t, at(data, "eccentric.mean_lead_mm"), 0.1, 1e-8)
	near(t, at(data, "dimensions.lead_mm"), 0.1, 0)
	near(t, at(data, "dimensions.advance_deg"), 23.97, 0.005)
	near(t, at(data, "sweep.chest_mm"), 21.8, 0)
	// Infinite rods make both ends alike, and have no length.
	text, data := valve(t, demo(t, "connecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\"", "connecting_rod = \"infinite\"\neccentric_rod = \"infinite\"\nlever_ratio = -0.8\n[chest]\nlength = \"30 mm\""))
	near(t, at(data, "events.head.cut_off.stroke"), at(data, "events.crank.cut_off.stroke").(float64), 1e-12)
	if !strings.Contains(text, "With endless rods both ends are alike: ") || strings.Contains(text, "slant of the rods makes") {
		t.Error(text)
	}
	if rod, there := at(data, "dimensions").(map[string]any)["eccentric_rod_mm"]; rod != nil || !there {
		t.Errorf("an infinite rod is %v", rod)
	}
	near(t, at(data, "dimensions.lever_ratio"), -0.8, 0)
	near(t, at(data, "dimensions.chest_mm"), 30, 0)
	_, data = valve(t, demo(t, `cavity = "9 mm"`, "cavity = \"9 mm\"\noffset = \"-0.2 mm\"\nadmission = \"inside\""))
	near(t, at(data, "dimensions.valve_offset_mm"), -0.2, 0)
	if at(data, "dimensions.inside_admission") != true {
		t.Error("inside admission is not told")
	}
	// A short chest stops the engine.
	if b, err := pageOf(demo(t, "[[fits]]", "[chest]\nlength = \"3/4 in\"\n[[fits]]"), pages.Valve); err != nil || b.OK() {
		t.Error(err, b.All())
	}
}

// What the gear lacks or cannot have is told at its place, all of it at once.
func TestValveComplaints(t *testing.T) {
	const lever = "eccentric_rod = \"60 mm\"\nlever_ratio = "
	for _, test := range []struct{ name, old, replacement, want string }{
		{"missing", `bar = "2.5 mm"`, ``, `engine.toml:16:2: ports.bar: missing; accepted: a length`},
		{"missing table", "[motion]\nconnecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\"", ``,
			`motion.connecting_rod: missing; accepted: a length with its unit, such as "20 mm" or "3/4 in", or "infinite"`},
		{"neither advance nor lead", `advance = "26 deg"`, ``, `engine.toml:28:2: eccentric.advance: missing; accepted: advance, such as "26 deg", or lead`},
		{"both", `advance = "26 deg"`, "advance = \"26 deg\"\nlead = \"0.2 mm\"", `engine.toml:31:8: eccentric.lead: advance is given too`},
		{"rod too short", `"63 mm"`, `"12 mm"`,
			`engine.toml:13:18: motion.connecting_rod: connecting rod 12 mm: out of range; accepted: longer than half the stroke, 12.5 mm, or "infinite"`},
		{"zero stroke", `stroke = "25 mm"`, `stroke = "0 mm"`, `engine.toml:6:10: cylinder.stroke: stroke: missing or zero`},
		{"negative bore", `bore = "20 mm"`, `bore = "-20 mm"`, `engine.toml:5:8: cylinder.bore: -20 mm; accepted: a length above zero`},
		{"lead too large", `advance = "26 deg"`, `lead = "3 mm"`, `engine.toml:30:8: eccentric.lead: lead 3 mm: the travel does not reach it; accepted: between -4.4 mm and 2 mm`},
		{"admission", `cavity = "9 mm"`, "cavity = \"9 mm\"\nadmission = \"sideways\"", `engine.toml:27:13: valve.admission: "sideways"; accepted: "outside"`},
		{"lever", `eccentric_rod = "60 mm"`, lever + "0.0", `engine.toml:15:15: motion.lever_ratio: 0; accepted`},
		{"lever not finite", `eccentric_rod = "60 mm"`, lever + "nan", `engine.toml:15:15: motion.lever_ratio: lever ratio NaN`},
		{"zero chest", "[[fits]]", "[chest]\nlength = \"0 mm\"\n[[fits]]", `: chest.length: 0 mm; accepted`},
		{"negative chest", "[[fits]]", "[chest]\nlength = \"-1 mm\"\n[[fits]]", `: chest.length: -1 mm; accepted`},
		{"chest without a length", "[[fits]]", "[chest]\n[[fits]]", `chest.length: missing; accepted: a length`},
		{"ports of no length", `length = "10 mm"`, `length = "0 mm"`, `engine.toml:20:10: ports.length: 0 mm; accepted: a length above zero`},
		{"cavity as long as the valve", `cavity = "9 mm"`, `cavity = "15.4 mm"`, `engine.toml:26:10: valve.cavity: valve cavity 15.4 mm: out of range; accepted: shorter than the valve`},
		{"lever too small", `eccentric_rod = "60 mm"`, lever + "1e-9", `engine.toml:15:15: motion.lever_ratio: lever ratio 1e-09`},
		{"advance too large", `advance = "26 deg"`, `advance = "181 deg"`, `engine.toml:30:11: eccentric.advance: angle of advance 181 deg: out of range`},
	} {
		_, err := pageOf(demo(t, test.old, test.replacement), pages.Valve)
		if err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), "\n") != (test.name == "missing table") {
			t.Errorf("%s: %v\nwant %s", test.name, err, test.want)
		}
	}
	_, err := pageOf(strings.NewReplacer(`"63 mm"`, `"12 mm"`, `bore = "20 mm"`, `bore = "0 mm"`, `length = "10 mm"`, `length = "-1 mm"`,
		`steam = "2 mm"`, `steam = "-2 mm"`).Replace(demo(t, "", "")), pages.Valve)
	if err == nil || strings.Count(err.Error(), "\n") != 3 {
		t.Errorf("four mistakes: %v", err)
	}
}
