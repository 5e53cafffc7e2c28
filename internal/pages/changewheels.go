package pages

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A ChangeWheelsQuestion asks how to set up a lathe for a thread.
type ChangeWheelsQuestion struct {
	Wanted                      string // a thread or a lead
	Leadscrew                   screwcut.Lead
	Own                         string // the wheels there are
	GearedDrivers, GearedDriven int    // always in the drive; zero: none
	Engaged                     units.Length
	Dial                        int               // teeth of the indicator's wheel; zero: no indicator
	Slide                       *units.Angle      // of the topslide from the line of the cross-slide; nil: the usual
	Tip                         *screwcut.ToolTip // of the tool; nil: all that people grind
	Show                        int               // trains of each kind
}

// ChangeWheels answers the question.
func ChangeWheels(ask ChangeWheelsQuestion) (book.Book, error) {
	named, lead, err := wantedLead(ask.Wanted)
	if err != nil {
		return book.Book{}, cli.Named("thread", err)
	}
	lathe := screwcut.Lathe{Leadscrew: ask.Leadscrew, GearedDrivers: ask.GearedDrivers, GearedDriven: ask.GearedDriven}
	if lathe.Wheels, err = screwcut.ParseWheels(ask.Own); err != nil {
		return book.Book{}, cli.Named("-own", err)
	}
	if ask.Show < 1 {
		return book.Book{}, cli.Named("-show", fail.OutOfRange("trains", ask.Show, "1 train or more"))
	}
	if err := fail.Above(fault.Named("length that the nut engages", ask.Engaged)); err != nil {
		return book.Book{}, cli.Named("-engaged", err)
	}
	if ask.Slide != nil && named == (thread.Thread{}) {
		return book.Book{}, cli.ErrUsage("-slide is for a thread of a known form; accepted: a thread, such as M8")
	}
	if ask.Tip != nil && named == (thread.Thread{}) {
		return book.Book{}, cli.ErrUsage("-tip is for a thread of a known form; accepted: a thread, such as M8")
	}
	if ask.Leadscrew == (screwcut.Lead{}) {
		_, err := screwcut.ParseLead("")
		return book.Book{}, cli.Named("-leadscrew", err)
	}
	trains, err := lathe.Trains(lead)
	if err != nil { // leads and wheels are as they should be
		return book.Book{}, cli.Named("-gear-drivers, -gear-driven", err)
	}
	b := book.Book{Title: fmt.Sprintf("A lead of %v from a leadscrew of %v", lead, lathe.Leadscrew), Precautions: screwcut.Precautions()}
	if named != (thread.Thread{}) {
		b.Title = fmt.Sprintf("%v, %s", named, strings.Replace(b.Title, "A", "a", 1))
	}
	if b.Findings, err = lathe.Check(trains); err != nil {
		return book.Book{}, err
	}
	nuts, err := halfNuts(ask, trains)
	if err != nil {
		return book.Book{}, err
	}
	tables, near, err := tablesOf(ask, named, trains)
	b.Findings = append(b.Findings, near...)
	if err != nil {
		return book.Book{}, cli.Named("-engaged", err)
	}
	b.Sections = []book.Section{{Key: "trains", Items: tables}, nuts}
	if named != (thread.Thread{}) {
		section, err := infeedOf(named, ask.Slide, ask.Tip)
		if err != nil {
			return book.Book{}, err
		}
		b.Sections = append(b.Sections, section)
	}
	b.Sections = append(b.Sections, driveOf(lathe, lead))
	return b, nil
}

// wantedLead reads a lead or the name of a thread; the zero Thread for a lead.
func wantedLead(wanted string) (thread.Thread, screwcut.Lead, error) {
	lead, errLead := screwcut.ParseLead(wanted)
	if errLead == nil {
		return thread.Thread{}, lead, nil
	}
	named, errThread := thread.Parse(wanted)
	if errThread == nil {
		return named, screwcut.LeadOf(named), nil
	}
	return thread.Thread{}, screwcut.Lead{}, errors.Join(errThread, errLead)
}

func millimetres(l units.Length, places int) book.Quantity {
	return book.Number(l.In(units.Millimetres), places, "mm", "mm")
}

// tablesOf lists the exact trains; the closest where the best of those does not
// mount, or where there are none.
func tablesOf(
	ask ChangeWheelsQuestion, named thread.Thread, trains screwcut.Trains,
) ([]book.Item, finding.List, error) {
	var beside book.Item
	var findings finding.List
	exact, closest := book.Table{Key: "exact"}, book.Table{Key: "closest"}
	shown := min(ask.Show, len(trains.Exact))
	if shown > 0 {
		exact.Title = fmt.Sprintf("Exact trains, %d of %d, the roomiest first; drivers over driven, from the spindle to the leadscrew:", shown, len(trains.Exact))
	}
	for _, t := range trains.Exact[:shown] {
		room, mounts := book.Never(book.Count(0), "any idler that reaches"), book.Answer(true)
		if len(t.Drivers) > 1 {
			room = book.Count(t.Room)
		}
		if len(t.Check()) > 0 {
			mounts = book.Answer(false).Shown("may foul")
		}
		exact.Rows = append(exact.Rows, book.Row{Label: t.String(), Values: append(wheelsOf(t),
			book.Value{Key: "cuts", Label: "cuts", What: millimetres(t.Cut, 6)},
			book.Value{Key: "room_teeth", Label: "teeth to spare", What: room},
			book.Value{Key: "mounts", Label: "clears studs", What: mounts},
		)})
	}
	shown = 0
	if len(trains.Exact) == 0 || len(trains.Exact[0].Check()) > 0 {
		shown = min(ask.Show, len(trains.Closest))
	}
	if shown > 0 {
		closest.Title = fmt.Sprintf("The closest trains, drivers over driven, from the spindle to the leadscrew, and their error, "+
			"cut less wanted, over %v and over the %v that the nut engages:", units.MM(100), ask.Engaged)
	}
	for i, t := range trains.Closest[:shown] {
		off, err := t.ErrorOver(ask.Engaged)
		if err != nil {
			return nil, nil, err
		}
		off100, err := t.ErrorOver(units.MM(100))
		if err != nil {
			return nil, nil, err
		}
		values := append(wheelsOf(t),
			book.Value{Key: "cuts", Label: "cuts", What: millimetres(t.Cut, 6)},
			book.Value{Key: "error", What: book.Share(t.Error, 4)},
			book.Value{Key: "error_per_100mm", Label: "over 100 mm", What: book.Signed(off100.Micron(), 1, "um", "um")},
			book.Value{
				Key: "error_engaged", Label: "engaged",
				What: book.Signed(off.Micron(), 2, "um", "um").And(book.Signed(off.Thou(), 3, "thou", "")),
			},
		)
		if named != (thread.Thread{}) {
			effect, err := screwcut.PitchErrorShare(named, off)
			if err != nil {
				return nil, nil, err
			}
			values = append(values, book.Value{
				Key: "error_on_pitch_diameter", Label: "pitch dia.", What: book.Number(effect.OnDiameter.Micron(), 2, "um", "um"),
			})
			if !effect.Tolerance.IsZero() {
				values = append(values, book.Value{Key: "share_of_tolerance", What: book.Share(effect.Share, 1)})
			}
			if i == 0 {
				beside, findings = besideTolerance(effect), effect.Findings
			}
		}
		closest.Rows = append(closest.Rows, book.Row{Label: t.String(), Values: values})
	}
	return []book.Item{{
		Values: []book.Value{{Key: "exact_trains", What: book.Count(len(trains.Exact))}},
		Tables: []book.Table{exact, closest},
	}, beside}, findings, nil
}

// besideTolerance sets the error of the closest train beside what the class allows.
func besideTolerance(p screwcut.PitchShare) book.Item {
	if p.Tolerance.IsZero() {
		return book.Item{}
	}
	return book.Item{Values: []book.Value{
		{Key: "class", What: book.Word(p.Limits.Class)},
		{
			Key: "tolerance", Label: p.Limits.Name() + " allows the pitch diameter", What: book.LengthThou(p.Tolerance, 3, 1),
			Refs: p.Refs,
		},
		{Key: "share_of_tolerance", Label: "the closest train takes of that", What: book.Share(p.Share, 1)},
	}}
}

func wheelsOf(t screwcut.Train) []book.Value {
	return []book.Value{{Key: "drivers", What: book.Counts(t.Drivers)}, {Key: "driven", What: book.Counts(t.Driven)}}
}

func halfNuts(ask ChangeWheelsQuestion, trains screwcut.Trains) (book.Section, error) {
	// A leadscrew always agrees with itself: what is wrong then is the dial.
	if _, err := screwcut.PickUpOnDial(ask.Leadscrew, ask.Leadscrew, ask.Dial); err != nil {
		return book.Section{}, cli.Named("-dial", err)
	}
	var p screwcut.PickUp
	threads, places := book.Never(book.Count(0), "never"), book.Never(book.Count(0), "never")
	travel := book.Never(millimetres(units.Length{}, 3), "never")
	if len(trains.Exact) > 0 {
		var err error
		if p, err = screwcut.PickUpOnDial(ask.Leadscrew, trains.Want, ask.Dial); err != nil {
			return book.Section{}, err
		}
		threads, travel = book.Count(p.Threads), millimetres(p.Travel, 3)
		if p.Places > 0 {
			places = book.Count(p.Places)
		}
	}
	label := "half nuts"
	if len(trains.Exact)+len(trains.Closest) == 0 {
		label = ""
	}
	return book.Section{Key: "half_nuts", Items: []book.Item{{Values: []book.Value{
		{Key: "close", Label: label, What: book.Word(p.String())},
		{Key: "threads", What: threads},
		{Key: "travel", What: travel},
		{Key: "places", What: places},
	}}}}, nil
}

// infeedOf is how deep the tool goes and how far the topslide travels for it, by the
// tip that it has, or by each that people grind where that was not said: the tool
// decides, by a quarter and more.
func infeedOf(t thread.Thread, slide *units.Angle, tip *screwcut.ToolTip) (book.Section, error) {
	set := book.Value{Key: "slide", Label: "topslide set over, from the cross-slide", Refs: source.Of(source.Practice())}
	angle := screwcut.SlideAngleFor(t)
	if slide != nil {
		angle, set.Refs = *slide, source.Refs{}
	}
	set.What = book.Number(angle.Degrees(), 2, "degrees", "deg")
	tips, err := screwcut.GroundTips(t)
	if err != nil {
		return book.Section{}, err
	}
	if tip != nil {
		tips = []screwcut.GroundTip{{Name: tip.String(), Tip: *tip}}
	}
	table := book.Table{Key: "tips", Title: fmt.Sprintf("By the tip of the tool, %v form, from the work's diameter:", t.Form())}
	var item book.Item
	travelled := book.Never(book.Length(units.Length{}, 3), "by the tip of your tool, see below")
	for i, ground := range tips {
		cut, err := ground.Tip.DepthFor(t)
		if err != nil {
			return book.Section{}, cli.Named("-tip", err)
		}
		travel, err := screwcut.InfeedAlongSlide(cut.Depth, angle)
		if err != nil {
			return book.Section{}, cli.Named("-slide", err)
		}
		if i == 0 { // the deepest: sharp, or the tip there is
			over, err := screwcut.CheckSlide(t, cut.Depth, angle)
			if err != nil {
				return book.Section{}, cli.Named("-slide", err)
			}
			item.Findings = append(item.Findings, over...)
		}
		if len(tips) == 1 {
			travelled = book.LengthThou(travel, 3, 1)
		}
		table.Rows = append(table.Rows, book.Row{Label: tipInWords(ground), Values: []book.Value{
			{Key: "tip", What: book.Word(ground.Tip.String())},
			{Key: "depth", Label: "depth", What: book.LengthThou(cut.Depth, 3, 1)},
			{Key: "travel", Label: "along the topslide", What: book.LengthThou(travel, 3, 1)},
		}})
		item.Formulas = append(item.Formulas, book.Formula{Text: fmt.Sprintf("travel = depth / cos = %s / cos %.4g = %s (%s)",
			cut.Depth.Decimal(units.Millimetres, 3), angle.Degrees(), travel.Text(units.Millimetres, 3), ground.Name)})
		item.Findings = append(item.Findings, cut.Findings...)
	}
	sharp, err := screwcut.ToolTip{}.DepthFor(t)
	if err != nil {
		return book.Section{}, err
	}
	item.Values = []book.Value{
		{Key: "travel", Label: "travel of the topslide", What: travelled},
		set,
		{Key: "depth", Label: "depth of the form", What: book.LengthThou(t.Depth(), 3, 1), Refs: t.Refs()},
		{Key: "depth_of_sharp_tool", What: book.LengthThou(sharp.Depth, 3, 1)},
		{Key: "form", What: book.Word(t.Form().String())},
	}
	item.Tables = []book.Table{table}
	if len(tips) > 1 {
		item.Notes = append(item.Notes, book.Note{
			Text: "Measure the tip of the tool and give it with -tip. It decides how deep the tool goes before the flanks are " +
				"right; try the thread in its nut, or over wires, before the last cuts.",
		})
	}
	if _, taper := t.Taper(); taper {
		item.Notes = append(item.Notes, book.Note{
			Text: "The thread tapers 1 in 16 on the diameter: set over the tailstock or a taper attachment.", Refs: t.Refs(),
		})
	}
	return book.Section{Key: "infeed", Items: []book.Item{item}}, nil
}

// tipInWords is the name of a tip with its size, to what can be seen on a tool.
func tipInWords(g screwcut.GroundTip) string {
	size := g.Tip.Flat
	if size.IsZero() {
		size = g.Tip.Radius
	}
	if size.IsZero() || g.Name == g.Tip.String() {
		return g.Name
	}
	return fmt.Sprintf("%s, %s", g.Name, size.Text(units.Millimetres, 3))
}

// driveOf is how the wanted ratio comes about.
func driveOf(lathe screwcut.Lathe, lead screwcut.Lead) book.Section {
	ratio := lead.Length().Ratio(lathe.Leadscrew.Length())
	values := []book.Value{
		{Key: "lead", Label: "lead of the screw", What: millimetres(lead.Length(), 6).And(book.Word(lead.String()))},
		{Key: "leadscrew", Label: "lead of the leadscrew", What: millimetres(lathe.Leadscrew.Length(), 6).And(book.Word(lathe.Leadscrew.String()))},
		{Key: "ratio", What: book.Number(ratio, 8, "", "")},
	}
	if lathe.GearedDrivers != 0 {
		values = append(values,
			book.Value{Key: "geared", Label: "in the lathe already", What: book.Word(fmt.Sprintf("%d/%d", lathe.GearedDrivers, lathe.GearedDriven))},
		)
	}
	return book.Section{Key: "drive", Items: []book.Item{{
		Values: append(values, book.Value{Key: "wheels", Label: "wheels there are", What: book.Counts(lathe.Wheels)}),
		Formulas: []book.Formula{{Text: fmt.Sprintf("drivers / driven = lead / leadscrew = %s / %s = %.8f",
			lead.Length().Decimal(units.Millimetres, 6), lathe.Leadscrew.Length().Decimal(units.Millimetres, 6), ratio)}},
	}}}
}
