package thread_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// A paper is a kept text that is being written.
type paper struct{ strings.Builder }

func (p *paper) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// answer writes what was answered, or why it was not.
func (p *paper) answer(of string, v any, err error) {
	if err != nil {
		p.line("%s: %v", of, err)
		return
	}
	p.line("%s: %v", of, v)
}

// findings writes findings with all that they say.
func (p *paper) findings(list finding.List) {
	for _, f := range list {
		p.line("  %v %s%s: %s [%d sources]", f.Severity, f.Code, f.Where, f.Text, f.Refs.Len())
		for _, r := range f.Remedies {
			p.line("    - %s", r)
		}
	}
}

func (p *paper) keep(t *testing.T, name string) {
	t.Helper()
	check.Kept(t, "thread/kept/"+name+".txt", check.Rounded(p.String()))
}

// some threads of each form and size
var some = []string{"M1.2", "M3", "M6", "M20", "M6x0.5", "0-80 UNF", "4-40 UNC", "1/4-20 UNC", "1/2-28 UNEF", "19/64-36 UNS", "1/8 BSW", "1/4 BSF",
	"20 BA", "12 BA", "2 BA", "1/4x40 ME", "3/8 BSB", "1/4x26 BSC", "G 1/8", "R 1/8", "1/8 NPT", "2 1/2 NPT", "Tr 10x2", "1/4-16 Acme", "1-5 Acme",
	"M7.3x0.4 special"}

// The basic sizes of every thread that is listed, in order. Kept, so that none is lost
// or moved; the tests of sizes have each from another work.
func TestSizesKept(t *testing.T) {
	var p paper
	for _, s := range thread.ListSeries() {
		for th := range s.All() {
			p.line("%v: %v %v %v %v %v, %.4g", th, th.Major(), th.PitchDiameter(), th.Minor(), th.Root(), th.Depth(), th.LeadAngle().Degrees())
		}
	}
	p.line("%v, %v, %v, %v", thread.Thread{}, thread.Thread{}.TPI(), thread.Thread{}.LeadAngle(), thread.Thread{}.Validate())
	p.keep(t, "sizes")
}

// What texts are read as, and what is said of those that are not, with what comes near.
func TestReadingKept(t *testing.T) {
	var p paper
	for _, text := range []string{
		"M3", "m3 x 0.35", "M3-0.5", "M3x0.5mm", "M3 X 0.5 mm", "M03", "M3.0", "M.5", "M.9", "M.05", "M.0", "M.1", "M6x1 special fine", "M6x1 special 2", "1/4inBSW", "1/100 BSW", "100/400 BSW", "100 1/2 BSW", "1 1/100 BSW", "1 100/200 BSW", "1.2345 UNC", "1.23456 UNC", "123 UNC", "1/4-1234 UNC", "1/4-20.123 UNC", "1/8-123 NPT", "G 1/8-280", "1 1/4-11.55 NPT", "1 1/4-11.5 BSPT", "123 BA", "M12345", "Tr 1234x2", "M6x1234", "no. 4 in UNC", "10in", "1 in instrument", "1inUNC", "1 inch UNC", "#4 in-40", "#4in", "4inxx", "1 inx40", "1 insect", "1/4-20tpiUNC", "1/4-20 tpix", "M999", "M1000", "M3x", "M3x0.123456789", "M3x0.1234567891",
		"M7.3x0.4 special", "M7.3 special", "M3x0.9", "M2.6", "M41", "M6x0.05 special", "M6x0.049 special", "M6x1.5 special", "M6x1.51 special",
		"Tr10x2", "TR 10 x 2", "Tr 10", "Tr 10-2", "Tr 10x2.5 special", "Tr 9", "Tr 10x2 mm",
		"2BA", "BA 2", "ba-2", "#2 BA", "no. 2 BA", "no2ba", "26 BA", "100 BA", "2 - BA", "BA", "OBA", "ba 0",
		"1/4-20", "1/4-20 UNC", "UNC 1/4-20", `1/4"-20 UNC`, "#4-40", "4-40", "No. 4-40 UNC", "number 4-40", "no 4-40", "1/4 UNC", "1/4 UNF", "1/4-24", "1/4-24 UNC",
		"1 UNC", `1" UNC`, "1 in UNC", "2-56", "2-4.5", `2"-4.5`, "12-28", "13-28", "5", "4", "1/4", ".250-20 UNC", "0.25-20", "1-1/8-7 UNC", "1 1/8-7", "1 1/8 7",
		"19/64-36 UNS", "8-36 UNS", "1-64 UNS", "#1-64 UNS", "1.0-64 UNS", "13-20 UNS", "#13-20 UNS", "3-12 UNS", "1-12 UNS", "1/4 UNS", "UNS 1/4-36", "2-40 UNS", "2-39 UNS",
		"1/4-0 UNC", "1/4-.5 UNC", "0-80", "00-90", "#00-90", "#4.5-40", "4.5-40", "1/0-20", "0/4-20", "#-40", "1/4-20.25 UNS", "1/4-20.26 UNS", "1/4-2000 UNS",
		"1/4 BSW", "W 1/4", "1/4 Whit", "1/4 Whitworth", "1/4x36 Whitworth", "1/4-36 whitworth", "5/16 B.S.F.", "1/4x26 BSF", "1/4x27 BSF", "BSF 1/4", "17/64 BSW",
		"1/4x40", "1/4 x 40 ME", "1/4x40 tpi", "1/4x40tpi ME", "1/4 ME", "ME 1/4x32", "5/16 model engineer", "1/4x41 ME", "1/4x28", "3/8x26", "1/4 brass", "7/16x26 BSC",
		"1/4 CEI", "1/4 cycle", "1/4-20 Whit special", "1/4-20 special", "1-7 Acme special", "1-5 Acme", "1 Acme", "1-4 Acme", "Acme 1-5", "1x5 Acme",
		"G1/8", "G 1/8", "g 1/8-28", "G1/8x28", "G 1/8-27", "Rc 1/8", "Rp1/8", "R 1/8", "1/8 BSP", "5/8 BSP", "1/8 BSPP", "1/8 BSPT", "BSPT 1/8", "1/8 NPT", "1/8-27 NPT",
		"NPT 1/8", "NPT 1/8-27", "1/8x27 NPT", "1 1/4-11.5 NPT", "1 1/4-11 NPT", "G 3/16", "R 5/8", "G 1/8 A", "G 1/8 in", "G 1/8B", "GA", "g a",
		"M3x0,5", "M3,5", "1,", ",5", "M6-6h", "M6x1-5g6g", "M6x1 LH", "M6 left", "1/4-20 UNC-2A", "1/4-20 UNC 2A LH", "1/4-20 UNC-4A", "1/4-20 UNC-0A", "M6-9", "6h", "2a", "-6h",
		"Tr 10x3(P1.5)", "Tr 10x3(P1.5) LH", "Tr 10x3 (P1.5)-7e", "M16xPh3P1.5", "M16xPh 3 P 1.5-6H", "M16x3p", "M16x3(p1.5)x", "M16xPP1.5", "mx3p1",
		"M3 0.5", "M3/0.5", "MF 6x0.75", "MF6", "M6 fine", "M6 mf", "M6 coarse", "M6x1 fine", "M6x0.75 coarse", "MF 6 fine", "MF 6/0.75", "M6 0.75 mm", "M6 fin",
		"3x0.5", "3 mm", "3mm x 0.5", "3 mm x 0.5 mm", "3x0.5 mm", "10x2.5", "10x3", "10x1.5", "6 mmx", "3x2",
		"1/4 20 UNC", "1/4 20", "#4 40", "4 40 UNC", "1 1/8 7 unc", "1/4 20 40", "1/4 x", "a 20", "1/4 20 u2", "1 2 3 4", "10-32 NF-2", "10-32 NF", "10-24 NC2", "NF", "1/4-28 UNJF",
		"1/4-20 UNJC", "1/4-32 unjef", "1/4 unj", "PT 1/8", "PF 1/8", "PS1/8", "1/8 NPTF", "1/8 NPS", "1/8 npsm", "1/8 npsf", "1/8 gas", "1/8 pipe", "1/8pipe", "pipe", "gas 1/8",
		"", " ", "x", "thread", "½ BSW", "1½ BSW", "1 ½-6 UNC", "¼-20", "¾ BSF", "⅛ NPT", "⅜ BSP", "⅝ BSW", "⅞ BSF", "1/4“-20", "1/4''-20", "1/4′′-20", "1/4'-20", "1/4–20", "1/4−20",
		"M3×0.5", "M3*0.5", "M\u00a03", "m 3 . 5", "1/4-20 u.n.c.", "1/4-20 u.n.c.2", "No.4-40", "no.4", "1/4.-20", "z.9", "é 3",
	} {
		th, err := thread.Parse(text)
		if err != nil {
			said, _, _ := strings.Cut(err.Error(), `; accepted: "M3"`)
			p.line("%q: %s", text, strings.TrimPrefix(said, "thread: thread "))
			continue
		}
		p.line("%q: %v, %v", text, th, th.Series())
	}
	p.keep(t, "reading")
}

// Threads of any size, at the bounds of what a form takes.
func TestSpecialsKept(t *testing.T) {
	var p paper
	mm := units.MM
	tpi := func(n float64) units.Length { return units.Inch(1 / n) }
	for _, ask := range []struct {
		form         thread.Form
		major, pitch units.Length
	}{
		{thread.FormISO, mm(7.3), mm(0.4)}, {thread.FormISO, mm(0.25), mm(0.05)}, {thread.FormISO, mm(0.249), mm(0.05)}, {thread.FormISO, mm(300), mm(6)},
		{thread.FormISO, mm(300.001), mm(6)}, {thread.FormISO, mm(6), mm(1.5)}, {thread.FormISO, mm(6), mm(1.501)}, {thread.FormISO, mm(6), mm(0.049)},
		{thread.FormUnified, units.Inch(0.25), tpi(36)}, {thread.FormUnified, units.Inch(0.25), tpi(36.25)}, {thread.FormUnified, units.Inch(0.25), tpi(36.1)},
		{thread.FormUnified, units.Inch(0.2501), tpi(36)}, {thread.FormUnified, units.Inch(0.25005), tpi(36)}, {thread.FormUnified, units.Inch(1), tpi(40)},
		{thread.FormUnified, units.Inch(1), tpi(39)}, {thread.FormUnified, units.Inch(2), tpi(12)}, {thread.FormUnified, units.Inch(3), tpi(12)},
		{thread.FormWhitworth, units.Inch(0.3125), tpi(30)}, {thread.FormWhitworth, units.Inch(0.25), mm(1)}, {thread.FormTrapezoidal, mm(10), mm(5)},
		{thread.FormTrapezoidal, mm(10), mm(4.5)}, {thread.FormTrapezoidal, mm(10), mm(5.001)}, {thread.FormTrapezoidal, mm(10), mm(1.5)},
		{thread.FormTrapezoidal, mm(20), mm(5)}, {thread.FormTrapezoidal, mm(60), mm(12)}, {thread.FormTrapezoidal, mm(60), mm(12.001)}, {thread.FormTrapezoidal, mm(0.5), mm(0.2)},
		{thread.FormTrapezoidal, mm(10), mm(1.501)}, {thread.FormTrapezoidal, mm(20), mm(5.001)},
		{thread.FormAcme, units.Inch(1), tpi(7)}, {thread.FormAcme, units.Inch(1), tpi(2)}, {thread.FormAcme, units.Inch(0.5), tpi(10)}, {thread.FormAcme, units.Inch(0.5), tpi(10.5)},
		{thread.FormBA, mm(6), mm(1)}, {thread.FormCycle, mm(6), mm(1)}, {thread.FormNPT, mm(6), mm(1)}, {0, mm(6), mm(1)}, {99, mm(6), mm(1)},
	} {
		th, err := thread.New(ask.form, ask.major, ask.pitch)
		p.answer(fmt.Sprintf("%v, %v by %v", ask.form, ask.major, ask.pitch),
			fmt.Sprintf("%v, %v: %v %v %v %v; %v", th, th.Series(), th.PitchDiameter(), th.Minor(), th.Root(), th.Depth(), th.Refs()), err)
	}
	for _, f := range append(thread.Forms(), 0, 99, -1) {
		p.line("%v: %.4g, %v", f, f.Angle().Degrees(), f.FundamentalHeight(mm(1)))
	}
	p.keep(t, "specials")
}

// The limits of threads in all their classes and in none, with their names.
func TestLimitsKept(t *testing.T) {
	var p paper
	iso := []string{"6g", "6h", "4g6g", "3h4h", "6e", "6f", "8g", "9g8g", "7g6g", "5g", "6H", "5H", "4H5H", "6G", "7H", "8H", "4H", "9H", "6g6H", "6d", "g6", "", "6"}
	un := []string{"1A", "2A", "3A", "1B", "2B", "3B", "4A"}
	bsw := []string{"close", "medium", "free", "medium nut", "normal nut", "normal"}
	ba := []string{"close", "normal", "nut", "free"}
	for _, ask := range []struct {
		names, classes []string
	}{
		{[]string{"M1x0.25", "M1.2", "M1.4", "M3", "M6", "M6x0.5", "M20", "M64", "M11.2x1 special", "M11.201x1 special", "M90x2 special", "M90.001x2 special", "M7.3x0.4 special"}, iso},
		{[]string{"0-80 UNF", "4-40 UNC", "6-32 UNC", "5-44 UNF", "1/4-20 UNC", "1/4-32 UNEF", "1 1/2-6 UNC", "1/2-28 UNEF", "19/64-36 UNS", "3-3 UNS", "3-4 UNS",
			"1-12.5 UNS", "1-12.25 UNS", "12-24 UNC", "2-4.5 UNC", "1/2-5.5 UNS"}, un},
		{[]string{"1/16 BSW", "1/8 BSW", "1/4 BSW", "1/4 BSF", "5/16 BSF", "3/16 BSW", "7/32 BSF", "3/16 BSF", "3 BSW", "7/16 BSF"}, bsw},
		{[]string{"0 BA", "10 BA", "11 BA", "16 BA", "17 BA"}, ba},
		{[]string{"Tr 8x1.5", "Tr 10x2", "Tr 20x4", "Tr 40x7", "Tr 5.6x1.5 special"}, []string{"7e", "7H", "7h"}},
		{[]string{"1/4-16 Acme", "1/2-10 Acme", "1-5 Acme", "4 3/4-2 Acme special", "5-2 Acme special"}, []string{"2G", "2G nut", "3G"}},
		{[]string{"1/4x40 ME", "3/8 BSB", "1/4x26 BSC", "G 1/8", "R 1/8", "1/8 NPT", "1/4x36 Whitworth"}, []string{"medium"}},
	} {
		for _, name := range ask.names {
			th, err := thread.Parse(name)
			if err != nil {
				p.line("%s: %v", name, err)
				continue
			}
			screw, nut := th.UsualClasses()
			p.line("%s: usually %q and %q", name, screw, nut)
			for _, class := range ask.classes {
				l, err := th.Limits(class)
				if err != nil {
					p.line(" %s: %v", class, strings.TrimPrefix(err.Error(), "thread: "))
					continue
				}
				p.line(" %s, %v: %v; %v; %v; %d sources", l.Name(), l.External, l.Major, l.PitchDiameter, l.Minor, l.Refs.Len())
			}
		}
	}
	_, err := thread.Thread{}.Limits("6g")
	p.line("none: %v", err)
	for _, r := range []thread.Range{{}, {Min: units.MM(1)}, {Max: units.MM(2)}, {Min: units.MM(1), Max: units.MM(2)}} {
		p.line("%v: tolerance %v, holds 0.999: %v, 1: %v, 2: %v, 2.001: %v", r, r.Tolerance(), r.Contains(units.MM(0.999)), r.Contains(units.MM(1)),
			r.Contains(units.MM(2)), r.Contains(units.MM(2.001)))
	}
	p.keep(t, "limits")
}

// The tapping drills for threads of every form from three drawers, by a share and in
// metals, with what is said of each and what to buy.
func TestDrillsKept(t *testing.T) {
	var p paper
	drawer := set(t, "1-6x0.1 mm")
	for i, name := range some {
		if i%2 == 1 && i < 20 {
			continue
		}
		th := thread.MustParse(name)
		for _, own := range []struct {
			what string
			gauge.Set
		}{{"1 to 6", drawer}, {"few", set(t, "2 mm, 2.9 mm, 5 mm, 5.4 mm, 8.4 mm")}} {
			for _, depth := range []thread.TapDepth{
				{Share: 0.7, Basis: thread.FullDepth}, {Material: metal(t, "brass")}, {Material: metal(t, "stainless steel 304")},
			} {
				plan, err := th.PlanDrill(own.Set, depth)
				what := fmt.Sprintf("%s of %s in %s", name, own.what, depth.Material.Name)
				if err != nil {
					p.line("%s: %v", what, strings.TrimPrefix(err.Error(), "thread: "))
					continue
				}
				p.line("%s: %v, %.4f of %v, %.5f; suits %v; buy %v, nearer %v; %d sources", what, plan.Hole, plan.Share, plan.Basis, plan.PerPitch, plan.Suits(),
					plan.Buy.Drill.Name, plan.Nearer.Drill.Name, plan.Refs.Len())
				for _, c := range plan.Choices {
					p.line(" %v, %s, over %v, %.4f, gauged %v %s %v", c, c.Verdict(), c.Over, c.Full, c.Gauged(), c.Class, c.Allowed)
				}
				p.findings(plan.Check())
			}
		}
	}
	p.keep(t, "drills")
}

// What one drill does in threads and metals, at every limit, and what is refused.
func TestDepthsKept(t *testing.T) {
	var p paper
	for _, name := range []string{"M6", "M2.5", "M1.6", "1/4-20 UNC", "20 BA"} {
		th := thread.MustParse(name)
		for _, m := range []string{"brass", "mild steel", "stainless steel 304"} {
			for _, share := range []float64{0.2, 0.23, 0.3, 0.46, 0.55, 0.74, 0.79, 0.83, 0.9, 1} {
				drill := gauge.Size{Name: fmt.Sprintf("at %g", share), Diameter: th.Major().Sub(th.Depth().Scale(2 * share))}
				c, err := th.CheckTappingDrillIn(metal(t, m), drill, thread.FullDepth)
				p.answer(name+" in "+m, fmt.Sprintf("%v; %.4f to %.4f", c, c.Min, c.Max), err)
				if len(c.Findings) > 0 && share < 0.3 {
					p.findings(c.Findings)
				}
			}
		}
	}
	for _, m := range material.All() {
		advice, err := thread.AdvisedDepthFor(m)
		p.answer(m.Name, fmt.Sprintf("%g to %g, hard %v, free %v", advice.Min, advice.Max, advice.Hard, advice.Free), err)
	}
	m6 := thread.MustParse("M6")
	for _, share := range []float64{0, -0.1, 0.0001, 0.5, 0.88, 0.8824, 0.883, 1, 1.0001, 9.99, 10, 75, 100, 100.1, math.NaN(), math.Inf(1)} {
		for _, basis := range append(thread.Bases(), 0, 9) {
			hole, err := m6.TappingHole(share, basis)
			p.answer(fmt.Sprintf("%g of %v", share, basis), hole, err)
		}
		for _, to := range thread.Bases() {
			v, err := m6.ConvertDepth(share, thread.FullDepth, to)
			p.answer(fmt.Sprintf("%g as %v", share, to), fmt.Sprintf("%.6g", v), err)
		}
	}
	for _, name := range some {
		th := thread.MustParse(name)
		for _, basis := range thread.Bases() {
			v, err := th.DepthOfThread(th.Minor(), basis)
			p.answer(fmt.Sprintf("%s in its own nut, %v", name, basis), fmt.Sprintf("%.6g", v), err)
		}
	}
	for _, hole := range []float64{0, -1, 5, 5.999, 6} {
		v, err := m6.DepthOfThread(units.MM(hole), thread.FullDepth)
		p.answer(fmt.Sprintf("M6 in %g", hole), fmt.Sprintf("%.6g", v), err)
	}
	_, err := m6.TappingDrills(gauge.Set{}, 0.75, thread.FullDepth)
	p.line("no drills: %v", err)
	_, err = m6.TappingDrills(set(t, "2.9 mm, 6 mm"), 0.75, thread.FullDepth)
	p.line("none near: %v", err)
	p.line("%v, %q, %v", thread.Choice{}, thread.Choice{}.Verdict(), thread.Choice{}.Suits())
	p.keep(t, "depths")
}
