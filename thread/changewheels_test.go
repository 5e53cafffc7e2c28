package thread

import (
	"fmt"
	"math"
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
	for r := range check.Open(t, "thread/change_wheels.csv").Rows() {
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
		trains, err := ChangeWheels(lathe, lead)
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

// ordinarySet is a set of wheels in fives with a second 20 and the two wheels
// that builders add for metric threads.
var ordinarySet = []int{20, 20, 25, 30, 35, 38, 40, 45, 50, 55, 60, 63, 65, 70, 75, 80, 85, 90, 95, 100}

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
		{"63/80 for 1 mm at 8 tpi", "8 tpi", "1 mm", []int{63, 80, 20, 50}, 12.5, 1.000125},
		{"37/47 for 1 mm at 8 tpi", "8 tpi", "1 mm", []int{37, 47, 20, 50}, -21.276596, 0.999787234},
		{"127 for 3 mm at 6 tpi", "6 tpi", "3 mm", []int{90, 127}, 0, 3},
	} {
		trains, err := ChangeWheels(Lathe{Leadscrew: mustLead(t, tt.leadscrew), Wheels: tt.wheels}, mustLead(t, tt.lead))
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
		if got := best.ErrorOver(units.MM(100)).Micron(); math.Abs(got-tt.per100) > 0.001 {
			t.Errorf("%s: %v is %.4f um long over 100 mm, want %.4f", tt.name, best, got, tt.per100)
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
	if got := slip.ErrorOver(units.MM(turns * 1.27)).MM(); math.Abs(got-1.27) > 0.001 {
		t.Errorf("20 tpi cut as 14/11 mm: %.4f mm out after 23.33 in, want a thread, 1.27", got)
	}
}

func TestTranslations(t *testing.T) {
	pairs, err := Translations(127, 0.0003)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []Translation{{100, 127, 0}, {63, 80, 0.000125}, {37, 47, -1.0 / 4700}} {
		if !contains(pairs, want) {
			t.Errorf("translation %d/%d, error %g, is not among %v", want.Driver, want.Driven, want.Error, pairs)
		}
	}
	if pairs[0].Error != 0 || pairs[0].Driven != 127 {
		t.Errorf("the first is %v, want 100/127", pairs[0])
	}
	for _, p := range pairs {
		if got := float64(p.Driver)/float64(p.Driven)*1.27 - 1; math.Abs(got-p.Error) > 1e-12 {
			t.Errorf("%d/%d: error %g, want %g", p.Driver, p.Driven, p.Error, got)
		}
	}
}

func contains(pairs []Translation, w Translation) bool {
	for _, p := range pairs {
		if p.Driver == w.Driver && p.Driven == w.Driven && math.Abs(p.Error-w.Error) < 1e-12 {
			return true
		}
	}
	return false
}

func TestWheelsToBuy(t *testing.T) {
	lathe := Lathe{Leadscrew: mustLead(t, "8 tpi"), Wheels: ordinarySet}
	buy, err := WheelsToBuy(lathe, mustLead(t, "1.25 mm"))
	if err != nil || len(buy) != 1 || buy[0] != 127 {
		t.Errorf("for 1.25 mm at 8 tpi: buy %v, %v; want 127 alone, as 127 is prime", buy, err)
	}
	if buy, err = WheelsToBuy(lathe, mustLead(t, "20 tpi")); err != nil || buy != nil {
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
		trains, err := ChangeWheels(Lathe{Leadscrew: leadscrew, Wheels: wheels}, lead)
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
			if math.Abs(train.Error) < last || len(trains.Closest) > closestKept || train.Error == 0 || !train.Mounts() {
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
			if cut := 25.4 / leadscrew.TPI() * ratio; math.Abs(cut-train.Cut.MM()) > 1e-8 || math.Abs(cut/25.4*lead.TPI()-1-train.Error) > 1e-10 {
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
		a, errA := ChangeWheels(half, mustLead(t, lead))
		b, errB := ChangeWheels(plain, mustLead(t, lead))
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
		if _, err := ChangeWheels(tt.lathe(good), tt.lead); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, err, tt.want)
		}
		if _, err := WheelsToBuy(tt.lathe(good), tt.lead); err == nil {
			t.Errorf("%s: WheelsToBuy accepts it", tt.name)
		}
	}
	for _, within := range []float64{-1, math.NaN(), 5} {
		if _, err := Translations(127, within); err == nil {
			t.Errorf("Translations accepts a share of %g", within)
		}
	}
}

func TestParseWheels(t *testing.T) {
	got, err := ParseWheels("20, 20 25-40x5,63")
	if want := []int{20, 20, 25, 30, 35, 40, 63}; err != nil || fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%v, %v; want %v", got, err, want)
	}
	for _, bad := range []string{"", "20", "20 to 40", "20-40", "20-41x5", "40-20x5", "20-40x0", "20-40x-5", "-20,30", "20,1e2", "8-400x1", "20,500", "20,0"} {
		if got, err := ParseWheels(bad); err == nil {
			t.Errorf("ParseWheels(%q) = %v", bad, got)
		}
	}
}

func FuzzParseWheels(f *testing.F) {
	for _, s := range []string{"20, 20, 25-100x5, 63", "20-20x1", "8-400x200"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		wheels, err := ParseWheels(s)
		if err != nil {
			return
		}
		lead, _ := NewLead(units.MM(1), 1)
		if _, err := ChangeWheels(Lathe{Leadscrew: lead, Wheels: wheels[:min(len(wheels), 4)]}, lead); err != nil {
			t.Errorf("%q gives %v, which ChangeWheels refuses: %v", s, wheels, err)
		}
	})
}

func TestPickUpOnDial(t *testing.T) {
	for _, tt := range []struct {
		leadscrew, lead        string
		teeth, threads, places int
		why                    string
	}{
		// An eight-thread leadscrew with a wheel of 32: four marks an inch apart.
		{"8 tpi", "8 tpi", 32, 1, 32, "as the leadscrew: anywhere"},
		{"8 tpi", "16 tpi", 32, 1, 32, "a multiple of the leadscrew: anywhere"},
		{"8 tpi", "12 tpi", 32, 2, 16, "even threads: every half mark"},
		{"8 tpi", "11 tpi", 32, 8, 4, "odd threads: a mark each inch"},
		{"8 tpi", "11.5 tpi", 32, 16, 2, "half threads: every second mark"},
		{"8 tpi", "1.5 mm", 32, 60, 0, "metric on inches: not on the dial"},
		{"3 mm", "1.5 mm", 0, 1, 0, "no dial"},
		{"3 mm", "1.25 mm", 15, 5, 3, "metric on metric, wheel of 15"},
		{"3 mm", "1.75 mm", 14, 7, 2, "metric on metric, wheel of 14"},
	} {
		p, err := PickUpOnDial(mustLead(t, tt.leadscrew), mustLead(t, tt.lead), tt.teeth)
		if err != nil || p.Threads != tt.threads || (tt.teeth > 0 && p.Places != tt.places) {
			t.Errorf("%s on %s, wheel of %d: every %d threads, %d places, %v; want %d, %d (%s)", tt.lead, tt.leadscrew, tt.teeth, p.Threads, p.Places, err, tt.threads, tt.places, tt.why)
		}
	}
}

func TestPickUpRefuses(t *testing.T) {
	lead := mustLead(t, "8 tpi")
	odd := mustLead(t, "1.000001 mm")
	for _, tt := range []struct {
		name            string
		leadscrew, lead Lead
		teeth           int
		want            string
	}{
		{"no lead", lead, Lead{}, 32, "lead"},
		{"no leadscrew", Lead{}, lead, 32, "lead"},
		{"negative wheel", lead, lead, -1, "indicator"},
		{"nothing in common", lead, odd, 32, "no measure in common"},
	} {
		if p, err := PickUpOnDial(tt.leadscrew, tt.lead, tt.teeth); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %+v, %v; want %q", tt.name, p, err, tt.want)
		}
	}
}

func TestLead(t *testing.T) {
	for _, tt := range []struct {
		in, out string
		mm      float64
	}{
		{"8 tpi", "8 tpi", 3.175},
		{"11 1/2 tpi", "11.5 tpi", 25.4 / 11.5},
		{"11.5tpi", "11.5 tpi", 25.4 / 11.5},
		{"6 TPI", "6 tpi", 25.4 / 6},
		{"1.5 mm", "1.5 mm", 1.5},
		{"0.8 mm", "0.8 mm", 0.8},
		{"1.6mm", "1.6 mm", 1.6},
		{"1/8 in", "8 tpi", 3.175},
		{"0.43 mm", "0.43 mm", 0.43},
		{"10 mm in 3 turns", "10 mm in 3 turns", 10.0 / 3},
		{"1 in in 8 turns", "8 tpi", 3.175},
		{"3 mm in 2 turns", "1.5 mm", 1.5},
	} {
		l, err := ParseLead(tt.in)
		if err != nil || l.String() != tt.out || math.Abs(l.Length().MM()-tt.mm) > 1e-9 {
			t.Errorf("ParseLead(%q) = %v (%v), %v; want %s", tt.in, l, l.Length(), err, tt.out)
		}
		if back, err := ParseLead(l.String()); err != nil || back != l {
			t.Errorf("ParseLead(%q) does not read back: %v, %v", l, back, err)
		}
	}
	for _, bad := range []string{"", "8", "tpi", "0 tpi", "-8 tpi", "8 mm/rev", "0 mm", "-1 mm", "1e9 mm", "200 mm", "1/0 tpi", "0.000000001 tpi", "0.123456789 tpi", "1000000 tpi", "3 turns", "mm in 3 turns", "10 mm in 3.5 turns", "10 mm in 0 turns"} {
		if l, err := ParseLead(bad); err == nil {
			t.Errorf("ParseLead(%q) = %v", bad, l)
		}
	}
}

func TestLeadText(t *testing.T) {
	for _, s := range []string{"8 tpi", "1.5 mm", "10 mm in 3 turns"} {
		var l Lead
		if err := l.UnmarshalText([]byte(s)); err != nil {
			t.Fatal(err)
		}
		if text, err := l.MarshalText(); err != nil || string(text) != s {
			t.Errorf("%s comes back as %s, %v", s, text, err)
		}
	}
	l := mustLead(t, "8 tpi")
	if err := l.UnmarshalText([]byte("eight")); err == nil || l != mustLead(t, "8 tpi") {
		t.Errorf("a bad text leaves %v, %v", l, err)
	}
	if text, err := (Lead{}).MarshalText(); err == nil {
		t.Errorf("no lead: %s", text)
	}
	if l := (Lead{}); l.TPI() != 0 || !l.Length().IsZero() {
		t.Errorf("no lead: %v tpi, %v", l.TPI(), l.Length())
	}
	for _, turns := range []int{0, -1, 2_000_000} {
		if l, err := NewLead(units.MM(1), turns); err == nil {
			t.Errorf("1 mm in %d turns: %v", turns, l)
		}
	}
}

// Four small wheels leave no room for their studs; the pair that does the same
// stands before them.
func TestTrainsThatDoNotMount(t *testing.T) {
	trains, err := ChangeWheels(Lathe{Leadscrew: mustLead(t, "8 tpi"), Wheels: []int{10, 12, 14, 16, 30, 56}}, mustLead(t, "15 in in 224 turns"))
	if err != nil {
		t.Fatal(err)
	}
	if len(trains.Exact) < 2 || trains.Exact[0].String() != "30/56" || !trains.Exact[0].Mounts() {
		t.Fatalf("exact: %v, want 30/56 first", trains.Exact)
	}
	small := trains.Exact[len(trains.Exact)-1]
	if small.Mounts() || small.Room != 12 || !sameSet(small.Drivers, []int{10, 12}) || !sameSet(small.Driven, []int{14, 16}) {
		t.Errorf("last %v: room %d, mounts %v; want the four small wheels with 12 teeth to spare", small, small.Room, small.Mounts())
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
	if fouls.Mounts() {
		t.Errorf("%v is said to mount", fouls)
	}
}

func FuzzParseLead(f *testing.F) {
	for _, s := range []string{"8 tpi", "11 1/2 tpi", "1.5 mm", "1/8 in", "0.0001 tpi", "0.000000001 tpi", "1/3 tpi", ".27001tpi"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := ParseLead(s)
		if err != nil {
			return
		}
		if mm := l.Length().MM(); !(mm >= 0.0099 && mm <= 100.1) {
			t.Errorf("ParseLead(%q) = %v mm", s, mm)
		}
		if text, err := l.MarshalText(); err == nil {
			if back, err := ParseLead(string(text)); err != nil || back != l {
				t.Errorf("%q: %s reads back as %v, %v", s, text, back, err)
			}
		}
	})
}

func TestInfeedAlongSlide(t *testing.T) {
	for _, tt := range []struct {
		name  string
		depth float64 // per pitch
		set   units.Angle
		want  float64 // per pitch
	}{
		// Worked from depth / cos set; no published worked example was found.
		{"ISO external, 29.5 degrees (the setting of a naval machinists' course)", 0.6134, 29.5 * units.Degree, 0.7048},
		{"ISO external, 30 degrees", 0.6134, 30 * units.Degree, 0.7083},
		{"Whitworth, 27.5 degrees", 0.6403, 27.5 * units.Degree, 0.7219},
		{"BA, 23.75 degrees", 0.6, 23.75 * units.Degree, 0.6555},
		{"square on", 0.6134, 0, 0.6134},
	} {
		got, err := InfeedAlongSlide(units.MM(tt.depth), tt.set)
		if err != nil || math.Abs(got.MM()-tt.want) > 0.00006 {
			t.Errorf("%s: %v, %v; want %g mm", tt.name, got, err, tt.want)
		}
	}
	for _, bad := range []struct {
		depth units.Length
		set   units.Angle
	}{{units.MM(0), 0}, {units.MM(-1), 0}, {units.MM(1), 60 * units.Degree}, {units.MM(1), -1}, {units.MM(1), units.Angle(math.NaN())}} {
		if got, err := InfeedAlongSlide(bad.depth, bad.set); err == nil {
			t.Errorf("InfeedAlongSlide(%v, %v) = %v", bad.depth, bad.set, got)
		}
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
				if _, err := ChangeWheels(lathe, want); err != nil {
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
		if _, err := WheelsToBuy(lathe, want); err != nil {
			b.Fatal(err)
		}
	}
}
