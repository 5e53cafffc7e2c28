package screwcut

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

func mustLead(t testing.TB, s string) Lead {
	t.Helper()
	l, err := ParseLead(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func teeth(t testing.TB, s string) []int {
	t.Helper()
	var all []int
	for _, field := range strings.Fields(s) {
		n, err := strconv.Atoi(field)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, n)
	}
	return all
}

func TestChangeWheelsPublished(t *testing.T) {
	for r := range check.Open(t, "thread/screwcut/change_wheels.csv").Rows() {
		leadscrew, lead := mustLead(t, r.Text("leadscrew")), mustLead(t, r.Text("lead"))
		if strings.Contains(r.Text("driven"), ".") {
			num, den, ok := lead.over(leadscrew)
			if !ok {
				t.Fatalf("%s: no ratio", r.ID)
			}
			r.Within("driven", r.Float("drivers")*float64(den)/float64(num), 0.0001) // printed cut off, not rounded
			continue
		}
		drivers, driven := teeth(t, r.Text("drivers")), teeth(t, r.Text("driven"))
		lathe := Lathe{Leadscrew: leadscrew, Wheels: append(append([]int{}, drivers...), driven...)}
		trains, err := lathe.Trains(lead)
		if err != nil {
			t.Fatalf("%s: %v", r.ID, err)
		}
		var found Train
		for _, train := range trains.Exact {
			if sameSet(train.Drivers, drivers) && sameSet(train.Driven, driven) {
				found = train
			}
		}
		if found.Drivers == nil {
			t.Errorf("%s: the printed train is not among the exact ones: %v", r.ID, trains.Exact)
			continue
		}
		got := fmt.Sprintf("%.6g mm", found.Cut.MM())
		if strings.HasSuffix(r.Text("lead"), "tpi") {
			got = fmt.Sprintf("%.6g tpi", 25.4/found.Cut.MM())
		}
		r.Equal("lead", got)
		// Without the search: so many turns of the leadscrew move the tool by so many of its leads.
		made, threads := 1.0, 1
		for i := range drivers {
			made, threads = made*float64(drivers[i]), threads*driven[i]
		}
		if text := r.Text("lead"); strings.HasSuffix(text, "tpi") {
			cut, err := NewLead(units.Inch(made), threads*int(leadscrew.TPI()))
			if err != nil || cut != lead {
				t.Errorf("%s: %v, %v", r.ID, cut, err)
			}
			r.Equal("lead", fmt.Sprintf("%.6g tpi", leadscrew.TPI()*float64(threads)/made))
		} else {
			r.Equal("lead", fmt.Sprintf("%.6g mm", leadscrew.Length().MM()*made/float64(threads)))
		}
		// Who lacks one of the wheels buys it, unless the others do without it.
		for i, lacking := range driven {
			lathe.Wheels = append(append([]int{drivers[0]}, drivers...), slices.Delete(slices.Clone(driven), i, i+1)...)
			buy, err := lathe.WheelsToBuy(lead)
			sold := lacking >= 20 && lacking <= 127
			if err != nil || sold && !slices.Contains(buy, lacking) && (len(buy) > 0 || len(drivers) == 1) {
				t.Errorf("%s: without %d buy %v, %v", r.ID, lacking, buy, err)
			}
		}
	}
}

func sameSet(a, b []int) bool {
	count := map[int]int{}
	for _, v := range a {
		count[v]++
	}
	for _, v := range b {
		count[v]--
	}
	for _, n := range count {
		if n != 0 {
			return false
		}
	}
	return len(a) == len(b)
}

// ordinarySet is an invented set of wheels in fours, with a second of the
// smallest.
var ordinarySet = []int{24, 24, 28, 32, 36, 40, 44, 48, 52, 56, 60, 64, 68, 72, 76, 80, 84, 88, 92, 96, 100}

// A metric thread on a leadscrew of inches without a wheel of 127: the error of
// the two well-known substitutes, over 100 mm, over a nut, and over a thousand
// threads. 25.4 is exact, so the figures are geometry.
func TestMetricSubstitutes(t *testing.T) {
	for _, tt := range []struct {
		name      string
		leadscrew string
		lead      string
		wheels    []int
		per100    float64 // micrometres in 100 mm
		cut       float64 // mm
	}{
		{"TH-10: 63/80 for 1 mm at 8 tpi", "8 tpi", "1 mm", []int{63, 80, 20, 50}, 12.5, 1.000125},
		{"TH-10: 37/47 for 1 mm at 8 tpi", "8 tpi", "1 mm", []int{37, 47, 20, 50}, -21.276596, 0.999787234},
		{"TH-10: 127 for 3 mm at 6 tpi", "6 tpi", "3 mm", []int{90, 127}, 0, 3},
	} {
		trains, err := (Lathe{Leadscrew: mustLead(t, tt.leadscrew), Wheels: tt.wheels}).Trains(mustLead(t, tt.lead))
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		all := append(trains.Exact, trains.Closest...)
		if len(all) == 0 {
			t.Errorf("%s: no train", tt.name)
			continue
		}
		best := all[0]
		if got, err := best.ErrorOver(units.MM(100)); err != nil || math.Abs(got.Micron()-tt.per100) > 0.001 {
			t.Errorf("%s: %v is %v long over 100 mm, %v, want %.4f um", tt.name, best, got, err, tt.per100)
		}
		if got := best.Cut.MM(); math.Abs(got-tt.cut) > 1e-8 {
			t.Errorf("%s: %v cuts %.9f mm, want %.9f", tt.name, best, got, tt.cut)
		}
		if best.Exact() != (tt.per100 == 0) {
			t.Errorf("%s: Exact() = %v", tt.name, best.Exact())
		}
	}

	// A 14/11 mm screw beside one of 20 tpi is one thread out after 23.33 in
	// (Jones, Turning and Boring, on substitute wheels).
	turns := 23.33 * 25.4 / (14.0 / 11)
	slip := Train{Error: 14.0/11/1.27 - 1}
	if got, err := slip.ErrorOver(units.MM(turns * 1.27)); err != nil || math.Abs(got.MM()-1.27) > 0.001 {
		t.Errorf("TH-10: 20 tpi cut as 14/11 mm: %v out after 23.33 in, %v, want a thread, 1.27 mm", got, err)
	}
}

// A train need not come from Trains: one that is no train prints, and an error that
// is no length is refused.
func TestTrainByHand(t *testing.T) {
	for _, tt := range []struct {
		train Train
		want  string
	}{
		{Train{}, ""},
		{Train{Drivers: []int{20}, Driven: []int{40}}, "20/40"},
		{Train{Drivers: []int{20, 30}, Driven: []int{40}}, "20/40 x 30/?"},
		{Train{Driven: []int{40}}, "?/40"},
	} {
		if got := tt.train.String(); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.train.Drivers, got, tt.want)
		}
	}
	for _, tt := range []struct {
		share  float64
		length units.Length
	}{
		{math.NaN(), units.MM(100)}, {math.Inf(1), units.MM(100)}, {1e300, units.MM(100)}, {math.NaN(), units.Length{}},
		{-2, units.MM(1e6)},
	} {
		got, err := Train{Error: tt.share}.ErrorOver(tt.length)
		if !errors.Is(err, units.ErrOutOfRange) || got != (units.Length{}) {
			t.Errorf("%g over %v: %v, %v", tt.share, tt.length, got, err)
		}
	}
	lathe := Lathe{Leadscrew: mustLead(t, "8 tpi"), Wheels: []int{20, 40}}
	if said, err := lathe.Check(Trains{Want: mustLead(t, "1 mm"), Closest: []Train{{Error: math.NaN()}}}); err == nil {
		t.Errorf("a train with an error that is none: %v", said)
	}
}

func TestWheelsToBuy(t *testing.T) {
	lathe := Lathe{Leadscrew: mustLead(t, "8 tpi"), Wheels: ordinarySet}
	buy, err := lathe.WheelsToBuy(mustLead(t, "1.25 mm"))
	if err != nil || len(buy) != 1 || buy[0] != 127 {
		t.Errorf("for 1.25 mm at 8 tpi: buy %v, %v; want 127 alone, as 127 is prime", buy, err)
	}
	if buy, err = lathe.WheelsToBuy(mustLead(t, "20 tpi")); err != nil || buy != nil {
		t.Errorf("for 20 tpi at 8 tpi: buy %v, %v; want none", buy, err)
	}
}

// Every train of every set, counted the slow way.
func TestChangeWheelsAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wheels := rapid.SliceOfN(rapid.SampledFrom([]int{20, 25, 30, 35, 40, 45, 50, 60, 63, 127}), 2, 8).Draw(t, "wheels")
		leadscrew, _ := NewLead(units.Inch(1), rapid.IntRange(2, 12).Draw(t, "leadscrew"))
		if rapid.Bool().Draw(t, "metric leadscrew") {
			leadscrew, _ = NewLead(units.MM(float64(rapid.IntRange(1, 6).Draw(t, "millimetres"))), 1)
		}
		lead, _ := NewLead(units.MM(0.25).Scale(float64(rapid.IntRange(1, 16).Draw(t, "quarters"))), 1)
		if rapid.Bool().Draw(t, "inch") {
			lead, _ = NewLead(units.Inch(2), rapid.IntRange(5, 60).Draw(t, "half threads"))
		}
		trains, err := (Lathe{Leadscrew: leadscrew, Wheels: wheels}).Trains(lead)
		if err != nil {
			t.Fatal(err)
		}
		want := bruteForce(wheels, leadscrew, lead)
		got := map[string]bool{}
		for _, train := range trains.Exact {
			key := setKey(train.Drivers, train.Driven)
			if got[key] {
				t.Fatalf("%v comes twice", train)
			}
			got[key] = true
			if !train.Exact() {
				t.Fatalf("%v is listed as exact with error %g", train, train.Error)
			}
		}
		if len(got) != len(want) {
			t.Fatalf("exact trains %v, want %v", got, want)
		}
		for key := range want {
			if !got[key] {
				t.Fatalf("exact train %s is missing", key)
			}
		}
		last, seen := 0.0, map[float64]bool{}
		for _, train := range trains.Closest {
			if math.Abs(train.Error) < last || len(trains.Closest) > closestKept || train.Error == 0 || !train.mounts() {
				t.Fatalf("closest %v: error %g after %g, room %d", train, train.Error, last, train.Room)
			}
			last = math.Abs(train.Error)
			if seen[train.Error] {
				t.Fatalf("closest %v: error %g comes twice", train, train.Error)
			}
			seen[train.Error] = true
			ratio := 1.0
			for i := range train.Drivers {
				ratio *= float64(train.Drivers[i]) / float64(train.Driven[i])
			}
			if cut := 25.4 / leadscrew.TPI() * ratio; math.Abs(cut-train.Cut.MM()) > 1e-8 ||
				math.Abs(cut/25.4*lead.TPI()-1-train.Error) > 1e-10 {
				t.Fatalf("%v cuts %v, error %g; the wheels say %.9f mm", train, train.Cut, train.Error, cut)
			}
		}
	})
}

func setKey(drivers, driven []int) string {
	d, n := append([]int{}, drivers...), append([]int{}, driven...)
	for _, s := range [][]int{d, n} {
		if len(s) == 2 && s[0] > s[1] {
			s[0], s[1] = s[1], s[0]
		}
	}
	return fmt.Sprint(d, n)
}

func bruteForce(wheels []int, leadscrew, lead Lead) map[string]bool {
	found := map[string]bool{}
	exact := func(top, bottom int) bool {
		// leadscrew * top / bottom == lead, over whole numbers
		left := float64(leadscrew.pm) * float64(lead.turns) * float64(top)
		right := float64(lead.pm) * float64(leadscrew.turns) * float64(bottom)
		return math.Abs(left-right) < 1e-9*right
	}
	for i, a := range wheels {
		for k, c := range wheels {
			if k == i {
				continue
			}
			if exact(a, c) {
				found[setKey([]int{a}, []int{c})] = true
			}
			for j, b := range wheels {
				for l, d := range wheels {
					if j == i || j == k || l == i || l == j || l == k || a == c || a == d || b == c || b == d {
						continue
					}
					if exact(a*b, c*d) {
						found[setKey([]int{a, b}, []int{c, d})] = true
					}
				}
			}
		}
	}
	return found
}

func TestGearedDrive(t *testing.T) {
	// A tumbler that halves the leadscrew of 4 tpi makes it act as one of 8.
	half := Lathe{Leadscrew: mustLead(t, "4 tpi"), Wheels: ordinarySet, GearedDrivers: 30, GearedDriven: 60}
	plain := Lathe{Leadscrew: mustLead(t, "8 tpi"), Wheels: ordinarySet}
	for _, lead := range []string{"20 tpi", "11.5 tpi", "1 mm", "1.5 mm"} {
		a, errA := half.Trains(mustLead(t, lead))
		b, errB := plain.Trains(mustLead(t, lead))
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if fmt.Sprint(a.Exact) != fmt.Sprint(b.Exact) || len(a.Closest) != len(b.Closest) {
			t.Errorf("%s: %d exact trains with the tumbler, %d without", lead, len(a.Exact), len(b.Exact))
		}
	}
}

func TestChangeWheelsRefuses(t *testing.T) {
	good := Lathe{Leadscrew: mustLead(t, "8 tpi"), Wheels: []int{20, 30, 40}}
	for _, tt := range []struct {
		name  string
		lathe func(Lathe) Lathe
		lead  Lead
		want  string
	}{
		{"no lead", func(l Lathe) Lathe { return l }, Lead{}, "lead to cut"},
		{"no leadscrew", func(l Lathe) Lathe { l.Leadscrew = Lead{}; return l }, mustLead(t, "1 mm"), "lead of the leadscrew"},
		{"one wheel", func(l Lathe) Lathe { l.Wheels = []int{20}; return l }, mustLead(t, "1 mm"), "2 to 60 wheels"},
		{"wheel of no teeth", func(l Lathe) Lathe { l.Wheels = []int{20, 0}; return l }, mustLead(t, "1 mm"), "8 to 400 teeth"},
		{"half a gear", func(l Lathe) Lathe { l.GearedDrivers = 2; return l }, mustLead(t, "1 mm"), "or neither"},
	} {
		if _, err := tt.lathe(good).Trains(tt.lead); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, err, tt.want)
		}
		if _, err := tt.lathe(good).WheelsToBuy(tt.lead); err == nil {
			t.Errorf("%s: WheelsToBuy accepts it", tt.name)
		}
	}
	for _, within := range []float64{-1, math.NaN(), 5} {
		if _, err := Translations(127, within); err == nil {
			t.Errorf("Translations accepts a share of %g", within)
		}
	}
}

// Four small wheels leave no room for their studs; the pair that does the same
// stands before them.
func TestTrainsThatDoNotMount(t *testing.T) {
	trains, err := (Lathe{Leadscrew: mustLead(t, "8 tpi"), Wheels: []int{10, 12, 14, 16, 30, 56}}).Trains(mustLead(t,
		"15 in in 224 turns"))
	if err != nil {
		t.Fatal(err)
	}
	if len(trains.Exact) < 2 || trains.Exact[0].String() != "30/56" || !trains.Exact[0].mounts() {
		t.Fatalf("exact: %v, want 30/56 first", trains.Exact)
	}
	small := trains.Exact[len(trains.Exact)-1]
	if small.mounts() || small.Room != 12 || !sameSet(small.Drivers, []int{10, 12}) || !sameSet(small.Driven,
		[]int{14, 16}) {
		t.Errorf("last %v: room %d, mounts %v; want the four small wheels with 12 teeth to spare", small, small.Room,
			small.mounts())
	}
	for _, train := range trains.Exact {
		if len(train.Drivers) != 2 {
			continue
		}
		a, b, c, d := train.Drivers[0], train.Drivers[1], train.Driven[0], train.Driven[1]
		if room := min(a+c-b, b+d-c); train.Room != room {
			t.Errorf("%v: room %d, want %d", train, train.Room, room)
		}
	}
	fouls := Train{Drivers: []int{20, 90}, Driven: []int{25, 40}, Room: 20 + 25 - 90}
	if fouls.mounts() {
		t.Errorf("%v is said to mount", fouls)
	}
}

// Twenty wheels, trains of two and of four: the budget is 50 ms.
func BenchmarkChangeWheels20(b *testing.B) {
	lathe := Lathe{Leadscrew: mustLead(b, "8 tpi"), Wheels: ordinarySet}
	for _, lead := range []string{"20 tpi", "1 mm"} {
		want := mustLead(b, lead)
		b.Run(strings.ReplaceAll(lead, " ", ""), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := lathe.Trains(want); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkWheelsToBuy20(b *testing.B) {
	lathe := Lathe{Leadscrew: mustLead(b, "8 tpi"), Wheels: ordinarySet}
	want := mustLead(b, "1 mm")
	for b.Loop() {
		if _, err := lathe.WheelsToBuy(want); err != nil {
			b.Fatal(err)
		}
	}
}
