package pages

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"github.com/valvechest/valvechest/gasket"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// A HolesQuestion asks whether a cover goes over the studs of another part.
type HolesQuestion struct {
	Cover, Chest HoleList
	Stud         *units.Length // fixed in the second part, the largest; nil: none
	Bolt         *units.Length // loose, through both, in place of studs; nil: none
	Hole         *units.Length // the smallest of the first part, where its list gives none
	SecondHole   *units.Length // the same of the second part
	StudLength   *units.Length // height where the first part sits; with Tilt
	Tilt         *units.Angle  // how far the studs may lean
	Within       *units.Length // holes farther apart are no pair; nil: half the least spacing
	Ordered      bool          // both lists have one order
	TurnOver     bool          // the first part may be turned over
	Inch         bool          // the picture is in inches
}

// A HoleList is a file with a list of holes.
type HoleList struct {
	Name string
	Text []byte
}

// Holes answers the question.
func Holes(ask HolesQuestion) (book.Book, error) {
	options, err := matchOptions(ask)
	if err != nil {
		return book.Book{}, err
	}
	hole, errHole := lengthOf("-hole", "hole", ask.Hole)
	second, errSecond := lengthOf("-second-hole", "hole", ask.SecondHole)
	cover, errCover := ask.Cover.pattern(hole)
	chest, errChest := ask.Chest.pattern(second)
	if err := errors.Join(errHole, errSecond, errCover, errChest); err != nil {
		return book.Book{}, err
	}
	m, err := gasket.Match(context.Background(), cover, chest, options)
	if err != nil {
		return book.Book{}, ask.named(err)
	}
	b := book.Book{
		Title:    fmt.Sprintf("%s, %d holes, on %s, %d holes", cli.Short(ask.Cover.Name), len(cover), cli.Short(ask.Chest.Name), len(chest)),
		Findings: m.Findings, Precautions: bolting.Precautions(),
	}
	match := holeMatch{m, options, cover, chest}
	b.Sections = []book.Section{match.verdict()}
	if len(m.Positions) > 0 {
		pairs := match.pairs()
		if pairs.Items[0].Figures, err = pictures(match.picture(ask.Inch)); err != nil {
			return book.Book{}, err
		}
		b.Sections = append(b.Sections, match.work(), pairs, match.position())
	}
	return b, nil
}

func matchOptions(ask HolesQuestion) (gasket.MatchOptions, error) {
	options := gasket.MatchOptions{Ordered: ask.Ordered, TurnOver: ask.TurnOver}
	if ask.Stud != nil && ask.Bolt != nil {
		return options, cli.ErrUsage("-stud is for studs fixed in one part, -bolt for loose bolts; accepted: one of them")
	}
	if (ask.StudLength == nil) != (ask.Tilt == nil) {
		return options, cli.ErrUsage("-stud-length and -tilt go together; accepted: both, or neither")
	}
	var errs [5]error
	options.Stud, errs[0] = lengthOf("-stud", "diameter of the studs", ask.Stud)
	options.Bolt, errs[1] = lengthOf("-bolt", "diameter of the bolts", ask.Bolt)
	options.Reach, errs[2] = lengthOf("-within", "distance", ask.Within)
	if ask.Tilt != nil {
		var height units.Length
		if height, errs[3] = lengthOf("-stud-length", "height of the studs", ask.StudLength); errs[3] == nil {
			options.Lean, errs[4] = gasket.LeanOfStud(height, *ask.Tilt)
			errs[4] = cli.Named("-tilt", errs[4])
		}
	}
	return options, errors.Join(errs[:]...)
}

// named says which flag or file an error of Match is about.
func (ask HolesQuestion) named(err error) error {
	var argument *units.ArgumentError
	if errors.As(err, &argument) {
		switch argument.Field {
		case "reach":
			return cli.Named("-within", err)
		case "first pattern", "holes of the first pattern":
			return cli.Named(cli.Short(ask.Cover.Name), err)
		case "second pattern", "holes of the second pattern":
			return cli.Named(cli.Short(ask.Chest.Name), err)
		}
	}
	return err
}

// pattern reads the list and fills in the diameter where it gives none.
func (l HoleList) pattern(diameter units.Length) (gasket.Pattern, error) {
	p, err := gasket.ReadPattern(bytes.NewReader(l.Text))
	if err != nil {
		return nil, cli.Named(cli.Short(l.Name), err)
	}
	for i := range p {
		if p[i].Diameter.IsZero() {
			p[i].Diameter = diameter
		}
	}
	return p, nil
}

// A holeMatch is two patterns and how they go together.
type holeMatch struct {
	gasket.Matching
	options      gasket.MatchOptions
	cover, chest gasket.Pattern
}

// verdict says whether it goes on, and how the room of the tightest hole and the
// one size for all come about.
func (m holeMatch) verdict() book.Section {
	goes := book.Answer(m.Goes)
	if !m.Decided && len(m.Positions) > 0 {
		goes = book.Never(goes, "no verdict")
	}
	item := book.Item{Values: []book.Value{{Key: "goes_on", Label: "goes on as it is", What: goes}}}
	if len(m.Positions) == 0 {
		return book.Section{Key: "verdict", Items: []book.Item{item}}
	}
	best := m.Positions[0]
	if m.Decided {
		tight := best.Tightest()
		a, b := m.cover[tight.First-1], m.chest[tight.Second-1]
		item.Values = append(item.Values,
			book.Value{Key: "tightest", Label: "tightest", What: book.Word("hole " + a.Name + " on " + b.Name)},
			book.Value{Key: "tightest_off", Label: "which is off by", What: book.LengthThou(tight.Distance, 3, 1)},
			book.Value{Key: "tightest_room", Label: "and has room for", What: book.LengthThou(tight.Allowance, 3, 1)},
		)
		item.Formulas = m.formulas(a, b, tight, best)
	}
	if !best.HoleForAll.IsZero() {
		item.Values = append(item.Values, book.Value{
			Key: "hole_for_all", Label: "one size for all its holes", What: book.LengthThou(best.HoleForAll, 3, 1),
		})
	}
	return book.Section{Key: "verdict", Items: []book.Item{item}}
}

func (m holeMatch) formulas(a, b gasket.Hole, tight gasket.Pair, best gasket.Position) []book.Formula {
	number := func(l units.Length) string { return l.Decimal(units.Millimetres, 3) }
	room, lean := tight.Allowance.Text(units.Millimetres, 3), ""
	if !m.options.Lean.IsZero() {
		lean = " - lean " + number(m.options.Lean)
	}
	if !m.options.Bolt.IsZero() {
		return []book.Formula{{Text: fmt.Sprintf("room = (hole %s + hole %s)/2 - bolt %s%s = %s",
			number(a.Diameter), number(b.Diameter), number(m.options.Bolt), lean, room)}}
	}
	return []book.Formula{
		{Text: fmt.Sprintf("room = (hole %s - stud %s)/2%s = %s", number(a.Diameter), number(m.options.Stud), lean, room)},
		{Text: fmt.Sprintf("one size = stud + 2 (error + lean) = %s + 2 (%s + %s) = %s", number(m.options.Stud),
			number(best.Greatest), number(m.options.Lean), best.HoleForAll.Text(units.Millimetres, 3))},
	}
}

// work lists what to do to the first part, with the next drill for a hole that is
// opened.
func (m holeMatch) work() book.Section {
	table := book.Table{Key: "to_do"}
	for _, w := range m.Work {
		size, drill := book.Never(inMM(w.Size()), ""), book.Never(book.Word(""), "")
		if w.Do != gasket.Plug {
			size = inMM(w.Size())
		}
		if next, err := gauge.Metric().AtLeast(w.Diameter); err == nil && w.Do == gasket.Open {
			drill = book.Word(next.Name)
		}
		table.Rows = append(table.Rows, book.Row{Label: w.Do.String(), Values: []book.Value{
			{Key: "hole", Label: "hole", What: nameOrNone(w.Hole)},
			{Key: "for", Label: "for", What: nameOrNone(w.Over)},
			{Key: "x", Label: "at x", What: inMM(w.At.X)},
			{Key: "y", Label: "at y", What: inMM(w.At.Y)},
			{Key: "size", Label: "size", What: size},
			{Key: "drill", Label: "next metric drill", What: drill},
			{Key: "afresh", What: book.Answer(w.Large)},
		}})
	}
	if len(table.Rows) > 0 {
		table.Title = "The least work, places and sizes in mm on the first part:"
	}
	return book.Section{Key: "work", Items: []book.Item{{Tables: []book.Table{table}}}}
}

func (m holeMatch) pairs() book.Section {
	best := m.Positions[0]
	table := book.Table{
		Key:   "pairs",
		Title: "All in mm: off is from the hole to its partner; size is what the pair needs.",
	}
	row := func(first, second string, rest ...book.Quantity) {
		off := book.Never(inMM(units.Length{}), "")
		q := []book.Quantity{off, off, off, off, off, book.Never(book.Answer(false), "")}
		copy(q, rest)
		table.Rows = append(table.Rows, book.Row{Label: shortName(first), Values: []book.Value{
			{Key: "hole", What: nameOrNone(first)},
			{Key: "on", Label: "goes on", What: nameOrNone(second)},
			{Key: "off_x", Label: "off x", What: q[0]},
			{Key: "off_y", Label: "off y", What: q[1]},
			{Key: "distance", Label: "distance", What: q[2]},
			{Key: "room", Label: "room", What: q[3]},
			{Key: "size", Label: "size", What: q[4]},
			{Key: "goes", Label: "goes", What: q[5]},
		}})
	}
	for _, p := range best.Pairs {
		q := []book.Quantity{inMM(p.Off.X), inMM(p.Off.Y), inMM(p.Distance)}
		if m.Decided {
			q = append(q, inMM(p.Allowance), inMM(p.Hole), book.Answer(p.Goes()))
		} else if !p.Hole.IsZero() {
			q = append(q, book.Never(inMM(p.Allowance), ""), inMM(p.Hole))
		}
		row(m.cover[p.First-1].Name, m.chest[p.Second-1].Name, q...)
	}
	for _, number := range best.OnlyFirst {
		row(m.cover[number-1].Name, "")
	}
	for _, number := range best.OnlySecond {
		row("", m.chest[number-1].Name)
	}
	return book.Section{Key: "pairs", Items: []book.Item{{Tables: []book.Table{table}}}}
}

func (m holeMatch) position() book.Section {
	best := m.Positions[0]
	remark := "as small as it can be"
	if m.Decided && !best.SameRoom() {
		remark = "where the tightest hole has most room left"
	}
	item := book.Item{
		Values: []book.Value{
			{Key: "turned_over", Label: "turned over", What: book.Answer(best.TurnedOver)},
			{Key: "turn", Label: "turned by", What: book.Angle(best.Turn, 4)},
			{Key: "shift_x", Label: "then moved by x", What: book.Length(best.Shift.X, 3)},
			{Key: "shift_y", Label: "and by y", What: book.Length(best.Shift.Y, 3)},
			{Key: "greatest_error", Label: "greatest error", What: book.LengthThou(best.Greatest, 3, 1), Remark: remark},
			{Key: "least_squares_error", Label: "by least squares", What: book.LengthThou(best.LeastSquares.Greatest, 3, 1)},
			{Key: "least_squares_rms", Label: "whose rms is", What: book.LengthThou(best.LeastSquares.RMS, 3, 1)},
			{Key: "positions", What: book.Count(len(m.Positions))},
		},
		Notes: []book.Note{
			{
				Text: "By a rigid turn and shift in the plane, to leave the tightest hole most room.",
				Refs: source.Of(source.Ref{Kind: source.Derived, Note: "geometry"}),
			},
			{
				Text: "A cover with a spigot is located by that and not by its studs. Measure as finely as the room that you ask " +
					"about; take the burrs off first.",
				Refs: source.Of(source.Practice()),
			},
		},
	}
	if len(m.Positions) > 1 && m.Alike < 2 {
		item.Values = append(item.Values, book.Value{
			Key: "next_position_error", Label: "greatest error of the next position", What: book.LengthThou(m.Positions[1].Greatest, 3, 1),
			Remark: fmt.Sprintf("of %d", len(m.Positions)),
		})
	}
	return book.Section{Key: "position", Items: []book.Item{item}}
}

// inMM is a length in a column of millimetres.
func inMM(l units.Length) book.Quantity { return book.Number(l.In(units.Millimetres), 3, "", "mm") }

// nameOrNone is the name of a hole; blank for a hole that is not there.
func nameOrNone(name string) book.Quantity {
	if name == "" {
		return book.Never(book.Word(""), shortName(""))
	}
	return book.Word(name).Shown(shortName(name))
}

// shortName returns a name cut to a column, a dash for none.
func shortName(name string) string {
	const wide = 8
	if name == "" {
		return "-"
	}
	letters := []rune(name)
	if len(letters) <= wide {
		return name
	}
	return string(letters[:wide-1]) + "…"
}
