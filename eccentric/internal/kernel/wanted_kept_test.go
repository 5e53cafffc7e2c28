package kernel

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// What Solve and ExhaustLap answer to wishes of all sorts, ports of a width and wishes
// that cannot be among them: for what is found see [solves], which needs no such list.
// Why a wish cannot be, and the nearest that can, is kept here.
func TestSolvedKept(t *testing.T) {
	var text strings.Builder
	rng := rand.New(rand.NewPCG(8, 1))
	between := func(low, high float64) float64 { return math.Round(1e3*(low+(high-low)*rng.Float64())) / 1e3 }
	one := func(of int) bool { return rng.IntN(of) == 0 }
	reasons := map[Hindrance]int{}
	for range 260 {
		w := Wanted{
			Stroke: 25, CutOff: between(0.2, 0.98), At: End(rng.IntN(3)), Place: Placing(rng.IntN(3)),
			Rod: between(30, 90), EccentricRod: between(12, 80), Lead: between(-0.1, 0.4),
		}
		if one(5) {
			w.CutOff = 1 - between(0.02, 9)/1000
		}
		if one(20) {
			w.Lead = between(2, 4)
		}
		if one(3) {
			w.Rod = endless
		}
		switch rng.IntN(4) {
		case 0:
			w.EccentricRod = endless
		case 1:
			w.EccentricRod = -w.EccentricRod
		}
		if one(3) {
			w.LostMotion = between(0, 0.4)
		}
		if w.Place == AsGiven && one(2) {
			w.Shift = between(-0.5, 0.5)
		}
		opening := between(0.3, 3)
		switch rng.IntN(3) {
		case 0:
			w.Reach = between(1, 5)
		case 1:
			w.Opening = opening
			if one(2) {
				w.Ports = [Ends]float64{0, between(0.5, 3), between(0.5, 3)}
			}
		case 2:
			w.Full = true
			w.Ports = [Ends]float64{0, opening, between(0.5, 3)}
		}
		f, why, nearest := w.Solve()
		reasons[why]++
		fmt.Fprintf(&text, "%v %d %d: ", []float64{w.CutOff, w.Lead, w.Opening, w.Reach, w.Ports[Head], w.Ports[Crank], w.Shift,
			w.LostMotion, w.Rod, w.EccentricRod}, w.At, w.Place)
		if why != NoHindrance {
			fmt.Fprintf(&text, "hindrance %d, nearest %.5g\n", why, nearest)
			continue
		}
		fmt.Fprintf(&text, "r %.5g S %.5g d %.5g shift %.4g opens %.5g closed %v", f.Reach, f.Steam, f.Advance, rounded(f.Shift),
			f.Opens(&w), f.Closed)
		if w.Opening > 0 && w.Ports[Head] > 0 || w.Full { // the ports open as is wished, by their widths and the valve's reach
			head := Uncovered(f.Reach-w.LostMotion/2-f.Steam+f.Shift, w.Ports[Head])
			crank := Uncovered(f.Reach-w.LostMotion/2-f.Steam-f.Shift, w.Ports[Crank])
			want := w.Opening
			if w.Full {
				want = (w.Ports[Head] + w.Ports[Crank]) / 2
			}
			near(t, "mean opening", (head+crank)/2, want, 1e-8)
		}
		compression, room := between(0, 0.5), math.Inf(1)
		if one(5) {
			compression /= 100
		}
		if one(4) {
			room = between(0.1, 1)
		}
		lap, why, nearest := w.ExhaustLap(&f, compression, f.Shift, room)
		fmt.Fprintf(&text, "; %v room %v: lap %.5g hindrance %d nearest %.5g\n", compression, room, rounded(lap), why, nearest)
		reasons[why]++
	}
	for why := LeadTooLarge; why <= CompressionTooMuch; why++ {
		if reasons[why] == 0 {
			t.Errorf("no wish is hindered by %d", why)
		}
	}
	check.Kept(t, "eccentric/kernel/solved.txt", text.String())
}

// rounded takes for nothing what the arithmetic leaves of it.
func rounded(v float64) float64 {
	if math.Abs(v) < 1e-12 {
		return 0
	}
	return v
}

// The cut-off that is named as the nearest to one that is too late or too early can be
// had, and what is further than it cannot.
func TestNearestCutOffCanBeHad(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 1))
	early, late := 0, 0
	for range 400 {
		w := Wanted{Stroke: 25, Rod: 30 + 60*rng.Float64(), EccentricRod: 8 + 40*rng.Float64(), Reach: 1 + 4*rng.Float64(),
			CutOff: 0.02 + 0.978*rng.Float64(), At: End(rng.IntN(3)), Lead: 0.5 * rng.Float64()}
		if rng.IntN(2) == 0 {
			w.CutOff = 1 - 0.005*rng.Float64()
		}
		_, why, nearest := w.Solve()
		inside := 1e-6
		switch why {
		case CutOffTooLate:
			late++
			inside = -inside
		case CutOffTooEarly:
			early++
		default:
			continue
		}
		if (nearest > w.CutOff) != (why == CutOffTooEarly) {
			t.Errorf("%v is nearest to %v, which is %d", nearest, w.CutOff, why)
		}
		near := w
		near.CutOff = nearest + inside
		if _, why, _ := near.Solve(); why != NoHindrance {
			t.Errorf("nearest to %v is said to be %v, but %d: %+v", w.CutOff, nearest, why, w)
		}
	}
	if early == 0 || late == 0 {
		t.Errorf("%d too early, %d too late", early, late)
	}
}

// Ports of a width of one are ports.
func TestPortsOfOne(t *testing.T) {
	w := Wanted{Stroke: 25, Rod: endless, EccentricRod: endless, CutOff: 0.75, Full: true, Ports: [Ends]float64{0, 1, 1}}
	f, why, _ := w.Solve()
	if why != NoHindrance {
		t.Fatal(why)
	}
	near(t, "opens", f.Opens(&w), 1, 1e-12) // r - r*cos(60 degrees)
	near(t, "half the travel", f.Reach, 2, 1e-12)
	w.Ports = [Ends]float64{}
	if _, why, _ := w.Solve(); why != NotTogether {
		t.Errorf("no ports open fully: %d", why)
	}
}
