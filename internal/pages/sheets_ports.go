package pages

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/units"
)

// ports draws the marking out of the port face, with the travel across the paper, or up
// it where that takes fewer sheets.
func (s *sheetMaker) ports() error {
	const name = "Port face, marking out"
	s.tell("sheet of the port face")
	gear, err := gearOf(s.e)
	if err != nil {
		return err
	}
	across, err := portMarking(gear, rulerOf(s.e), false)
	if err != nil {
		return err
	}
	across.Face.Name, across.Engine = name, nameOf(s.e)
	across.Warnings, across.Remarks = saidOnSheet(s.valve.Findings, s.options.Inch)
	t, err := template.NewMarking(across, s.options)
	if err == nil && t.Pages() == 1 {
		return s.add("port-face", name, t, nil)
	}
	up, errUp := portMarking(gear, rulerOf(s.e), true)
	if errUp != nil {
		return errUp
	}
	up.Face.Name, up.Engine, up.Warnings, up.Remarks = name, across.Engine, across.Warnings, across.Remarks
	if turned, errUp := template.NewMarking(up, s.options); errUp == nil && (err != nil || turned.Pages() < t.Pages()) {
		t, err = turned, nil
	}
	return s.add("port-face", name, t, err)
}

// portMarking is the face of the ports with the lines to scribe, and those at which the
// ends of the valve come to stand. Turned, the head end is above, and not on the left.
func portMarking(g eccentric.Gear, r ruler, turned bool) (m template.Marking, err error) {
	// with the widest cutter that goes into all of them, for their edges alone
	narrowest := slices.MinFunc([]units.Length{g.Ports.Steam, g.Ports.Exhaust, g.Ports.Length}, units.Length.Cmp)
	if crank, _ := g.Ports.At(eccentric.CrankEnd); crank.Cmp(narrowest) < 0 {
		narrowest = crank
	}
	cuts, err := marking.PortFace{Ports: g.Ports, Cutter: narrowest}.Cuts()
	if err != nil {
		return m, err
	}
	along := func(name string, at units.Length, unseen bool) {
		if turned {
			at = at.Neg()
		}
		m.Lines = append(m.Lines, template.Line{Name: name, Level: turned, At: at, Unseen: unseen})
	}
	across := func(name string, at units.Length, unseen bool) {
		m.Lines = append(m.Lines, template.Line{Name: name, Level: !turned, At: at, Unseen: unseen})
	}
	half := g.Ports.Length.Scale(0.5)
	for i, c := range cuts {
		names := [...][2]string{
			{"head end's port, outer edge", "head end's port, inner edge"},
			{middlePort(g) + ", towards the head", middlePort(g) + ", towards the crank"},
			{"crank end's port, inner edge", "crank end's port, outer edge"},
		}[i]
		along(names[0], c.Low, false)
		along(names[1], c.High, false)
		port := gasket.Rect{
			Centre: gasket.Point{X: c.Low.Add(c.High).Scale(0.5)}, Width: c.High.Sub(c.Low), Height: g.Ports.Length,
		}
		if turned {
			port.Centre.X, port.Centre.Y = port.Centre.Y, port.Centre.X.Neg()
			port.Width, port.Height = port.Height, port.Width
		}
		loop, err := port.Loop()
		if err != nil {
			return m, err
		}
		m.Face.Cutouts = append(m.Face.Cutouts, loop)
	}
	along("middle of the "+middlePort(g), units.Length{}, false)
	across("end of all ports", half.Neg(), false)
	across("middle line along the travel", units.Length{}, false)
	across("end of all ports", half, false)
	ends, err := valveEnds(g)
	if err != nil {
		return m, err
	}
	for i, name := range [...]string{
		"valve's head end, furthest out", "valve's head end, furthest in",
		"valve's crank end, furthest in", "valve's crank end, furthest out",
	} {
		along(name, ends[i], true)
	}
	where := "The head end is on the left, the crank on the right."
	if turned {
		where = "The head end is above, the crank below."
	}
	m.Notes = []string{
		where + " 0 is the middle of the " + middlePort(g) + ".",
		"Scribe the whole lines, and the chain lines through 0. Dashed: where the ends of the valve come to stand at both" +
			" extremes.",
		sizesOfPorts(g, r),
		"The file does not say where the edge of the face is.",
	}
	return m, nil
}

// sizesOfPorts are the widths of ports and bars, and their length.
func sizesOfPorts(g eccentric.Gear, r ruler) string {
	size := func(l units.Length) string {
		if r.inch {
			return r.drawn(l, 2)
		}
		return r.plain(l) + " mm"
	}
	steam, bar := g.Ports.At(eccentric.HeadEnd)
	crankSteam, crankBar := g.Ports.At(eccentric.CrankEnd)
	return fmt.Sprintf("Head end's port %s, bar %s, %s %s, bar %s, crank end's port %s; all %s long.", size(steam), size(bar),
		middlePort(g), size(g.Ports.Exhaust), size(crankBar), size(crankSteam), size(g.Ports.Length))
}

// valveEnds are where both ends of the valve stand furthest to the head end and to the
// crank, in order from the head end.
func valveEnds(g eccentric.Gear) (ends [4]units.Length, err error) {
	one, err := g.Displacement(math.Pi/2 - g.Advance)
	other, errOther := g.Displacement(-math.Pi/2 - g.Advance)
	if err := errors.Join(err, errOther); err != nil {
		return ends, err
	}
	if one.Cmp(other) > 0 {
		one, other = other, one
	}
	half := g.Valve.Length.Scale(0.5)
	return [4]units.Length{one.Sub(half), other.Sub(half), one.Add(half), other.Add(half)}, nil
}
