package pages

import (
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/eccentric/marking/casting"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A CastingQuestion asks where the middle of a rough casting is and how it wobbles, from
// what a dial reads round it.
type CastingQuestion struct {
	Rim, Inside, Face, Back []units.Length

	RimDiameter, InsideDiameter *units.Length
	RimStock, InsideStock       *units.Length // on the radius
	FaceStock, BackStock        *units.Length
	InsideStays                 bool // as cast

	FaceDiameter *units.Length // of the circle on which the faces are read
	Seats        *units.Length // of that on which the jaws touch the casting; nil: the same
	Jaws         *int          // that the shims go to; nil: 4
	Pitch        *units.Length // of the jaws' screws
	Falls        bool          // the dial reads less as its plunger is pushed in
}

// Asked reports whether anything was said of a casting.
func (ask CastingQuestion) Asked() bool {
	read := ask.Rim != nil || ask.Inside != nil || ask.Face != nil || ask.Back != nil
	for _, l := range []*units.Length{ask.RimDiameter, ask.InsideDiameter, ask.RimStock, ask.InsideStock,
		ask.FaceStock, ask.BackStock, ask.FaceDiameter, ask.Seats} {
		read = read || l != nil
	}
	return read || ask.InsideStays || ask.Jaws != nil
}

// Casting answers the question.
func Casting(ask CastingQuestion) (book.Book, error) {
	if err := ask.fits(); err != nil {
		return book.Book{}, err
	}
	b := book.Book{Title: "A casting as it is held", Precautions: addPrecautions(marking.Precautions(), speeds.Turning.Precautions())}
	c := ask.casting()
	for _, part := range []struct {
		asked bool
		items func(CastingQuestion, casting.Casting) ([]book.Item, finding.List, error)
	}{{len(c.Rings) > 0, centred}, {len(c.Faces) > 0, tilted}} {
		if !part.asked {
			continue
		}
		items, found, err := part.items(ask, c)
		if err != nil {
			return book.Book{}, ask.named(err)
		}
		b.Findings = append(b.Findings, found...)
		b.Sections = append(b.Sections, book.Section{Top: true, Items: items})
	}
	if len(c.Rings) > 0 && len(c.Faces) > 0 {
		b.Sections = append(b.Sections, book.Section{Notes: []string{
			"First the shims, then the rim: a shim moves the rim too, so read it once more when they are in."}})
	}
	return b, nil
}

// fits complains of what does not go together.
func (ask CastingQuestion) fits() error {
	for _, pair := range []struct {
		flag, of string
		given    bool
		readings []units.Length
	}{
		{"-d", "-rim", ask.RimDiameter != nil, ask.Rim}, {"-stock", "-rim", ask.RimStock != nil, ask.Rim},
		{"-inside-d", "-inside", ask.InsideDiameter != nil, ask.Inside}, {"-inside-stock", "-inside", ask.InsideStock != nil, ask.Inside},
		{"-inside-stays", "-inside", ask.InsideStays, ask.Inside},
		{"-face-stock", "-face", ask.FaceStock != nil, ask.Face}, {"-back-stock", "-back", ask.BackStock != nil, ask.Back},
	} {
		if pair.given && pair.readings == nil {
			return cli.ErrUsage("%s without %s, whose readings it belongs to", pair.flag, pair.of)
		}
	}
	if ask.Face == nil && ask.Back == nil && (ask.FaceDiameter != nil || ask.Seats != nil || ask.Jaws != nil) {
		return cli.ErrUsage("-face-d, -seats or -jaws without -face or -back, whose readings they belong to")
	}
	if (ask.Face != nil || ask.Back != nil) && ask.FaceDiameter == nil {
		return cli.ErrUsage("wanted: -face-d, the diameter of the circle on which the face is read")
	}
	return nil
}

// casting is the casting that is asked of.
func (ask CastingQuestion) casting() casting.Casting {
	read := func(list []units.Length) []units.Length {
		if !ask.Falls {
			return list
		}
		turned := make([]units.Length, len(list))
		for i, l := range list {
			turned[i] = l.Neg()
		}
		return turned
	}
	sized := func(l *units.Length) units.Length {
		if l == nil {
			return units.Length{}
		}
		return *l
	}
	c := casting.Casting{FaceDiameter: sized(ask.FaceDiameter)}
	if ask.Rim != nil {
		c.Rings = append(c.Rings, casting.Ring{Readings: read(ask.Rim), Diameter: sized(ask.RimDiameter),
			Stock: ask.RimStock})
	}
	if ask.Inside != nil {
		c.Rings = append(c.Rings, casting.Ring{Readings: read(ask.Inside), Inside: true, Diameter: sized(ask.InsideDiameter),
			Stock: ask.InsideStock, Stays: ask.InsideStays})
	}
	if ask.Face != nil {
		c.Faces = append(c.Faces, casting.Face{Readings: read(ask.Face), Stock: ask.FaceStock})
	}
	if ask.Back != nil {
		c.Faces = append(c.Faces, casting.Face{Readings: read(ask.Back), Back: true, Stock: ask.BackStock})
	}
	return c
}

// named says which flag an error is about.
func (ask CastingQuestion) named(err error) error {
	flags := map[string]string{
		"diameter on which the faces are read": "-face-d", "number of jaws": "-jaws", "diameter of the seats": "-seats",
		"pitch of the jaws' screws": "-pitch", "stock": "-stock", "rings": "-rim", "faces": "-face",
	}
	for ring, names := range map[string][3]string{
		"ring 1": {"-rim", "-d", "-stock"}, "ring 1, inside": {"-inside", "-inside-d", "-inside-stock"},
		"ring 2, inside": {"-inside", "-inside-d", "-inside-stock"},
	} {
		flags[ring+", number of readings"], flags[ring+", diameter"], flags[ring+", stock"] = names[0], names[1], names[2]
		for i := range 360 {
			flags[fmt.Sprintf("%s, reading %d", ring, i+1)] = names[0]
		}
	}
	first := [2]string{"-face", "-face-stock"}
	if ask.Face == nil {
		first = [2]string{"-back", "-back-stock"}
	}
	for face, names := range map[string][2]string{"face 1": first, "face 2": {"-back", "-back-stock"}} {
		flags[face+", number of readings"], flags[face+", stock"] = names[0], names[1]
		for i := range 360 {
			flags[fmt.Sprintf("%s, reading %d", face, i+1)] = names[0]
		}
	}
	return flagged(err, flags)
}

// centred is where the middle of the rim is.
func centred(ask CastingQuestion, c casting.Casting) ([]book.Item, finding.List, error) {
	solved, err := c.Centre()
	if err != nil {
		return nil, nil, err
	}
	best, evenly := solved.Best(), "to clean up most evenly"
	if stocked(solved.Even) { // more may come off in all than by least squares
		evenly = "for most metal on its barest place"
	}
	way := evenly
	if solved.Squares {
		way = "by least squares"
	}
	item := book.Item{Values: []book.Value{
		{Key: "eccentricity", Label: "middle off the axis", What: book.LengthThou(best.Off, 3, 1), Remark: way, Refs: solved.Refs},
		{Key: "high", Label: "  its high side", What: book.Angle(best.High, 1), Remark: "from place 1 towards place 2"},
		{Key: "centre.x", Label: "  towards place 1", What: signedThou(best.X)},
		{Key: "centre.y", Label: "  a quarter turn on", What: signedThou(best.Y)},
	}}
	item.Values = append(item.Values, cleaning(best, "")...)
	names := []string{"rim", "inside"}
	if ask.Rim == nil {
		names = names[1:]
	}
	item.Values = append(item.Values, eachOf(best, names)...)
	item.Values = append(item.Values, lieBy("even", evenly, solved.Even, solved.Squares)...)
	item.Values = append(item.Values, lieBy("least_squares", "by least squares", solved.LeastSquares, !solved.Squares)...)
	pitch, err := lengthOf("-pitch", "pitch of the jaws' screws", ask.Pitch)
	if err != nil {
		return nil, nil, err
	}
	moves, err := best.Moves(pitch)
	if err != nil {
		return nil, nil, err
	}
	t := book.Table{Key: "moves", Title: "In a four-jaw chuck, held from outside, jaw 1 at place 1:"}
	for _, m := range moves {
		row := book.Row{Values: []book.Value{
			{Key: "loosen", Label: "let back", What: book.Count(m.Loosen)},
			{Key: "jaw", Label: "then in", What: book.Count(m.Jaw)},
			{Key: "mm", Label: "by, mm", What: book.Number(m.By.MM(), 3, "", "")},
			{Key: "thou", Label: "thou", What: book.Number(m.By.Thou(), 1, "", "")},
		}}
		if ask.Pitch != nil {
			row.Values = append(row.Values, book.Value{Key: "turns", Label: "turns", What: book.Number(m.Turns, 2, "", "")})
		}
		t.Rows = append(t.Rows, row)
	}
	if len(moves) == 0 {
		t.Title = "No jaw has to move."
	}
	below := book.Item{Tables: []book.Table{t}, Formulas: []book.Formula{{
		Text: "least squares: x = 2/N sum a cos, y = 2/N sum a sin, a the reading at each place"}}}
	below.Notes = []book.Note{
		{Text: "Move the casting away from its high side; on a faceplate push it there by the same. Readings of the highest and the lowest place" +
			" alone go by two grains of sand: these go by all."},
		{Text: "A wheel whose inside stays rough is set true by its inside, so that the rim comes even in thickness.", Refs: source.Of(jonesOnRims())},
	}
	return []book.Item{item, below}, solved.Findings, nil
}

func jonesOnRims() source.Ref {
	return source.Ref{Kind: source.Published, Title: "Jones, Turning and Boring", Edition: "1914, 5th printing 1919", Locator: "setting and holding work"}
}

// cleaning is what must come off, and whether the casting has it.
func cleaning(l casting.Lie, key string) []book.Value {
	cleans := book.Value{Key: key + "cleans_up", Label: "cleans up", What: book.Answer(l.CleansUp), Remark: "once that is off; no stock is given"}
	if stocked(l) {
		cleans.Remark = "with the stock given"
	}
	return []book.Value{
		{Key: key + "allowance", Label: "must come off", What: book.LengthThou(l.Allowance, 3, 1), Remark: "where it is highest, to reach the lowest"},
		cleans,
	}
}

// stocked reports whether the stock of a surface was given.
func stocked(l casting.Lie) bool {
	return slices.ContainsFunc(l.Surfaces, func(s casting.Left) bool { return s.Least != nil })
}

// eachOf is what comes off each surface, where its stock is known.
func eachOf(l casting.Lie, names []string) (values []book.Value) {
	for i, s := range l.Surfaces {
		values = append(values, book.Value{Key: names[i] + ".zone", Label: names[i] + ", highest to lowest", What: book.LengthThou(s.Zone, 3, 1)})
		if s.Least != nil {
			values = append(values,
				book.Value{Key: names[i] + ".least", Label: "  least metal on it", What: signedThou(*s.Least)},
				book.Value{Key: names[i] + ".most", Label: "  most", What: signedThou(*s.Most)})
		}
	}
	if len(values) == 1 { // said as the allowance
		values[0].Label = ""
	}
	return values
}

// lieBy is a lie under its way of finding it; in the text only where it is not that by which
// the casting is set.
func lieBy(key, way string, l casting.Lie, shown bool) []book.Value {
	values := []book.Value{
		{Key: key + ".eccentricity", Label: "off, " + way, What: book.LengthThou(l.Off, 3, 1)},
		{Key: key + ".x", What: book.Length(l.X, 3)}, {Key: key + ".y", What: book.Length(l.Y, 3)},
		{Key: key + ".high", Label: "  its high side", What: book.Angle(l.High, 1)},
		{Key: key + ".allowance", Label: "  must come off there", What: book.LengthThou(l.Allowance, 3, 1)},
		{Key: key + ".cleans_up", What: book.Answer(l.CleansUp)},
	}
	if stocked(l) {
		values[len(values)-1].Label = "  cleans up there"
	}
	for i := range values {
		if !shown {
			values[i].Label = ""
		}
	}
	return values
}

func signedThou(l units.Length) book.Quantity {
	return book.Signed(l.MM(), 3, "mm", "mm").And(book.Signed(l.Thou(), 1, "thou", ""))
}

// tilted is how the faces stand out of square, with the shims.
func tilted(ask CastingQuestion, c casting.Casting) ([]book.Item, finding.List, error) {
	solved, err := c.Tilt()
	if err != nil {
		return nil, nil, err
	}
	jaws := 4
	if ask.Jaws != nil {
		jaws = *ask.Jaws
	}
	seats := *ask.FaceDiameter
	if ask.Seats != nil {
		seats = *ask.Seats
	}
	shims, err := solved.Shims(jaws, seats)
	if err != nil {
		return nil, nil, err
	}
	names := []string{"face", "back"}
	if ask.Face == nil {
		names = names[1:]
	}
	best := solved.Even
	item := book.Item{Values: append([]book.Value{
		{Key: "wobble.eccentricity", Label: "face out of square", What: book.LengthThou(best.Off, 3, 1), Remark: "either way, on " + ask.FaceDiameter.String(),
			Refs: solved.Refs},
		{Key: "wobble.high", Label: "  stands out at", What: book.Angle(best.High, 1), Remark: "from place 1 towards place 2"},
	}, append(cleaning(best, "wobble."), eachOf(best, names)...)...)}
	t := book.Table{Key: "shims", Title: fmt.Sprintf("Shims between the casting and the jaws, which touch it on %s; jaw 1 at place 1:", seats)}
	for i, s := range shims {
		t.Rows = append(t.Rows, book.Row{Values: []book.Value{
			{Key: "jaw", Label: "jaw", What: book.Count(i + 1)},
			{Key: "shim", Label: "shim", What: book.LengthThou(s, 2, 1)},
		}})
	}
	item.Tables = []book.Table{t}
	return []book.Item{item}, solved.Findings, nil
}
