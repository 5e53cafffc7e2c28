package marking_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// The ports of the demonstration engine with a cutter of 1.5 mm.
func ExamplePortFace_Cuts() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)}
	cuts, err := marking.PortFace{Ports: ports, Cutter: units.MM(1.5)}.Cuts()
	for _, c := range cuts {
		fmt.Println(c.Port, c.From, "to", c.To, "across", c.Across)
	}
	fmt.Println(err)
	// Output:
	// head end -5.75 mm to -5.25 mm across 4.25 mm
	// exhaust -1.25 mm to 1.25 mm across 4.25 mm
	// crank end 5.25 mm to 5.75 mm across 4.25 mm
	// <nil>
}

// The cutter's edge, taken round each port, touches its four sides and passes none; and
// the ports follow each other with the bars between them.
func TestPortFace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) units.Length {
			return units.MM(rapid.Float64Range(low, high).Draw(t, name))
		}
		p := eccentric.Ports{Steam: draw("steam", 1, 6), Bar: draw("bar", 1, 6), Exhaust: draw("exhaust", 2, 9), Length: draw("length", 5, 30)}
		if rapid.Bool().Draw(t, "unequal") {
			p.CrankSteam, p.CrankBar = draw("crank steam", 1, 6), draw("crank bar", 1, 6)
		}
		narrow := min(p.Steam.MM(), p.Exhaust.MM(), p.Length.MM())
		if !p.CrankSteam.IsZero() {
			narrow = min(narrow, p.CrankSteam.MM())
		}
		f := marking.PortFace{Ports: p, Cutter: units.MM(narrow * rapid.Float64Range(0.2, 1).Draw(t, "cutter"))}
		cuts, err := f.Cuts()
		if err != nil {
			t.Fatal(err)
		}
		crankSteam, crankBar := p.Steam, p.Bar
		if !p.CrankSteam.IsZero() {
			crankSteam, crankBar = p.CrankSteam, p.CrankBar
		}
		edges := []float64{0, p.Steam.MM(), p.Bar.MM(), p.Exhaust.MM(), crankBar.MM(), crankSteam.MM()}
		at := -p.Exhaust.MM()/2 - p.Bar.MM() - p.Steam.MM() // walk the face from the head end
		for i, step := range edges {
			at += step
			c := cuts[i/2]
			edge := c.From.MM() - f.Cutter.MM()/2
			if i%2 == 1 {
				edge = c.To.MM() + f.Cutter.MM()/2
			}
			if math.Abs(edge-at) > 1e-6 || math.Abs(c.Across.MM()+f.Cutter.MM()/2-p.Length.MM()/2) > 1e-6 {
				t.Fatalf("%v: the cutter makes an edge at %.4f, wanted %.4f: %v", f, edge, at, c)
			}
		}
	})
	good := marking.PortFace{
		Ports:  eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
		Cutter: units.MM(2),
	}
	cuts, err := good.Cuts()
	if err != nil || !cuts[0].Full || cuts[0].From != cuts[0].To || cuts[1].Full {
		t.Errorf("%v, %v", cuts, err)
	}
	for name, change := range map[string]func(*marking.PortFace){
		"wide cutter": func(f *marking.PortFace) { f.Cutter = units.MM(2.01) },
		"no cutter":   func(f *marking.PortFace) { f.Cutter = units.Length{} },
		"no bar":      func(f *marking.PortFace) { f.Ports.Bar = units.Length{} },
		"short ports": func(f *marking.PortFace) { f.Ports.Length = units.MM(1.9) },
	} {
		f := good
		change(&f)
		_, err := f.Cuts()
		check.Refuses(t, name, err, units.ErrOutOfRange, "accepted")
	}
}

// Passes of a port of 3 mm: none deeper than the cutter stands, all alike, to the full
// depth.
func TestDepths(t *testing.T) {
	for _, tt := range []struct {
		depth, pass float64
		n           int
	}{{3, 0.1875, 16}, {3, 0.2, 15}, {3, 0.21, 15}, {3, 0.19, 16}, {0.1, 0.2, 1}, {1, 1, 1}} {
		all, err := marking.Depths(units.MM(tt.depth), units.MM(tt.pass))
		if err != nil || len(all) != tt.n || all[len(all)-1] != units.MM(tt.depth) || all[0].MM() > tt.pass+1e-9 {
			t.Errorf("%v: %v, %v", tt, all, err)
		}
	}
	for _, tt := range [][2]float64{{0, 1}, {1, 0}, {-1, 1}, {1001, 1}} {
		_, err := marking.Depths(units.MM(tt[0]), units.MM(tt[1]))
		check.Refuses(t, fmt.Sprint(tt), err, units.ErrOutOfRange, "accepted")
	}
}
