package pages

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	lookalike "github.com/valvechest/valvechest/thread/alike"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// An AlikeQuestion asks what may take a thread's place, what becomes of a screw in
// the nut of another thread, or which thread a specimen is.
type AlikeQuestion struct {
	Thread string // to be replaced, or of the screw
	In     string // thread of the nut that the screw is tried in; blank: what may take the thread's place
	Own    string // series or threads for which there are taps and dies; blank: every parallel series for fastening

	// Of a specimen, in place of a thread.
	Pitch                 *screwcut.Lead
	Diameter              *units.Length // nil: not measured
	DiameterOff, PitchOff *units.Length // what they may be off; nil: as package alike has it
	Angle                 *units.Angle  // nil: not looked at
	Internal              bool
	Show                  int // threads at most
}

// Alike answers the question.
func Alike(ask AlikeQuestion) (book.Book, error) {
	if ask.Show < 1 {
		return book.Book{}, cli.Named("-show", fail.OutOfRange("threads", ask.Show, "1 thread or more"))
	}
	if ask.Pitch != nil {
		return identified(ask)
	}
	t, err := thread.Parse(ask.Thread)
	if err != nil {
		return book.Book{}, cli.Named("thread", err)
	}
	if ask.In != "" {
		return mated(t, ask.In)
	}
	return replaced(t, ask)
}

// replaced lists the threads that may take the place of one.
func replaced(t thread.Thread, ask AlikeQuestion) (book.Book, error) {
	var found []lookalike.Substitute
	var err error
	if strings.TrimSpace(ask.Own) == "" {
		found, err = lookalike.Substitutes(t)
	} else {
		var own []thread.Thread
		if own, err = threadsOf(ask.Own); err != nil {
			return book.Book{}, cli.Named("-own", err)
		}
		found, err = lookalike.SubstitutesAmong(t, own...)
	}
	if err != nil && ask.Own != "" && errors.Is(err, units.ErrOutOfRange) {
		return book.Book{}, cli.Named("thread, -own", err)
	}
	if err != nil {
		return book.Book{}, cli.Named("thread", err)
	}
	found = found[:min(len(found), ask.Show)]
	best := found[0]
	item := book.Item{
		Values: []book.Value{
			{Key: "thread", Label: "take", What: book.Word(best.Thread.String()), Refs: best.Refs},
			{Key: "diameter_change", Label: "diameter", What: change(best.DiameterChange)},
			{Key: "pitch_change", Label: "pitch", What: signedShare(best.PitchChange)},
			{
				Key: "clearance_hole", Label: "clearance hole", What: book.Length(best.Clearance.Hole, 2),
				Remark: best.Clearance.Class.String(), Refs: best.Clearance.Refs,
			},
			{Key: "clearance_change", Label: "hole, new less old", What: change(best.HoleChange)},
			{Key: "hexagon", Label: "hexagon, across flats", What: flatsOf(best), Refs: best.Hexagon.Refs},
			{Key: "hexagon_change", Label: "flats, new less old", What: changeOfFlats(t, best)},
			{Key: "engagement", Label: "thread engaged", What: book.Length(best.Engagement, 2), Remark: "in brass, iron or steel"},
			{Key: "wall_change", Label: "metal beside the hole", What: change(best.WallChange)},
			{Key: "area_change", Label: "strength of the screw", What: signedShare(best.AreaChange)},
			{Key: "old_in_new", Label: whereGoes(best.OldInNew, "a screw left over"), What: book.Word(best.OldInNew.String())},
			{Key: "new_in_old", Label: whereGoes(best.NewInOld, "a nut left over"), What: book.Word(best.NewInOld.String())},
		},
		Findings: best.Findings,
	}
	others := book.Table{Key: "others", Title: "Others, the nearest first, less the " + t.String() + ":"}
	for _, s := range found[1:] {
		others.Rows = append(others.Rows, book.Row{Label: s.Thread.String(), Values: []book.Value{
			{Key: "diameter_change", Label: "diameter", What: book.Signed(s.DiameterChange.MM(), 3, "mm", "mm")},
			{Key: "pitch_change", Label: "pitch", What: signedShare(s.PitchChange)},
			{Key: "clearance_hole", Label: "hole", What: book.Length(s.Clearance.Hole, 2).Millimetres()},
			{Key: "hexagon", Label: "flats", What: flatsOf(s).Millimetres()},
			{Key: "area_change", Label: "strength", What: signedShare(s.AreaChange)},
			{Key: "old_screw_in_it", Label: "old screw", What: book.Word(inAWord(s.OldInNew))},
			{Key: "it_in_old_nut", Label: "old nut", What: book.Word(inAWord(s.NewInOld))},
		}})
	}
	if len(others.Rows) > 0 {
		item.Tables = []book.Table{others}
	}
	item.Notes = []book.Note{{
		Text: "A substitute takes the place of screw, tapped hole and nut together. An old screw or nut, left over, that is " +
			"LOOSE in the new one runs in and may strip under load without warning.",
	}}
	return book.Book{
		Title:       "In place of " + t.String(),
		Sections:    []book.Section{{Key: "substitute", Items: []book.Item{item}}},
		Precautions: lookalike.Precautions(),
	}, nil
}

// threadsOf reads series and threads with commas between them.
func threadsOf(own string) ([]thread.Thread, error) {
	var all []thread.Thread
	for one := range strings.SplitSeq(own, ",") {
		series, errSeries := thread.ParseSeries(one)
		if errSeries == nil && series != thread.Special && series != thread.UNS {
			for t := range series.All() {
				if _, taper := t.Taper(); !taper {
					all = append(all, t)
				}
			}
			continue
		}
		t, errThread := thread.Parse(one)
		if errThread != nil {
			return nil, errThread
		}
		if _, taper := t.Taper(); taper {
			return nil, fail.Wrong("thread", t, "it is a taper thread", "parallel threads")
		}
		all = append(all, t)
	}
	if len(all) == 0 {
		return nil, errors.New(`no parallel threads; accepted: series or threads, such as "metric coarse" or "M3, 6 BA, 4-40"`)
	}
	return all, nil
}

func change(l units.Length) book.Quantity {
	return book.Signed(l.MM(), 3, "mm", "mm").And(book.Signed(l.Thou(), 1, "thou", ""))
}

// signedShare is a share by which something is larger, in per cent with its sign.
func signedShare(v float64) book.Quantity {
	text := fault.Signed(100*v, 1) + " %"
	if strings.Trim(text, "+-0.% ") == "" {
		text = "0.0 %"
	}
	return book.Share(v, 1).Shown(text)
}

func flatsOf(s lookalike.Substitute) book.Quantity {
	if s.Hexagon.Standard == "" {
		return book.Never(book.Length(units.Length{}, 2), "no table")
	}
	return book.Length(s.Hexagon.Flats.Max, 2)
}

func changeOfFlats(old thread.Thread, s lookalike.Substitute) book.Quantity {
	if _, err := old.Hexagon(); err != nil || s.Hexagon.Standard == "" {
		return book.Never(change(units.Length{}), "not known")
	}
	return change(s.HexagonChange)
}

// whereGoes is the label of a pair that belongs together; what becomes of another is
// in its finding.
func whereGoes(m lookalike.Mating, label string) string {
	if m.Mix() {
		return label
	}
	return ""
}

// inAWord is what becomes of a bolt in the nut of another thread.
func inAWord(m lookalike.Mating) string {
	if m.Mix() {
		return "goes"
	}
	return map[finding.Code]string{
		lookalike.Jams: "jams", lookalike.DoesNotStart: "no start", lookalike.FallsThrough: "through", lookalike.RunsLoose: "LOOSE",
	}[m.Findings[0].Code]
}

// mated is a screw in a nut, both ways round, and how to tell the two apart.
func mated(bolt thread.Thread, in string) (book.Book, error) {
	nut, err := thread.Parse(in)
	if err != nil {
		return book.Book{}, cli.Named("-in", err)
	}
	m, err := lookalike.Mate(bolt, nut)
	if err != nil {
		return book.Book{}, cli.Named("thread, -in", err)
	}
	other, err := lookalike.Mate(nut, bolt)
	if err != nil {
		return book.Book{}, cli.Named("thread, -in", err)
	}
	verdict := "do not use them together"
	if m.Mix() {
		verdict = "one thread under two names"
		if bolt == nut {
			verdict = "the same thread"
		}
	}
	never := func(text string) book.Quantity { return book.Never(book.Number(0, 1, "turns", "turns"), text) }
	item := book.Item{
		Values: []book.Value{
			{Key: "verdict", Label: "verdict", What: book.Word(verdict)},
			{Key: "screw_in_nut", What: book.Word(m.String()), Refs: m.Refs},
			{Key: "mix", What: book.Answer(m.Mix())},
			{Key: "pitch_error", Label: "lost at each turn", What: book.LengthThou(m.PitchError.Abs(), 3, 1)},
			{Key: "locks_after", Label: "locks after", What: lockingTurns(m, never)},
			{Key: "depth", Label: "share of the nut's depth that it reaches", What: book.Share(m.Depth, 0)},
			{Key: "diameter_difference", Label: "screw less nut, on the diameter", What: change(bolt.Major().Sub(nut.Major()))},
			{Key: "the_other_way", Label: "the other way round", What: book.Word(other.String())},
		},
		Findings: m.Findings,
	}
	apart := book.Table{Key: "tell_apart", Title: "To tell them apart:"}
	for _, how := range lookalike.Distinguish(bolt, nut, units.MM(0.03), bolt.Pitch().Scale(0.01)) {
		first, second := book.Length(how.First, 3).Millimetres(), book.Length(how.Second, 3).Millimetres()
		if how.Angles != [2]units.Angle{} {
			first, second = book.Angle(how.Angles[0], 1), book.Angle(how.Angles[1], 1)
		}
		apart.Rows = append(apart.Rows, book.Row{Label: how.Measure, Values: []book.Value{
			{Key: "screw", Label: bolt.String(), What: first}, {Key: "nut", Label: nut.String(), What: second},
		}})
	}
	if len(apart.Rows) > 0 {
		item.Tables = []book.Table{apart}
	}
	return book.Book{
		Title:       fmt.Sprintf("A screw of %v in a nut of %v", bolt, nut),
		Sections:    []book.Section{{Key: "mating", Items: []book.Item{item}}},
		Precautions: lookalike.Precautions(),
	}, nil
}

func lockingTurns(m lookalike.Mating, never func(string) book.Quantity) book.Quantity {
	switch {
	case m.Loosest == 0 && m.PitchError.IsZero():
		return never("never: the pitches agree")
	case m.Loosest == 0:
		return never("it does not start")
	case m.Snug == 0:
		return book.Number(m.Loosest, 1, "turns", "turns")
	}
	return book.Range(book.Number(m.Snug, 1, "turns", "turns"), book.Number(m.Loosest, 1, "turns", "turns"))
}

// identified lists the threads that a specimen may be.
func identified(ask AlikeQuestion) (book.Book, error) {
	s := lookalike.Specimen{Pitch: ask.Pitch.Length(), Internal: ask.Internal}
	part, where := "screw", "crests"
	if ask.Internal {
		part, where = "nut or tapped hole", "bore"
	}
	title := fmt.Sprintf("A %s with a pitch of %s", part, pitchText(s.Pitch))
	for flag, given := range map[string]*units.Length{"-d": ask.Diameter, "-d-off": ask.DiameterOff, "-pitch-off": ask.PitchOff} {
		if given != nil && given.Sign() <= 0 {
			return book.Book{}, cli.Named(flag, fail.OutOfRange("length", *given, "above zero"))
		}
	}
	if ask.Diameter != nil {
		s.Diameter = *ask.Diameter
		title = fmt.Sprintf("%s and %s at the %s", title, s.Diameter.Text(units.Millimetres, 3), where)
	}
	if ask.DiameterOff != nil {
		s.DiameterMayBeOff = *ask.DiameterOff
	}
	if ask.PitchOff != nil {
		s.PitchMayBeOff = *ask.PitchOff
	}
	if ask.Angle != nil {
		if *ask.Angle == 0 {
			return book.Book{}, cli.Named("-angle", fail.OutOfRange("angle", *ask.Angle, "above zero"))
		}
		s.Angle = *ask.Angle
	}
	found, err := s.Identify()
	if err != nil {
		return book.Book{}, cli.Named("specimen", err)
	}
	shown := found[:min(len(found), ask.Show)]
	item := book.Item{Values: []book.Value{
		{Key: "likeliest", Label: "likeliest", What: book.Word(found[0].Thread.String()), Refs: found[0].Refs},
		{Key: "candidates", Label: "threads that it may be", What: book.Count(len(found))},
		{Key: "pitch", What: book.LengthThou(s.Pitch, 4, 2)},
	}}
	table := book.Table{Key: "threads", Title: fmt.Sprintf("The likeliest first, %d of %d:", len(shown), len(found))}
	for _, c := range shown {
		basic := c.Thread.Major()
		if ask.Internal {
			basic = c.Thread.Minor()
		}
		row := book.Row{Label: c.Thread.String(), Values: []book.Value{
			{Key: "angle", Label: "angle", What: book.Number(c.Thread.Form().Angle().Degrees(), 1, "deg", "deg")},
			{
				Key: "pitch", Label: "pitch",
				What: book.Number(c.Thread.Pitch().MM(), 4, "mm", "mm").And(book.Number(c.Thread.TPI(), 2, "tpi", "")),
			},
			{Key: "basic_diameter", Label: "basic size", What: book.Number(basic.MM(), 3, "mm", "mm")},
		}}
		tell := []string{}
		for _, how := range c.Tell {
			tell = append(tell, how.String())
		}
		if ask.Diameter != nil {
			row.Values = append(row.Values,
				book.Value{Key: "diameter_off", Label: "yours is", What: book.Signed(c.Diameter.MM(), 3, "mm", "mm")})
			if len(tell) > 0 {
				row.Below = append(row.Below, "from "+found[0].Thread.String()+": "+strings.Join(tell, "; "))
			}
			item.Findings = append(item.Findings, c.Findings...)
		}
		row.Values = append(row.Values, book.Value{Key: "doubt", Label: "doubt", What: book.Share(c.Doubt, 0)},
			book.Value{Key: "tell", What: book.Words(tell)})
		table.Rows = append(table.Rows, row)
	}
	item.Tables = []book.Table{table}
	if ask.Diameter == nil {
		item.Notes = append(item.Notes, book.Note{
			Text: "Measure the diameter over the crests of the screw, or the bore of the nut, and give it with -d: it leaves few of them.",
		})
	}
	order := "The order is a judgement: doubt is how far off the measurements put a thread, as a share of what they may be off."
	if ask.Diameter != nil && len(found) > 1 {
		order += " The measurements under each tell it from the first."
	}
	item.Notes = append(item.Notes, book.Note{Text: order})
	return book.Book{
		Title:       title,
		Sections:    []book.Section{{Key: "identified", Items: []book.Item{item}}},
		Precautions: lookalike.Precautions(),
	}, nil
}

// pitchText is a pitch in millimetres and in threads to the inch.
func pitchText(p units.Length) string {
	return fmt.Sprintf("%s (%.4g to the inch)", p.Text(units.Millimetres, 4), 25.4/p.MM())
}
