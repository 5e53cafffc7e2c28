package diagnosis

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// A sheet is what is kept, line by line.
type sheet struct{ strings.Builder }

func (s *sheet) line(format string, values ...any) { fmt.Fprintf(s, format+"\n", values...) }

// What is said of each fault, with its amount either way and with one that is not known,
// of each end and of both admissions.
func TestWordsAreKept(t *testing.T) {
	var s sheet
	gears := modelGears()
	for _, f := range append(Faults(), 0) {
		ends := []eccentric.End{eccentric.BothEnds}
		if f == WrongSteamLap || f == WrongExhaustLap {
			ends = append(ends, eccentric.HeadEnd, eccentric.CrankEnd)
		}
		for _, end := range ends {
			for _, sign := range []float64{1, -1} {
				p := Part{Fault: f, End: end}
				if f.OfSheave() {
					p.Angle, p.AngleSD = units.Angle(sign*10.26)*units.Degree, 0.84*units.Degree
				} else if f != AsDrawn && f != 0 {
					p.Length, p.LengthSD = units.MM(sign*0.256), units.MM(0.043)
				}
				s.line("%v %v %v: %s | %s", f, end, sign, p.Text(), p.named())
				for _, name := range []string{"plain", "inside"} {
					s.line("  %s: %s", name, Suspect{Part: p, Gear: gears[name]}.Sentence())
				}
				p.AngleSD, p.LengthSD = p.AngleSD*20, p.LengthSD.Scale(20)
				s.line("  hardly known: %s", p.Text())
				p.AngleSD, p.LengthSD = 0, units.Length{}
				s.line("  known: %s", Suspect{Part: p}.Sentence())
			}
		}
	}
	also := &Part{Fault: ValveOffCentre, Length: units.MM(-0.2)}
	pair := Suspect{Part: Part{Fault: WrongAdvance, Angle: -units.Degree}, Also: also}
	s.line("pair: %s | %s", pair.Text(), pair.Sentence())
	for _, v := range []float64{0, 1, -1, 0.4, -0.4, 1.5, 12.34, -179.9} {
		a := units.Angle(v) * units.Degree
		s.line("%v deg: %s, %s, %s", v, degrees(a), tenths(a), signedDegrees(a))
	}
	for _, v := range []float64{0, 0.004, -0.004, 0.0051, 1, -2.5, 12.345} {
		l := units.MM(v)
		s.line("%v mm: %s, %s, %s, %s", v, mm(l), mmThou(l), both(l), tooMuch(l))
	}
	for _, c := range candidates() {
		s.line("read %v %v %.0f, %d: %s", c.kind, c.end, c.crank.Degrees(), c.effort, c.text())
		s.line("  never: %s; 0.3: %s; -0.3: %s", (&forecast{seen: notAtAll}).text(c.kind), (&forecast{mean: 0.3}).text(c.kind),
			(&forecast{mean: -0.3}).text(c.kind))
	}
	s.line("on its edge: %s", (&forecast{}).text(Lead))
	s.line("%s, %s", (&forecast{seen: steam}).text(OpensNext), (&forecast{seen: exhaust}).text(OpensNext))
	for _, f := range Faults() {
		s.line("unread %v: %s", f, f.unread())
	}
	s.line("%s; %s; %s", list([]string{"a"}), list([]string{"a", "b"}), list([]string{"a", "b", "c"}))
	for _, r := range []Reading{
		{Kind: Admission, End: eccentric.HeadEnd, Angle: -4.26 * units.Degree}, {Kind: CutOff, End: eccentric.CrankEnd, ByStroke: true, Stroke: 0.8712},
		{Kind: Release, End: eccentric.HeadEnd, Never: true}, {Kind: Compression, End: eccentric.HeadEnd, Angle: -0.01 * units.Degree},
		{Kind: Lead, End: eccentric.HeadEnd, Length: units.MM(-0.2)}, {Kind: Lead, End: eccentric.HeadEnd, Length: units.MM(-0.001)},
		{Kind: Opening, End: eccentric.HeadEnd, Length: units.MM(1.234)}, {Kind: ExhaustOpening, End: eccentric.CrankEnd, Length: units.MM(2)},
		{Kind: Travel, Length: units.MM(6.4)}, {Kind: ValveAt, Crank: -90 * units.Degree, Length: units.MM(-3)},
		{Kind: OpensNext, End: eccentric.CrankEnd, Opens: Exhaust},
	} {
		s.line("%s: %s", r.Name(), r.Value())
	}
	for _, p := range Precautions() {
		s.line("%s: %s", p.Code, p.Text)
	}
	check.Kept(t, "eccentric/diagnosis/kept/words.txt", s.String())
}

// What is tried on gears of every make before the first run; what is said of several
// gears alike stands with the first of them.
func TestTrialsAreKept(t *testing.T) {
	var s sheet
	told := map[string]bool{}
	once := func(format string, values ...any) {
		if text := fmt.Sprintf(format, values...); !told[text] {
			told[text] = true
			s.line("%s", text)
		}
	}
	gears := modelGears()
	drawn := func(name string, change func(g *eccentric.Gear)) {
		g := gears["plain"]
		change(&g)
		gears[name] = g
	}
	drawn("other hand", func(g *eccentric.Gear) { g.Advance = 154 * units.Degree })
	drawn("half a turn out", func(g *eccentric.Gear) { g.Advance = -154 * units.Degree })
	drawn("in line", func(g *eccentric.Gear) { g.Advance = 88 * units.Degree })
	drawn("square", func(g *eccentric.Gear) { g.Advance = 0 })
	drawn("small", func(g *eccentric.Gear) { g.Travel = units.MM(2) })
	drawn("wide", func(g *eccentric.Gear) { g.Travel, g.Advance = units.MM(9), 50*units.Degree })
	for _, name := range slices.Sorted(maps.Keys(gears)) {
		list, err := FirstRun(gears[name])
		if err != nil {
			t.Fatal(err)
		}
		s.line("== %s", name)
		for _, trial := range list {
			once("%s, air %v: %s", trial.Key, trial.Air, trial.Try)
			once("  %s, see: %s", trial.Key, trial.See)
			once("  %s, if not: %s", trial.Key, trial.IfNot)
			for _, r := range trial.Expect {
				once("  %s, %s: %s", trial.Key, r.Name(), r.Value())
			}
		}
	}
	check.Kept(t, "eccentric/diagnosis/kept/trials.txt", s.String())
}

// read takes readings of an engine that stands as a gear does, each off by a share of
// what it may be out, one way and the other in turn.
func read(t *testing.T, g eccentric.Gear, what ...Reading) (all []Reading) {
	t.Helper()
	for i, w := range what {
		r, err := w.On(g)
		if err != nil {
			t.Fatalf("%v: %v", w, err)
		}
		off := 0.3 * math.Sin(float64(5*i+2))
		switch {
		case r.Never || r.Kind == OpensNext:
		case r.ByStroke:
			r.Stroke = min(max(r.Stroke+off*0.01, 0), 1)
		case r.Kind.isEvent():
			r.Angle += units.Angle(off) * units.Degree
		default:
			if l := r.Length.Add(units.MM(off * 0.05)); l.Sign() > 0 || r.Kind == Lead || r.Kind == ValveAt {
				r.Length = l
			}
		}
		r.Within = spread.Deviation{}
		all = append(all, r)
	}
	return all
}

// within says by how much they may be out.
func within(all []Reading, degrees, mm, share float64) []Reading {
	for i := range all {
		switch r := &all[i]; {
		case r.Never || r.Kind == OpensNext:
		case r.ByStroke:
			r.Within.Ratio = share
		case r.Kind.isEvent():
			r.Within.Angle = units.Angle(degrees) * units.Degree
		default:
			r.Within.Length = units.MM(mm)
		}
	}
	return all
}

// What can be read, by what a builder has at hand.
func sets() map[string][]Reading {
	of := map[string][]Reading{"travel": {{Kind: Travel}}}
	for _, end := range bothEnds {
		of["leads"] = append(of["leads"], Reading{Kind: Lead, End: end})
		of["next"] = append(of["next"], Reading{Kind: OpensNext, End: end, Opens: Steam})
		of["openings"] = append(of["openings"], Reading{Kind: Opening, End: end}, Reading{Kind: ExhaustOpening, End: end})
		for _, kind := range []Kind{Admission, CutOff, Release, Compression} {
			of["angles"] = append(of["angles"], Reading{Kind: kind, End: end})
			of["shares"] = append(of["shares"], Reading{Kind: kind, End: end, ByStroke: true})
		}
	}
	for crank := 0.0; crank < 360; crank += 60 {
		of["valve"] = append(of["valve"], Reading{Kind: ValveAt, Crank: units.Angle(crank) * units.Degree})
	}
	return of
}

func (s *sheet) diagnosis(t *testing.T, name string, c Case) {
	t.Helper()
	d, err := c.Diagnose()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	s.line("== %s: %d readings, chi-square %.4g, fits %v, again %v", name, len(c.Readings), d.ChiSquare, d.Fits, d.MeasureAgain)
	part := func(p Part) string {
		return fmt.Sprintf("%v %v %.4g deg (%.3g) %.4g mm (%.3g)", p.Fault, p.End, p.Angle.Degrees(), p.AngleSD.Degrees(), p.Length.MM(),
			p.LengthSD.MM())
	}
	for i, to := range d.Suspects {
		if i > 0 && (i > 4 || to.Probability < 1e-3) {
			break
		}
		text := part(to.Part)
		if to.Also != nil {
			text += " and " + part(*to.Also)
		}
		if to.Gear == (eccentric.Gear{}) {
			text += ", no such gear"
		}
		s.line("  %s: %.4g, odds %.4g, sure %v", text, to.Probability, to.Odds, to.Sure)
	}
	for _, text := range d.CannotTell {
		s.line("  ? %s", text)
	}
	if n := d.Next; n != nil {
		s.line("  > %v %v %.4g deg, %.4g bits: %s", n.Kind, n.End, n.Crank.Degrees(), n.Bits, n.Text)
	}
}

// What is made of readings of engines with every fault, few and many of them, by
// angles, lengths and shares, right and wrong: figures to four digits. Whether the part
// is the one at fault is for the tests of planted faults to say; this one tells of any
// change in how it is weighed and told.
func TestDiagnosesAreKept(t *testing.T) {
	var s sheet
	gears, of := modelGears(), sets()
	join := func(names ...string) (all []Reading) {
		for _, name := range names {
			all = append(all, of[name]...)
		}
		return all
	}
	order := slices.Sorted(maps.Keys(gears))
	asked := [][]Reading{
		join("leads", "travel", "angles"), join("leads"), join("leads", "openings", "travel"), join("shares", "travel"),
		join("valve", "next"), join("angles"), join("leads", "next"), join("angles", "valve", "openings")[:9],
	}
	n := 0
	planted := func(p Part) {
		name := order[n%len(order)]
		g := gears[name]
		d := drawingOf(g)
		is, ok := d.put(g, p)
		if !ok {
			t.Fatalf("%s: no gear with %v", name, p)
		}
		for k := range 2 {
			rs := within(read(t, is, asked[(n+k*3)%len(asked)]...), 1, 0.05, 0.01)
			s.diagnosis(t, fmt.Sprintf("%s, %s", name, p.Text()), Case{Gear: g, Readings: rs})
		}
		n++
	}
	planted(Part{Fault: AsDrawn})
	for _, sign := range []float64{1, -1} {
		planted(Part{Fault: WrongAdvance, Angle: units.Angle(12*sign) * units.Degree})
		planted(Part{Fault: ValveOffCentre, Length: units.MM(0.3 * sign)})
		planted(Part{Fault: WrongTravel, Length: units.MM(0.7 * sign)})
		for _, f := range []Fault{WrongSteamLap, WrongExhaustLap} {
			for _, end := range []eccentric.End{eccentric.BothEnds, eccentric.HeadEnd, eccentric.CrankEnd} {
				planted(Part{Fault: f, End: end, Length: units.MM(0.35 * sign)})
			}
		}
	}
	planted(Part{Fault: LostMotion, Length: units.MM(0.4)})
	for i := range 5 {
		d := drawingOf(gears[order[n%len(order)]])
		p := d.places()[i]
		planted(Part{Fault: p.fault, Angle: units.Angle(math.Remainder(p.at-d.drawn[advance], 2*math.Pi))})
	}
	g := gears["plain"]
	// One reading wrong, a pair of faults, readings of nothing, junk, tolerances, the usual errors.
	for i := range 3 {
		rs := within(read(t, g, asked[0]...), 1, 0.05, 0.01)
		rs[3+2*i].Angle += 9 * units.Degree
		s.diagnosis(t, fmt.Sprintf("reading %d wrong", 3+2*i), Case{Gear: g, Readings: rs})
	}
	two := g
	two.Advance += 9 * units.Degree
	two.Valve.Offset = units.MM(0.4)
	s.diagnosis(t, "two faults", Case{Gear: g, Readings: within(read(t, two, asked[0]...), 1, 0.05, 0.01)})
	s.diagnosis(t, "two faults, leads and next", Case{Gear: g, Readings: read(t, two, asked[6]...)})
	s.diagnosis(t, "nothing read", Case{Gear: g})
	junk := within(read(t, g, asked[0]...), 1, 0.05, 0.01)
	for i := range junk {
		if junk[i].Kind.isEvent() {
			junk[i].Angle = units.Angle(math.Mod(float64(137*i), 350)) * units.Degree
		}
	}
	s.diagnosis(t, "junk", Case{Gear: g, Readings: junk})
	loose := spread.Tolerance{
		Dimension: spread.Travel, Lower: spread.Deviation{Length: units.MM(-0.5)}, Upper: spread.Deviation{Length: units.MM(0.5)},
	}
	small := g
	small.Travel = units.MM(6)
	for _, c := range []Case{{Gear: g}, {Gear: g, Tolerances: []spread.Tolerance{loose}}} {
		c.Readings = read(t, small, asked[2]...)
		s.diagnosis(t, fmt.Sprintf("small sheave, %d tolerances", len(c.Tolerances)), c)
	}
	short := g
	short.Travel = units.MM(2.2)
	s.diagnosis(t, "never opens", Case{Gear: g, Readings: read(t, short, asked[0]...)})
	check.Kept(t, "eccentric/diagnosis/kept/diagnoses.txt", s.String())
}
