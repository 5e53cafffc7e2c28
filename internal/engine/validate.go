package engine

import (
	"strings"

	"github.com/valvechest/valvechest/speeds"

	"github.com/valvechest/valvechest/units"
)

const (
	aLength   = `a length with its unit, such as "20 mm" or "3/4 in"`
	aboveZero = "a length above zero"
	noLever   = "0; accepted: the movement of the valve for one of the eccentric rod, negative for" +
		" a lever that reverses it; leave the key out where there is no lever"
)

// ValidateGear complains of what the valve gear lacks, and of what does not go
// together. Where that was told when the file was read, the error of this and of
// the methods below is one that [Join] leaves out.
func (e *Engine) ValidateGear() error {
	cylinder := e.entry("cylinder")
	cylinder.need(aLength, "bore", "stroke")
	cylinder.above("bore", e.File.Cylinder.Bore, aboveZero)
	if iron := e.File.Cylinder.Iron; iron != nil && !(*iron > 0 && *iron <= 1000) {
		cylinder.complain("iron", "%v; accepted: a mass above zero, at most 1000 kg", *iron)
	}
	cylinder.room(e)
	motion := e.entry("motion")
	motion.alterations(e)
	motion.need(aLength+`, or "infinite"`, "connecting_rod", "eccentric_rod")
	if ratio := e.File.Motion.LeverRatio; ratio != nil && *ratio == 0 {
		motion.complain("lever_ratio", noLever)
	}
	ports := e.entry("ports")
	ports.need(aLength, "steam", "bar", "exhaust", "length")
	ports.above("length", e.File.Ports.Length, aboveZero)
	const asHead = aboveZero + "; leave the key out where it is as at the head end"
	ports.above("crank_steam", e.File.Ports.CrankSteam, asHead)
	ports.above("crank_bar", e.File.Ports.CrankBar, asHead)
	valve := e.valveKind()
	valve.need(aLength, "length", "cavity")
	eccentric := e.entry("eccentric")
	eccentric.need(aLength, "travel")
	switch {
	case eccentric.has("advance") && eccentric.has("lead"):
		eccentric.complain("lead", "advance is given too, and fixes the lead; accepted: one of the two")
	case eccentric.has("stands") && (eccentric.has("advance") || eccentric.has("lead")):
		given := "advance"
		if eccentric.has("lead") {
			given = "lead"
		}
		eccentric.complain("stands", "%s is given too, and fixes where the eccentric stands; accepted: one of the two", given)
	case !eccentric.has("lead") && !eccentric.has("stands"):
		eccentric.need(`advance, such as "26 deg", or lead, such as "0.2 mm", or stands, such as "116 deg" ahead of the`+
			" crank, but one alone", "advance")
	}
	chest := e.entry("chest")
	if e.Has("chest") {
		chest.need(aLength+", or no chest at all", "length")
	}
	chest.above("length", e.File.Chest.Length, aboveZero+", or no chest at all")
	return said(cylinder, motion, ports, valve, eccentric, chest)
}

// valveKind complains of an admission that no valve has.
func (e *Engine) valveKind() *entry {
	valve := e.entry("valve")
	switch strings.ToLower(e.File.Valve.Admission) {
	case "", "outside", "inside":
	default:
		valve.complain("admission", `"%s"; accepted: "outside" for a slide valve, "inside" for a piston valve that admits`+
			` past its inner edges`, short(e.File.Valve.Admission))
	}
	return valve
}

// ValidateFit complains of what a fit lacks, and of what does not go together.
func (e *Engine) ValidateFit(i int) error {
	f, t := e.File.Fits[i], e.entry("fits[%d]", i)
	t.needText("where", f.Where, `the place of the fit, such as "main bearing"`)
	t.need(`a length with its unit, such as "8 mm" or "3/8 in"`, "nominal")
	if f.Nominal != nil && f.Nominal.Sign() <= 0 {
		t.complain("nominal", "%v: out of range; accepted: %s", *f.Nominal, aboveZero)
	}
	band := t.has("clearance_least") || t.has("clearance_most")
	if t.has("packing") {
		for _, key := range []string{"fit", "clearance_least", "clearance_most", "bar", "shaft_came_out"} {
			if t.has(key) {
				t.complain(key, "packing is given too, and decides the piston; accepted: one of the two")
			}
		}
	} else if t.has("fit") && band {
		t.complain("clearance_least", "fit is given too; accepted: one of the two")
	} else if band {
		t.together("clearance_least", "clearance_most")
	} else {
		t.needText("fit", f.Fit, `a fit, such as "H7/f7" or "RC4", or clearance_least and clearance_most`)
	}
	if t.has("hole_came_out") && t.has("shaft_came_out") {
		t.complain("shaft_came_out", "hole_came_out is given too; accepted: the one that is made, and the other is made to it")
	}
	for _, m := range []struct {
		key  string
		size *units.Length
	}{{"hole_came_out", f.HoleCameOut}, {"shaft_came_out", f.ShaftCameOut}} {
		if m.size != nil && f.Nominal != nil && f.Nominal.Sign() > 0 &&
			m.size.Sub(*f.Nominal).Abs().Cmp(f.Nominal.Scale(0.05)) > 0 {
			t.complain(m.key, "%v of a nominal %v; accepted: what was measured, within a twentieth of it", *m.size, *f.Nominal)
		}
	}
	if f.HotLeast != nil && f.HotLeast.Sign() < 0 {
		t.complain("hot_least", "%v: out of range; accepted: zero or more", *f.HotLeast)
	}
	for _, key := range []string{"hole_at", "shaft_at", "hole_material", "shaft_material", "hot_least", "room"} {
		if t.has(key) {
			t.need(`a material, such as "cast iron"`, "hole_material", "shaft_material")
			t.need(`a temperature with its scale, such as "150 degC" or "300 degF"`, "hole_at", "shaft_at")
			break
		}
	}
	return said(t)
}

// mostScrews is more of one sort than a small engine has.
const mostScrews = 10_000

// ValidateFastener complains of what a set of fasteners lacks, and of what does
// not go together.
func (e *Engine) ValidateFastener(i int) error {
	f, t := e.File.Fasteners[i], e.entry("fasteners[%d]", i)
	t.needText("where", f.Where, `the place of the screws, such as "cylinder cover"`)
	t.need(`a thread, such as "M3", "5 BA" or "4-40"`, "thread")
	t.need(`what is tapped, such as "gunmetal"`, "material")
	t.need("a whole number from 1", "count")
	if t.has("count") && (f.Count < 1 || f.Count > mostScrews) {
		t.complain("count", "%d; accepted: a whole number from 1 to %d", f.Count, mostScrews)
	}
	t.needOne("through", "blind",
		`through, the thickness tapped right through, or blind, the depth of the hole, such as "8 mm"`)
	t.above("through", f.Through, aboveZero)
	t.above("blind", f.Blind, aboveZero)
	t.above("metal", f.Metal, aboveZero)
	for _, key := range []string{"tap", "metal"} {
		if t.has("through") && t.has(key) {
			t.complain(key, "the hole goes through; accepted: %s with blind", key)
		}
	}
	if f.Thread != nil && t.has("blind") {
		if _, taper := f.Thread.Taper(); taper {
			t.complain("blind", "%v is a taper thread, whose length goes by its gauge plane; accepted: through", *f.Thread)
		}
	}
	return said(t)
}

// ValidateOperation complains of what an operation lacks, and of what does not go
// together.
func (e *Engine) ValidateOperation(i int) error {
	o, t := e.File.Operations[i], e.entry("operations[%d]", i)
	const length = `a length with its unit above zero, such as "20 mm" or "3/4 in"`
	t.needText("part", o.Part, `the part's name, such as "flywheel"`)
	t.need(`an operation, such as "turning" or "drilling"`, "operation")
	t.need(`a material, such as "cast iron, skin on" or "gunmetal"`, "material")
	t.need(length, "diameter")
	if o.On != "" && o.On != "lathe" && o.On != "mill" {
		t.complain("on", `"%s"; accepted: "lathe", "mill"`, short(o.On))
	}
	if t.has("teeth") && (o.Teeth < 1 || o.Teeth > 100) {
		t.complain("teeth", "%d; accepted: 1 to 100, or no such key where they are not known", o.Teeth)
	}
	t.above("diameter", o.Diameter, length)
	t.above("length", o.Length, length)
	t.above("depth", o.Depth, length)
	t.above("cut", o.Cut, length)
	t.above("stock", o.Stock, length)
	t.above("width", o.Width, length)
	if o.Operation != nil {
		o.together(t, *o.Operation)
	}
	if slot := o.Operation != nil && *o.Operation == speeds.SlotMilling; t.has("stock") && !t.has("cut") && !slot {
		t.complain("stock", "there is no cut to take it off in; accepted: stock and cut together")
	}
	return said(t)
}

// together complains of keys that do not go with an operation.
func (o Operation) together(t *entry, op speeds.Operation) {
	if o.Teeth != 0 && (!op.Mills() || op == speeds.FlyCutting) {
		t.complain("teeth", "%d for %v; accepted: the teeth of a milling cutter", o.Teeth, op)
	}
	if o.Width != nil && op != speeds.SlotMilling {
		t.complain("width", "%v for %v; accepted: the width of a slot, for slot milling", o.Width, op)
	}
	if o.On == "mill" && op.TurnsWork() && op != speeds.Boring {
		t.complain("on", `%q for %v, which turns the work; accepted: "lathe"`, o.On, op)
	}
	if op == speeds.Screwcutting {
		t.need(`the pitch of the thread, such as "1.5 mm" or "1/26 in"`, "pitch")
		t.above("pitch", o.Pitch, `a pitch with its unit above zero, such as "1.5 mm" or "1/26 in"`)
	} else if o.Pitch != nil {
		t.complain("pitch", "%v for %v; accepted: the pitch of a thread that is screwcut", o.Pitch, op)
	}
	hole := op == speeds.Drilling || op == speeds.Reaming || op == speeds.Tapping
	if o.Depth != nil && !hole {
		t.complain("depth", "%v for %v; accepted: the depth of a hole that is drilled, reamed or tapped", o.Depth, op)
	}
	if o.Cut != nil && (hole || op == speeds.CentreDrilling || op == speeds.Countersinking) {
		t.complain("cut", "%v for %v; accepted: the depth of a cut that is turned or milled", o.Cut, op)
	}
	if op.TurnsWork() && o.Cut != nil && o.Diameter != nil && o.Cut.Scale(2).Cmp(*o.Diameter) > 0 {
		t.complain("cut", "%v is more than the radius; accepted: a depth on the radius, up to %v", o.Cut, o.Diameter.Scale(0.5))
	}
}

// ValidateCover complains of what a cover lacks, and of what does not go together.
func (e *Engine) ValidateCover(i int) error {
	c, t := e.File.Covers[i], e.entry("covers[%d]", i)
	const length = `a length with its unit, such as "28 mm"`
	t.needText("where", c.Where, `the place of the cover, such as "steam chest"`)
	switch c.Shape {
	case "round":
		t.need(length, "diameter", "stud_circle")
		t.need("a whole number", "studs")
		t.belongs("rectangular", "width", "height", "corner", "opening_width", "opening_height", "opening_corner",
			"port_margin", "studs_across", "studs_along", "stud_width", "stud_height")
	case "rectangular":
		t.need(length, "width", "height", "stud_width", "stud_height")
		t.need("a whole number, the corners counted", "studs_across", "studs_along")
		t.belongs("round", "diameter", "opening", "studs", "stud_circle", "first_stud")
		c.openings(t)
	case "":
		t.needText("shape", "", `"round" or "rectangular"`)
	default:
		t.complain("shape", `"%s"; accepted: "round" or "rectangular"`, short(c.Shape))
	}
	c.countStuds(t)
	t.need(`a thread, such as "M3" or "5 BA"`, "thread")
	t.need(length, "hole")
	t.need(`a pressure above that of the air, such as "4 bar" or "60 psi"`, "pressure")
	t.needOne("stud_class", "stud_proof", `a property class, such as "4.6", or stud_proof, such as "200 MPa"`)
	if c.StudProof != nil && !(*c.StudProof > 0) {
		t.complain("stud_proof", `%v; accepted: above zero, such as "200 MPa"`, *c.StudProof)
	}
	if c.Hole != nil && c.Thread != nil && c.Hole.Cmp(c.Thread.Major()) <= 0 {
		t.complain("hole", "%v does not pass a stud %v; accepted: above %v", c.Hole, c.Thread, c.Thread.Major())
	}
	if c.Preload != nil && !(*c.Preload > 0) {
		t.complain("preload", "%v; accepted: a share of the proof strength, above 0 and up to 1", *c.Preload)
	}
	t.above("nut", c.Nut, aboveZero)
	t.above("washer", c.Washer, aboveZero)
	t.above("passes", c.Passes, aboveZero)
	t.together("cover_thickness", "cover_material")
	t.together("cover_came_out", "cover_cut")
	if c.CameOut != nil && c.CoverPlate == nil {
		t.complain("cover_came_out", "the thickness as drawn is missing; accepted: with cover_thickness and cover_material")
	}
	if c.CameOut != nil && c.CoverPlate != nil && (c.CameOut.Sign() <= 0 || c.CameOut.Cmp(*c.CoverPlate) >= 0) {
		t.complain("cover_came_out", "%v; accepted: above zero and below cover_thickness, %v", *c.CameOut, *c.CoverPlate)
	}
	if c.CoverMaterial != nil && !c.CoverMaterial.Elasticity.Known() {
		t.complain("cover_material", `we have no modulus of elasticity of %v; accepted: a metal, such as "cast iron"`,
			*c.CoverMaterial)
	}
	return said(t)
}

// countStuds complains of more studs than anybody drills.
func (c Cover) countStuds(t *entry) {
	many := false
	for _, n := range []struct {
		key   string
		value *int
	}{{"studs", c.Studs}, {"studs_across", c.StudsAcross}, {"studs_along", c.StudsAlong}} {
		if n.value != nil && *n.value > mostStuds {
			t.complain(n.key, "%d; accepted: up to %d studs in all", *n.value, mostStuds)
			many = true
		}
	}
	if n := c.studCount(); !many && n > mostStuds {
		t.complain("studs_across", "%d studs in all; accepted: up to %d", n, mostStuds)
	}
}

// openings complains of openings of a rectangular cover that do not go together.
func (c Cover) openings(t *entry) {
	t.together("opening_width", "opening_height")
	if t.has("opening_corner") && !t.has("opening_width") {
		t.complain("opening_corner", "the opening itself is missing; accepted: beside opening_width and opening_height")
	}
	if t.has("port_margin") && t.has("opening_width") {
		t.complain("port_margin", "opening_width is given too; accepted: one opening, or the ports with a margin round them")
	}
	if c.PortMargin != nil && c.PortMargin.Sign() < 0 {
		t.complain("port_margin", "%v would blind the ports; accepted: zero or more", *c.PortMargin)
	}
}

// belongs complains of keys that go with covers of another shape.
func (t *entry) belongs(shape string, keys ...string) {
	for _, key := range keys {
		if t.has(key) {
			t.complain(key, "belongs to a %s cover; accepted: another shape, or the cover without it", shape)
		}
	}
}
