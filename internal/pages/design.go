package pages

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// ReadDesign makes the book of a valve gear that does what an engine file wants of
// it; see [DesignFile].
func ReadDesign(name string) (book.Book, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: an engine file in TOML with a table [wanted]", err)
	}
	return DesignFile(name, text)
}

// DesignFile makes that book from the text of the file, of which only what a design
// needs must be there.
func DesignFile(name string, text []byte) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	if err := engine.Join(unread, e.ValidateWanted()); err != nil {
		return book.Book{}, err
	}
	w, ok := e.Wish()
	if !ok { // told when it was read
		return book.Book{}, unread
	}
	exact, rounded, err := eccentric.Design(w)
	for range 4 { // a default of 1/64 in may be wider than the ports
		if e.Wanted.Step != nil || !isAbout(err, "step") {
			break
		}
		w.Step = w.Step.Scale(0.5)
		exact, rounded, err = eccentric.Design(w)
	}
	if err != nil {
		return book.Book{}, engine.Join(placed(e, err, wishKeys))
	}
	odd := finding.List(nil)
	if !w.Bore.IsZero() {
		found, err := rounded.Gear.CheckProportions(w.Bore)
		if err != nil {
			return book.Book{}, e.Errorf("cylinder.bore", "%v", err)
		}
		odd = finding.ListOf(found)
	}
	b := book.Book{
		Title: "VALVE GEAR FOR WHAT IS WANTED", From: e.Document.Name,
		Findings:    append(odd, ofDesign(exact, rounded)...),
		Precautions: eccentric.Precautions(),
	}
	if e.File.Name != "" {
		b.Title += ": " + e.File.Name
	}
	list, table := wishes(w, exact, rounded, e.Inches())
	b.Sections = append(b.Sections, list, table,
		designed("rounded", "THE GEAR TO MAKE, in steps of "+stepText(rounded.Step), rounded),
		designed("exact", "THE EXACT GEAR, before anything is rounded", exact),
		workingOfDesign(w, exact), toPaste(e, rounded.Gear))
	return firstRead(e, b), nil
}

// isAbout reports whether an error is about the argument of that name.
func isAbout(err error, field string) bool {
	var bad *units.ArgumentError
	return errors.As(err, &bad) && bad.Field == field
}

// wishKeys are the keys of what package eccentric names in the errors of a design.
var wishKeys = map[string]string{
	"stroke": "cylinder.stroke", "cylinder bore": "cylinder.bore", "connecting rod": "motion.connecting_rod",
	"eccentric rod": "motion.eccentric_rod", "lever ratio": "motion.lever_ratio",
	"steam port width": "ports.steam", "bar width": "ports.bar", "exhaust port width": "ports.exhaust",
	"port length": "ports.length", "steam port width of the crank end": "ports.crank_steam",
	"bar width of the crank end": "ports.crank_bar", "valve length": "wanted", "valve cavity": "wanted",
	"valve offset": "valve.offset", "cavity offset": "valve.cavity_offset", "lost motion": "valve.lost_motion",
	"chest length": "chest.length", "cut-off": "wanted.cut_off", "lead": "wanted.lead", "opening": "wanted.opening",
	"valve travel": "wanted.travel", "exhaust lap": "wanted.exhaust_lap", "compression": "wanted.compression",
	"equal": "wanted.equal", "step": "wanted.step", "speed": "wanted.speed", "dimensions": "wanted",
}

// ofDesign returns what is to be said of both gears: of the rounded one all, and of
// the exact one what is graver there.
func ofDesign(exact, rounded eccentric.Designed) (all finding.List) {
	type place struct {
		code finding.Code
		end  eccentric.End
	}
	of := func(f eccentric.Finding, gear string) finding.Finding {
		plain := f.Plain()
		plain.Where = strings.TrimSuffix(gear+", "+plain.Where, ", ")
		return plain
	}
	told := map[place]finding.Severity{}
	for _, f := range rounded.Findings {
		told[place{f.Code, f.End}] = f.Severity + 1
		all = append(all, of(f, "gear to make"))
	}
	for _, f := range exact.Findings {
		if f.Severity > finding.Note && f.Severity+1 > told[place{f.Code, f.End}] {
			all = append(all, of(f, "exact gear"))
		}
	}
	return append(all, finding.ListOf(rounded.Chosen)...)
}

// wishes returns what was wanted and what is reached, as a list for programs and as
// a table to read, there in the unit of the file.
func wishes(w eccentric.Wish, exact, rounded eccentric.Designed, inches bool) (list, table book.Section) {
	list = book.Section{Key: "wish", List: true}
	item := book.Item{}
	add := func(name, label, unit string, wanted, reached, made book.Quantity) {
		list.Items = append(list.Items, book.Item{Values: []book.Value{
			{Key: "name", What: book.Word(name)}, {Key: "unit", What: book.Word(unit)},
			{Key: "wanted", What: wanted}, {Key: "reached", What: reached}, {Key: "rounded", What: made},
		}})
		item.Values = append(item.Values, book.Value{Key: name + ".wanted", Label: label, Column: "wanted", What: wanted},
			book.Value{Key: name + ".reached", Label: label, Column: "exact gear", What: reached},
			book.Value{Key: name + ".rounded", Label: label, Column: "gear to make", What: made})
	}
	share := func(v float64) book.Quantity { return book.Share(v, 2) }
	mm := func(l units.Length) book.Quantity {
		q := book.Number(l.MM(), 3, "mm", "")
		if inches {
			q = q.Shown(l.Text(units.Inches, 4))
		}
		return q
	}
	where := map[eccentric.End]string{
		eccentric.BothEnds: "mean of both ends", eccentric.HeadEnd: "head end", eccentric.CrankEnd: "crank end",
	}[w.CutOffAt]
	add("cut_off", "cut-off, "+where, "share", share(w.CutOff), share(exact.CutOff), share(rounded.CutOff))
	add("lead", "lead, mean", "mm", mm(w.Lead), mm(exact.Lead), mm(rounded.Lead))
	switch {
	case !w.Opening.IsZero():
		add("opening", "greatest opening, mean", "mm", mm(w.Opening), mm(exact.Opening), mm(rounded.Opening))
	case !w.Gear.Travel.IsZero():
		add("travel", "travel", "mm", mm(w.Gear.Travel), mm(exact.Gear.Travel), mm(rounded.Gear.Travel))
	default:
		port, _ := exact.Gear.Ports.At(eccentric.BothEnds)
		add("opening", "greatest opening, mean", "mm", mm(port), mm(exact.Opening), mm(rounded.Opening))
	}
	if w.Compression > 0 {
		add("compression", "compression, mean", "share", share(w.Compression), share(exact.Compression), share(rounded.Compression))
	} else {
		add("exhaust_lap", "exhaust lap, mean", "mm", mm(w.ExhaustLap), mm(exact.ExhaustLap), mm(rounded.ExhaustLap))
	}
	e, r := exact.Events, rounded.Events
	switch {
	case w.EqualLead:
		add("equal_lead", "leads, head less crank", "mm", mm(units.Length{}), mm(e.Head.Lead.Sub(e.Crank.Lead)),
			mm(r.Head.Lead.Sub(r.Crank.Lead)))
	case w.EqualCutOff:
		add("equal_cut_off", "cut-offs, head less crank", "share", share(0), share(e.Head.CutOff.Stroke-e.Crank.CutOff.Stroke),
			share(r.Head.CutOff.Stroke-r.Crank.CutOff.Stroke))
	}
	return list, book.Section{Title: "WHAT IS WANTED, AND WHAT IS REACHED", Items: []book.Item{item}}
}

// stepText writes a step as a workshop says it.
func stepText(step units.Length) string {
	if f, err := step.NearestFraction(64); err == nil && f.Rest.IsZero() && f.Den > 1 {
		return f.String()
	}
	return step.String()
}

// designed is one of the two gears: its sizes and what it does at both ends.
func designed(key, title string, d eccentric.Designed) book.Section {
	g := d.Gear
	laps := g.Laps()
	values := gearValues(g)
	if !g.Ports.Length.IsZero() {
		values = append(values, sized("port_length", "length of the ports", g.Ports.Length, ""))
	}
	values = append(values,
		book.Value{Key: "steam_lap", Label: "steam lap", What: book.Length(laps.Steam, 3)},
		book.Value{Key: "exhaust_lap", Label: "exhaust lap", What: book.Length(laps.Exhaust, 3)},
		book.Value{Key: "sheave_offset", Label: "offset of the sheave", What: book.Length(g.EccentricOffset(), 3)},
		book.Value{Key: "findings", What: book.Words(codesOf(d.Findings))},
	)
	if !d.Step.IsZero() {
		values = append(values, book.Value{Key: "step", What: book.Length(d.Step, 3)})
	}
	s := book.Section{Key: key, Title: title, Items: []book.Item{{Values: values}}}
	does := whatTheValveDoes(g, d.Events) // the keys of its values are those of the engine book
	for i, item := range does.Items {
		item.Key = "events"
		if d.Step.IsZero() {
			item.Notes = nil // told of the other
		}
		if i == 0 && !d.Step.IsZero() {
			s.Intro = append([]string{"The sizes are whole steps, and the advance a whole degree, as a protractor sets it: the best" +
				" of those round the exact gear."}, does.Intro...)
		}
		s.Items = append(s.Items, item)
	}
	return s
}

// codesOf returns the codes of findings, each once.
func codesOf(list []eccentric.Finding) []string {
	var codes []string
	told := map[finding.Code]bool{}
	for _, f := range list {
		if !told[f.Code] {
			codes = append(codes, string(f.Code))
		}
		told[f.Code] = true
	}
	return codes
}

// workingOfDesign is the way from the wish to the exact gear.
func workingOfDesign(w eccentric.Wish, d eccentric.Designed) book.Section {
	g, e := d.Gear, d.Events
	laps, r := g.Laps(), g.Travel.Scale(0.5)
	item := book.Item{}
	add := func(format string, args ...any) {
		item.Formulas = append(item.Formulas, book.Formula{Text: fmt.Sprintf(format, args...)})
	}
	lost, lostText := g.Valve.LostMotion.Scale(0.5), ""
	if !lost.IsZero() {
		lostText = " - " + plain(lost)
	}
	if w.Gear.Ports.Steam.IsZero() && w.Opening.IsZero() && w.Gear.Travel.IsZero() {
		mean := 2 * g.Stroke.Metres() * w.Speed.In(units.RevPerMinute) / 60
		add("steam port = pi/4 x bore^2 x v / (4000 ft/min) / length = pi/4 x %s^2 x %.3f / 20.32 / %s = %s mm, with the piston's mean"+
			" speed v = 2 x stroke x turns = %.3f m/s", plain(w.Bore), mean, plain(g.Ports.Length), plain(g.Ports.Steam), mean)
	}
	opens := r.Sub(laps.Steam).Sub(lost)
	if lost.IsZero() {
		add("greatest opening A = r - S = %s - %s = %s mm, of a port wide enough, with r half the travel",
			plain(r), plain(laps.Steam), plain(opens))
	} else {
		add("greatest opening A = r - S - b/2 = %s - %s%s = %s mm, of a port wide enough, with r half the travel and b the lost"+
			" motion", plain(r), plain(laps.Steam), lostText, plain(opens))
	}
	add("mean lead = r x sin d - S%s = %s x sin %s - %s%s = %s mm", map[bool]string{false: " - b/2"}[lost.IsZero()],
		plain(r), hundredths(g.Advance), plain(laps.Steam), lostText, plain(d.Lead))
	for _, end := range []struct {
		name string
		of   eccentric.EndEvents
	}{{"head", e.Head}, {"crank", e.Crank}} {
		t := end.of.CutOff.Crank
		along, lap := plain(r.Scale(math.Sin(float64(t+g.Advance)))), plain(g.LapsAt(endNamed(end.name)).Steam)
		is := ", which is S"
		if along != lap {
			is = fmt.Sprintf("; what slants, is off centre or has lost motion makes that S, %s mm", lap)
		}
		add("cut-off, %s end: t = %s, where the piston is at %.2f %% and r x sin(t + d) = %s x sin %s = %s mm%s", end.name,
			degrees(t), 100*end.of.CutOff.Stroke, plain(r), hundredths(t+g.Advance), along, is)
	}
	outer, inner := laps.Steam, laps.Exhaust
	over, within := "S", "E"
	if g.InsideAdmission {
		outer, inner, over, within = inner, outer, "E", "S"
	}
	steam, bar := g.Ports.At(eccentric.BothEnds)
	add("valve = %s + 2 bars + 2 steam ports + 2 %s = %s + 2 x %s + 2 x %s + 2 x %s = %s mm", middlePort(g), over,
		plain(g.Ports.Exhaust), plain(bar), plain(steam), signed(outer), plain(g.Valve.Length))
	add("%s = %s + 2 bars - 2 %s = %s + 2 x %s - 2 x %s = %s mm", innerEdges(g), middlePort(g), within,
		plain(g.Ports.Exhaust), plain(bar), signed(inner), plain(g.Valve.Cavity))
	if l, finite := g.EccentricRod.Length(); w.EqualLead && finite {
		if g.LeverRatio != 0 {
			l = l.Scale(math.Abs(g.LeverRatio))
		}
		across := plain(r.Scale(math.Cos(float64(g.Advance))))
		add("for equal leads the valve is off centre by l - sqrt(l^2 - (r x cos d)^2) = %s - sqrt(%s^2 - %s^2) = %s mm, on ports"+
			" that are alike", plain(l), plain(l), across, plain(g.Valve.Offset.Abs()))
	}
	if w.Gear.Ports.Exhaust.IsZero() {
		add("%s, not less than steam port + r + %s - bar = %s + %s + %s - %s = %s mm, and more by what the valve is off centre",
			middlePort(g), within, plain(steam), plain(r.Sub(lost)), signed(inner), plain(bar),
			plain(steam.Add(r).Sub(lost).Add(inner).Sub(bar)))
	}
	how := "With the angle of advance d all else follows from the lead and the opening or travel; d is found by a bracketed root," +
		" as both rods slant or a mean is wanted, and the gear is put back through the events."
	if d.Closed {
		how = "d comes by a closed form, as the crank angle of cut-off is known and the eccentric rod does not slant; the gear is put" +
			" back through the events."
	}
	item.Notes = []book.Note{{Text: how}}
	return book.Section{Key: "working", Title: "WORKING, of the exact gear", Items: []book.Item{item}}
}

func endNamed(name string) eccentric.End {
	if name == "crank" {
		return eccentric.CrankEnd
	}
	return eccentric.HeadEnd
}

// signed is plain, with a length below zero in brackets.
func signed(l units.Length) string {
	if l.Sign() < 0 {
		return "(" + plain(l) + ")"
	}
	return plain(l)
}

// toPaste is the part of an engine file that states a gear.
func toPaste(e *engine.Engine, g eccentric.Gear) book.Section {
	s := book.Section{Key: "engine_file", Title: "FOR THE ENGINE FILE, in place of what it has of these keys"}
	var lines []book.Formula
	add := func(key string, l units.Length) {
		text := l.String()
		if f, err := l.NearestFraction(64); e.Inches() && err == nil && f.Rest.IsZero() {
			text = f.String()
		}
		lines = append(lines, book.Formula{Text: fmt.Sprintf("%s = %q", key, text)})
	}
	table := func(key string) {
		s.Items = append(s.Items, book.Item{Key: key, Title: "[" + key + "]", Formulas: lines})
		lines = nil
	}
	add("steam", g.Ports.Steam)
	add("bar", g.Ports.Bar)
	add("exhaust", g.Ports.Exhaust)
	if !g.Ports.Length.IsZero() {
		add("length", g.Ports.Length)
	}
	if !g.Ports.CrankSteam.IsZero() {
		add("crank_steam", g.Ports.CrankSteam)
	}
	if !g.Ports.CrankBar.IsZero() {
		add("crank_bar", g.Ports.CrankBar)
	}
	table("ports")
	add("length", g.Valve.Length)
	add("cavity", g.Valve.Cavity)
	add("offset", g.Valve.Offset)
	if !g.Valve.CavityOffset.IsZero() {
		add("cavity_offset", g.Valve.CavityOffset)
	}
	if !g.Valve.LostMotion.IsZero() {
		add("lost_motion", g.Valve.LostMotion)
	}
	if g.InsideAdmission {
		lines = append(lines, book.Formula{Text: `admission = "inside"`})
	}
	table("valve")
	add("travel", g.Travel)
	lines = append(lines, book.Formula{Text: fmt.Sprintf("advance = %q", ratio(math.Round(g.Advance.In(units.Degree))+0)+" deg")})
	table("eccentric")
	for _, key := range []string{"motion.shims", "motion.connecting_rod_longer", "motion.eccentric_rod_longer"} {
		if e.Has(key) {
			s.Notes = append(s.Notes, "The gear is designed for the engine as it is drawn; what [motion] has of shims and of rods made"+
				" longer or shorter moves the valve after that.")
			break
		}
	}
	for _, key := range []string{"valve.length", "valve.cavity", "eccentric"} {
		if e.Has(key) {
			s.Notes = append(s.Notes, "What the file has of the valve's length and cavity and of the eccentric is not used: they are"+
				" found.")
			break
		}
	}
	if g.Ports.Length.IsZero() {
		s.Notes = append(s.Notes, "The length of the ports, across the travel, is not known here; the engine book wants it.")
	}
	return s
}
