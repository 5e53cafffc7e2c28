package marking_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

var longNumber = regexp.MustCompile(`-?\d+\.\d{4,}(e-\d+)?`)

// sixDigits shortens the numbers of a text, so that it is the same on all machines.
func sixDigits(text string) string {
	return longNumber.ReplaceAllStringFunc(text, func(s string) string {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return s
		}
		return strconv.FormatFloat(math.Round(v*1e6)/1e6+0, 'g', 6, 64)
	})
}

// A keeper writes answers down, each on a line, and below it what is found.
type keeper struct {
	t *testing.T
	strings.Builder
}

func (k *keeper) say(what string, answer any, err error, found ...finding.Finding) {
	k.t.Helper()
	if err != nil {
		answer = err
	}
	fmt.Fprintf(k, "%s: %s\n", what, sixDigits(fmt.Sprint(answer)))
	for _, f := range found {
		fmt.Fprintf(k, "  %s %v %s: %s\n    %s\n    %v\n", f.Code, f.Severity, f.Where, sixDigits(f.Text), sixDigits(strings.Join(f.Remedies, " | ")), f.Refs)
	}
}

func millimetres(all ...float64) (lengths []units.Length) {
	for _, v := range all {
		lengths = append(lengths, units.MM(v))
	}
	return lengths
}

// Kept is what is answered and said of chucks, bars and sheaves; that the figures are right
// is held by the other tests.
func TestSetOverKept(t *testing.T) {
	mm, k := units.MM, &keeper{t: t}
	for _, c := range []marking.ThreeJaw{
		{Blank: mm(20), Offset: mm(3.5)}, {Blank: mm(20), Offset: mm(3.5), Jaw: mm(5)}, {Blank: mm(20), Offset: mm(3.5), Jaw: mm(8), Opens: mm(20)},
		{Blank: mm(20), Offset: mm(5), Jaw: mm(2)}, {Blank: mm(20), Offset: mm(6)}, {Blank: mm(20), Offset: mm(9), Jaw: mm(4), Opens: mm(60)},
		{Blank: units.Inch(1.25), Offset: units.Thou(120), Jaw: units.Inch(0.2)},
	} {
		p, err := c.Packing()
		k.say(fmt.Sprintf("%+v packing", c), p, err)
		found, err := c.Check()
		k.say("  check", len(found), err, found...)
		offset, err := c.OffsetFor(p.Thickness.Scale(0.9))
		k.say("  nine tenths of it", offset, err)
		for _, reading := range []float64{1.9, 2.0, 2.1} {
			correction, err := c.Correct(p.Thickness, c.Offset.Scale(reading))
			k.say(fmt.Sprintf("  dial over %v of the offset", reading), correction, err)
		}
	}
	six := millimetres(0, 0.35, 0.95, 1.10, 0.85, 0.25)
	eight := millimetres(0.1, 0.3, 0.62, 0.5, -0.1, -0.38, -0.61, -0.43)
	for _, c := range []marking.FourJaw{
		{Readings: millimetres(0, 0.3, 0.76, 0.51), Pitch: mm(1.5)}, {Readings: millimetres(0, 0.3, 0.76, 0.51), Falls: true, Pitch: mm(2)},
		{Readings: six, Bore: true}, {Readings: six, Bore: true, Falls: true, Diameter: mm(30)},
		{Readings: eight, Diameter: mm(24), Offset: mm(3), Towards: 2, Pitch: units.InchFraction(1, 20)},
		{Readings: eight, Offset: mm(3), Towards: 3}, {Readings: eight, Offset: mm(0.5), Towards: 4}, {Readings: eight, Offset: mm(0.5)},
		{Readings: eight[:5], Diameter: mm(12), Offset: mm(1), Towards: 1}, {Readings: make([]units.Length, 4)},
		{Readings: millimetres(4, 1, -4, 0, 2), Diameter: mm(9)}, {Readings: millimetres(1, 0, -1, 0)},
	} {
		trued, err := c.Solve()
		k.say(fmt.Sprintf("%+v trued", c), trued, err)
	}
	for _, v := range []marking.Vee{{Bar: mm(20), Included: 90 * units.Degree, Offset: mm(3.5)}, {Bar: units.Inch(0.75), Included: 60 * units.Degree}} {
		heights, err := v.Heights()
		k.say(fmt.Sprintf("%+v heights", v), heights, err)
		over, err := heights.Over(mm(61.3))
		k.say("  over", over, err)
		top, root, err := v.Misses(v.Bar.Sub(mm(0.05)))
		k.say("  misses", fmt.Sprint(top, " ", root), err)
	}
	for _, degrees := range []float64{-90, -20, 0, 26, 90} {
		h, err := marking.LineHeight(mm(6), units.Angle(degrees)*units.Degree)
		k.say(fmt.Sprintf("line at %v degrees on 6 mm", degrees), h, err)
	}
	for _, d := range []marking.Dial{{Range: mm(10), Offset: mm(3.5), Diameter: mm(20)}, {Range: mm(5), Offset: mm(3.5), Diameter: mm(20)}, {Range: mm(1), Offset: mm(8), Diameter: mm(20)}} {
		sweep, err := d.Sweep()
		k.say(fmt.Sprintf("%+v sweep", d), sweep, err)
	}
	for _, s := range []marking.Sheave{
		{Bore: mm(6), Offset: mm(3.2), Diameter: mm(20), Boss: mm(12), Screw: mm(3)}, {Bore: mm(6), Offset: mm(3.2), Diameter: mm(12.4), Lip: mm(1)},
		{Bore: mm(8), Offset: mm(3), Diameter: mm(15), Boss: mm(9.5), Screw: mm(3), Clean: mm(0.5), Bar: mm(16)},
		{Bore: mm(6), Offset: mm(3.2), Diameter: mm(18), Boss: mm(13), Lip: mm(0.8), Bar: mm(25)}, {Bore: mm(6), Offset: mm(3.2), Diameter: mm(20), Screw: mm(3)},
	} {
		walls, err := s.Walls()
		k.say(fmt.Sprintf("%+v walls", s), walls, err)
		found, err := s.Check()
		k.say("  check", len(found), err, found...)
	}
	for _, strap := range []float64{1, 5, 6.4, 10, 1000} {
		groove, err := marking.GrooveFor(mm(strap))
		k.say(fmt.Sprintf("groove for %v mm", strap), groove, err)
	}
	for _, offset := range []float64{1, 3.1, 3.2, 3.5} {
		turned, err := marking.AsTurned(demo(), mm(offset))
		k.say(fmt.Sprintf("turned to %v mm", offset), turned, err)
	}
	for _, offset := range []float64{0.5, 3.5, 40} {
		limit, err := marking.SpeedLimit(mm(offset))
		k.say(fmt.Sprintf("limit at %v mm off", offset), fmt.Sprintf("%.6g rev/min %s %v", limit.Speed.In(units.RevPerMinute), limit.Reason, limit.Ref), err)
		steady, err := marking.SteadySpeed(mm(offset))
		k.say("  steady", fmt.Sprintf("%.6g rev/min %s %v", steady.Speed.In(units.RevPerMinute), steady.Reason, steady.Ref), err)
		for _, times := range []float64{0.2, 0.9, 0.9999, 1.0001, 3} {
			found, err := marking.TooFast(mm(offset), limit.Speed*units.RotationalSpeed(times))
			k.say(fmt.Sprintf("  at %v times the limit", times), len(found), err, found...)
		}
	}
	for _, p := range marking.Precautions() {
		k.say(string(p.Code), p.Text, nil)
	}
	check.Kept(t, "eccentric/marking/kept/set_over.txt", k.String())
}

// Kept is what is answered and said of joints, nuts and ports.
func TestJointsKept(t *testing.T) {
	mm, k := units.MM, &keeper{t: t}
	square := marking.EyeEnd{Width: mm(6), Beyond: mm(3)}
	long := marking.EyeEnd{Width: mm(8), Beyond: mm(6), Corner: mm(1)}
	for _, c := range []marking.Clevis{
		{Pin: mm(3), Swing: 8 * units.Degree, Eye: square, Fork: square},
		{Pin: mm(3), Swing: 8 * units.Degree, Eye: square, Fork: long, Slot: mm(3.2), Shoulder: mm(6.1)},
		{Pin: mm(3), Swing: 30 * units.Degree, Eye: long, Fork: square, Slot: mm(6.6), Shoulder: mm(3.4), Thickness: mm(3), Gap: mm(3.1)},
		{Pin: mm(4), Swing: 8 * units.Degree, Eye: square, Fork: long, Slot: mm(3.1), Shoulder: mm(5), Thickness: mm(3), Gap: mm(3.02)},
		{Pin: mm(3), Swing: 60 * units.Degree, Eye: long, Fork: long, Slot: mm(7.2), Shoulder: mm(7.25), Thickness: mm(3), Gap: mm(3.3)},
		{Pin: mm(3), Eye: square, Fork: square, Slot: mm(3.2), Shoulder: mm(3.1), Thickness: mm(3), Gap: mm(3)},
		{Pin: mm(3), Swing: 90 * units.Degree, Eye: square, Fork: square, Slot: mm(2), Shoulder: mm(4.45), Thickness: mm(3), Gap: mm(2.9)},
	} {
		size, err := c.Solve()
		k.say(fmt.Sprintf("%+v", c), size, err, size.Findings...)
	}
	for _, change := range []func(*marking.NutSlot){
		func(*marking.NutSlot) {}, func(n *marking.NutSlot) { n.RodAbove = mm(5.5) }, func(n *marking.NutSlot) { n.Cavity = mm(4) },
		func(n *marking.NutSlot) { n.RodAbove, n.Play = mm(10.4), units.Length{} }, func(n *marking.NutSlot) { n.RodAbove, n.Long = mm(8.5), mm(4) },
		func(n *marking.NutSlot) { n.Play, n.Long = mm(0.2), mm(17) }, func(n *marking.NutSlot) { n.Wear = mm(3.5) },
		func(n *marking.NutSlot) { n.RodAbove = mm(14) },
	} {
		n := exampleSlot()
		change(&n)
		size, err := n.Solve()
		k.say(fmt.Sprintf("%+v", n), size, err, size.Findings...)
	}
	for _, cutter := range []float64{1, 2, 2.01} {
		cuts, err := marking.PortFace{Ports: demo().Ports, Cutter: mm(cutter)}.Cuts()
		k.say(fmt.Sprintf("cutter of %v mm", cutter), cuts, err)
	}
	depths, err := marking.Depths(mm(3), mm(0.8))
	k.say("3 mm in passes of 0.8", depths, err)
	swing, err := marking.RodSwing(demo())
	k.say("swing", swing.Degrees(), err)
	reach, err := long.Reach(20 * units.Degree)
	k.say("reach", reach, err)
	check.Kept(t, "eccentric/marking/kept/joints.txt", k.String())
}
