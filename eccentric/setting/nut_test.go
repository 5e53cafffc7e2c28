package setting

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// EC-05: openings of 1/16 and 1/32 in ask for a shift of 1/64 in, which a flat nut in
// its slot does to the nearest half turn. The figures are of the question.
func TestHalfTurns(t *testing.T) {
	for _, row := range []struct {
		name             string
		pitch            units.Length
		turns, set, left float64 // left in thou
	}{
		{"40 tpi", units.Inch(1.0 / 40), 0.625, 0.5, 3.1},
		{"5 BA", units.MM(0.59), 0.67, 0.5, 4.0},
		{"7 BA", units.MM(0.48), 0.83, 1, -3.3},
		{"M3", units.MM(0.5), 0.79, 1, -4.1},
	} {
		shift := units.InchFraction(1, 16).Sub(units.InchFraction(1, 32)).Scale(0.5)
		got, err := Nut{row.pitch, 2}.Set(shift)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.name+": turns", got.Turns, row.turns, 0.005)
		near(t, row.name+": set", got.Set, row.set, 0)
		near(t, row.name+": thou left", got.Left.In(units.Thousandths), row.left, 0.05)
		near(t, row.name+": most left", got.MostLeft.MM(), row.pitch.MM()/4, 1e-9)
		back, err := Nut{row.pitch, 2}.Set(shift.Neg())
		if err != nil || back.Turns != -got.Turns || back.Set != -got.Set || back.Left != got.Left.Neg() {
			t.Errorf("%s: the other way %+v, %v", row.name, back, err)
		}
	}
}

// Of all the places of a turn none leaves less, and none as little with a smaller turn;
// found by trying them, in whole numbers of picometres.
func TestNearestPlace(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 4))
	for range 3000 {
		n := Nut{units.Micron(float64(100 + r.IntN(2000))), 1 + r.IntN(8)}
		move := units.Micron(float64(r.IntN(8001) - 4000))
		got, err := n.Set(move)
		if err != nil {
			t.Fatal(err)
		}
		best, at := int64(math.MaxInt64), 0 // of what is left, times the places
		for k := -400; k <= 400; k++ {
			left := move.Picometres()*int64(n.Places) - n.Pitch.Picometres()*int64(k)
			left = max(left, -left)
			if left < best || left == best && max(k, -k) < max(at, -at) {
				best, at = left, k
			}
		}
		if math.Abs(got.Set*float64(n.Places)-float64(at)) > 1e-9 {
			t.Fatalf("%v by %v: %v of a turn, want %d of %d", n, move, got.Set, at, n.Places)
		}
		left := float64(best) / float64(n.Places)
		if math.Abs(math.Abs(float64(got.Left.Picometres()))-left) > 2 || got.Left.Abs().Cmp(got.MostLeft.Add(units.Picometres(2))) > 0 {
			t.Fatalf("%v by %v: %v left, want %g", n, move, got.Left, left)
		}
		if got.Moves.Add(got.Left) != move {
			t.Fatalf("%v and %v are not %v", got.Moves, got.Left, move)
		}
		// The finer thread leaves no more than the leaf of a feeler.
		if !got.Finer.IsZero() {
			finer, err := Nut{got.Finer, n.Places}.Set(move)
			if err != nil || finer.MostLeft.Cmp(units.Micron(50)) > 0 || !finer.Finer.IsZero() {
				t.Fatalf("a pitch of %v leaves up to %v, %v", got.Finer, finer.MostLeft, err)
			}
		}
	}
}

func TestNutThatSeatsAnywhere(t *testing.T) {
	got, err := Nut{Pitch: units.MM(0.5)}.Set(units.MM(-0.17))
	if err != nil || got.Set != got.Turns || math.Abs(got.Turns+0.34) > 1e-12 || !got.Left.IsZero() || got.Moves != units.MM(-0.17) {
		t.Errorf("%+v, %v", got, err)
	}
	var bad *units.ArgumentError
	if _, err := (Nut{Pitch: units.MM(0.5)}).Set(units.MM(1001)); !errors.As(err, &bad) {
		t.Error(err)
	}
}

func TestNutText(t *testing.T) {
	for _, row := range []struct {
		n    Nut
		move units.Length
		want string
	}{
		{Nut{units.MM(0.5), 2}, units.MM(0.25), "1/2 turn of the nut"},
		{Nut{units.MM(0.5), 2}, units.MM(-0.75), "1 1/2 turns of the nut"},
		{Nut{units.MM(0.5), 2}, units.MM(0.3), "0.6 turns of the nut; the nearest that it can be set is 1/2 turn, which leaves it 0.05 mm (2 thou) short"},
		{Nut{units.MM(0.5), 2}, units.MM(-0.4), "0.8 turns of the nut; the nearest that it can be set is 1 turn, which leaves it 0.1 mm (3.9 thou) too far"},
		{Nut{units.MM(0.5), 2}, units.MM(0.1), "0.2 turns of the nut, and no turn is the nearest that it can be set, which leaves all of it"},
		{Nut{units.MM(0.6), 6}, units.MM(0.5), "5/6 turn of the nut"},
	} {
		got, err := row.n.Set(row.move)
		if err != nil || got.String() != row.want {
			t.Errorf("%v by %v: %q, %v; want %q", row.n, row.move, got, err, row.want)
		}
	}
}
