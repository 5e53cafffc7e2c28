package seal

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// answers collects what is said, a line for each.
type answers struct{ strings.Builder }

func (a *answers) tell(name string, v any, err error) {
	said, _, _ := strings.Cut(fmt.Sprint(v), ", findings ")
	if err != nil {
		said = err.Error()
	}
	fmt.Fprintf(a, "%s: %s\n", name, said)
}

func (a *answers) findings(fs finding.List) {
	for _, f := range fs {
		fmt.Fprintf(a, "  %s %s: %s | %s\n", f.Code, f.Severity, f.Text, strings.Join(f.Remedies, " | "))
	}
}

// What is said of every material in services that it stands and that it does not, and
// which materials are named in its place. Figures are those of the tables.
func TestChecksAsTheyRead(t *testing.T) {
	var said answers
	services := []Service{
		{Medium: Steam, Pressure: 1 * units.Bar}, {Medium: Steam, Pressure: 7 * units.Bar, Oiled: true},
		{Medium: Steam, Pressure: 10 * units.Bar, Temperature: units.Celsius(320)},
		{Medium: Air, Temperature: units.Celsius(20)},
		{Medium: Oil, Temperature: units.Celsius(90), Pressure: 60 * units.Bar},
		{Medium: Water, Temperature: units.Celsius(140), Pressure: 400 * units.Bar},
	}
	for _, s := range services {
		for _, name := range strings.Split(limits.known(), ", ") {
			m, err := material.Lookup(name)
			if err != nil {
				t.Fatal(err)
			}
			fs, err := Check(m, s)
			if err != nil || fs != nil {
				said.tell(fmt.Sprintf("%s in %v of %.0f bar at %.0f C, oiled %v", name, s.Medium, s.Pressure.In(units.Bar), s.Temperature.Celsius(), s.Oiled), "", err)
			}
			said.findings(fs)
		}
		for _, stress := range []units.Pressure{1, 1.4 * units.Megapascal, 11 * units.Megapascal, 80 * units.Megapascal} {
			soft, err := SeatedBy(stress, s)
			var names []string
			for _, f := range soft {
				names = append(names, fmt.Sprintf("%s %.2f MPa", f.Material, f.Y.In(units.Megapascal)))
			}
			said.tell(fmt.Sprintf("seated by %.1f MPa", stress.In(units.Megapascal)), strings.Join(names, ", "), err)
		}
	}
	check.Kept(t, "gasket/seal/kept/checks.txt", said.String())
}

// How rings sit on rods and in bores of all sizes, with what is said of it.
func TestSeatsAsTheyRead(t *testing.T) {
	var said answers
	for thou := 60; thou <= 620; thou += 20 {
		for _, duty := range []Duty{Dynamic, Static} {
			d := units.Thou(float64(thou))
			var sizes []string
			for _, choose := range []func(units.Length, Duty) ([]Ring, error){RingsInGland, RingsOnPiston} {
				rings, err := choose(d, duty)
				sizes = append(sizes, "")
				for _, r := range rings {
					sizes = append(sizes, r.Size)
				}
				if err != nil {
					sizes = append(sizes, "none")
				}
			}
			said.tell(fmt.Sprintf("%d thou, %v", thou, duty), strings.Join(sizes, " "), nil)
		}
	}
	for _, size := range []string{"001", "006", "010", "012", "110", "116", "210"} {
		r, err := LookupRing(size)
		if err != nil {
			t.Fatal(err)
		}
		for _, duty := range []Duty{Dynamic, Static} {
			for _, over := range []float64{0.9, 0.99, 1.02, 1.045, 1.07, 1.12, 1.6} {
				d := r.Inside.Scale(over)
				for k, seat := range []func(units.Length, Duty) (Seat, error){r.InGland, r.OnPiston} {
					s, err := seat(d, duty)
					line := fmt.Sprintf("bottom %s to %s, stretch %.4f, squeeze %.4f to %.4f, fill %.4f", s.DiameterMin.Text(units.Millimetres, 3),
						s.DiameterMax.Text(units.Millimetres, 3), s.Stretch, s.SqueezeMin, s.SqueezeMax, s.FillMax)
					said.tell(fmt.Sprintf("ring %s %v, %s %s", size, duty, []string{"rod", "bore"}[k], d.Text(units.Millimetres, 2)), line, err)
					for _, f := range s.Findings {
						fmt.Fprintln(&said, "  ", f.Code, f.Severity, strings.Join(f.Remedies, " "))
					}
				}
			}
		}
	}
	check.Kept(t, "gasket/seal/kept/seats.txt", check.Rounded(said.String()))
}

// What prints of a row of each table and of an answer, the words of findings and advice,
// and what is said of a name that is not known.
func TestTextsAsTheyRead(t *testing.T) {
	var said answers
	for _, l := range Limits() {
		said.tell("limit", l, nil)
	}
	for _, f := range Factors() {
		said.tell("factor", f, nil)
	}
	for _, s := range Sheets() {
		said.tell("sheet", s, nil)
	}
	for i, g := range Grooves() {
		said.tell("groove", g, nil)
		if i < 6 {
			said.findings(g.Advice())
		}
	}
	for _, size := range []string{"012", "12", "-1", "999", "x"} {
		r, err := LookupRing(size)
		said.tell("ring "+size, r, err)
	}
	g, err := GrooveFor(units.MM(2), Face)
	said.tell("groove of 2 mm", g, err)
	for _, m := range []string{"", "jointing without asbestos", "brass"} {
		p, err := PressedFor(material.Material{Name: m})
		said.tell("pressed "+m, p, err)
	}
	p, err := StuffingBox{Rod: units.MM(4), Bore: units.MM(9)}.Packing()
	said.tell("packing", p, err)
	said.findings(p.Findings)
	for _, place := range Places() {
		for _, to := range []float64{0, 0.25, 0.8} {
			c, err := Swap(place, units.MM(0.25), units.MM(to))
			said.tell(fmt.Sprintf("%v from 0.25 to %g mm", place, to), c, err)
			said.findings(c.Findings)
		}
	}
	// A ring of 006 by 1/8 in, and those that are stretched, loose, not squeezed or too fat.
	for _, test := range []struct {
		size string
		over float64
		duty Duty
	}{{"006", 1.096, Dynamic}, {"012", 1.07, Dynamic}, {"012", 1.3, Static}, {"210", 0.97, Static}, {"110", 1.9, Dynamic}} {
		r, err := LookupRing(test.size)
		if err != nil {
			t.Fatal(err)
		}
		r.SectionTolerance = r.SectionTolerance.Scale(4)
		s, err := r.InGland(r.Inside.Scale(test.over), test.duty)
		said.tell(fmt.Sprintf("ring %s at %g", test.size, test.over), fmt.Sprintf("stretch %.3f", s.Stretch), err)
		said.findings(s.Findings)
		over, err := r.OnPiston(r.Inside.Scale(test.over+0.6), test.duty)
		said.tell("  on a piston", fmt.Sprintf("stretch %.3f", over.Stretch), err)
		said.findings(over.Findings)
	}
	r, err := LookupRing("012")
	if err != nil {
		t.Fatal(err)
	}
	s, err := r.InGland(units.MM(9.5), Static)
	said.tell("012 on 9.5 mm", s, err)
	s, err = r.OnPiston(units.MM(2.5), Static)
	said.tell("012 in 2.5 mm", s.Groove.Section, err)
	check.Kept(t, "gasket/seal/kept/texts.txt", check.Rounded(said.String()))
}
