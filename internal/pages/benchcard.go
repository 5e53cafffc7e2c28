package pages

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// benchPage is the page of the booklet that hangs at the machine.
const benchPage = "Bench card"

// Where work stands on the bench card: the order in which an engine is made.
const (
	onCylinder = iota
	onPortFace
	onTapped
	onCovers
	onPiston
	onValve
	onOthers
	onEccentric
	onFits
	onFlywheel
	onStuds
	onSetting
)

// A benchCard gathers, from the pages of an engine book, what is set at a machine and
// what is measured there: it takes their values as they are, and works nothing out.
type benchCard struct {
	e        *engine.Engine
	sections map[string]book.Section
	groups   []workGroup
	bored    map[int]bool // fits whose hole stands with the operation that makes it
}

// A workGroup is what is done to one part.
type workGroup struct {
	place int
	title string
	rows  []book.Row
}

// A job is one thing to do, with what is set for it and what it comes to.
type job struct {
	does                     string
	set, feed, drill, limits book.Value
	remark, behind           string // behind the first of them, and behind the limits
}

// benchCardOf makes the bench card from the sections of the book; none where they set
// nothing.
func benchCardOf(e *engine.Engine, b book.Book) []book.Section {
	c := &benchCard{e: e, sections: map[string]book.Section{}, bored: map[int]bool{}}
	for _, s := range b.Sections {
		c.sections[s.Key] = s
	}
	c.operations()
	c.portFace()
	c.tapped()
	c.covers()
	c.piston()
	c.valve()
	c.eccentric()
	c.fits()
	c.flywheel()
	c.studs()
	c.setting()
	slices.SortStableFunc(c.groups, func(a, b workGroup) int { return a.place - b.place })
	table := book.Table{Key: "steps", Tick: true, Group: "part", Label: "operation"}
	for _, g := range c.groups {
		table.Rows = append(table.Rows, g.rows...)
	}
	if table.Rows == nil {
		return nil
	}
	s := book.Section{Key: "bench_card", Title: "BENCH CARD", Page: benchPage, Items: []book.Item{{Tables: []book.Table{table}}},
		Intro: []string{"What is set and measured, in the order of the work. How each figure comes about stands on the page of its part."}}
	if worst, any := b.All().Worst(); any && worst > finding.Note {
		s.Intro = append(s.Intro, "Before metal is cut: this book has told that something is wrong. Put that right in the file first, and make the card anew.")
	}
	return []book.Section{s}
}

// group begins a group of rows, or goes on with the one of that name.
func (c *benchCard) group(place int, title string, jobs ...job) {
	var rows []book.Row
	for _, j := range jobs {
		if row, any := c.row(j); any {
			row.Group = title
			rows = append(rows, row)
		}
	}
	if rows == nil {
		return
	}
	for i := range c.groups {
		if g := &c.groups[i]; g.place == place && g.title == title {
			g.rows = append(g.rows, rows...)
			return
		}
	}
	c.groups = append(c.groups, workGroup{place, title, rows})
}

// row is a job as it stands on the card; false where there is nothing to set or measure.
func (c *benchCard) row(j job) (row book.Row, any bool) {
	for _, cell := range []struct {
		key   string
		value book.Value
	}{{"set", j.set}, {"feed", j.feed}, {"drill", j.drill}, {"limits", j.limits}} {
		v := book.Value{Label: cell.key, What: book.Word("")}
		if cell.value.What.Text() != "" {
			v = book.Value{Key: cell.key, Label: cell.key, What: cell.value.What.First(c.e.Inches())}
			remarks := []string{j.remark, doubt(cell.value.Refs)}
			if cell.key == "limits" && j.behind != "" {
				remarks, v.GoesOn = slices.Insert(remarks, 0, j.behind), true
			}
			v.Remark = strings.Join(slices.DeleteFunc(remarks, func(s string) bool { return s == "" }), ", ")
			j.remark, any = "", true
		}
		row.Values = append(row.Values, v)
	}
	row.Label = j.does
	return row, any
}

// doubt says of a figure what the numbers of its sources say on other pages: that it
// was not read in a reviewed work.
func doubt(refs source.Refs) string {
	var kinds []string
	for _, kind := range []source.Kind{source.FromMemory, source.Unreviewed} {
		for ref := range refs.All() {
			if ref.Kind == kind {
				kinds = append(kinds, kind.String())
				break
			}
		}
	}
	return strings.Join(kinds, ", ")
}

// item returns the item of a section that has the key; the first for none.
func (c *benchCard) item(section, key string) book.Item {
	for _, i := range c.sections[section].Items {
		if key == "" || i.Key == key {
			return i
		}
	}
	return book.Item{}
}

// of returns a value of an item by its key: the first one that has a label, as that is
// what a person reads; else the first.
func of(i book.Item, key string) (found book.Value) {
	for _, v := range i.Values {
		if v.Key == key && (found.Key == "" || found.Label == "" && v.Label != "") {
			found = v
		}
	}
	return found
}

// placeOf is where the work on a part stands that the file names.
func placeOf(part string) int {
	part = strings.ToLower(part)
	for _, known := range []struct {
		word  string
		place int
	}{
		{"flywheel", onFlywheel}, {"port", onPortFace}, {"cover", onCovers}, {"chest", onCovers}, {"piston", onPiston},
		{"gland", onPiston}, {"cylinder", onCylinder}, {"valve", onValve}, {"eccentric", onEccentric}, {"sheave", onEccentric},
	} {
		if strings.Contains(part, known.word) {
			return known.place
		}
	}
	return onOthers
}

// operations are those of the file.
func (c *benchCard) operations() {
	for i, item := range c.sections["operations"].Items {
		entry := c.e.Operations[i]
		set := of(item, "set")
		remark := set.Remark
		switch {
		case set.What.Text() != "":
		case of(item, "most").What.Known():
			set, remark = of(item, "most"), "at most"
		default: // no machine is told
			set, remark = of(item, "wanted"), ""
		}
		feed := of(item, "feed")
		if per := of(item, "feed_per"); per.What.Known() && feed.What.Known() {
			feed.What = feed.What.Behind("/" + per.What.Text())
		}
		j := job{does: entry.Operation.String() + " " + c.plain(*entry.Diameter), set: set, feed: feed, remark: remark}
		j.drill = of(item, "take")
		if entry.Operation.String() == speeds.SlotMilling.String() {
			j.drill = of(item, "chain_drill")
		}
		if f := c.holeOf(entry); f >= 0 {
			j.limits = c.limits(c.sections["fits"].Items[f], "hole")
			c.bored[f] = true
		}
		c.group(placeOf(entry.Part), entry.Part, j,
			job{does: "  down to, at the tip", set: of(item, "tip")},
			job{does: "  each pass deep", set: of(item, "pass")})
	}
}

// plain is a size of the file with its digits, in the unit that is read first.
func (c *benchCard) plain(l units.Length) string {
	if c.e.Inches() {
		return l.Text(units.Inches, 4)
	}
	return l.String()
}

// holeOf returns the fit whose hole the operation finishes: of its diameter, on the part
// that the fit names; -1 for none.
func (c *benchCard) holeOf(entry engine.Operation) int {
	if *entry.Operation != speeds.Boring && *entry.Operation != speeds.Reaming {
		return -1
	}
	for i := range c.sections["fits"].Items {
		f := c.e.File.Fits[i]
		if *f.Nominal == *entry.Diameter && strings.Contains(strings.ToLower(f.Where), strings.ToLower(entry.Part)) {
			return i
		}
	}
	return -1
}

// limits are those of a part of a fit on the builder's micrometer: on the steps of a
// metric one, or where those are too coarse, or in inches, those of the class.
func (c *benchCard) limits(fit book.Item, part string) book.Value {
	steps := of(fit, part+"_on_steps")
	if steps.What.Known() && !c.e.Inches() && strings.Contains(steps.What.Millimetres().Text(), " mm") {
		steps.What = steps.What.Millimetres() // and not what is lost of the tolerance
		return steps
	}
	return of(fit, part)
}

func (c *benchCard) portFace() {
	face := c.item("port_face", "")
	wide := func(port string) book.Value {
		switch port {
		case "exhaust":
			return of(c.item("dimensions", ""), "exhaust_port")
		case "crank end":
			return of(c.item("dimensions", ""), "crank_steam_port")
		}
		return of(c.item("dimensions", ""), "steam_port")
	}
	var jobs []job
	for _, t := range face.Tables {
		for _, r := range t.Rows {
			jobs = append(jobs, job{does: "along, " + r.Label, set: of(book.Item{Values: r.Values}, "along"), limits: wide(r.Label)})
		}
	}
	if jobs == nil {
		return
	}
	jobs = append(jobs, job{does: "across, each of them", set: of(face, "across"), limits: of(c.item("dimensions", ""), "port_length")})
	c.group(onPortFace, "port face: the spindle, from the exhaust port's middle", jobs...)
}

func (c *benchCard) tapped() {
	covered := map[int]bool{}
	for i := range c.e.File.Covers {
		for _, f := range c.e.TappedFor(i) {
			covered[f] = true
		}
	}
	for i, item := range c.sections["fasteners"].Items {
		f := c.e.File.Fasteners[i]
		drill := named(item, "tapping_drill")
		if buy := named(item, "buy"); !drill.What.Known() && buy.What.Known() {
			drill = buy
		}
		deep := of(item, "blind.tip")
		does := fmt.Sprintf("drill %d, to the tip", f.Count)
		if deep.What.Text() == "" {
			deep, does = of(item, "through"), fmt.Sprintf("drill %d, through", f.Count)
		}
		jobs := []job{{does: does, set: deep, drill: drill},
			{does: "tap " + f.Thread.Designation() + ", jams at", set: of(item, "blind.jam")}}
		if !covered[i] { // or the cover has the hole
			jobs = append(jobs, job{does: "clearance hole", drill: clearing(item)})
		}
		c.group(onTapped, fmt.Sprintf("%s: tapped %v", f.Where, *f.Thread), jobs...)
	}
}

// named is a drill by its name in the drawer.
func named(item book.Item, key string) book.Value {
	drill := of(item, key+".diameter")
	if name := of(item, key+".name").What.Text(); name != "" {
		drill.What = drill.What.Shown(name)
	}
	return drill
}

// clearing is the drill of a clearance hole: the owner's, or the size of the hole.
func clearing(item book.Item) book.Value {
	if own := named(item, "clearance.drill"); own.What.Known() {
		own.Refs = of(item, "clearance.hole").Refs
		return own
	}
	return of(item, "clearance.hole")
}

func (c *benchCard) covers() {
	for i, item := range c.sections["covers"].Items {
		entry := c.e.File.Covers[i]
		drill := job{does: "drill by its marking-out", drill: given3(entry.Hole), limits: of(item, "cover.thickness"), behind: "thick"}
		if entry.StudCircle != nil {
			drill.does, drill.set = fmt.Sprintf("drill %d, on a circle of", *entry.Studs), given3(entry.StudCircle)
		}
		c.group(onCovers, entry.Where, drill)
	}
}

// given3 is a size of the file.
func given3(l *units.Length) book.Value {
	if l == nil {
		return book.Value{}
	}
	return book.Value{What: book.Length(*l, 3)}
}

func (c *benchCard) piston() {
	for i, item := range c.sections["fits"].Items {
		if !c.e.File.Fits[i].IsPiston() {
			continue
		}
		if !c.bored[i] {
			c.group(onCylinder, "cylinder", job{does: "bore", limits: c.limits(item, "hole")})
		}
		c.bored[i] = true
		c.group(onPiston, "piston", job{does: "turn to", limits: c.limits(item, "shaft")})
	}
	c.group(onPiston, "piston", job{does: "length", limits: of(c.item("piston_room", ""), "piston")})
}

func (c *benchCard) valve() {
	sizes := c.item("dimensions", "")
	for _, part := range []struct{ does, key, dimension string }{
		{"length, outer edges", "valve", "valve.length"}, {"cavity, inner edges", "cavity", "valve.cavity"},
	} {
		c.group(onValve, "valve", job{does: part.does, set: of(sizes, part.key), limits: c.tolerance(part.dimension)})
	}
}

// tolerance is how closely a size of the gear is to be held, as the file says it.
func (c *benchCard) tolerance(dimension string) book.Value {
	for _, item := range c.sections["hold"].Items {
		if of(item, "dimension").What.Text() == dimension {
			return of(item, "tolerance")
		}
	}
	return book.Value{}
}

func (c *benchCard) eccentric() {
	if _, made := c.sections["making_eccentric"]; !made {
		gear := c.item("eccentric", "")
		c.group(onEccentric, "eccentric", job{does: "offset of the sheave", set: of(gear, "offset")},
			job{does: "dial goes over, by hand", limits: of(gear, "dial_reading")})
		return
	}
	sheave, marked, over := c.item("making_eccentric", "sheave"), c.item("making_eccentric", "marked_out"), c.item("making_eccentric", "set_over")
	jaw := of(over, "jaw_move")
	turns := ""
	if of(over, "turns").What.Known() {
		turns = jaw.Remark
	}
	c.group(onEccentric, "eccentric",
		job{does: "groove for the strap", limits: of(sheave, "groove")},
		job{does: "axis line, below top", set: of(marked, "centre_below_top")},
		job{does: "offset line, below top", set: of(marked, "offset_below_top")},
		job{does: "packing in three jaws", set: of(over, "packing")},
		job{does: "or four jaws, one pair by", set: jaw, remark: turns},
		job{does: "unbalanced, keep below", set: of(over, "speed_steady")},
		job{does: "dial goes over, by hand", limits: of(sheave, "dial_reading")})
}

func (c *benchCard) fits() {
	for i, item := range c.sections["fits"].Items {
		f := c.e.File.Fits[i]
		if f.IsPiston() {
			continue
		}
		place := placeOf(f.Where)
		if place == onOthers {
			place = onFits
		}
		shaft := job{does: "shaft", limits: c.limits(item, "shaft")}
		if f.Bar != nil { // as it is bought
			shaft = job{}
		}
		hole := job{does: "hole", limits: c.limits(item, "hole")}
		if c.bored[i] {
			hole = job{}
		}
		c.group(place, f.Where, hole, shaft)
	}
}

func (c *benchCard) flywheel() {
	settings := c.item("making_flywheel", "settings")
	c.group(onFlywheel, "flywheel",
		job{does: "faces parallel within", limits: of(settings, "parallel")},
		job{does: "dial at both edges", limits: of(settings, "edges")})
}

func (c *benchCard) studs() {
	covers := map[string]book.Item{}
	for _, item := range c.sections["covers"].Items {
		covers[of(item, "where").What.Text()] = item
	}
	for _, item := range c.sections["studs"].Items {
		where := of(item, "where").What.Text()
		tighten := job{does: "tighten, dry", set: of(covers[where], "torque")}
		if order := of(covers[where], "order").What.Text(); order != "" {
			tighten.remark = "order " + order
		}
		cut := job{does: fmt.Sprintf("cut %s to", of(item, "count").What.Text())}
		if long := of(item, "length"); long.What.Known() {
			cut.set, cut.limits, cut.behind = long, of(item, "engaged"), "engaged"
		}
		c.group(onStuds, where+": studs "+of(item, "thread").What.Text(), cut, tighten)
	}
}

func (c *benchCard) setting() {
	room := c.item("piston_room", "")
	sheave := job{does: "sheave ahead of crank", set: of(c.item("setting", "sheave"), "stands")}
	if arc := of(c.item("setting", "sheave"), "arc"); arc.What.Known() {
		sheave.remark = arc.What.First(c.e.Inches()).Text() + " on the shaft"
	}
	c.group(onSetting, "setting, by hand; piston to covers first",
		job{does: "left at the head end", limits: of(room, "head.clearance")},
		job{does: "left at the crank end", limits: of(room, "crank.clearance")},
		sheave,
		job{does: "lead at the head end", limits: of(c.item("setting", "lead"), "lead")},
		job{does: "lead at the crank end", limits: of(c.item("setting", "other_end"), "lead")},
		job{does: "to reverse, turn it by", set: of(c.item("setting", "fasten"), "turn_to_reverse")})
}
