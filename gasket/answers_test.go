package gasket_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// lines collects what is answered, a line for each.
type lines struct{ strings.Builder }

func (l *lines) add(format string, args ...any) {
	fmt.Fprintln(l, strings.ReplaceAll(fmt.Sprintf(format, args...), "-0.000", "0.000"))
}

func (l *lines) findings(fs finding.List, err error) {
	if err != nil {
		l.add("  %v", err)
	}
	for _, f := range fs {
		l.add("  %s %s: %s | %s", f.Code, f.Severity, f.Text, strings.Join(f.Remedies, " | "))
	}
}

// at prints a point to a micrometre, so that the noise of arithmetic does not show.
func at(p gasket.Point) string {
	return fmt.Sprintf("(%.3f, %.3f)", tidy(p.X.MM()), tidy(p.Y.MM()))
}

// tidy is a figure without the noise of its last places, and without a minus on zero.
func tidy(mm float64) float64 {
	if mm < 0.0005 && mm > -0.0005 {
		return 0
	}
	return mm
}

func (l *lines) loop(name string, loop gasket.Loop) {
	var corners []string
	for _, v := range loop {
		corners = append(corners, fmt.Sprintf("%s %.3f", at(v.Point), tidy(v.Bulge)))
	}
	l.add("%s: %s", name, strings.Join(corners, ", "))
}

// shapes are outlines of all sorts: round and square ones, with slots and ports, a star
// and an oval, their holes along the edge.
func shapes(t *testing.T) []gasket.Outline {
	t.Helper()
	must := func(o gasket.Outline, err error) gasket.Outline {
		if err != nil {
			t.Fatal(err)
		}
		return o
	}
	circle := func(n int, d, hole float64) gasket.Pattern {
		p, err := gasket.BoltCircle(n, units.MM(d), 20*units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		return p.Drilled(units.MM(hole))
	}
	frame, err := gasket.Rectangle(4, 3, units.MM(62), units.MM(42))
	if err != nil {
		t.Fatal(err)
	}
	ports := []gasket.Rect{
		{Centre: mm(0, 9), Width: units.MM(20), Height: units.MM(4)},
		{Centre: mm(0, 1), Width: units.MM(20), Height: units.MM(5), Corner: units.MM(2.5)},
		{Centre: mm(0, -8), Width: units.MM(20), Height: units.MM(4), Corner: units.MM(1)},
	}
	two := gasket.Pattern{{At: mm(-12, 3)}, {Name: "b", At: mm(14, -5)}}.Drilled(units.MM(3.2))
	return []gasket.Outline{
		must(gasket.Round("cover", units.MM(40), units.MM(24), circle(6, 32, 3.2))),
		must(gasket.Round("disc", units.MM(12.5), units.Length{}, circle(3, 8, 2))),
		must(gasket.Rectangular("chest", gasket.Rect{Width: units.MM(70), Height: units.MM(50), Corner: units.MM(4)},
			[]gasket.Rect{{Width: units.MM(54), Height: units.MM(34), Corner: units.MM(3)}}, frame.Drilled(units.MM(3.4)))),
		must(gasket.Rectangular("ports", gasket.Rect{Width: units.MM(40), Height: units.MM(30)}, ports, circle(2, 36, 1.5))),
		must(gasket.Oval("gland", units.MM(18), units.MM(8), units.MM(10), two)),
		must(gasket.Oval("slot", units.MM(9), units.MM(9), units.Length{}, two)),
		{Name: "ell", Outside: polygon(0, 0, 40, 0, 40, 15, 15, 15, 15, 40, 0, 40),
			Holes: gasket.Pattern{{At: mm(7, 7), Diameter: units.MM(2.2)}, {At: mm(33, 6), Diameter: units.MM(4)}}},
		{Name: "plate with ears",
			Outside: gasket.Loop{{Point: mm(-20, -10)}, {Point: mm(20, -10), Bulge: 0.6}, {Point: mm(20, 10)},
				{Point: mm(6, 10), Bulge: -0.5}, {Point: mm(-6, 10)}, {Point: mm(-20, 10), Bulge: 0.9}},
			Cutouts: []gasket.Loop{backwards(polygon(-8, -6, 8, -6, 8, 2, -8, 2)), gasket.Circle(mm(-16, 0), units.MM(6))},
			Holes:   gasket.Pattern{{Name: "x", At: mm(16, 0), Diameter: units.MM(2)}}},
	}
}

// Area, centroid, edge, webs, cutting and offsets of all sorts of outlines, as they were
// when they had been checked by hand, by formula and by cutting them up fine.
func TestOutlinesAsTheyAre(t *testing.T) {
	var said lines
	for _, o := range shapes(t) {
		m, err := o.Measure()
		if err != nil {
			t.Fatal(err)
		}
		said.add("%s: area %.3f of %.3f mm2, centroid %s, edge %.3f mm, from %s to %s", o.Name, m.Area.In(units.SquareMillimetre),
			m.Enclosed.In(units.SquareMillimetre), at(m.Centroid), m.Edge.MM(), at(m.Min), at(m.Max))
		said.loop("  outside", o.Outside)
		edges, err := o.Outside.Edges()
		for _, e := range edges {
			if !e.Straight() {
				said.add("  arc from %s to %s about %s, %.3f mm, %.3f deg", at(e.From), at(e.To), at(e.Centre), e.Radius.MM(), e.Sweep.Degrees())
			}
		}
		webs, errWebs := o.Webs()
		// Webs of one width stand in the order of their last bit, and lines that run side by
		// side are nearest in many places.
		var list []string
		for _, w := range webs {
			if round := o.Name == "cover" || o.Name == "disc"; round && strings.HasPrefix(w.To, "hole") {
				continue // of two neighbours as near as each other it takes the one that a last bit has nearer
			}
			line := fmt.Sprintf("  %s to %s: %.3f", w.From, w.To, w.Width.MM())
			// A hole in the middle of a round end is as near to all of it.
			middle := (o.Name == "slot" || o.Name == "plate with ears") && w.To == "the outside"
			if strings.HasPrefix(w.From, "hole") && !middle {
				line += fmt.Sprintf(", %s to %s", at(w.AtFrom), at(w.AtTo))
			}
			list = append(list, line)
		}
		slices.Sort(list)
		said.add("%s", strings.Join(list, "\n"))
		fs, errCheck := o.Check(units.MM(2.2))
		slices.SortStableFunc(fs,
			func(a, b finding.Finding) int { return strings.Compare(string(a.Code)+a.Text, string(b.Code)+b.Text) })
		said.findings(fs, errCheck)
		if err != nil || errWebs != nil {
			t.Error(err, errWebs)
		}
		for _, by := range [][3]float64{{-1, 0.5, 0.2}, {2, -1, -0.3}, {-9, 0, 0}, {0, 30, 0}, {0, 0, -3}} {
			r, err := o.Offset(units.MM(by[0]), units.MM(by[1]), units.MM(by[2]))
			if err != nil {
				said.add("  offset by %g: %s", by, strings.Split(err.Error(), "\n")[0])
				continue
			}
			said.loop(fmt.Sprintf("  offset by %g", by), r.Outside)
			for _, c := range r.Cutouts {
				said.loop("    opening", c)
			}
			said.add("    %d holes of %.3f", len(r.Holes), r.Holes[0].Diameter.MM())
		}
	}
	check.Kept(t, "gasket/kept/outlines.txt", said.String())
}

// What Match says of patterns that agree, nearly agree and do not: every position with
// its figures, the work and the findings.
func TestMatchesAsTheyAre(t *testing.T) {
	var said lines
	r := rand.New(rand.NewPCG(31, 32))
	spoiled := func(p gasket.Pattern, by float64) gasket.Pattern {
		q := append(gasket.Pattern{}, p...)
		for i := range q {
			q[i].At = q[i].At.Add(mm(by*(r.Float64()-0.5), by*(r.Float64()-0.5)))
			q[i].Name = string(rune('a' + i))
		}
		return q
	}
	six, err := gasket.BoltCircle(6, units.MM(44), 0)
	if err != nil {
		t.Fatal(err)
	}
	chest, err := gasket.Rectangle(4, 3, units.MM(48), units.MM(30))
	if err != nil {
		t.Fatal(err)
	}
	random := scattered(r, 7, 12)
	mixed := append(gasket.Pattern{}, random.Drilled(units.MM(3.4))...)
	mixed[1].Diameter, mixed[4].Diameter = units.MM(3.1), units.MM(5)
	stud := gasket.MatchOptions{Stud: units.MM(3)}
	bolt := gasket.MatchOptions{Bolt: units.MM(3), Lean: units.MM(0.05), TurnOver: true}
	hole := units.MM(3.4)
	for _, test := range []struct {
		name string
		a, b gasket.Pattern
		o    gasket.MatchOptions
	}{
		{"six", six.Drilled(hole), spoiled(six, 0.2).Turned(0.4), stud},
		{"six, no sizes", six, spoiled(six, 0.4).Turned(-0.4).Moved(mm(3, 4)), gasket.MatchOptions{TurnOver: true}},
		{"chest, loose bolts", chest.Drilled(hole), spoiled(chest, 0.3).Drilled(units.MM(3.2)), bolt},
		{"chest, too far", chest.Drilled(hole), spoiled(chest, 1.2), stud},
		{"random", random.Drilled(hole), spoiled(random, 0.3).Turned(2).Moved(mm(-10, 20)), stud},
		{"random in order", random.Drilled(hole), spoiled(random, 3), gasket.MatchOptions{Stud: units.MM(3), Ordered: true}},
		{"random, weighed", random, spoiled(random, 1), gasket.MatchOptions{Weights: []float64{1, 2, 0, 1, 1, 0.5, 3}, Reach: units.MM(2)}},
		{"random, mixed holes", mixed, spoiled(random, 0.4), stud},
		{"random, mixed holes and leaning studs", mixed, spoiled(random, 0.4), gasket.MatchOptions{Stud: units.MM(3), Lean: units.MM(0.1)}},
		{"random, mixed holes and bolts", mixed, spoiled(random, 0.4).Drilled(units.MM(3.3)), bolt},
		{"more holes than studs", random.Drilled(hole), spoiled(random[2:], 0.2), stud},
		{"more studs than holes", random[:5].Drilled(hole), spoiled(random, 0.2), stud},
		{"mirrored", random.Drilled(hole), spoiled(random.Mirrored(), 0.2), stud},
		{"turned over", random.Drilled(hole), spoiled(random.Mirrored(), 0.2).Turned(1),
			gasket.MatchOptions{Stud: units.MM(3), TurnOver: true}},
		{"too small", random.Drilled(units.MM(2.9)), spoiled(random, 0.05), stud},
		{"far too large", random.Drilled(units.MM(3.05)), spoiled(random, 2.5), stud},
		{"three", random[:3].Drilled(hole), spoiled(random[:3], 0.4), stud},
		{"two", random[:2].Drilled(hole), spoiled(random[:2], 0.4), stud},
		{"nothing", random.Drilled(hole), scattered(r, 2, 70), gasket.MatchOptions{Stud: units.MM(3), Reach: units.MM(0.001)}},
	} {
		m, err := gasket.Match(t.Context(), test.a, test.b, test.o)
		if err != nil {
			t.Fatal(err)
		}
		said.add("%s: %d positions, %d alike, goes %v, decided %v, mirrored %v", test.name, len(m.Positions), m.Alike, m.Goes, m.Decided, m.Mirrored)
		for k, p := range m.Positions {
			if k > 2 && k < len(m.Positions)-1 {
				continue
			}
			said.add("  over %v, %.3f deg, %s: greatest %.3f, room %.3f, goes %v, hole for all %.3f, same room %v, left over %v and %v",
				p.TurnedOver, p.Turn.Degrees(), at(p.Shift), p.Greatest.MM(), p.Room.MM(), p.Goes, p.HoleForAll.MM(),
				p.SameRoom(), p.OnlyFirst, p.OnlySecond)
			ls := p.LeastSquares
			said.add("    least squares %.3f deg, %s: rms %.3f, greatest %.3f", ls.Turn.Degrees(), at(ls.Shift), ls.RMS.MM(), ls.Greatest.MM())
			if k > 0 {
				continue
			}
			for _, pair := range p.Pairs {
				said.add("    %d on %d: %s, %.3f of %.3f, hole %.3f, goes %v", pair.First, pair.Second, at(pair.Off), pair.Distance.MM(), pair.Allowance.MM(), pair.Hole.MM(),
					pair.Goes())
			}
		}
		for _, w := range m.Work {
			said.add("  %s; %s, %s to %s, %.3f, large %v", strings.ReplaceAll(w.String(), "-0.000", "0.000"), w.Hole, at(w.At), at(w.To), w.Size().MM(), w.Large)
		}
		for _, f := range m.Findings {
			if f.Code == gasket.DoesNotGoOn { // which of the tightest holes it names rests with the last bit
				f.Text = "The first part does not go on." + f.Text[strings.LastIndex(f.Text, ".")+1:]
			}
			said.findings(finding.List{f}, nil)
		}
	}
	check.Kept(t, "gasket/kept/matches.txt", said.String())
}

// What prints of each result.
func TestResultsPrint(t *testing.T) {
	var said lines
	square, err := gasket.Rectangle(2, 2, units.MM(40), units.MM(30))
	if err != nil {
		t.Fatal(err)
	}
	m, err := gasket.Match(t.Context(), square[:2].Drilled(units.MM(3.4)), square[:2],
		gasket.MatchOptions{Stud: units.MM(3), Ordered: true})
	if err != nil {
		t.Fatal(err)
	}
	said.add("pair: %v", m.Positions[0].Pairs[0])
	said.add("matching: %v", gasket.Matching{Alike: 2, Goes: true, Decided: true})
	o, err := gasket.Round("disc", units.MM(40), units.MM(20), square[:1].Drilled(units.MM(2)))
	if err != nil {
		t.Fatal(err)
	}
	said.add("outline: %v", o)
	measures, err := gasket.Outline{Outside: polygon(0, 0, 3, 0, 0, 4)}.Measure()
	said.add("measures: %v, %v", measures, err)
	webs, err := gasket.Outline{Outside: polygon(0, 0, 30, 0, 0, 40),
		Holes: gasket.Pattern{{At: mm(5, 5), Diameter: units.MM(2)}}}.Webs()
	said.add("webs: %v, %v", webs, err)
	spans, err := square.Drilled(units.MM(3)).Spans(units.Length{})
	said.add("spans: %v, %v", spans, err)
	for _, n := range []int{2, 3, 4, 6, 7, 12} {
		s, err := gasket.StepOff(n, units.MM(60))
		said.add("stepping: %v, %v", s, err)
		said.findings(s.Check(units.MM(31)), nil)
	}
	zones, err := gasket.PositionZones(units.MM(3.4), units.MM(3))
	said.add("zones: %v, %v", zones, err)
	edges, err := gasket.Circle(mm(1, 2), units.MM(8)).Edges()
	said.add("edges: %v, %v", edges, err)
	for _, w := range []gasket.Work{
		{Do: gasket.Open, Hole: "a", Over: "1", At: mm(1, -2), Diameter: units.MM(3.4561), To: mm(1.5, 2)},
		{Do: gasket.Open, Hole: "a", Over: "1", At: mm(1, -2), Diameter: units.MM(5), To: mm(1.5, 2), Large: true},
		{Do: gasket.Drill, Hole: "4", Over: "4", At: mm(1, -2), Diameter: units.MM(3.4)},
		{Do: gasket.Plug, Hole: "b", At: mm(1, -2)},
	} {
		said.add("work: %v, %v", w, w.Size())
	}
	for _, d := range []gasket.Datum{{}, {Origin: mm(1, 2)}, {Origin: mm(1, 2), XLeft: true}, {YDown: true}} {
		said.add("from %v: %v", d, square.From(d))
	}
	check.Kept(t, "gasket/kept/printed.txt", check.Rounded(said.String()))
}
