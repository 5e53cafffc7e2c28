package pages

import (
	"context"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A SpreadQuestion is how the engines of the random run are drawn.
type SpreadQuestion struct{ Runs, Seed int }

// ReadSpread makes the book of what tolerances do to the valve gear of an engine file;
// see [SpreadFile].
func ReadSpread(name string, ask SpreadQuestion) (book.Book, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: an engine file in TOML with a table [tolerances]", err)
	}
	return SpreadFile(name, text, ask)
}

// SpreadFile makes that book from the text of the file. All that is wrong with it
// comes in one error.
func SpreadFile(name string, text []byte, ask SpreadQuestion) (book.Book, error) {
	const mostRuns = 1_000_000
	switch {
	case ask.Runs < 1 || ask.Runs > mostRuns:
		return book.Book{}, cli.Named("-runs", fail.OutOfRange("number of runs", ask.Runs, "1 to 1,000,000"))
	case ask.Seed < 0:
		return book.Book{}, cli.Named("-seed", fail.OutOfRange("seed", ask.Seed, "a whole number, not below zero"))
	}
	e, unread := engine.Parse(name, text)
	gear, err := gearOf(e)
	if err := engine.Join(unread, err, e.Cross()); err != nil {
		return book.Book{}, err
	}
	t, err := toleranced(e, gear)
	if err != nil {
		return book.Book{}, engine.Join(err)
	}
	if len(t.stated) == 0 {
		return book.Book{}, e.Errorf("tolerances", `missing; accepted: a table [tolerances], such as valve.length = "0.05 mm"`)
	}
	t.Study.Runs, t.Study.Seed = ask.Runs, uint64(ask.Seed)
	odd, err := gear.CheckProportions(*e.Cylinder.Bore)
	if err != nil {
		return book.Book{}, e.Errorf("cylinder.bore", "%v", err)
	}
	b := book.Book{
		Title: "WHAT TOLERANCES DO TO THE VALVE GEAR", From: e.Document.Name,
		Findings:    finding.ListOf(append(odd, checked(e, gear)...)),
		Precautions: eccentric.Precautions(),
	}
	if e.File.Name != "" {
		b.Title += ": " + e.File.Name
	}
	worst, err := t.Study.Worst()
	if err != nil {
		return book.Book{}, engine.Join(t.complaint(err))
	}
	bands, err := t.drawn()
	if err != nil {
		return book.Book{}, engine.Join(err)
	}
	run, err := t.Study.Random(context.Background())
	if err != nil {
		return book.Book{}, engine.Join(t.complaint(err))
	}
	held, err := t.held(false)
	if err != nil {
		return book.Book{}, engine.Join(err)
	}
	shares, err := t.shares()
	if err != nil {
		return book.Book{}, engine.Join(err)
	}
	slopes := len(held) - 2
	b.Sections = append(b.Sections, held[:slopes]...)
	b.Sections = append(b.Sections, t.worstOf(worst, bands), t.randomOf(run, ask))
	b.Sections = append(b.Sections, chancesOf(run)...)
	b.Sections = append(b.Sections, shares...)
	b.Sections = append(b.Sections, held[slopes:]...)
	return firstRead(e, b), nil
}

// worstOf is the section of the worst case.
func (t *tolerancing) worstOf(w spread.Worst, bands book.Item) book.Section {
	s := book.Section{Key: "worst", Title: "THE WORST CASE", Intro: []string{"No engine within its tolerances lies beyond these" +
		" limits, however its sizes fall together, and some come to each of them."}}
	var moments, leads, with []book.Value
	searched := false
	for i, end := range []spread.WorstEnd{w.Head, w.Crank} {
		name := []string{"head", "crank"}[i]
		for _, e := range spread.Events() {
			m := end.At(e)
			path, label := name+"."+keyOf(e.String())+".", e.String()+", "+name+" end"
			moments = append(moments, limitsOf(path, label, m)...)
			searched = searched || m.Searched
			if !m.Ever {
				continue
			}
			near, far := label+", earliest", label+", latest"
			if e != spread.CutOff {
				near, far = "", "" // what the text has no room for
			}
			with = append(with,
				t.combination(path+"crank_deg_min_with", "", m.MinCrank.With), t.combination(path+"crank_deg_max_with", "", m.MaxCrank.With),
				t.combination(path+"stroke_min_with", near, m.MinStroke.With), t.combination(path+"stroke_max_with", far, m.MaxStroke.With))
		}
		for _, l := range []struct {
			key, label string
			limits     spread.WorstLength
		}{{"lead", "lead", end.Lead}, {"opening", "opening to steam", end.Opening},
			{"exhaust_opening", "opening to exhaust", end.ExhaustOpening}} {
			label := l.label + ", " + name + " end"
			leads = append(leads,
				book.Value{Key: name + "." + l.key + "_mm_min", Label: label, Column: "from", What: t.bare(l.limits.Min.Length)},
				book.Value{Key: name + "." + l.key + "_mm_max", Label: label, Column: "to", What: t.bare(l.limits.Max.Length)})
			if l.key == "lead" {
				with = append(with,
					t.combination(name+".lead_mm_min_with", label+", least", l.limits.Min.With),
					t.combination(name+".lead_mm_max_with", label+", greatest", l.limits.Max.With))
			}
			searched = searched || l.limits.Searched
		}
	}
	s.Items = []book.Item{{Values: moments}, {Values: leads}, {Title: "What makes some of them; sizes that are not named do not matter",
		Values: with}, bands}
	if searched {
		s.Notes = []string{"With so much lost motion some of the limits are found by search and not proven."}
	}
	return s
}

// bare is a length whose key has its unit already.
func (t *tolerancing) bare(l units.Length) book.Quantity {
	return t.inUnit(book.Number(l.MM(), 3, "mm", ""), l)
}

// combination is the deviations that make a limit; without a label for programs only.
func (t *tolerancing) combination(key, label string, c spread.Combination) book.Value {
	var list, shown []string
	for _, off := range c {
		list = append(list, off.String())
		shown = append(shown, off.Dimension.String()+" "+t.signedOff(off))
	}
	text := strings.Join(shown, ", ")
	if len(list) == 0 {
		text = "as drawn"
	}
	return book.Value{Key: key, Label: label, What: book.Words(list).Shown(text)}
}

// signedOff writes a deviation to a micron, a tenth of a thou or a hundredth of a degree.
func (t *tolerancing) signedOff(off spread.Off) string {
	switch off.Dimension {
	case spread.Advance:
		return fault.Signed(off.By.Angle.Degrees(), 2) + " deg"
	case spread.LeverRatio:
		return fault.Signed(off.By.Ratio, 4)
	}
	if t.Inches() {
		return fault.Signed(off.By.Length.In(units.Thousandths), 1) + " thou"
	}
	return fault.Signed(off.By.Length.MM(), 3) + " mm"
}

// limitsOf are the limits of one event.
func limitsOf(path, label string, m spread.WorstEvent) []book.Value {
	angle := func(a units.Angle) book.Quantity { return book.Number(a.Degrees(), 2, "deg", "") }
	low, high := angle(m.MinCrank.Crank), angle(m.MaxCrank.Crank)
	near, far := book.Share(m.MinStroke.Stroke, 2), book.Share(m.MaxStroke.Stroke, 2)
	if !m.Ever {
		low, high = book.Never(low, "never"), book.Never(high, "")
		near, far = book.Never(near, ""), book.Never(far, "")
	}
	happens := book.Value{Key: path + "always", What: book.Answer(m.Always)}
	if m.Ever && !m.Always {
		happens.Label, happens.Column, happens.What = label, "", happens.What.Shown("if at all")
	}
	return []book.Value{
		{Key: path + "crank_deg_min", Label: label, Column: "crank from", What: low},
		{Key: path + "crank_deg_max", Label: label, Column: "to", What: high},
		{Key: path + "stroke_min", Label: label, Column: "piston from", What: near},
		{Key: path + "stroke_max", Label: label, Column: "to", What: far},
		happens,
	}
}

// randomOf is the section of the random run.
func (t *tolerancing) randomOf(r spread.Random, ask SpreadQuestion) book.Section {
	s := book.Section{Key: "random", Title: "ENGINES DRAWN AT RANDOM", Intro: []string{fmt.Sprintf("Of %s engines, seed %d: each"+
		" size from a normal distribution about the middle of its tolerance, which is six standard deviations wide, and again"+
		" where it is beyond. Of 100 engines 5 lie below the first figure and 5 above the last.", grouped(r.Runs), ask.Seed)}}
	values := []book.Value{{Key: "runs", What: book.Count(r.Runs)}, {Key: "seed", What: book.Count(ask.Seed)},
		{Key: "fails", What: book.Share(r.Fails, 2)}}
	var leads []book.Value
	for i, end := range []spread.EndSpread{r.Head, r.Crank} {
		name := []string{"head", "crank"}[i]
		for _, e := range spread.Events() {
			m := end.At(e)
			path, label := name+"."+keyOf(e.String())+".", e.String()+", "+name+" end"
			values = append(values, book.Value{Key: path + "occurs", What: book.Share(m.Occurs, 2)})
			for _, p := range []struct {
				at, column string
				stroke     float64
				crank      units.Angle
			}{{"p05", "5 %", m.Stroke.P05, m.Crank.P05}, {"p50", "half", m.Stroke.P50, m.Crank.P50}, {"p95", "95 %", m.Stroke.P95, m.Crank.P95}} {
				stroke, crank := book.Share(p.stroke, 2), book.Number(p.crank.Degrees(), 2, "deg", "")
				if m.Occurs == 0 {
					stroke, crank = book.Never(stroke, "never"), book.Never(crank, "never")
				}
				values = append(values,
					book.Value{Key: path + "crank_deg_" + p.at, What: crank},
					book.Value{Key: path + "stroke_" + p.at, Label: label, Column: p.column, What: stroke})
			}
		}
		for _, l := range []struct {
			key, label string
			of         spread.Percentiles[units.Length]
		}{{"lead", "lead", end.Lead}, {"opening", "opening to steam", end.Opening},
			{"exhaust_opening", "opening to exhaust", end.ExhaustOpening}} {
			label := l.label + ", " + name + " end"
			leads = append(leads,
				book.Value{Key: name + "." + l.key + "_mm_p05", Label: label, Column: "5 %", What: t.bare(l.of.P05)},
				book.Value{Key: name + "." + l.key + "_mm_p50", Label: label, Column: "half", What: t.bare(l.of.P50)},
				book.Value{Key: name + "." + l.key + "_mm_p95", Label: label, Column: "95 %", What: t.bare(l.of.P95)})
		}
	}
	s.Items = []book.Item{{Values: values}, {Values: leads, Notes: []book.Note{{
		Text: "That a tolerance is six standard deviations wide holds for a process in hand.", Refs: source.Of(source.Practice())}}}}
	return s
}

// grouped writes a number with commas between thousands.
func grouped(n int) string {
	text := fmt.Sprint(n)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}

// chancesOf says how often engines have a finding, as a list for programs and as a
// table to read.
func chancesOf(r spread.Random) []book.Section {
	list := book.Section{Key: "chance", List: true}
	table := book.Table{}
	for _, c := range r.Chances {
		list.Items = append(list.Items, book.Item{Values: []book.Value{
			{Key: "code", What: book.Word(string(c.Code))}, {Key: "chance", What: book.Share(c.Chance, 2)},
			{Key: "caution", What: book.Share(c.Caution, 2)}, {Key: "fails", What: book.Share(c.Fails, 2)},
		}})
		table.Rows = append(table.Rows, book.Row{Label: string(c.Code), Values: []book.Value{
			{Label: "of the engines", What: book.Share(c.Chance, 2)},
			{Label: "costs power", What: book.Share(c.Caution, 2)}, {Label: "will not work", What: book.Share(c.Fails, 2)},
		}})
	}
	text := book.Section{Title: "WHAT COMES OF THEM", Intro: []string{"How often the check of the gear would say it; what costs" +
		" power or is graver counts in the second column, and what stops the engine in the third, too."}}
	if len(r.Chances) == 0 {
		text.Intro = []string{"None of the engines has anything that the check of the gear would remark."}
		return []book.Section{list, text}
	}
	text.Items = []book.Item{{Tables: []book.Table{table}}}
	return []book.Section{list, text}
}

// shares say what each dimension has of the variance, as a list for programs and as
// tables to read.
func (t *tolerancing) shares() ([]book.Section, error) {
	all, err := t.Study.Shares()
	if err != nil {
		return nil, t.complaint(err)
	}
	list := book.Section{Key: "share", List: true}
	text := book.Section{Title: "WHERE THE SPREAD IS FROM", Intro: []string{"Shares of the variance of the piston's place at each" +
		" event, and of the lead, in proportion for small tolerances."}}
	tables := [2]book.Table{}
	for _, s := range all {
		name := t.says(s.Dimension).Key
		values := []book.Value{{Key: "dimension", What: book.Word(s.Dimension.String())}}
		for i, end := range []spread.EndShare{s.Head, s.Crank} {
			path := []string{"head.", "crank."}[i]
			row := book.Row{Label: name}
			for _, e := range spread.Events() {
				values = append(values,
					book.Value{Key: path + keyOf(e.String()) + ".crank", What: book.Share(end.At(e).Crank, 1)},
					book.Value{Key: path + keyOf(e.String()) + ".stroke", What: book.Share(end.At(e).Stroke, 1)})
				row.Values = append(row.Values, book.Value{Label: e.String(), What: percent(end.At(e).Stroke)})
			}
			values = append(values, book.Value{Key: path + "lead", What: book.Share(end.Lead, 1)})
			row.Values = append(row.Values, book.Value{Label: "lead", What: percent(end.Lead)})
			tables[i].Rows = append(tables[i].Rows, row)
		}
		list.Items = append(list.Items, book.Item{Values: values})
	}
	for i, name := range []string{"head", "crank"} {
		text.Items = append(text.Items, book.Item{Title: "At the " + name + " end", Tables: tables[i : i+1]})
	}
	return []book.Section{list, text}, nil
}

// percent is a share in whole per cent, to read.
func percent(share float64) book.Quantity {
	return book.Share(share, 0).Shown(fault.Decimal(100*share, 0) + " %")
}
