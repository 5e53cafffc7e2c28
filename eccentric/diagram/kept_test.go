package diagram

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// A kept is an invented engine whose pictures are kept.
type kept struct {
	name string
	eccentric.Gear
	Options
}

// keptEngines are invented, and as unlike as may be.
func keptEngines(t *testing.T) []kept {
	t.Helper()
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	usual := eccentric.Gear{Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.2)})}

	large := eccentric.Ports{Steam: units.MM(9.5), Bar: units.MM(10), Exhaust: units.MM(19),
		CrankSteam: units.MM(8), CrankBar: units.MM(11)}
	inside := eccentric.Gear{Stroke: units.MM(160), ConnectingRod: eccentric.InfiniteRod(), EccentricRod: eccentric.InfiniteRod(),
		Travel: units.MM(33), Advance: 31 * units.Degree, LeverRatio: -1.4, InsideAdmission: true, Ports: large,
		Valve: large.ValveWith(eccentric.Laps{Steam: units.MM(0.7), Exhaust: units.MM(4.5)})}
	inside.Valve.Offset, inside.Valve.CavityOffset, inside.Valve.LostMotion = units.MM(-0.6), units.MM(0.35), units.MM(0.5)

	shut := usual // hardly ever opens to steam at one end, and at the other never shuts to exhaust
	shut.Travel, shut.LeverRatio, shut.Advance = units.MM(5), 0.6, 15*units.Degree
	shut.EccentricRod = eccentric.RodOf(units.MM(70))
	shut.Valve = ports.ValveWith(eccentric.Laps{Steam: units.MM(2.3), Exhaust: units.MM(-1)})
	shut.Valve.Offset = units.MM(1.7)

	wide := usual // the cavity reaches past the ports
	wide.Travel, wide.LeverRatio = units.MM(8), 1.8
	wide.EccentricRod = eccentric.RodOf(units.MM(40))
	wide.Valve = eccentric.Valve{Length: units.MM(20), Cavity: units.MM(16)}

	tiny := usual
	tiny.Stroke, tiny.ConnectingRod = units.MM(6), eccentric.RodOf(units.MM(11))
	tiny.Ports = eccentric.Ports{Steam: units.MM(0.5), Bar: units.MM(0.8), Exhaust: units.MM(1)}
	tiny.Valve = tiny.Ports.ValveWith(eccentric.Laps{Steam: units.MM(0.05), Exhaust: units.MM(-0.03)})
	tiny.Travel, tiny.Advance, tiny.EccentricRod = units.MM(1.5), 4*units.Degree, eccentric.RodOf(units.MM(9))

	idle := usual // opens to nothing
	idle.Travel, idle.EccentricRod = units.MM(2), eccentric.InfiniteRod()
	idle.Valve = ports.ValveWith(eccentric.Laps{Steam: units.MM(2.2), Exhaust: units.MM(1.3)})

	all := []kept{
		{"usual", usual, Options{}},
		{"inside", inside, Options{Inch: true, Rotation: setting.Anticlockwise, SeenFrom: "the flywheel side"}},
		{"shut", shut, Options{Rotation: setting.Clockwise, SeenFrom: "a side with a name that is far too long for any picture at all"}},
		{"wide", wide, Options{Inch: true, Rotation: setting.Clockwise}},
		{"tiny", tiny, Options{Inch: true}},
		{"idle", idle, Options{Rotation: setting.Anticlockwise}},
	}
	for _, k := range all {
		if err := k.Validate(); err != nil {
			t.Fatal(k.name, err)
		}
	}
	return all
}

// on is an engine at work that has such a gear; a second has heavy parts and two cranks.
func (k kept) on() indicator.Running {
	r := indicator.Running{Gear: k.Gear, Bore: k.Stroke.Scale(0.88), Medium: indicator.Air, Index: 1.3,
		Chest: 1.5 * units.Bar, Clearance: indicator.Shares{Head: 0.08, Crank: 0.11}}
	if k.Inch {
		r.Medium, r.Index, r.Chest, r.Back = indicator.Steam, 1.135, 4*units.Bar, 0.1*units.Bar
		r.PistonRod, r.Cranks = k.Stroke.Scale(0.2), []units.Angle{90 * units.Degree}
		r.Speed, r.Moving = 240*units.RevPerMinute, units.Mass(0.3*k.Stroke.In(units.Inches))*units.Kilogram
	}
	return r
}

// within is a study of such a gear.
func (k kept) within() spread.Study {
	s := spread.Study{Gear: k.Gear}
	for _, d := range [...]spread.Dimension{spread.Travel, spread.ValveLength, spread.ValveOffset} {
		by := k.Travel.Scale(0.006 * float64(1+len(s.Tolerances)))
		s.Tolerances = append(s.Tolerances, spread.Tolerance{Dimension: d,
			Lower: spread.Deviation{Length: by.Neg()}, Upper: spread.Deviation{Length: by}})
	}
	s.Tolerances = append(s.Tolerances, spread.Tolerance{Dimension: spread.Advance,
		Lower: spread.Deviation{Angle: -units.Degree}, Upper: spread.Deviation{Angle: 1.5 * units.Degree}})
	return s
}

// keep compares the words and all lines of the pictures of a kind of six engines with those
// that are kept, which tells of every line and word that moves. Whether they are right is
// measured by the other tests.
func keep(t *testing.T, kind string, draw func(kept) ([]Picture, error)) {
	t.Helper()
	var texts []string // of each picture of the kind
	for _, k := range keptEngines(t) {
		drawn, err := draw(k)
		if err != nil {
			t.Fatal(k.name, err)
		}
		for i, p := range drawn {
			if len(texts) == i {
				texts = append(texts, "")
			}
			texts[i] += fmt.Sprintf("== %s ==\n%s\n%s\n%s\n%s", k.name, p.Name, p.Alt, p.Caption, read(t, p).List())
		}
	}
	for i, text := range texts {
		check.Kept(t, fmt.Sprintf("eccentric/diagram/kept/%s_%d.txt", kind, i+1), text)
	}
}

func one(p Picture, err error) ([]Picture, error) { return []Picture{p}, err }

func TestValveKept(t *testing.T) {
	keep(t, "valve", func(k kept) ([]Picture, error) { return one(Valve(k.Gear, k.Options)) })
}

func TestPositionsKept(t *testing.T) {
	keep(t, "positions", func(k kept) ([]Picture, error) { return Positions(k.Gear, k.Options) })
}

func TestDriveKept(t *testing.T) {
	keep(t, "drive", func(k kept) ([]Picture, error) { return Drive(k.Gear, k.Options) })
}

func TestDisplacementKept(t *testing.T) {
	keep(t, "displacement", func(k kept) ([]Picture, error) { return one(Displacement(k.Gear, k.Options)) })
}

func TestOvalKept(t *testing.T) {
	keep(t, "oval", func(k kept) ([]Picture, error) { return one(Oval(k.Gear, k.Options)) })
}

func TestPolarKept(t *testing.T) {
	keep(t, "polar", func(k kept) ([]Picture, error) { return one(Polar(k.Gear, k.Options)) })
}

func TestPortOpeningsKept(t *testing.T) {
	keep(t, "openings", func(k kept) ([]Picture, error) { return one(PortOpenings(k.Gear, k.Options)) })
}

func TestAtWorkKept(t *testing.T) {
	keep(t, "at_work", func(k kept) ([]Picture, error) { return AtWork(k.on(), k.Options) })
}

func TestBandsKept(t *testing.T) {
	keep(t, "bands", func(k kept) ([]Picture, error) { return Bands(k.within(), k.Options) })
}
