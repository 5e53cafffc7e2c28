package marking_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// hair is the least that a length can be more.
const hair = 1e-9 // mm

// The nearest that is taken and the nearest that is refused, of each limit.
func TestMarkingLimits(t *testing.T) {
	mm := units.MM
	three := func(blank, offset, jaw, opens float64) func() error {
		return func() error {
			_, err := marking.ThreeJaw{Blank: mm(blank), Offset: mm(offset), Jaw: mm(jaw), Opens: mm(opens)}.Check()
			return err
		}
	}
	wide, err := marking.ThreeJaw{Blank: mm(20), Jaw: mm(20), Offset: mm(9.999999)}.Packing()
	if err != nil {
		t.Fatal(err)
	}
	packing := func(p units.Length) func() error {
		return func() error { _, err := marking.ThreeJaw{Blank: mm(20), Jaw: mm(20)}.OffsetFor(p); return err }
	}
	correct := func(reading float64) func() error {
		return func() error {
			_, err := marking.ThreeJaw{Blank: mm(20), Offset: mm(3.5)}.Correct(mm(10), mm(reading))
			return err
		}
	}
	used := func(thick float64) func() error { // 1 mm too much offset takes 1.5 mm of packing off wide faces
		return func() error {
			_, err := marking.ThreeJaw{Blank: mm(20), Offset: mm(3), Jaw: mm(20)}.Correct(mm(thick), mm(8))
			return err
		}
	}
	four := func(n int, c marking.FourJaw) func() error {
		c.Readings = append(c.Readings, make([]units.Length, n)...)
		return func() error { _, err := c.Solve(); return err }
	}
	vee := func(degrees, offset float64) func() error {
		return func() error {
			_, err := marking.Vee{Bar: mm(20), Included: units.Angle(degrees) * units.Degree, Offset: mm(offset)}.Heights()
			return err
		}
	}
	line := func(degrees float64) func() error {
		return func() error { _, err := marking.LineHeight(mm(6), units.Angle(degrees)*units.Degree); return err }
	}
	dial := func(offset float64) func() error {
		return func() error {
			_, err := marking.Dial{Range: mm(1), Offset: mm(offset), Diameter: mm(20)}.Sweep()
			return err
		}
	}
	sheave := func(s marking.Sheave) func() error {
		s.Bore, s.Offset, s.Diameter = mm(6), mm(3), mm(20)
		return func() error { _, err := s.Walls(); return err }
	}
	groove := func(strap float64) func() error {
		return func() error { _, err := marking.GrooveFor(mm(strap)); return err }
	}
	end := marking.EyeEnd{Width: mm(6), Beyond: mm(2.5)}
	reach := func(corner, degrees float64) func() error {
		e := end
		e.Corner = mm(corner)
		return func() error { _, err := e.Reach(units.Angle(degrees) * units.Degree); return err }
	}
	clevis := func(change func(*marking.Clevis)) func() error {
		c := marking.Clevis{Pin: mm(3), Eye: end, Fork: end, Slot: mm(4), Shoulder: mm(4), Thickness: mm(3), Gap: mm(3.1)}
		change(&c)
		return func() error { _, err := c.Solve(); return err }
	}
	slot := func(change func(*marking.NutSlot)) func() error {
		n := exampleSlot()
		change(&n)
		return func() error { _, err := n.Solve(); return err }
	}
	cuts := func(cutter, long float64) func() error {
		p := demo().Ports
		p.Length = mm(long)
		return func() error { _, err := marking.PortFace{Ports: p, Cutter: mm(cutter)}.Cuts(); return err }
	}
	depths := func(depth float64) func() error {
		return func() error { _, err := marking.Depths(mm(depth), mm(0.01)); return err }
	}
	for _, l := range []struct {
		name        string
		taken, less func() error
		want        string // in the error of the second
	}{
		{"offset in the blank", three(20, 10-hair, 0, 0), three(20, 10, 0, 0), "the axis of turning lies outside the blank"},
		{"an offset", three(20, hair, 0, 0), three(20, 0, 0, 0), "offset"},
		{"jaws as wide as the blank", three(20, 3, 20, 0), three(20, 3, 20+hair, 0), "width of the jaws"},
		{"jaws", three(20, 3, 0, 0), three(20, 3, -hair, 0), "from zero to the diameter of the blank"},
		{"opens", three(20, 3, 0, hair), three(20, 3, 0, -hair), "opening of the chuck"},
		{"most packing", packing(wide.Thickness), packing(mm(15)), "below that for half of the blank, 15 mm"},
		{"dial over nothing", correct(0), correct(-hair), "reading"}, {"dial over the blank", correct(20 - hair), correct(20), "below the diameter of the blank"},
		{"a little left", used(1.5 + 1e-6), used(1.5), "nothing of it would be left"},
		{"4 readings", four(4, marking.FourJaw{}), four(3, marking.FourJaw{}), "from 4 to 360"},
		{"360 readings", four(360, marking.FourJaw{}), four(361, marking.FourJaw{}), "361 of them"},
		{"in the work", four(4, marking.FourJaw{Diameter: mm(10), Offset: mm(5 - hair)}), four(4, marking.FourJaw{Diameter: mm(10), Offset: mm(5)}), "outside the work"},
		{"any offset", four(4, marking.FourJaw{Offset: mm(500)}), four(4, marking.FourJaw{Offset: mm(-hair)}), "offset"},
		{"jaw 1", four(4, marking.FourJaw{Towards: 0}), four(4, marking.FourJaw{Towards: -1}), "1, 2, 3 or 4"},
		{"jaw 4", four(4, marking.FourJaw{Towards: 4}), four(4, marking.FourJaw{Towards: 5}), "jaw towards which"},
		{"half its diameter", four(3, marking.FourJaw{Readings: millimetres(9.99), Diameter: mm(10)}),
			four(3, marking.FourJaw{Readings: millimetres(10.01), Diameter: mm(10)}), "more than the diameter of the work 10 mm"},
		{"just half its diameter", four(3, marking.FourJaw{Readings: millimetres(20 - hair), Diameter: mm(20)}),
			four(3, marking.FourJaw{Readings: millimetres(20), Diameter: mm(20)}), "more than the diameter of the work 20 mm"},
		{"10 degrees", vee(10.0001, 0), vee(9.9999, 0), "angle of the vee"}, {"170 degrees", vee(169.9999, 0), vee(170.0001, 0), "10 to 170"},
		{"in the bar", vee(90, 10-hair), vee(90, 10), "below half of the bar"}, {"no offset", vee(90, 0), vee(90, -hair), "offset"},
		{"upright", line(90), line(90.0001), "angle of the line"}, {"down", line(-90), line(-90.0001), "-90 to 90"},
		{"dial", dial(10 - hair), dial(10), "below half of the diameter"},
		{"boss", sheave(marking.Sheave{Boss: mm(6 + hair)}), sheave(marking.Sheave{Boss: mm(6)}), "more than the bore, 6 mm"},
		{"no lip", sheave(marking.Sheave{}), sheave(marking.Sheave{Lip: mm(-hair)}), "lip"},
		{"no screw", sheave(marking.Sheave{Screw: mm(hair)}), sheave(marking.Sheave{Screw: mm(-hair)}), "grub screw"},
		{"bright", sheave(marking.Sheave{Clean: mm(hair)}), sheave(marking.Sheave{Clean: mm(-hair)}), "cleaning"},
		{"no bar", sheave(marking.Sheave{Bar: mm(hair)}), sheave(marking.Sheave{Bar: mm(-hair)}), "bar"},
		{"narrow strap", groove(1), groove(1 - hair), "width of the strap"}, {"wide strap", groove(1000), groove(1000 + hair), "1 mm to 1 m"},
		{"full round", reach(2.5, 9), reach(2.5+hair, 9), "what the end has room for, 2.5 mm"}, {"sharp", reach(0, 0), reach(-hair, 0), "corners of the end"},
		{"no swing", reach(0, 0), reach(0, -1e-9), "swing"}, {"a right angle", reach(0, 90), reach(0, 90.000001), "from 0 to 90 degrees"},
		{"metal beside", clevis(func(c *marking.Clevis) { c.Pin = mm(5 - 1e-8) }), clevis(func(c *marking.Clevis) { c.Pin = mm(5) }), "leaves metal round it in the eye"},
		{"metal beside the fork", clevis(func(c *marking.Clevis) { c.Fork.Width = mm(3 + hair) }), clevis(func(c *marking.Clevis) { c.Fork.Width = mm(3) }), "in the fork"},
		{"1 m", clevis(func(c *marking.Clevis) { c.Slot = mm(1000) }), clevis(func(c *marking.Clevis) { c.Slot = mm(1000 + hair) }), "slot"},
		{"no shoulder", clevis(func(c *marking.Clevis) { c.Shoulder = mm(0) }), clevis(func(c *marking.Clevis) { c.Shoulder = mm(-hair) }), "up to 1 m"},
		{"neither", clevis(func(c *marking.Clevis) { c.Gap, c.Thickness = mm(0), mm(0) }), clevis(func(c *marking.Clevis) { c.Thickness = mm(0) }), "both, for the end float, or neither"},
		{"cavity", slot(func(n *marking.NutSlot) { n.Cavity = mm(8 - hair) }), slot(func(n *marking.NutSlot) { n.Cavity = mm(8) }), "below the height of the valve, 8 mm"},
		{"wear", slot(func(n *marking.NutSlot) { n.Wear = mm(0) }), slot(func(n *marking.NutSlot) { n.Wear = mm(-hair) }), "wear"},
		{"nut over the rod", slot(func(n *marking.NutSlot) { n.Rod = mm(5 - hair) }), slot(func(n *marking.NutSlot) { n.Rod = mm(5) }), "thinner than its nut"},
		{"nut beside the rod", slot(func(n *marking.NutSlot) { n.Long = mm(2.5 + hair) }), slot(func(n *marking.NutSlot) { n.Long = mm(2.5) }), "high and long"},
		{"slot in the valve", slot(func(n *marking.NutSlot) { n.Thick = mm(15.37 - hair) }), slot(func(n *marking.NutSlot) { n.Thick = mm(15.37) }), "shorter than the valve"},
		{"cutter", cuts(2, 10), cuts(2+hair, 10), "the port of the head end"}, {"cutter in the length", cuts(1.9, 1.9), cuts(1.9, 1.9-hair), "cutter"},
		{"1000 passes", depths(10), depths(10.001), "up to 1000 passes, 10 mm"},
	} {
		if err := l.taken(); err != nil {
			t.Errorf("%s: %v", l.name, err)
		}
		if err := l.less(); !errors.As(err, new(*units.ArgumentError)) || !strings.Contains(err.Error(), l.want) {
			t.Errorf("%s: %v, want %q", l.name, err, l.want)
		}
	}
}

// worst is the most severe of what is found with a code; blank for none.
func worst(found finding.List, code finding.Code) string {
	text := ""
	for _, f := range found {
		if f.Code == code {
			text = f.Severity.String()
		}
	}
	return text
}

// What is found begins and ends where it is said to.
func TestWhereFindingsBegin(t *testing.T) {
	mm := units.MM
	three := func(offset, jaw, opens float64) finding.List {
		found, err := marking.ThreeJaw{Blank: mm(20), Offset: mm(offset), Jaw: mm(jaw), Opens: mm(opens)}.Check()
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	// the edges touch at u = e sin 60 - w/2 from the axis: none of it presses from u = R/2 on,
	// half as much as flat faces do at 2 sin(30 - asin(u/R)) = 1/2
	sin60 := math.Sqrt(3) / 2
	none := 5 / sin60
	half := (10*math.Sin(math.Pi/6-math.Asin(0.25)) + 1) / sin60 // jaws of 2 mm
	grip, err := marking.ThreeJaw{Blank: mm(20), Offset: mm(3)}.Packing()
	if err != nil {
		t.Fatal(err)
	}
	sheave := func(diameter, boss, screw, bar float64) finding.List {
		found, err := marking.Sheave{Bore: mm(8), Offset: mm(3), Diameter: mm(diameter), Boss: mm(boss), Screw: mm(screw), Bar: mm(bar)}.Check()
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	clevis := func(slot, gap, pin float64) finding.List {
		size, err := marking.Clevis{Pin: mm(pin), Slot: mm(slot), Thickness: mm(3), Gap: mm(gap),
			Eye: marking.EyeEnd{Width: mm(6), Beyond: mm(3)}, Fork: marking.EyeEnd{Width: mm(6), Beyond: mm(3)}}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return size.Findings
	}
	eye := func(width, beyond float64) finding.List { // on a pin of 3 mm
		size, err := marking.Clevis{Pin: mm(3), Eye: marking.EyeEnd{Width: mm(width), Beyond: mm(beyond)},
			Fork: marking.EyeEnd{Width: mm(6), Beyond: mm(3)}}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return size.Findings
	}
	slot := func(change func(*marking.NutSlot)) finding.List {
		n := exampleSlot()
		change(&n)
		size, err := n.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return size.Findings
	}
	above := func(v float64) func(*marking.NutSlot) { return func(n *marking.NutSlot) { n.RodAbove = mm(v) } }
	play := func(v float64) func(*marking.NutSlot) { return func(n *marking.NutSlot) { n.Play = mm(v) } }
	long := func(v float64) func(*marking.NutSlot) { return func(n *marking.NutSlot) { n.Long = mm(v) } }
	fast := func(times units.RotationalSpeed) finding.List {
		limit, err := marking.SpeedLimit(mm(3))
		if err != nil {
			t.Fatal(err)
		}
		found, err := marking.TooFast(mm(3), limit.Speed*times)
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	for _, dial := range []struct {
		has   float64
		short bool
	}{{7, false}, {7 - 1e-6, true}} { // of a sheave that goes over 7 mm
		if s, err := (marking.Dial{Range: mm(dial.has), Offset: mm(3.5), Diameter: mm(20)}).Sweep(); err != nil || s.Short != dial.short {
			t.Errorf("%v: %v, %v", dial, s, err)
		}
	}
	for _, f := range []struct {
		name          string
		code          finding.Code
		before, after finding.List
		was, is       string
	}{
		{"pushed off", marking.NotHeld, three(none-1e-6, 0, 0), three(none+1e-6, 0, 0), "", "danger"},
		{"half the push", marking.NotHeld, three(half-1e-6, 2, 0), three(half+1e-6, 2, 0), "", "caution"},
		{"pushed off by wide ones", marking.NotHeld, three(none+1/sin60-1e-6, 2, 0), three(none+1/sin60+1e-6, 2, 0), "caution", "danger"},
		{"the jaws grip", marking.JawsTooFar, three(3, 0, grip.JawsGrip.MM()), three(3, 0, grip.JawsGrip.MM()-1e-6), "", "danger"},
		{"an eighth of the bore", marking.ThinSheave, sheave(16, 0, 0, 0), sheave(16-1e-6, 0, 0, 0), "", "caution"},
		{"no wall", marking.NoWall, sheave(14+1e-6, 0, 0, 0), sheave(14, 0, 0, 0), "", "fails"},
		{"a thin boss", marking.ThinSheave, sheave(20, 10, 0, 0), sheave(20, 10-1e-6, 0, 0), "", "caution"},
		{"thread in the boss", marking.ShortScrew, sheave(20, 12, 2, 0), sheave(20, 12, 2+1e-6, 0), "", "caution"},
		{"thread in the sheave", marking.ShortScrew, sheave(20, 0, 9, 0), sheave(20, 0, 9+1e-6, 0), "", "caution"},
		{"a bar", marking.BarTooSmall, sheave(20, 0, 0, 20), sheave(20, 0, 0, 20-1e-6), "", "fails"},
		{"a bar for the boss", marking.BarTooSmall, sheave(20, 15, 0, 21), sheave(20, 15, 0, 21-1e-6), "", "fails"},
		{"a boss past the face", marking.BossInStrap, sheave(20, 14, 0, 0), sheave(20, 14+1e-6, 0, 0), "", "note"},
		{"room behind the eye", marking.ClevisBinds, clevis(3.2, 3.1, 3), clevis(3.2-1e-6, 3.1, 3), "", "note"},
		{"it binds", marking.ClevisBinds, clevis(3, 3.1, 3), clevis(3-1e-6, 3.1, 3), "note", "fails"},
		{"end float", marking.EndFloat, clevis(3.2, 3.05, 3), clevis(3.2, 3.05-1e-6, 3), "", "note"},
		{"much of it", marking.EndFloat, clevis(3.2, 3.25, 3), clevis(3.2, 3.25+1e-6, 3), "", "note"},
		{"none of it", marking.EndFloat, clevis(3.2, 3+1e-6, 3), clevis(3.2, 3, 3), "note", "fails"},
		{"half of the pin", marking.ThinEye, clevis(3.2, 3.1, 3), clevis(3.2, 3.1, 3+1e-6), "", "caution"},
		{"beside the pin", marking.ThinEye, eye(6, 4), eye(6-1e-6, 4), "", "caution"},
		{"behind the pin", marking.ThinEye, eye(9, 3), eye(9, 3-1e-6), "", "caution"},
		// the bottom of the slot is half the nut and the lift below the rod, 3 mm: over a cavity of 3 mm
		{"1 mm over the cavity", marking.SlotThin, slot(above(7)), slot(above(7 - 1e-6)), "", "caution"},
		{"into the cavity", marking.SlotThin, slot(above(6 + 1e-6)), slot(above(6)), "caution", "fails"},
		// the nut begins 2.5 mm below the rod, and the worn valve ends at 7.7 mm
		{"held by half", marking.NutLetsGo, slot(above(7.7)), slot(above(7.7 + 1e-6)), "", "caution"},
		{"held by nothing", marking.NutLetsGo, slot(above(10.2 - 1e-6)), slot(above(10.2)), "caution", "fails"},
		{"some play", marking.NutBinds, slot(play(hair)), slot(play(0)), "", "caution"},
		{"much play", marking.NutBinds, slot(play(0.1)), slot(play(0.1 + 1e-6)), "", "note"},
		{"a nut as wide as the valve", marking.NutThin, slot(long(16)), slot(long(16 + 1e-6)), "", "caution"},
		{"a nut of two rods", marking.NutThin, slot(long(5)), slot(long(5 - 1e-6)), "", "note"},
		{"speed", marking.SetOverTooFast, fast(1), fast(1.000001), "", "danger"},
	} {
		if was, is := worst(f.before, f.code), worst(f.after, f.code); was != f.was || is != f.is {
			t.Errorf("%s: %q before and %q after, want %q and %q", f.name, was, is, f.was, f.is)
		}
	}
}
