package pages

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A ChuckQuestion asks how work is set in a chuck.
type ChuckQuestion struct {
	Blank, Offset *units.Length
	Travel        *units.Length // in place of the offset
	Speed         *units.RotationalSpeed
	Range         *units.Length // of the dial
	Mass          *units.Mass   // of the work
	WeightAt      *units.Length // from the axis, of what balances it

	// Of a three-jaw chuck.
	Jaw     units.Length // width of the flat faces of the jaws; zero: narrow
	Opens   units.Length // the largest diameter that the jaws may grip; zero: not given
	Packing *units.Length
	Reads   *units.Length // that the dial goes over in a turn

	// Of a four-jaw chuck.
	Dial        []units.Length
	Pitch       *units.Length // of the jaws' screws
	Falls, Bore bool
	Towards     *int

	Engine string // name of the file of the engine whose sheave it is; blank: none
	Inch   bool   // pictures are in inches, where no engine decides
}

// Chuck answers the question.
func Chuck(ask ChuckQuestion) (book.Book, error) {
	of, err := offsetOf(ask.Engine, &ask.Offset, ask.Travel)
	if err != nil {
		return book.Book{}, err
	}
	if err := ask.together(); err != nil {
		return book.Book{}, err
	}
	b, err := ask.set(of)
	if err != nil || of == nil {
		return b, err
	}
	return firstRead(of.e, b), nil
}

// set is how it is set.
func (ask ChuckQuestion) set(of *sheaveOf) (book.Book, error) {
	switch {
	case ask.Dial != nil:
		return fourJaw(ask, of)
	case ask.Blank == nil && of != nil && ask.Reads != nil:
		return of.cameOut(ask)
	case ask.Blank == nil:
		return book.Book{}, cli.ErrUsage(`wanted: -blank with -offset or an engine file, for the packing under a jaw; or -dial "0 12 30 20 thou"`)
	case ask.Offset == nil:
		return book.Book{}, cli.ErrUsage("wanted: -offset, -travel or an engine file, beside -blank")
	}
	return threeJaw(ask, of)
}

// together refuses flags that do not go with what is asked.
func (ask ChuckQuestion) together() error {
	three := ask.Dial == nil && ask.Blank != nil
	for _, f := range []struct {
		given bool
		flag  string
		goes  bool
		with  string
	}{
		{!ask.Jaw.IsZero(), "-jaw", three, "-blank, without -dial"},
		{!ask.Opens.IsZero(), "-opens", three, "-blank, without -dial"},
		{ask.Packing != nil, "-packing", three, "-blank, without -dial"},
		{ask.Reads != nil, "-reads", ask.Dial == nil, "-blank or an engine file, without -dial"},
		{ask.Pitch != nil, "-pitch", ask.Dial != nil, "-dial"},
		{ask.Falls, "-falls", ask.Dial != nil, "-dial"},
		{ask.Bore, "-bore", ask.Dial != nil, "-dial"},
		{ask.Towards != nil, "-towards", ask.Dial != nil && ask.Offset != nil, "-dial and -offset"},
		{ask.Range != nil, "-range", ask.Blank != nil && ask.Offset != nil, "-blank and -offset"},
		{ask.Speed != nil, "-n", ask.Offset != nil && (three || ask.Dial != nil), "-offset and -blank or -dial"},
		{ask.Mass != nil, "-mass", ask.Offset != nil && (three || ask.Dial != nil), "-offset and -blank or -dial"},
		{ask.WeightAt != nil, "-weight-at", ask.Mass != nil, "-mass"},
	} {
		if f.given && !f.goes {
			return cli.ErrUsage("%s goes for nothing here; accepted: with %s", f.flag, f.with)
		}
	}
	if ask.Pitch != nil && ask.Pitch.Sign() <= 0 {
		return cli.Named("-pitch", fmt.Errorf("%v: out of range; accepted: above zero", *ask.Pitch))
	}
	if ask.Towards != nil && (*ask.Towards < 1 || *ask.Towards > 4) {
		return cli.Named("-towards", fmt.Errorf("%d: out of range; accepted: jaw 1, 2, 3 or 4", *ask.Towards))
	}
	return nil
}

// threeJaw is the packing under one jaw, and once the dial was on the blank what to
// change of it.
func threeJaw(ask ChuckQuestion, of *sheaveOf) (book.Book, error) {
	chuck := marking.ThreeJaw{Blank: *ask.Blank, Offset: *ask.Offset, Jaw: ask.Jaw, Opens: ask.Opens}
	packing, err := chuck.Packing()
	if err != nil {
		return book.Book{}, flagged(err, chuckFlags)
	}
	jaws := "narrow jaws; give yours with -jaw"
	if !ask.Jaw.IsZero() {
		jaws = fmt.Sprintf("jaws %s wide", ask.Jaw)
	}
	answer := []book.Value{
		{Key: "packing", Label: "packing under one jaw", What: book.LengthThou(packing.Thickness, 3, 1), Remark: jaws, Refs: packing.Refs},
		{Key: "packing_wide", Label: "under wide flat jaws", What: book.LengthThou(packing.Wide, 3, 1),
			Remark: fmt.Sprintf("from %s on", packing.WideFrom.Text(units.Millimetres, 2))},
		{Key: "reading", Label: "a dial goes over", What: book.LengthThou(chuck.Offset.Scale(2), 3, 1), Remark: "and the valve, without a lever"},
		perOffset("packing for 1 %s more offset", packing, of.inches(ask.Inch)),
		{Key: "jaws_grip", Label: "jaws stand as for work of", What: book.LengthThou(packing.JawsGrip, 1, 0)},
	}
	b := book.Book{Title: fmt.Sprintf("%s off centre on %s, in a three-jaw chuck", chuck.Offset, chuck.Blank)}
	if b.Findings, err = chuck.Check(); err != nil {
		return book.Book{}, flagged(err, chuckFlags)
	}
	if ask.Reads != nil {
		used := packing.Thickness
		if ask.Packing != nil {
			used = *ask.Packing
		}
		changed, err := corrected(chuck, used, *ask.Reads)
		if err != nil {
			return book.Book{}, flagged(err, chuckFlags)
		}
		answer = append(changed, answer...)
	} else if ask.Packing != nil {
		gives, err := chuck.OffsetFor(*ask.Packing)
		if err != nil {
			return book.Book{}, flagged(err, chuckFlags)
		}
		answer = append([]book.Value{
			{Key: "gives", Label: "that packing gives an offset of", What: book.LengthThou(gives, 3, 1)},
		}, answer...)
	}
	item := book.Item{Values: answer, Formulas: []book.Formula{packingFormula(chuck, packing)}}
	if item.Figures, err = pictures(threeJawPicture(chuck, packing, of.inches(ask.Inch))); err != nil {
		return book.Book{}, err
	}
	b.Sections = []book.Section{{Top: true, Items: []book.Item{item}}}
	if of != nil {
		b.From = of.e.Document.Name
		made, label := of.byThou()
		if ask.Reads != nil {
			made, label = []units.Length{ask.Reads.Scale(0.5)}, []string{"as it is"}
		}
		turned, found, err := of.turned(made, label)
		if err != nil {
			return book.Book{}, err
		}
		b.Findings = append(b.Findings, found...)
		b.Sections = append(b.Sections, turned)
	}
	return setOver(b, ask, chuck.Offset, &chuck.Blank)
}

// perOffset is how much more packing goes with more offset.
func perOffset(label string, p marking.Packing, inch bool) book.Value {
	small := "mm"
	if inch {
		small = "thou"
	}
	what := book.Number(p.PerOffset, 2, "", "").Shown(fmt.Sprintf("%.2f %s", p.PerOffset, small))
	return book.Value{Key: "factor", Label: fmt.Sprintf(label, small), What: what}
}

// corrected is what to change of the packing after a turn by the dial.
func corrected(chuck marking.ThreeJaw, used, reads units.Length) ([]book.Value, error) {
	c, err := chuck.Correct(used, reads)
	if err != nil {
		return nil, err
	}
	way := "thicker"
	if c.Change.Sign() < 0 {
		way = "thinner"
	}
	if c.Change.IsZero() {
		way = "it is right"
	}
	return []book.Value{
		{Key: "packing_change", Label: "change the packing by", What: signedThou(c.Change), Remark: way},
		{Key: "packing_needed", Label: "to", What: book.LengthThou(c.Packing, 3, 1), Remark: "in place of " + used.Text(units.Millimetres, 3)},
		{Key: "offset_is", Label: "the offset is", What: book.LengthThou(c.Offset, 3, 1), Remark: "half of what the dial went over"},
		missing("still missing of it", c.Missing),
	}, nil
}

// missing is what an offset has too little of; where it has too much, its remark says so.
func missing(label string, l units.Length) book.Value {
	v := book.Value{Key: "offset_missing", Label: label, What: signedThou(l)}
	if l.Sign() < 0 {
		v.Remark = "below zero: it is too large"
	}
	return v
}

func packingFormula(chuck marking.ThreeJaw, p marking.Packing) book.Formula {
	return worked(p.Refs, func(r ruler) string {
		half := r.plain(chuck.Blank.Scale(0.5))
		u := fmt.Sprintf("u = e sin 60° - jaw / 2 = %s %s", r.plain(p.Beside), r.unit())
		if p.Beside.IsZero() {
			u = "u = 0, as the flat of the jaws touches"
		}
		return fmt.Sprintf("packing = 1.5 e + sqrt(R^2 - u^2) - R = 1.5 x %s + sqrt(%s^2 - %s^2) - %s = %s %s, with %s",
			r.plain(chuck.Offset), half, r.plain(p.Beside), half, r.plain(p.Thickness), r.unit(), u)
	})
}

// setOver adds to a book what the dial and the spindle can do with work off centre.
func setOver(b book.Book, ask ChuckQuestion, offset units.Length, diameter *units.Length) (book.Book, error) {
	off, limit, err := speedsOff(offset)
	if err != nil {
		return book.Book{}, flagged(err, chuckFlags)
	}
	item := book.Item{Values: off}
	if ask.Speed != nil {
		found, err := marking.TooFast(offset, *ask.Speed)
		if err != nil {
			return book.Book{}, flagged(err, chuckFlags)
		}
		b.Findings = append(b.Findings, found...)
	}
	values, err := outOfBalance(ask, offset, limit.Speed)
	if err != nil {
		return book.Book{}, err
	}
	item.Values = append(item.Values, values...)
	if ask.Range != nil {
		sweep, err := marking.Dial{Range: *ask.Range, Offset: offset, Diameter: *diameter}.Sweep()
		if err != nil {
			return book.Book{}, flagged(err, chuckFlags)
		}
		item.Values = append(item.Values, shortDial(sweep)...)
		if sweep.Short {
			item.Notes = append(item.Notes, book.Note{Text: shortDialSaid(sweep, *ask.Range)})
		}
	}
	b.Sections = append(b.Sections, book.Section{Key: "set_over", Title: "SET OVER", Items: []book.Item{item}})
	b.Precautions = addPrecautions(b.Precautions, append(marking.Precautions(), speeds.Turning.Precautions()...))
	return b, nil
}

// speedsOff are the speeds of work off centre: up to which it goes without a weight against
// it, and the limit.
func speedsOff(offset units.Length) ([]book.Value, speeds.Limit, error) {
	steady, err := marking.SteadySpeed(offset)
	if err != nil {
		return nil, speeds.Limit{}, err
	}
	limit, err := marking.SpeedLimit(offset)
	if err != nil {
		return nil, speeds.Limit{}, err
	}
	floor := func(l speeds.Limit) book.Quantity { // what is shown is not above the limit
		n := l.Speed.In(units.RevPerMinute)
		return book.Number(n, 0, "rev/min", "rev_min").Shown(fmt.Sprintf("%.0f rev/min", math.Floor(n)))
	}
	return []book.Value{
		{Key: "speed_steady", Label: "unbalanced, keep below", What: floor(steady), Refs: source.Of(steady.Ref), Remark: "slower if anything trembles"},
		{Key: "speed_limit", Label: "never faster than", What: floor(limit), Refs: source.Of(limit.Ref), Remark: "balance it long before"},
	}, limit, nil
}

// shortDial are the blocks that help a dial whose range is short.
func shortDial(s marking.Sweep) []book.Value {
	if !s.Short {
		return []book.Value{{Key: "dial_reaches", Label: "dial reaches that far", What: book.Answer(true)}}
	}
	return []book.Value{
		{Key: "dial_reaches", Label: "dial reaches that far", What: book.Answer(false)},
		{Key: "block", Label: "block under the plunger", What: book.Range(book.LengthThou(s.Min, 2, 0), book.LengthThou(s.Max, 2, 0)), Remark: "on the low side"},
		{Key: "dial_follows", Label: "dial follows by itself", What: book.Angle(s.Turn, 0), Remark: "either way from the high side"},
	}
}

func shortDialSaid(s marking.Sweep, dialRange units.Length) string {
	return fmt.Sprintf("The dial goes over %s and this work over %s. Set it to nothing on the high side, turn the chuck by hand to the low side, the motor"+
		" isolated and the plunger held back, and let it down on a block of known size: the block and what the dial shows below nothing are together twice the"+
		" offset. Or, with the dial on the cross slide, wind the slide in by %s, twice that on a wheel"+
		" that reads diameters, with its play taken up one way: it must show nothing again.",
		dialRange, s.Reading.Text(units.Millimetres, 2), s.Reading.Text(units.Millimetres, 3))
}

// chuckFlags are the flags of what the package refuses.
var chuckFlags = map[string]string{
	"blank": "-blank", "offset": "-offset", "width of the jaws": "-jaw", "opening of the chuck": "-opens", "packing": "-packing",
	"reading": "-reads", "readings": "-dial", "diameter of the work": "-blank", "pitch of the jaws' screws": "-pitch",
	"jaw towards which the work is set over": "-towards", "range of the dial": "-range", "speed": "-n",
}

// fourJaw is the moves of the jaws after readings of a dial.
func fourJaw(ask ChuckQuestion, of *sheaveOf) (book.Book, error) {
	chuck := marking.FourJaw{Readings: ask.Dial, Falls: ask.Falls, Bore: ask.Bore}
	if ask.Towards != nil {
		chuck.Towards = *ask.Towards
	}
	if ask.Blank != nil {
		chuck.Diameter = *ask.Blank
	}
	if ask.Pitch != nil {
		chuck.Pitch = *ask.Pitch
	}
	if ask.Offset != nil {
		chuck.Offset = *ask.Offset
	}
	solved, err := chuck.Solve()
	if err != nil {
		return book.Book{}, flagged(err, chuckFlags)
	}
	b := book.Book{
		Title: fmt.Sprintf("Four-jaw chuck, %d readings", len(ask.Dial)),
		Sections: []book.Section{
			{Top: true, Items: []book.Item{{Tables: []book.Table{movesOf(solved, ask.Pitch != nil, of.inches(ask.Inch))}}}},
			{Top: true, Items: []book.Item{stands(solved, ask)}},
		},
	}
	if of != nil {
		b.From = of.e.Document.Name
	}
	first := b.Sections[0].Items
	if first[0].Figures, err = pictures(ask.fourJawPicture(chuck, solved, of.inches(ask.Inch)).picture()); err != nil {
		return book.Book{}, err
	}
	if !chuck.Offset.IsZero() {
		b.Title += ", to " + chuck.Offset.String() + " off centre"
		return setOver(b, ask, chuck.Offset, ask.Blank)
	}
	b.Precautions = addPrecautions(marking.Precautions(), speeds.Turning.Precautions())
	return b, nil
}

// fourJawPicture is the picture of it.
func (ask ChuckQuestion) fourJawPicture(chuck marking.FourJaw, solved marking.Trued, inch bool) fourJawPicture {
	return fourJawPicture{
		diameter: chuck.Diameter, readings: ask.Dial, moves: solved.Moves, offset: chuck.Offset,
		towards: max(1, chuck.Towards), turns: ask.Pitch != nil, inch: inch,
	}
}

// movesOf are the moves of the jaws, in their order.
func movesOf(solved marking.Trued, turns, inch bool) book.Table {
	moves := book.Table{Key: "moves", Title: "What the jaws do, one pair after the other; mm, and thou"}
	if inch {
		moves.Title = "What the jaws do, one pair after the other; thou, and mm"
	}
	bare := func(v float64, places int) book.Quantity { return book.Number(v, places, "", "") }
	mm := func(l units.Length) string { return l.Decimal(units.Millimetres, 3) }
	for i, m := range solved.Moves {
		by := []book.Value{
			{Key: "mm", Label: "by", What: bare(m.By.MM(), 3)}, {Key: "thou", Label: "thou", What: bare(m.By.Thou(), 1)},
		}
		reads := []book.Value{
			{Key: "reads", Label: "dial there", What: book.Length(m.Reads, 3).Shown(mm(m.Reads))},
			{Key: "opposite_reads", Label: "opposite", What: book.Length(m.Opposite, 3).Shown(mm(m.Opposite))},
			{Key: "opposite_reads_thou", What: bare(m.Opposite.Thou(), 1)},
			{Key: "reads_thou", Label: "there, thou", What: bare(m.Reads.Thou(), 1)},
		}
		if inch {
			by = []book.Value{
				{Key: "thou", Label: "by", What: bare(m.By.Thou(), 1)}, {Key: "mm", Label: "mm", What: bare(m.By.MM(), 3)},
			}
			reads = []book.Value{
				{Key: "reads_thou", Label: "dial there", What: bare(m.Reads.Thou(), 1)},
				{Key: "opposite_reads_thou", Label: "opposite", What: bare(m.Opposite.Thou(), 1)},
				{Key: "reads", What: book.Length(m.Reads, 3)}, {Key: "opposite_reads", What: book.Length(m.Opposite, 3)},
			}
		}
		values := append([]book.Value{
			{Key: "loosen", Label: "let back", What: book.Count(m.Loosen)}, {Key: "jaw", Label: "then in", What: book.Count(m.Jaw)},
		}, by...)
		if turns {
			values = append(values, book.Value{Key: "turns", Label: "turns", What: bare(m.Turns, 2)})
		}
		moves.Rows = append(moves.Rows, book.Row{Label: fmt.Sprintf("%d.", i+1), Values: append(values, reads...)})
	}
	if len(moves.Rows) == 0 {
		moves.Title = "No jaw has to move."
	}
	return moves
}

// stands is how the work stands in the chuck.
func stands(solved marking.Trued, ask ChuckQuestion) book.Item {
	highest := fmt.Sprintf("highest at %.0f deg", solved.High.Degrees())
	if solved.Eccentricity.IsZero() { // nowhere
		highest = ""
	}
	item := book.Item{Values: []book.Value{
		{Key: "eccentricity", Label: "it stands off centre", What: book.LengthThou(solved.Eccentricity, 3, 1), Remark: highest},
		{Key: "high", What: book.Angle(solved.High, 1)},
		{Key: "reading", Label: "a dial goes over", What: book.LengthThou(solved.Reading, 3, 1), Remark: "were it round"},
		{Key: "out_of_round", Label: "left when it runs true", What: book.LengthThou(solved.OutOfRound, 3, 1), Remark: "out of round"},
	}}
	if len(ask.Dial) == 4 && ask.Offset == nil {
		item.Formulas = []book.Formula{{Text: "each pair moves half the difference of its two readings; the dial goes over" +
			" twice the square root of the sum of both moves squared"}}
	}
	how := "The dial reads more as its plunger is pushed in, so the high jaw goes in."
	if ask.Falls {
		how = "The dial reads less as its plunger is pushed in, so the jaw with the low reading goes in."
	}
	if ask.Bore {
		how += " In a bore it is the other way round."
	}
	if len(ask.Dial) > 4 {
		how += " The jaws are at the first reading, and a quarter, half and three quarters of the way round."
	}
	notes := []string{how + " Let the one jaw back by its turns first, then bring the other up; nip both, and read again.",
		"Running true within 1 thou on the dial is common practice for a sheave. That a jaw is moved by 30 per cent of the whole reading is a guard" +
			" where the high place lies between two jaws; by pairs it is half of their difference."}
	if ask.Blank == nil && ask.Offset == nil {
		notes = append(notes, "Give the diameter with -blank where the work stands far off centre: part of what is left is then no fault of the work.")
	}
	for _, n := range notes {
		item.Notes = append(item.Notes, book.Note{Text: n})
	}
	return item
}
