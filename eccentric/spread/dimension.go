package spread

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Dimension is a size of the gear that can be off. It goes by the key that the
// engine file has for it; the zero Dimension is none.
type Dimension int

// The dimensions. A tolerance of PortSteam or PortBar moves both ends together
// unless the gear has another size at the crank end or CrankSteam or CrankBar has
// a tolerance of its own.
const (
	Stroke Dimension = iota + 1
	ConnectingRod
	EccentricRod
	LeverRatio
	PortSteam
	PortBar
	PortExhaust
	CrankSteam
	CrankBar
	ValveLength
	ValveCavity
	ValveOffset
	CavityOffset
	LostMotion
	Travel
	Advance
	ChestLength
)

var dimensions = names.Set{
	Package: "spread", Type: "Dimension", Field: "dimension of the gear",
	Texts: []string{
		Stroke:        "cylinder.stroke",
		ConnectingRod: "motion.connecting_rod",
		EccentricRod:  "motion.eccentric_rod",
		LeverRatio:    "motion.lever_ratio",
		PortSteam:     "ports.steam",
		PortBar:       "ports.bar",
		PortExhaust:   "ports.exhaust",
		CrankSteam:    "ports.crank_steam",
		CrankBar:      "ports.crank_bar",
		ValveLength:   "valve.length",
		ValveCavity:   "valve.cavity",
		ValveOffset:   "valve.offset",
		CavityOffset:  "valve.cavity_offset",
		LostMotion:    "valve.lost_motion",
		Travel:        "eccentric.travel",
		Advance:       "eccentric.advance",
		ChestLength:   "chest.length",
	},
	Also: []names.Name{{Text: "eccentric.stands", Value: int(Advance)}}, // the same angle from another line
}

// Dimensions returns all of them, in the order of the engine file.
func Dimensions() []Dimension {
	var all []Dimension
	for d := Stroke; dimensions.Known(int(d)); d++ {
		all = append(all, d)
	}
	return all
}

// String returns the key of the engine file: "valve.length".
func (d Dimension) String() string { return dimensions.Text(int(d)) }

// ParseDimension returns the dimension of that key; see [Dimension.String].
// "eccentric.stands" is the same as "eccentric.advance": one degree of where the
// sheave stands is one degree of its advance. Another text is a
// [*units.ParseError] that lists the keys.
func ParseDimension(key string) (Dimension, error) {
	v, err := dimensions.Value(key)
	return Dimension(v), err
}

// MarshalText implements [encoding.TextMarshaler]; no dimension has blank text.
func (d Dimension) MarshalText() ([]byte, error) { return dimensions.Marshal(int(d)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (d *Dimension) UnmarshalText(text []byte) error { return names.Unmarshal(&dimensions, d, text) }

// in returns where the kernel's gear has the dimension.
func (d Dimension) in(k *kernel.Gear) *float64 {
	switch d {
	case Stroke:
		return &k.Stroke
	case ConnectingRod:
		return &k.ConnectingRod
	case EccentricRod:
		return &k.EccentricRod
	case LeverRatio:
		return &k.Lever
	case PortSteam:
		return &k.SteamPort
	case PortBar:
		return &k.Bar
	case PortExhaust:
		return &k.MiddlePort
	case CrankSteam:
		return &k.CrankSteamPort
	case CrankBar:
		return &k.CrankBar
	case ValveLength:
		return &k.ValveLength
	case ValveCavity:
		return &k.Cavity
	case ValveOffset:
		return &k.Offset
	case CavityOffset:
		return &k.CavityOffset
	case LostMotion:
		return &k.LostMotion
	case Travel:
		return &k.Travel
	case Advance:
		return &k.Advance
	default:
		return &k.Chest
	}
}

// absent reports whether the gear has no such size, so that it cannot be off.
func (d Dimension) absent(g *eccentric.Gear) bool {
	switch d {
	case ConnectingRod:
		return g.ConnectingRod.Infinite()
	case EccentricRod:
		return g.EccentricRod.Infinite()
	case LeverRatio:
		return g.LeverRatio == 0
	case ChestLength:
		return g.Chest == units.Length{}
	}
	return false
}

// put gives the gear that size, in the numbers of the kernel.
func (d Dimension) put(g *eccentric.Gear, size float64) {
	l := units.Picometres(0)
	if d.measure() == aLength {
		l = units.Picometres(int64(math.Round(size)))
	}
	switch d {
	case Stroke:
		g.Stroke = l
	case ConnectingRod:
		g.ConnectingRod = eccentric.RodOf(l)
	case EccentricRod:
		g.EccentricRod = eccentric.RodOf(l)
	case LeverRatio:
		g.LeverRatio = size
	case PortSteam:
		g.Ports.Steam = l
	case PortBar:
		g.Ports.Bar = l
	case PortExhaust:
		g.Ports.Exhaust = l
	case CrankSteam:
		g.Ports.CrankSteam = l
	case CrankBar:
		g.Ports.CrankBar = l
	case ValveLength:
		g.Valve.Length = l
	case ValveCavity:
		g.Valve.Cavity = l
	case ValveOffset:
		g.Valve.Offset = l
	case CavityOffset:
		g.Valve.CavityOffset = l
	case LostMotion:
		g.Valve.LostMotion = l
	case Travel:
		g.Travel = l
	case Advance:
		g.Advance = units.Angle(size)
	case ChestLength:
		g.Chest = l
	}
}
