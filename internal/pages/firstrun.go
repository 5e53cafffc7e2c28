package pages

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units/finding"
)

// ReadFirstRun makes the book of an engine before its first run, or one that does not
// run; see [FirstRunFile]. The second file has what was read on it; blank for none.
func ReadFirstRun(name, beside string) (book.Book, error) {
	const accepted = "an engine file in TOML, such as engines/demo.toml"
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: %s", err, accepted)
	}
	var read []byte
	if beside != "" {
		if read, err = cli.ReadFile(beside, engine.Largest); err != nil {
			return book.Book{}, fmt.Errorf("%w; accepted: %s, and one with what was read on the engine", err, accepted)
		}
	}
	return FirstRunFile(name, text, beside, read)
}

// FirstRunFile makes that book from the text of the engine file and of the one beside
// it: which part is wrong by the readings that they have, what cures it, what to read
// next, and what to try on an engine with this gear, in order. All that is wrong with
// the files comes in one error.
func FirstRunFile(name string, text []byte, beside string, read []byte) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	gear, err := gearOf(e)
	problems := []error{unread, err, e.Cross()}
	seen := e.Observed()
	var unreadBeside error
	if beside != "" {
		other, bad := engine.ParseObserved(beside, read)
		unreadBeside = engine.Join(bad, seen.Beside(other))
		seen = other
	}
	readings, err := seen.Taken(e)
	unreadBeside = engine.Join(unreadBeside, err)
	problems = append(problems, unreadBeside)
	if err := engine.Join(problems...); err != nil {
		return book.Book{}, err
	}
	tolerances, err := e.Tolerances(gear)
	by, unset := settingFor(e, gear)
	if err := engine.Join(err, unset); err != nil {
		return book.Book{}, err
	}
	f := firstRun{e: e, seen: seen, made: e.PartsMade(), gear: gear, by: by}
	f.of = diagnosis.Case{Gear: gear, Readings: readings}
	for _, t := range tolerances {
		f.of.Tolerances = append(f.of.Tolerances, t.Tolerance)
	}
	return f.book()
}

// A firstRun makes the book of an engine that is tried.
type firstRun struct {
	e    *engine.Engine
	seen *engine.Observed
	made eccentric.Made
	gear eccentric.Gear // by the file
	by   setting.Setting

	of    diagnosis.Case // with the gear that was meant, where the file looks like a slip
	found diagnosis.Diagnosis
}

func (f *firstRun) book() (book.Book, error) {
	b := book.Book{Title: "BEFORE THE FIRST RUN", From: f.e.Document.Name, Precautions: addPrecautions(diagnosis.Precautions(),
		[]finding.Precaution{beforeSteam})}
	if f.e.File.Name != "" {
		b.Title += ": " + f.e.File.Name
	}
	drawing, err := f.drawing()
	if err != nil {
		return book.Book{}, err
	}
	b.Findings = drawing
	if err := f.meant(); err != nil {
		return book.Book{}, err
	}
	if f.found, err = f.of.Diagnose(); err != nil {
		return book.Book{}, err
	}
	said, err := f.verdict()
	if err != nil {
		return book.Book{}, err
	}
	b.Findings = append(b.Findings, f.findings(said)...)
	b.Sections = append(b.Sections, said.sections...)
	explained, err := f.explained()
	if err != nil {
		return book.Book{}, err
	}
	b.Sections = append(b.Sections, explained.Sections...)
	b.Findings = append(b.Findings, explained.Findings...)
	worst, _ := b.Findings.Worst()
	trials, err := firstRunOf(f.gear, worst)
	if err != nil {
		return book.Book{}, err
	}
	b.Sections = append(b.Sections, trials...)
	return firstRead(f.e, b), nil
}

// explained is what the symptoms speak for, beside the readings if there are any.
func (f *firstRun) explained() (*Page, error) {
	if !f.seen.Has("symptoms") {
		return &Page{Sections: []book.Section{{Key: "explained", List: true}}}, nil
	}
	var read *diagnosis.Diagnosis
	if len(f.of.Readings) > 0 {
		read = &f.found
	}
	return explained(f.e, f.of.Gear, f.seen.Document, f.seen.Symptoms, read)
}

// drawing is what there is to say of the gear and the piston by their sizes alone.
func (f *firstRun) drawing() (finding.List, error) {
	odd, err := f.gear.CheckProportions(*f.e.Cylinder.Bore)
	if err != nil {
		return nil, f.e.Errorf("cylinder.bore", "%v", err)
	}
	found := finding.ListOf(append(odd, checked(f.e, f.gear)...))
	room, known, err := roomOf(f.e)
	if err != nil {
		return nil, err
	}
	if known {
		found = append(found, finding.ListOf(room.Check())...)
	}
	return found, nil
}

// meant takes the gear that was most likely meant where the file looks like a slip: it
// is what the built one is compared with.
func (f *firstRun) meant() error {
	slip := slices.ContainsFunc(checked(f.e, f.gear), func(f eccentric.Finding) bool { return f.Slip })
	if !slip || len(f.of.Readings) == 0 {
		return nil
	}
	saved, err := saving(f.e, f.gear, f.made)
	if err != nil {
		return err
	}
	if len(saved.Cures) > 0 && saved.Cures[0].Restates() {
		f.of.Gear = saved.Cures[0].Gear
	}
	return nil
}

// restated reports whether the engine is compared with another gear than the file has.
func (f *firstRun) restated() bool { return f.of.Gear != f.gear }

// A saidOf is the answer to the readings, in sections, with the cures of the verdict.
type saidOf struct {
	sections []book.Section
	cures    []string
}

// leastTold is the least probability of a fault that is told beside the first ones.
const leastTold, alwaysTold = 0.001, 5

// verdict says which part is wrong.
func (f *firstRun) verdict() (saidOf, error) {
	var s saidOf
	all := book.Table{Key: "faults"}
	var likely []book.Note
	read := len(f.of.Readings) > 0
	for i, suspect := range f.found.Suspects {
		if i >= alwaysTold && suspect.Probability < leastTold {
			break
		}
		cures, err := f.cures(suspect, i == 0)
		if err != nil {
			return s, err
		}
		values := suspectValues(suspect, cures)
		if i == 0 {
			s.cures = cures
			s.sections = append(s.sections, f.said(suspect, cures, values))
		}
		all.Rows = append(all.Rows, book.Row{Values: unprinted(values)})
		if read && i < alwaysTold && (i == 0 || suspect.Probability >= leastTold) {
			likely = append(likely, book.Note{Text: fmt.Sprintf("%.1f %%: %s.", 100*suspect.Probability, suspect.Text())})
		}
	}
	told := book.Section{Top: true, Items: []book.Item{{
		Tables: []book.Table{all}, Notes: likely,
		Values: []book.Value{
			{Key: "cannot_tell", What: book.Words(f.found.CannotTell)}, {Key: "measure_again", What: book.Words(f.again())},
		},
	}}}
	if read {
		told.Title = "THE FAULTS, the most probable first"
		s.sections = append(s.sections, f.readings())
	}
	s.sections = append(s.sections, f.next()...)
	s.sections = append(s.sections, told)
	return s, nil
}

// next is what to read next.
func (f *firstRun) next() []book.Section {
	n := f.found.Next
	if n == nil {
		none := book.Value{Key: "next", What: book.Never(book.Word(""), "")}
		return []book.Section{{Top: true, Items: []book.Item{{Values: []book.Value{none}}}}}
	}
	values := []book.Value{
		{Key: "kind", What: book.Word(n.Kind.String())}, {Key: "end", What: book.Word(n.End.String())},
		{Key: "text", What: book.Word(n.Text)},
	}
	if n.Kind == diagnosis.ValveAt {
		values = append(values, book.Value{Key: "crank", What: book.Angle(n.Crank, 1)})
	}
	return []book.Section{{Key: "next", Title: "WHAT TO READ NEXT", Items: []book.Item{{Values: values, Notes: []book.Note{{Text: n.Text}}}}}}
}

// cures are the ways of putting a suspect right, as the workshop has them; of the first
// one all of them.
func (f *firstRun) cures(s diagnosis.Suspect, all bool) ([]string, error) {
	var list []eccentric.Cure
	var err error
	if all {
		list, err = f.of.Cures(s, f.made)
	} else if s.Gear != (eccentric.Gear{}) { // else there is no such gear
		list, err = s.Gear.Restored(f.of.Gear, f.made)
	}
	if err != nil {
		return nil, err
	}
	room, known, err := roomOf(f.e)
	if err != nil {
		return nil, err
	}
	texts := []string{}
	for _, c := range list {
		if known && striking(room, c) {
			continue
		}
		text := c.String()
		for _, step := range c.Steps {
			done, err := f.by.Done(step)
			if err != nil {
				return nil, err
			}
			text = strings.TrimSpace(text + " " + done)
		}
		texts = append(texts, text)
	}
	return texts, nil
}

// suspectValues are one fault, as a row of a table and as the verdict.
func suspectValues(s diagnosis.Suspect, cures []string) []book.Value {
	values := append([]book.Value{
		{Key: "fault", Label: "fault", What: book.Word(s.Fault.String())},
		{Key: "end", Label: "end", What: book.Word(s.End.String())},
	}, amountValues("", s.Part)...)
	if s.Also != nil {
		values = append(values, book.Value{Key: "also.fault", What: book.Word(s.Also.Fault.String())},
			book.Value{Key: "also.end", What: book.Word(s.Also.End.String())})
		values = append(values, amountValues("also.", *s.Also)...)
	}
	return append(values,
		book.Value{Key: "probability", Label: "probability", What: book.Share(s.Probability, 1)},
		book.Value{Key: "sure", What: book.Answer(s.Sure)},
		book.Value{Key: "odds", What: book.Number(s.Odds, 1, "", "")},
		book.Value{Key: "text", What: book.Word(s.Sentence())},
		book.Value{Key: "cures", What: book.Words(cures)})
}

func amountValues(path string, p diagnosis.Part) []book.Value {
	switch {
	case p.Fault == diagnosis.AsDrawn:
		return nil
	case p.Angle != 0 || p.AngleSD != 0:
		return []book.Value{{Key: path + "amount", What: book.Angle(p.Angle, 1)}, {Key: path + "sd", What: book.Angle(p.AngleSD, 1)}}
	}
	return []book.Value{
		{Key: path + "amount", What: book.LengthThou(p.Length, 2, 1)}, {Key: path + "sd", What: book.LengthThou(p.LengthSD, 2, 1)},
	}
}

// said is the verdict in words.
func (f *firstRun) said(s diagnosis.Suspect, cures []string, values []book.Value) book.Section {
	item := book.Item{Values: unprinted(slices.Clone(values))}
	add := func(text string) { item.Notes = append(item.Notes, book.Note{Text: text}) }
	add(f.opening(s) + s.Sentence())
	if f.restated() {
		add("The file itself looks like a slip, which is told above: the engine is compared with the gear that was most likely meant.")
	}
	if len(f.findings(saidOf{})) > 0 && len(cures) > 0 {
		add("What cures it is told above. Then take the readings again.")
		cures = nil
	}
	for i, c := range cures {
		or := "To cure it: "
		if i > 0 {
			or = "Or: "
		}
		add(or + c)
	}
	if len(cures) > 0 {
		add("Then take the readings again.")
	}
	for _, text := range f.found.CannotTell {
		add(text)
	}
	for _, text := range f.again() {
		add("Measure this one again: " + text + ".")
	}
	return book.Section{Key: "verdict", Title: "WHICH PART IS WRONG", Items: []book.Item{item}}
}

// opening says how sure it is.
func (f *firstRun) opening(s diagnosis.Suspect) string {
	switch {
	case len(f.of.Readings) == 0 && f.seen.Has("symptoms"):
		return "Nothing was read on the engine yet: what its symptoms speak for is told below. Without them one begins with: "
	case len(f.of.Readings) == 0:
		return "Nothing was read on the engine yet, and nothing is known of it; what one begins with is: "
	case s.Sure && f.found.Next != nil: // the sheave, which may stand in one of two places
		return "Sure that it is the sheave, and not yet how far it is out: take the reading below before it is turned. The more" +
			" probable: "
	case s.Sure:
		if s.Odds > 1000 {
			return "Sure, by odds of more than 1000 to 1: "
		}
		return fmt.Sprintf("Sure, by odds of %.0f to 1: ", s.Odds)
	case !f.found.Fits:
		return "Nothing that we know of explains all of these readings as well as they should be. The nearest, and not sure: "
	}
	return fmt.Sprintf("Not sure. The most probable (%.0f %%): ", 100*s.Probability)
}

// again names the readings that are to be measured again.
func (f *firstRun) again() []string {
	list := []string{}
	for _, i := range f.found.MeasureAgain {
		r := f.of.Readings[i]
		list = append(list, fmt.Sprintf("%s, read as %s", r.Name(), r.Value()))
	}
	return list
}

// readings are what was read, beside what the drawing and the verdict have for it.
func (f *firstRun) readings() book.Section {
	table := book.Table{Key: "read"}
	for _, r := range f.of.Readings {
		row := book.Row{Label: brief(r), Values: []book.Value{
			{Key: "kind", What: book.Word(r.Kind.String())}, {Key: "end", What: book.Word(r.End.String())},
			{Key: "value", Label: "read", What: book.Word(metric(r))},
		}}
		for _, of := range []struct {
			key, label string
			gear       eccentric.Gear
		}{{"drawn", "as drawn", f.of.Gear}, {"verdict", "by the verdict", f.found.Verdict().Gear}} {
			text := "none"
			if on, err := r.On(of.gear); err == nil {
				text = metric(on)
			}
			row.Values = append(row.Values, book.Value{Key: of.key, Label: of.label, What: book.Word(text)})
		}
		table.Rows = append(table.Rows, row)
	}
	return book.Section{Key: "readings", Title: "WHAT WAS READ", Items: []book.Item{{Tables: []book.Table{table}}}}
}

// brief names a reading for a table.
func brief(r diagnosis.Reading) string {
	text := map[diagnosis.Kind]string{
		diagnosis.Opening: "steam opening", diagnosis.ExhaustOpening: "exhaust opening", diagnosis.ValveAt: "valve at",
		diagnosis.OpensNext: "opens next",
	}[r.Kind]
	if text == "" {
		text = strings.ReplaceAll(r.Kind.String(), "_", "-")
	}
	if r.Kind == diagnosis.ValveAt {
		text += fmt.Sprintf(" %.0f deg", r.Crank.Degrees())
	}
	if r.End != eccentric.BothEnds {
		text += ", " + r.End.String() + " end"
	}
	return text
}

// metric is what was read, without the thou behind it.
func metric(r diagnosis.Reading) string {
	text, _, _ := strings.Cut(r.Value(), " (")
	return text
}

// findings are what the readings say, as gravely as the gear would be that they show.
func (f *firstRun) findings(said saidOf) finding.List {
	v := f.found.Verdict()
	if len(f.of.Readings) == 0 {
		return nil
	}
	of := finding.Finding{Where: "readings", Refs: practice()}
	switch {
	case !v.Sure || f.found.Next != nil:
		return nil
	case v.Fault == diagnosis.AsDrawn:
		of.Code, of.Text = StandsAsDrawn, v.Sentence()
	default:
		of.Code, of.Severity, of.Text, of.Remedies = PartIsWrong, finding.Caution, v.Sentence(), said.cures
		for _, is := range finding.ListOf(v.Gear.Check()) {
			if is.Severity == finding.Fails && !is.Slip {
				of.Severity = finding.Fails
				of.Text += " So it does not run (" + strings.ReplaceAll(string(is.Code), "-", " ") + ")."
				break
			}
		}
	}
	return finding.List{of}
}

// What the readings of [FirstRunFile] find.
const (
	PartIsWrong   finding.Code = "part-is-wrong"   // surely
	StandsAsDrawn finding.Code = "stands-as-drawn" // surely
)

// firstRunPage is the book's page of the first run.
func firstRunPage(e *engine.Engine, found finding.List) ([]book.Section, error) {
	gear, err := gearOf(e)
	if err != nil {
		return nil, err
	}
	worst, _ := found.Worst()
	return firstRunOf(gear, worst)
}

// firstRunOf is the table of what to try on an engine with this gear, in order; nothing
// with air on an engine that can hurt somebody.
func firstRunOf(g eccentric.Gear, worst finding.Severity) ([]book.Section, error) {
	trials, err := diagnosis.FirstRun(g)
	if err != nil {
		return nil, err
	}
	s := book.Section{Key: "first_run", Title: "FIRST RUN, what to try in this order", List: true}
	if worst == finding.Danger {
		s.Intro = append(s.Intro, "No air and no steam before what can hurt somebody has been put right: only what is done by hand is"+
			" told here.")
	} else if worst == finding.Fails {
		s.Intro = append(s.Intro, "Put right first what will not work. The figures are those of the gear as the file has it.")
	}
	s.Intro = append(s.Intro, "By hand first, with nothing on the engine; then low-pressure air, standing clear, with the flywheel"+
		" blocked where a reading is taken; steam last. Turn it the way it is to run.")
	for _, t := range trials {
		if worst == finding.Danger && (t.Air || t.Key == "steam") {
			continue
		}
		s.Items = append(s.Items, trialOf(len(s.Items)+1, t))
	}
	return []book.Section{s}, nil
}

// trialOf is one row of it.
func trialOf(number int, t diagnosis.Trial) book.Item {
	by := "hand"
	if t.Air {
		by = "air"
	}
	item := book.Item{
		Title: fmt.Sprintf("%d. %s", number, t.Try),
		Values: []book.Value{
			{Key: "number", What: book.Count(number)}, {Key: "key", What: book.Word(t.Key)}, {Key: "by", What: book.Word(by)},
			{Key: "try", What: book.Word(t.Try)}, {Key: "see", What: book.Word(t.See)}, {Key: "if_not", What: book.Word(t.IfNot)},
		},
	}
	if t.See != "" {
		item.Notes = append(item.Notes, book.Note{Text: "To see: " + t.See})
	}
	if t.IfNot != "" {
		item.Notes = append(item.Notes, book.Note{Text: "If not: " + t.IfNot})
	}
	return item
}
