package engine

import (
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Wanted is what the valve gear is to do, for a gear that is designed.
type Wanted struct {
	CutOff      *Share                 `toml:"cut_off"`
	CutOffAt    Where                  `toml:"cut_off_at"`
	Lead        *units.Length          `toml:"lead"`    // the mean of both ends, as the next is
	Opening     *units.Length          `toml:"opening"` // the greatest, to steam
	Travel      *units.Length          `toml:"travel"`
	ExhaustLap  *units.Length          `toml:"exhaust_lap"`
	Compression *Share                 `toml:"compression"`
	Equal       Equal                  `toml:"equal"`
	Step        *units.Length          `toml:"step"`  // that can be held
	Speed       *units.RotationalSpeed `toml:"speed"` // of the engine, for ports by rule
}

// A Share is a share of a whole, given as text: "75 %" or "0.75".
type Share float64

// UnmarshalText reads a share in per cent, with their sign, or as a number from 0
// to 1.
func (s *Share) UnmarshalText(text []byte) error {
	const accepted = `a share in per cent, such as "75 %", or from 0 to 1, such as "0.75"`
	number, perCent := strings.CutSuffix(strings.TrimSpace(string(text)), "%")
	v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	switch {
	case err != nil:
		return fault.Package("engine").Text("share", string(text), "not a number", accepted, units.ErrSyntax)
	case perCent:
		v /= 100
	}
	if !(v >= 0 && v <= 1) {
		return fault.Package("engine").Text("share", string(text), "", accepted, units.ErrOutOfRange)
	}
	*s = Share(v)
	return nil
}

// A Where is the end at which the cut-off is wanted. The zero value is the mean of
// both ends.
type Where int

// The places, with the values of the ends.
const (
	AtMean Where = iota
	AtHead
	AtCrank
)

var whereNames = names.Set{Package: "engine", Type: "Where", Field: "where the cut-off is counted",
	Texts: []string{"mean", "head", "crank"}}

// String returns "mean", "head" or "crank".
func (w Where) String() string { return whereNames.Text(int(w)) }

// MarshalText implements [encoding.TextMarshaler].
func (w Where) MarshalText() ([]byte, error) { return whereNames.Marshal(int(w)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (w *Where) UnmarshalText(text []byte) error { return names.Unmarshal(&whereNames, w, text) }

// An Equal is what is to be equal at both ends. The zero value is nothing.
type Equal int

// What may be equal.
const (
	EqualLead Equal = iota + 1
	EqualCutOff
)

var equalNames = names.Set{Package: "engine", Type: "Equal", Field: "what is to be equal at both ends",
	Texts: []string{"", "lead", "cut_off"}}

// String returns "lead" or "cut_off".
func (e Equal) String() string { return equalNames.Text(int(e)) }

// MarshalText implements [encoding.TextMarshaler].
func (e Equal) MarshalText() ([]byte, error) { return equalNames.Marshal(int(e)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (e *Equal) UnmarshalText(text []byte) error { return names.Unmarshal(&equalNames, e, text) }

// ValidateWanted complains of what the design of a valve gear lacks, and of what
// does not go together. It asks for less than [Engine.ValidateGear]: what is to be
// found may be missing.
func (e *Engine) ValidateWanted() error {
	cylinder := e.entry("cylinder")
	cylinder.need(aLength, "stroke")
	cylinder.above("stroke", e.Cylinder.Stroke, aboveZero)
	cylinder.above("bore", e.Cylinder.Bore, aboveZero)
	motion := e.entry("motion")
	motion.need(aLength+`, or "infinite"`, "connecting_rod", "eccentric_rod")
	wanted := e.entry("wanted")
	wanted.need(`the share of the stroke at which steam is cut off, such as "75 %"`, "cut_off")
	for _, pair := range [][2]string{{"opening", "travel"}, {"exhaust_lap", "compression"}} {
		if wanted.has(pair[0]) && wanted.has(pair[1]) {
			wanted.complain(pair[1], "%s is given too, and fixes it; accepted: one of the two", pair[0])
		}
	}
	if c := e.Wanted.Compression; c != nil && *c == 0 {
		wanted.complain("compression", "none; accepted: above 0 %%, or exhaust_lap")
	}
	wanted.above("opening", e.Wanted.Opening, aboveZero)
	wanted.above("travel", e.Wanted.Travel, aboveZero)
	wanted.above("step", e.Wanted.Step, aboveZero+`, such as "0.05 mm"`)
	if s := e.Wanted.Speed; s != nil && !(*s > 0) {
		wanted.complain("speed", "%v; accepted: above zero", *s)
	}
	if ratio := e.Motion.LeverRatio; ratio != nil && *ratio == 0 {
		motion.complain("lever_ratio", noLever)
	}
	ports := e.entry("ports")
	ports.above("steam", e.Ports.Steam, aboveZero+", or none, and it is found")
	ports.above("bar", e.Ports.Bar, aboveZero+", or none, and it is found")
	ports.above("exhaust", e.Ports.Exhaust, aboveZero+", or none, and it is found")
	ports.above("length", e.Ports.Length, aboveZero)
	const asHead = aboveZero + "; leave the key out where it is as at the head end"
	ports.above("crank_steam", e.Ports.CrankSteam, asHead)
	ports.above("crank_bar", e.Ports.CrankBar, asHead)
	for _, pair := range [][2]string{{"crank_steam", "steam"}, {"crank_bar", "bar"}} {
		if ports.has(pair[0]) && !ports.has(pair[1]) {
			ports.complain(pair[0], "%s is not given; accepted: both, or neither, and it is found", pair[1])
		}
	}
	chest := e.entry("chest")
	chest.above("length", e.Chest.Length, aboveZero+", or no chest at all")
	if !wanted.has("opening") && !wanted.has("travel") && !ports.has("steam") {
		if !wanted.has("speed") || !cylinder.has("bore") {
			wanted.need(`the greatest opening to steam, such as "2 mm"; or travel; or the width of the ports, [ports] steam;`+
				` or speed, such as "300 rev/min", and [cylinder] bore, for ports by a rule`, "opening")
		}
	}
	return said(cylinder, motion, wanted, ports, chest, e.valveKind())
}

// Inches reports whether the file is in inches: it says so, or its bore or stroke
// is a whole number of 64ths of an inch and not of tenths of a millimetre.
func (e *Engine) Inches() bool {
	if e.File.Units != 0 {
		return e.File.Units == Inch
	}
	whole := func(l *units.Length, step units.Length) bool {
		return l != nil && l.Picometres()%step.Picometres() == 0
	}
	for _, l := range []*units.Length{e.Cylinder.Bore, e.Cylinder.Stroke} {
		if whole(l, units.InchFraction(1, 64)) && !whole(l, units.MM(0.1)) {
			return true
		}
	}
	return false
}

// Wish returns what is wanted of the valve gear and what the file gives of it;
// false where something is missing that [Engine.ValidateWanted] complains of. The
// valve's length and cavity and the eccentric of the file are not in it.
func (e *Engine) Wish() (w eccentric.Wish, ok bool) {
	if e.Cylinder.Stroke == nil || e.Motion.ConnectingRod == nil || e.Motion.EccentricRod == nil ||
		e.Wanted.CutOff == nil {
		return w, false
	}
	g := &w.Gear
	g.Stroke, g.ConnectingRod, g.EccentricRod = *e.Cylinder.Stroke, *e.Motion.ConnectingRod, *e.Motion.EccentricRod
	for to, from := range map[*units.Length]*units.Length{
		&g.Ports.Steam: e.Ports.Steam, &g.Ports.Bar: e.Ports.Bar, &g.Ports.Exhaust: e.Ports.Exhaust,
		&g.Ports.Length: e.Ports.Length, &g.Ports.CrankSteam: e.Ports.CrankSteam, &g.Ports.CrankBar: e.Ports.CrankBar,
		&g.Valve.Offset: e.Valve.Offset, &g.Valve.CavityOffset: e.Valve.CavityOffset, &g.Valve.LostMotion: e.Valve.LostMotion,
		&g.Chest: e.Chest.Length, &g.Travel: e.Wanted.Travel,
		&w.Lead: e.Wanted.Lead, &w.Opening: e.Wanted.Opening, &w.ExhaustLap: e.Wanted.ExhaustLap, &w.Step: e.Wanted.Step,
		&w.Bore: e.Cylinder.Bore,
	} {
		if from != nil {
			*to = *from
		}
	}
	g.InsideAdmission = strings.EqualFold(e.Valve.Admission, "inside")
	if e.Motion.LeverRatio != nil {
		g.LeverRatio = *e.Motion.LeverRatio
	}
	w.CutOff, w.CutOffAt = float64(*e.Wanted.CutOff), eccentric.End(e.Wanted.CutOffAt)
	if e.Wanted.Compression != nil {
		w.Compression = float64(*e.Wanted.Compression)
	}
	if e.Wanted.Speed != nil {
		w.Speed = *e.Wanted.Speed
	}
	w.EqualLead, w.EqualCutOff = e.Wanted.Equal == EqualLead, e.Wanted.Equal == EqualCutOff
	if e.Wanted.Step == nil && e.Inches() {
		w.Step = units.InchFraction(1, 64)
	}
	return w, true
}
