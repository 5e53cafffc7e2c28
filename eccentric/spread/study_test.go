package spread

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// demo is the invented engine of the demonstration book.
func demo() eccentric.Gear {
	return eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
}

func within(t testing.TB, d Dimension, text string) Tolerance {
	t.Helper()
	tolerance, err := d.PlusMinus(text)
	if err != nil {
		t.Fatal(err)
	}
	return tolerance
}

// usual are tolerances of a home workshop, invented.
func usual(t testing.TB) []Tolerance {
	return []Tolerance{
		within(t, Advance, "1 deg"), within(t, ValveLength, "0.05 mm"), within(t, ValveCavity, "0.05 mm"),
		within(t, PortSteam, "0.05 mm"), within(t, PortBar, "0.05 mm"), within(t, PortExhaust, "0.05 mm"),
		within(t, Travel, "0.05 mm"), within(t, ValveOffset, "0.05 mm"), within(t, Stroke, "0.1 mm"),
		within(t, ConnectingRod, "0.1 mm"), within(t, EccentricRod, "0.1 mm"),
	}
}

func TestDimensions(t *testing.T) {
	all := Dimensions()
	for _, d := range all {
		if back, err := ParseDimension(d.String()); err != nil || back != d || d.in(new(kernel.Gear)) == nil {
			t.Errorf("%v reads back as %v, %v", d, back, err)
		}
	}
	if len(all) != int(ChestLength) {
		t.Errorf("%d dimensions", len(all))
	}
	if d, err := ParseDimension("eccentric.stands"); err != nil || d != Advance {
		t.Errorf("stands is %v, %v", d, err)
	}
	if _, err := ParseDimension("valve.weight"); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}

// A size that is put into the gear is found in the kernel's.
func TestPut(t *testing.T) {
	for _, d := range Dimensions() {
		g := demo()
		g.Chest, g.LeverRatio = units.MM(30), 1.5
		before := g.Kernel()
		size := *d.in(&before) + 1
		d.put(&g, size)
		if after := g.Kernel(); *d.in(&after) != size {
			t.Errorf("%v: %v, want %v", d, *d.in(&after), size)
		}
	}
}

func TestPlusMinus(t *testing.T) {
	for _, test := range []struct {
		d            Dimension
		text, lo, up string
	}{
		{ValveLength, "0.05 mm", "-0.05 mm", "0.05 mm"},
		{PortSteam, "2 thou", "-0.002 in", "0.002 in"},
		{Advance, "1 deg", "-1 deg", "1 deg"},
		{LeverRatio, "0.01", "-0.0100", "+0.0100"},
		{Travel, "0 mm", "0", "0"},
		{Advance, "0 deg", "0", "0"},
	} {
		got := within(t, test.d, test.text)
		if test.d == PortSteam {
			if got.Upper.Length != units.Thou(2) || got.Lower.Length != units.Thou(-2) {
				t.Errorf("got %v", got)
			}
		} else if got.Dimension != test.d || got.Lower.String() != test.lo || got.Upper.String() != test.up {
			t.Errorf("%v %s: %v", test.d, test.text, got)
		}
	}
	for d, text := range map[Dimension]string{
		ValveLength: "0.05", ValveCavity: "-0.05 mm", Advance: "0.1 mm", LeverRatio: "NaN", Stroke: "", 0: "1 mm",
		Travel: "1 deg", 99: "1 mm",
	} {
		if got, err := d.PlusMinus(text); err == nil {
			t.Errorf("%v %q is read as %v", d, text, got)
		}
	}
}

// Each refusal names the dimension and says what is accepted.
func TestRefused(t *testing.T) {
	length := func(d Dimension, lower, upper float64) Tolerance {
		return Tolerance{d, Deviation{Length: units.MM(lower)}, Deviation{Length: units.MM(upper)}}
	}
	for name, test := range map[string]struct {
		spoil func(*Study)
		kind  error
		says  string
	}{
		"twice":        {func(s *Study) { s.Tolerances = append(s.Tolerances, s.Tolerances[0]) }, units.ErrOutOfRange, "given twice"},
		"none":         {func(s *Study) { s.Tolerances[0].Dimension = 0 }, units.ErrUnknown, "valve.length"},
		"no chest":     {func(s *Study) { s.Tolerances[0] = length(ChestLength, -1, 1) }, units.ErrMissing, "no such size"},
		"no lever":     {func(s *Study) { s.Tolerances[0] = Tolerance{LeverRatio, Deviation{}, Deviation{Ratio: 0.1}} }, units.ErrMissing, "lever_ratio"},
		"infinite rod": {func(s *Study) { s.Gear.EccentricRod = eccentric.InfiniteRod() }, units.ErrMissing, "eccentric_rod"},
		"lost motion":  {func(s *Study) { s.Tolerances[0] = within(t, LostMotion, "0.1 mm") }, units.ErrOutOfRange, "lost motion"},
		"no valve": {func(s *Study) {
			s.Gear.Valve.LostMotion, s.Tolerances[6] = units.MM(6), length(Travel, -0.5, 0)
		}, units.ErrOutOfRange, "the valve does not move"},
		"no land":         {func(s *Study) { s.Tolerances[2] = length(CavityOffset, -3.3, 1) }, units.ErrOutOfRange, "cavity offset"},
		"wrong way":       {func(s *Study) { s.Tolerances[1] = length(ValveLength, 0.1, -0.1) }, units.ErrOutOfRange, "above the upper"},
		"angle of length": {func(s *Study) { s.Tolerances[1].Upper = Deviation{Angle: 1} }, units.ErrOutOfRange, "a length"},
		"beyond 1 km":     {func(s *Study) { s.Tolerances[1].Upper.Length = units.Picometres(2e15) }, units.ErrOutOfRange, "1 km"},
		"no port":         {func(s *Study) { s.Tolerances[3] = length(PortSteam, -2, 0) }, units.ErrMissing, "steam port width"},
		"cavity":          {func(s *Study) { s.Tolerances[2] = length(ValveCavity, 0, 6.36) }, units.ErrOutOfRange, "valve cavity"},
		"rod": {func(s *Study) {
			s.Gear.ConnectingRod = eccentric.RodOf(units.MM(12.6))
		}, units.ErrOutOfRange, "connecting rod"},
		"advance": {func(s *Study) { s.Gear.Advance = 179.5 * units.Degree }, units.ErrOutOfRange, "angle of advance"},
		"gear":    {func(s *Study) { s.Gear.Stroke = units.Length{} }, units.ErrMissing, "stroke"},
		"runs":    {func(s *Study) { s.Runs = -1 }, units.ErrOutOfRange, "1 to 1,000,000"},
		"workers": {func(s *Study) { s.Workers = -1 }, units.ErrOutOfRange, "workers"},
		"lever": {func(s *Study) {
			s.Gear.LeverRatio = -0.5
			s.Tolerances[0] = Tolerance{LeverRatio, Deviation{}, Deviation{Ratio: 0.5}}
		}, units.ErrOutOfRange, "nothing of the size"},
		"no crank port": {func(s *Study) { s.Tolerances[0] = length(CrankSteam, -2, 0) }, units.ErrOutOfRange, "nothing of the size"},
		"short lever": {func(s *Study) {
			s.Gear.LeverRatio = -0.5
			s.Tolerances[0] = Tolerance{LeverRatio, Deviation{}, Deviation{Ratio: 0.41}}
		}, units.ErrOutOfRange, "lever ratio"},
	} {
		s := Study{Gear: demo(), Tolerances: usual(t)}
		if err := s.Validate(); err != nil {
			t.Fatal(err)
		}
		test.spoil(&s)
		err := s.Validate()
		if !errors.Is(err, test.kind) || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The crank end goes with the head end unless it has a size or a tolerance of its
// own.
func TestBothEnds(t *testing.T) {
	for _, test := range []struct {
		name        string
		spoil       func(*Study)
		steam, bars bool
	}{
		{"alike", func(*Study) {}, true, true},
		{"own size", func(s *Study) { s.Gear.Ports.CrankSteam, s.Gear.Ports.CrankBar = units.MM(2), units.MM(2) }, false, false},
		{"own tolerances", func(s *Study) {
			s.Tolerances = append(s.Tolerances, within(t, CrankBar, "0.1 mm"), within(t, CrankSteam, "0 mm"))
		}, false, false},
		{"own bar", func(s *Study) { s.Tolerances = append(s.Tolerances, within(t, CrankBar, "0.1 mm")) }, true, false},
	} {
		s := Study{Gear: demo(), Tolerances: []Tolerance{within(t, PortBar, "0.1 mm"), within(t, PortSteam, "0.1 mm")}}
		test.spoil(&s)
		b, err := s.box()
		if err != nil {
			t.Fatal(err)
		}
		k := b.drawn
		g := s.Gear
		for _, v := range b.varied {
			v.set(&k, v.upper)
			v.dimension.put(&g, v.upper)
		}
		if g.Kernel() != k {
			t.Errorf("%s: the gear is %+v, its kernel %+v", test.name, g, k)
		}
		if (b.varied[0].both != test.steam) || (b.varied[1].both != test.bars) {
			t.Errorf("%s: %+v", test.name, b.varied)
		}
	}
}

// What is not refused holds sound gears alone: each corner and what lies between.
func TestBoxIsSound(t *testing.T) {
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		s := Study{Gear: demo()}
		s.Gear.Valve.LostMotion = units.MM(rapid.SampledFrom([]float64{0, 0.1, 3}).Draw(t, "lost"))
		s.Gear.Chest, s.Gear.LeverRatio = units.MM(30), rapid.SampledFrom([]float64{-1.2, -0.2, 0.2, 1.2}).Draw(t, "lever")
		s.Gear.ConnectingRod = eccentric.RodOf(units.MM(rapid.Float64Range(12.6, 20).Draw(t, "rod")))
		for _, d := range Dimensions() {
			lower, upper := rapid.Float64Range(-1, 0).Draw(t, "lower"), rapid.Float64Range(0, 1).Draw(t, "upper")
			k := s.Gear.Kernel()
			size := max(*d.in(&k), 1, -*d.in(&k))
			s.Tolerances = append(s.Tolerances, Tolerance{d, d.deviation(lower * size), d.deviation(upper * size / 2)})
		}
		n := rapid.IntRange(1, 4).Draw(t, "how many")
		s.Tolerances = rapid.Permutation(s.Tolerances).Draw(t, "order")[:n]
		b, err := s.box()
		if err != nil {
			return
		}
		accepted++
		k := b.drawn
		for _, v := range b.varied {
			share := rapid.SampledFrom([]float64{0, 0.5, 1}).Draw(t, "share")
			v.set(&k, v.lower+share*(v.upper-v.lower))
		}
		if !k.Sound() {
			t.Errorf("%+v allows %+v", s.Tolerances, k)
		}
	})
	if accepted == 0 {
		t.Error("no study was accepted")
	}
}
