package seal

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// Rows that nothing has are complained of, at the very figure.
func TestBadRows(t *testing.T) {
	const head = "# title: t\n# edition: 1\n# unit: in\n# held: as typed\n# errata: none\n# source trade | common practice | |\n"
	ring := "size,inside,inside_tolerance,section,section_tolerance,source,locator\n001,%s,trade,\n"
	groove := "section,duty,depth_min,depth_max,width,squeeze_min,squeeze_max,clearance_max,corner_min,corner_max,runout_max,source,locator\n" +
		"%s,11,28,0.004,0.005,0.008,0.002,trade,\n"
	factor := "material,printed,m,y,note,source,locator\npaper,p,%s,n,trade,\n"
	sheet := "material,printed,min,max,source,locator\npaper,p,%s,trade,\n"
	press := "material,printed,min,max,under,source,locator\npaper,p,%s,trade,\n"
	limit := "material,printed,dry_c,steam,oil,pressure_bar,note,source,locator\npaper,p,%s,n,trade,\n"
	read := map[string]func(fstest.MapFS) error{
		ring: reads(readRing), groove: reads(readGroove), factor: reads(readFactor), sheet: reads(readSheet),
		press: reads(readPressed), limit: reads(readLimit),
	}
	for _, test := range []struct {
		row, cells string
		good       bool
	}{
		{ring, "0.029,0.004,0.040,0.003", true},
		{ring, "0.029,0,0.040,0.003", false},
		{ring, "0.029,-0.004,0.040,0.003", false},
		{ring, "0.029,0.004,0.040,0", false},
		{ring, "0.029,0.029,0.040,0.003", false},
		{ring, "0.029,0.0289,0.040,0.0399", true},
		{ring, "0.029,0.004,0.040,0.040", false},
		{groove, "0.040,dynamic,0.031,0.033,0.063", true},
		{groove, "0.040,dynamic,0.033,0.033,0.041", true},
		{groove, "0.040,dynamic,0.034,0.033,0.063", false},
		{groove, "0.040,dynamic,0.031,0.033,0.040", false},
		{factor, "0,0", true},
		{factor, "20,100", true},
		{factor, "-0.1,100", false},
		{factor, "20.1,100", false},
		{factor, "2,-1", false},
		{sheet, "0.1,0.1", true},
		{sheet, "0,0.1", false},
		{sheet, "0.2,0.1", false},
		{sheet, "-0.2,-0.1", false},
		{press, "0,99,0.5", true},
		{press, "-1,17,34.5", false},
		{press, "7,7,34.5", false},
		{press, "8,7,34.5", false},
		{press, "7,100,34.5", false},
		{press, "7,17,0", false},
		{limit, "100,yes,yes,10", true},
		{limit, "100,120,no,", true},
		{limit, "100,no,,", true},
		{limit, "100,often,,", false},
		{limit, "100,no,seldom,", false},
	} {
		files := fstest.MapFS{"t.csv": {Data: []byte(head + fmt.Sprintf(test.row, test.cells))}}
		if err := read[test.row](files); (err == nil) != test.good {
			t.Errorf("%s of %.20s: %v", test.cells, test.row, err)
		}
	}
}

// reads returns what reads a table of other files.
func reads[T any](row func(*table.Row) T) func(fstest.MapFS) error {
	return func(files fstest.MapFS) error {
		_, _, err := table.Read(files, "t.csv", row)
		return err
	}
}

// What decides does so at its very figure.
func TestSeatLimits(t *testing.T) {
	pm := units.Picometres(1)
	section := units.Inch(0.070)
	has := func(s Seat, err error, code finding.Code) bool {
		if err != nil {
			t.Error(err)
		}
		return slices.ContainsFunc(s.Findings, func(f finding.Finding) bool { return f.Code == code })
	}
	ring := func(inside, tolerance, sectionTolerance units.Length) Ring {
		return Ring{Inside: inside, Section: section, InsideTolerance: tolerance, SectionTolerance: sectionTolerance}
	}
	gland := func(r Ring, rod units.Length, code finding.Code) bool {
		s, err := r.InGland(rod, Static)
		return has(s, err, code)
	}
	piston := func(r Ring, bore units.Length, code finding.Code) bool {
		s, err := r.OnPiston(bore, Static)
		return has(s, err, code)
	}
	g, err := GrooveFor(section, Static)
	if err != nil {
		t.Fatal(err)
	}
	large := ring(units.MM(64), units.MM(1), units.Thou(3)) // of 1/64, as a computer holds exactly
	// 7 percent of stretch is a note below 1/2 in, and no more than a caution from there.
	half := units.InchFraction(1, 2)
	note := func(rod units.Length) finding.Severity {
		s, err := ring(rod.Scale(1/1.07), units.Thou(5), units.Thou(3)).InGland(rod, Static)
		if err != nil || len(s.Findings) == 0 || s.Findings[len(s.Findings)-1].Code != RingStretch &&
			s.Findings[0].Code != RingStretch {
			t.Errorf("%v, %v", s.Findings, err)
		}
		for _, f := range s.Findings {
			if f.Code == RingStretch {
				return f.Severity
			}
		}
		return 0
	}
	if a, b := note(half.Sub(pm)), note(half); a != finding.Note || b != finding.Caution {
		t.Errorf("below 1/2 in %v, from there %v", a, b)
	}
	none := ring(units.MM(20), units.MM(1), section.Sub(g.DepthMax)) // at its thinnest as thick as the groove is deep
	for _, test := range []struct {
		name      string
		got, want bool
	}{
		{"loose", gland(large, units.MM(63).Sub(pm), RingLoose), true},
		{"on size", gland(large, units.MM(63), RingLoose), false},
		{"half as large again", piston(large, units.MM(96), RingFitting), false},
		{"and more", piston(large, units.MM(96.001), RingFitting), true},
		{"not squeezed", gland(none, units.MM(19), RingSqueeze), true},
		{"squeezed", gland(ring(units.MM(20), units.MM(1), section.Sub(g.DepthMax).Sub(units.Micron(1))), units.MM(19),
			RingSqueeze), false},
	} {
		if test.got != test.want {
			t.Errorf("%s: %v", test.name, test.got)
		}
	}
	inGland := func(r Ring) error { return check.Only(r.InGland(units.MM(10), Static)) }
	onPiston := func(bore units.Length) error { return check.Only(large.OnPiston(bore, Static)) }
	for name, test := range map[string][2]error{
		"no tolerance inside":     {inGland(ring(units.MM(10), units.Length{}, pm)), inGland(ring(units.MM(10), pm.Neg(), pm))},
		"tolerance inside":        {inGland(ring(units.MM(10), units.MM(10).Sub(pm), pm)), inGland(ring(units.MM(10), units.MM(10), pm))},
		"no tolerance of section": {inGland(ring(units.MM(10), pm, units.Length{})), inGland(ring(units.MM(10), pm, pm.Neg()))},
		"tolerance of section":    {inGland(ring(units.MM(10), pm, section.Sub(pm))), inGland(ring(units.MM(10), pm, section))},
		"bore":                    {onPiston(g.DepthMax.Scale(2).Add(pm)), onPiston(g.DepthMax.Scale(2))},
	} {
		if test[0] != nil || test[1] == nil {
			t.Errorf("%s: %v, %v", name, test[0], test[1])
		}
	}
}

// The temperature of steam, and what is refused.
func TestServiceLimits(t *testing.T) {
	saturated, err := Service{Medium: Steam, Pressure: 5 * units.Bar}.temperature()
	if err != nil {
		t.Fatal(err)
	}
	// Dry saturated steam of 6 bar absolute is about 158.8 C (steam tables, from memory), and
	// the gauge counts from 1.013.
	if c := saturated.Celsius(); math.Abs(c-158.9) > 0.2 {
		t.Errorf("%.2f C", c)
	}
	at := func(s Service) error { return check.Only(s.temperature()) }
	for name, test := range map[string][2]error{
		"colder than steam": {at(Service{Medium: Steam, Pressure: 5 * units.Bar, Temperature: saturated - 1}),
			at(Service{Medium: Steam, Pressure: 5 * units.Bar, Temperature: saturated - 1.000001})},
		"medium":         {at(Service{Medium: Oil, Temperature: 300}), at(Service{Temperature: 300})},
		"unknown medium": {at(Service{Medium: Oil, Temperature: 300}), at(Service{Medium: 9, Temperature: 300})},
		"no temperature": {at(Service{Medium: Air, Temperature: 1e-9}), at(Service{Medium: Air})},
		"below zero":     {at(Service{Medium: Air, Temperature: 1e-9}), at(Service{Medium: Air, Temperature: -1})},
		"endless": {at(Service{Medium: Air, Temperature: 1e9}),
			at(Service{Medium: Air, Temperature: units.Temperature(math.Inf(1))})},
		"pressure": {at(Service{Medium: Air, Temperature: 300}),
			at(Service{Medium: Air, Temperature: 300, Pressure: -1e-9})},
		"endless pressure": {at(Service{Medium: Air, Temperature: 300, Pressure: 1e9}),
			at(Service{Medium: Air, Temperature: 300, Pressure: units.Pressure(math.NaN())})},
		"steam pressure": {at(Service{Medium: Steam, Pressure: 199 * units.Bar}), at(Service{Medium: Steam, Pressure: 230 * units.Bar})},
	} {
		if test[0] != nil || test[1] == nil {
			t.Errorf("%s: %v, %v", name, test[0], test[1])
		}
	}
	// A limit is what is stood: at it nothing is said, and above it a caution.
	l := Limit{Material: "paper", Dry: 400, Pressure: 0.5}
	for _, test := range []struct {
		temperature units.Temperature
		pressure    units.Pressure
		want        int
	}{{400, 0.5, 0}, {400.001, 0.5, 1}, {400, 0.6, 1}, {401, 0.6, 2}} {
		s := Service{Medium: Air, Pressure: test.pressure, Temperature: test.temperature}
		if fs := l.findings(s, test.temperature); len(fs) != test.want {
			t.Errorf("%+v: %v", test, fs)
		}
	}
	// Two figures that round alike are told in tenths, and then as they are.
	for _, test := range []struct {
		over        units.Temperature
		limit, here string
	}{{1, "120", "121"}, {0.4, "120.0", "120.4"}, {0.03125, "120", "120.03125"}} {
		if limit, here := degrees(units.Celsius(120), units.Celsius(120)+test.over); limit != test.limit ||
			!strings.HasPrefix(here, test.here) {
			t.Errorf("%v: %s and %s", test, limit, here)
		}
	}
	p := Pressed{Max: 0.2, Under: 1}
	for stress, want := range map[units.Pressure]bool{0: false, 0.5: true, 1: true, 1.001: false} {
		if _, _, err := p.Thickness(units.MM(1), stress); (err == nil) != want {
			t.Errorf("%v: %v", stress, err)
		}
	}
	for mm, want := range map[float64]bool{0: false, 0.001: true, 10: true, 10.001: false} {
		if _, _, err := p.Thickness(units.MM(mm), 1); (err == nil) != want {
			t.Errorf("%g mm: %v", mm, err)
		}
	}
}

// What suits a service at the very limit of its pressure and heat is named, and not beyond.
func TestSuitedAtTheLimit(t *testing.T) {
	for _, l := range Limits() {
		if l.NoOil || l.Dry == 0 {
			continue
		}
		rows, err := limits.of(material.Material{Name: l.Material})
		if err != nil {
			t.Fatal(err)
		}
		most, _ := mostOf(rows, Service{Medium: Water})
		pressed, bans := units.Pressure(0), false
		for _, r := range rows {
			pressed, bans = max(pressed, r.Pressure), bans || r.NoOil
		}
		for _, test := range []struct {
			over     units.Temperature
			pressure units.Pressure
			want     bool
		}{{0, pressed, true}, {0.001, pressed, false}, {0, pressed * 1.001, pressed == 0}} {
			s := Service{Medium: Water, Temperature: most + test.over, Pressure: test.pressure}
			if got := slices.Contains(suitedTo(s, s.Temperature), l.Material); got != test.want && !bans {
				t.Errorf("%s at %.3f over %.1f C and %v: %v", l.Material, float64(test.over), most.Celsius(), s.Pressure, got)
			}
		}
	}
	// The factor y that the studs just seat is seated.
	all, err := SeatedBy(1e9, Service{Medium: Air, Temperature: 300})
	if err != nil || len(all) == 0 {
		t.Fatal(all, err)
	}
	for _, f := range all {
		for less, want := range map[units.Pressure]bool{0: true, 1: false} {
			soft, err := SeatedBy(f.Y-less, Service{Medium: Air, Temperature: 300})
			if got := slices.ContainsFunc(soft, func(s Factor) bool { return s.Material == f.Material }); err != nil ||
				got != want {
				t.Errorf("%s at %v less %v: %v, %v", f.Material, f.Y, less, got, err)
			}
		}
	}
}
