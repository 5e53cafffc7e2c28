// Shrink says whether a hub and a shaft go together at the temperatures that
// are to be had, when the fit grabs, and, with the other dimensions, what the
// joint then bears.
//
//	go run ./examples/shrink -d "3/8 in" -over "1 thou" -clear "0.3 thou" -hub "mild steel" -shaft "phosphor bronze" -hub-at "200 degC" -shaft-at "-18 degC"
//	go run ./examples/shrink -d "20 mm" -over "0.02 mm" -hub-at "392 degF" -outside "40 mm" -length "20 mm" -mu 0.12
//
// A temperature needs its scale. It exits with 1 when the parts would stick or
// break, and with 2, and nothing but the reason, when it is used wrongly.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

func main() { os.Exit(cli.Run(run)) }

func run(args []string, stdout, stderr io.Writer) int {
	room := units.Celsius(20)
	steel, err := material.Lookup("mild steel")
	if err != nil {
		panic(err)
	}
	s := assembly.Shrink{Hub: steel, Shaft: steel, Room: room}
	p := assembly.Press{}
	var mu float64
	flags := flag.NewFlagSet("shrink", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.TextVar(&s.Diameter, "d", units.Length{}, "diameter of the joint")
	flags.TextVar(&s.Interference, "over", units.Length{}, "interference on the diameter, cold")
	flags.TextVar(&s.Clearance, "clear", units.Length{}, "clearance on the diameter that assembly needs; without it a thousandth of the diameter")
	flags.TextVar(&s.Hub, "hub", s.Hub, "material of the hub")
	flags.TextVar(&s.Shaft, "shaft", s.Shaft, "material of the shaft or bush")
	flags.TextVar(&s.Room, "room", room, "temperature at which the parts were measured")
	flags.TextVar(&s.HubAt, "hub-at", room, `temperature of the hub, such as "200 degC" or "392 degF"`)
	flags.TextVar(&s.ShaftAt, "shaft-at", room, "temperature of the shaft or bush")
	flags.TextVar(&p.HubOutside, "outside", units.Length{}, "outside diameter of the hub; with -length and -mu, what the joint bears")
	flags.TextVar(&p.ShaftBore, "bore", units.Length{}, "bore of the shaft or bush; without it, solid")
	flags.TextVar(&p.Length, "length", units.Length{}, "length of the joint")
	flags.Usage = func() {
		fmt.Fprintln(stderr, `usage: shrink -d size -over interference [-hub-at temperature] [-shaft-at temperature] [flags]
Lengths and temperatures need their unit: "20 mm", "1 thou", "200 degC", "392 degF".`)
		flags.PrintDefaults()
	}
	flags.Float64Var(&mu, "mu", 0, "coefficient of friction, such as 0.12")
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return 2
	case flags.NArg() > 0:
		fmt.Fprintf(stderr, "shrink: %q: no such argument; accepted: flags, see -h\n", flags.Arg(0))
		return 2
	}
	if s.Clearance.IsZero() {
		s.Clearance = s.Diameter.Scale(0.001)
	}
	var b strings.Builder
	r, err := s.Solve()
	if err == nil {
		write(&b, s, r)
	}
	findings := r.Findings
	if err == nil && (!p.HubOutside.IsZero() || !p.ShaftBore.IsZero() || !p.Length.IsZero() || mu != 0) {
		p.Diameter, p.Interference, p.Hub, p.Shaft, p.Friction = s.Diameter, s.Interference, s.Hub, s.Shaft, assembly.Mu(mu)
		var more finding.List
		more, err = writePress(&b, p)
		findings = append(findings, more...)
	}
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	findings.Sort()
	var first strings.Builder
	for _, f := range findings {
		fmt.Fprintf(&first, "%s: %s\n", f.Severity, strings.Join(append([]string{f.Text}, f.Remedies...), " "))
	}
	if len(findings) > 0 {
		fmt.Fprintln(&first)
	}
	if len(r.Precautions) > 0 {
		fmt.Fprintln(&b, "\nWith care")
	}
	for _, p := range r.Precautions {
		fmt.Fprintf(&b, "  %s\n", p)
	}
	if _, err := io.WriteString(stdout, first.String()+b.String()); err != nil {
		fmt.Fprintln(stderr, "shrink:", err)
		return 2
	}
	if !findings.OK() {
		return 1
	}
	return 0
}

func write(w io.Writer, s assembly.Shrink, r assembly.ShrinkResult) {
	fmt.Fprintf(w, "hub of %s on a shaft or bush of %s, joint %s, interference %s\n\n",
		s.Hub, s.Shaft, both(s.Diameter), both(s.Interference))
	fmt.Fprintf(w, "  hub grows     alpha d (T - T0) = %s x %s x %.0f K = %s\n",
		s.Hub.Expansion.Value, s.Diameter, s.HubAt.Sub(s.Room).In(units.KelvinDifference), both(r.HubGrows))
	fmt.Fprintf(w, "  shaft shrinks alpha d (T0 - T) = %s x %s x %.0f K = %s\n",
		s.Shaft.Expansion.Value, s.Diameter, s.Room.Sub(s.ShaftAt).In(units.KelvinDifference), both(r.ShaftShrinks))
	fmt.Fprintf(w, "  clearance     %s + %s - %s = %s\n",
		mm(r.HubGrows), mm(r.ShaftShrinks), mm(s.Interference), both(r.AtAssembly))
	fmt.Fprintf(w, "\n  for a working clearance of %s\n", both(s.Clearance))
	missing := s.Interference.Add(s.Clearance)
	switch {
	case r.HubNeeded == 0:
		fmt.Fprintln(w, "  no heat of the hub is enough")
	case r.HubNeeded <= s.Room:
		fmt.Fprintln(w, "  the hub needs no heat with the shaft as it is")
	default:
		fmt.Fprintf(w, "  the hub needs %.4g degrees C + (%s - %s)/(%s x %s) = %s with the shaft as it is\n",
			s.Room.Celsius(), mm(missing), mm(r.ShaftShrinks), s.Hub.Expansion.Value, s.Diameter, degrees(r.HubNeeded))
	}
	if r.ShaftNeeded != 0 && r.ShaftNeeded < s.ShaftAt {
		colder := ""
		if r.ShaftNeeded < units.Celsius(-60) {
			colder = ", and colder still, as metals contract less in the cold"
		}
		fmt.Fprintf(w, "  or the shaft %.4g degrees C - (%s - %s)/(%s x %s) = %s with the hub as it is%s\n", s.Room.Celsius(),
			mm(missing), mm(r.HubGrows), s.Shaft.Expansion.Value, s.Diameter, degrees(r.ShaftNeeded), colder)
	}
	if r.AtAssembly.Sign() > 0 {
		fmt.Fprintf(w, "  it grabs when hub and shaft are %.0f K apart; they start %.0f K apart\n",
			r.GrabsAt.In(units.KelvinDifference), s.HubAt.Sub(s.ShaftAt).In(units.KelvinDifference))
	}
	fmt.Fprintf(w, "\nSource\n  expansion of %s: %s\n", s.Hub, s.Hub.Expansion.Refs.First())
	if s.Shaft.Name != s.Hub.Name {
		fmt.Fprintf(w, "  expansion of %s: %s\n", s.Shaft, s.Shaft.Expansion.Refs.First())
	}
}

func writePress(w io.Writer, p assembly.Press) (finding.List, error) {
	r, err := p.Solve()
	if err != nil {
		return nil, err
	}
	hub, shaft := p.Hub, p.Shaft
	fmt.Fprintln(w, "\nWhen both are at one temperature, Lame's formulas "+
		"(Shigley's Mechanical Engineering Design, equation 3-56)")
	fmt.Fprintf(w, "  Ch = ((D^2 + d^2)/(D^2 - d^2) + nu)/E = ((%[1]s^2 + %[2]s^2)/(%[1]s^2 - %[2]s^2) + %[3]v)/%[4]s\n",
		bare(p.HubOutside), bare(p.Diameter), hub.Poisson.Value, gigapascal(hub))
	fmt.Fprintf(w, "  Cs = ((d^2 + b^2)/(d^2 - b^2) - nu)/E = ((%[1]s^2 + %[2]s^2)/(%[1]s^2 - %[2]s^2) - %[3]v)/%[4]s\n",
		bare(p.Diameter), bare(p.ShaftBore), shaft.Poisson.Value, gigapascal(shaft))
	pressure := r.Pressure.In(units.Megapascal)
	fmt.Fprintf(w, "  pressure      delta/(d (Ch + Cs)) = %s/(%s (Ch + Cs)) = %.1f MPa (%.0f psi)\n",
		mm(p.Interference), p.Diameter, pressure, r.Pressure.In(units.PSI))
	fmt.Fprintf(w, "  hub           hoop %.0f MPa at its bore, %.0f MPa outside; grows %s\n",
		r.HubHoop.In(units.Megapascal), r.HubHoopOutside.In(units.Megapascal), both(r.HubGrowth))
	fmt.Fprintf(w, "  shaft         hoop %.0f MPa", r.ShaftHoopBore.In(units.Megapascal))
	if !p.ShaftBore.IsZero() {
		fmt.Fprintf(w, " at its bore, which closes by %s", both(r.CloseIn))
	}
	fmt.Fprintf(w, "\n  slides at     mu p pi d L = %.3g x %.1f MPa x pi x %s x %s = %.0f N (%.0f lbf)\n",
		p.Friction.Min, pressure, p.Diameter, p.Length, r.Axial.Min.In(units.Newton), r.Axial.Min.In(units.PoundForce))
	fmt.Fprintf(w, "  turns at      force x d/2 = %.1f N m (%.1f lbf ft)\n",
		r.Torque.Min.In(units.NewtonMetre), r.Torque.Min.In(units.PoundForceFoot))
	if !r.Greatest.IsZero() {
		verb := "yields"
		if hub.Tensile.Known() {
			verb = "cracks or yields"
		}
		fmt.Fprintf(w, "  %s from %s of interference\n", verb, both(r.Greatest))
	}
	fmt.Fprintln(w, "\nSource")
	for i, m := range []material.Material{hub, shaft} {
		if i > 0 && m.Name == hub.Name {
			continue
		}
		fmt.Fprintf(w, "  E of %s: %s\n  nu of %s: %s\n", m, m.Elasticity.Refs.First(), m, m.Poisson.Refs.First())
		if m.Yield.Known() {
			fmt.Fprintf(w, "  yield strength of %s, %.0f MPa: %s\n", m, m.Yield.Value.In(units.Megapascal), m.Yield.Refs.First())
		}
		if m.Tensile.Known() {
			fmt.Fprintf(w, "  tensile strength of %s, %.0f MPa: %s\n",
				m, m.Tensile.Value.In(units.Megapascal), m.Tensile.Refs.First())
		}
	}
	return r.Findings, nil
}

func bare(l units.Length) string { return strings.TrimSuffix(l.String(), " mm") }

func gigapascal(m material.Material) string {
	return fmt.Sprintf("%.4g GPa", m.Elasticity.Value.In(units.Gigapascal))
}

func mm(l units.Length) string { return l.Text(units.Millimetres, 4) }

func both(l units.Length) string {
	return l.Text(units.Millimetres, 4) + " (" + l.Text(units.Thousandths, 2) + ")"
}

func degrees(t units.Temperature) string {
	return fmt.Sprintf("%.0f degrees C (%.0f degrees F)", t.Celsius(), t.Fahrenheit())
}
