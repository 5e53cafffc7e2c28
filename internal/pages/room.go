package pages

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// drawnGear returns the gear before anything was altered; the gear of the page of
// the valve, which tells what is wrong with the file, is that after it.
func drawnGear(e *engine.Engine) (eccentric.Gear, error) {
	gear, err := gearOf(e)
	if err != nil {
		return eccentric.Gear{}, err
	}
	return gear.Altered(e.Alteration().Undone())
}

// roomOf returns the room of the piston as it stands, after what has been altered;
// false where the file says nothing of it.
func roomOf(e *engine.Engine) (eccentric.Room, bool, error) {
	drawn, ok, err := roomDrawn(e)
	if !ok || err != nil {
		return eccentric.Room{}, false, err
	}
	room, err := drawn.Altered(e.Alteration())
	return room, err == nil, roomError(e, err)
}

// roomDrawn returns it before anything was altered.
func roomDrawn(e *engine.Engine) (eccentric.Room, bool, error) {
	gear, err := drawnGear(e)
	if err != nil {
		return eccentric.Room{}, false, err
	}
	room, ok := e.Room(gear)
	if !ok {
		return eccentric.Room{}, false, nil
	}
	if err := room.Validate(); err != nil {
		return eccentric.Room{}, false, roomError(e, err)
	}
	if head := e.Cylinder.HeadClearance; head != nil {
		if room, err = room.WithHeadClearance(*head); err != nil {
			return eccentric.Room{}, false, roomError(e, err)
		}
	}
	return room, true, nil
}

// roomKeys are the keys of what package eccentric names in the errors of a room.
var roomKeys = map[string]string{
	"cylinder length": "cylinder.length", "piston length": "cylinder.piston", "gaskets": "cylinder.gaskets",
	"wear": "cylinder.wear", "least clearance": "cylinder.least_clearance", "clearance at the head end": "cylinder.head_clearance",
	"dimensions": "cylinder.length",
}

func roomError(e *engine.Engine, err error) error { return placed(e, err, roomKeys) }

// pistonRoom is the page of the engine book on the room of the piston between its covers,
// and on what shims, rods and gaskets do to it and to the valve.
func pistonRoom(e *engine.Engine) (*Page, error) {
	gear, err := drawnGear(e)
	if err != nil {
		return nil, nil // told on the page of the valve
	}
	drawn, known, err := roomDrawn(e)
	if err != nil {
		return nil, err
	}
	if !known && e.Alteration().IsZero() {
		return nil, nil
	}
	if !known {
		drawn.Gear = gear
	}
	p := roomPage{known: known, drawn: drawn, alteration: e.Alteration(), in: rulerOf(e)}
	section := book.Section{Key: "piston_room", Title: "ROOM OF THE PISTON"}
	page := &Page{}
	item := book.Item{}
	now := drawn
	if known {
		if now, err = drawn.Altered(p.alteration); err != nil {
			return nil, roomError(e, err)
		}
		c, err := now.Clearance()
		if err != nil {
			return nil, err
		}
		_, key := e.Gaskets()
		item = roomSizes(now, c, key)
		if item.Figures, err = pictures(roomPicture(now, c, *e.Cylinder.Bore, e.Cylinder.PistonRod, e.Inches())); err != nil {
			return nil, err
		}
		page.Findings = finding.ListOf(now.Check())
		page.Precautions = eccentric.Precautions()
	} else if now.Gear, err = gear.Altered(p.alteration); err != nil {
		return nil, err
	}
	p.now = now
	tables, err := p.tables()
	if err != nil {
		return nil, err
	}
	item.Tables = append(item.Tables, tables...)
	item.Notes = append(item.Notes, p.notes()...)
	section.Items = []book.Item{item}
	page.Sections = []book.Section{section}
	return page, nil
}

// roomSizes states what there is and what is left at each end.
func roomSizes(r eccentric.Room, c eccentric.Clearance, gasketsFrom string) book.Item {
	gaskets := sized("gaskets", "gaskets, all joints", r.Gaskets, "")
	switch {
	case gasketsFrom == "":
		gaskets.Remark = "none is given"
	case strings.HasPrefix(gasketsFrom, "covers"):
		gaskets.Remark = "two of the cylinder cover's"
	}
	share := func(of float64) string { return fmt.Sprintf("%.2f %% of the swept volume", 100*of) }
	item := book.Item{
		Values: []book.Value{
			sized("length", "between the covers", r.Length, "spigot to spigot"),
			sized("piston", "piston", r.Piston, ""),
			gaskets,
			{Key: "total", Label: "free beyond the stroke", What: book.Length(c.Total(), 3)},
			{Key: "head.clearance", Label: "left at the head end", What: book.Length(c.Head, 3), Remark: share(c.HeadShare)},
			{Key: "head.share", What: book.Share(c.HeadShare, 2)},
			{Key: "crank.clearance", Label: "left at the crank end", What: book.Length(c.Crank, 3), Remark: share(c.CrankShare)},
			{Key: "crank.share", What: book.Share(c.CrankShare, 2)},
			{Key: "equal", What: book.Length(c.Total().Scale(0.5), 3)},
			{Key: "shift", What: book.Length(r.Shift, 3)},
		},
		Formulas: []book.Formula{worked(source.Refs{}, func(in ruler) string {
			return fmt.Sprintf("free = length + gaskets - stroke - piston = %s + %s - %s - %s = %s %s",
				in.plain(r.Length), in.plain(r.Gaskets), in.plain(r.Gear.Stroke), in.plain(r.Piston), in.plain(c.Total()),
				in.unit())
		})},
	}
	if !r.Wear.IsZero() {
		item.Values = append(item.Values,
			sized("wear", "wear of the brasses", r.Wear, "how much nearer a cover that lets it come"),
			book.Value{Key: "head.worn", What: book.Length(c.Head.Sub(r.Wear), 3)},
			book.Value{Key: "crank.worn", What: book.Length(c.Crank.Sub(r.Wear), 3)},
			book.Value{Key: "worn", Label: "left at the nearer, worn", What: book.Length(c.At(eccentric.BothEnds).Sub(r.Wear), 3)})
	}
	if !r.Least.IsZero() {
		item.Values = append(item.Values, sized("least", "least that is wanted", r.Least, "at each end, worn"))
	}
	return item
}

// A roomPage makes the tables of what moves piston and valve.
type roomPage struct {
	known      bool // that there are piston and covers, and not only a gear
	drawn, now eccentric.Room
	in         ruler
	alteration eccentric.Alteration
}

// example is how much of each is put in to show what it does.
func (p *roomPage) example() units.Length {
	if p.in.inch {
		return units.Thou(5)
	}
	return units.MM(0.1)
}

func (p *roomPage) tables() ([]book.Table, error) {
	stands := book.Table{Key: "stands", Title: "As it stands, in mm, cut-off in % of the stroke; h: head end, c: crank end;" +
		" con rod, ecc rod: connecting and eccentric rod"}
	share := book.Table{Key: "to_share", Title: "What shares the room equally, each by itself"}
	example := p.example()
	effects := book.Table{Key: "effects", Title: "What " + p.in.plain(example) + " " + p.in.unit() + " of each does"}
	var err error
	add := func(t *book.Table, label string, r eccentric.Room, a eccentric.Alteration) {
		row, problem := p.row(label, r, a)
		row.Values = append(row.Values, book.Value{Key: "gaskets_thicker", What: book.Length(r.Gaskets.Sub(p.now.Gaskets), 3)})
		t.Rows = append(t.Rows, row)
		if err == nil {
			err = problem
		}
	}
	if !p.alteration.IsZero() {
		add(&stands, "as drawn", p.drawn, eccentric.Alteration{})
		add(&stands, "as it stands", p.now, p.alteration)
	} else {
		add(&stands, "as drawn", p.now, eccentric.Alteration{})
	}
	tables := []book.Table{stands}
	if p.known {
		ways, problem := p.now.ToShare()
		if problem != nil {
			return nil, problem
		}
		for _, a := range ways {
			after, problem := p.now.Altered(a)
			if problem != nil {
				return nil, problem
			}
			add(&share, p.said(a), after, a)
		}
		if share.Rows != nil {
			tables = append(tables, share)
		}
	}
	for _, a := range []eccentric.Alteration{{Shims: example}, {ConnectingRod: example}, {EccentricRod: example}} {
		after, problem := p.altered(a)
		if problem != nil {
			continue // a rod or stroke of less than that
		}
		add(&effects, p.said(a), after, a)
	}
	if p.known {
		thicker := p.now
		thicker.Gaskets = thicker.Gaskets.Add(example.Scale(2))
		add(&effects, "both gaskets +"+p.in.plain(example), thicker, eccentric.Alteration{})
	}
	return append(tables, effects), err
}

// altered is the room, or where it is not known the gear alone, after an alteration.
func (p *roomPage) altered(a eccentric.Alteration) (eccentric.Room, error) {
	if p.known {
		return p.now.Altered(a)
	}
	r := p.now
	var err error
	r.Gear, err = r.Gear.Altered(a)
	return r, err
}

// row is what comes of one alteration.
func (p *roomPage) row(label string, r eccentric.Room, a eccentric.Alteration) (book.Row, error) {
	e, err := r.Gear.Events()
	if err != nil {
		return book.Row{}, err
	}
	thousandths := func(l units.Length) book.Quantity {
		return book.Length(l, 3).Shown(l.Decimal(units.Millimetres, 3))
	}
	row := book.Row{Label: label, Values: []book.Value{
		{Key: "shims", What: book.Length(a.Shims, 3)},
		{Key: "connecting_rod_longer", What: book.Length(a.ConnectingRod, 3)},
		{Key: "eccentric_rod_longer", What: book.Length(a.EccentricRod, 3)},
	}}
	if p.known {
		c, err := r.Clearance()
		if err != nil {
			return book.Row{}, err
		}
		row.Values = append(row.Values,
			book.Value{Key: "head.clearance", Label: "left h", What: thousandths(c.Head)},
			book.Value{Key: "crank.clearance", Label: "left c", What: thousandths(c.Crank)})
	}
	cutOff := func(e eccentric.EndEvents) book.Quantity {
		q := book.Share(e.CutOff.Stroke, 1)
		if !e.CutOff.Occurs {
			return book.Never(q, "never")
		}
		return q.Shown(fmt.Sprintf("%.1f", 100*e.CutOff.Stroke))
	}
	row.Values = append(row.Values,
		book.Value{Key: "valve_offset", Label: "valve", What: thousandths(r.Gear.Valve.Offset)},
		book.Value{Key: "head.lead", Label: "lead h", What: thousandths(e.Head.Lead)},
		book.Value{Key: "crank.lead", Label: "lead c", What: thousandths(e.Crank.Lead)},
		book.Value{Key: "head.cut_off.stroke", Label: "cut h", What: cutOff(e.Head)},
		book.Value{Key: "crank.cut_off.stroke", Label: "cut c", What: cutOff(e.Crank)})
	return row, nil
}

// said names an alteration in a few words.
func (p *roomPage) said(a eccentric.Alteration) string {
	var parts []string
	for _, part := range []struct {
		name string
		by   units.Length
	}{{"shims", a.Shims}, {"con rod", a.ConnectingRod}, {"ecc rod", a.EccentricRod}} {
		switch part.by.Sign() {
		case 1:
			parts = append(parts, part.name+" +"+p.in.plain(part.by))
		case -1:
			parts = append(parts, part.name+" "+p.in.plain(part.by))
		}
	}
	if len(parts) > 1 { // inches have a digit more, and the line is full
		return strings.ReplaceAll(strings.Join(parts, ", "), " rod ", " ")
	}
	return strings.Join(parts, ", ")
}

func (p *roomPage) notes() []book.Note {
	notes := []book.Note{{Text: "Shims lie under the main bearings and bring the crank nearer to the cylinder: piston and" +
		" valve go with it, away from the crank. The connecting rod moves the piston alone, the eccentric rod the valve" +
		" alone, and where a lever drives it, by its ratio. The valve is told from the middle of its ports, above zero" +
		" towards the crank. Every other page is of the engine as it stands."}}
	if p.known {
		notes = append(notes, book.Note{Text: "The shares are of the space between piston and cover; what the ports and passages" +
			" hold comes to it. To measure it, take the connecting rod off the crank pin, push the piston by hand against" +
			" each cover and mark the crosshead on its guide; with the rod on again mark both dead centres, turning by hand." +
			" The marks stand as far apart as there is room.", Refs: source.Of(strikingPoints)})
	}
	return notes
}

var strikingPoints = source.Ref{
	Kind: source.Published, Title: "Locomotive Engine Running and Management, by A. Sinclair", Edition: "10th edition, 1888",
	Locator: "Striking points and clearance",
}

// alterationOf states what has been altered among the sizes that are given.
func alterationOf(a eccentric.Alteration) []book.Value {
	var values []book.Value
	for _, part := range []struct {
		key, label, remark string
		by                 units.Length
	}{
		{"shims", "shims under bearings", "valve's place with them", a.Shims},
		{"connecting_rod_longer", "  connecting rod by", "longer, counted above", a.ConnectingRod},
		{"eccentric_rod_longer", "  eccentric rod by", "longer, counted above", a.EccentricRod},
	} {
		if !part.by.IsZero() {
			values = append(values, sized(part.key, part.label, part.by, part.remark))
		}
	}
	return values
}
