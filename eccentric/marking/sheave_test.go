package marking_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// The walls of a sheave are the least and the most that is found going round its bore,
// and its bar holds all of it.
func TestWallsScanned(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 11))
	for range rounds(300) {
		bore, e := 3+7*random.Float64(), 0.5+5*random.Float64()
		s := marking.Sheave{Bore: units.MM(bore), Offset: units.MM(e), Diameter: units.MM(bore + 2*e + 0.5 + 10*random.Float64())}
		if random.IntN(2) == 0 {
			s.Boss = s.Bore.Scale(1.1 + random.Float64())
		}
		if random.IntN(2) == 0 {
			s.Lip, s.Clean = units.MM(1), units.MM(0.25)
		}
		w, err := s.Walls()
		if err != nil {
			t.Fatal(err)
		}
		radius := s.Diameter.MM() / 2
		thin, thick, beyond, blank := math.Inf(1), 0.0, math.Inf(-1), 0.0
		for i := range 3600 { // round the shaft's axis, the sheave's to one side of it
			at := 2 * math.Pi * float64(i) / 3600
			wall := dialled(radius, point{e, 0}, at) - bore/2
			thin, thick = min(thin, wall), max(thick, wall)
			sin, cos := math.Sincos(at)
			edge := math.Hypot(s.Boss.MM()/2*cos-e, s.Boss.MM()/2*sin) // of the boss, from the sheave's axis
			beyond, blank = max(beyond, edge-radius), max(blank, 2*edge)
		}
		near(t, "thin", w.Thin.MM(), thin, 1e-6)
		near(t, "thick", w.Thick.MM(), thick, 1e-6)
		blank = 2 * (radius + s.Lip.MM())
		if !s.Boss.IsZero() {
			near(t, "beyond", w.Beyond.MM(), beyond, 1e-6)
			blank = max(blank, 2*(beyond+radius))
		}
		near(t, "blank", w.Blank.MM(), blank+2*s.Clean.MM(), 1e-6)
	}
}

func TestSheaveCheck(t *testing.T) {
	mm := units.MM
	sound := marking.Sheave{Bore: mm(6), Offset: mm(3.2), Diameter: mm(20), Boss: mm(12), Screw: mm(3)}
	for name, test := range map[string]struct {
		change func(*marking.Sheave)
		want   []finding.Code
		ok     bool
	}{
		"sound":          {func(*marking.Sheave) {}, nil, true},
		"out of it":      {func(s *marking.Sheave) { s.Diameter = mm(12.4) }, []finding.Code{marking.NoWall, marking.BossInStrap}, false},
		"thin":           {func(s *marking.Sheave) { s.Diameter, s.Boss = mm(13.8), mm(0) }, []finding.Code{marking.ThinSheave}, true},
		"an eighth":      {func(s *marking.Sheave) { s.Diameter, s.Boss = mm(13.9), mm(0) }, nil, true},
		"thin boss":      {func(s *marking.Sheave) { s.Boss, s.Screw = mm(7.4), mm(0) }, []finding.Code{marking.ThinSheave}, true},
		"short thread":   {func(s *marking.Sheave) { s.Screw = mm(3.1) }, []finding.Code{marking.ShortScrew}, true},
		"no boss for it": {func(s *marking.Sheave) { s.Boss = mm(0) }, nil, true},
		"too little bar": {func(s *marking.Sheave) { s.Bar = mm(19.9) }, []finding.Code{marking.BarTooSmall}, false},
		"just enough":    {func(s *marking.Sheave) { s.Bar = mm(20) }, nil, true},
		"boss past it":   {func(s *marking.Sheave) { s.Diameter = mm(18) }, []finding.Code{marking.BossInStrap}, true},
	} {
		s := sound
		test.change(&s)
		found, err := s.Check()
		var codes []finding.Code
		for _, f := range found {
			codes = append(codes, f.Code)
		}
		if err != nil || !slices.Equal(codes, test.want) || found.OK() != test.ok {
			t.Errorf("%s: %v, %v", name, found, err)
		}
	}
}
