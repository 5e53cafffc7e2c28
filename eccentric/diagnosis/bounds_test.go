package diagnosis_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// Each bound of a reading is taken in, and what is next to it is not, with what is
// accepted. The bounds are our own choice: half a turn before the dead centre to a whole
// one after it, a share of the stroke, a kilometre, and what still tells something.
func TestBoundsOfAReading(t *testing.T) {
	const head, crank, both = eccentric.HeadEnd, eccentric.CrankEnd, eccentric.BothEnds
	type reading = diagnosis.Reading
	angle := func(a, within units.Angle) reading {
		return reading{Kind: diagnosis.CutOff, End: head, Angle: a * units.Degree, Within: spread.Deviation{Angle: within * units.Degree}}
	}
	share := func(s, within float64) reading {
		return reading{Kind: diagnosis.Release, End: crank, ByStroke: true, Stroke: s, Within: spread.Deviation{Ratio: within}}
	}
	lead := func(mm, within units.Length) reading {
		return reading{Kind: diagnosis.Lead, End: head, Length: mm, Within: spread.Deviation{Length: within}}
	}
	valve := func(crank units.Angle) reading { return reading{Kind: diagnosis.ValveAt, Crank: crank * units.Degree} }
	pm, km, zero := units.Picometres(1), units.MM(1e6), units.Length{}
	nan := units.Angle(math.NaN())
	const range_ = "from -180 to 360 degrees from that end's own dead centre"
	for _, test := range []struct {
		name       string
		taken, not reading
		field      string
		want       string
	}{
		{"late, usual error", angle(361.9999999, 0), angle(362.0001, 0), "reading of cut_off", range_},
		{"early, usual error", angle(-181.9999999, 0), angle(-182.0001, 0), "reading of cut_off", range_},
		{"late, wide error", angle(369.9999999, 80), angle(370.0001, 80), "reading of cut_off", range_},
		{"early, wide error", angle(-189.9999999, 80), angle(-190.0001, 80), "reading of cut_off", range_},
		{"angle is no number", angle(100, 0), angle(nan, 0), "reading of cut_off", ""},
		{"error is no number", angle(100, 1), angle(100, nan), "reading of cut_off", ""},
		{"crank is no number", valve(0), valve(nan), "reading of valve_at", ""},
		{"endless angle", angle(100, 0), angle(units.Angle(math.Inf(1)), 0), "reading of cut_off", ""},
		{"crank forward", valve(360), valve(360.0001), "crank angle of the reading of valve_at", "from -360 to 360 degrees"},
		{"crank back", valve(-360), valve(-360.0001), "crank angle of the reading of valve_at", "from the head-end dead centre"},
		{"whole stroke", share(1.00999999, 0), share(1.0100001, 0), "reading of release", "a share of the stroke from 0 to 1"},
		{"no stroke", share(-0.00999999, 0), share(-0.0100001, 0), "reading of release", "a share of the stroke from 0 to 1"},
		{"whole stroke, wide error", share(1.05, 0.2), share(1.0500001, 0.2), "reading of release", "from 0 to 1"},
		{"no stroke, wide error", share(-0.05, 0.2), share(-0.0500001, 0.2), "reading of release", "from 0 to 1"},
		{"share is no number", share(0.5, 0), share(math.NaN(), 0), "reading of release", "from 0 to 1"},
		{"long", lead(km, zero), lead(km.Add(pm), zero), "reading of lead", "up to 1 km either way"},
		{"long the other way", lead(km.Neg(), zero), lead(km.Neg().Sub(pm), zero), "reading of lead", "up to 1 km either way"},
		{"no opening", reading{Kind: diagnosis.Opening, End: head}, reading{Kind: diagnosis.Opening, End: head, Length: pm.Neg()},
			"reading of opening", "a length of zero or more"},
		{"no exhaust", reading{Kind: diagnosis.ExhaustOpening, End: head}, reading{Kind: diagnosis.ExhaustOpening, End: head, Length: pm.Neg()},
			"reading of exhaust_opening", "a length of zero or more"},
		{"no travel", reading{Kind: diagnosis.Travel}, reading{Kind: diagnosis.Travel, Length: pm.Neg()}, "reading of travel",
			"a length of zero or more"},
		{"lead below zero", lead(pm.Neg(), zero), lead(km.Neg().Sub(pm), zero), "reading of lead", "up to 1 km"},
		{"wide angle", angle(100, 90), angle(100, 90.0001), "what the reading of cut_off may be out by", "up to 90 degrees, or zero for 2 degrees"},
		{"angle out by less than nothing", angle(100, 0), angle(100, -1e-9), "what the reading of cut_off may be out by", "up to 90 degrees"},
		{"wide length", lead(zero, units.MM(10)), lead(zero, units.MM(10).Add(pm)), "what the reading of lead may be out by",
			"up to 10 mm, or zero for 0.1 mm"},
		{"length out by less than nothing", lead(zero, pm), lead(zero, pm.Neg()), "what the reading of lead may be out by", "up to 10 mm"},
		{"wide share", share(0.5, 0.5), share(0.5, 0.500001), "what the reading of release may be out by",
			"up to half the stroke, or zero for a hundredth of it"},
		{"share out by less than nothing", share(0.5, 0), share(0.5, -1e-9), "what the reading of release may be out by", "up to half"},
		{"share out by no number", share(0.5, 0.1), share(0.5, math.NaN()), "reading of release", "from 0 to 1"},
		{"end of the travel", reading{Kind: diagnosis.Travel}, reading{Kind: diagnosis.Travel, End: head}, "reading of travel",
			"it belongs to neither end"},
		{"end of the place", reading{Kind: diagnosis.ValveAt, End: both}, reading{Kind: diagnosis.ValveAt, End: crank}, "reading of valve_at",
			"it belongs to neither end"},
		{"end of a lead", lead(zero, zero), reading{Kind: diagnosis.Lead}, "reading of lead", "it does not say of which end"},
		{"end of an event", angle(1, 0), reading{Kind: diagnosis.CutOff, Angle: 1}, "reading of cut_off", `"head" or "crank"`},
		{"an unknown end", lead(zero, zero), reading{Kind: diagnosis.Lead, End: 9}, "reading of lead", "it does not say of which end"},
	} {
		if err := test.taken.Validate(); err != nil {
			t.Errorf("%s: at the bound: %v", test.name, err)
		}
		var bad *units.ArgumentError
		if err := test.not.Validate(); !errors.As(err, &bad) || bad.Field != test.field || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: beyond the bound: %v, want the %s and %q", test.name, err, test.field, test.want)
		}
	}
}

// A reading has what its kind is measured in and nothing else, whichever kind it is.
func TestStrayOfAReading(t *testing.T) {
	for _, kind := range diagnosis.Kinds() {
		event := kind <= diagnosis.Compression
		length := kind >= diagnosis.Lead && kind <= diagnosis.ValveAt
		plain := diagnosis.Reading{Kind: kind}
		if kind != diagnosis.Travel && kind != diagnosis.ValveAt {
			plain.End = eccentric.CrankEnd
		}
		if kind == diagnosis.OpensNext {
			plain.Opens = diagnosis.Exhaust
		}
		if err := plain.Validate(); err != nil {
			t.Errorf("%v: %v", kind, err)
		}
		for _, test := range []struct {
			stray  string
			change func(r *diagnosis.Reading)
			taken  bool
		}{
			{"an angle", func(r *diagnosis.Reading) { r.Angle = 1 }, event},
			{"a share of the stroke", func(r *diagnosis.Reading) { r.ByStroke = true }, event},
			{"a share of the stroke", func(r *diagnosis.Reading) { r.Stroke = 0.5 }, false},
			{"a never", func(r *diagnosis.Reading) { r.Never = true }, event},
			{"an angle", func(r *diagnosis.Reading) { r.Angle, r.Never = 1, true }, false},
			{"an angle", func(r *diagnosis.Reading) { r.Angle, r.ByStroke = 1, true }, false},
			{"a length", func(r *diagnosis.Reading) { r.Length = units.MM(1) }, length},
			{"a crank angle", func(r *diagnosis.Reading) { r.Crank = 1 }, kind == diagnosis.ValveAt},
			{"a side to which it opens", func(r *diagnosis.Reading) { r.Opens = diagnosis.Steam }, kind == diagnosis.OpensNext},
			{"measured in something else", func(r *diagnosis.Reading) { r.Within.Angle = 0.1 }, event},
			{"measured in something else", func(r *diagnosis.Reading) { r.Within.Length = units.MM(1) }, length},
			{"measured in something else", func(r *diagnosis.Reading) { r.Within.Ratio = 0.1 }, false},
			{"measured in something else", func(r *diagnosis.Reading) { r.Never, r.Within.Angle = true, 0.1 }, false},
			{"measured in something else", func(r *diagnosis.Reading) { r.ByStroke, r.Within.Angle = true, 0.1 }, false},
			{"something else", func(r *diagnosis.Reading) { r.ByStroke, r.Within.Ratio = true, 0.1 }, event},
			{"never to happen too", func(r *diagnosis.Reading) { r.ByStroke, r.Never = true, true }, false},
		} {
			r := plain
			test.change(&r)
			err := r.Validate()
			if test.taken {
				if err != nil {
					t.Errorf("%v: %v", r, err)
				}
				continue
			}
			if !event && (r.Never || r.ByStroke) {
				check.Refuses(t, r.String(), err, units.ErrOutOfRange, "") // which of two it is does not matter
				continue
			}
			check.Refuses(t, r.String(), err, units.ErrOutOfRange, test.stray)
		}
	}
	for _, r := range []diagnosis.Reading{{}, {Kind: 11}, {Kind: -1}, {Kind: diagnosis.OpensNext, End: eccentric.HeadEnd, Opens: 3}} {
		if err := r.Validate(); err == nil {
			t.Errorf("%v is a reading", r)
		}
	}
}

// Two hundred readings are taken and no more, and each bad one is told by its number.
func TestManyReadings(t *testing.T) {
	c := diagnosis.Case{Gear: demo()}
	for range 200 {
		c.Readings = append(c.Readings, diagnosis.Reading{Kind: diagnosis.Travel, Length: units.MM(6.4)})
	}
	if err := c.Validate(); err != nil {
		t.Error(err)
	}
	c.Readings = append(c.Readings, c.Readings[0])
	check.Refuses(t, "201 readings", c.Validate(), units.ErrOutOfRange, "number of readings 201")
	c.Readings = c.Readings[:3]
	c.Readings[1].End, c.Readings[2].Length = eccentric.HeadEnd, units.MM(-1)
	text := fmt.Sprint(c.Validate())
	if !strings.Contains(text, "reading 2") || !strings.Contains(text, "reading 3") || strings.Contains(text, "reading 1:") {
		t.Error(text)
	}
	if _, err := c.Diagnose(); err == nil {
		t.Error("bad readings were diagnosed")
	}
	if text := fmt.Sprint(diagnosis.Case{}.Validate()); !strings.Contains(text, "stroke: missing") {
		t.Error(text)
	}
}

// What is written in an engine file is read with its measure and what it may be out by.
func TestReadingFromText(t *testing.T) {
	deg, pc := units.Degree, 0.01
	for _, test := range []struct {
		kind          diagnosis.Kind
		value, within string
		want          diagnosis.Reading // without its kind
		refused       string
	}{
		{kind: diagnosis.CutOff, value: " 100 deg ", within: " 1 deg ",
			want: diagnosis.Reading{Angle: 100 * deg, Within: spread.Deviation{Angle: deg}}},
		{kind: diagnosis.CutOff, value: "100 deg", want: diagnosis.Reading{Angle: 100 * deg}},
		{kind: diagnosis.CutOff, value: "87 %", within: "2%",
			want: diagnosis.Reading{ByStroke: true, Stroke: 87 * pc, Within: spread.Deviation{Ratio: 2 * pc}}},
		{kind: diagnosis.CutOff, value: "87%", want: diagnosis.Reading{ByStroke: true, Stroke: 87 * pc}},
		{kind: diagnosis.Release, value: "NEVER", want: diagnosis.Reading{Never: true}},
		{kind: diagnosis.Lead, value: "-0.2 mm", within: "0.05 mm",
			want: diagnosis.Reading{Length: units.MM(-0.2), Within: spread.Deviation{Length: units.MM(0.05)}}},
		{kind: diagnosis.Travel, value: "6.4 mm", want: diagnosis.Reading{Length: units.MM(6.4)}},
		{kind: diagnosis.OpensNext, value: "Exhaust", want: diagnosis.Reading{Opens: diagnosis.Exhaust}},
		{kind: diagnosis.CutOff, value: "87 %", within: "1 deg", refused: "what the reading of cut_off may be out by"},
		{kind: diagnosis.CutOff, value: "x %", refused: "reading of cut_off"},
		{kind: diagnosis.CutOff, value: "inf %", refused: "a number with a percent sign"},
		{kind: diagnosis.CutOff, value: "-inf %", refused: "a number with a percent sign"},
		{kind: diagnosis.CutOff, value: "nan %", refused: "it is not a share of the stroke"},
		{kind: diagnosis.CutOff, value: "100 deg", within: "0 deg", refused: "more than nothing"},
		{kind: diagnosis.CutOff, value: "87 %", within: "0 %", refused: "more than nothing"},
		{kind: diagnosis.Lead, value: "1 mm", within: "0 mm", refused: "it cannot be out by so much"},
		{kind: diagnosis.Release, value: "never", within: "1 deg", refused: "in the measure of the reading, or left out"},
		{kind: diagnosis.OpensNext, value: "steam", within: "1 deg", refused: "it cannot be out by so much"},
		{kind: diagnosis.OpensNext, value: "never", refused: "side to which a port opens"},
		{kind: diagnosis.Lead, value: "never", refused: "never"},
		{kind: diagnosis.Lead, value: "87 %", refused: "87 %"},
		{kind: diagnosis.Lead, value: "1 mm", within: "1 deg", refused: "1 deg"},
		{kind: diagnosis.CutOff, value: "1 mm", refused: "1 mm"},
		{kind: diagnosis.CutOff, value: "1 deg", within: "1 mm", refused: "1 mm"},
		{kind: 0, value: "1 mm", refused: "kind of reading"},
		{kind: 11, value: "1 mm", refused: "kind of reading"},
	} {
		got, err := test.kind.Read(test.value, test.within)
		if test.refused != "" {
			if err == nil || !strings.Contains(err.Error(), test.refused) || got != (diagnosis.Reading{}) {
				t.Errorf("%v from %q within %q: %v, %v, want %q", test.kind, test.value, test.within, got, err, test.refused)
			}
			continue
		}
		test.want.Kind = test.kind
		off := math.Abs(float64(got.Angle-test.want.Angle)) + math.Abs(got.Stroke-test.want.Stroke) +
			math.Abs(float64(got.Within.Angle-test.want.Within.Angle)) + math.Abs(got.Within.Ratio-test.want.Within.Ratio)
		got.Angle, got.Stroke, got.Within.Angle, got.Within.Ratio = test.want.Angle, test.want.Stroke, test.want.Within.Angle, test.want.Within.Ratio
		if err != nil || got != test.want || !(off < 1e-12) {
			t.Errorf("%v from %q within %q: %v, %v, want %v", test.kind, test.value, test.within, got, err, test.want)
		}
	}
}

// Two readings agree as long as they differ by no more than both may be out, and to a
// millionth beyond they do not.
func TestAgreesAtItsBounds(t *testing.T) {
	head := eccentric.HeadEnd
	mm, deg := units.MM, units.Degree
	base := map[string]diagnosis.Reading{
		"length": {Kind: diagnosis.Lead, End: head, Length: mm(1), Within: spread.Deviation{Length: mm(0.2)}},
		"angle":  {Kind: diagnosis.CutOff, End: head, Angle: 100 * deg, Within: spread.Deviation{Angle: 3 * deg}},
		"share":  {Kind: diagnosis.CutOff, End: head, ByStroke: true, Stroke: 0.5, Within: spread.Deviation{Ratio: 0.03}},
		"usual":  {Kind: diagnosis.Lead, End: head, Length: mm(1)},
		"valve":  {Kind: diagnosis.ValveAt, Length: mm(1), Crank: deg},
	}
	for name, out := range map[string]float64{"length": 0.3, "angle": 5, "share": 0.04, "usual": 0.2, "valve": 0.2} {
		a := base[name]
		for _, sign := range []float64{-1, 1} {
			for _, share := range []float64{1 - 1e-6, 1 + 1e-6} {
				b := a
				b.Within = spread.Deviation{}
				switch by := sign * share * out; name {
				case "angle":
					b.Angle += units.Angle(by) * deg // and the usual 2 degrees
				case "share":
					b.Stroke += by // and the usual hundredth
				default:
					b.Length = b.Length.Add(mm(by)) // and the usual 0.1 mm
				}
				if got := a.Agrees(b); got != (share < 1) || b.Agrees(a) != got {
					t.Errorf("%s, off by %v of what both may be out: %v", name, sign*share, got)
				}
			}
		}
	}
	a := base["valve"]
	b := a
	b.Crank, b.Length = 2*deg, mm(5)
	if !a.Agrees(b) {
		t.Error("readings at different crank angles agree")
	}
	b = base["angle"]
	b.Never, b.Angle, b.Within = true, 0, spread.Deviation{}
	if base["angle"].Agrees(b) || !b.Agrees(b) {
		t.Error("an event that is read and one that never happens")
	}
	share := base["share"]
	share.Stroke = 0.9
	if !base["angle"].Agrees(share) {
		t.Error("an angle and a share of the stroke are of different measures")
	}
}
