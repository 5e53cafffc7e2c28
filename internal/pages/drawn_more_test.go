package pages

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// Holes of a circle stand where package gasket has them; those of a cover, on the holes
// of the other part, are off by what it says.
func TestHolePictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 6))
	for range many(50) {
		ask := BoltCircleQuestion{Number: 2 + r.IntN(30), Diameter: any1(r, 5, 400), First: units.Angle(360*r.Float64()) * units.Degree, Inch: r.IntN(2) == 0}
		if r.IntN(3) > 0 {
			h := ask.Diameter.Scale(0.9 / float64(ask.Number))
			ask.Hole = &h
		}
		if r.IntN(3) == 0 {
			x, y := ask.Diameter.Scale(0.6+r.Float64()*2), ask.Diameter.Scale(0.6+r.Float64()*2)
			ask.CentreX, ask.CentreY = &x, &y
		}
		b, err := BoltCircle(ask)
		if err != nil {
			t.Fatal(err)
		}
		p := drawn(t, ask, b.Sections[0].Items[0].Figures[0], nil)
		circle := circlesOf(p, "CENTRES")[0]
		by := 2 * circle.Radius / ask.Diameter.MM()
		holes, err := gasket.BoltCircle(ask.Number, ask.Diameter, ask.First)
		if err != nil {
			t.Fatal(err)
		}
		if ask.Hole == nil {
			continue
		}
		for i, c := range circlesOf(p, "EDGES") {
			want := check.Spot{X: circle.Centre.X + holes[i].At.X.MM()*by, Y: circle.Centre.Y + holes[i].At.Y.MM()*by}
			if apartBy(c.Centre, want) > near || math.Abs(2*c.Radius-ask.Hole.MM()*by) > near {
				t.Fatalf("%+v: hole %d at %v, want %v", ask, i+1, c.Centre, want)
			}
		}
	}
	for range many(40) {
		n := 3 + r.IntN(30)
		var cover, chest gasket.Pattern
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.2*r.Float64()) / float64(n))
			size := 20 + 80*r.Float64()
			at := gasket.Point{X: units.MM(size * cos), Y: units.MM(size * sin)}
			cover = append(cover, gasket.Hole{Name: fmt.Sprint(k + 1), At: at, Diameter: units.MM(1.2)})
			at = gasket.Point{X: at.X.Add(units.MM(0.3 * r.NormFloat64())), Y: at.Y.Add(units.MM(0.3 * r.NormFloat64()))}
			chest = append(chest, gasket.Hole{Name: strings.Repeat("n", 1+r.IntN(12)), At: at, Diameter: units.MM(1)})
		}
		options := gasket.MatchOptions{Ordered: true}
		if r.IntN(2) == 0 {
			options.Stud = units.MM(1)
		}
		m, err := gasket.Match(context.Background(), cover, chest, options)
		if err != nil || len(m.Positions) == 0 {
			continue
		}
		match := holeMatch{m, options, cover, chest}
		f, err := match.picture(r.IntN(2) == 0)
		p := drawn(t, n, f, err)
		first, second := circlesOf(p, "EDGES"), circlesOf(p, "OTHER")
		by := 2 * first[0].Radius / 1.2
		for _, pair := range m.Positions[0].Pairs {
			a, b := first[pair.First-1].Centre, second[pair.Second-1].Centre
			if off := apartBy(a, b) / by; math.Abs(off-pair.Distance.MM())*by > near {
				t.Fatalf("hole %d is drawn %v off, want %v", pair.First, off, pair.Distance)
			}
		}
	}
}

// The cutter stands where package marking has the middle of the spindle, and touches the
// sides of its port.
func TestPortPictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 7))
	for range many(300) {
		scale := math.Pow(10, 2*r.Float64()-1)
		ports := eccentric.Ports{
			Steam: any1(r, 1*scale, 3*scale), Bar: any1(r, 1*scale, 3*scale), Exhaust: any1(r, 2*scale, 8*scale), Length: any1(r, 4*scale, 30*scale),
		}
		if r.IntN(3) == 0 {
			ports.CrankSteam, ports.CrankBar = any1(r, 1*scale, 3*scale), any1(r, 1*scale, 3*scale)
		}
		ask := PortFaceQuestion{Cutter: ports.Steam.Scale(0.3 + 0.7*r.Float64())}
		if r.IntN(4) == 0 {
			ask.Cutter = ports.Steam
		}
		if r.IntN(3) == 0 {
			x, y := any1(r, 20, 200), any1(r, 20, 200)
			ask.CentreX, ask.CentreY = &x, &y
		}
		cuts, err := marking.PortFace{Ports: ports, Cutter: ask.Cutter}.Cuts()
		if err != nil {
			continue
		}
		face := portFace{PortFaceQuestion: ask, ports: ports, cuts: cuts}
		f, err := face.picture(r.IntN(2) == 0)
		p := drawn(t, ports, f, err)
		cutters := circlesOf(p, "OTHER")
		by := 2 * cutters[0].Radius / ask.Cutter.MM()
		middle := check.Spot{X: (cutters[2].Centre.X + cutters[3].Centre.X) / 2, Y: (cutters[2].Centre.Y + cutters[3].Centre.Y) / 2}
		edges := []float64{}
		for _, s := range p.On("EDGES") {
			for _, spot := range s.Spots {
				edges = append(edges, spot.Y)
			}
		}
		for i, c := range cuts {
			for j, want := range []check.Spot{
				{X: middle.X - c.Across.MM()*by, Y: middle.Y - c.From.MM()*by}, {X: middle.X + c.Across.MM()*by, Y: middle.Y - c.To.MM()*by},
			} {
				if apartBy(cutters[2*i+j].Centre, want) > near {
					t.Fatalf("%+v: cutter at %v, want %v", c, cutters[2*i+j].Centre, want)
				}
			}
			if !has(edges, middle.Y-c.Low.MM()*by) || !has(edges, middle.Y-c.High.MM()*by) {
				t.Fatalf("%+v: no port between %v and %v", c, c.Low, c.High)
			}
		}
	}
}

// The piston stands as far from each cover as package eccentric says.
func TestRoomPictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 8))
	for range many(300) {
		scale := math.Pow(10, 2*r.Float64()-1)
		room := eccentric.Room{Gear: eccentric.Gear{Stroke: any1(r, 10*scale, 50*scale)}, Piston: any1(r, 2*scale, 30*scale)}
		room.Length = room.Gear.Stroke.Add(room.Piston).Add(any1(r, -0.5*scale, 4*scale))
		if r.IntN(2) == 0 {
			room.Gaskets = any1(r, 0.1, 0.5)
		}
		total := room.Length.Add(room.Gaskets).Sub(room.Gear.Stroke).Sub(room.Piston)
		head := total.Scale(r.Float64())
		c := eccentric.Clearance{Head: head, Crank: total.Sub(head)}
		rod := any1(r, 1*scale, 9*scale)
		bore := any1(r, 10*scale, 40*scale)
		f, err := roomPicture(room, c, bore, &rod, r.IntN(2) == 0)
		p := drawn(t, room, f, err)
		var pistons, covers []check.Stroke
		for _, s := range p.On("EDGES") {
			if cornersOf(s) == 4 {
				covers = append(covers, s)
			}
		}
		pistons = append(pistons, covers[len(covers)-1], p.On("HIDDEN")[0])
		wall := covers[0]
		left, right := min(wall.Spots[0].X, wall.Spots[1].X), max(wall.Spots[0].X, wall.Spots[1].X)
		by := (right - left) / room.Length.Add(room.Gaskets).MM()
		if got := pistons[0].Spots[0].X - left; math.Abs(got-c.Head.MM()*by) > near {
			t.Fatalf("%+v: %v left at the head end, want %v", room, got/by, c.Head)
		}
		if got := right - pistons[1].Spots[1].X; math.Abs(got-c.Crank.MM()*by) > near {
			t.Fatalf("%+v: %v left at the crank end, want %v", room, got/by, c.Crank)
		}
	}
}

// A stud is measured: how far it stands in its metal, its cover, its nut, and its length.
func TestStudPictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 9))
	for range many(300) {
		s := strength.Stud{
			Thread: thread.MustParse([]string{"M2", "M3", "M5", "M8", "6 BA", "2 BA", "4-40 UNC", "1/4-20 UNC"}[r.IntN(8)]),
		}
		d := s.Thread.Major().MM()
		s.Cover, s.Nut, s.Engaged = any1(r, 0.6*d, 6*d), any1(r, 0.6*d, 1.2*d), any1(r, 0.6*d, 3*d)
		if r.IntN(3) > 0 {
			s.Gasket = any1(r, 0.1, 1)
		}
		if r.IntN(2) == 0 {
			s.Hole = any1(r, 0.8*d, 4*d)
		}
		cut, err := s.Length()
		if err != nil {
			continue
		}
		inch := r.IntN(2) == 0
		f, err := studPicture("stud", "", s, cut, inch)
		p := drawn(t, s, f, err)
		if !p.Says("in the hole "+sizeText(cut.Engaged, inch)) || !p.Says("cover "+sizeText(s.Cover, inch)) {
			t.Fatalf("%+v: %+v", s, p.Texts)
		}
		var ends []check.Stroke // of the stud: the lines across its axis
		for _, e := range p.On("EDGES") {
			if a, b := e.Spots[0], e.Spots[1]; len(e.Spots) == 2 && a.Y == b.Y && math.Abs(a.X+b.X-2*studAt) < near {
				ends = append(ends, e)
			}
		}
		if len(ends) != 2 {
			t.Fatalf("%+v: %d ends of the stud", s, len(ends))
		}
		foot, top := min(heightOf(ends[0]), heightOf(ends[1])), max(heightOf(ends[0]), heightOf(ends[1]))
		by := (top - foot) / cut.Length.MM()
		across := levels(p, "EDGES", 0, pictureWide)
		face := foot + cut.Engaged.MM()*by
		for _, want := range []float64{
			foot, face, face + s.Gasket.Add(s.Cover).MM()*by, face + s.Gasket.Add(s.Cover).Add(cut.Nut).MM()*by, foot + cut.Length.MM()*by,
		} {
			if !has(across, want) {
				t.Fatalf("%+v: nothing at %v of %v", s, want, across)
			}
		}
		width := apartBy(ends[0].Spots[0], ends[0].Spots[1])
		if math.Abs(width-d*by) > near {
			t.Fatalf("%+v: drawn %v wide, is %v", s, width/by, d)
		}
	}
}

// A flywheel is measured: its rim, its width and its bore, in either setting.
func TestFlywheelPictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 10))
	for range many(200) {
		f := indicator.Flywheel{Diameter: any1(r, 30, 600)}
		f.RimWidth, f.RimDepth = f.Diameter.Scale(0.05+0.2*r.Float64()), f.Diameter.Scale(0.05+0.15*r.Float64())
		f.Bore = f.Diameter.Scale(0.03 + 0.07*r.Float64())
		if r.IntN(3) > 0 {
			f.Web = f.RimWidth.Scale(0.2 + 0.7*r.Float64())
		}
		if r.IntN(3) > 0 {
			f.Boss, f.BossWidth = f.Bore.Scale(1.5+r.Float64()), f.RimWidth.Scale(0.8+0.7*r.Float64())
		}
		inch := r.IntN(2) == 0
		picture, err := flywheelPicture(f, inch)
		p := drawn(t, f, picture, err)
		low, high, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, s := range append(p.On("EDGES"), p.On("DIMENSIONS")...) {
			for _, spot := range s.Spots {
				if max(s.Spots[0].X, s.Spots[1].X) > (firstSetting+secondSetting)/2 {
					continue
				}
				low, high = min(low, spot.Y), max(high, spot.Y)
				left, right = min(left, spot.X), max(right, spot.X)
			}
		}
		by := (high - low) / f.Diameter.MM()
		wide := f.RimWidth.MM()
		if !f.Boss.IsZero() {
			wide = max(wide, f.BossWidth.MM())
		}
		if math.Abs(right-left-wide*by) > near {
			t.Fatalf("%+v: drawn %v wide", f, (right-left)/by)
		}
		if f.Web.IsZero() && f.Boss.IsZero() {
			continue // spokes, which are left out, hold whatever has the bore
		}
		middle := (low + high) / 2
		for _, want := range []float64{middle + f.Bore.MM()/2*by, middle - f.Bore.MM()/2*by} {
			if !has(levels(p, "EDGES", 0, 37), want) || !has(levels(p, "DIMENSIONS", 37, 75), want) {
				t.Fatalf("%+v: no bore at %v", f, want)
			}
		}
		if !p.Says("rim "+sizeText(f.Diameter, inch)) || !p.Says("bore "+sizeText(f.Bore, inch)) {
			t.Fatalf("%+v: %+v", f, p.Texts)
		}
	}
}

// A hole for a taper pipe is measured: it opens to the minor diameter of package thread at
// the face, meets the drill as deep as that drill leaves whole thread, at 1 in 16 on the
// diameter (ISO 7-1 and ASME B1.20.1), and its thread ends where it is wanted whole.
func TestTaperedPictures(t *testing.T) {
	for _, name := range []string{"R 1/16", "R 1/8", "R 1/4", "R 1/2", "R 1", "1/16 NPT", "1/8 NPT", "1/4 NPT", "1/2 NPT", "3 NPT"} {
		th := thread.MustParse(name)
		for _, own := range []gauge.Set{gauge.Metric(), gauge.Number(), {}} {
			plan, err := th.PlanDrill(own, thread.TapDepth{})
			if err != nil {
				continue
			}
			for _, c := range plan.Pipe {
				if c.Kind == thread.ParallelHole {
					continue
				}
				for _, inch := range []bool{false, true} {
					f, err := taperedHole(th, c, inch)
					got := drawn(t, c, f, err)
					taperMeasured(t, th, c, got)
					if !got.Says("taper 1 in 16 on the diameter") || !got.Says("thread "+sizeText(c.Length, inch)) {
						t.Fatalf("%+v: %+v", c, got.Texts)
					}
				}
			}
		}
	}
}

func taperMeasured(t *testing.T, th thread.Thread, c thread.PipeChoice, p *check.Picture) {
	t.Helper()
	drill := c.Max
	if c.Choice.Suits() {
		drill = c.Choice.Drill.Diameter
	}
	var slopes, straight []check.Stroke // of the tapped hole
	for _, s := range p.On("EDGES") {
		if len(s.Spots) != 2 || min(s.Spots[0].X, s.Spots[1].X) < (drilledAt+tappedAt)/2 || s.Spots[0].Y == s.Spots[1].Y {
			continue
		}
		if math.Abs(s.Spots[0].X-s.Spots[1].X) > 1e-6 {
			slopes = append(slopes, s)
		} else {
			straight = append(straight, s)
		}
	}
	if len(slopes) != 2 || len(straight) != 2 {
		t.Fatalf("%+v: %d slopes, %d walls", c, len(slopes), len(straight))
	}
	by := math.Abs(straight[0].Spots[0].X-straight[1].Spots[0].X) / drill.MM()
	face, foot := slopes[0].Spots[0], slopes[0].Spots[1]
	if mouth := math.Abs(slopes[1].Spots[0].X - face.X); math.Abs(mouth-th.Minor().MM()*by) > near {
		t.Fatalf("%+v: %v wide at the face", c, mouth/by)
	}
	deep := face.Y - foot.Y
	if math.Abs(math.Abs(face.X-foot.X)*2*16-deep) > 32*near || math.Abs(deep/by-16*(th.Minor().MM()-drill.MM())) > 32*near {
		t.Fatalf("%+v: the cone is %v deep and narrows by %v", c, deep/by, 2*math.Abs(face.X-foot.X)/by)
	}
	outside := 0
	for _, s := range p.On("DIMENSIONS") {
		for _, side := range []float64{-1, 1} {
			if len(s.Spots) == 2 && math.Abs(s.Spots[0].X-tappedAt-side*th.Major().MM()/2*by) < near && math.Abs(s.Spots[0].Y-face.Y) < near &&
				math.Abs(face.Y-s.Spots[1].Y-c.Length.MM()*by) < near &&
				math.Abs(s.Spots[1].X-tappedAt-side*(th.Major().MM()/2-c.Length.MM()/32)*by) < near {
				outside++
			}
		}
	}
	if outside != 2 {
		t.Fatalf("%+v: %d outsides of the thread", c, outside)
	}
}
