package engine_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/diagnosis/symptom"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
)

const readGear = "[cylinder]\nbore = \"20 mm\"\nstroke = \"25 mm\"\n[motion]\nconnecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\"\n" +
	"[ports]\nsteam = \"2 mm\"\nbar = \"2.5 mm\"\nexhaust = \"4 mm\"\nlength = \"10 mm\"\n[valve]\nlength = \"15.4 mm\"\ncavity = \"9 mm\"\n" +
	"[eccentric]\ntravel = \"6.4 mm\"\nadvance = \"26 deg\"\n"

// readings writes readings, one of "kind end value within" each.
func readings(all ...string) string {
	text := ""
	for _, one := range all {
		text += "[[readings]]\n"
		for i, field := range strings.Fields(one) {
			key := []string{"kind", "end", "value", "within", "crank"}[i]
			if field == "-" {
				continue
			}
			text += key + " = \"" + strings.ReplaceAll(field, "_mm", " mm") + "\"\n"
		}
	}
	return text
}

// What is read on an engine becomes what the package wants, whichever way it is
// written.
func TestTaken(t *testing.T) {
	text := "units = \"mm\"\n" + readGear + readings(
		"admission head -4deg 2deg", "cut_off crank 83% 1%", "release head never", "lead crank -0.2 0.05", "travel - 250thou",
		"valve_at both 1.4_mm - 90deg", "opens_next head steam")
	text = strings.Replace(text, "\"-0.2\"", "-0.2", 1)
	e, err := engine.Parse("e.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	got, err := e.Observed().Taken(e)
	if err != nil {
		t.Fatal(err)
	}
	deg := units.Degree
	want := []diagnosis.Reading{
		{Kind: diagnosis.Admission, End: eccentric.HeadEnd, Angle: -4 * deg},
		{Kind: diagnosis.CutOff, End: eccentric.CrankEnd, ByStroke: true, Stroke: 0.83},
		{Kind: diagnosis.Release, End: eccentric.HeadEnd, Never: true},
		{Kind: diagnosis.Lead, End: eccentric.CrankEnd, Length: units.MM(-0.2)},
		{Kind: diagnosis.Travel, Length: units.MM(6.35)},
		{Kind: diagnosis.ValveAt, Length: units.MM(1.4), Crank: 90 * deg},
		{Kind: diagnosis.OpensNext, End: eccentric.HeadEnd, Opens: diagnosis.Steam},
	}
	want[0].Within.Angle, want[1].Within.Ratio, want[3].Within.Length = 2*deg, 0.01, units.MM(0.05)
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%v\nwant %v", got[i], want[i])
		}
	}
	// Beside the engine file they say the same.
	inside := e
	e, err = engine.Parse("e.toml", []byte(readGear))
	if err != nil {
		t.Fatal(err)
	}
	o, err := engine.ParseObserved("r.toml", []byte("units = \"mm\"\n"+text[strings.Index(text, "[[readings]]"):]))
	if err != nil {
		t.Fatal(err)
	}
	if err := e.Observed().Beside(o); err != nil {
		t.Fatal(err)
	}
	beside, err := o.Taken(e)
	if err != nil || len(beside) != len(want) || beside[3] != want[3] {
		t.Errorf("%v, %v", beside, err)
	}
	if err := inside.Observed().Beside(o); err == nil || !strings.HasPrefix(err.Error(),
		"r.toml:2:3: readings: e.toml:19:3: readings has some too; accepted: all readings and symptoms in one of the two files") {
		t.Error(err)
	}
	text = "symptoms = [\"knocks\", \"beats uneven\"]\n"
	if e, err = engine.Parse("e.toml", []byte(text+readGear)); err != nil || len(e.Observed().Symptoms) != 2 {
		t.Errorf("%v, %v", e.File.Symptoms, err)
	}
	if o, err = engine.ParseObserved("r.toml", []byte(text)); err != nil || len(o.Symptoms) != 2 || o.Symptoms[0] != symptom.Knocks {
		t.Errorf("%v, %v", o.Symptoms, err)
	}
	if err := e.Observed().Beside(o); err == nil || !strings.HasPrefix(err.Error(), "r.toml:1:") {
		t.Error(err)
	}
	if _, err := engine.ParseObserved("r.toml", []byte("symptoms = [\"dead\"]\n")); err == nil || !strings.Contains(err.Error(),
		`symptoms: symptom "dead": unknown; near it: stops at a dead centre; accepted: will not turn, jerks without turning`) {
		t.Error(err)
	}
}

// What cannot be is told with its place, and with that of what it does not go with.
func TestReadingsThatCannotBe(t *testing.T) {
	const n = 17 // lines of the engine
	for name, test := range map[string]struct{ text, want string }{
		"kind":         {readings("stroke head 3deg"), `e.toml:19:8: readings[1].kind: kind of reading "stroke": unknown; accepted: admission, cut_off`},
		"no kind":      {readings("- head 3deg"), "e.toml:18:3: readings[1].kind: missing; accepted: admission, cut_off, release"},
		"no end":       {readings("lead - 0.2_mm"), `e.toml:18:3: readings[1].end: missing; accepted: "head"`},
		"both ends":    {readings("lead both 0.2_mm"), `e.toml:20:7: readings[1].end: "both" ends at once; accepted: "head" or "crank"`},
		"an end":       {readings("travel head 6.4_mm"), `e.toml:20:7: readings[1].end: "head" of a travel, which is the valve's; accepted: no such key`},
		"no value":     {readings("lead head"), `e.toml:18:3: readings[1].value: missing; accepted: a length with its unit, such as "0.2 mm"`},
		"bare":         {"[[readings]]\nkind = \"lead\"\nend = \"head\"\nvalue = 0.2\n", `e.toml:21:9: readings[1].value: a bare 0.2; accepted: text in quotes, in the measure of the reading`},
		"measure":      {readings("lead head 3deg"), `e.toml:21:9: readings[1].value: length "3deg": unknown unit "deg"`},
		"no unit":      {readings("admission head 3"), `e.toml:21:9: readings[1].value: angle "3": a number without a unit`},
		"never":        {readings("lead head never"), `e.toml:21:9: readings[1].value: length "never"`},
		"within":       {readings("lead head 0.2_mm 2deg"), `e.toml:22:10: readings[1].within: length "2deg": unknown unit "deg"`},
		"out by none":  {readings("lead head 0.2_mm 0_mm"), `e.toml:22:10: readings[1].within: `},
		"out by less":  {readings("lead head 0.2_mm -1_mm"), `e.toml:22:10: readings[1].within: `},
		"far away":     {readings("admission head 400deg"), `e.toml:21:9: readings[1].value: reading of admission 400 deg: out of range; accepted: from -180 to 360`},
		"more":         {readings("cut_off head 120%"), `e.toml:21:9: readings[1].value: `},
		"crank":        {readings("lead head 0.2_mm - 90deg"), `e.toml:22:9: readings[1].crank: it belongs to valve_at`},
		"no crank":     {readings("valve_at - 0.2_mm"), `e.toml:18:3: readings[1].crank: missing; accepted: where the crank stood`},
		"crank angle":  {readings("valve_at - 0.2_mm - 720deg"), `e.toml:21:9: readings[1].crank: crank angle`},
		"never within": {readings("cut_off head never 2mm"), `e.toml:22:10: readings[1].within: `},
		"side":         {readings("opens_next head shut"), `e.toml:21:9: readings[1].value: side to which a port opens "shut": unknown; accepted: steam, exhaust`},
		"side within":  {readings("opens_next head steam 1deg"), `e.toml:22:10: readings[1].within: "steam" is not out by so much`},
		"twice": {readings("lead head 0.2_mm", "lead crank 0.2_mm", "lead head 0.5_mm"),
			`e.toml:29:9: readings[3].value: 0.5 mm for lead of the head end, but e.toml:21:9: readings[1].value: 0.2 mm for it; accepted: readings of one thing that differ by no more`},
		"one of two": {readings("admission head never", "cut_off head 120deg"),
			`e.toml:25:9: readings[2].value: cut-off of the head end happens, but e.toml:21:9: readings[1].value: admission of the head end never happens`},
		"wider": {readings("opening head 3.2_mm 0.1_mm"),
			`e.toml:21:9: readings[1].value: 3.2 mm for opening of the head end, but e.toml:8:9: ports.steam: 2 mm is all that the port is wide`},
		"not made": {"made = [\"ports\"]\n", ""},
		"key":      {readings("lead head 0.2_mm") + "about = \"1\"\n", `e.toml:22:1: readings.about: unknown key; accepted: crank, end, kind, value, within`},
	} {
		text := readGear + test.text
		if name == "not made" {
			text = test.text + readGear + readings("lead head 0.2_mm")
			test.want = `e.toml:19:3: readings: they are taken on a built engine, but e.toml:1:1: made: not all of the gear is made`
		}
		e, err := engine.Parse("e.toml", []byte(text))
		_, taken := e.Observed().Taken(e)
		if err := engine.Join(err, taken); err == nil || !strings.HasPrefix(err.Error(), test.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v\nwant %s", name, err, test.want)
		}
	}
	if got := strings.Count(readGear, "\n"); got != n {
		t.Errorf("%d lines", got)
	}
	// Beside the file both files are named.
	e, err := engine.Parse("e.toml", []byte(readGear))
	if err != nil {
		t.Fatal(err)
	}
	o, err := engine.ParseObserved("r.toml", []byte(readings("opening head 3.2_mm 0.1_mm")))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := o.Taken(e); err == nil || !strings.HasPrefix(err.Error(), `r.toml:4:9: readings[1].value: 3.2 mm for opening of the head `+
		`end, but e.toml:8:9: ports.steam: 2 mm`) {
		t.Error(err)
	}
	if _, err := engine.ParseObserved("r.toml", []byte("[cylinder]\n")); err == nil || !strings.Contains(err.Error(),
		"r.toml:1:2: cylinder: unknown key; accepted: [[readings]], symptoms, units") {
		t.Error(err)
	}
}
