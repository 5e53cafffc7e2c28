package assembly_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// answers collects what is said, a line for each.
type answers struct{ strings.Builder }

func (a *answers) tell(name string, v any, fs finding.List, err error) {
	said, _, _ := strings.Cut(fmt.Sprint(v), ", findings ")
	said, _, _ = strings.Cut(said, ", from ")
	said, _, _ = strings.Cut(said, ", precautions ")
	if err != nil {
		said = err.Error()
	}
	fmt.Fprintf(a, "%s: %s\n", name, said)
	for _, f := range fs {
		fmt.Fprintf(a, "  %s %s: %s | %s\n", f.Code, f.Severity, f.Text, strings.Join(f.Remedies, " | "))
	}
}

func (a *answers) keep(t *testing.T, name string) {
	t.Helper()
	check.Kept(t, "fits/assembly/kept/"+name, check.Rounded(a.String()))
}

func of(t *testing.T, name string) material.Material {
	t.Helper()
	m, err := material.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Heated hubs and chilled shafts of many materials, at heat that is enough, too little,
// too much and beyond what is known: figures, findings and remedies, with the codes of
// what to mind.
func TestShrinksAsTheyRead(t *testing.T) {
	var said answers
	for _, test := range []struct {
		hub, shaft   string
		hot, cold    float64
		inter, clear float64
		curve        bool
	}{
		{hub: "mild steel", shaft: "mild steel", hot: 20, cold: 20, inter: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 20, cold: 20, inter: 0.02, clear: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 180, cold: 20, inter: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 180, cold: 20, inter: 0.02, clear: 0.01},
		{hub: "mild steel", shaft: "mild steel", hot: 180, cold: 20, inter: 0.02, clear: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 120, cold: 20, inter: 0.03, clear: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 120, cold: -78, inter: 0.03, clear: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 120, cold: -78, inter: 0.03, clear: 0.02, curve: true},
		{hub: "mild steel", shaft: "mild steel", hot: 20, cold: -196, inter: 0.02, clear: 0.01, curve: true},
		{hub: "mild steel", shaft: "mild steel", hot: 20, cold: -196, inter: 0.02, clear: 0.01},
		{hub: "mild steel", shaft: "mild steel", hot: 310, cold: 20, inter: 0.02, clear: 0.01},
		{hub: "mild steel", shaft: "mild steel", hot: 310, cold: -100, inter: 0.02, clear: 0.01},
		{hub: "mild steel", shaft: "mild steel", hot: 310, cold: 310, inter: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 290, cold: 20, inter: 0.09, clear: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 280, cold: 20, inter: 0.02, clear: 0.01},
		{hub: "cast iron", shaft: "mild steel", hot: 240, cold: 20, inter: 0.02, clear: 0.02},
		{hub: "cast iron", shaft: "mild steel", hot: 410, cold: 20, inter: 0.02, clear: 0.02},
		{hub: "brass", shaft: "mild steel", hot: 260, cold: 20, inter: 0.02, clear: 0.02},
		{hub: "brass", shaft: "mild steel", hot: 310, cold: -40, inter: 0.02},
		{hub: "gunmetal", shaft: "stainless steel 303", hot: 150, cold: -25, inter: 0.05, clear: 0.01},
		{hub: "aluminium", shaft: "mild steel", hot: 170, cold: 20, inter: 0.02, clear: 0.02},
		{hub: "aluminium", shaft: "mild steel", hot: 190, cold: 20, inter: 0.05, clear: 0.02},
		{hub: "aluminium", shaft: "mild steel", hot: 100, cold: 20, inter: 0.08, clear: 0.02},
		{hub: "aluminium", shaft: "mild steel", hot: 700, cold: 20, inter: 0.02, clear: 0.02},
		{hub: "zinc alloy", shaft: "mild steel", hot: 95, cold: 20, inter: 0.02, clear: 0.01},
		{hub: "stainless steel 304", shaft: "brass", hot: 150, cold: 20, inter: 0.03, clear: 0.02},
		{hub: "stainless steel 304", shaft: "brass", hot: 430, cold: 20, inter: 0.03, clear: 0.02},
		{hub: "PTFE", shaft: "mild steel", hot: 65, cold: 20, inter: 0.03, clear: 0.02},
		{hub: "PTFE", shaft: "mild steel", hot: 210, cold: 20, inter: 0.03, clear: 0.02},
		{hub: "mild steel", shaft: "mild steel", hot: 20, cold: 20, inter: 0.4},
		{hub: "mild steel", shaft: "mild steel", hot: 200, cold: 20, inter: 0.4},
		{hub: "mild steel", shaft: "mild steel", hot: 200, cold: 20, inter: 0.06, clear: 0.1},
		{hub: "brass", shaft: "mild steel", hot: 110, cold: 110, inter: 0.02},
		{hub: "mild steel", shaft: "brass", hot: 110, cold: 100, inter: 0.02, clear: 0.01},
	} {
		s := assembly.Shrink{
			Diameter: units.MM(20), Interference: units.MM(test.inter), Clearance: units.MM(test.clear),
			Hub: of(t, test.hub), Shaft: of(t, test.shaft), Room: units.Celsius(20), HubAt: units.Celsius(test.hot),
			ShaftAt: units.Celsius(test.cold),
		}
		if test.curve {
			s.ShaftCurve = assembly.ChilledSteel()
		}
		r, err := s.Solve()
		name := fmt.Sprintf("%s at %g on %s at %g, %g mm and %g, curve %v", test.hub, test.hot, test.shaft, test.cold, test.inter, test.clear, test.curve)
		said.tell(name, r, r.Findings, err)
		var codes []string
		for _, p := range r.Precautions {
			codes = append(codes, string(p.Code))
		}
		fmt.Fprintln(&said, "  mind:", strings.Join(codes, " "))
	}
	said.keep(t, "shrinks.txt")
}

// Pressed joints from a light hold to past all strength, of hubs thick and thin, tough and
// brittle, on shafts solid and bored.
func TestPressesAsTheyRead(t *testing.T) {
	var said answers
	for _, hub := range []string{"mild steel", "cast iron", "brass"} {
		for _, shaft := range []string{"mild steel", "brass"} {
			for _, bore := range []float64{0, 9} {
				for _, outside := range []float64{15, 30} {
					for _, inter := range []float64{0.004, 0.012, 0.03, 0.3} {
						if shaft == "brass" && (hub != "mild steel" || outside == 15) {
							continue
						}
						p := assembly.Press{
							Diameter: units.MM(12), Interference: units.MM(inter), HubOutside: units.MM(outside), ShaftBore: units.MM(bore),
							Length: units.MM(15), Hub: of(t, hub), Shaft: of(t, shaft), Friction: assembly.Mu(0.12),
							Smoothing: units.MM(0.001),
						}
						if inter == 0.012 {
							p.Friction, p.Smoothing, p.Length = assembly.Frictions()[0], units.Length{}, units.MM(60)
						}
						r, err := p.Solve()
						said.tell(fmt.Sprintf("%s %g on %s 12/%g, %g mm", hub, outside, shaft, bore, inter), r, nil, err)
						for _, f := range r.Findings {
							said.WriteString("  " + string(f.Code) + " " + f.Severity.String() + ": " + f.Text + "\n")
						}
					}
				}
			}
		}
	}
	said.keep(t, "presses.txt")
}

// Parts that run or hold when they get hot, a piston by the rules, joints with adhesive,
// grub screws and what they hold.
func TestRunningAndHoldingAsTheyRead(t *testing.T) {
	var said answers
	for _, fit := range []string{"H7/f7", "H8/e8", "H7/p6", "H7/k6", ""} {
		for _, heat := range [][2]float64{{20, 20}, {150, 110}, {110, 150}, {-20, 20}, {20, -20}, {120, 119}} {
			r := assembly.Running{
				Diameter: units.MM(25), Inner: of(t, "aluminium"), Outer: of(t, "cast iron"), Room: units.Celsius(20),
				InnerHot: units.Celsius(heat[0]), OuterHot: units.Celsius(heat[1]), Least: units.MM(0.01),
			}
			if fit != "" {
				f, err := fits.ParseFit(fit)
				if err != nil {
					t.Fatal(err)
				}
				if r.Fit, err = f.LimitsFor(r.Diameter); err != nil {
					t.Fatal(err)
				}
			}
			out, err := r.Solve()
			said.tell(fmt.Sprintf("%s at %g and %g", fit, heat[0], heat[1]), out, out.Findings, err)
		}
	}
	for _, screw := range []float64{2, 3, 5} {
		for _, flat := range []float64{0, 0.5} {
			r, err := assembly.GrubScrew{Screw: units.MM(screw), Shaft: units.MM(8), FlatDepth: units.MM(flat),
				Tightening: 0.5}.Solve()
			said.tell(fmt.Sprintf("M%g, flat %g", screw, flat), r, r.Findings, err)
			fmt.Fprintln(&said, "  sources:", r.Refs)
		}
	}
	for _, gap := range [][2]float64{{0.02, 0.05}, {0.01, 0.2}, {0, 0.15}} {
		for _, hot := range []float64{100, 151} {
			r, err := assembly.Bond{
				Diameter: units.MM(10), Length: units.MM(15 + 10*gap[0]),
				Gap:      fits.Band{Min: units.MM(gap[0]), Max: units.MM(gap[1])},
				Adhesive: assembly.GenericRetainer(), Derating: 0.5, Hottest: units.Celsius(hot),
			}.Solve()
			said.tell(fmt.Sprintf("bond with %g to %g mm at %g C", gap[0], gap[1], hot), r, r.Findings, err)
			for _, p := range r.Precautions {
				said.WriteString("  mind: " + p.Text + "\n")
			}
		}
	}
	fmt.Fprintln(&said, assembly.GenericRetainer())
	fmt.Fprintln(&said, assembly.ChilledSteel())
	for i, s := range assembly.SetScrews() {
		fmt.Fprintln(&said, i, s)
	}
	for i, f := range assembly.Frictions() {
		fmt.Fprintln(&said, i, f)
	}
	said.keep(t, "others.txt")
}
