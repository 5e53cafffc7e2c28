package assembly_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

func codes(list finding.List) []finding.Code {
	var out []finding.Code
	for _, f := range list {
		out = append(out, f.Code)
	}
	return out
}

// What the sheet allows is allowed to its last micrometre and degree, and the joint
// may be as long as one and a half diameters.
func TestBondEdges(t *testing.T) {
	sheet := assembly.GenericRetainer()
	edge := assembly.Bond{
		Diameter: units.MM(10), Length: units.MM(15), Adhesive: sheet, Derating: 1, Gap: sheet.Gap, Hottest: sheet.Service,
	}
	said := []finding.Code{assembly.GapTooLarge, assembly.GapTooSmall, assembly.TooHotForBond, assembly.LongBond}
	for name, tt := range map[string]struct {
		change func(*assembly.Bond)
		says   finding.Code
	}{
		"at the edge": {func(*assembly.Bond) {}, ""},
		"wider":       {func(b *assembly.Bond) { b.Gap.Max = b.Gap.Max.Add(units.Picometres(1)) }, assembly.GapTooLarge},
		"closer":      {func(b *assembly.Bond) { b.Gap.Min = b.Gap.Min.Sub(units.Picometres(1)) }, assembly.GapTooSmall},
		"hotter":      {func(b *assembly.Bond) { b.Hottest += 0.1 }, assembly.TooHotForBond},
		"longer":      {func(b *assembly.Bond) { b.Length = b.Length.Add(units.Picometres(1)) }, assembly.LongBond},
	} {
		b := edge
		tt.change(&b)
		r, err := b.Solve()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, code := range said {
			if got := slices.Contains(codes(r.Findings), code); got != (code == tt.says) {
				t.Errorf("%s: %s is said: %v", name, code, got)
			}
		}
	}
	for name, tt := range map[string]struct {
		change func(*assembly.Bond)
		ok     bool
	}{
		"one strength":      {func(b *assembly.Bond) { b.Adhesive.Shear.Min = b.Adhesive.Shear.Max }, true},
		"strength turned":   {func(b *assembly.Bond) { b.Adhesive.Shear.Min = b.Adhesive.Shear.Max + 1 }, false},
		"200 MPa":           {func(b *assembly.Bond) { b.Adhesive.Shear.Max = 200 * units.Megapascal }, true},
		"over 200 MPa":      {func(b *assembly.Bond) { b.Adhesive.Shear.Max = 201 * units.Megapascal }, false},
		"from no gap on":    {func(b *assembly.Bond) { b.Adhesive.Gap.Min = units.Length{} }, true},
		"below none":        {func(b *assembly.Bond) { b.Adhesive.Gap.Min = units.Picometres(-1) }, false},
		"no width of a gap": {func(b *assembly.Bond) { b.Adhesive.Gap.Min = b.Adhesive.Gap.Max }, false},
		"more than all":     {func(b *assembly.Bond) { b.Derating = 1.001 }, false},
	} {
		b := edge
		tt.change(&b)
		if _, err := b.Solve(); (err == nil) != tt.ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A curve may begin at absolute zero; its expansions are finite and its points in order.
func TestCurveEdges(t *testing.T) {
	point := func(k, ppm float64) assembly.ExpansionPoint {
		return assembly.ExpansionPoint{At: units.Temperature(k), Expansion: units.Expansivity(ppm * 1e-6)}
	}
	for name, tt := range map[string]struct {
		points []assembly.ExpansionPoint
		says   string // blank where it is good
	}{
		"from zero":   {[]assembly.ExpansionPoint{point(0, 0), point(300, 12)}, ""},
		"below zero":  {[]assembly.ExpansionPoint{point(-1, 0), point(300, 12)}, "point 1"},
		"endless":     {[]assembly.ExpansionPoint{point(0, 0), point(math.Inf(1), 12)}, "point 2"},
		"twice":       {[]assembly.ExpansionPoint{point(0, 0), point(300, 12), point(300, 12)}, "point 3"},
		"of one":      {[]assembly.ExpansionPoint{point(0, 1e6), point(300, 12)}, "point 1"},
		"of less one": {[]assembly.ExpansionPoint{point(0, -1e6), point(300, 12)}, "point 1"},
	} {
		strain, err := assembly.ExpansionCurve{Points: tt.points}.Strain(0, 300)
		good := err == nil && math.Abs(strain-300*6e-6) < 1e-15
		if tt.says != "" {
			good = err != nil && strings.Contains(err.Error(), tt.says)
		}
		if !good {
			t.Errorf("%s: %v, %v", name, strain, err)
		}
	}
}

// Grub screws: from a quarter to seven tenths of the shaft is in proportion; the flat
// goes to a quarter of the shaft and the torque to 1000 N m.
func TestGrubScrewEdges(t *testing.T) {
	flat := func(depth float64) assembly.GrubScrew {
		return assembly.GrubScrew{Screw: units.MM(4), Shaft: units.MM(8), FlatDepth: units.MM(depth), Tightening: 2}
	}
	for name, tt := range map[string]struct {
		screw assembly.GrubScrew
		ok    bool
		odd   bool
	}{
		"quarter":   {assembly.GrubScrew{Screw: units.MM(4), Shaft: units.MM(16), Tightening: 2}, true, false},
		"thinner":   {assembly.GrubScrew{Screw: units.MM(4), Shaft: units.MM(16.1), Tightening: 2}, true, true},
		"thick":     {assembly.GrubScrew{Screw: units.MM(7), Shaft: units.MM(10), Tightening: 2}, true, false},
		"thicker":   {assembly.GrubScrew{Screw: units.MM(7.1), Shaft: units.MM(10), Tightening: 2}, true, true},
		"flat":      {flat(2), true, false},
		"deep flat": {flat(2.001), false, false},
		"no flat":   {flat(-0.001), false, false},
		"most":      {assembly.GrubScrew{Screw: units.MM(4), Shaft: units.MM(8), Tightening: 1000}, true, false},
		"more":      {assembly.GrubScrew{Screw: units.MM(4), Shaft: units.MM(8), Tightening: 1001}, false, false},
	} {
		r, err := tt.screw.Solve()
		if (err == nil) != tt.ok || slices.Contains(codes(r.Findings), assembly.ScrewProportion) != tt.odd {
			t.Errorf("%s: %v, %v", name, r.Findings, err)
		}
	}
}

// A margin of one holds and of two is enough; the shock is 1 to 10.
func TestHoldEdges(t *testing.T) {
	cut := assembly.Cut{Force: 100, Diameter: units.MM(20), Shock: 1} // 1 N m
	for least, want := range map[units.Torque]finding.Code{
		0: assembly.JointSlips, 0.999: assembly.JointSlips, 1: assembly.LittleMargin, 1.999: assembly.LittleMargin, 2: "",
	} {
		h, err := assembly.Holds(assembly.Range[units.Torque]{Min: least, Max: 2}, cut)
		if err != nil || (want == "") != (len(h.Findings) == 0) || want != "" && h.Findings[0].Code != want {
			t.Errorf("%v: %v, %v", least, h.Findings, err)
		}
	}
	for shock, ok := range map[float64]bool{0.99: false, 1: true, 10: true, 10.01: false} {
		cut.Shock = shock
		if torque, err := cut.Torque(); (err == nil) != ok || ok && math.Abs(float64(torque)-shock) > 1e-12 {
			t.Errorf("%g: %v, %v", shock, torque, err)
		}
	}
	for name, bad := range map[string]assembly.Range[units.Torque]{
		"below none": {Min: -0.001, Max: 1}, "endless": {Min: 1, Max: 1e9},
	} {
		if _, err := assembly.Holds(bad, assembly.Cut{Force: 1, Diameter: units.MM(1), Shock: 1}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// A ring whose gap is just closed butts; one that is as wide as the worst needs, or as
// the widest rule, is well.
func TestRingGapEdges(t *testing.T) {
	iron := expanding("cast iron", 10e-6)
	gap := assembly.RingGap{
		Bore: units.MM(50), Ring: iron, Cylinder: iron, Room: units.Celsius(20),
		RingHot: units.Celsius(120), CylinderHot: units.Celsius(70),
	}
	at := func(cold units.Length) assembly.RingGapResult {
		gap.Cold = cold
		r, err := gap.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	none := at(units.Length{})
	one := units.Picometres(1)
	// pi x 50 mm x 10 ppm x 50 K, and x 100 K with the cylinder cold.
	if math.Abs(none.Closes.MM()-math.Pi*0.025) > 1e-8 || math.Abs(none.Least.MM()-math.Pi*0.05) > 1e-8 {
		t.Errorf("closes %v, least %v", none.Closes, none.Least)
	}
	span, _, err := fits.RuleSpan("ring gap", gap.Bore)
	if err != nil {
		t.Fatal(err)
	}
	for name, tt := range map[string]struct {
		cold units.Length
		says finding.Code
	}{
		"closed":      {none.Closes, assembly.RingButts},
		"just open":   {none.Closes.Add(one), assembly.RingButtsEarly},
		"nearly":      {none.Least.Sub(one), assembly.RingButtsEarly},
		"least":       {none.Least, ""},
		"widest rule": {span.Max, ""},
		"wider":       {span.Max.Add(one), assembly.RingGapWide},
	} {
		r := at(tt.cold)
		var want []finding.Code
		if tt.says != "" {
			want = append(want, tt.says)
		}
		if got := codes(r.Findings); !slices.Equal(got, want) {
			t.Errorf("%s, %v: %v", name, tt.cold, got)
		}
	}
	gap.Cold = units.Picometres(-1)
	if _, err := gap.Solve(); err == nil {
		t.Error("a gap below none")
	}
	// A cylinder that gets hotter than its ring opens the gap, and the least is none.
	gap.Cold, gap.RingHot, gap.CylinderHot = units.MM(0.1), gap.Room, units.Celsius(120)
	if r, err := gap.Solve(); err != nil || !r.Least.IsZero() || math.Abs(r.Hot.MM()-0.1-math.Pi*0.05) > 1e-8 {
		t.Errorf("%+v, %v", r, err)
	}
}

// Expansion and temperature at their ends.
func TestHeatEdges(t *testing.T) {
	for ppm, ok := range map[float64]bool{0: false, 0.1: true, 999: true, 1000: false} {
		if _, err := assembly.Growth(units.MM(10), expanding("metal", ppm*1e-6), 10); (err == nil) != ok {
			t.Errorf("%g ppm: %v", ppm, err)
		}
	}
	for kelvin, ok := range map[float64]bool{-1000: true, -1001: false, 1000: true, 1001: false} {
		by, err := assembly.Growth(units.MM(1000), expanding("metal", 10e-6), units.TemperatureDifference(kelvin))
		if (err == nil) != ok || ok && math.Abs(by.MM()-kelvin/100) > 1e-9 {
			t.Errorf("%g K: %v, %v", kelvin, by, err)
		}
	}
	if by, err := assembly.Growth(units.Length{}, expanding("metal", 10e-6), 10); err != nil || !by.IsZero() {
		t.Error(by, err)
	}
	room := units.Celsius(20)
	shrink := func(hub, shaft units.Temperature) error {
		steel := expanding("steel", 11.5e-6)
		_, err := assembly.Shrink{
			Diameter: units.MM(20), Interference: units.MM(0.01), Hub: steel, Shaft: steel,
			Room: room, HubAt: hub, ShaftAt: shaft,
		}.Solve()
		return err
	}
	for name, tt := range map[string]struct {
		hub, shaft units.Temperature
		ok         bool
	}{
		"bright":           {units.Celsius(1000), room, true},
		"brighter":         {units.Celsius(1000.1), room, false},
		"helium":           {room, 4, true},
		"colder":           {room, 3.9, false},
		"one temperature":  {room, room, true},
		"hub the cooler":   {room, room + 0.01, false},
		"temperature NaN":  {units.Temperature(math.NaN()), room, false},
		"absolute zero":    {0, 0, false},
		"shaft in the ice": {room, units.Celsius(-78), true},
	} {
		if err := shrink(tt.hub, tt.shaft); (err == nil) != tt.ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What is pressed: walls, smoothing, modulus, ratio, strength and friction at their ends.
func TestPressRefuses(t *testing.T) {
	steel := given("steel", 200*units.Gigapascal, 0.3, 11.5e-6)
	good := assembly.Press{
		Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(40), Length: units.MM(20),
		Hub: steel, Shaft: steel, Friction: assembly.Mu(0.12),
	}
	with := func(e units.Pressure, nu float64) material.Material { return given("metal", e, nu, 11.5e-6) }
	strong := func(p units.Pressure) material.Material {
		m := steel
		m.Yield = material.Given(p, steel.Elasticity.Refs.First())
		return m
	}
	for name, tt := range map[string]struct {
		change func(*assembly.Press)
		ok     bool
	}{
		"no wall":          {func(p *assembly.Press) { p.HubOutside = p.Diameter }, false},
		"a wall":           {func(p *assembly.Press) { p.HubOutside = p.Diameter.Add(units.Micron(1)) }, true},
		"bore below none":  {func(p *assembly.Press) { p.ShaftBore = units.Picometres(-1) }, false},
		"bore of all":      {func(p *assembly.Press) { p.ShaftBore = p.Diameter }, false},
		"thin bush":        {func(p *assembly.Press) { p.ShaftBore = p.Diameter.Sub(units.Micron(10)) }, true},
		"smoothing of all": {func(p *assembly.Press) { p.Smoothing = p.Interference }, false},
		"most smoothing":   {func(p *assembly.Press) { p.Smoothing = p.Interference.Sub(units.Picometres(1)) }, true},
		"below none":       {func(p *assembly.Press) { p.Smoothing = units.Picometres(-1) }, false},
		"a twentieth":      {func(p *assembly.Press) { p.Interference = units.MM(1) }, true},
		"more":             {func(p *assembly.Press) { p.Interference = units.MM(1).Add(units.Picometres(1)) }, false},
		"1 MPa":            {func(p *assembly.Press) { p.Hub = with(units.Megapascal, 0.3) }, true},
		"less":             {func(p *assembly.Press) { p.Hub = with(0.99*units.Megapascal, 0.3) }, false},
		"2000 GPa":         {func(p *assembly.Press) { p.Shaft = with(2000*units.Gigapascal, 0.3) }, true},
		"more GPa":         {func(p *assembly.Press) { p.Shaft = with(2001*units.Gigapascal, 0.3) }, false},
		"no ratio":         {func(p *assembly.Press) { p.Hub = with(200*units.Gigapascal, 0) }, true},
		"ratio below":      {func(p *assembly.Press) { p.Hub = with(200*units.Gigapascal, -0.01) }, false},
		"a half":           {func(p *assembly.Press) { p.Hub = with(200*units.Gigapascal, 0.5) }, false},
		"10 GPa":           {func(p *assembly.Press) { p.Hub = strong(10 * units.Gigapascal) }, true},
		"stronger":         {func(p *assembly.Press) { p.Hub = strong(10.1 * units.Gigapascal) }, false},
		"no strength":      {func(p *assembly.Press) { p.Hub = strong(0) }, false},
		"friction of 1":    {func(p *assembly.Press) { p.Friction = assembly.Mu(1) }, true},
		"friction turned":  {func(p *assembly.Press) { p.Friction = assembly.Friction{Min: 0.2, Max: 0.1} }, false},
		"from none":        {func(p *assembly.Press) { p.Friction = assembly.Friction{Max: 0.1} }, false},
	} {
		p := good
		tt.change(&p)
		if _, err := p.Solve(); (err == nil) != tt.ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Parts that just touch seize; the least that is asked for is enough.
func TestRunningEdges(t *testing.T) {
	iron := expanding("cast iron", 10e-6)
	// 50 mm x 10 ppm x 100 K: the inner part alone closes by 0.05 mm.
	run := assembly.Running{
		Diameter: units.MM(50), Inner: iron, Outer: iron,
		Room: units.Celsius(20), InnerHot: units.Celsius(120), OuterHot: units.Celsius(120),
	}
	one := units.Picometres(1)
	for name, tt := range map[string]struct {
		clearance, least units.Length
		says             finding.Code
	}{
		"touch":      {units.MM(0.05), units.Length{}, assembly.SeizesHot},
		"just free":  {units.MM(0.05).Add(one), units.Length{}, ""},
		"enough":     {units.MM(0.06), units.MM(0.01), ""},
		"not enough": {units.MM(0.06).Sub(one), units.MM(0.01), assembly.TightHot},
	} {
		run.Fit, run.Least = measured(run.Diameter, tt.clearance), tt.least
		r, err := run.Solve()
		if err != nil || (tt.says == "") != (len(r.Findings) == 0) || tt.says != "" && r.Findings[0].Code != tt.says {
			t.Errorf("%s: %v, %v", name, r.Findings, err)
		}
		// Hot alike they keep their clearance, so that warming through helps.
		if tt.says == assembly.SeizesHot && (len(r.Findings[0].Remedies) != 2 || r.BothHot.Min != tt.clearance) {
			t.Errorf("%s: %v", name, r.Findings[0].Remedies)
		}
	}
	// Half the diameter off is still a fit of it; a picometre more is none.
	for off, ok := range map[units.Length]bool{units.MM(25): true, units.MM(25).Add(one): false} {
		hole, shaft := fits.Exact(units.MM(50).Add(off)), fits.Exact(units.MM(50).Add(off).Sub(units.MM(0.1)))
		fit, err := fits.Mate(hole, shaft)
		if err != nil {
			t.Fatal(err)
		}
		run.Fit = fit
		if _, err := run.Solve(); (err == nil) != ok {
			t.Errorf("off by %v: %v", off, err)
		}
	}
}

// A pressed fit that opens to nothing lets go; one that holds by a picometre does not.
func TestGripEdges(t *testing.T) {
	outer, inner := expanding("aluminium", 20e-6), expanding("steel", 10e-6)
	// 50 mm x (20 - 10) ppm x 100 K: it opens by 0.05 mm.
	run := assembly.Running{
		Diameter: units.MM(50), Inner: inner, Outer: outer,
		Room: units.Celsius(20), InnerHot: units.Celsius(120), OuterHot: units.Celsius(120),
	}
	for over, lets := range map[units.Length]bool{units.MM(0.05): true, units.MM(0.05).Add(units.Picometres(1)): false} {
		run.Fit = measured(run.Diameter, over.Neg())
		r, err := run.Solve()
		if err != nil || slices.Contains(codes(r.Findings), assembly.LooseHot) != lets {
			t.Errorf("%v: %v, %v", over, r.Findings, err)
		}
	}
}

// From where a little clearance, an early grab and a cold mean are said.
func TestShrinkEdges(t *testing.T) {
	room := units.Celsius(20)
	steel := expanding("steel", 10e-6)
	// 100 mm x 10 ppm: one micrometre a kelvin.
	s := assembly.Shrink{
		Diameter: units.MM(100), Interference: units.MM(0.1), Hub: steel, Shaft: steel,
		Room: room, HubAt: units.Celsius(220), ShaftAt: room,
	}
	for name, tt := range map[string]struct {
		change func(*assembly.Shrink)
		code   finding.Code
		says   bool
	}{
		"a thousandth left":   {func(*assembly.Shrink) {}, assembly.LittleClearance, false},
		"less":                {func(s *assembly.Shrink) { s.HubAt = units.Celsius(219.9) }, assembly.LittleClearance, true},
		"asked for":           {func(s *assembly.Shrink) { s.HubAt, s.Clearance = units.Celsius(219), units.MM(0.05) }, assembly.LittleClearance, false},
		"grabs at half":       {func(*assembly.Shrink) {}, assembly.GrabsEarly, false},
		"before":              {func(s *assembly.Shrink) { s.HubAt = units.Celsius(219.9) }, assembly.GrabsEarly, true},
		"shaft at -60":        {func(s *assembly.Shrink) { s.ShaftAt = units.Celsius(-60) }, assembly.MeanTooWarm, false},
		"colder":              {func(s *assembly.Shrink) { s.ShaftAt = units.Celsius(-60.1) }, assembly.MeanTooWarm, true},
		"clearance as wanted": {func(s *assembly.Shrink) { s.Clearance = units.MM(0.0999) }, assembly.SticksGoingHome, false},
		"less than wanted":    {func(s *assembly.Shrink) { s.Clearance = units.MM(0.1001) }, assembly.SticksGoingHome, true},
		"enters":              {func(s *assembly.Shrink) { s.HubAt = units.Celsius(120.1) }, assembly.DoesNotEnter, false},
		"does not enter":      {func(s *assembly.Shrink) { s.HubAt = units.Celsius(119.9) }, assembly.DoesNotEnter, true},
	} {
		q := s
		tt.change(&q)
		r, err := q.Solve()
		if err != nil || slices.Contains(codes(r.Findings), tt.code) != tt.says {
			t.Errorf("%s: %v, %v", name, r.Findings, err)
		}
	}
	r, err := s.Solve()
	if err != nil || math.Abs(r.AtAssembly.MM()-0.1) > 1e-9 || math.Abs(float64(r.GrabsAt)-100) > 1e-9 ||
		math.Abs(r.HubGrabs.Celsius()-120) > 1e-9 || math.Abs(r.HubNeeded.Celsius()-120) > 1e-9 || r.ShaftNeeded != room {
		t.Errorf("%+v, %v", r, err)
	}
}

// Both ends of a range belong to it.
func TestRangeContains(t *testing.T) {
	r := assembly.Range[units.Force]{Min: 10, Max: 20}
	for v, want := range map[units.Force]bool{9.99: false, 10: true, 15: true, 20: true, 20.01: false} {
		if r.Contains(v) != want {
			t.Errorf("%v: %v", v, !want)
		}
	}
}

// What is refused, one thing at a time.
func TestRefused(t *testing.T) {
	steel := given("steel", 200*units.Gigapascal, 0.3, 11.5e-6)
	press := assembly.Press{
		Diameter: units.MM(20), HubOutside: units.MM(40), Length: units.MM(20), Hub: steel, Shaft: steel, Friction: assembly.Mu(0.12),
	}
	clearance := func(min, max float64) fits.FitLimits {
		return fits.FitLimits{Clearance: fits.Band{Min: units.MM(min), Max: units.MM(max)}}
	}
	ends := func(fit fits.FitLimits) error { _, _, err := press.Ends(fit); return err }
	room := units.Celsius(20)
	endless := assembly.RingGap{
		Bore: units.MM(20), Ring: steel, Cylinder: steel, Room: room, RingHot: room, CylinderHot: room,
		Cold: units.Picometres(math.MaxInt64),
	}
	for name, ask := range map[string]func() error{
		"a fit turned":            func() error { return ends(clearance(-0.01, -0.02)) },
		"a fit down to none":      func() error { return ends(clearance(-0.02, 0)) },
		"a fit that is no press":  func() error { return ends(clearance(-5, -0.01)) },
		"a least that is none":    func() error { return ends(clearance(-5, -4)) },
		"a piston the wrong way":  func() error { _, err := assembly.CheckPiston(units.MM(20), fits.Band{Min: units.MM(1)}); return err },
		"an endless gap":          func() error { _, err := endless.Solve(); return err },
		"a cut of no force":       func() error { _, err := assembly.Cut{Diameter: units.MM(5), Shock: 1}.Torque(); return err },
		"growth of less than nil": func() error { _, err := assembly.Growth(units.MM(-1), steel, 10); return err },
	} {
		if ask() == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if err := ends(clearance(-0.02, -0.01)); err != nil {
		t.Error(err)
	}
}
