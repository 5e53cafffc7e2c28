package pages

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// near is how closely a drawing on its sheet is measured, in millimetres.
const near = 0.01

// drawn reads a picture back and reports what cannot be read on it.
func drawn(t *testing.T, what any, f book.Figure, err error) *check.Picture {
	t.Helper()
	if err != nil {
		t.Fatalf("%+v: %v", what, err)
	}
	var svg strings.Builder
	if err := sheet.WriteSVG(&svg, f.Title, f.Drawing); err != nil {
		t.Fatalf("%+v: %v", what, err)
	}
	p := check.ReadPicture(t, svg.String())
	check.Legible(t, p)
	if f.Key == "" || f.Title == "" || f.Alt == "" || f.Caption == "" || strings.Contains(svg.String(), "NaN") {
		t.Errorf("%+v: %+v", what, f)
	}
	if t.Failed() {
		t.Fatalf("of %+v", what)
	}
	return p
}

// many is a number of random cases.
func many(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}

// any1 is a length between two, in hundredths of a millimetre or thou.
func any1(r *rand.Rand, low, high float64) units.Length {
	mm := low + (high-low)*r.Float64()
	if r.IntN(2) == 0 {
		return units.Thou(math.Round(mm / 0.0254))
	}
	return units.MM(math.Round(mm*100) / 100)
}

func heightOf(s check.Stroke) float64 { return s.Spots[0].Y }

// cornersOf is the number of corners of a closed line; 0 of an open one.
func cornersOf(s check.Stroke) int {
	switch n := len(s.Spots); {
	case !s.Closed:
		return 0
	case apartBy(s.Spots[0], s.Spots[n-1]) < 1e-6:
		return n - 1
	default:
		return n
	}
}

// levels are the heights of the lines of a layer that lie across the sheet between two
// places.
func levels(p *check.Picture, layer string, left, right float64) []float64 {
	var got []float64
	for _, s := range p.On(layer) {
		if len(s.Spots) == 2 && math.Abs(s.Spots[0].Y-s.Spots[1].Y) < 1e-6 && min(s.Spots[0].X, s.Spots[1].X) >= left-1e-6 &&
			max(s.Spots[0].X, s.Spots[1].X) <= right+1e-6 {
			got = append(got, heightOf(s))
		}
	}
	return got
}

func has(list []float64, want float64) bool {
	for _, v := range list {
		if math.Abs(v-want) < near {
			return true
		}
	}
	return false
}

// A tapped hole is measured against what package thread says: its depth, the tip of the
// drill, the full thread, the end of the tap and the metal, each by the scale that the
// width of the hole shows.
func TestTappedPictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 1))
	threads := []string{"M1.6", "M3", "M6", "M12", "10 BA", "5 BA", "0 BA", "1/4-20 UNC", "4-40 UNC", "1/2-13 UNC", "1/8 BSW", "1/4x40 ME", "G1/8"}
	for range many(400) {
		th := thread.MustParse(threads[r.IntN(len(threads))])
		drill := gauge.Size{Name: "43", Diameter: th.Major().Scale(0.75 + 0.2*r.Float64())}
		p := tappedPicture{key: "hole", thread: th, drill: drill, inch: r.IntN(2) == 0}
		metal := 0.0
		if r.IntN(4) > 0 {
			h, err := th.ThreadInBlindHole(any1(r, 0.5*th.Major().MM(), 8*th.Major().MM()), thread.Taps()[r.IntN(3)])
			if err != nil {
				continue
			}
			p.blind = &h
			if r.IntN(2) == 0 {
				m := any1(r, 0.6*h.Depth.MM(), 2*h.Depth.MM())
				p.metal, metal = &m, m.MM()
				if p.left, _, err = h.Left(drill.Diameter, 0, m); err != nil {
					t.Fatal(err)
				}
			}
		} else if r.IntN(2) == 0 {
			m := any1(r, 0.5*th.Major().MM(), 6*th.Major().MM())
			p.through = &m
		}
		f, err := p.picture()
		got := drawn(t, p, f, err)
		var walls []check.Stroke // of the drilled hole
		for _, s := range got.On("EDGES") {
			if math.Abs(s.Spots[0].X-s.Spots[1].X) < 1e-6 && s.Spots[0].X < (drilledAt+tappedAt)/2 {
				walls = append(walls, s)
			}
		}
		if len(walls) != 2 {
			t.Fatalf("%+v: %d walls of the drilled hole", p, len(walls))
		}
		by := math.Abs(walls[1].Spots[0].X-walls[0].Spots[0].X) / drill.Diameter.MM()
		face := max(walls[0].Spots[0].Y, walls[0].Spots[1].Y)
		deep := face - min(walls[0].Spots[0].Y, walls[0].Spots[1].Y)
		edges := levels(got, "EDGES", blockLeft, blockRight)
		switch {
		case p.blind != nil:
			tip, err := p.blind.Tip(drill.Diameter, 0)
			if err != nil {
				t.Fatal(err)
			}
			lowest := face
			for _, s := range got.On("EDGES") {
				if len(s.Spots) == 2 && math.Abs(s.Spots[0].X-s.Spots[1].X) > 1e-6 && math.Abs(s.Spots[0].Y-s.Spots[1].Y) > 1e-6 {
					lowest = min(lowest, s.Spots[0].Y, s.Spots[1].Y)
				}
			}
			if math.Abs(deep-p.blind.Depth.MM()*by) > near || math.Abs(face-lowest-tip.MM()*by) > near {
				t.Fatalf("%+v: deep %v, tip %v, scale %v", p, deep, face-lowest, by)
			}
			if full := p.blind.Thread.MM() * by; full > 0 && !has(edges, face-full) {
				t.Fatalf("%+v: full thread %v not among %v", p, face-full, edges)
			}
			if end := p.blind.Thread.Add(p.blind.Lead).MM() * by; p.blind.Thread.Sign() > 0 && !has(levels(got, "HIDDEN", 0, 120), face-end) {
				t.Fatalf("%+v: no end of the tap", p)
			}
			if metal > 0 && !has(edges, face-metal*by) {
				t.Fatalf("%+v: metal %v not among %v", p, face-metal*by, edges)
			}
			if !got.Says("hole "+sizeText(p.blind.Depth, p.inch)) || !got.Says("drill's tip "+sizeText(tip, p.inch)) {
				t.Fatalf("%+v: depths are not told: %+v", p, got.Texts)
			}
		case p.through != nil:
			if math.Abs(deep-p.through.MM()*by) > near || !has(edges, face-deep) {
				t.Fatalf("%+v: through %v, scale %v", p, deep, by)
			}
		}
	}
}

// circlesOf are the circles of a layer, the largest first in the order drawn.
func circlesOf(p *check.Picture, layer string) []check.Round {
	var got []check.Round
	for _, c := range p.Circles {
		if c.Layer == layer {
			got = append(got, c)
		}
	}
	return got
}

func apartBy(a, b check.Spot) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// The end of a bar in a vee is measured: the bar touches both faces of the vee, and its
// lines are as far apart, and from the root, as package marking says.
func TestMarkedPictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 2))
	for range many(300) {
		v := marking.Vee{Bar: any1(r, 4, 120), Included: units.Angle(60+60*r.Float64()) * units.Degree}
		v.Offset = v.Bar.Scale(0.02 + 0.4*r.Float64())
		h, err := v.Heights()
		if err != nil {
			continue
		}
		told := h
		onGauge := r.IntN(3) == 0
		if onGauge {
			if told, err = h.Over(any1(r, 30, 300).Add(v.Bar)); err != nil {
				t.Fatal(err)
			}
		}
		inch := r.IntN(2) == 0
		f, err := markedPicture(v, told, onGauge, inch)
		p := drawn(t, v, f, err)
		bar := circlesOf(p, "EDGES")[0]
		by := 2 * bar.Radius / v.Bar.MM()
		lines := levels(p, "EDGES", bar.Centre.X-bar.Radius, bar.Centre.X+bar.Radius)
		if !has(lines, bar.Centre.Y) || !has(lines, bar.Centre.Y+v.Offset.MM()*by) {
			t.Fatalf("%+v: lines at %v", v, lines)
		}
		var vee check.Stroke
		for _, s := range p.On("EDGES") {
			if cornersOf(s) == 7 {
				vee = s
			}
		}
		root := vee.Spots[4]
		if math.Abs(bar.Centre.Y-root.Y-h.Centre.MM()*by) > near {
			t.Fatalf("%+v: the axis is drawn %v above the root", v, (bar.Centre.Y-root.Y)/by)
		}
		for _, lip := range []check.Spot{vee.Spots[3], vee.Spots[5]} {
			along := check.Spot{X: lip.X - root.X, Y: lip.Y - root.Y}
			off := math.Abs(along.X*(bar.Centre.Y-root.Y)-along.Y*(bar.Centre.X-root.X)) / math.Hypot(along.X, along.Y)
			if math.Abs(off-bar.Radius) > near {
				t.Fatalf("%+v: a face is %v from the axis of a bar of radius %v", v, off, bar.Radius)
			}
		}
		if !p.Says(sizeText(v.Offset, inch)) {
			t.Fatalf("%+v: the offset is not told", v)
		}
	}
}

// A sheave, and its bar in both chucks, are measured: the offset between the centres, the
// packing, and that the blank touches every jaw.
func TestSheavePictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 3))
	for range many(200) {
		inch := r.IntN(2) == 0
		s := marking.Sheave{Bore: any1(r, 2, 20)}
		s.Offset = s.Bore.Scale(0.1 + 0.9*r.Float64())
		s.Diameter = s.Bore.Add(s.Offset.Scale(2)).Scale(1.1 + 0.5*r.Float64())
		if r.IntN(2) == 0 {
			s.Lip = s.Diameter.Scale(0.02 + 0.05*r.Float64())
		}
		if r.IntN(2) == 0 {
			s.Boss = s.Bore.Scale(1.2 + 0.8*r.Float64())
		}
		s.Bar = s.Diameter.Add(s.Lip.Scale(2)).Scale(1 + 0.1*r.Float64())
		w, err := s.Walls()
		if err != nil {
			continue
		}
		f, err := sheavePicture(s, w, inch)
		p := drawn(t, s, f, err)
		bar := circlesOf(p, "OTHER")[0]
		by := 2 * bar.Radius / s.Bar.MM()
		rounds := circlesOf(p, "EDGES")
		bore := rounds[len(rounds)-1]
		if math.Abs(apartBy(bore.Centre, bar.Centre)-s.Offset.MM()*by) > near || math.Abs(2*bore.Radius-s.Bore.MM()*by) > near {
			t.Fatalf("%+v: offset drawn %v, bore %v", s, apartBy(bore.Centre, bar.Centre)/by, 2*bore.Radius/by)
		}
		c := marking.ThreeJaw{Blank: s.Bar, Offset: s.Offset}
		if r.IntN(2) == 0 {
			c.Jaw = s.Bar.Scale(0.05 + 0.4*r.Float64())
		}
		packing, err := c.Packing()
		if err != nil {
			continue
		}
		f, err = threeJawPicture(c, packing, inch)
		p = drawn(t, c, f, err)
		threeJawMeasured(t, c, packing, p)
		four := marking.FourJaw{Readings: make([]units.Length, 4), Diameter: s.Bar, Offset: s.Offset, Towards: 1 + r.IntN(4)}
		for i := range four.Readings {
			four.Readings[i] = any1(r, 0, 0.1*s.Bore.MM())
		}
		solved, err := four.Solve()
		if err != nil {
			continue
		}
		picture := fourJawPicture{
			diameter: s.Bar, readings: four.Readings, moves: solved.Moves, offset: s.Offset, towards: four.Towards, turns: r.IntN(2) == 0, inch: inch,
		}
		f, err = picture.picture()
		p = drawn(t, four, f, err)
		rounds = circlesOf(p, "EDGES")
		work, axis := rounds[0], rounds[len(rounds)-1]
		by = 2 * work.Radius / s.Bar.MM()
		sin, cos := math.Sincos(math.Pi/2 - float64(four.Towards-1)*math.Pi/2)
		want := check.Spot{X: axis.Centre.X + s.Offset.MM()*by*cos, Y: axis.Centre.Y + s.Offset.MM()*by*sin}
		if apartBy(work.Centre, want) > near {
			t.Fatalf("%+v: the work is at %v, want %v", four, work.Centre, want)
		}
	}
}

func threeJawMeasured(t *testing.T, c marking.ThreeJaw, packing marking.Packing, p *check.Picture) {
	t.Helper()
	rounds := circlesOf(p, "EDGES")
	blank, axis := rounds[0], rounds[len(rounds)-1]
	by := 2 * blank.Radius / c.Blank.MM()
	if e := axis.Centre.Y - blank.Centre.Y; math.Abs(e-c.Offset.MM()*by) > near || math.Abs(axis.Centre.X-blank.Centre.X) > near {
		t.Fatalf("%+v: offset drawn %v", c, e/by)
	}
	touching := 0
	for _, s := range p.On("EDGES") {
		if cornersOf(s) == 4 { // the packing
			if high := s.Spots[2].Y - s.Spots[1].Y; math.Abs(high-packing.Thickness.MM()*by) > near {
				t.Fatalf("%+v: packing drawn %v", c, high/by)
			}
			if gap := s.Spots[0].Y - blank.Centre.Y - blank.Radius; math.Abs(gap) > near {
				t.Fatalf("%+v: %v between the packing and the blank", c, gap)
			}
		}
		if cornersOf(s) == 6 { // a jaw: its face is between the last point and the first
			a, b := s.Spots[0], s.Spots[5]
			length := apartBy(a, b)
			share := ((blank.Centre.X-a.X)*(b.X-a.X) + (blank.Centre.Y-a.Y)*(b.Y-a.Y)) / (length * length)
			share = max(0, min(1, share))
			off := apartBy(blank.Centre, check.Spot{X: a.X + share*(b.X-a.X), Y: a.Y + share*(b.Y-a.Y)})
			if math.Abs(off-blank.Radius) < 0.02*blank.Radius {
				touching++
			}
			if off < blank.Radius-0.02*blank.Radius {
				t.Fatalf("%+v: a jaw lies in the blank, %v from its axis", c, off/by)
			}
		}
	}
	if !c.Jaw.IsZero() && touching < 2 { // narrow jaws are drawn with some width
		t.Fatalf("%+v: %d jaws touch", c, touching)
	}
}

// Zones of a fit are as high, and as far apart, as the limits are.
func TestFitPictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 4))
	classes := []string{"H7/g6", "H7/p6", "H7/js6", "H11/c11", "H7/h6", "H8/f7", "G7/h6", "H7/s6", "K7/h6", "F8/h6", "RC1", "RC9", "LC5", "LT3", "LN2", "FN5"}
	for range many(400) {
		a, err := askedFit(classes[r.IntN(len(classes))], any1(r, 3.5, 300))
		if err != nil {
			continue
		}
		if r.IntN(5) == 0 {
			a.limits, err = fits.Mate(fits.Exact(any1(r, 10, 10.1)), fits.Exact(any1(r, 10, 10.1)))
			if err != nil {
				t.Fatal(err)
			}
		}
		told := fitTold{inch: r.IntN(2) == 0, mm: 3 * r.IntN(2), thou: 1 + r.IntN(2)}
		f, err := fitPicture("fit", "", a, told)
		p := drawn(t, a, f, err)
		l := a.limits
		var zones []check.Stroke
		zones = append(zones, p.On("EDGES")...)
		if len(zones) != 2 {
			t.Fatalf("%+v: %d zones", a, len(zones))
		}
		bottom := func(s check.Stroke) float64 { return s.Spots[0].Y }
		top := func(s check.Stroke) float64 { return s.Spots[min(2, len(s.Spots)-1)].Y }
		scale := 0.0
		for _, d := range []struct{ drawn, is float64 }{
			{top(zones[0]) - bottom(zones[0]), l.Hole.Tolerance().Micron()}, {top(zones[1]) - bottom(zones[1]), l.Shaft.Tolerance().Micron()},
			{bottom(zones[0]) - top(zones[1]), l.Clearance.Min.Micron()}, {top(zones[0]) - bottom(zones[1]), l.Clearance.Max.Micron()},
		} {
			if d.is == 0 && math.Abs(d.drawn) > near {
				t.Fatalf("%+v: %v is drawn for nothing", a, d.drawn)
			}
			if d.is != 0 && scale == 0 {
				scale = d.drawn / d.is
			}
			if math.Abs(d.drawn-d.is*scale) > near {
				t.Fatalf("%+v: %v is drawn for %v um, at a scale of %v", a, d.drawn, d.is, scale)
			}
		}
		if !p.Says(told.clearance(l.Clearance.Min, "least", "most")) || !p.Says(told.clearance(l.Clearance.Max, "most", "least")) {
			t.Fatalf("%+v: the clearances are not told", a)
		}
	}
}

// A plate shows all holes of its circle, and between the arms as many spaces as package
// dividing says.
func TestDividingPictures(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 5))
	for range many(60) {
		plates := dividing.ThreePlates()
		if r.IntN(2) == 0 {
			plates = dividing.TwoSidedPlate()
		}
		head, err := dividing.NewHead([]int{40, 60, 90, 72}[r.IntN(4)], plates.Circles...)
		if err != nil {
			t.Fatal(err)
		}
		n := 1 + r.IntN(400)
		p := dividingPicture{divisions: n, below: []string{"dividers 12.34 mm", "on a circle of 123.45 mm"}}
		if r.IntN(4) == 0 {
			p.divisions, p.angle = 0, units.Angle(360*r.Float64())*units.Degree
		}
		if near, err := head.Nearest(n); err == nil {
			p.move = &near.Setting
		}
		if r.IntN(4) == 0 {
			p.diameter, p.across = units.MM(20), units.MM(12+7*r.Float64())
		}
		f, err := p.picture()
		got := drawn(t, p, f, err)
		if p.divisions > 0 && n <= 360 {
			ticks := 0
			for _, s := range got.On("DIMENSIONS") {
				if length := apartBy(s.Spots[0], s.Spots[1]); math.Abs(length-3.5) < near {
					ticks++
				}
			}
			if ticks != n {
				t.Fatalf("%+v: %d divisions are marked", p, ticks)
			}
		}
		if p.move == nil || p.move.Circle == 0 {
			continue
		}
		if holes := circlesOf(got, "DIMENSIONS"); len(holes) != p.move.Circle {
			t.Fatalf("%+v: %d holes", p, len(holes))
		}
		ends := circlesOf(got, "EDGES")
		ends = ends[len(ends)-2:]
		turn := 0.0
		for i, e := range ends {
			at := math.Atan2(e.Centre.X-plateAt, e.Centre.Y-dividedHigh)
			turn = at - turn*float64(i)
		}
		turn = math.Mod(turn+2*math.Pi, 2*math.Pi)
		want := math.Mod(2*math.Pi*float64(p.move.Spaces)/float64(p.move.Circle), 2*math.Pi)
		if math.Abs(turn-want) > 1e-3 {
			t.Fatalf("%+v: turned by %v, want %v", p, turn, want)
		}
	}
}
