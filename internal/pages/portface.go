package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/dial"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A PortFaceQuestion asks where the spindle goes to mill the ports of an engine.
type PortFaceQuestion struct {
	Cutter           units.Length
	CentreX, CentreY *units.Length // of the face from the zero of the dials or scales; nil: zero there
	Depth            *units.Length // of the ports; nil: no passes
	Screw            *units.Length // travel of a turn of the table's screws; nil: scales
	Divisions        int           // of their dials
	Past             *units.Length // how far a slide goes past before it comes back; nil: half a turn
}

// ReadPortFace answers the question for an engine file; see [PortFaceFile].
func ReadPortFace(name string, ask PortFaceQuestion) (book.Book, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: an engine file in TOML", err)
	}
	return PortFaceFile(name, text, ask)
}

// PortFaceFile answers the question for the text of an engine file.
func PortFaceFile(name string, text []byte, ask PortFaceQuestion) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	gear, err := gearOf(e)
	if err := engine.Join(unread, err, e.Cross()); err != nil {
		return book.Book{}, err
	}
	if (ask.Screw == nil) != (ask.Divisions == 0) {
		return book.Book{}, cli.ErrUsage("-screw and -divisions go together; accepted: both, or neither")
	}
	if ask.Screw == nil && ask.Past != nil {
		return book.Book{}, cli.ErrUsage("-past is for the dials; accepted: with -screw and -divisions")
	}
	cuts, err := marking.PortFace{Ports: gear.Ports, Cutter: ask.Cutter}.Cuts()
	if err != nil {
		return book.Book{}, cli.Named("-cutter", err)
	}
	b := book.Book{
		Title: fmt.Sprintf("Port face with a cutter of %v", ask.Cutter), From: e.Document.Name,
		Precautions: addPrecautions(speeds.SlotMilling.Precautions(), dial.Precautions()),
	}
	p := portFace{PortFaceQuestion: ask, ports: gear.Ports, cuts: cuts, inch: e.Inches()}
	for _, section := range []func() (book.Section, error){p.places, p.dials, p.passes} {
		s, err := section()
		if err != nil {
			return book.Book{}, err
		}
		if len(s.Items) > 0 {
			b.Sections = append(b.Sections, s)
		}
	}
	return firstRead(e, b), nil
}

// PortFace is the page of the engine book that says where the spindle goes for the
// cutter that the file mills its ports with.
func PortFace(e *engine.Engine) (*Page, error) {
	i, milled := e.PortMilling()
	if !milled || e.ValidateOperation(i) != nil { // told on the page of the operations
		return nil, nil
	}
	gear, err := gearOf(e)
	if err != nil { // told on the page of the valve
		return nil, err
	}
	ask := PortFaceQuestion{Cutter: *e.File.Operations[i].Diameter}
	cuts, err := marking.PortFace{Ports: gear.Ports, Cutter: ask.Cutter}.Cuts()
	var section book.Section
	if err != nil {
		none := book.Never(book.Length(units.Length{}, 3), "none; "+fault.Plain(err))
		section.Items = []book.Item{{Values: []book.Value{{Key: "steam", Label: "settings", What: none}}}}
	} else if section, err = (portFace{ask, gear.Ports, cuts, e.Inches()}).places(); err != nil {
		return nil, err
	}
	section.Key, section.Title = "port_face", fmt.Sprintf("PORT FACE, CUTTER %v", ask.Cutter)
	return &Page{Sections: []book.Section{section}, Precautions: dial.Precautions()}, nil
}

// A portFace is a question with its cuts.
type portFace struct {
	PortFaceQuestion
	ports eccentric.Ports
	cuts  []marking.PortCut
	inch  bool // the picture is in inches
}

// places are the settings as the scales of the table show them.
func (p portFace) places() (book.Section, error) {
	x, y := orZero(p.CentreX), orZero(p.CentreY)
	t := book.Table{Key: "ports", Title: "Middle of the spindle, mm; along from the head end to the crank end, across both ways:"}
	for _, c := range p.cuts {
		t.Rows = append(t.Rows, book.Row{Label: c.Port, Values: []book.Value{
			{Key: "port", What: book.Word(c.Port)},
			{Key: "along", What: book.Range(book.Length(c.From.Add(x), 3), book.Length(c.To.Add(x), 3))},
			{Key: "from", Label: "along, from", What: inMM(c.From.Add(x))},
			{Key: "to", Label: "to", What: inMM(c.To.Add(x))},
			{Key: "across_from", Label: "across, from", What: inMM(y.Sub(c.Across))},
			{Key: "across_to", Label: "to", What: inMM(y.Add(c.Across))},
			{Key: "one_way", Label: "one way", What: book.Answer(c.Full)},
		}})
	}
	zero := "the middle of the exhaust port"
	if p.CentreX != nil || p.CentreY != nil {
		zero = "where your dials are zero"
	}
	picture, err := pictures(p.picture(p.inch))
	if err != nil {
		return book.Section{}, err
	}
	first, values := p.cuts[0], p.fromMiddle()
	values[0].Refs = first.Refs // of the table too, where a number beside a length would read as one
	return book.Section{Key: "face", Items: []book.Item{{
		Figures: picture,
		Tables:  []book.Table{t},
		Values: append(values, book.Value{Key: "cutter", What: book.Length(p.Cutter, 3)},
			book.Value{Key: "corner", Label: "radius left in the corners", What: book.LengthThou(first.Corner, 3, 1)}),
		Formulas: []book.Formula{
			worked(source.Refs{}, func(r ruler) string {
				return fmt.Sprintf("exhaust: %s / 2 - %s / 2 = %s to either side", r.decimal(p.ports.Exhaust, 3),
					r.decimal(p.Cutter, 3), r.text(p.cuts[1].To, 3))
			}),
			worked(source.Refs{}, func(r ruler) string {
				return fmt.Sprintf("across: %s / 2 - %s / 2 = %s to either side", r.decimal(p.ports.Length, 3),
					r.decimal(p.Cutter, 3), r.text(first.Across, 3))
			}),
		},
		Notes: []book.Note{{
			Text: "Counted from " + zero + ". A cutter cuts over its size, and more in a lap: take a trial cut in scrap, measure the slot, and" +
				" count with what it cut as the cutter.",
			Refs: source.Of(source.Practice()),
		}},
	}}}, nil
}

// fromMiddle is the short answer, counted from the middle of the exhaust port.
func (p portFace) fromMiddle() []book.Value {
	var values []book.Value
	head, exhaust, crank := p.cuts[0], p.cuts[1], p.cuts[2]
	between := func(key, label string, low, high units.Length, remark string) {
		values = append(values, book.Value{
			Key: key, Label: label, Remark: remark,
			What: book.Range(book.Length(low, 3).Millimetres(), book.Length(high, 3).Millimetres()),
		})
	}
	if head.From.Add(crank.To).IsZero() && head.To.Add(crank.From).IsZero() {
		between("steam", "steam ports", crank.From, crank.To, "on either side of the middle")
	} else {
		between("head", "head end's port", head.From, head.To, "")
		between("crank", "crank end's port", crank.From, crank.To, "")
	}
	between("exhaust", "exhaust port", exhaust.From, exhaust.To, "")
	between("across", "across", head.Across.Neg(), head.Across, "")
	return values
}

// dials are the settings of the handwheels, backlash taken up one way.
func (p portFace) dials() (book.Section, error) {
	if p.Screw == nil {
		return book.Section{}, nil
	}
	screw, err := lengthOf("-screw", "travel of a turn", p.Screw)
	if err != nil {
		return book.Section{}, err
	}
	if p.Divisions < 1 || screw.Picometres()%int64(p.Divisions) != 0 {
		return book.Section{}, cli.Named("-divisions", fail.OutOfRange("divisions of the dial", p.Divisions,
			"1 or more, that divide a turn of "+screw.String()+" without a rest"))
	}
	wheel := dial.Handwheel{PerTurn: screw, Division: screw.Scale(1 / float64(p.Divisions))}
	past := screw.Scale(0.5)
	if p.Past != nil {
		past = *p.Past
	}
	var corners gasket.Pattern
	for _, c := range p.cuts {
		corners = append(corners,
			gasket.Hole{Name: c.Port, At: gasket.Point{X: c.From, Y: c.Across.Neg()}},
			gasket.Hole{Name: c.Port, At: gasket.Point{X: c.To, Y: c.Across}})
	}
	zero := gasket.Datum{Origin: gasket.Point{X: orZero(p.CentreX).Neg(), Y: orZero(p.CentreY).Neg()}}
	settings, err := dial.Table{X: wheel, Y: wheel, Overrun: past}.Set(corners, zero)
	if err != nil {
		return book.Section{}, flagged(err, map[string]string{
			"overrun": "-past", "travel per turn of the X screw": "-screw", "division of the X dial": "-divisions",
		})
	}
	t := book.Table{Key: "settings", Title: fmt.Sprintf("Turns and divisions; a turn is %v, a division %v:", screw, wheel.Division)}
	for i, s := range settings {
		side := "from"
		if i%2 == 1 {
			side = "to"
		}
		row := book.Row{Label: s.Hole + ", " + side, Values: []book.Value{
			{Key: "port", What: book.Word(s.Hole)}, {Key: "side", What: book.Word(side)},
		}}
		for _, slide := range []struct {
			key, label string
			at         dial.SlideSetting
		}{{"along", "along", s.X}, {"across", "across", s.Y}} {
			divisions := slide.at.Reading.Ratio(wheel.Division)
			text := fmt.Sprintf("%d + %.0f", slide.at.Turns, divisions)
			if slide.at.Over.Sign() > 0 {
				text += " *"
			}
			row.Values = append(row.Values,
				book.Value{Key: slide.key, Label: slide.label, What: book.Word(text)},
				book.Value{Key: slide.key + "_turns", What: book.Count(slide.at.Turns)},
				book.Value{Key: slide.key + "_divisions", What: book.Number(divisions, 0, "", "")},
				book.Value{Key: slide.key + "_comes_back", What: book.Answer(slide.at.Over.Sign() > 0)},
				book.Value{Key: slide.key + "_out", Label: "out by mm", What: inMM(slide.at.Error)})
		}
		t.Rows = append(t.Rows, row)
	}
	return book.Section{Key: "dials", Title: "BY THE DIALS OF A TABLE", Items: []book.Item{{
		Values: []book.Value{
			{Key: "turn", What: book.Length(screw, 3)}, {Key: "division", What: book.Length(wheel.Division, 3)},
			{Key: "past", What: book.Length(past, 3)},
		},
		Tables: []book.Table{t},
		Notes: []book.Note{{
			Text: fmt.Sprintf("Always come to a side from the smaller reading. Where * stands the slide has to go back: go %v past the reading, which"+
				" is to be more than the backlash of the screw, and come back up to it. Pick up the zero the same way.", past),
			Refs: source.Of(source.Practice()),
		}},
	}}}, nil
}

// passes are the depths, pass by pass.
func (p portFace) passes() (book.Section, error) {
	if p.Depth == nil {
		return book.Section{}, nil
	}
	pass, err := cutting.SlotPassFor(p.Cutter)
	if err != nil {
		return book.Section{}, cli.Named("-cutter", err)
	}
	depths, err := marking.Depths(*p.Depth, pass.Start)
	if err != nil {
		return book.Section{}, cli.Named("-depth", err)
	}
	return book.Section{Key: "passes", Title: "DEPTH AND PASSES", Items: []book.Item{{
		Values: []book.Value{
			{Key: "passes", Label: "passes", What: book.Count(len(depths)), Refs: pass.Refs},
			{Key: "each", Label: "each deeper by", What: book.LengthThou(depths[0], 3, 1)},
			{Key: "depth", Label: "to", What: book.LengthThou(*p.Depth, 3, 1)},
			{Key: "depths", What: book.Lengths(depths, 3)},
			{Key: "most", Label: "a sharp cutter stands", What: book.LengthThou(pass.Most, 3, 1), Remark: "a pass"},
		},
		Notes: []book.Note{{
			Text: "Blue the face and bring the cutter down until it just marks it: that is zero. Go down with the cutter in the middle of the" +
				" port, into a hole of the chain drill where there is one, and then round the lap.",
			Refs: source.Of(source.Practice()),
		}},
	}}}, nil
}
